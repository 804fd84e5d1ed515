"""Room to write: ruled lines, boxes to tick off rounds, values to fill in."""

from __future__ import annotations

import math

from slath.booklet.blocks import Blank, Column, Form, NotesLines, Row, Table, TickRow
from slath.booklet.desk import Desk, spaced
from slath.booklet.faces import Look, face
from slath.booklet.laid import MM, Area, Glyphs, Mark, Node, Rule
from slath.booklet.reading import plain
from slath.booklet.strips import NEVER, Strip, kept, stacked
from slath.booklet.tables import table

WRITING_LINE = 8.0 * MM  # distance of ruled lines; common practice in exercise books
BOX = 5.6 * MM  # side of a box to tick with a pencil
BOX_GAP, GROUP_GAP, ROW_GAP = 0.7 * MM, 2.2 * MM, 1.6 * MM
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
    lines = block.lines or 1  # at least, of what fills the rest of a page
    strip = Strip(lines * WRITING_LINE, ruled(lines * WRITING_LINE), cost=cost)
    if block.lines == 0:
        strip.marks, strip.fills = [], ruled
    return spaced([*title, strip], desk.line, desk.line)


def tick_row(desk: Desk, block: TickRow, parent: Node) -> list[Strip]:
    """What is counted, and after it a box for each round with its number; boxes turn to a new line after whole groups. The
    last box of each size that stops before the others is heavy and bears its name.
    """
    style = desk.style
    look = style.look(style.type.table, strong=True, family=style.type.tables)
    number = style.look(0.8 * style.type.caption, family=style.type.tables, colour=style.colours.quiet)
    side = max(BOX, 1.6 * number.size)
    pitch, gap = side + BOX_GAP, LABEL_GAP * look.size
    group = block.group * pitch + GROUP_GAP
    label = stacked(kept(desk.text(block.label, Node("P", parent), look, width=0.3 * desk.width, ragged=True)))
    left = min(desk.widths(block.label, look)[1], 0.3 * desk.width) + gap
    groups_in_line = max(1, int((desk.width - left + GROUP_GAP + BOX_GAP) / group))
    named = desk.leading(number.size) if block.ends else 0.0
    ends = dict(block.ends)
    told = "".join(f"; {name} stops at {end}" for end, name in block.ends)
    boxes = Node("Figure", parent, alt=f"{block.count} boxes to tick{told}", attributes=(("Placement", "Block"),))
    items: list[Area | Glyphs] = []
    height = side + named
    for index in range(block.count):
        place, within = divmod(index, block.group)
        row, column = divmod(place, groups_in_line)
        x, y = left + column * group + within * pitch, named + row * (height + ROW_GAP)
        end = ends.get(index + 1)
        colour = style.colours.accent if end else style.colours.quiet
        items.append(Area(x, y, side, side, stroke=colour, line=1.6 if end else 0.5))
        items.append(_figures(str(index + 1), number, x + 1.6, y + 0.95 * number.size))
        if end:
            bold = look._replace(size=number.size * 1.1, colour=style.colours.accent)
            wide = face(bold.face).width(end) * bold.size
            at = min(max(x + side - wide, left), desk.width - wide)
            items.append(Glyphs(at, y - 2.0, end, bold.face, bold.size, bold.colour, wide))
    rows = math.ceil(math.ceil(block.count / block.group) / groups_in_line)
    lower = named + (side - label.height) / 2
    marks = [*(mark.moved(0.0, max(lower, 0.0)) for mark in label.marks), Mark(boxes, tuple(items))]
    return spaced(
        [Strip(max(rows * (height + ROW_GAP) - ROW_GAP, lower + label.height), marks)], 0.3 * desk.line, 0.4 * desk.line
    )


def _figures(text: str, look: Look, x: float, y: float) -> Glyphs:
    return Glyphs(x, y, text, look.face, look.size, look.colour, face(look.face).width(text) * look.size)


def form(desk: Desk, block: Form, parent: Node) -> list[Strip]:
    """Values to fill in, as a table of what, predicted and an empty box."""
    name, predicted, found = block.headings
    columns = (Column(name, weight=2.0, row_header=True), Column(predicted), Column(found))
    rows = tuple(
        Row((box.name, box.predicted, (Blank(plain(box.name), box.width), f"\u00a0{box.unit}" if box.unit else "")))
        for box in block.boxes
    )
    return table(desk, Table("", columns, rows), parent)
