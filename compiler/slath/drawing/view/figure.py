"""The finished basket seen a little from above: its own strands, stakes, border, handle and lid, shaded, back to front."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache

import numpy as np
from msgspec.structs import replace

from slath.basket.model import Basket, Curve
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.rods import Brush
from slath.drawing.paint.tones import lit
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.plate import Plate
from slath.drawing.scene import Scene
from slath.drawing.view.body import body
from slath.drawing.view.floor import board_mm, has_plate, outline
from slath.drawing.view.in_space import Eye, SpaceRod
from slath.drawing.view.lid import SetLid, set_lid
from slath.drawing.view.parts import SetPart, set_parts
from slath.drawing.view.surface import round_at
from slath.drawing.view.wall import sinks_of
from slath.drawing.wall.standing import standing_of
from slath.language.pattern import Board
from slath.messages import Listed, Message, message
from slath.messages.language import slug
from slath.messages.names import named
from slath.wording.speech import own_words
from slath.wording.strokes import weave_name

_GROUND, _PLATE = "#e4e0d8", "#bda579"
_TALLEST = 125.0  # mm on the page
_MARGIN = 2.0
_BETWEEN = -0.55  # light on what shows between strands
_LEVELS, _ROUND = 5, 72  # heights of a band, and places round each, by which its outline is found
_DOOR_ASIDE = 18.0  # degrees by which a doorway is seen from its side, to show how deep it is


def draw_view(basket: Basket, clothes: Wardrobe, options: Options) -> Scene:
    """The finished basket."""
    rods = list(body(basket, clothes))
    eye = eye_of(basket)
    lid = set_lid(basket, eye)
    if lid is not None:
        eye = lid.eye
        rods += lid.rods
    parts = set_parts(basket, eye, _ground_level(basket, rods))
    rods += [rod for part in parts if part.within for rod in part.rods]
    apart = [part for part in parts if not part.within]
    ground = _ground_level(basket, [*rods, *(rod for part in apart if part.below for rod in part.rods)])
    shadows = [*_shadows(basket, lid, ground), *(part.shadow for part in parts if part.shadow is not None)]
    plates = [outline(basket, level) for level in (0.0, -board_mm(basket))] if has_plate(basket) else []
    drawn = [*rods, *(rod for part in apart for rod in part.rods)]
    levels = [*shadows, *plates, *(level for part in apart for level in part.plates)]
    spots = [eye.page(rod.points) for rod in drawn] + [eye.page(area) for area in levels]
    low, high = np.vstack(spots).min(axis=0), np.vstack(spots).max(axis=0)
    scale = min(
        (options.width_mm - 2 * _MARGIN - 4.0) / (high[0] - low[0]), min(options.tallest_mm, _TALLEST) / (high[1] - low[1])
    )  # fmt: skip
    x = options.width_mm / 2 - scale * (low[0] + high[0]) / 2
    eye = replace(eye, scale=scale, x=x, y=_MARGIN + 3.0 - scale * low[1])
    plate = Plate(options.width_mm, scale * (high[1] - low[1]) + 2 * _MARGIN + 3.0, options)
    for area in shadows:
        plate.area(eye.page(area), fill=_GROUND)
    brush = _brush(min(rod.diameter for rod in drawn) * scale, math.fsum(_length(rod) for rod in drawn) * scale)
    for part in apart:
        if part.below:
            _part(plate, part, eye, brush)
    below = [rod for rod in rods if plates and float(rod.points[:, 2].mean()) < -board_mm(basket)]
    if below:
        plate.rods([eye.sees(rod) for rod in below], brush, name="foot")
    for wall in _woven_walls(basket):
        plate.area(_hull(eye.page(wall)), fill=lit(clothes.stakes.tones.body, _BETWEEN))
    _plate(plate, basket, plates, eye)
    plate.rods([eye.sees(rod) for rod in rods if not any(rod is one for one in below)], brush, name="basket")
    for part in apart:
        if not part.below:
            _part(plate, part, eye, brush)
    return plate.scene(
        "view", message("figure-view.title"), _words(basket), seen_from=message("figure-view.seen-from"),
        caption=message("captions.the-finished-basket-drawn-from"),
    )  # fmt: skip


def _part(plate: Plate, part: SetPart, eye: Eye, brush: Brush) -> None:
    """A part that is painted whole before the basket or after it, its own foot before its board."""
    low = min((float(level[:, 2].min()) for level in part.plates), default=float("-inf"))
    under = [rod for rod in part.rods if float(rod.points[:, 2].mean()) < low]
    if under:
        plate.rods([eye.sees(rod) for rod in under], brush, name="foot")
    _plate(plate, part.basket, part.plates, eye)
    plate.rods([eye.sees(rod) for rod in part.rods if not any(rod is one for one in under)], brush, name="part")


def _length(rod: SpaceRod) -> float:
    return float(np.linalg.norm(np.diff(rod.points, axis=0), axis=1).sum())


def _brush(thin: float, length: float) -> Brush:
    """The brush for a basket whose thinnest rod is so wide on the page, of so many mm of rods in all.

    Fine ones take fewer points and no marks.
    """
    return Brush(
        gap=0.0,
        edge=0.2 if thin < 1.3 else 0.24,
        highlight=thin > 0.7,
        shade=False,
        rings=None if thin > 0.7 else 1e6,
        near=0.78,
        pixel=float(np.clip(0.17 * thin, 0.1, 0.3)),
        touching=False,
        step=0.55 if thin > 0.7 else 0.6,
        tolerance=0.045 if length < _LONG else 0.06,
    )


_LONG = 30000.0  # mm of rods on the page beyond which chords may stray a little further


def eye_of(basket: Basket) -> Eye:
    """From where a basket is seen: a long or a handled one more from its side, one with a doorway into that."""
    shape = basket.base.spec.outline
    longish = shape.length_mm > 1.15 * shape.width_mm
    height = basket.profile.height_mm if basket.profile else 0.0
    if basket.profile is None:
        return Eye(azimuth=20.0, elevation=48.0)
    door = _doorway(basket)
    return Eye(
        azimuth=door if door is not None else 38.0 if longish or basket.handles else 20.0,
        elevation=34.0 if height < 0.35 * shape.width_mm else 27.0,
    )


def _doorway(basket: Basket) -> float | None:
    """The azimuth that shows the widest opening short rows leave in the side a little from one side; None without one."""
    if basket.profile is None:
        return None
    widest, facing = 0, None
    for band in basket.bands:
        short = band.spec.short_rows
        if short is None or not short.leaves_open or not band.rounds:
            continue
        for (_, last), (first, _) in zip(short.over, [*short.over[1:], short.over[0]], strict=True):
            bare = (first - last - 1) % band.uprights
            if bare > widest:
                fractions = standing_of(basket).fractions(band.index)
                place = float(round_at(fractions, np.array([last + bare / 2]))[0]) % 1.0
                x, y = basket.profile.curve_at((band.from_mm + band.to_mm) / 2).normal(place)
                widest, facing = bare, math.degrees(math.atan2(-x, -y)) + _DOOR_ASIDE
    return facing


# -------------------------------------------------------------------------------------------------- table and plates
def _ground_level(basket: Basket, rods: list[SpaceRod]) -> float:
    """The table: under the lowest rod of the basket's foot, or under its base."""
    lowest = min(float(rod.points[:, 2].min()) - rod.diameter / 2 for rod in rods)
    return min(lowest, -board_mm(basket), -4.0 if basket.profile is None else 0.0)


