"""Room to write: ruled lines, boxes to tick off rounds, values to fill in."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from slath.booklet.blocks import Blank, Column, Row, Table
from slath.booklet.desk import Desk, hang, spaced
from slath.booklet.laid import MM, Area, Mark, Node, Rule
from slath.booklet.reading import plain
from slath.booklet.strips import NEVER, Strip, kept, stacked
from slath.booklet.tables import table

if TYPE_CHECKING:
    from slath.booklet.blocks import Form, NotesLines, TickRow
    from slath.booklet.lines import Look

WRITING_LINE = 8.0 * MM  # distance of ruled lines; common practice in exercise books
BOX = 4.2 * MM  # side of a box to tick with a pencil
BOX_IN_TYPE = 0.9  # of the type size of their label, where that is larger
BOX_GAP, GROUP_GAP = 0.9 * MM, 2.2 * MM
LABEL_GAP = 0.8  # ems between a label and its boxes


def notes_lines(desk: Desk, block: NotesLines, parent: Node) -> list[Strip]:
    """A heading over ruled lines: as many as asked for, or down to the foot of the column."""
    style = desk.style
    look = style.look(style.type.heading_3, strong=True, family=style.type.headings)
    title = kept(desk.text(block.heading, Node("P", parent), look, ragged=True)) if block.heading else []

    def ruled(height: float) -> list[Mark]:
        lines = (
            Rule(0, y * WRITING_LINE, desk.width, y * WRITING_LINE, 0.4, style.colours.rule)
            for y in range(1, int(height / WRITING_LINE) + 1)
        )
        return [Mark(None, tuple(lines))]

    cost = NEVER if title else 0.0
    lines = block.lines or 4
    strip = Strip(lines * WRITING_LINE, ruled(lines * WRITING_LINE), cost=cost)
    if block.lines == 0:
        strip.marks, strip.fills = [], ruled
    return spaced([*title, strip], desk.line, desk.line)


def tick_row(desk: Desk, block: TickRow, parent: Node) -> list[Strip]:
    """What is counted, and after it a box for each round; boxes turn to a new line after whole groups.

    Boxes of rows that stand together begin level, beyond the widest of their labels; where the line is too short for
    that and two groups, below their labels, level with the text of steps.
    """
    style = desk.style
    look = style.look(style.type.caption, family=style.type.tables, colour=style.colours.quiet)
    x = hang(desk)
    side = max(BOX, BOX_IN_TYPE * look.size)
    pitch = side + BOX_GAP
    group = block.group * pitch + GROUP_GAP
    named = _label_width(desk, block, look, desk.width - x - (2 * group - GROUP_GAP - BOX_GAP))
    label = Node("P", parent)
    boxes = Node("Figure", parent, alt=f"{block.count} boxes to tick", attributes=(("Placement", "Block"),))
    gap = LABEL_GAP * look.size
    words = stacked(kept(desk.text(block.label, label, look, x=x, width=named and named - gap, ragged=True)))
    lower = (side - desk.leading(look.size)) / 2  # by how much the label stands lower than the boxes of its line
    left, top = x + named, max(0.0, -lower) if named else words.height + 0.2 * desk.line
    level = max(0.0, lower) if named else 0.0
    groups_in_line = max(1, int((desk.width - left + GROUP_GAP + BOX_GAP) / group))
    areas = []
    for index in range(block.count):
        number, place = divmod(index, block.group)
        row, column = divmod(number, groups_in_line)
        areas.append(
            Area(
                left + column * group + place * pitch, top + row * (side + GROUP_GAP), side, side,
                stroke=style.colours.quiet, line=0.5,
            )
        )  # fmt: skip
    rows = math.ceil(math.ceil(block.count / block.group) / groups_in_line)
    marks = [*(mark.moved(0.0, level) for mark in words.marks), Mark(boxes, tuple(areas))]
    height = max(top + rows * (side + GROUP_GAP) - GROUP_GAP, level + words.height)
    return spaced([Strip(height, marks)], 0.5 * desk.line, 0.5 * desk.line)


def _label_width(desk: Desk, block: TickRow, look: Look, room: float) -> float:
    """How far the boxes of a row stand from its label's left end, alike in all rows that stand with it; 0 if its boxes
    must stand below.
    """
    gap = LABEL_GAP * look.size
    widths = [desk.widths(words, look) for words in (block.label, *block.among)]
    if max(longest_word for longest_word, _ in widths) + gap > room:
        return 0.0
    return min(max(whole for _, whole in widths) + gap, room)


def form(desk: Desk, block: Form, parent: Node) -> list[Strip]:
    """Values to fill in, as a table of what, predicted and an empty box."""
    name, predicted, found = block.headings
    columns = (Column(name, weight=2.0, row_header=True), Column(predicted), Column(found))
    rows = tuple(
        Row((box.name, box.predicted, (Blank(plain(box.name), box.width), f"\u00a0{box.unit}" if box.unit else "")))
        for box in block.boxes
    )
    return table(desk, Table("", columns, rows), parent)
