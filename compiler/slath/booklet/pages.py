"""Strips into columns and pages: the set of breaks that costs least over the whole run, never one page at a time.

A figure that may move stands where it is told, or at the head of the next column while its step goes on there: which
of the two is weighed together with the breaks.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, NamedTuple

from slath.booklet.blocks import ContentError
from slath.booklet.strips import NEVER, Strip, gap, total_height

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

TOLERANCE = 0.01  # points
WHITE = 2e4  # a column left wholly empty at its foot would cost this, a third empty a ninth of it
OPEN_WHITE = 600.0  # the same before a part, where white is no fault but is better shared out
COLUMN_PRICE = 1500.0  # each column costs this, so parts share one where they can
LOW = 0.58  # a part that opens lower than this share of the column is dear, unless all of it fits below
LOW_PRICE = 2500.0
LONELY = 0.12  # a column in which a part ends is dear if the part fills less than this of it
LONELY_PRICE = 2500.0
MOVED = 600.0  # a figure that stands at the head of the next column while its step goes on there
LEFT_BEHIND = 1500.0  # the same when its step has ended
MOVED_ASIDE, LEFT_BEHIND_ASIDE = 100.0, 900.0  # the same of figures in the outer column, which name their step
LAG = 0.04  # what stands lower in the outer column than its words costs this share of white as high
DRIFT = 12  # strips a figure in the outer column may stand further on than its step
SIDE_WEIGHT = 0.35  # how far what fills the outer column alone counts as filling the page
SIDE_GAP = 12.0  # points between two things in the outer column


@dataclass(frozen=True, slots=True)
class Placed:
    """A strip and how far its top lies below the top of its column."""

    strip: Strip
    top: float


@dataclass(frozen=True, slots=True)
class Filled:
    """One column: what stands in it, and whether it must open a page or a right-hand page."""

    placed: tuple[Placed, ...]
    starts: str


def columns(strips: Sequence[Strip], height: float) -> list[Filled]:
    """Break strips into columns of ``height`` points."""
    return [
        Filled(tuple(_set(column, height)), run[0].starts if number == 0 else "")
        for run in _runs(strips)
        for number, column in enumerate(_best_columns(run, height))
    ]


def _runs(strips: Sequence[Strip]) -> list[list[Strip]]:
    """Cut where a new column is asked for."""
    runs: list[list[Strip]] = []
    for strip in strips:
        if strip.starts or not runs:
            runs.append([])
        runs[-1].append(strip)
    return runs


@dataclass(slots=True)
class _Filling:
    """A column while it is filled: how far down the text and the outer column reach, and what was left white on the way."""

    text: float = 0.0
    side: float = 0.0
    free: float = 0.0  # where the outer column begins below what took both columns
    cost: float = 0.0  # for what stands lower than it should, in column heights squared
    above: Strip | None = None
    tops: list[float] = field(default_factory=list)

    def add(self, strip: Strip, *, tight: bool = False) -> float:
        """Set a strip under what is there; where its top lies. ``tight`` leaves no space above it."""
        level = self.text + (gap(self.above, strip) if self.above and not tight else 0.0)
        if strip.beside:
            if strip.back:
                level = self.tops[-strip.back] if strip.back <= len(self.tops) else 0.0
            top = max(level, self.side + SIDE_GAP if self.side else 0.0, self.free + SIDE_GAP if self.free else 0.0)
            self.side = top + strip.height
            self.cost += LAG * (top - level) ** 2
            return top
        top = level
        if strip.wide:
            if self.side:
                top = max(level, self.side + max(strip.above, SIDE_GAP))
                self.cost += (top - level) ** 2
            self.free = top + strip.height
        self.text = top + strip.height
        self.above = strip
        self.tops.append(top)
        return top

    def copy(self) -> _Filling:
        """The same column, to be gone on with in another way."""
        return _Filling(self.text, self.side, self.free, self.cost, self.above, self.tops.copy())

    @property
    def used(self) -> float:
        """How far down anything reaches."""
        return max(self.text, self.side)

    @property
    def filled(self) -> float:
        """The same, where the outer column counts less."""
        return max(self.text, SIDE_WEIGHT * self.side + (1 - SIDE_WEIGHT) * self.text)


class _State(NamedTuple):
    """A column begins with strip ``start``; the last ``held`` figures before it have not been set yet."""

    start: int
    held: int


class _Way(NamedTuple):
    """The cheapest way to a state: its price, the state before, and the first figure that was held back on the way."""

    price: float
    before: _State
    limit: int


@dataclass(slots=True)
class _Column:
    """A column on its way: the state it began from, its filling, the figures held back, those from ``limit`` on, and
    the price of the way so far.
    """

    state: _State
    limit: int
    filling: _Filling
    back: list[int]
    price: float
    before: dict[int, _Column] = field(default_factory=dict)  # as it was before each figure, which is then held back

    def branch(self, limit: int) -> _Column:
        """The same column so far, figures held back from ``limit`` on."""
        return _Column(self.state, limit, self.filling.copy(), self.back.copy(), self.price)


@dataclass(slots=True)
class _Breaker:
    """Finds the cheapest columns for one run."""

    run: Sequence[Strip]
    height: float
    figures: list[int] = field(init=False)
    seen: list[int] = field(init=False)  # how many figures stand before each strip
    until: dict[int, int] = field(init=False)  # the last place each figure may be held back for
    rest: list[float] = field(init=False)
    left: list[float] = field(init=False)  # of the part, from each strip to the next part
    ways: list[dict[int, _Way]] = field(init=False)
    dearest: float = field(init=False)  # a break that costs as much is not considered

    def __post_init__(self) -> None:
        self.figures = [number for number, strip in enumerate(self.run) if strip.reach]
        self.seen = [0, *accumulate(bool(strip.reach) for strip in self.run)]
        self.until = {number: _drifting(self.run, number) for number in self.figures}
        self.rest = _rest_of_parts(self.run)
        self.left = _left_of_parts(self.run)

    def columns(self) -> list[list[Strip]]:
        """The strips of every column in reading order."""
        count = len(self.run)
        for self.dearest in (NEVER / 4, float("inf")):  # what may never be parted is parted only if it must be
            self.ways = [{} for _ in range(count + 1)]
            self.ways[0][0] = _Way(0.0, _State(0, 0), count)
            for start in range(count):
                for held in range(max(self.ways[start], default=-1), -1, -1):  # a column of held figures alone first
                    if held in self.ways[start]:
                        self._columns_from(_State(start, held))
            if self.ways[count]:
                break
        state = _State(count, 0)
        found: list[list[Strip]] = []
        while state != (0, 0):
            way = self.ways[state.start][state.held]
            found.append(self._content(way, state.start))
            state = way.before
        return found[::-1]

    def _held(self, state: _State) -> list[int]:
        known = self.seen[state.start]
        return self.figures[known - state.held : known]

    def _at_head(self, numbers: Iterable[int]) -> list[int]:
        """Figures held back as they stand at the head of a column: first those that take both columns."""
        return sorted(numbers, key=lambda number: self.run[number].beside)

    def _content(self, way: _Way, end: int) -> list[Strip]:
        inside = [*self._at_head(self._held(way.before)), *range(way.before.start, end)]
        return [self.run[number] for number in inside if not (self.run[number].reach and number >= way.limit)]

    def _columns_from(self, state: _State) -> None:
        """Every column that may begin here: with all its figures, and held back from each of them on."""
        count = len(self.run)
        whole = self._begun(state, count)
        reached = self._fill(whole, state.start + 1)
        for limit in self._held(state):
            reached = max(reached, self._fill(self._begun(state, limit), state.start + 1))
        for limit, column in whole.before.items():
            if limit >= reached:
                break
            reached = max(reached, self._fill(column, limit + 1))

    def _fill(self, column: _Column, first: int) -> int:
        """Fill one column on strip by strip from the end ``first``, figures from its limit on held back, and note every
        end it may have. Of a column with all its figures, what stood before each of them is kept in ``before``.

        The first strip that did not fit.
        """
        run, filling, back, limit = self.run, column.filling, column.back, column.limit
        start, room, count = column.state.start, self.height + TOLERANCE, len(self.run)
        head = run[start].repeat
        for end in range(first, count + 1):
            number = end - 1
            strip = run[number]
            if strip.reach and limit == count:
                column.before[number] = column.branch(number)
            if strip.reach and number >= limit:
                back.append(number)
            else:
                filling.add(strip, tight=head is not None and number == start)
                if strip.opens and number > start:
                    column.price += self._low_opening(filling, number)
            if filling.used > room or (back and end > self.until[back[0]]):
                if end == start + 1 and not column.state.held and limit == count:
                    raise ContentError(
                        f"something {strip.height:.0f} points high does not fit a column of {self.height:.0f} points"
                    )
                return end
            dear = end < count and self._never(end, limit)
            if not dear and bool(back) == (limit < count) and filling.used:
                self._note(column, end)
        return count

    def _never(self, end: int, limit: int) -> bool:
        """Whether a break before strip ``end`` parts what may never be parted: it, or a figure held back right before it,
        from what these stand under. A title does not stay alone while its figures and words go on.
        """
        while self.run[end].cost < self.dearest:
            end -= 1
            if end < limit or not self.run[end].reach:
                return False
        return True

    def _begun(self, state: _State, limit: int) -> _Column:
        """A column with the figures held back so far at its head, those from ``limit`` on still held back; noted if it may
        end with them.
        """
        filling = _Filling()
        held = self._held(state)
        for number in self._at_head(number for number in held if number < limit):
            filling.add(self.run[number])
        back = [number for number in held if number >= limit]
        column = _Column(state, limit, filling, back, self.ways[state.start][state.held].price)
        if filling.used and len(back) < state.held and filling.used <= self.height + TOLERANCE:
            self._note(column, state.start)
        head = self.run[state.start].repeat
        if head:
            filling.add(head)
        return column

    def _low_opening(self, filling: _Filling, number: int) -> float:
        """What it costs to open a part here, if it opens low in the column and goes on in the next."""
        low = filling.text > LOW * self.height
        return LOW_PRICE if low and filling.text + self.rest[number] > self.height else 0.0

    def _note(self, column: _Column, end: int) -> None:
        """Remember this way to the end of a column before strip ``end`` if none was cheaper."""
        back = column.back
        if back and (end == len(self.run) or self.run[end].opens):
            return
        price = column.price + self._price(column, end)
        known = self.ways[end].get(len(back))
        if known is None or price < known.price:
            self.ways[end][len(back)] = _Way(price, column.state, column.limit)

    def _price(self, column: _Column, end: int) -> float:
        """What a column costs that ends before strip ``end``."""
        begun, filling = column.state.start, column.filling
        cost = COLUMN_PRICE + WHITE * filling.cost / self.height**2
        for number in column.back:
            figure = self.run[number]
            if end > number + figure.reach:
                cost += LEFT_BEHIND_ASIDE if figure.beside else LEFT_BEHIND
            else:
                cost += MOVED_ASIDE if figure.beside else MOVED
        if begun and not self.run[begun].opens and self.left[begun] < LONELY * self.height:
            cost += LONELY_PRICE
        if end == len(self.run):
            return cost
        strip = self.run[end]
        return cost + strip.cost + (OPEN_WHITE if strip.opens else WHITE) * (1 - filling.filled / self.height) ** 2


def _drifting(run: Sequence[Strip], number: int) -> int:
    """The last strip before which a column may end that leaves out this figure: some way beyond its step, but never
    beyond what opens the next stage.
    """
    end = number + run[number].reach + 1
    last = min(end + DRIFT, len(run) - 1) if run[number].beside else end
    while end < last and not (run[end].wide and not run[end].reach):
        end += 1
    return end


def _best_columns(run: Sequence[Strip], height: float) -> list[list[Strip]]:
    return _Breaker(run, height).columns()


def _rest_of_parts(run: Sequence[Strip]) -> list[float]:
    """For every strip that opens a part, the height of what follows it up to the next part; 0 for the others."""
    openings = [number for number, strip in enumerate(run) if strip.opens]
    rest = [0.0] * len(run)
    for number, following in pairwise([*openings, len(run)]):
        rest[number] = total_height(run[number:following]) - run[number].height
    return rest


def _left_of_parts(run: Sequence[Strip]) -> list[float]:
    """The height from each strip to the end of its part, what stands in the outer column left out."""
    left = [0.0] * (len(run) + 1)
    for number in range(len(run) - 1, -1, -1):
        ends = number + 1 == len(run) or run[number + 1].opens
        below = 0.0 if ends else left[number + 1] + gap(run[number], run[number + 1])
        left[number] = below + (0.0 if run[number].beside else run[number].height)
    return left


def _set(column: Sequence[Strip], height: float) -> Iterator[Placed]:
    """Set the strips of one column under one another; what fills takes the height left."""
    filling = _Filling()
    for number, strip in enumerate(column):
        head = strip.repeat if not any(not before.reach for before in column[:number]) else None
        if head:
            yield Placed(head, filling.add(head))
        if strip.fills:
            after = column[number:]
            level = filling.text + (gap(filling.above, strip) if filling.above else 0.0)
            strip.height = height - level - total_height(after) + strip.height
            strip.marks = strip.fills(strip.height)
        yield Placed(strip, filling.add(strip, tight=head is not None))
