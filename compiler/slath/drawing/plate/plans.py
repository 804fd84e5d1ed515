"""What every plan of a base shares: the side it is seen from, its scale, and the way from basket to page."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
from msgspec import Struct

from slath.basket.model import Basket, ConstructedBase, Curve, Profile, Slath, Stick
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers
from slath.language.pattern import Board
from slath.messages import Decimals, Message, message

_SHEET_MM = (170.0, 215.0)  # what a sheet of A4 or of Letter shows of a ring at least, beside what sheets share
_ROUND_RING = 40.0  # mm of paper a ring takes beyond its edge, its heading with it
_MOST_SHEETS = 24  # more than these nobody lays together true; common practice, no source
SCALES = (1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 40.0)


class Plan(Struct, frozen=True):
    """A plan on the page: basket co-ordinates (x along the length, y across, seen from above) to page mm.

    Seen from below y is turned over, so that stakes numbered left to right from outside run clockwise.
    """

    x: float
    y: float
    ratio: float
    below: bool

    @property
    def scale(self) -> float:
        """Page mm to one mm of basket."""
        return 1 / self.ratio

    def at(self, points: Iterable[tuple[float, float]] | Numbers) -> Numbers:
        """Page points (n, 2) of basket points."""
        given = np.array(list(points) if not isinstance(points, np.ndarray) else points, float)
        turn = -1.0 if self.below else 1.0
        return np.column_stack([self.x + given[:, 0] * self.scale, self.y + turn * given[:, 1] * self.scale])

    def one(self, point: tuple[float, float]) -> tuple[float, float]:
        """The page point of one basket point."""
        x, y = self.at([point])[0].tolist()
        return x, y

    @property
    def view(self) -> Message:
        """The viewing side."""
        return message("views.below" if self.below else "views.above")

    def way_round(self, options: Options) -> Message:
        """The way numbers and work run round this plan."""
        return message("views.clockwise" if self.below != options.mirrored else "views.anticlockwise")

    @property
    def scale_said(self) -> Message:
        """The scale as it is told."""
        return scale_said(self.ratio)


def scale_said(ratio: float) -> Message:
    """One to so many, or full size."""
    return message("captions.scale", full=ratio == 1, ratio=Decimals(ratio, 2))


def fitting_ratio(long: float, wide: float, room_x: float, room_y: float) -> float:
    """The largest neat scale at which a plan of `long` by `wide` mm stands in the room; beyond the list, the exact one."""
    exact = max(long / room_x, wide / room_y)
    return next((ratio for ratio in SCALES if ratio >= exact), exact)


def ring_fits(basket: Basket) -> bool:
    """Whether the base edge at full size can be laid together of printed sheets; a larger one is marked out by strips."""
    outline = basket.base.spec.outline
    across = math.ceil((outline.length_mm + _ROUND_RING) / _SHEET_MM[0])
    down = math.ceil((outline.width_mm + _ROUND_RING) / _SHEET_MM[1])
    return across * down <= _MOST_SHEETS


def board_of(basket: Basket) -> tuple[Board, Curve]:
    """The board and the line its holes stand on. TypeError if the base is no board."""
    spec, line = basket.base.spec, basket.base.hole_line
    if not isinstance(spec, Board) or line is None:
        raise TypeError(f"no holes: {type(spec).__name__}")
    return spec, line


def slath_of(base: ConstructedBase) -> Slath:
    """The crossing of a base of sticks. TypeError if it has none."""
    if base.slath is None:
        raise TypeError(f"no slath: {type(base.spec).__name__}")
    return base.slath


def side_of(basket: Basket) -> Profile:
    """The shape of the side. ValueError for a mat."""
    if basket.profile is None:
        raise ValueError("no side")
    return basket.profile


def lies_on_top(stick: Stick, sticks: Sequence[Stick]) -> bool:
    """Whether a stick lies on top as the maker sees the slath.

    A slit one hides what goes through it from either side; of crossed ones, those laid across the others are on top.
    """
    if any(other.pierced for other in sticks):
        return stick.pierced
    if len({other.over for other in sticks if other.kind != "half stick"}) > 1:
        return stick.over
    return stick.kind == "threaded"


def seen_from_below(base: ConstructedBase) -> bool:
    """Slaths are woven with what becomes the outside towards the maker; boards are drilled and read from above."""
    return not isinstance(base.spec, Board)


def curve_points(curve: Curve, count: int = 240) -> Numbers:
    """A closed outline as points."""
    return np.array([curve.point(step / count) for step in range(count)])


def spread(places: list[float], least: float) -> list[float]:
    """Rising places moved apart so that neighbours stand at least `least` from each other, as little as can be."""
    if not places:
        return []
    moved = list(places)
    for _ in range(200):
        shifted = False
        for one in range(len(moved) - 1):
            short = least - (moved[one + 1] - moved[one])
            if short > 1e-6:
                moved[one] -= short / 2
                moved[one + 1] += short / 2
                shifted = True
        if not shifted:
            break
    return moved
