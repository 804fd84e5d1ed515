"""The handles of the finished basket: bows in the wall, twisted and plaited ones, rings and drops hung on it, ears."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from slath.basket.handle_wrap import TWIST_LAY
from slath.basket.model import Basket, WorkedEar, WorkedHandle, WorkedWrap
from slath.drawing.handle.ears import breadth, breadths, hole_breadth
from slath.drawing.handle.lugs import face_of
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import Dress, dress
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.view.in_space import SpaceRod
from slath.drawing.view.surface import Surface
from slath.drawing.view.wall import stake_mm
from slath.drawing.view.windings import Course, coil, course_of, helix, plaited, ring, twisted
from slath.drawing.wall.profile_ends import border_high
from slath.units.colour import lightness, with_lightness

EDGE_LINE_MM = 0.9  # the line between two turns of a lapping, of the basket's own measure
_MOST_STRANDS = 24  # of a rope, drawn
_HANGS = -0.02  # brightness of what stands clear of the wall
_LEANS, _STANDS = 32.0, 8.0  # degrees from upright of one bow, and of the first of two
_HEAD = 4.0  # mm above its hole at which a lapping next to an ear begins
_STRIPS = 9  # in which a wide ear is painted
_FINER = 6.0  # see `_board`


class _Work(Struct, frozen=True):
    """A handle with all it is drawn from. `high` is the height of the border over the weaving, mm."""

    basket: Basket
    worked: WorkedHandle
    clothes: Wardrobe
    surface: Surface
    thick: float
    high: float

    @property
    def stake(self) -> float:
        """Thickness of the stakes."""
        return stake_mm(self.basket)

    def look(self, key: str) -> Dress:
        """How a material wound round the handle shows."""
        return replace(self.clothes.of(key), marks="none")


def handle(basket: Basket, worked: WorkedHandle, clothes: Wardrobe, surface: Surface) -> Iterator[SpaceRod]:
    """One handle or set of like ones."""
    thick = basket.pattern.materials[worked.spec.material].thickness_mm
    work = _Work(basket, worked, clothes, surface, thick, border_high(basket))
    by_number = {item.number: item.u for item in basket.standing}
    feet = [by_number[number] for number in worked.feet_at if number in by_number]
    if worked.spec.kind == "ring":
        for place in feet:
            yield from _hanging_ring(work, place)
        return
    if worked.spec.kind == "ears":
        for place in feet:
            yield from _ear(work, place)
        return
    if worked.ear is not None:
        yield from swinging_rods(work, worked.ear, feet)
        return
    if len(worked.curve) < 3:
        return
    for one, other in zip(feet[::2], feet[1::2], strict=False):
        if worked.spec.kind == "drop":
            yield from _drop(work, one, other)
        else:
            yield from _bow(work, one, other)


# --------------------------------------------------------------------------------------------------------------- bows
def _bow(work: _Work, one: float, other: float) -> Iterator[SpaceRod]:
    """The bow's own curve on the rim between two feet that stand beside their stakes among the weaving."""
    worked, thick = work.worked, work.thick
    foot = min(worked.foot_mm.value, work.surface.along)
    course = course_of(_bow_line(work, (one, other), foot), min(2.5, max(0.6, thick / 3)))
    lash = _lashings(work, (one, other))
    pieces = worked.spec.pieces
    if worked.spec.kind == "twisted":
        lines = twisted(course, max(pieces, 2), thick, TWIST_LAY * thick)
    elif worked.spec.kind == "braided":
        lines = [*plaited(course.between(foot, course.way[-1] - foot), pieces, thick)]
        legs = [course.between(0.0, foot + thick), course.between(course.way[-1] - foot - thick, course.way[-1])]
        lines += [leg.points for leg in legs if len(leg.points) > 1]
    elif _lapped_all(worked):
        legs = [course.between(0.0, foot), course.between(course.way[-1] - foot, course.way[-1])]
        lines = [leg.points for leg in legs if len(leg.points) > 1]
    else:
        lines = [course.points]
    for line in lines:
        yield _hung(line, thick, work.clothes.wood, "handle")
    for wrap in worked.wraps:
        if wrap.spec.strands:
            yield from _wound(work, wrap, course, foot)
    yield from lash


def _hung(line: Numbers, thick: float, look: Dress, name: str) -> SpaceRod:
    return SpaceRod(line, thick, look, brightness=_HANGS, name=name)


