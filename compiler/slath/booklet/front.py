"""The cover and the table of contents."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from slath.booklet.desk import Desk, line_marks, spaced
from slath.booklet.faces import face, face_name
from slath.booklet.figures import sized
from slath.booklet.laid import Glyphs, Mark, Node, Rule
from slath.booklet.strips import NEVER, Strip, beside, kept, stacked

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from slath.booklet.blocks import Contents, Cover, Heading
    from slath.booklet.lines import Look

LEADER = "."
BAND_FOOT, AFTER_BAND = 1.2, 0.9  # lines from the rule under the title to the edge of the band, and on to the figure
LONGEST_ENTRY = 36.0  # ems of a line of the contents
ROOM_FOR_NUMBERS = 3.0  # ems at the right edge of the contents
NARROWEST_SIZE = 15.0  # ems of a size and its measures on the cover


def cover(desk: Desk, block: Cover, parent: Node) -> list[Strip]:
    """The first page: maker, title, subtitle, the drawn basket in the room that is left, notices and edition."""
    style, line = desk.style, desk.line
    display = style.look(style.type.title, strong=style.type.headings == "sans", family=style.type.headings)
    if style.type.headings == "serif":
        display = display._replace(face="serif-display")
    top: list[Strip] = []
    if block.designer:
        label = style.label_look(style.type.body, style.colours.accent)
        top += spaced(desk.text(block.designer, Node("P", parent), label, ragged=True), 0.0, 1.1 * line)
    top += spaced(kept(desk.text(block.title, Node("H1", parent), display, ragged=True)), 0.0, 0.5 * line)
    if block.subtitle:
        lead = style.look(style.type.lead, emphasis=style.type.text == "serif")
        top += spaced(desk.text(block.subtitle, Node("P", parent), lead, ragged=True), 0.0, 0.8 * line)
    accent = Rule(0, 0, min(desk.width, 5 * style.type.lead), 0, 2.0, style.colours.accent)
    top.append(Strip(2.0, [Mark(None, (accent,))], above=0.6 * line, below=1.2 * line))
    foot = _foot(desk, block, parent)
    upper, lower = stacked(top), stacked(foot) if foot else Strip(0.0)
    band = upper.height + BAND_FOOT * line if style.cover.band == "tint" else 0.0
    marks = list(upper.marks)
    if block.figure is not None:
        above = max(upper.height + 1.2 * line, band + AFTER_BAND * line if band else 0.0)
        room = desk.height - above - lower.height - 1.2 * line
        drawn = sized(desk, replace(block.figure, width="page"), desk.width, room)
        node = Node("Figure", parent, alt=block.figure.spoken, attributes=(("Placement", "Block"),))
        y = above + (room - drawn.height) / 2
        marks.append(Mark(node, (drawn.item((desk.width - drawn.width) / 2),), 0.0, y))
    marks += [mark.moved(0.0, desk.height - lower.height) for mark in lower.marks]
    # Read as it stands on the page: what the basket is, how it looks, in which sizes, which edition.
    return [Strip(desk.height, marks, starts="page", bare=True, band=band, bookmark=(0, block.title))]


def _foot(desk: Desk, block: Cover, parent: Node) -> list[Strip]:
    """Sizes with their measures, what is known of them, and the edition."""
    style = desk.style
    strips = _sizes(desk, block, parent)
    quiet = style.look(style.type.small, colour=style.colours.quiet)
    said = style.look(style.type.body, emphasis=style.type.text == "serif")
    for words in block.notices:
        strips += spaced(desk.text(words, Node("P", parent), said, ragged=True), 0.2 * desk.line, 0.2 * desk.line)
    if block.edition:
        strips += spaced(desk.text(block.edition, Node("P", parent), quiet, ragged=True), 0.3 * desk.line, 0.0)
    return strips


def _sizes(desk: Desk, block: Cover, parent: Node) -> list[Strip]:
    """The sizes next to one another over a hairline, or one a line where a column would be too narrow for its words."""
    if not block.sizes:
        return []
    style = desk.style
    name = style.look(style.type.body, strong=True, family=style.type.tables, colour=style.colours.accent)
    said = style.look(style.type.table, family=style.type.tables)
    gap = 1.4 * style.type.body
    width = (desk.width - gap * (len(block.sizes) - 1)) / len(block.sizes)
    if width < NARROWEST_SIZE * style.type.table:
        width = desk.width
    aside = min(6.5 * said.size, 0.3 * desk.width) if width == desk.width and len(block.sizes) > 1 else 0.0
    tree = Node("L", parent, attributes=(("ListNumbering", "None"),))
    cells: list[Strip] = []
    for size in block.sizes:
        item = Node("LI", tree)
        named = stacked(desk.text(size.name, Node("Lbl", item), name, width=aside or width, ragged=True))
        measures = stacked(
            desk.text(size.meaning, Node("LBody", item), said, x=aside, width=width - aside, ragged=True)
        )
        cells.append(beside(named, measures, 0.0) if aside else stacked([named, measures]))
    marks = [Mark(None, (Rule(0, 0, desk.width, 0, 0.6, style.colours.accent),))]
    row = stacked(cells)
    if width < desk.width:
        row = Strip(
            max(cell.height for cell in cells),
            [mark.moved(index * (width + gap), 0.0) for index, cell in enumerate(cells) for mark in cell.marks],
        )
    pad = 0.5 * desk.line
    marks += [mark.moved(0.0, pad) for mark in row.marks]
    marks.append(
        Mark(None, (Rule(0, row.height + 2 * pad, desk.width, row.height + 2 * pad, 0.4, style.colours.rule),))
    )
    return [Strip(row.height + 2 * pad, marks, below=0.7 * desk.line)]


def contents(desk: Desk, block: Contents, parent: Node, headings: Sequence[tuple[Heading, str]]) -> list[Strip]:
    """The table of contents of ``headings`` with their anchors; page numbers are painted when pages are known."""
    style = desk.style
    desk = desk.narrowed(min(desk.width, LONGEST_ENTRY * style.type.body))
    look = style.look(style.type.body)
    title = style.look(style.type.heading_1, strong=style.type.headings == "sans", family=style.type.headings)
    if style.type.headings == "serif":
        title = title._replace(face="serif-display")
    out = spaced(kept(desk.text(block.heading, Node("P", parent), title, ragged=True)), desk.line, 0.8 * desk.line)
    tree = Node("TOC", parent)
    for heading, anchor in headings:
        if heading.level > block.levels:
            continue
        link = Node("Link", Node("Reference", Node("TOCI", tree)), target=f"#{anchor}")
        x = (heading.level - 1) * 1.4 * look.size
        own = (
            look
            if heading.level > 1 or block.levels == 1
            else look._replace(face=face_name(style.type.text, strong=True))
        )
        height = desk.leading(look.size) * (1.0 if heading.level > 1 else 1.12)
        baseline = (height + face(own.face).cap_height * own.size) / 2
        for line in desk.lines(heading.words, own, desk.width - x - ROOM_FOR_NUMBERS * own.size, ragged=True):
            entry = line_marks(line, link, x, baseline, {}, frozenset())
            end = _Entry(x + line.width, baseline, own)

            def late(
                pages: Mapping[str, int], entry: list[Mark] = entry, end: _Entry = end, link: Node = link,
                anchor: str = anchor,
            ) -> list[Mark]:  # fmt: skip
                return [*entry, *_page_number(desk, end, link, str(pages[anchor]))]

            out.append(Strip(height, late=late, cost=NEVER / 4))
    return spaced(out, 0.0, desk.line)


class _Entry(NamedTuple):
    """Where the words of an entry end, on which baseline, and how they look."""

    right: float
    y: float
    look: Look


def _page_number(desk: Desk, entry: _Entry, link: Node, number: str) -> list[Mark]:
    """The page number at the right edge, and the dots that lead to it."""
    look = desk.style.look(desk.style.type.body)
    own, size = face(look.face), look.size
    width = own.width(number) * size
    right = desk.width
    quiet = desk.style.colours.quiet
    step = 0.62 * size
    dot = own.width(LEADER) * size
    count = int((right - width - 0.6 * size - (entry.right + 0.6 * size)) / step)
    dots = tuple(
        Glyphs(right - width - 0.6 * size - (index + 1) * step, entry.y, LEADER, look.face, size, quiet, dot)
        for index in range(max(count, 0))
    )
    figures = Glyphs(right - width, entry.y, f" {number}", look.face, size, look.colour, width)
    return [Mark(None, dots), Mark(link, (figures,))] if dots else [Mark(link, (figures,))]
