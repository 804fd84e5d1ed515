"""Closed plan outlines by arc length: circle, ellipse, stadium, rectangles, and a blend between any two.

Perimeters are exact (closed form, or the arithmetic-geometric mean for the ellipse); positions on an ellipse come from
a table of arc lengths good to about a thousandth of a millimetre on baskets of ordinary size.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from functools import lru_cache

from msgspec.structs import replace

from slath.basket.model import Curve, Point
from slath.language.pattern import Outline

_ELLIPSE_STEPS = 256  # table intervals once round; each is integrated by Simpson's rule
_BLEND_STEPS = 360
_CORNER_MM = 1e-6  # so near to a corner is in it


def ellipse_perimeter(length_mm: float, width_mm: float) -> float:
    """Perimeter of an ellipse from its axes over all, mm, by the arithmetic-geometric mean (exact to rounding).

    After Gauss: L = 2π/M(a, b) · (a² − Σ 2ⁿ⁻¹ cₙ²).
    """
    a, b = length_mm / 2, width_mm / 2
    if a <= 0 or b <= 0:
        return 4 * max(a, b, 0.0)
    x, y, weight = a, b, 0.5
    total = a * a - weight * (a * a - b * b)
    while abs(x - y) > 1e-14 * a:
        x, y, half_gap = (x + y) / 2, math.sqrt(x * y), (x - y) / 2
        weight *= 2
        total -= weight * half_gap * half_gap
    return 2 * math.pi * total / ((x + y) / 2)


class Circle:
    """A circle by arc length."""

    def __init__(self, outline: Outline) -> None:
        self.outline = outline
        self._radius = outline.length_mm / 2
        self.perimeter = 2 * math.pi * self._radius

    def point(self, u: float) -> Point:
        """See `Curve.point`."""
        turn = 2 * math.pi * u
        return self._radius * math.cos(turn), self._radius * math.sin(turn)

    def normal(self, u: float) -> Point:
        """See `Curve.normal`."""
        turn = 2 * math.pi * u
        return math.cos(turn), math.sin(turn)


class EllipseCurve:
    """An ellipse by arc length."""

    def __init__(self, outline: Outline) -> None:
        self.outline = outline
        self._a, self._b = outline.length_mm / 2, outline.width_mm / 2
        self.perimeter = ellipse_perimeter(outline.length_mm, outline.width_mm)
        self._table: list[float] | None = None

    def _speed(self, angle: float) -> float:
        return math.hypot(self._a * math.sin(angle), self._b * math.cos(angle))

    def _angle(self, u: float) -> float:
        if self._table is None:
            step = 2 * math.pi / _ELLIPSE_STEPS
            ways = [0.0]
            for index in range(_ELLIPSE_STEPS):
                start = index * step
                middle, end = self._speed(start + step / 2), self._speed(start + step)
                ways.append(ways[-1] + step / 6 * (self._speed(start) + 4 * middle + end))
            self._table = ways
        table = self._table
        way = (u % 1.0) * table[-1]
        index = min(bisect_right(table, way) - 1, _ELLIPSE_STEPS - 1)
        step = 2 * math.pi / _ELLIPSE_STEPS
        angle = (index + (way - table[index]) / (table[index + 1] - table[index])) * step
        # One Newton step on the arc length inside the interval takes the straight-line error out.
        start = index * step
        inside = (angle - start) / 6 * (self._speed(start) + 4 * self._speed((start + angle) / 2) + self._speed(angle))
        return angle - (table[index] + inside - way) / self._speed(angle)

    def point(self, u: float) -> Point:
        """See `Curve.point`."""
        angle = self._angle(u)
        return self._a * math.cos(angle), self._b * math.sin(angle)

    def normal(self, u: float) -> Point:
        """See `Curve.normal`."""
        angle = self._angle(u)
        x, y = self._b * math.cos(angle), self._a * math.sin(angle)
        size = math.hypot(x, y)
        return x / size, y / size


class HalfRoundCurve:
    """A straight back, and half an ellipse in front of it, by arc length: from the middle of the right flank, as every
    outline begins at its right end, round by the right end of the back. Seen from above the back lies away from the maker.
    """

    def __init__(self, outline: Outline) -> None:
        self.outline = outline
        self._back = outline.length_mm
        self._level = outline.width_mm / 2  # of the back, over the middle of the whole
        whole = Outline("ellipse", outline.length_mm, 2 * outline.width_mm)
        self._front = Circle(whole) if whole.length_mm == whole.width_mm else EllipseCurve(whole)
        self.perimeter = self._back + self._front.perimeter / 2
        self._begin = self._back + (self._flank() - 0.5) * self._front.perimeter

    def _flank(self) -> float:
        """The fraction round the whole ellipse of the point on its right that lies half-way down to the front."""
        low, high = 0.75, 1.0
        for _ in range(50):
            middle = (low + high) / 2
            low, high = (low, middle) if self._front.point(middle)[1] > -self._level else (middle, high)
        return (low + high) / 2

    def _way(self, u: float) -> float:
        """The way from the right end of the back along it, and on by the front."""
        return (u * self.perimeter + self._begin) % self.perimeter

    def _on_front(self, way: float) -> float:
        """The fraction round the whole ellipse for a way from the left end of the back, by the front."""
        return 0.5 + (way - self._back) / self._front.perimeter

    def point(self, u: float) -> Point:
        """See `Curve.point`."""
        way = self._way(u)
        if way <= self._back:
            return self._back / 2 - way, self._level
        x, y = self._front.point(self._on_front(way))
        return x, y + self._level

    def normal(self, u: float) -> Point:
        """See `Curve.normal`. At either end of the back it looks half to the back and half to the side."""
        way = self._way(u)
        if min(way, self.perimeter - way) < _CORNER_MM:
            return math.sqrt(0.5), math.sqrt(0.5)
        if abs(way - self._back) < _CORNER_MM:
            return -math.sqrt(0.5), math.sqrt(0.5)
        return (0.0, 1.0) if way < self._back else self._front.normal(self._on_front(way))


class CorneredCurve:
    """A rectangle with rounded corners by arc length; a stadium is one whose corners are half its width."""

    def __init__(self, outline: Outline) -> None:
        self.outline = outline
        corner = {"stadium": outline.width_mm / 2, "rectangle": 0.0}.get(outline.shape, outline.corner_mm)
        self._corner = min(corner, outline.width_mm / 2, outline.length_mm / 2)
        self._straight_x = outline.length_mm / 2 - self._corner
        self._straight_y = outline.width_mm / 2 - self._corner
        arc = math.pi / 2 * self._corner
        # From the middle of the +x end, anticlockwise: half an end, corner, top, corner, ...
        self._ways = [
            self._straight_y, arc, 2 * self._straight_x, arc, 2 * self._straight_y,
            arc, 2 * self._straight_x, arc, self._straight_y,
        ]  # fmt: skip
        self.perimeter = math.fsum(self._ways)

    def _place(self, u: float) -> tuple[Point, Point]:
        way = (u % 1.0) * self.perimeter
        a, b, r = self._straight_x, self._straight_y, self._corner
        starts = [(a + r, 0.0), (a, b), (a, b + r), (-a, b), (-a - r, b), (-a, -b), (-a, -b - r), (a, -b), (a + r, -b)]
        turns = [0.0, 0.0, 0.5, 0.5, 1.0, 1.0, 1.5, 1.5, 2.0]  # outward normal at each piece's start, in π
        for index, piece in enumerate(self._ways):
            if way <= piece or index == len(self._ways) - 1:
                turn = turns[index] * math.pi
                x, y = starts[index]
                if index % 2:  # a corner: `starts` holds its centre
                    turn += way / r if r else 0.0
                    return (x + r * math.cos(turn), y + r * math.sin(turn)), (math.cos(turn), math.sin(turn))
                return (x - way * math.sin(turn), y + way * math.cos(turn)), (math.cos(turn), math.sin(turn))
            way -= piece
        raise AssertionError  # the last piece always returns

    def point(self, u: float) -> Point:
        """See `Curve.point`."""
        return self._place(u)[0]

    def normal(self, u: float) -> Point:
        """See `Curve.normal`."""
        return self._place(u)[1]


class BlendCurve:
    """A share `t` of the way from one outline to another of a different family, stake by stake."""

    def __init__(self, first: Curve, second: Curve, t: float) -> None:
        nearer = first.outline if t < 0.5 else second.outline
        self.outline = replace(
            nearer,
            length_mm=(1 - t) * first.outline.length_mm + t * second.outline.length_mm,
            width_mm=(1 - t) * first.outline.width_mm + t * second.outline.width_mm,
        )
        self._points = []
        for index in range(_BLEND_STEPS):
            (x0, y0), (x1, y1) = first.point(index / _BLEND_STEPS), second.point(index / _BLEND_STEPS)
            self._points.append(((1 - t) * x0 + t * x1, (1 - t) * y0 + t * y1))
        self._ways = [0.0]
        for index in range(_BLEND_STEPS):
            here, there = self._points[index], self._points[(index + 1) % _BLEND_STEPS]
            self._ways.append(self._ways[-1] + math.dist(here, there))
        self.perimeter = self._ways[-1]

    def _segment(self, u: float) -> tuple[Point, Point, float]:
        way = (u % 1.0) * self.perimeter
        index = min(bisect_right(self._ways, way) - 1, _BLEND_STEPS - 1)
        share = (way - self._ways[index]) / (self._ways[index + 1] - self._ways[index])
        return self._points[index], self._points[(index + 1) % _BLEND_STEPS], share

    def point(self, u: float) -> Point:
        """See `Curve.point`."""
        (x0, y0), (x1, y1), share = self._segment(u)
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)

    def normal(self, u: float) -> Point:
        """See `Curve.normal`."""
        (x0, y0), (x1, y1), _ = self._segment(u)
        size = math.hypot(x1 - x0, y1 - y0)
        return (y1 - y0) / size, (x0 - x1) / size


class TurnedOver:
    """An outline as it lies when the work is turned over about its length, and still anticlockwise seen from above."""

    def __init__(self, curve: Curve) -> None:
        self._curve = curve
        self.outline, self.perimeter = curve.outline, curve.perimeter

    def point(self, u: float) -> Point:
        """See `Curve.point`."""
        x, y = self._curve.point(-u)
        return x, -y

    def normal(self, u: float) -> Point:
        """See `Curve.normal`."""
        x, y = self._curve.normal(-u)
        return x, -y


def turned_over(curve: Curve) -> Curve:
    """The outline of work turned over; the same but for one whose back is another than its front."""
    return TurnedOver(curve) if curve.outline.shape == "half round" else curve


@lru_cache(maxsize=4096)
def curve_of(outline: Outline) -> Curve:
    """The outline by arc length."""
    if outline.shape == "circle" or (outline.shape == "ellipse" and outline.length_mm == outline.width_mm):
        return Circle(outline)
    if outline.shape == "ellipse":
        return EllipseCurve(outline)
    if outline.shape == "half round":
        return HalfRoundCurve(outline)
    return CorneredCurve(outline)


def same_family(first: Outline, second: Outline) -> bool:
    """Whether every shape between the two is of one family, so that sizes alone can be interpolated."""
    return _FAMILIES.get(first.shape, "cornered") == _FAMILIES.get(second.shape, "cornered")


_FAMILIES = {"circle": "round", "ellipse": "round", "half round": "half round"}


def _corner_of(outline: Outline) -> float:
    return {"stadium": outline.width_mm / 2, "rectangle": 0.0}.get(outline.shape, outline.corner_mm)


def area_mm2(outline: Outline) -> float:
    """The area inside an outline."""
    if outline.shape in {"circle", "ellipse", "half round"}:  # half of an ellipse twice as wide
        return math.pi / 4 * outline.length_mm * outline.width_mm
    corner = _corner_of(outline)
    return outline.length_mm * outline.width_mm - (4 - math.pi) * corner * corner


def between(first: Outline, second: Outline, t: float) -> Outline:
    """The outline a share `t` (0 to 1) of the way from `first` to `second`, both of one family."""
    if t == 0 or first == second:
        return first
    if t == 1:
        return second
    length = (1 - t) * first.length_mm + t * second.length_mm
    width = (1 - t) * first.width_mm + t * second.width_mm
    if first.shape in {"circle", "ellipse"}:
        return Outline("circle" if length == width else "ellipse", length, width)
    if first.shape == second.shape and first.shape != "rounded rectangle":
        return Outline(first.shape, length, width)
    return Outline("rounded rectangle", length, width, (1 - t) * _corner_of(first) + t * _corner_of(second))


def curve_between(first: Outline, second: Outline, t: float) -> Curve:
    """The curve a share `t` of the way between two outlines of any families."""
    if same_family(first, second) or t in (0.0, 1.0):
        return curve_of(between(first, second, t))
    return BlendCurve(curve_of(first), curve_of(second), t)


def grown(outline: Outline, by_mm: float) -> Outline:
    """The outline `by_mm` larger on every side (smaller if negative). An ellipse stays an ellipse."""
    corner = max(outline.corner_mm + by_mm, 0.0) if outline.shape == "rounded rectangle" else outline.corner_mm
    return Outline(outline.shape, outline.length_mm + 2 * by_mm, outline.width_mm + 2 * by_mm, corner)
