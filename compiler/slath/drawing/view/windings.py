"""What is wound, twisted or plaited round a line in space: helices, rods twisted together, plaits, balls and rings."""

from __future__ import annotations

import math

import numpy as np
from msgspec import Struct

from slath.drawing.paint.curves import Numbers, resample, travelled

_UP = np.array([0.0, 0.0, 1.0])


class Course(Struct, frozen=True):
    """A line (n, 3) in even steps with the way along it and two unit ways square to it: sideways, and the third."""

    points: Numbers
    way: Numbers
    side: Numbers
    over: Numbers

    def between(self, first: float, last: float) -> Course:
        """The part of the line between two ways along it."""
        inside = (self.way >= first) & (self.way <= last)
        return Course(self.points[inside], self.way[inside], self.side[inside], self.over[inside])

    def beside(self, sideways: Numbers, over: Numbers) -> Numbers:
        """Points off the line by so much to the side and over it, each (n,)."""
        return np.asarray(self.points + self.side * sideways[:, None] + self.over * over[:, None])


def course_of(line: Numbers, step: float) -> Course:
    """A line in even steps; its sides stay level as far as they can."""
    fine = resample(line, step)[0]
    along = np.gradient(fine, axis=0)
    along /= np.linalg.norm(along, axis=1)[:, None] + 1e-9
    level = np.cross(along, _UP)
    level = np.where(np.linalg.norm(level, axis=1)[:, None] > 0.05, level, level.mean(axis=0))
    level /= np.linalg.norm(level, axis=1)[:, None] + 1e-9
    return Course(fine, travelled(fine), level, np.cross(along, level))


def helix(course: Course, radius: float, lay: float, shift: float) -> Numbers:
    """A strand wound round the line, once in `lay` mm, beginning `shift` of a turn on."""
    phase = 2 * math.pi * (course.way / lay + shift)
    return course.beside(radius * np.cos(phase), radius * np.sin(phase))


def twisted(course: Course, rods: int, thick: float, lay: float) -> list[Numbers]:
    """Rods twisted together so that they touch."""
    radius = thick / 2 / math.sin(math.pi / rods) if rods > 1 else 0.0
    return [helix(course, radius, lay, rod / rods) for rod in range(rods)]


def plaited(course: Course, rods: int, thick: float) -> list[Numbers]:
    """Rods in a flat plait of three plies, those of a ply side by side; they cross its run at about 45 degrees."""
    plies = [rods // 3 + (1 if ply < rods % 3 else 0) for ply in range(3)]
    wide = max(plies) * thick
    reach = 0.75 * wide + 0.25 * thick
    lay = 2 * math.pi * reach  # the steepest part of the wave then stands at 45 degrees
    lines = []
    for ply, count in enumerate(plies):
        phase = 2 * math.pi * (course.way / lay + ply / 3)
        side, over = reach * np.cos(phase), 0.6 * thick * np.sin(2 * phase)
        slope = -np.sin(phase)
        steep = np.sqrt(1 + slope**2)
        for rod in range(count):
            beside = (rod - (count - 1) / 2) * thick
            lines.append(course.beside(side + beside / steep, over))
    return lines


def ball(middle: Numbers, across: float, strand: float) -> list[Numbers]:
    """A strand wound to a ball: turns side by side, across them, and through between, as rings in three planes."""
    radius = (across - strand) / 2
    turn = np.linspace(0.0, 2 * math.pi, 41)
    side_by_side = max(2, min(4, int(0.8 * radius / strand)))
    rings = []
    for plane in range(3):
        for number in range(side_by_side):
            off = (number - (side_by_side - 1) / 2) * strand
            flat = math.sqrt(max(radius**2 - off**2, 0.0))
            # Each plane passes over the one before on one half of its turn, and under it on the other.
            wave = 1.0 + 0.28 * strand / radius * np.sin(2 * turn + plane * math.pi / 3)
            ring = np.column_stack([flat * np.cos(turn) * wave, flat * np.sin(turn) * wave, np.full(len(turn), off)])
            rings.append(middle + np.roll(ring, plane, axis=1))
    return rings


def ring(middle: Numbers, radius: float, one: Numbers, other: Numbers) -> Numbers:
    """A closed ring about a point in the plane of two unit ways."""
    turn = np.linspace(0.0, 2 * math.pi, 49)
    return np.asarray(middle + radius * (np.cos(turn)[:, None] * one + np.sin(turn)[:, None] * other))


def coil(middle: Numbers, radius: float, along: Numbers, one: Numbers, turns: int, strand: float) -> Numbers:
    """Turns laid side by side round an axis `along`; `one` is a unit way square to it where the first begins."""
    other = np.cross(along, one)
    turn = np.linspace(0.0, 2 * math.pi * turns, 28 * turns + 1)
    shift = (turn / (2 * math.pi) - turns / 2) * strand
    circle = np.cos(turn)[:, None] * one + np.sin(turn)[:, None] * other
    return np.asarray(middle + radius * circle + shift[:, None] * along)
