"""Strips into columns and pages: the set of breaks that costs least over the whole run, never one page at a time.

What a page has left over goes to its figures first (`_grown`), then to the space between its strips.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

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
FLOAT_PRICE = 300.0  # a figure that stands after some of its sentences, at the head of the next column
PART_PRICE = 1500.0  # a step whose figure stands on the page after its first sentences
NOTHING = -1  # of the strips, what is carried over to the next column where nothing is
LONELY = 0.12  # a column in which a part ends is dear if the part fills less than this of it
LONELY_PRICE = 2500.0
SHORT = 25.0 * MM  # a page may end so much short before its figures and spaces are stretched
NOTES_ROOM = 46.0 * MM  # left over by a page for which ruled lines are worth their heading
STRETCH = 0.6  # of the space between two strips, the most it is widened by


class Placed(Struct, frozen=True):
    """A strip and how far its top lies below the top of its column."""

    strip: Strip
    top: float


class Filled(Struct, frozen=True):
    """One column: what stands in it, and whether it must open a page or a right-hand page."""

    placed: tuple[Placed, ...]
    starts: str


def columns(
    strips: Sequence[Strip], height: float, notes: Callable[[], list[Strip]] | None = None
) -> list[Filled]:  # fmt: skip
    """Break strips into columns of ``height`` points. Where much of one would stay white, ``notes`` gives what fills it."""
    found: list[Filled] = []
    for run in _runs(strips):
        broken = _Breaker(run, height).columns()
        for number, column in enumerate(broken):
            ends = number + 1 == len(broken)
            grown = _grown(column, height)
            if notes and height - _used(grown) > NOTES_ROOM and not any(strip.fills for strip in grown):
                grown += notes()
            found.append(Filled(tuple(_set(grown, height, ends=ends)), "" if number else run[0].starts))
    return found


def _runs(strips: Sequence[Strip]) -> list[list[Strip]]:
    """Cut where a new column is asked for."""
    runs: list[list[Strip]] = []
    for strip in strips:
        if strip.starts or not runs:
            runs.append([])
        runs[-1].append(strip)
    return runs


class _State(NamedTuple):
    """Where a column may begin: with which strip, before it what is ``carried`` over from the last column if anything is,
    one of those gathered by number.
    """

    start: int
    carried: int = NOTHING


class _Way(NamedTuple):
    """How a state is reached most cheaply: from which, and what the column between them holds."""

    begun: _State
    column: list[Strip]


class _Filling(Struct):
    """A column while it is filled: where it began, what it costs so far, what it holds, how high that is, and the number
    of a strip held for the next column.
    """

    state: _State
    price: float
    column: list[Strip] = []
    used: float = 0.0
    held: int = NOTHING


@dataclass(slots=True)
class _Breaker:
    """Finds the cheapest columns for one run."""

    run: Sequence[Strip]
    height: float
    rest: list[float] = field(init=False)  # of the part each strip opens, what follows it
    left: list[float] = field(init=False)  # of the part, from each strip to the next part
    dearest: float = NEVER / 4  # what may never be parted is parted only if it must be
    carried: list[list[Strip]] = field(default_factory=list)
    parted: dict[int, list[tuple[list[Strip], int]]] = field(default_factory=dict)
    floating: dict[int, int] = field(default_factory=dict)
    prices: dict[_State, float] = field(default_factory=dict)
    ways: dict[_State, _Way] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.rest = _rest_of_parts(self.run)
        self.left = _left_of_parts(self.run)

    def columns(self) -> list[list[Strip]]:
        """The strips of every column in reading order."""
        last = _State(len(self.run))
        self._break()
        if last not in self.prices:
            self.dearest = math.inf
            self._break()
        found: list[list[Strip]] = []
        state = last
        while state != _State(0):
            state, column = self.ways[state]
            found.append(column)
        return found[::-1]

    def _break(self) -> None:
        """Find the way to every state, each once it can be reached by no other."""
        self.prices, self.ways = {_State(0): 0.0}, {}
        for start in range(len(self.run) + 1):
            carrying = sorted((state for state in self.prices if state.start == start), reverse=True)
            for state in carrying:  # with nothing carried over last: a column may hold what was carried and no more
                if state != _State(len(self.run)):
                    self._fill_from(state)

    def _fill_from(self, state: _State) -> None:
        """Every end a column that begins so may have, and what it costs."""
        filling = _Filling(state, self.prices[state])
        if state.carried >= 0:
            filling.column = list(self.carried[state.carried])
            filling.used = total_height(filling.column)
            if self._may_end(state.start):
                self._end(filling, _State(state.start))
        elif head := self.run[state.start].repeat:
            filling.used = head.height
        for number in range(state.start, len(self.run)):
            if not self._add(filling, number):
                return

    def _add(self, filling: _Filling, number: int) -> bool:
        """Set one more strip in a column, and let it end there if it may; False where it is full. A strip that floats and
        does not fit is held for the next column while what it may stand after is set; what may be parted is parted.
        """
        strip, column, held = self.run[number], filling.column, filling.held
        between = gap(column[-1], strip) if column else 0.0
        room = self.height + TOLERANCE - filling.used - between
        if held >= 0 and number > held + self.run[held].floats:
            return False
        if strip.floats and held < 0 and column and strip.height > room:
            filling.held, filling.price = number, filling.price + FLOAT_PRICE
            return True
        filling.used += between
        if column:
            self._low(filling, number)
            if strip.parted and held < 0 and self._unbroken(number) > room:
                self._part(filling, number)
        if strip.height > room:
            if not column:
                high = f"something {strip.height:.0f} points high does not fit a column of {self.height:.0f} points"
                raise ContentError(high)
            return False
        filling.used += strip.height
        column.append(strip)
        if self._may_end(number + 1):
            self._end(filling, _State(number + 1, self._float(held)))
        return True

    def _low(self, filling: _Filling, number: int) -> None:
        """A part that opens low in a column costs something, unless all of it fits there."""
        strip, used = self.run[number], filling.used
        if strip.opens and used > LOW * self.height and used + strip.height + self.rest[number] > self.height:
            filling.price += LOW_PRICE

    def _may_end(self, number: int) -> bool:
        """Whether a column may end before a strip."""
        return number == len(self.run) or self.run[number].cost < self.dearest

    def _unbroken(self, number: int) -> float:
        """The height from a strip on to where the column may end next."""
        end = number + 1
        while end < len(self.run) and self.run[end].cost >= NEVER / 4:
            end += 1
        return total_height(self.run[number:end])

    def _float(self, held: int) -> int:
        """The strip held for the next column among all that is carried over."""
        if held < 0:
            return NOTHING
        if held not in self.floating:
            self.floating[held] = len(self.carried)
            self.carried.append([self.run[held]])
        return self.floating[held]

    def _part(self, filling: _Filling, number: int) -> None:
        """Let a column end within the step that begins with a strip."""
        strip = self.run[number]
        if number not in self.parted:
            self.parted[number] = []
            for first, rest in strip.parted() if strip.parted else []:
                first[0] = replace(first[0], cost=strip.cost, above=strip.above)
                self.parted[number].append((first, len(self.carried)))
                self.carried.append(rest)
        for first, rest_number in self.parted[number]:
            high = filling.used + total_height(first)
            if high <= self.height + TOLERANCE and total_height(self.carried[rest_number]) <= self.height:
                column = [*filling.column, *first]
                ended = _Filling(filling.state, filling.price + PART_PRICE, column, high)
                self._end(ended, _State(number + strip.parting, rest_number))

    def _end(self, filling: _Filling, after: _State) -> None:
        """Take it that a column ends before a state, if that is the cheapest way there."""
        cost = filling.price + self._price(filling.state, after, filling.used)
        if cost < self.prices.get(after, math.inf):
            self.prices[after], self.ways[after] = cost, _Way(filling.state, list(filling.column))

    def _price(self, state: _State, after: _State, used: float) -> float:
        """What a column costs that begins in one state and ends before another."""
        start, end = state.start, after.start
        cost = COLUMN_PRICE
        if start < len(self.run) and start and state.carried < 0 and not self.run[start].opens:
            cost += LONELY_PRICE if self.left[start] < LONELY * self.height else 0.0
        empty = (1 - used / self.height) ** 2
        if after.carried >= 0:
            return cost + WHITE * empty
        if end == len(self.run):
            return cost
        strip = self.run[end]
        return cost + strip.cost + (OPEN_WHITE if strip.opens else WHITE) * empty


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
