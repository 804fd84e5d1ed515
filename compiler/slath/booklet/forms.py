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

WRITING_LINE = 8.0 * MM  # distance of ruled lines; common practice in exercise books
BOX = 4.2 * MM  # side of a box to tick with a pencil
BOX_GAP, GROUP_GAP = 0.9 * MM, 2.2 * MM


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

    The boxes stand level with the text of steps, below what is counted where the line is too short for both.
    """
    style = desk.style
    look = style.look(style.type.caption, family=style.type.tables, colour=style.colours.quiet)
    x = hang(desk)
    label = Node("P", parent)
    boxes = Node("Figure", parent, alt=f"{block.count} boxes to tick", attributes=(("Placement", "Block"),))
    group = block.group * (BOX + BOX_GAP) + GROUP_GAP
    named = desk.widths(block.label, look)[1] + 0.8 * look.size
    named = named if desk.width - x - named >= 2 * group else 0.0
    words = stacked(kept(desk.text(block.label, label, look, x=x, ragged=True)))
    left, top = x + named, 0.0 if named else words.height + 0.2 * desk.line
    groups_in_line = max(1, int((desk.width - left + GROUP_GAP) / group))
    areas = []
    for index in range(block.count):
        number, place = divmod(index, block.group)
        row, column = divmod(number, groups_in_line)
        areas.append(
            Area(
                left + column * group + place * (BOX + BOX_GAP), top + row * (BOX + GROUP_GAP), BOX, BOX,
                stroke=style.colours.quiet, line=0.5,
            )
        )  # fmt: skip
    rows = math.ceil(math.ceil(block.count / block.group) / groups_in_line)
    level = (BOX - words.height) / 2 if named else 0.0
    marks = [*(mark.moved(0.0, level) for mark in words.marks), Mark(boxes, tuple(areas))]
    return spaced([Strip(top + rows * (BOX + GROUP_GAP) - GROUP_GAP, marks)], 0.5 * desk.line, 0.5 * desk.line)


def form(desk: Desk, block: Form, parent: Node) -> list[Strip]:
    """Values to fill in, as a table of what, predicted and an empty box."""
    name, predicted, found = block.headings
    columns = (Column(name, weight=2.0, row_header=True), Column(predicted), Column(found))
    rows = tuple(
        Row((box.name, box.predicted, (Blank(plain(box.name), box.width), f"\u00a0{box.unit}" if box.unit else "")))
        for box in block.boxes
    )
    return table(desk, Table("", columns, rows), parent)
