"""Strips: what a page is filled with from top to bottom. A strip is never split; pages break between strips."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Literal

from msgspec import Struct, field
from msgspec.structs import replace

from slath.booklet.laid import Mark

# What it costs to break a page before a strip, in one currency with the white left at the foot of a page: a page
# that is left a tenth empty costs 200, a third empty 2,200.
NEVER = 1e7
WIDOW = 6000.0
IN_PARAGRAPH = 40.0
IN_STEP = 80.0
IN_TABLE = 120.0


class Roomy(Struct, eq=False):
    """What a step shows and tells, in so many ``strips``, and larger ways to set it, the largest first.

    A way gives no strips where it cannot be set so.
    """

    strips: int
    ways: Callable[[], Sequence[Callable[[], list[Strip]]]]


class Strip(Struct):
    """One strip of a column, ``height`` points high; its marks are placed from its top left corner.

    ``above`` and ``below`` are the space it wants, dropped at the ends of a column; of two neighbours the larger
    counts. ``cost`` is the price of breaking the column before it. ``repeat`` is set again at the head of the next
    column if this strip begins it. ``fills`` paints a strip that takes all the height left, at least ``height``.
    ``late`` paints what depends on page numbers. ``band`` is how far below its top a band of the tint reaches that
    covers the head of the page from edge to edge.

    ``floats`` is after how many of the strips that follow it may stand, if it begins the next column then.

    ``parted`` says how it and the strips after it, as many as ``parting``, may be set in two parts with a column's end
    between them.

    ``stage`` is the number of the stage it opens, and ``roomy`` the larger ways of setting what it is one strip of.
    """

    height: float
    marks: list[Mark] = field(default_factory=list)
    above: float = 0.0
    below: float = 0.0
    cost: float = 0.0
    repeat: Strip | None = None
    starts: Literal["", "column", "page", "right"] = ""
    fills: Callable[[float], list[Mark]] | None = None
    late: Callable[[Mapping[str, int]], list[Mark]] | None = None
    anchors: tuple[str, ...] = ()
    bookmark: tuple[int, str] | None = None
    opens: bool = False  # opens a part: white left before it costs nothing, but it does not open low on a page
    band: float = 0.0
    bare: bool = False  # the page of this strip carries no running head and foot
    stage: str = ""
    roomy: Roomy | None = None
    floats: int = 0
    parted: Callable[[], list[tuple[list[Strip], list[Strip]]]] | None = None
    parting: int = 0

    def moved(self, x: float) -> Strip:
        """The same strip further to the right."""
        return replace(self, marks=[mark.moved(x, 0.0) for mark in self.marks])


def gap(upper: Strip, lower: Strip) -> float:
    """The space between two strips in one column."""
    return max(upper.below, lower.above)


def total_height(strips: Sequence[Strip]) -> float:
    """The height of strips set under one another, without space above the first and below the last."""
    inner = math.fsum(gap(upper, lower) for upper, lower in pairwise(strips))
    return inner + math.fsum(strip.height for strip in strips)


def stacked(strips: Sequence[Strip], x: float = 0.0) -> Strip:
    """Strips under one another as one strip that never splits."""
    marks: list[Mark] = []
    y = 0.0
    for number, strip in enumerate(strips):
        y += gap(strips[number - 1], strip) if number else 0.0
        marks.extend(mark.moved(x, y) for mark in strip.marks)
        y += strip.height
    anchors = tuple(anchor for strip in strips for anchor in strip.anchors)
    return Strip(y, marks, strips[0].above, strips[-1].below, strips[0].cost, anchors=anchors)


def beside(left: Strip, right: Strip, x: float, *, right_first: bool = False) -> Strip:
    """Two strips next to one another, the right one ``x`` points in. Read left first unless ``right_first``."""
    moved = [mark.moved(x, 0.0) for mark in right.marks]
    marks = [*moved, *left.marks] if right_first else [*left.marks, *moved]
    return Strip(
        max(left.height, right.height), marks, max(left.above, right.above), max(left.below, right.below), left.cost,
        anchors=left.anchors + right.anchors,
    )  # fmt: skip


def in_columns(columns: Sequence[Strip], width: float, gutter: float) -> Strip:
    """Columns of one width next to one another as one strip, read one after another."""
    marks = [mark.moved(place * (width + gutter), 0.0) for place, each in enumerate(columns) for mark in each.marks]
    anchors = tuple(anchor for each in columns for anchor in each.anchors)
    return Strip(max(each.height for each in columns), marks, anchors=anchors)


def kept(strips: Sequence[Strip]) -> list[Strip]:
    """The same strips, never parted by a break."""
    return [strip if number == 0 else replace(strip, cost=NEVER) for number, strip in enumerate(strips)]


def whole_if_short(strips: Sequence[Strip], limit: float) -> list[Strip]:
    """Strips no higher than ``limit`` together are parted only to save the page from being left half empty."""
    if total_height(strips) > limit:
        return list(strips)
    return [
        strip if number == 0 else replace(strip, cost=max(strip.cost, WIDOW)) for number, strip in enumerate(strips)
    ]