def swinging_rods(work: _Work, ear: WorkedEar, feet: list[float]) -> Iterator[SpaceRod]:
    """Both ears and the bows in them: the first all but upright, the second laid down; one bow alone leans."""
    if len(feet) < 2:
        return
    heads = [_lug(work, ear, place) for place in feet[:2]]
    for lug, _ in heads:
        yield from lug
    (_, spots), (_, others) = heads
    away = np.cross(others[0] - spots[0], _up(1.0))
    away /= np.linalg.norm(away) + 1e-9
    ahead = sorted(spots, key=lambda spot: float(spot @ away)), sorted(others, key=lambda spot: float(spot @ away))
    count, laid = work.worked.spec.count, work.worked.laid_degrees
    for bow in range(count):
        a, b = (row[min(bow, len(row) - 1)] for row in ahead)
        lean = _LEANS if count == 1 else (-laid if bow == 0 else _STANDS)
        yield from _swung(work, (a, b), away, math.radians(lean))


def _lug(work: _Work, ear: WorkedEar, place: float) -> tuple[list[SpaceRod], list[Numbers]]:
    """An ear beside its stake, with its holes, and the middles of these.

    It is far wider than what passes before it, so that it is painted in strips, each hidden where something covers it.
    """
    surface, wood = work.surface, work.clothes.wood
    up, half = face_of(ear, 1.0)
    beside = (work.stake + ear.width.value) / 2 / float(surface.girths()[1][-1])
    _, along, out = _level(surface, place + beside)
    plain = replace(wood, tones=replace(wood.tones, edge=wood.tones.body))
    wide = ear.width.value / _STRIPS

    sag = ear.width.value**2 * math.pi / (4 * float(surface.girths()[1][-1]))  # of a flat ear in a round wall
    inwards = -0.5 * work.stake - sag

    def line(heights: Numbers, sideways: Numbers) -> Numbers:
        below = np.clip(heights, -surface.along, 0.0)
        foot = surface.at(np.full(len(below), place + beside), surface.along + below, inwards)[0]
        return np.asarray(foot + np.maximum(heights, 0.0)[:, None] * _up(1.0) + sideways[:, None] * along)

    rods = []
    for strip in range(_STRIPS):
        off = (strip - (_STRIPS - 1) / 2) * wide
        heights = np.linspace(float(up[0]), float(up[-1]), 90)
        heights = heights[np.interp(heights, up, half) >= abs(off)]
        if len(heights) > 1:
            rods.append(
                SpaceRod(line(heights, np.full(len(heights), off)), 1.3 * wide, plain, brightness=_HANGS, name="ear")
            )
    edge = np.array([0.0] * (len(up) - 1) + [0.25 * wide]), half + 0.2 * wide
    rods += [
        SpaceRod(line(up + edge[0], side * edge[1]), EDGE_LINE_MM, dress(wood.tones.edge), name="ear")
        for side in (-1.0, 1.0)
    ]
    level = line(np.array([ear.hole_up_mm]), np.zeros(1))[0]
    count = work.worked.spec.ears.holes if work.worked.spec.ears else 1
    spots = [level + along * (number - (count - 1) / 2) * ear.hole_apart_mm for number in range(count)]
    through = np.linspace(-0.6, 0.6, 7)[:, None] * max(ear.thick_mm, 2.0) * out
    rods += [SpaceRod(spot + through, ear.hole.value, dress(wood.tones.edge), name="ear hole") for spot in spots]
    return rods, spots


def _swung(work: _Work, holes: tuple[Numbers, Numbers], away: Numbers, lean: float) -> Iterator[SpaceRod]:
    """A bow between two holes, leaning so far from upright, with what is wound round it."""
    a, b = holes
    flat = np.array(work.worked.curve)
    share = (flat[:, 0] - flat[0, 0]) / (flat[-1, 0] - flat[0, 0])
    high = (flat[:, 1] - flat[0, 1])[:, None]
    line = a + (b - a) * share[:, None] + high * (math.cos(lean) * _up(1.0) + math.sin(lean) * away)
    course = course_of(line, min(2.5, max(0.6, work.thick / 3)))
    if not _lapped_all(work.worked):
        yield _hung(course.points, work.thick, work.clothes.wood, "handle")
    for wrap in work.worked.wraps:
        if wrap.spec.strands:
            yield from _wound(work, wrap, course, 0.0)


def _lapped_all(worked: WorkedHandle) -> bool:
    return any(wrap.spec.kind == "lapping" and wrap.spec.strands and wrap.spec.over_mm is None for wrap in worked.wraps)


def _bow_line(work: _Work, feet: tuple[float, float], foot: float) -> Numbers:
    """Down beside one stake, over, and down beside the other; each foot goes in line with the stakes, through the border.

    One far thicker than the stakes stands out from them inwards, so that the weaving lies over it outside.
    """
    surface, curve = work.surface, work.worked.curve
    beside = (work.stake + work.thick) / 2 / float(surface.girths()[1][-1])
    depth = np.linspace(surface.along - foot, surface.along, 12)
    inwards = max(work.thick / 2 - work.stake, 0.0)
    legs = [surface.at(np.full(len(depth), place + beside), depth, -inwards)[0] for place in feet]
    a, b = legs[0][-1], legs[1][-1]
    flat = np.array(curve)
    share = (flat[:, 0] - flat[0, 0]) / (flat[-1, 0] - flat[0, 0])
    arch = a + (b - a) * share[:, None] + np.column_stack([np.zeros(len(flat)), np.zeros(len(flat)), flat[:, 1]])
    return np.vstack([legs[0], arch[1:-1], legs[1][::-1]])


