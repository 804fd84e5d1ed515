"""Steps next to one another: those that follow one another share a row of columns where all of them together become lower
so. Columns are read one after another, and each holds whole steps.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct, field
from msgspec.structs import replace

from slath.booklet.blocks import Block, Step, TickRow
from slath.booklet.desk import Desk
from slath.booklet.forms import tick_row
from slath.booklet.laid import MM, Mark, Node, Rule
from slath.booklet.steps import RULE_GAP, STEP_GAP, above, step
from slath.booklet.strips import NEVER, Strip, in_columns, stacked, total_height
from slath.booklet.styles import GUTTER

MOST_ABREAST = 7  # sentences of a step that may stand in a third of the page
MOST_IN_ROW = 4  # steps that may share one row
HIGHEST_ROW = 0.55  # of the page; a higher row would leave the page before it empty
SAVES = 1.5  # lines a row must save, so that a figure is not set narrower for nothing


class Unit(Struct, frozen=True):
    """A step with what is ticked off straight after it."""

    step: Step
    ticks: tuple[TickRow, ...] = ()

    @property
    def plain(self) -> bool:
        """Whether it has nothing that takes more than a third of the page."""
        told = self.step
        return not (told.figures or told.stops or told.lead or self.ticks) and len(told.actions) <= MOST_ABREAST

    @property
    def narrow(self) -> bool:
        """Whether it may stand in half of the page: none of its figures wants the whole."""
        return not any(figure.room for figure in self.step.figures)


def units(blocks: Sequence[Block], first: Step) -> tuple[list[Unit], int]:
    """The steps from ``first`` on that follow one another without anything between, and how many blocks they are."""
    found = [Unit(first)]
    taken = 0
    for block in blocks:
        if isinstance(block, TickRow):
            found[-1] = replace(found[-1], ticks=(*found[-1].ticks, block))
        elif isinstance(block, Step) and not block.opens:
            found.append(Unit(block))
        else:
            break
        taken += 1
    return found, taken


def steps(desk: Desk, told: Sequence[Unit], tree: Node) -> list[Strip]:
    """All these steps, in rows of one, two or three columns."""
    return _Rows(desk, told, tree).strips()


class _Rows(Struct):
    """Finds the rows in which some steps become lowest."""

    desk: Desk
    units: Sequence[Unit]
    tree: Node
    whole: dict[int, list[Strip]] = field(default_factory=dict)
    columned: dict[tuple[int, int], Strip] = field(default_factory=dict)

    def strips(self) -> list[Strip]:
        """The strips of the lowest rows there are."""
        count = len(self.units)
        heights = [0.0] * (count + 1)
        ways: list[list[Strip]] = [[] for _ in range(count)]
        ends = [0] * count
        for start in range(count - 1, -1, -1):
            best = float("inf")
            for end, made in self._ways(start):
                high = total_height(made) + STEP_GAP * self.desk.line + heights[end]
                if high + (SAVES * self.desk.line if end > start + 1 else 0.0) < best:
                    best, ways[start], ends[start] = high, made, end
            heights[start] = best
        out: list[Strip] = []
        start = 0
        while start < count:
            out += ways[start]
            start = ends[start]
        return out

    def _ways(self, start: int) -> Iterator[tuple[int, list[Strip]]]:
        """What may stand from one step on: itself across the page, or a row of it with the next; each with where it ends."""
        yield start + 1, self._across(start)
        for end in range(start + 2, min(start + MOST_IN_ROW, len(self.units)) + 1):
            for columns in (2, 3):
                row = self._row(start, end, columns)
                if row is not None:
                    yield end, [row]

    def _across(self, place: int) -> list[Strip]:
        if place not in self.whole:
            self.whole[place] = _with_ticks(self.desk, self.units[place], self.tree)
        return self.whole[place]

    def _row(self, start: int, end: int, columns: int) -> Strip | None:
        """Steps shared out over columns, the highest as low as can be; None where they do not go together."""
        desk, together = self.desk, self.units[start:end]
        narrowest = 3 if desk.style.grid == 3 else 2
        if columns > narrowest or end - start < columns:
            return None
        fits = all(unit.plain for unit in together) if columns == narrowest else all(u.narrow for u in together)
        if not fits or all(unit.step.figures for unit in together):
            return None
        gutter = GUTTER * MM
        width = (desk.width - (columns - 1) * gutter) / columns
        shares = min(
            (self._shared(cut, width) for cut in _cuts(start, end, columns)),
            key=lambda made: max(each.height for each in made),
        )
        row = in_columns(shares, width, gutter)
        if row.height > HIGHEST_ROW * desk.height:
            return None
        first = self.units[start].step
        if not first.opens:
            rule = Mark(None, (Rule(0, 0, desk.width, 0, 0.5, desk.style.colours.rule),))
            moved = [rule, *(mark.moved(0.0, RULE_GAP * desk.line) for mark in row.marks)]
            row = replace(row, height=row.height + RULE_GAP * desk.line, marks=moved)
        return replace(row, above=above(desk, first), below=STEP_GAP * desk.line)

    def _shared(self, cut: Sequence[int], width: float) -> list[Strip]:
        return [self._column(start, end, width) for start, end in pairwise(cut)]

    def _column(self, start: int, end: int, width: float) -> Strip:
        """Some steps under one another, ``width`` points wide; the first has its rule from the whole row."""
        made: list[Strip] = []
        for place in range(start, end):
            strip = self._narrow(place, width, opens=place == start)
            made.append(strip)
        return stacked(made)

    def _narrow(self, place: int, width: float, *, opens: bool) -> Strip:
        key = (2 * place + opens, round(width))
        if key not in self.columned:
            narrow = self.desk.narrowed(width)
            narrow = replace(narrow, style=replace(narrow.style, grid=1))
            unit = self.units[place]
            told = replace(unit, step=replace(unit.step, opens=opens))
            self.columned[key] = stacked(_with_ticks(narrow, told, self.tree))
        return self.columned[key]


def _cuts(start: int, end: int, columns: int) -> list[tuple[int, ...]]:
    """The ways to cut steps from ``start`` to before ``end`` into so many columns, none of them empty."""
    if columns == 2:
        return [(start, cut, end) for cut in range(start + 1, end)]
    return [(start, one, two, end) for one in range(start + 1, end - 1) for two in range(one + 1, end)]


def _with_ticks(desk: Desk, unit: Unit, tree: Node) -> list[Strip]:
    """A step and the rounds to be ticked off after it, never parted from it."""
    strips = step(desk, unit.step, tree)
    for each in unit.ticks:
        made = tick_row(desk, each, Node("LBody", Node("LI", tree)))
        strips += [replace(made[0], cost=NEVER / 2), *made[1:]]
    return strips
