"""What stops the hand: cautions with their marks, care for the work, counts to be made."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import takewhile

from msgspec.structs import replace

from slath.booklet.blocks import Caution, CountBox, Strong, pieces_of
from slath.booklet.desk import Desk, spaced
from slath.booklet.faces import Look, face
from slath.booklet.laid import MM, Area, Drawing, Glyphs, Mark, Node, Rule
from slath.booklet.reading import plain
from slath.booklet.strips import Strip, beside, stacked
from slath.drawing.plate.caution_marks import caution_mark, octagon

BAR = 2.2  # points, the bar beside what is said of care
MARK_MM = 4.4  # side of the mark of a caution at its step
PANEL_MARK_MM = 5.4  # and in the panel that tells it whole
OCTAGON_MM = 7.0


def _said(desk: Desk) -> Look:
    return desk.style.look(desk.style.type.table, family=desk.style.type.tables)


def mark_strip(desk: Desk, key: str, side: float, parent: Node) -> Strip:
    """The mark of a caution; what it means is said in words beside it."""
    scene = caution_mark(key)
    scale = max(side * MM, 1.05 * desk.style.type.table) / (scene.width * MM)
    node = Node("Figure", parent, alt="Caution", attributes=(("Placement", "Block"),))
    return Strip(scene.height * MM * scale, [Mark(node, (Drawing(0.0, 0.0, scene, scale),))])


def marks_of(desk: Desk, due: Sequence[Caution], parent: Node, room: float, *, rows: bool = False) -> Strip | None:
    """The cautions of a step in a row, each its mark, its noun and two or three words, ending at the right; in further
    rows from the left where ``rows`` allow; None if one row does not hold them.
    """
    look = _said(desk)
    gap = 1.1 * look.size
    cells: list[tuple[float, Strip]] = []
    for each in due:
        mark = mark_strip(desk, each.mark, MARK_MM, parent)
        words = (Strong(f"{each.label}:"), " ", *pieces_of(each.short))
        left = mark.height + 0.35 * look.size
        wide = min(desk.widths(words, look)[1] + 0.5, (room if rows else 1e6) - left)
        text = stacked(desk.text(words, Node("P", parent), look, width=wide, ragged=True))
        lower = (mark.height - text.height) / 2
        text = Strip(text.height + max(lower, 0.0), [item.moved(0.0, max(lower, 0.0)) for item in text.marks])
        cells.append((left + wide, beside(mark, text, left)))
    whole = math.fsum(wide for wide, _ in cells) + gap * (len(cells) - 1)
    if whole <= room:
        return _in_row(cells, gap, 0.0 if rows else room - whole)
    if not rows:
        return None
    lines: list[list[tuple[float, Strip]]] = []
    for cell in cells:
        if lines and math.fsum(wide + gap for wide, _ in lines[-1]) + cell[0] <= room:
            lines[-1].append(cell)
        else:
            lines.append([cell])
    return stacked([replace(_in_row(line, gap, 0.0), above=0.15 * desk.line) for line in lines])


def _in_row(cells: Sequence[tuple[float, Strip]], gap: float, x: float) -> Strip:
    marks: list[Mark] = []
    for wide, strip in cells:
        marks += [mark.moved(x, 0.0) for mark in strip.marks]
        x += wide + gap
    return Strip(max(strip.height for _, strip in cells), marks)


def care(desk: Desk, block: Caution, parent: Node) -> list[Strip]:
    """What cannot be mended later, beside its bar. One strip; whoever sets it keeps it with the action it belongs to."""
    look = _said(desk)
    x = BAR + 0.6 * look.size
    words = (Strong(f"{block.heading.rstrip('.')}."), " ", *pieces_of(block.words))
    text = stacked(desk.text(words, Node("P", parent), look, x=x, ragged=True))
    bar = Rule(BAR / 2, 0.1 * look.size, BAR / 2, text.height - 0.05 * look.size, BAR, desk.style.colours.accent)
    return spaced([Strip(text.height, [Mark(None, (bar,)), *text.marks])], 0.3 * desk.line, 0.4 * desk.line)


def caution(desk: Desk, block: Caution, parent: Node) -> list[Strip]:
    """A caution told whole: its mark and its words; one of care beside its bar."""
    if block.kind == "care":
        return care(desk, block, parent)
    look = _said(desk)
    mark = mark_strip(desk, block.mark, PANEL_MARK_MM, parent)
    x = mark.height + 0.8 * look.size
    words = (Strong(f"{block.heading.rstrip('.:')}."), " ", *pieces_of(block.words))
    text = stacked(desk.text(words, Node("P", parent), look, x=x, ragged=True))
    return spaced([beside(mark, text, 0.0)], 0.25 * desk.line, 0.25 * desk.line)


def count_box(desk: Desk, block: CountBox, parent: Node) -> list[Strip]:
    """A count to be made before going on stands in a frame with its number in an octagon; a check of what is done on a
    tinted ground. Both have a box to tick. One strip.
    """
    style = desk.style
    look = _said(desk)
    pad = 0.6 * look.size
    side = max(1.05 * look.size, 3.6 * MM)
    stop = not block.check
    number = "".join(takewhile(str.isdigit, plain(block.words))) if stop else ""
    sign = max(OCTAGON_MM * MM, 2.1 * look.size) if number else 0.0
    x = pad + (sign + pad if sign else side + 0.6 * look.size)
    width = desk.width - x - pad - (side + pad if sign else 0.0)
    words = (Strong(f"{block.label.rstrip('.:')}."), " ", *pieces_of(block.words))
    div = Node("Div", parent)
    text = stacked(desk.text(words, Node("P", div), look, x=x, width=width, ragged=True))
    high = max(text.height, sign, side) + 1.1 * pad
    ground = Area(0, 0, desk.width, high, stroke=style.colours.ink, line=0.9) if stop else Area(
        0, 0, desk.width, high, fill=style.colours.tint
    )  # fmt: skip
    left = desk.width - pad - side if sign else pad
    box = Area(left, (high - side) / 2, side, side, fill="#ffffff", stroke=style.colours.ink, line=0.7)
    marks = [Mark(None, (ground, box))]
    if number:
        marks.append(_octagon(desk, number, (pad, (high - sign) / 2, sign), div))
    marks += [mark.moved(0.0, (high - text.height) / 2) for mark in text.marks]
    return spaced([Strip(high, marks)], 0.45 * desk.line, 0.45 * desk.line)


def _octagon(desk: Desk, number: str, where: tuple[float, float, float], parent: Node) -> Mark:
    """The number to count to, white on an octagon; it stands in the words as well."""
    x, y, side = where
    node = Node("Figure", parent, alt=f"Stop at {number}", attributes=(("Placement", "Block"),))
    scene = octagon(desk.style.colours.ink)
    size = 0.42 * side
    wide = face("sans-bold").width(number) * size
    base = y + side / 2 + face("sans-bold").cap_height * size / 2
    drawn = Drawing(x, y, scene, side / (scene.width * MM))
    return Mark(node, (drawn, Glyphs(x + (side - wide) / 2, base, number, "sans-bold", size, "#ffffff", wide)))
