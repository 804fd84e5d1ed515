"""The curve of a handle above the rim, foot to foot: points (x, z) in mm and its length."""

from __future__ import annotations

import math

from msgspec import Struct

from slath.basket.model import CannotConstruct, Point
from slath.basket.outline import ellipse_perimeter
from slath.language.pattern import Handle
from slath.messages.told import kept
from slath.messages.values import Length

_STEPS = 64  # straight pieces a drawn bow is made of
SHOULDER_TURNS = 6  # thicknesses; radius a soaked rod is bent to at a square shoulder, estimated


class Bow(Struct, frozen=True):
    """A bow's centre line: from (-span/2, 0) over the top to (span/2, 0)."""

    points: tuple[Point, ...]
    length_mm: float
    formula: str


def bow_of(spec: Handle, span_mm: float, top_mm: float, thickness_mm: float) -> Bow:
    """The bow of the shape asked for, its centre line reaching `top_mm` above the rim.

    Raises CannotConstruct where a half circle would stand higher than the handle may.
    """
    half = span_mm / 2
    if spec.shape == "half ellipse":
        angles = [math.pi * (1 - step / _STEPS) for step in range(_STEPS + 1)]
        points = tuple((half * math.cos(angle), top_mm * math.sin(angle)) for angle in angles)
        length = ellipse_perimeter(max(span_mm, 2 * top_mm), min(span_mm, 2 * top_mm)) / 2
        return Bow(points, length, "half the perimeter of an ellipse on span and rise")
    radius = half if spec.shape == "half circle" else min(half, top_mm, SHOULDER_TURNS * thickness_mm)
    leg = top_mm - radius
    if leg < -thickness_mm / 2:
        raise CannotConstruct(
            "handle-too-low", (*spec.path, "rise"), "handle",
            kept("refusals.a-half-circle-across-stands", span_mm=Length(span_mm), half=Length(half), top_mm=Length(top_mm)),
            (kept("refusals.let-it-rise", half=Length(half)), kept("refusals.make-it-a-half-ellipse")),
        )  # fmt: skip
    leg = max(leg, 0.0)
    flat = span_mm - 2 * radius
    length = 2 * leg + math.pi * radius + flat
    return Bow(_rounded(half, leg, radius), length, "two legs + half a circle + what is straight at the top")


def _rounded(half: float, leg: float, radius: float) -> tuple[Point, ...]:
    """Straight legs, two quarter circles, and a straight top where there is room for one."""
    quarter = _STEPS // 2
    turns = [math.pi / 2 * step / quarter for step in range(quarter + 1)]
    left = [(-half + radius * (1 - math.cos(turn)), leg + radius * math.sin(turn)) for turn in turns]
    right = [(-x, z) for x, z in reversed(left)]
    start = [(-half, 0.0)] if leg > 0 else []
    if half <= radius:  # the two quarters meet at the top
        right = right[1:]
    return (*start, *left, *right, *((-x, z) for x, z in start))


def twisted_mm(length_mm: float, rods: int, rod_mm: float, lay_mm: float) -> float:
    """One of `rods` twisted about each other along a line of `length_mm`, one turn in each `lay_mm`.

    The rods touch in a ring, so each runs on a helix of radius d / (2 sin(π / rods)).
    """
    around = math.pi * rod_mm / math.sin(math.pi / rods) if rods > 1 else 0.0
    return length_mm * math.hypot(around, lay_mm) / lay_mm


def girth_mm(rods: int, rod_mm: float) -> float:
    """Round a bundle of round rods laid together: the hull's straight sides and the turns at its corners.

    Exact for one to four rods and for seven (six round one); between, rods fill the ring of six.
    """
    return rod_mm * (math.pi + (0 if rods == 1 else min(rods, 6)))


def girth_of_two_mm(thick_mm: float, thin_mm: float) -> float:
    """Round two rods of unlike thickness laid together: two straight sides and the turns round either."""
    big, small = thick_mm / 2, thin_mm / 2
    lean = math.acos((big - small) / (big + small))
    return 4 * math.sqrt(big * small) + 2 * big * (math.pi - lean) + 2 * small * lean
