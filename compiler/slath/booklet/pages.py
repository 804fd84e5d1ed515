"""Strips into columns and pages: the set of breaks that costs least over the whole run, never one page at a time.

What a page has left over goes to its figures first (`_grown`), then to the space between its strips.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from slath.booklet.blocks import ContentError
from slath.booklet.laid import MM
from slath.booklet.strips import NEVER, Roomy, Strip, gap, total_height

TOLERANCE = 0.01  # points
WHITE = 2e4  # a column left wholly empty at its foot would cost this, a third empty a ninth of it
OPEN_WHITE = 4e3  # the same before a part, where white is less of a fault
COLUMN_PRICE = 9000.0  # each column costs this, so parts share one where they can
LOW = 0.75  # a part that opens lower than this share of the column is dear, unless all of it fits below
LOW_PRICE = 4000.0
LONELY = 0.12  # a column in which a part ends is dear if the part fills less than this of it
LONELY_PRICE = 2500.0
SHORT = 25.0 * MM  # a page may end so much short before its figures and spaces are stretched
STRETCH = 0.6  # of the space between two strips, the most it is widened by


class Placed(Struct, frozen=True):
    """A strip and how far its top lies below the top of its column."""

    strip: Strip
    top: float


class Filled(Struct, frozen=True):
    """One column: what stands in it, and whether it must open a page or a right-hand page."""

    placed: tuple[Placed, ...]
    starts: str


def columns(strips: Sequence[Strip], height: float) -> list[Filled]:
    """Break strips into columns of ``height`` points."""
    found: list[Filled] = []
    for run in _runs(strips):
        broken = _Breaker(run, height).columns()
        for number, column in enumerate(broken):
            ends = number + 1 == len(broken)
            found.append(
                Filled(tuple(_set(_grown(column, height), height, ends=ends)), "" if number else run[0].starts)
            )
    return found


def _runs(strips: Sequence[Strip]) -> list[list[Strip]]:
    """Cut where a new column is asked for."""
    runs: list[list[Strip]] = []
    for strip in strips:
        if strip.starts or not runs:
            runs.append([])
        runs[-1].append(strip)
    return runs


@dataclass(slots=True)
class _Breaker:
    """Finds the cheapest columns for one run."""

    run: Sequence[Strip]
    height: float
    rest: list[float] = field(init=False)  # of the part each strip opens, what follows it
    left: list[float] = field(init=False)  # of the part, from each strip to the next part
    prices: list[float] = field(init=False)
    before: list[int] = field(init=False)

    def __post_init__(self) -> None:
        self.rest = _rest_of_parts(self.run)
        self.left = _left_of_parts(self.run)

    def columns(self) -> list[list[Strip]]:
        """The strips of every column in reading order."""
        count = len(self.run)
        for dearest in (NEVER / 4, float("inf")):  # what may never be parted is parted only if it must be
            self.prices = [0.0] + [float("inf")] * count
            self.before = [0] * (count + 1)
            for start in range(count):
                if self.prices[start] < float("inf"):
                    self._fill_from(start, dearest)
            if self.prices[count] < float("inf"):
                break
        ends = [count]
        while ends[-1]:
            ends.append(self.before[ends[-1]])
        return [list(self.run[first:last]) for last, first in pairwise(ends)][::-1]

    def _fill_from(self, start: int, dearest: float) -> None:
        """Every end a column that begins with strip ``start`` may have, and what it costs."""
        run, price = self.run, self.prices[start]
        head = run[start].repeat
        used = head.height if head else 0.0
        for number in range(start, len(run)):
            strip = run[number]
            if number > start:
                used += gap(run[number - 1], strip)
                if strip.opens and used > LOW * self.height and used + strip.height + self.rest[number] > self.height:
                    price += LOW_PRICE
            used += strip.height
            if used > self.height + TOLERANCE:
                if number == start:
                    high = f"something {strip.height:.0f} points high does not fit a column of {self.height:.0f} points"
                    raise ContentError(high)
                return
            end = number + 1
            if end < len(run) and run[end].cost >= dearest:
                continue
            cost = price + self._price(start, end, used)
            if cost < self.prices[end]:
                self.prices[end], self.before[end] = cost, start

    def _price(self, start: int, end: int, used: float) -> float:
        """What a column costs that holds the strips from ``start`` to before ``end``."""
        cost = COLUMN_PRICE
        if start and not self.run[start].opens and self.left[start] < LONELY * self.height:
            cost += LONELY_PRICE
        if end == len(self.run):
            return cost
        strip = self.run[end]
        return cost + strip.cost + (OPEN_WHITE if strip.opens else WHITE) * (1 - used / self.height) ** 2


def _rest_of_parts(run: Sequence[Strip]) -> list[float]:
    """For every strip that opens a part, the height of what follows it up to the next part; 0 for the others."""
    openings = [number for number, strip in enumerate(run) if strip.opens]
    rest = [0.0] * len(run)
    for number, following in pairwise([*openings, len(run)]):
        rest[number] = total_height(run[number:following]) - run[number].height
    return rest


def _left_of_parts(run: Sequence[Strip]) -> list[float]:
    """The height from each strip to the end of its part."""
    left = [0.0] * (len(run) + 1)
    for number in range(len(run) - 1, -1, -1):
        ends = number + 1 == len(run) or run[number + 1].opens
        below = 0.0 if ends else left[number + 1] + gap(run[number], run[number + 1])
        left[number] = below + run[number].height
    return left


def _grown(column: list[Strip], height: float) -> list[Strip]:
    """The same column with larger figures, the first of them first, as long as much of it would stay white."""
    for roomy in _whole(column):
        for wider in roomy.ways():
            if height - _used(column) <= SHORT:
                return column
            first = next(number for number, strip in enumerate(column) if strip.roomy is roomy)
            after = next(
                (number for number in range(first, len(column)) if column[number].roomy is not roomy), len(column)
            )
            made = wider()
            if made:
                made[0] = replace(made[0], above=column[first].above, cost=column[first].cost)
                made[-1] = replace(made[-1], below=column[after - 1].below)
                changed = [*column[:first], *made, *column[after:]]
                if _used(changed) <= height + TOLERANCE:
                    column = changed
                    break
    return column


def _whole(column: Sequence[Strip]) -> list[Roomy]:
    """What may be set with larger figures and stands whole in the column."""
    found: dict[int, list[Roomy]] = {}
    for strip in column:
        if strip.roomy is not None:
            found.setdefault(id(strip.roomy), []).append(strip.roomy)
    return [strips[0] for strips in found.values() if len(strips) == strips[0].strips]


def _used(column: Sequence[Strip]) -> float:
    head = column[0].repeat
    return total_height(column) + (head.height if head else 0.0)


def _set(column: Sequence[Strip], height: float, *, ends: bool) -> Iterator[Placed]:
    """Set the strips of one column under one another; what fills takes the height left. Where a column breaks, the space
    between its strips is widened a little so that it ends near its foot.
    """
    spare = height - _used(column)
    gaps = math.fsum(gap(upper, lower) for upper, lower in pairwise(column))
    fills = any(strip.fills for strip in column)
    wider = 0.0 if ends or fills or not gaps or spare <= 0 else min(spare / gaps, STRETCH)
    level = 0.0
    for number, strip in enumerate(column):
        if number == 0 and strip.repeat:
            yield Placed(strip.repeat, 0.0)
            level = strip.repeat.height
        elif number:
            level += gap(column[number - 1], strip) * (1 + wider)
        if strip.fills:
            strip.height = height - level - total_height(column[number:]) + strip.height
            strip.marks = strip.fills(strip.height)
        yield Placed(strip, level)
        level += strip.height
