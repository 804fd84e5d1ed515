"""A document on a style and a paper becomes laid pages."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from slath.booklet import forms, front, tables, words
from slath.booklet.blocks import (
    Caution,
    ContentError,
    Contents,
    CountBox,
    Cover,
    Definitions,
    Figure,
    Form,
    Heading,
    KeepTogether,
    Listing,
    NotesLines,
    Notice,
    PageBreak,
    Paragraph,
    Section,
    Step,
    Table,
    TickRow,
    every,
)
from slath.booklet.desk import Desk
from slath.booklet.faces import face
from slath.booklet.figures import figure
from slath.booklet.laid import MM, OVER_EDGE, Area, Bookmark, Glyphs, Laid, Mark, Node, Page, Place
from slath.booklet.pages import columns
from slath.booklet.places import anchors_of, figures_of
from slath.booklet.reading import plain
from slath.booklet.steps import step
from slath.booklet.strips import NEVER, WIDOW, Strip, kept, total_height, widened

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from slath.booklet.blocks import Block, Document
    from slath.booklet.lines import Look
    from slath.booklet.pages import Filled
    from slath.booklet.styles import Style


COPY_SIZE = 8.5  # points at most of the line that says whose copy it is
OPENING_LINES = 7  # a paragraph no longer than this under a heading stays with what it opens


def lay_out(document: Document, style: Style, paper: str = "") -> Laid:
    """Set ``document`` in ``style`` on ``paper`` (the style's first if none is named).

    Raises `StyleError` for a paper the style is not made for, `ContentError` for content that cannot be set.
    """
    sheet = style.sheet(paper)
    width, height = sheet.points
    shown = list(_shown(document.blocks, style))
    blocks = list(every(shown))
    anchors = [anchor for block in blocks for anchor in anchors_of(block)]
    headings = [block for block in blocks if isinstance(block, Heading)]
    _check(anchors, headings)
    for picture in (each for block in blocks for each in figures_of(block)):
        if not picture.spoken.strip():
            raise ContentError(f"the figure {picture.picture.title!r} has no words for who cannot see it")
    named = [(block, block.anchor or f"heading-{number}") for number, block in enumerate(headings, 1)]
    desk = Desk(
        style,
        style.column_width(paper) * MM,
        style.column_height(paper) * MM,
        document.language,
        outer=style.outer_column * MM,
        heading_shift=1 if any(isinstance(block, Cover) for block in blocks) else 0,
        anchors=frozenset([*anchors, *(anchor for _, anchor in named)]),
    )
    root = Node("Document")
    strips = _Setter(desk, named).blocks(shown, root)
    pages = _paged(columns(strips, desk.height), style)
    places = _places(pages, style.margins.top * MM)
    numbers = {anchor: place.page + 1 for anchor, place in places.items()}
    return Laid(
        width=width,
        height=height,
        pages=tuple(_page(desk, document, page, index, numbers, (width, height)) for index, page in enumerate(pages)),
        root=root,
        title=document.title,
        author=document.author,
        subject=document.subject,
        keywords=document.keywords,
        language=document.language,
        date=document.date,
        bookmarks=tuple(_bookmarks(pages, style.margins.top * MM)),
        places=places,
        full_size=any(each.full_size for block in blocks for each in figures_of(block)),
        two_sided=style.two_sided,
    )


def _shown(blocks: Sequence[Block], style: Style) -> Iterator[Block]:
    for block in blocks:
        if isinstance(block, Section):
            if style.shows(block.name):
                yield Section(block.name, tuple(_shown(block.blocks, style)))
        elif not (isinstance(block, Cover | Contents) and not style.shows(type(block).__name__.lower())):
            yield block


def _check(anchors: Sequence[str], headings: Sequence[Heading]) -> None:
    """Anchors name one place each; headings never skip a level (ISO 14289-1, 7.4.2)."""
    seen: dict[str, None] = {}
    for anchor in anchors:
        if anchor in seen:
            raise ContentError(f"two places have the anchor {anchor!r}")
        seen[anchor] = None
    level = 0
    for block in headings:
        if block.level > level + 1:
            raise ContentError(
                f"the heading {plain(block.words)!r} of level {block.level} follows one of level {level}"
            )
        level = block.level


@dataclass(slots=True)
class _Setter:
    """Sets blocks one after another, minding what must stay with its neighbour."""

    desk: Desk
    headings: list[tuple[Heading, str]]
    _next: int = 0
    _starts: Literal["", "page", "right"] = ""

    def blocks(self, blocks: Sequence[Block], parent: Node) -> list[Strip]:
        """All strips of ``blocks`` under ``parent``."""
        out: list[Strip] = []
        steps: Node | None = None
        hold = opening = False
        for block in blocks:
            if isinstance(block, PageBreak):
                self._starts = "right" if block.right else "page"
                continue
            steps = (steps or _step_list(parent)) if isinstance(block, Step) else None
            strips = self._block(block, steps or parent)
            if not strips:
                continue
            if out and hold and not strips[0].starts:
                strips[0] = replace(strips[0], cost=NEVER)
            if out and isinstance(block, TickRow):  # what is ticked off was told just before
                strips[0] = replace(strips[0], cost=max(strips[0].cost, WIDOW))
            if self._starts:
                strips[0] = replace(strips[0], starts=self._starts)
                self._starts = ""
            opening = isinstance(block, Paragraph) and hold and not opening and len(strips) <= OPENING_LINES
            if opening:
                strips = [strips[0], *(replace(strip, cost=NEVER) for strip in strips[1:])]
            hold = (
                isinstance(block, Heading | Caution | Notice | CountBox) or opening
            )  # a count is made before what follows
            out.extend(strips)
        return out

    def _block(self, block: Block, parent: Node) -> list[Strip]:  # noqa: C901, PLR0911, PLR0912  (one line a kind)
        desk, reading = self.desk, self.desk.reading
        match block:
            case Heading():
                return self._heading(block, parent)
            case Paragraph():
                if block.role == "body":
                    return words.paragraph(reading, block, parent)
                return widened(words.paragraph(desk, block, parent))
            case Notice():
                return words.notice(reading, block, parent)
            case Caution():
                return words.caution(reading, block, parent)
            case CountBox():
                return words.count_box(reading, block, parent)
            case Listing():
                return words.listing(reading, block, parent)
            case Definitions():
                return widened(words.definitions(desk, block, parent))
            case Figure():
                return figure(desk, block, parent)
            case Step():
                return step(desk, block, parent)
            case Table():
                return widened(tables.table(desk, block, parent))
            case Cover():
                return front.cover(desk, block, parent)
            case Contents():
                return widened(front.contents(desk, block, parent, self.headings))
            case NotesLines():
                return widened(forms.notes_lines(desk, block, parent))
            case TickRow():
                return forms.tick_row(reading, block, parent)
            case Form():
                return widened(forms.form(desk, block, parent))
            case KeepTogether():
                return self._together(block, parent)
            case Section():
                return self.blocks(block.blocks, Node("Sect", parent))
            case PageBreak():
                raise AssertionError("page breaks are dealt with where blocks follow one another")

    def _heading(self, block: Heading, parent: Node) -> list[Strip]:
        _, anchor = self.headings[self._next]
        self._next += 1
        strips = words.heading(self.desk, replace(block, anchor=anchor), parent)
        strips = strips if block.level == 3 else widened(strips)
        if block.level == 1 and self.desk.style.parts == "page" and not self._starts:
            strips[0] = replace(strips[0], starts="page")
        return strips

    def _together(self, block: KeepTogether, parent: Node) -> list[Strip]:
        strips = self.blocks(block.blocks, parent)
        return kept(strips) if total_height(strips) <= self.desk.height else strips


def _step_list(parent: Node) -> Node:
    return Node("L", parent, attributes=(("ListNumbering", "Decimal"),))


def _paged(filled: Sequence[Filled], style: Style) -> list[list[Filled]]:
    """Columns gathered into pages, blank pages put in where a part must open on a right-hand page."""
    pages: list[list[Filled]] = []
    for column in filled:
        bare = pages and pages[-1] and pages[-1][0].placed[0].strip.bare
        if not pages or len(pages[-1]) == style.columns or column.starts in {"page", "right"} or bare:
            if column.starts == "right" and len(pages) % 2:
                pages.append([])
            pages.append([])
        pages[-1].append(column)
    return pages


def _places(pages: Sequence[Sequence[Filled]], top: float) -> dict[str, Place]:
    return {
        anchor: Place(index, max(0.0, top + placed.top - 6.0))
        for index, page in enumerate(pages)
        for column in page
        for placed in column.placed
        for anchor in placed.strip.anchors
    }


def _bookmarks(pages: Sequence[Sequence[Filled]], top: float) -> Iterator[Bookmark]:
    for index, page in enumerate(pages):
        for column in page:
            for placed in column.placed:
                if placed.strip.bookmark:
                    level, title = placed.strip.bookmark
                    yield Bookmark(title, level, Place(index, max(0.0, top + placed.top - 6.0)))


def _page(
    desk: Desk,
    document: Document,
    page: Sequence[Filled],
    index: int,
    numbers: dict[str, int],
    size: tuple[float, float],
) -> Page:
    style = desk.style
    left = style.margins.inner if not style.two_sided or index % 2 == 0 else style.margins.outer
    marks = list(_bands(style, page, size[0]))
    for number, column in enumerate(page):
        x = left * MM + number * (desk.width + style.gutter_points)
        for placed in column.placed:
            strip = placed.strip
            painted = strip.late(numbers) if strip.late else strip.marks
            marks.extend(mark.moved(x, style.margins.top * MM + placed.top) for mark in painted)
    if page and not page[0].placed[0].strip.bare:
        marks.extend(_running(desk, document, index, left * MM, size))
    if page and document.copy_line:
        marks.append(copy_mark(style, document.copy_line, index, size))
    return Page(index + 1, tuple(marks))


def _bands(style: Style, page: Sequence[Filled], width: float) -> Iterator[Mark]:
    """Bands of the tint behind the head of the page, painted past its edges so that a trimmed page shows no white."""
    over = OVER_EDGE * MM
    for placed in (each for column in page for each in column.placed if each.strip.band):
        height = style.margins.top * MM + placed.top + placed.strip.band
        yield Mark(None, (Area(-over, -over, width + 2 * over, height + over, fill=style.colours.tint),))


def _running(desk: Desk, document: Document, index: int, left: float, size: tuple[float, float]) -> Iterator[Mark]:
    """Running head and foot: words at the inner edge, the page number at the outer edge."""
    style = desk.style
    width = size[0] - (style.margins.inner + style.margins.outer) * MM
    outer_right = not style.two_sided or index % 2 == 0
    look = style.look(style.type.small, family=style.type.tables, colour=style.colours.quiet)
    foot = size[1] - 0.5 * style.margins.bottom * MM
    number = str(index + 1)
    items = [_edge(number, look._replace(face=f"{look.face}-bold"), left, width, foot, right=outer_right)]
    if document.foot:
        items.append(_edge(document.foot, look, left, width, foot, right=not outer_right))
    if document.head:
        label = style.label_look(style.type.small, style.colours.quiet)
        items.append(_edge(document.head, label, left, width, 0.6 * style.margins.top * MM, right=outer_right))
    yield Mark(None, tuple(items), pagination=True)


def copy_mark(style: Style, line: str, index: int, size: tuple[float, float]) -> Mark:
    """Whose copy it is, on the page of this index, above its foot and small enough for the longest name.

    `size` is that of the page in points.
    """
    right = style.two_sided and index % 2 == 1
    left = (style.margins.outer if right else style.margins.inner) * MM
    width = size[0] - (style.margins.inner + style.margins.outer) * MM
    family, colour = style.type.tables, style.colours.quiet
    look = style.look(min(style.type.small, COPY_SIZE), family=family, colour=colour)
    wide = face(look.face).width(line) * look.size
    look = look._replace(size=look.size * min(1.0, width / wide))
    y = size[1] - 0.5 * style.margins.bottom * MM - 1.1 * style.type.small
    return Mark(None, (_edge(line, look, left, width, y, right=right),), pagination=True)


def _edge(text: str, look: Look, left: float, width: float, y: float, *, right: bool) -> Glyphs:
    name, size, colour, _ = look
    wide = face(name).width(text) * size
    return Glyphs(left + (width - wide if right else 0.0), y, text, name, size, colour, wide)
