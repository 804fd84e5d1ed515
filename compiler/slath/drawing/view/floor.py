"""The base of the finished basket: its sticks and weaving, a board with its edge, and the shadow on the table."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from slath.basket.model import Basket
from slath.drawing.base.course import BaseCourse
from slath.drawing.base.frame_course import frame_strands
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.wardrobe import Wardrobe, is_flat
from slath.drawing.plate.plans import curve_points, lies_on_top
from slath.drawing.view.in_space import SpaceRod
from slath.drawing.view.wall import weaver_look
from slath.language.pattern import Board, Frame, ReadyMade

_MAT_EDGE = 4.0  # mm by which sticks show beyond the weaving of a mat without a border
_INSIDE = 3.0  # mm by which sticks end short of the edge where other stakes stand


def board_mm(basket: Basket) -> float:
    """Thickness of the board a basket stands on; 0 without one."""
    spec = basket.base.spec
    return spec.thickness_mm if isinstance(spec, Board) else 0.0


def has_plate(basket: Basket) -> bool:
    """Whether the base is one flat piece: a board, or bought; not where the work is begun on a ring."""
    spec = basket.base.spec
    on_a_ring = isinstance(spec, ReadyMade) and bool(spec.ring)
    return basket.base.slath is None and not isinstance(spec, Frame) and not on_a_ring


def floor(basket: Basket, clothes: Wardrobe, brightness: float) -> Iterator[SpaceRod]:
    """Sticks and strands of a woven base, all of it above the table."""
    base = basket.base
    if isinstance(base.spec, Frame):
        yield from _framed(basket, clothes, brightness)
        return
    if isinstance(base.spec, ReadyMade) and base.spec.ring:
        edge = curve_points(base.edge, 120)
        line = np.column_stack([edge, np.zeros(len(edge))])[[*range(len(edge)), 0]]
        key = base.spec.ring
        yield SpaceRod(line, basket.pattern.materials[key].thickness_mm, clothes.of(key), name="ring")
    if base.slath is None:
        return
    materials = basket.pattern.materials
    stick = max(materials[item.material].width_mm for item in base.sticks)
    widths = [materials[key].width_mm for band in base.bands for rod in band.materials for key in rod] or [2.5]
    course = BaseCourse(base, stick, math.fsum(widths) / len(widths))
    used = [materials[key] for band in base.bands for rod in band.materials for key in rod]
    thick = max((item.thickness_mm for item in used if is_flat(item)), default=course.strand)
    level = 0.5 * stick + thick
    inset = _each_way(basket, _inset(basket, thick))
    flatter = (stick + thick) / (stick + course.strand)
    for item in base.sticks:
        beyond, cut = _beyond(basket)
        line = course.stick_line(item, beyond) * (inset if beyond <= 0 else np.ones(2))
        lift = level + (0.0 if lies_on_top(item, base.sticks) else 0.35) * stick  # the maker's side lies below
        yield SpaceRod(
            np.column_stack([line, np.full(len(line), lift)]), 0.95 * stick, clothes.sticks, brightness=brightness,
            ends=(cut, cut), name=f"stick {item.number}",
        )  # fmt: skip
    width = base.spec.outline.width_mm
    packed = inset * _each_way(basket, min(1.0, width / (base.reached_mm or width)))
    for strand in course.strands():  # more rounds than the base has room for are packed closer than they were gauged
        points = strand.points * np.array([*packed, -flatter]) + np.array([0.0, 0.0, level])
        width = course.strand * 0.98
        yield SpaceRod(
            points, width, weaver_look(clothes, materials[strand.material]), brightness=brightness,
            name=f"base {strand.bands[0]} rod {strand.rod}", across=_across(points, basket, strand.material),
        )  # fmt: skip


def _beyond(basket: Basket) -> tuple[float, bool]:
    """How far sticks run past the edge of the weaving, and whether their cut ends show."""
    if any(stake.kind == "through" for stake in basket.stakes):
        return 0.0, False  # they turn up there
    if basket.profile or basket.border:
        return -_INSIDE, True
    return _MAT_EDGE, True


def _inset(basket: Basket, strand: float) -> float:
    """The base drawn so much smaller that it ends inside the wall that stands on its edge, as far as that stands up."""
    if basket.profile is None:
        return 0.985
    steep = basket.profile.height_of(1.0)  # of the first millimetre up the side
    outline = basket.base.edge.outline
    stake = basket.pattern.materials[basket.stakes[0].material].width_mm if basket.stakes else 0.0
    return max(0.9, 1.0 - steep * (0.5 * stake + 0.6 * strand) / (outline.width_mm / 2))


def _each_way(basket: Basket, narrower: float) -> Numbers:
    """How much a base is drawn smaller along its length and its width for all of its edge to move in as far."""
    outline = basket.base.spec.outline
    return np.array([1.0 - (1.0 - narrower) * outline.width_mm / outline.length_mm, narrower])


def _across(points: Numbers, basket: Basket, key: str) -> Numbers | None:
    """The way across the face of a flat strand that lies in the base: level, and square to its run."""
    if not is_flat(basket.pattern.materials[key]):
        return None
    run = np.gradient(points, axis=0)
    across = np.column_stack([-run[:, 1], run[:, 0], np.zeros(len(run))])
    return np.asarray(across / (np.linalg.norm(across, axis=1)[:, None] + 1e-9))


def _framed(basket: Basket, clothes: Wardrobe, brightness: float) -> Iterator[SpaceRod]:
    base, materials = basket.base, basket.pattern.materials
    stick = max(materials[item.material].width_mm for item in base.sticks)
    strands = frame_strands(base, stick)
    thick = max((materials[course.material].thickness_mm for course in strands), default=0.0)
    level = 0.5 * stick + thick
    half = np.array([base.spec.outline.length_mm, base.spec.outline.width_mm]) / 2
    reach = np.max([np.abs(course.points[:, :2]).max(axis=0) for course in strands] or [half], axis=0)
    wall = _inset(basket, thick) * half - 0.5 * thick
    inset = np.append(np.minimum(1.0, wall / reach), 1.0)
    for item in base.sticks:
        lift = level + (0.0 if item.over else 0.2) * stick
        points = np.array([(*_end(item.start, wall), lift), (*_end(item.finish, wall), lift)])
        yield SpaceRod(points, stick, clothes.sticks, brightness=brightness, name=f"stick {item.number}")
    for course in strands:
        points = course.points * np.array([1.0, 1.0, -1.0]) * inset + np.array([0.0, 0.0, level])
        width = materials[course.material].width_mm
        yield SpaceRod(
            points, width, weaver_look(clothes, materials[course.material]), brightness=brightness,
            name=f"base {course.bands[0]} rod {course.rod}", across=_across(points, basket, course.material),
        )  # fmt: skip


def _end(end: tuple[float, float], wall: Numbers) -> tuple[float, float]:
    """A stick end, drawn no further out than the inside of the wall."""
    x, y = np.clip(np.array(end), -wall, wall).tolist()
    return x, y


def outline(basket: Basket, level: float, grown: float = 0.0) -> Numbers:
    """The edge of the base at a level, so much grown."""
    edge = curve_points(basket.base.edge, 120)
    large = max(float(np.abs(edge).max()), 1.0)
    return np.column_stack([edge * (1 + grown / large), np.full(len(edge), level)])
