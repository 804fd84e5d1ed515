"""The cover and the table of contents."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from slath.booklet.desk import Desk, spaced
from slath.booklet.faces import face
from slath.booklet.figures import sized
from slath.booklet.laid import Glyphs, Mark, Node, Rule
from slath.booklet.reading import plain
from slath.booklet.strips import NEVER, Strip, kept, stacked

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from slath.booklet.blocks import Contents, Cover, Heading

LEADER = "."
BAND_FOOT, AFTER_BAND = 1.2, 0.9  # lines from the rule under the title to the edge of the band, and on to the figure


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
    return [Strip(desk.height, marks, starts="page", bare=True, band=band, bookmark=(0, block.title))]


def _foot(desk: Desk, block: Cover, parent: Node) -> list[Strip]:
    style = desk.style
    strips: list[Strip] = []
    quiet = style.look(style.type.small, colour=style.colours.quiet)
    said = style.look(style.type.body, emphasis=style.type.text == "serif")
    for words in block.notices:
        strips += spaced(desk.text(words, Node("P", parent), said, ragged=True), 0.2 * desk.line, 0.2 * desk.line)
    if block.edition:
        strips += spaced(desk.text(block.edition, Node("P", parent), quiet, ragged=True), 0.3 * desk.line, 0.0)
    return strips


def contents(desk: Desk, block: Contents, parent: Node, headings: Sequence[tuple[Heading, str]]) -> list[Strip]:
    """The table of contents of ``headings`` with their anchors; page numbers are painted when pages are known."""
    style = desk.style
    look = style.look(style.type.body)
    title = style.look(style.type.heading_2, strong=True, family=style.type.headings)
    out = spaced(kept(desk.text(block.heading, Node("P", parent), title, ragged=True)), desk.line, 0.5 * desk.line)
    tree = Node("TOC", parent)
    for heading, anchor in headings:
        if heading.level > block.levels:
            continue
        link = Node("Link", Node("Reference", Node("TOCI", tree)), target=f"#{anchor}")
        x = (heading.level - 1) * 1.4 * look.size
        words = plain(heading.words)
        height = desk.leading(look.size) * 1.12
        baseline = (height + face(look.face).cap_height * look.size) / 2
        width = face(look.face).width(words) * look.size
        entry = Glyphs(x, baseline, words + " ", look.face, look.size, look.colour, width)

        def late(
            pages: Mapping[str, int], entry: Glyphs = entry, link: Node = link, anchor: str = anchor
        ) -> list[Mark]:
            return [Mark(link, (entry,)), *_page_number(desk, entry, link, str(pages[anchor]))]

        out.append(Strip(height, late=late, cost=NEVER / 4))
    return spaced(out, 0.0, desk.line)


def _page_number(desk: Desk, entry: Glyphs, link: Node, number: str) -> list[Mark]:
    """The page number at the right edge, and the dots that lead to it."""
    own = face(entry.face)
    width = own.width(number) * entry.size
    right = desk.width
    quiet = desk.style.colours.quiet
    step = 0.62 * entry.size
    dot = own.width(LEADER) * entry.size
    count = int((right - width - 0.6 * entry.size - (entry.x + entry.width + 0.6 * entry.size)) / step)
    dots = tuple(
        Glyphs(
            right - width - 0.6 * entry.size - (index + 1) * step, entry.y, LEADER, entry.face, entry.size, quiet, dot
        )
        for index in range(max(count, 0))
    )
    figures = Glyphs(right - width, entry.y, number, entry.face, entry.size, entry.colour, width)
    return [Mark(None, dots), Mark(link, (figures,))] if dots else [Mark(link, (figures,))]