# -------------------------------------------------------------------------------------------------------------- wraps
def _wound(work: _Work, wrap: WorkedWrap, course: Course, foot: float) -> Iterator[SpaceRod]:
    """What is wound round the bow between its feet: lapping as a covering, rope strand by strand."""
    first, last = 0.95 * foot, course.way[-1] - 0.95 * foot
    stretches = [(first, last)]
    if wrap.spec.over_mm is not None:
        stretches = _places_bound(work.worked, wrap, (first, last))
    elif wrap.spec.from_mm:
        stretches = [(first + wrap.spec.from_mm, last - wrap.spec.from_mm)]
    for begin, end in stretches:
        part = course.between(begin, end)
        if len(part.points) > 2:
            yield from (_lapping if wrap.spec.kind == "lapping" else _rope)(work, wrap, part)


def _places_bound(worked: WorkedHandle, wrap: WorkedWrap, ends: tuple[float, float]) -> list[tuple[float, float]]:
    """Where a binding lies: from either foot where it begins there, as on a swinging bow; else shared out evenly."""
    first, last = ends
    over, places = wrap.spec.over_mm or 0.0, wrap.spec.places
    begins = wrap.spec.from_mm if wrap.spec.from_mm is not None else (_HEAD if worked.ear is not None else None)
    if begins is not None and places <= 2:
        return [(first + begins, first + begins + over), (last - begins - over, last - begins)][:places]
    step = (last - first) / places
    middles = [first + (place + 0.5) * step for place in range(places)]
    return [(middle - over / 2, middle + over / 2) for middle in middles]


def _rope(work: _Work, wrap: WorkedWrap, course: Course) -> Iterator[SpaceRod]:
    keys, thick = wrap.spec.strands, work.thick
    width = work.basket.pattern.materials[keys[0]].width_mm
    lay = wrap.spec.lay_mm or max(
        math.pi * (thick + width) / math.tan(math.radians(max(wrap.angle_degrees, 5.0))), 2 * width
    )
    spread = wrap.spec.cover == "full" and not wrap.spec.listed
    total = max(len(keys), min(round(wrap.strands.value), _MOST_STRANDS)) if spread else len(keys)
    fine = course_of(course.points, max(0.4, min(1.4, lay / 16)))
    for strand in range(total):
        shift = strand / total if spread else strand * width * 1.2 / lay
        line = helix(fine, wrap.girth_mm / (2 * math.pi), lay, shift)
        yield SpaceRod(line, width, work.look(keys[strand % len(keys)]), name="wrap")


def _lapping(work: _Work, wrap: WorkedWrap, course: Course) -> Iterator[SpaceRod]:
    """Flat material wound edge to edge: the bow that much thicker, and the line of every edge across it."""
    key = wrap.spec.strands[0]
    material = work.basket.pattern.materials[key]
    look = work.look(key)
    covered = wrap.girth_mm / math.pi + material.thickness_mm
    yield SpaceRod(course.points, covered, look, name="wrap")
    edge = with_lightness(look.tones.body, lightness(look.tones.body) - 45)
    fine = course_of(course.points, max(0.3, min(1.4, material.width_mm / 16)))
    line = helix(fine, covered / 2, material.width_mm, 0.0)
    yield SpaceRod(line, EDGE_LINE_MM, dress(edge), name="wrap")


# -------------------------------------------------------------------------------------------- hung on, lashed, pushed in
def _level(surface: Surface, place: float) -> tuple[Numbers, Numbers, Numbers]:
    """The top of the weaving at a place, the unit way along the rim there, and the level way outwards."""
    points, normals = surface.at(np.array([place, place + 0.004]), np.full(2, surface.along), 0.0)
    along = (points[1] - points[0]) / np.linalg.norm(points[1] - points[0])
    out = normals[0] * np.array([1.0, 1.0, 0.0])
    return points[0], along, out / (np.linalg.norm(out) + 1e-9)


def _hanging_ring(work: _Work, place: float) -> Iterator[SpaceRod]:
    """A ring outside, in the plane of the wall, and the loop under the border it hangs by."""
    top, along, out = _level(work.surface, place)
    radius = float(np.array(work.worked.curve)[:, 0].max())
    wall_out = 1.6 * work.stake + 0.5 * work.thick
    eye = top + out * wall_out
    hung = ring(eye - _up(radius), radius, along, _up(1.0))
    yield _hung(hung, work.thick, work.clothes.wood, "handle")
    yield from _loop(work, place)


