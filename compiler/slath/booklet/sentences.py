"""Sentences of a step and what else stands among them, set for any width and shared out over columns."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial

from msgspec import Struct, field
from msgspec.structs import replace

from slath.booklet.blocks import Shows, Step, Words, pieces_of
from slath.booklet.desk import Desk
from slath.booklet.laid import Node
from slath.booklet.strips import Strip, in_columns, stacked
from slath.booklet.words import label_mark

NUMBER_ROOM = 1.7  # ems of the body for the number of a sentence
BETWEEN = 0.22  # lines between two sentences
LONGEST_LINE = 38.0  # ems of a line of sentences; on a wider page they stop short


class Told(Struct, eq=False, dict=True):
    """Something told: ``make`` sets it for a width. ``figure`` is what shows it from here on, ``head`` a heading."""

    make: Callable[[Desk], Strip]
    figure: str = ""
    head: bool = False
    _set: dict[int, Strip] = field(default_factory=dict)

    def at(self, desk: Desk, width: float) -> Strip:
        """The same set ``width`` points wide; what was set once is not set again."""
        key = round(10 * width)
        if key not in self._set:
            self._set[key] = self.make(desk.narrowed(width))
        return self._set[key]


def sentences(block: Step, body: Node) -> list[Told]:
    """The actions of a step, numbered where there are several, headings before those that open a phase, then its notes."""
    tree = Node("L", body, attributes=(("ListNumbering", "Decimal"),))
    told: list[Told] = []
    numbered = len(block.actions) > 1
    for number, words in enumerate(block.actions, 1):
        pieces = pieces_of(words)
        shows = pieces[0] if pieces and isinstance(pieces[0], Shows) else None
        if shows and shows.words:
            told.append(Told(partial(_head, shows.words, body), shows.figure, head=True))
        item = Node("LI", tree)
        nodes = (Node("Lbl", item) if numbered else None, Node("LBody", item))
        figure = shows.figure if shows and not shows.words else ""
        told.append(Told(partial(_sentence, number, words, nodes), figure))
    told += [Told(partial(_note, words, body)) for words in block.notes]
    return told


def _head(words: Words, body: Node, desk: Desk) -> Strip:
    style = desk.style
    look = style.look(style.type.table, strong=True, family=style.type.tables, colour=style.colours.accent)
    return stacked(desk.text(words, Node("P", body), look, ragged=True))


def _sentence(number: int, words: Words, nodes: tuple[Node | None, Node], desk: Desk) -> Strip:
    label, body = nodes
    style = desk.style
    look = style.look(style.type.body)
    x = NUMBER_ROOM * look.size if label else 0.0
    width = min(desk.width - x, LONGEST_LINE * look.size)
    strips = desk.text(words, body, look, x=x, width=width, ragged=True)
    if label:
        bold = style.look(0.9 * look.size, strong=True, family="sans", colour=style.colours.accent)
        strips[0].marks.insert(0, label_mark(label, str(number), bold, 0.0, desk.baseline(look)))
    return stacked(strips)


def _note(words: Words, body: Node, desk: Desk) -> Strip:
    style = desk.style
    look = style.look(style.type.table, family=style.type.tables, colour=style.colours.quiet)
    width = min(desk.width, 1.2 * LONGEST_LINE * look.size)
    return stacked(desk.text(words, Node("P", body), look, width=width, ragged=True))


def height(desk: Desk, told: Sequence[Told], width: float) -> float:
    """How high so much stands in one column."""
    if not told:
        return 0.0
    return math.fsum(each.at(desk, width).height for each in told) + BETWEEN * desk.line * (len(told) - 1)


def column(desk: Desk, told: Sequence[Told], width: float) -> Strip:
    """Sentences under one another as one strip."""
    made = [each.at(desk, width) for each in told]
    strips = [replace(strip, above=max(strip.above, BETWEEN * desk.line)) for strip in made]
    return stacked(strips) if strips else Strip(0.0)


def shared(desk: Desk, told: Sequence[Told], count: int, gutter: float) -> Strip:
    """Sentences in so many columns, each whole in one of them, the highest column as low as can be."""
    width = (desk.width - (count - 1) * gutter) / count
    limit = _lowest(desk, told, count, width)
    columns: list[list[Told]] = [[]]
    for each in told:
        if columns[-1] and height(desk, [*columns[-1], each], width) > limit + 0.01 and not columns[-1][-1].head:
            columns.append([])
        columns[-1].append(each)
    made = [column(desk, each, width) for each in columns]
    return in_columns(made, width, gutter)


def _lowest(desk: Desk, told: Sequence[Told], count: int, width: float) -> float:
    """The least height of the highest of ``count`` columns that hold everything in order."""
    step = BETWEEN * desk.line
    heights = [each.at(desk, width).height + step for each in told]
    best = {0: [0.0] * (len(told) + 1)}
    sums = [0.0]
    for each in heights:
        sums.append(sums[-1] + each)
    best[1] = [max(0.0, whole - step) for whole in sums]
    for columns in range(2, count + 1):
        best[columns] = [
            min(
                max(best[columns - 1][start], sums[end] - sums[start] - step if end > start else 0.0)
                for start in range(end + 1)
                if not (start and told[start - 1].head and start < end)
            )
            for end in range(len(told) + 1)
        ]
    return best[count][len(told)]
