"""A document on a style and a paper becomes laid pages."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from slath.booklet import forms, frames, front, furniture, tables, warnings, words
from slath.booklet.blocks import (
    Abreast,
    Bar,
    Block,
    Caution,
    CautionRow,
    ContentError,
    Contents,
    CountBox,
    Cover,
    Definitions,
    Document,
    Fields,
    Figure,
    Form,
    Heading,
    KeepTogether,
    Listing,
    NotesLines,
    Notice,
    PageBreak,
    Panel,
    Paragraph,
    Section,
    Step,
    Table,
    TickRow,
    every,
)
from slath.booklet.desk import Desk
from slath.booklet.figures import figure
from slath.booklet.laid import MM, OVER_EDGE, Area, Bookmark, Laid, Mark, Node, Page, Place
from slath.booklet.pages import Filled, columns
from slath.booklet.places import anchors_of, figures_of
from slath.booklet.reading import plain
from slath.booklet.rows import steps as set_steps
from slath.booklet.rows import units
from slath.booklet.steps import step
from slath.booklet.strips import NEVER, Strip, kept, total_height
from slath.booklet.styles import Style

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
        heading_shift=1 if any(isinstance(block, Cover) for block in blocks) else 0,
        anchors=frozenset([*anchors, *(anchor for _, anchor in named)]),
    )
    root = Node("Document")
    strips = _Setter(desk, named).blocks(shown, root)
    ruled = partial(forms.notes_lines, desk, NotesLines(document.notes), root)
    pages = _paged(columns(strips, desk.height, ruled if document.notes else None), style)
    running = furniture.Sheet(style, style.margins_on(paper), width, height, _stages(pages), _names(shown))
    places = _places(pages, style.margins.top * MM)
    numbers = {anchor: place.page + 1 for anchor, place in places.items()}
    return Laid(
        width=width,
        height=height,
        pages=tuple(_page(desk, document, page, index, numbers, running) for index, page in enumerate(pages)),
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


class _Setter(Struct):
    """Sets blocks one after another, minding what must stay with its neighbour."""

    desk: Desk
    headings: list[tuple[Heading, str]]
    _starts: Literal["", "page", "right"] = ""

    def blocks(self, blocks: Sequence[Block], parent: Node) -> list[Strip]:
        """All strips of ``blocks`` under ``parent``."""
        out: list[Strip] = []
        steps: Node | None = None
        hold = opening = False
        told = list(blocks)
        while told:
            block = told.pop(0)
            if isinstance(block, PageBreak):
                if block.right or self.desk.style.parts != "run on":
                    self._starts = "right" if block.right else "page"
                continue
            steps = (steps or _step_list(parent)) if isinstance(block, Step) else None
            if isinstance(block, Step) and steps:
                told_together, taken = units(told, block)
                strips = set_steps(self.desk, told_together, steps)
                del told[:taken]
            else:
                strips = self._block(block, parent)
            if not strips:
                continue
            if out and hold and not strips[0].starts:
                strips[0] = replace(strips[0], cost=NEVER)
            if out and isinstance(block, TickRow):  # what is ticked off was told just before
                strips[0] = replace(strips[0], cost=max(strips[0].cost, NEVER / 2))
            if self._starts:
                strips[0] = replace(strips[0], starts=self._starts)
                self._starts = ""
            opening = isinstance(block, Paragraph) and hold and not opening and len(strips) <= OPENING_LINES
            if opening:
                strips = [strips[0], *(replace(strip, cost=NEVER) for strip in strips[1:])]
            hold = (
                isinstance(block, Heading | Caution | CautionRow | Notice | CountBox) or opening
            )  # a count is made before what follows
            out.extend(strips)
        return out

    def _block(self, block: Block, parent: Node) -> list[Strip]:  # noqa: C901, PLR0911, PLR0912  (one line a kind)
        desk = self.desk
        match block:
            case Heading():
                return self._heading(block, parent)
            case Paragraph():
                return words.paragraph(desk, block, parent)
            case Notice():
                return words.notice(desk, block, parent)
            case Caution():
                return warnings.caution(desk, block, parent)
            case CautionRow():
                row = warnings.marks_of(desk, block.cautions, parent, desk.width, rows=True) if block.cautions else None
                return [replace(row, below=0.4 * desk.line)] if row else []
            case CountBox():
                return warnings.count_box(desk, block, parent)
            case Listing():
                return words.listing(desk, block, parent)
            case Definitions():
                return words.definitions(desk, block, parent)
            case Figure():
                return figure(desk, block, parent)
            case Step():
                return step(desk, block, parent)
            case Table():
                return tables.table(desk, block, parent)
            case Cover():
                return front.cover(desk, block, parent)
            case Contents():
                return front.contents(desk, block, parent, self.headings)
            case NotesLines():
                return forms.notes_lines(desk, block, parent)
            case TickRow():
                return forms.tick_row(desk, block, parent)
            case Fields():
                return frames.fields(desk, block, parent)
            case Bar():
                return frames.bar(desk, block, parent)
            case Abreast():
                return frames.abreast(desk, block, parent, self.within)
            case Panel():
                return frames.panel(desk, block, parent, self.within)
            case Form():
                return forms.form(desk, block, parent)
            case KeepTogether():
                return self._together(block, parent)
            case Section():
                return self.blocks(block.blocks, Node("Sect", parent))
            case PageBreak():
                raise AssertionError("page breaks are dealt with where blocks follow one another")

    def within(self, desk: Desk, blocks: Sequence[Block], parent: Node) -> list[Strip]:
        """Blocks set in a part of the page that ``desk`` measures."""
        own, self.desk = self.desk, desk
        try:
            return self.blocks(blocks, parent)
        finally:
            self.desk = own

    def _heading(self, block: Heading, parent: Node) -> list[Strip]:
        anchor = next(anchor for each, anchor in self.headings if each is block)
        strips = words.heading(self.desk, replace(block, anchor=anchor), parent)
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


def _names(blocks: Sequence[Block]) -> dict[str, str]:
    """The names of the stages by their numbers."""
    return {block.number: plain(block.words) for block in every(blocks) if isinstance(block, Heading) and block.number}


def _stages(pages: Sequence[Sequence[Filled]]) -> list[tuple[str, ...]]:
    """The numbers of the stages each page shows something of."""
    found: list[tuple[str, ...]] = []
    current = ""
    for page in pages:
        strips = [placed.strip for column in page for placed in column.placed]
        here = [current] if current and strips and not strips[0].opens else []
        for strip in strips:
            if strip.opens:
                current = strip.stage
                here += [current] if current else []
        found.append(tuple(dict.fromkeys(here)))
    return found


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
    sheet: furniture.Sheet,
) -> Page:
    style = desk.style
    left = sheet.left(index)
    marks = list(_bands(style, page, sheet.width))
    for number, column in enumerate(page):
        x = left + number * (desk.width + style.gutter_points)
        for placed in column.placed:
            strip = placed.strip
            painted = strip.late(numbers) if strip.late else strip.marks
            marks.extend(mark.moved(x, style.margins.top * MM + placed.top) for mark in painted)
    if page and not page[0].placed[0].strip.bare:
        marks.extend(furniture.running(document, sheet, index))
        marks.extend(furniture.thumbs(sheet, index))
    if page and document.copy_line:
        marks.append(furniture.copy_mark(style, document.copy_line, index, (sheet.width, sheet.height)))
    return Page(index + 1, tuple(marks))


def _bands(style: Style, page: Sequence[Filled], width: float) -> Iterator[Mark]:
    """Bands of the tint behind the head of the page, painted past its edges so that a trimmed page shows no white."""
    over = OVER_EDGE * MM
    for placed in (each for column in page for each in column.placed if each.strip.band):
        height = style.margins.top * MM + placed.top + placed.strip.band
        yield Mark(None, (Area(-over, -over, width + 2 * over, height + over, fill=style.colours.tint),))