def _shadows(basket: Basket, lid: SetLid | None, ground: float) -> list[Numbers]:
    """Outlines of the shadows on the table, a little larger than what stands there and away from the light."""
    edge = outline(basket, ground, grown=8.0)
    large = max(float(np.abs(edge[:, :2]).max()), 1.0)
    edge[:, :2] = edge[:, :2] * 1.06 + np.array([0.05 * large, -0.02 * large])
    if lid is None or lid.shadow is None:
        return [edge]
    return [edge, np.column_stack([lid.shadow, np.full(len(lid.shadow), ground)])]


def _woven_walls(basket: Basket) -> Iterator[Numbers]:
    """Points of each woven band of the side: what shows between its strands is the shade of the basket, not paper.

    All round it at once where it lies level; piece by piece where it dips over rows that end short.
    """
    profile = basket.profile
    if profile is None:
        return
    sinks = sinks_of(basket, standing_of(basket))
    places = np.arange(_ROUND) / _ROUND

    @cache  # all round a level band it is the same
    def outline_at(way: float) -> tuple[Curve, float]:
        height = profile.height_of(way)
        return profile.curve_at(height), height

    for band in basket.bands:
        short = band.spec.short_rows
        if not band.rounds or (short is not None and short.leaves_open):
            continue
        under, over = sinks.below(band.index, places), sinks.below(band.index + 1, places)
        points = np.empty((_LEVELS, _ROUND, 3))
        for level, share in enumerate(np.linspace(0.0, 1.0, _LEVELS).tolist()):
            ways = band.from_mm + share * (band.to_mm - band.from_mm) - (1.0 - share) * under - share * over
            for step, way in enumerate(np.clip(ways, 0.0, profile.along_mm).tolist()):
                curve, height = outline_at(way)
                points[level, step] = (*curve.point(step / _ROUND), height)
        if not over.any():
            yield points.reshape(-1, 3)
            continue
        for step in range(0, _ROUND, 2):  # each a little into the next, for no seam to show
            yield points[:, [step, (step + 1) % _ROUND, (step + 2) % _ROUND, (step + 3) % _ROUND]].reshape(-1, 3)


