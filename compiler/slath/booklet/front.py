"""The cover and the table of contents."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from slath.booklet.blocks import Contents, Cover, Heading
from slath.booklet.desk import Desk, line_marks, spaced
from slath.booklet.faces import Look, face, face_name
from slath.booklet.figures import sized
from slath.booklet.laid import MM, Glyphs, Mark, Node, Rule
from slath.booklet.strips import NEVER, Strip, beside, kept, stacked, total_height
from slath.booklet.styles import GUTTER
from slath.booklet.tables import table

LEAST_VIEW = 0.3  # of the page, what the drawn basket needs of the cover
LEADER = "."
BAND_FOOT, AFTER_BAND = 1.2, 0.9  # lines from the rule under the title to the edge of the band, and on to the figure
LONGEST_ENTRY = 36.0  # ems of a line of the contents
ROOM_FOR_NUMBERS = 3.0  # ems at the right edge of the contents


def cover(desk: Desk, block: Cover, parent: Node) -> list[Strip]:
    """The first page: maker, title, subtitle, the drawn basket in the room that is left, for whom it is, sizes and what else
    is to be known; these go on over the page where they would leave the basket no room.
    """
    style, line = desk.style, desk.line
    display = style.look(style.type.title, strong=style.type.headings == "sans", family=style.type.headings)
    if style.type.headings == "serif":
        display = display._replace(face="serif-display")
    top: list[Strip] = []
    if block.designer or block.edition:
        top.append(_maker(desk, block, parent))
    top += spaced(kept(desk.text(block.title, Node("H1", parent), display, ragged=True)), 0.0, 0.2 * line)
    if block.subtitle:
        lead = style.look(style.type.lead, emphasis=style.type.text == "serif")
        top += spaced(desk.text(block.subtitle, Node("P", parent), lead, ragged=True), 0.0, 0.8 * line)
    upper = stacked(top)
    band = upper.height + BAND_FOOT * line if style.cover.band == "tint" else 0.0
    above = max(upper.height + 1.2 * line, band + AFTER_BAND * line if band else 0.0)
    foot, after = _foot(desk, block, parent), list[Strip]()
    least = LEAST_VIEW * desk.height if block.figure else 0.0
    while foot and desk.height - above - total_height(foot) - 1.2 * line < least:
        after.insert(0, foot.pop())
    marks = list(upper.marks)
    lower = stacked(foot) if foot else Strip(0.0)
    if block.figure is not None:
        room = desk.height - above - lower.height - 1.2 * line
        drawn = sized(desk, dataclasses.replace(block.figure, width="page"), desk.width, room)
        node = Node("Figure", parent, alt=block.figure.spoken, attributes=(("Placement", "Block"),))
        marks.append(Mark(node, (drawn.item((desk.width - drawn.width) / 2),), 0.0, above + (room - drawn.height) / 2))
    marks += [mark.moved(0.0, desk.height - lower.height) for mark in lower.marks]
    if after:
        after[0] = replace(after[0], starts="page")
    # Read as it stands on the page: what the basket is, how it looks, in which sizes, which edition.
    return [Strip(desk.height, marks, starts="page", bare=True, band=band, bookmark=(0, block.title)), *after]


def _maker(desk: Desk, block: Cover, parent: Node) -> Strip:
    """The maker at the left, the edition at the right, a rule below both."""
    style = desk.style
    name = style.look(style.type.table * 1.08, strong=True, family=style.type.tables, colour=style.colours.accent)
    quiet = style.look(style.type.small, family=style.type.tables, colour=style.colours.quiet)
    half = desk.width / 2
    said = desk.text(block.designer, Node("P", parent), name, width=half, ragged=True) if block.designer else []
    edition = (
        desk.text(block.edition, Node("P", parent), quiet, x=half, width=half, align="right") if block.edition else []
    )
    left, right = stacked(said) if said else Strip(0.0), stacked(edition) if edition else Strip(0.0)
    height = max(left.height, right.height) + 0.15 * desk.line
    rule = Mark(None, (Rule(0, height, desk.width, height, 1.4, style.colours.accent),))
    return Strip(height + 1.4, [*left.marks, *right.marks, rule], below=0.7 * desk.line)


def _foot(desk: Desk, block: Cover, parent: Node) -> list[Strip]:
    """For whom and how long beside the table of sizes, then what else is to be known, tools above all."""
    style, line = desk.style, desk.line
    look = style.look(style.type.table, family=style.type.tables)
    rule = Strip(1.4, [Mark(None, (Rule(0, 0, desk.width, 0, 1.4, style.colours.accent),))], below=0.5 * line)
    gutter = GUTTER * MM
    narrow = (desk.width - 2 * gutter) / 3
    abreast = block.sizes is not None and style.grid == 3 and bool(block.about)

    def about(width: float) -> list[Strip]:
        return [
            strip
            for words in block.about
            for strip in spaced(desk.text(words, Node("P", parent), look, width=width, ragged=True), 0.15 * line)
        ]

    def sizes(width: float) -> list[Strip]:
        return table(desk.narrowed(width), block.sizes, parent) if block.sizes else []

    if abreast:
        right = stacked(sizes(desk.width - narrow - gutter))
        strips = [rule, replace(beside(stacked(about(narrow)), right, narrow + gutter), below=0.4 * line)]
    else:
        strips = [rule, *about(desk.width), *sizes(desk.width)]
    for words in block.notices:
        strips += spaced(desk.text(words, Node("P", parent), look, ragged=True), 0.25 * line, 0.15 * line)
    return strips if len(strips) > 1 else []


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
