"""What a booklet says, as plain records: no paper, no type sizes, no page numbers.

A document is a tuple of blocks. Words inside a block are one piece or a tuple of pieces, so both
``Paragraph("Soak the stakes.")`` and ``Paragraph(("Cut to ", Measure("16 3/8 in"), "."))`` are right.

In any words, a number with its unit (``16 3/8 in``, ``415 mm``, ``3 oz``) stays on one line. Fractions written
``3/8`` before a unit or in a `Measure`, with U+2044, or as one character (``⅜``) are set as real fractions.
U+00A0 never breaks.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from msgspec import Struct

from slath.booklet.fill_in import Bar, Fields, Form, FormBox, NotesLines, TickRow
from slath.booklet.pieces import (
    Blank,
    Chip,
    Emphasis,
    Link,
    Measure,
    MeasureLetter,
    Piece,
    Second,
    Shows,
    SizeRing,
    Strong,
    Term,
    TickBox,
    Words,
    pieces_of,
)  # fmt: skip
from slath.drawing.scene import Scene
from slath.messages import Own, message
from slath.messages.voice import voice_of

__all__ = [
    "Abreast", "Bar", "Blank", "Block", "Caution", "CautionRow", "Chip", "Column", "ContentError", "Contents",
    "CountBox", "Cover", "Definition", "Definitions", "Document", "Emphasis", "Fields", "Figure", "Form", "FormBox",
    "Heading", "KeepTogether", "Link", "Listing", "Measure", "MeasureLetter", "NotesLines", "Notice", "PageBreak",
    "Panel", "Paragraph", "Photograph", "Piece", "Row", "Second", "Section", "Shows", "SizeRing", "Step", "Strong",
    "Table", "Term", "TickBox", "TickRow", "Words", "every", "pieces_of",
]  # fmt: skip


class ContentError(ValueError):
    """Content that cannot be set as it is: a picture without words, headings that skip a level, a missing letter."""


class Heading(Struct, frozen=True):
    """A heading of level 1 (opens a part), 2 or 3. It never stands alone at the foot of a page.

    A part with a ``number`` is a stage of the work; ``aside`` are sentences set beside its name: what to have by you.
    """

    level: Literal[1, 2, 3]
    words: Words
    anchor: str = ""
    number: str = ""
    aside: tuple[Words, ...] = ()


class Paragraph(Struct, frozen=True):
    """Running words. ``lead`` opens a part in larger type; ``small`` is for licences and provenance."""

    words: Words
    role: Literal["body", "lead", "small"] = "body"
    anchor: str = ""


class Notice(Struct, frozen=True):
    """One sentence that qualifies what follows, such as "Calculated, not yet woven"."""

    words: Words


class Caution(Struct, frozen=True):
    """A warning that stands before the action it belongs to: ``safety`` for hands and eyes, ``care`` for the work.

    One for safety is known by its ``mark`` and told whole once; at a step stand the mark, its ``label`` and ``short``.
    """

    kind: Literal["safety", "care"]
    words: Words
    label: str = ""
    mark: str = ""
    short: Words = ""

    @property
    def heading(self) -> str:
        """The word the caution opens with, so that its kind never hangs on colour."""
        return self.label or {"safety": "Caution", "care": "Take care"}[self.kind]


class CautionRow(Struct, frozen=True):
    """Cautions known by their marks in a row: each its mark, its label and its short words."""

    cautions: tuple[Caution, ...]


class CountBox(Struct, frozen=True):
    """Stop and count: a check the hand makes before going on, with a box to tick; or a `check` of what is done."""

    words: Words
    label: str = "Stop and count"
    check: bool = False


class Photograph(Struct, frozen=True):
    """A picture from a file. ``data`` is JPEG or PNG; ``words`` let the step be done without seeing it."""

    data: bytes
    title: str
    words: str
    width: float = 80.0


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing or photograph with its caption.

    ``width``: ``column`` takes the width of the text at most, ``page`` a page of its own. A scene that says
    ``full_size`` is printed 1:1 whatever is asked. ``words`` override the picture's own. ``at`` draws it for a width and
    a height in mm, so that it is printed unscaled; it gives nothing where its lettering could not be read. ``room`` says
    where it stands best: ``strip`` and ``whole`` across the page, else beside its sentences. ``measures`` is the table of
    the letters that stand in it. ``instead`` are others for a room in which it could not be read, the best first.
    """

    picture: Scene | Photograph
    caption: Words = ""
    label: str = ""
    width: Literal["column", "page"] = "column"
    words: str = ""
    anchor: str = ""
    at: Callable[[float, float], Scene | None] | None = field(default=None, compare=False)
    room: Literal["", "strip", "whole"] = ""
    measures: Table | None = None
    instead: tuple[Figure, ...] = ()

    @property
    def picture_name(self) -> str:
        """The name of the drawing; none of a photograph."""
        return self.picture.name if isinstance(self.picture, Scene) else ""

    @property
    def full_size(self) -> bool:
        """Whether the picture is printed at its true measure."""
        return isinstance(self.picture, Scene) and self.picture.full_size

    @property
    def spoken(self) -> str:
        """The alternative text."""
        return self.words or self.picture.words


class Step(Struct, frozen=True):
    """One numbered step. Cautions stand before its actions, figures beside or above, counts after; none part from it.

    ``actions``: one sentence each. ``notes``: reasons, set smaller below the actions. ``stops`` are counts made before
    the first action, and ``lead`` is read before everything. ``opens`` says that it is the first of its stage.
    """

    number: str
    actions: tuple[Words, ...]
    title: Words = ""
    cautions: tuple[Caution, ...] = ()
    figures: tuple[Figure, ...] = ()
    notes: tuple[Words, ...] = ()
    counts: tuple[CountBox, ...] = ()
    anchor: str = ""
    stops: tuple[CountBox, ...] = ()
    lead: Words = ""
    opens: bool = False