def _drop(work: _Work, one: float, other: float) -> Iterator[SpaceRod]:
    """A handle that hangs down outside from a loop at either end."""
    (a, _, out_a), (b, _, out_b) = (_level(work.surface, place) for place in (one, other))
    flat = np.array(work.worked.curve)
    share = (flat[:, 0] - flat[0, 0]) / (flat[-1, 0] - flat[0, 0])
    out = (out_a + (out_b - out_a) * share[:, None]) * (1.6 * work.stake + 0.5 * work.thick)
    bulge = 4 * share * (1 - share) * float(np.linalg.norm(b - a)) * 0.12  # it clears the curve of the wall
    middle = (out_a + out_b) / (np.linalg.norm(out_a + out_b) + 1e-9)
    line = a + (b - a) * share[:, None] + out + bulge[:, None] * middle - flat[:, 1:] * _up(1.0)
    yield _hung(line, work.thick, work.clothes.wood, "handle")
    for place in (one, other):
        _, along, _ = _level(work.surface, place)
        end = line[0] if place == one else line[-1]
        yield _hung(ring(end, 1.2 * work.thick, along, _up(1.0)), work.thick, work.clothes.wood, "handle")
        yield from _loop(work, place)


def _loop(work: _Work, place: float) -> Iterator[SpaceRod]:
    """Two turns under the border and through what hangs there."""
    key = work.worked.spec.lash
    look = work.look(key) if key else work.clothes.wood
    strand = work.basket.pattern.materials[key].width_mm if key else 0.8 * work.thick
    top, along, out = _level(work.surface, place)
    reach = max(work.high, work.stake) / 2 + 0.8 * work.stake
    middle = top + _up(0.3 * work.high) + out * 0.6 * work.stake
    yield _hung(coil(middle, reach, along, _up(-1.0), 2, strand), strand, look, "loop")


def _lashings(work: _Work, feet: tuple[float, float]) -> list[SpaceRod]:
    """A cross over each foot and the border: slantwise outside, through the space, and back slantwise inside."""
    key = work.worked.spec.lash
    if not key:
        return []
    strand = work.basket.pattern.materials[key].width_mm
    step = 0.5 / max(len(work.basket.stakes), 1)
    out = (work.stake + work.thick + strand) / 2 + work.stake
    found = []
    for place in feet:
        for way in (1.0, -1.0):
            for turn in (-0.5, 0.5):
                low, high = -0.6 * work.stake, work.high + 0.4 * work.stake
                corners = [(-way, low, 1), (0.0, (low + high) / 2, 1), (way, high, 1), (way, high, -1),
                           (0.0, (low + high) / 2, -1), (-way, low, -1), (-way, low, 1)]  # fmt: skip
                at = np.array(corners)
                around = place + at[:, 0] * step + turn * strand / float(work.surface.girths()[1][-1])
                line = work.surface.at(around, work.surface.along + at[:, 1], at[:, 2] * out)[0]
                found.append(_hung(line, strand, work.look(key), "lashing"))
    return found


def _ear(work: _Work, place: float) -> Iterator[SpaceRod]:
    """A flat lug bored for the handle: its head over the rim, its foot shaved to a point and pushed down beside its stake."""
    surface, worked, wood = work.surface, work.worked, work.clothes.wood
    rise, foot_mm = worked.rise_mm, min(worked.foot_mm.value, surface.along)
    wide = breadth(rise, work.thick)
    beside = (work.stake + work.thick) / 2 / float(surface.girths()[1][-1])
    down, up = np.linspace(-foot_mm, 0.0, 10), np.linspace(0.0, rise, 25)[1:]
    foot = surface.at(np.full(len(down), place + beside), surface.along + down, -0.5 * work.stake)[0]
    line = np.vstack([foot, foot[-1] + up[:, None] * _up(1.0)])
    _, along, out = _level(surface, place)
    yield _board(line, breadths(np.concatenate([down, up]), rise, foot_mm, wide), along, wide, wood)
    through = np.linspace(-0.6, 0.6, 7)[:, None] * work.thick * out
    hole = foot[-1] + _up(rise - wide / 2) + through
    yield SpaceRod(hole, hole_breadth(wide), dress(wood.tones.edge), name="ear hole")


def _board(line: Numbers, widths: Numbers, along: Numbers, wide: float, look: Dress) -> SpaceRod:
    """A flat piece whose width changes along its line; taken in steps finer than it is wide, for the round of its ends."""
    thin = wide / _FINER
    return replace(_hung(line, thin, look, "ear"), across=widths[:, None] / thin * along)


def _up(high: float) -> Numbers:
    return np.array([0.0, 0.0, high])
