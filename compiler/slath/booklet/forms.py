"""Room to write: ruled lines, boxes to tick off rounds, values to fill in."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from slath.booklet.blocks import Blank, Column, Row, Table
from slath.booklet.desk import Desk, spaced
from slath.booklet.laid import MM, Area, Mark, Node, Rule
from slath.booklet.reading import plain
from slath.booklet.strips import NEVER, Strip, kept, stacked
from slath.booklet.tables import table

if TYPE_CHECKING:
    from slath.booklet.blocks import Form, NotesLines, TickRow

WRITING_LINE = 8.0 * MM  # distance of ruled lines; common practice in exercise books
BOX = 4.6 * MM  # side of a box to tick with a pencil
BOX_GAP, GROUP_GAP = 1.2 * MM, 2.6 * MM


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
    """What is counted, and a box for each round; boxes turn to a new line after whole groups."""
    style = desk.style
    label = Node("P", parent)
    boxes = Node("Figure", parent, alt=f"{block.count} boxes to tick", attributes=(("Placement", "Block"),))
    words = kept(desk.text(block.label, label, style.look(style.type.body), x=desk.indent, ragged=True))
    group = block.group * (BOX + BOX_GAP) + GROUP_GAP
    groups_in_line = max(1, int((desk.width - desk.indent + GROUP_GAP) / group))
    areas = []
    for index in range(block.count):
        number, place = divmod(index, block.group)
        row, column = divmod(number, groups_in_line)
        x = desk.indent + column * group + place * (BOX + BOX_GAP)
        areas.append(Area(x, row * (BOX + GROUP_GAP), BOX, BOX, stroke=style.colours.quiet, line=0.6))
    groups = math.ceil(block.count / block.group)
    rows = math.ceil(groups / groups_in_line)
    strip = Strip(rows * (BOX + GROUP_GAP) - GROUP_GAP, [Mark(boxes, tuple(areas))], cost=NEVER, above=0.25 * desk.line)
    return spaced([stacked([*words, strip])], 0.6 * desk.line, 0.6 * desk.line)


def form(desk: Desk, block: Form, parent: Node) -> list[Strip]:
    """Values to fill in, as a table of what, predicted and an empty box."""
    name, predicted, found = block.headings
    columns = (Column(name, weight=2.0, row_header=True), Column(predicted), Column(found))
    rows = tuple(
        Row((box.name, box.predicted, (Blank(plain(box.name), box.width), f"\u00a0{box.unit}" if box.unit else "")))
        for box in block.boxes
    )
    return table(desk, Table("", columns, rows), parent)
