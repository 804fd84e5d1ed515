"""The shaped side as a surface: places counted round, up and outwards become points in space with normals.

Space is mm, x along the base, y across it, z up; the base lies at z = 0.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct

from slath.basket.model import Curve, Profile
from slath.drawing.paint.curves import Numbers

_ROWS, _COLUMNS = 28, 144  # grid of the side; 144 chords of a circle lose a thousandth of its radius


class Surface(Struct, frozen=True):
    """Points (rows, columns, 3) of a side at even ways up it and even fractions round it, with unit normals outwards."""

    points: Numbers
    normals: Numbers
    along: float

    def at(self, round_: Numbers, way: Numbers, out: Numbers | float) -> tuple[Numbers, Numbers]:
        """Points (n, 3) and normals at fractions round, mm up the side and mm outwards of it.

        Above the top the side runs straight on as it arrived there.
        """
        rows, columns = self.points.shape[:2]
        place = np.mod(round_, 1.0) * columns
        column = np.floor(place).astype(np.intp) % columns
        across = (place - np.floor(place))[:, None]
        level = np.asarray(way, float) / self.along * (rows - 1)
        row = np.clip(np.floor(level), 0, rows - 2).astype(np.intp)
        up = (level - row)[:, None]
        following = (column + 1) % columns
        point = self._mixed(self.points, row, column, following, up, across)
        normal = self._mixed(self.normals, row, column, following, np.clip(up, 0.0, 1.0), across)
        normal /= np.linalg.norm(normal, axis=1)[:, None]
        return point + normal * np.reshape(np.asarray(out, float), (-1, 1)), normal

    def girths(self) -> tuple[Numbers, Numbers]:
        """Ways up the side, rising, and how long once round is there."""
        step = np.linalg.norm(np.roll(self.points, -1, axis=1) - self.points, axis=2)
        return np.linspace(0.0, self.along, len(self.points)), step.sum(axis=1)

    @staticmethod
    def _mixed(
        grid: Numbers, row: Numbers, column: Numbers, following: Numbers, up: Numbers, across: Numbers
    ) -> Numbers:
        lower = grid[row, column] * (1 - across) + grid[row, following] * across
        upper = grid[row + 1, column] * (1 - across) + grid[row + 1, following] * across
        return np.asarray(lower * (1 - up) + upper * up)


def surface_of(profile: Profile) -> Surface:
    """The surface of a side."""
    ways = np.linspace(0.0, profile.along_mm, _ROWS)
    rows = []
    for way in ways.tolist():
        height = profile.height_of(way)
        curve = profile.curve_at(height)
        rows.append([(*curve.point(step / _COLUMNS), height) for step in range(_COLUMNS)])
    points = np.array(rows)
    around = np.roll(points, -1, axis=1) - np.roll(points, 1, axis=1)
    upwards = np.gradient(points, axis=0)
    normals = np.cross(around, upwards)
    normals /= np.linalg.norm(normals, axis=2)[:, :, None] + 1e-12
    return Surface(points, normals, profile.along_mm)


def flat_surface(edge: Curve) -> Surface:
    """The rim of a mat: up its side is out from its edge, and its outside lies below."""
    columns = [step / _COLUMNS for step in range(_COLUMNS)]
    inner = np.array([(*edge.point(u), 0.0) for u in columns])
    away = np.array([(*edge.normal(u), 0.0) for u in columns])
    points = np.stack([inner - 2.0 * away, inner])
    return Surface(points, np.tile(np.array([0.0, 0.0, -1.0]), (2, _COLUMNS, 1)), 2.0)


def skirt(edge: Curve, high: float) -> Surface:
    """A wall that stands straight up on an edge, `high` mm."""
    columns = [step / _COLUMNS for step in range(_COLUMNS)]
    foot = np.array([(*edge.point(u), 0.0) for u in columns])
    away = np.array([(*edge.normal(u), 0.0) for u in columns])
    points = np.stack([foot, foot + np.array([0.0, 0.0, high])])
    return Surface(points, np.stack([away, away]), high)


def round_at(fractions: Numbers, stakes: Numbers) -> Numbers:
    """Fractions round the basket of places counted in uprights (the first at 0.5) that stand at `fractions`, rising, over
    any number of turns.
    """
    count = len(fractions)
    closed = np.concatenate([[fractions[-1] - 1.0], fractions, [fractions[0] + 1.0]])
    turns = np.floor(stakes / count)
    within = stakes - turns * count
    return np.asarray(np.interp(within, np.arange(-0.5, count + 1.0, 1.0), closed) + turns)
