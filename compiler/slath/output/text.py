"""A document as plain text: everything the pages say, in reading order, figures told in words, tables read out by row."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from slath.booklet.blocks import (
    Abreast,
    Bar,
    Block,
    Caution,
    CautionRow,
    Contents,
    CountBox,
    Cover,
    Definitions,
    Document,
    Fields,
    Figure,
    Form,
    FormBox,
    Heading,
    KeepTogether,
    Listing,
    NotesLines,
    Notice,
    PageBreak,
    Panel,
    Paragraph,
    Row,
    Second,
    Section,
    Step,
    Table,
    TickRow,
    Words,
    pieces_of,
)
from slath.booklet.reading import FRACTION_SLASH, NO_BREAK, plain
from slath.messages import Own, Voice, message
from slath.messages.voice import voice_of

WIDTH = 72
UNDERLINES = {0: "=", 1: "=", 2: "-"}


def document_text(document: Document) -> str:
    """The whole document in lines of at most 72 characters, fractions written 3/8, measures never broken."""
    voice = voice_of(document.language)
    parts = list(_blocks(document.blocks, voice))
    if not document.covered:
        parts = [
            _underlined(document.title, 0),
            *(_filled(line) for line in (document.subtitle, document.foot)),
            *parts,
        ]
    text = "\n\n".join(part for part in (*parts, _filled(document.copy_line)) if part)
    return text.replace(NO_BREAK, " ").replace(FRACTION_SLASH, "/") + "\n"


def _filled(words: Words, first: str = "", rest: str | None = None) -> str:
    hanging = " " * len(first) if rest is None else rest
    return textwrap.fill(
        plain(words),
        WIDTH,
        initial_indent=first,
        subsequent_indent=hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _underlined(words: Words, level: int) -> str:
    text = plain(words)
    return f"{text}\n{UNDERLINES[level] * len(text)}" if level in UNDERLINES else text


def _blocks(blocks: Sequence[Block], voice: Voice) -> Iterator[str]:
    for block in blocks:
        yield from _block(block, voice)


def _block(block: Block, voice: Voice) -> Iterator[str]:  # noqa: C901, PLR0912  (one line a kind)
    match block:
        case Heading():
            yield _underlined(
                (f"{block.number}. ", *pieces_of(block.words)) if block.number else block.words, block.level
            )
            yield from (_filled(words) for words in block.aside)
        case Paragraph(words) | Notice(words):
            yield _filled(words)
        case Caution():
            yield _caution(block)
        case CountBox():
            yield _count(block)
        case Figure():
            yield _figure(block, voice)
        case Step():
            yield from _step(block, voice)
        case Listing():
            yield _listing(block)
        case Table():
            yield from _table(block)
        case Definitions(entries):
            yield "\n".join(
                _filled((*pieces_of(entry.name), ": ", *pieces_of(entry.meaning)), "", "  ") for entry in entries
            )
        case Cover():
            yield from _cover(block, voice)
        case TickRow():
            ends = "".join(voice.text(message("labels.ends-at", name=Own(name), round=end)) for end, name in block.ends)
            yield _filled((*pieces_of(block.label), ends)) + "\n" + _ticks(block.count, block.group)
        case CautionRow(due):
            yield "\n".join(_short(each) for each in due)
        case Fields(rows):
            yield "\n".join(_filled(f"{name} ________") for row in rows for name in row)
        case Bar():
            parts = "; ".join(f"{plain(part)} {plain(much)}" for part, much, _ in block.parts)
            told = voice.text(message("labels.made-up", parts=Own(parts)))
            yield _filled((*pieces_of(block.name), told), "", "  ")
        case Abreast(columns):
            for column in columns:
                yield from _blocks(column, voice)
        case Panel(title, blocks):
            yield _underlined(title, 2)
            yield from _blocks(blocks, voice)
        case Form(boxes):
            yield "\n".join(_form_box(box, voice) for box in boxes)
        case NotesLines(heading):
            yield f"{heading}:"
        case KeepTogether(blocks) | Section(_, blocks):
            yield from _blocks(blocks, voice)
        case Contents() | PageBreak():
            return


def _caution(block: Caution) -> str:
    return _filled((block.heading.upper() + ": ", *pieces_of(block.words)), "! ", "  ")


def _short(block: Caution) -> str:
    """A caution at its step: its name and two or three words, the whole of it being told in the panel."""
    return _filled((f"{block.label}: ", *pieces_of(block.short)), "! ", "  ")


def _count(block: CountBox) -> str:
    return _filled((block.label + ": ", *pieces_of(block.words)), "[ ] ")


def _figure(block: Figure, voice: Voice) -> str:
    label = (block.label.rstrip(".") or voice.text(message("labels.figure"))) + ". "
    said = block.caption
    caption = (*pieces_of(said), " " if plain(said).endswith((".", "!", "?")) else ". ") if block.caption else ()
    return _filled((label, *caption, voice.text(message("labels.shows", told=Own(block.spoken)))), "[", " ") + "]"


def _step(block: Step, voice: Voice) -> Iterator[str]:
    head = voice.text(message("labels.step", number=Own(block.number)))
    yield _filled((head, " ", *pieces_of(block.title))) if block.title else head
    if block.lead:
        yield _filled(block.lead)
    for each in block.cautions:
        if each.short:
            yield _short(each)
        elif not each.mark:
            yield _caution(each)
    yield from (_count(each) for each in block.stops)
    for figure in block.figures:
        yield _figure(figure, voice)
        if figure.measures:
            yield from _table(figure.measures)
    yield "\n".join(_filled(words, f"{number}. ") for number, words in enumerate(block.actions, 1))
    if block.notes:
        yield "\n\n".join(_filled(words, "  ") for words in block.notes)
    yield from (_count(each) for each in block.counts)


def _form_box(box: FormBox, voice: Voice) -> str:
    predicted = voice.text(message("labels.predicted", value=Own(plain(box.predicted)))) if box.predicted else ":"
    found = voice.text(message("labels.found", unit=Own(box.unit))).rstrip()
    return _filled((*pieces_of(box.name), predicted, found), "", "  ")


def _listing(block: Listing) -> str:
    signs = {"bullet": "- ", "tick": "[ ] "}
    return "\n".join(
        _filled(words, signs.get(block.kind, f"{number}. ")) for number, words in enumerate(block.items, 1)
    )


def _table(block: Table) -> Iterator[str]:
    if block.caption:
        yield _filled((*pieces_of(block.caption), ":"))
    yield "\n".join(_row(block, row) for row in block.rows).removeprefix("\n")
    for note in block.footnotes:
        yield _filled(note)


def _row(block: Table, row: Row) -> str:
    """A row read out: its name, then each cell after the header of its column."""
    if row.kind == "group":
        return f"\n{plain(row.cells[0])}"
    names, parts = [], []
    for column, cell in zip(block.columns, row.cells, strict=True):
        said = _read_out(cell)
        if said and column.row_header:
            names.append(said)
        elif said.strip("—– "):
            parts.append(f"{_read_out(column.header)}: {said}")
    return _filled(". ".join([*names, *(["; ".join(parts)] if parts else [])]), "- ")


def _read_out(words: Words) -> str:
    """The words of a cell; what pages set smaller beside a measure, such as the other unit, stands in brackets."""
    return "".join(
        f"{' ' if said.startswith(' ') else ''}({said.strip()})" if isinstance(piece, Second) else said
        for piece in pieces_of(words)
        for said in (plain(piece),)
    )


def _cover(block: Cover, voice: Voice) -> Iterator[str]:
    yield _underlined(block.title, 0)
    for line in (block.subtitle, block.designer, block.edition):
        if line:
            yield _filled(line)
    if block.figure:
        yield _figure(block.figure, voice)
    for words in block.about:
        yield _filled(words)
    if block.sizes:
        yield from _table(block.sizes)
    for words in block.notices:
        yield _filled(words)


def _ticks(count: int, group: int) -> str:
    boxes = [" ".join(["[ ]"] * min(group, count - start)) for start in range(0, count, group)]
    return textwrap.fill("  ".join(box.replace(" ", NO_BREAK) for box in boxes), WIDTH, break_long_words=False)
