"""The side between base edge and rim: outlines at heights, and the way a stake climbs between them.

A profile is a ladder of outlines at rising heights, straight from one to the next. A straight flare has two; a belly,
a waist and a bowl are cut into enough steps that the chords lose less than a tenth of a millimetre.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from functools import cached_property, lru_cache

from msgspec import Struct

from slath.basket.model import Curve, Point
from slath.basket.outline import between, curve_between, curve_of, grown, same_family
from slath.language.pattern import Outline, Side

_CURVE_STEPS = 32
_STAKES_SAMPLED = 24  # positions round the edge over which the mean way up is taken


class LadderProfile(Struct, frozen=True, dict=True):
    """A side as a ladder of (standing height, outline), heights rising from 0."""

    rungs: tuple[tuple[float, Outline], ...]

    @property
    def height_mm(self) -> float:
        """Standing height from the base to the top of the weaving."""
        return self.rungs[-1][0]

    @property
    def along_mm(self) -> float:
        """Mean way up the side from base to top."""
        return self._ways[-1]

    @cached_property
    def _ways(self) -> list[float]:
        count = 1 if all(outline.shape == "circle" for _, outline in self.rungs) else _STAKES_SAMPLED
        ways = [0.0]
        for (low, lower), (high, upper) in zip(self.rungs, self.rungs[1:], strict=False):
            feet, heads = _sampled(lower, count), _sampled(upper, count)
            lengths = [_apart(foot, head, high - low) for foot, head in zip(feet, heads, strict=True)]
            ways.append(ways[-1] + math.fsum(lengths) / len(lengths))
        return ways

    def _rung(self, height_mm: float) -> tuple[int, float]:
        heights = [height for height, _ in self.rungs]
        index = min(max(bisect_right(heights, height_mm) - 1, 0), len(heights) - 2)
        return index, (height_mm - heights[index]) / (heights[index + 1] - heights[index])

    def outline_at(self, height_mm: float) -> Outline:
        """The outline at a standing height."""
        return self.curve_at(height_mm).outline

    def curve_at(self, height_mm: float) -> Curve:
        """The outline at a standing height, by arc length."""
        index, share = self._rung(min(max(height_mm, 0.0), self.height_mm))
        return curve_between(self.rungs[index][1], self.rungs[index + 1][1], min(max(share, 0.0), 1.0))

    def height_of(self, along_mm: float) -> float:
        """The standing height reached a mean way `along_mm` up the side."""
        ways = self._ways
        index = min(max(bisect_right(ways, along_mm) - 1, 0), len(ways) - 2)
        share = (along_mm - ways[index]) / (ways[index + 1] - ways[index])
        return self.rungs[index][0] + share * (self.rungs[index + 1][0] - self.rungs[index][0])

    def slope_mm(self, u: float, height_mm: float) -> float:
        """The length of a stake at `u` from the base edge up to a standing height."""
        index, share = self._rung(height_mm)
        whole = math.fsum(_chord(self.rungs[step], self.rungs[step + 1], u) for step in range(index))
        return whole + share * _chord(self.rungs[index], self.rungs[index + 1], u)


def _chord(lower: tuple[float, Outline], upper: tuple[float, Outline], u: float) -> float:
    return _apart(curve_of(lower[1]).point(u), curve_of(upper[1]).point(u), upper[0] - lower[0])


def _apart(foot: Point, head: Point, rise_mm: float) -> float:
    return math.sqrt((head[0] - foot[0]) ** 2 + (head[1] - foot[1]) ** 2 + rise_mm**2)


@lru_cache(maxsize=256)
def _sampled(outline: Outline, count: int) -> tuple[Point, ...]:
    """Points round an outline. Finding a height tries one outline at dozens of heights; its points stay the same."""
    curve = curve_of(outline)
    return tuple(curve.point(index / count) for index in range(count))


def profile_of(side: Side, base: Outline, height_mm: float) -> LadderProfile:
    """The profile of `side` on a base, stretched to stand `height_mm` high; `height_mm` > 0."""
    rim = side.rim or base
    if side.profile == "points" and side.points:
        top = side.points[-1].height_mm
        rungs = [(0.0, base)] if side.points[0].height_mm > 0 else []
        rungs += [(point.height_mm * height_mm / top, point.outline) for point in side.points]
        return LadderProfile(tuple(rungs))
    if side.profile in {"belly", "waist"} and side.belly_mm:
        shares = [index / _CURVE_STEPS for index in range(_CURVE_STEPS + 1)]
        return LadderProfile(
            tuple(
                (share * height_mm, grown(_mixed(base, rim, share), side.belly_mm * math.sin(math.pi * share)))
                for share in shares
            )
        )
    if side.profile == "bowl":
        # A quarter ellipse in section: it leaves the base flat and arrives at the rim upright.
        angles = [index * math.pi / 2 / _CURVE_STEPS for index in range(_CURVE_STEPS + 1)]
        return LadderProfile(tuple((height_mm * (1 - math.cos(a)), _mixed(base, rim, math.sin(a))) for a in angles))
    return LadderProfile(((0.0, base), (height_mm, rim)))


def _mixed(base: Outline, rim: Outline, share: float) -> Outline:
    if same_family(base, rim):
        return between(base, rim, share)
    return curve_between(base, rim, share).outline


def profile_by_way(side: Side, base: Outline, along_mm: float) -> LadderProfile | None:
    """The profile whose mean way up the side is `along_mm`; None if the rim lies further out than that way reaches."""
    low, high = 1e-6, along_mm * (1 + 1e-9)
    if profile_of(side, base, low).along_mm > along_mm:
        return None
    for _ in range(60):
        middle = (low + high) / 2
        if profile_of(side, base, middle).along_mm < along_mm:
            low = middle
        else:
            high = middle
        if high - low < 1e-6:
            break
    return profile_of(side, base, (low + high) / 2)


def profile_by_bands(base: Outline, ends: list[tuple[float, Outline | None]]) -> LadderProfile | None:
    """The profile made by bands in turn: (way up of the band, outline at its upper end or None to go straight up).

    None if a band is too short for the change of size asked of it.
    """
    rungs: list[tuple[float, Outline]] = [(0.0, base)]
    for way, outline in ends:
        height, below = rungs[-1]
        if way <= 0:
            continue
        above = outline or below
        flat = math.fsum(
            math.dist(curve_of(below).point(i / _STAKES_SAMPLED), curve_of(above).point(i / _STAKES_SAMPLED)) ** 2
            for i in range(_STAKES_SAMPLED)
        )
        rise = way * way - flat / _STAKES_SAMPLED
        if rise <= 0:
            return None
        rungs.append((height + math.sqrt(rise), above))
    return LadderProfile(tuple(rungs)) if len(rungs) > 1 else None