class Listing(Struct, frozen=True):
    """Items under one another: bulleted, numbered from 1, or each with a box to tick."""

    items: tuple[Words, ...]
    kind: Literal["bullet", "number", "tick"] = "bullet"


class Column(Struct, frozen=True):
    """One column of a table. ``weight`` shares out spare width; ``row_header`` marks the cells that name their row."""

    header: Words
    align: Literal["left", "right", "centre"] = "left"
    weight: float = 1.0
    row_header: bool = False


class Row(Struct, frozen=True):
    """One row: as many cells as the table has columns. A ``group`` row has one cell, heading the rows after it."""

    cells: tuple[Words, ...]
    kind: Literal["body", "group", "total"] = "body"


class Table(Struct, frozen=True):
    """Rows and columns. A row is never split; the header repeats on every page. Footnotes stand below the last row.

    One that ``follows`` stands on the page of what is before it, if that page can hold it.
    """

    caption: Words
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    footnotes: tuple[Words, ...] = ()
    anchor: str = ""
    follows: bool = False

    def __post_init__(self) -> None:
        for row in self.rows:
            wanted = 1 if row.kind == "group" else len(self.columns)
            if len(row.cells) != wanted:
                msg = f"a {row.kind} row of this table takes {wanted} cells, not {len(row.cells)}: {row.cells!r}"
                raise ValueError(msg)


class Definition(Struct, frozen=True):
    """A name and what belongs to it."""

    name: Words
    meaning: Words
    anchor: str = ""


class Definitions(Struct, frozen=True):
    """Names with their meanings: a ``glossary`` in text, or ``facts`` such as skill, time and tools at a glance."""

    entries: tuple[Definition, ...]
    kind: Literal["glossary", "facts"] = "glossary"


class Cover(Struct, frozen=True):
    """The first page: title, drawn view of the finished basket, maker, edition; below it ``about`` (for whom, how long)
    beside the table of the ``sizes``, and what else is to be known before buying.
    """

    title: str
    subtitle: str = ""
    figure: Figure | None = None
    designer: str = ""
    edition: str = ""
    about: tuple[Words, ...] = ()
    sizes: Table | None = None
    notices: tuple[Words, ...] = ()


class Contents(Struct, frozen=True):
    """A table of contents of the headings up to ``levels``, with page numbers."""

    heading: str = "Contents"
    levels: int = 1


class PageBreak(Struct, frozen=True):
    """What follows begins on a new page; on a right-hand page with ``right``."""

    right: bool = False


class Abreast(Struct, frozen=True):
    """Blocks in columns of one width, next to one another where the page is wide enough, else under one another."""

    columns: tuple[tuple[Block, ...], ...]


class Panel(Struct, frozen=True):
    """Blocks in a frame under a title: what must not be overlooked."""

    title: Words
    blocks: tuple[Block, ...]


class KeepTogether(Struct, frozen=True):
    """Blocks that stand on one page if a page can hold them."""

    blocks: tuple[Block, ...]


class Section(Struct, frozen=True):
    """A part of the booklet under a ``name`` by which styles and teachers choose parts (``materials``, ``steps``)."""

    name: str
    blocks: tuple[Block, ...]


Block = (
    Heading
    | Paragraph
    | Notice
    | Caution
    | CautionRow
    | CountBox
    | Figure
    | Step
    | Listing
    | Table
    | Definitions
    | Cover
    | Contents
    | NotesLines
    | TickRow
    | Fields
    | Bar
    | Form
    | PageBreak
    | Abreast
    | Panel
    | KeepTogether
    | Section
)


def every(blocks: Iterable[Block]) -> Iterator[Block]:
    """Blocks one by one, those inside sections and what is kept together as well."""
    for block in blocks:
        if isinstance(block, Section | KeepTogether | Panel):
            yield from every(block.blocks)
        elif isinstance(block, Abreast):
            for column in block.columns:
                yield from every(column)
        else:
            yield block


class Document(Struct, frozen=True):
    """One booklet, handout, card or form: everything it says, and what names it.

    ``foot`` stands at the foot of every page beside the page number (pattern, size, edition); ``head`` at its top.
    ``notes`` heads the ruled space where a page is left short; without it none is ruled.
    ``copy_for`` is whose copy it is, said quietly on every page. ``language`` is a BCP 47 tag; ``date`` is the date of
    the edition and the only date that reaches the file.
    """

    title: str
    blocks: tuple[Block, ...]
    subtitle: str = ""
    author: str = ""
    language: str = "en-GB"
    subject: str = ""
    keywords: tuple[str, ...] = ()
    date: dt.date = dt.date(2000, 1, 1)
    foot: str = ""
    head: str = ""
    copy_for: str = ""
    notes: str = ""

    @property
    def covered(self) -> bool:
        """Whether a cover says what the document is called."""
        return any(isinstance(block, Cover) for block in every(self.blocks))

    @property
    def copy_line(self) -> str:
        """What a copy says of whose it is; nothing if it is nobody's in particular."""
        return copy_line(self.copy_for, self.language) if self.copy_for else ""


def copy_line(name: str, tag: str) -> str:
    """Whose copy it is, as every page of it says, in the language of the document."""
    return voice_of(tag).text(message("labels.copy-for", name=Own(name)))