def _plate(plate: Plate, basket: Basket, levels: list[Numbers], eye: Eye) -> None:
    """A board or a bought base: its edge, and its upper face."""
    if not levels:
        return
    top, bottom = (eye.page(level) for level in levels)
    colour = _PLATE
    if isinstance(basket.base.spec, Board):
        plate.area(_hull(np.vstack([top, bottom])), lit(colour, -0.28), lit(colour, -0.7), 0.25)
    plate.area(top, colour, lit(colour, -0.7) if isinstance(basket.base.spec, Board) else None, 0.25)


def _hull(points: Numbers) -> Numbers:
    """The convex outline of page points."""
    spots = sorted(set(map(tuple, np.round(points[:, :2], 4).tolist())))

    def chain(ordered: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
        kept: list[tuple[float, ...]] = []
        for spot in ordered:
            while len(kept) > 1 and _turns_right(kept[-2], kept[-1], spot):
                kept.pop()
            kept.append(spot)
        return kept[:-1]

    return np.array([*chain(spots), *chain(spots[::-1])])


def _turns_right(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...]) -> bool:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) <= 0


# -------------------------------------------------------------------------------------------------------------- words
def _words(basket: Basket) -> Message:
    shape = {"circle": "round", "ellipse": "oval", "stadium": "long", "half round": "half"}.get(
        basket.base.spec.outline.shape, "square"
    )
    weaves = dict.fromkeys(weave_name(band.spec.weave) for band in basket.bands if band.rounds)
    return message(
        "figure-view.words",
        shape=message(f"figure-view.shape-{shape}", mat=basket.profile is None),
        count=len(basket.stakes),
        weaves=Listed(tuple(weaves)),
        more=Listed(tuple(_finished_with(basket))),
    )


def _finished_with(basket: Basket) -> Iterator[Message]:
    """Border, handle, foot and lid."""
    if basket.border:
        yield message("figure-view.border", closes=basket.border.closes)
    if basket.handles:
        handle = basket.handles[0].spec
        if handle.kind == "swinging":
            yield message("figure-view.swinging", several=handle.count > 1)
        elif handle.kind == "ears":
            yield message("figure-view.ears")
        else:
            yield message("figure-view.handle", kind=named("parts", f"{handle.kind} handle", count=1))
    if basket.foot and basket.foot.closes:
        yield message("figure-view.foot")
    if basket.lid:
        yield message("figure-view.lid", hinge=basket.lid.spec.hinge is not None)
    for part in basket.parts:
        yield message(
            f"figure-view.part-{slug(part.spec.join.way)}",
            several=part.spec.count > 1,
            count=part.spec.count,
            part=own_words(part.spec.name),
        )
