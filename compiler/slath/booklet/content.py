"""What a booklet holds: sections in reading order, from the list, the told stages and the figures.

Nothing is computed here: every number comes from the list (`Quantities`), every sentence from the wording.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Mapping, Sequence

from msgspec.structs import replace

from slath.booklet.blocks import (
    Block,
    Contents,
    Document,
    Heading,
    NotesLines,
    PageBreak,
    Paragraph,
    Section,
    Step,
)
from slath.booklet.content_bands import band_table
from slath.booklet.content_contact import class_licence
from slath.booklet.content_front import cover, read_first, record, safety_panel, title_block, tools_line
from slath.booklet.content_record import BookletContent
from slath.booklet.content_steps import Course, mends_of, steps_of
from slath.booklet.content_tables import bars, buying_table, cutting_table
from slath.booklet.withholding import FIGURES
from slath.messages import Voice, message
from slath.messages.language import ENGLISH

SECTIONS = (
    "cover", "contents", "glance", "safety", "glossary", "materials", "cut list", "bands", "tools", "steps", "mends",
    "record", "imprint",
)  # fmt: skip
BOOKLET = tuple(name for name in SECTIONS if name not in {"contents", "tools"})  # tools stand on its cover
HANDOUT = (
    "glance",
    "safety",
    "materials",
    "cut list",
    "bands",
    "tools",
    "steps",
    "mends",
)  # unless the teacher chooses
READY = "prepare"  # the stage in which all is bought, cut and soaked
LISTS = ("materials", "cut list", "bands")  # told within that stage, where the steps are told
LANGUAGES = {"UK": "en-GB", "US": "en-US"}


def booklet_document(
    content: BookletContent, sections: Sequence[str] = BOOKLET, withheld: Collection[str] = ()
) -> Document:
    """The booklet, or those of its sections asked for, in reading order; its steps silent on what is `withheld`."""
    course = content.course(withheld)
    ready = "steps" in sections and bool(course.stages) and course.stages[0].key == READY
    makers: dict[str, Callable[[], list[Block]]] = {
        "cover": lambda: cover(content),
        "contents": lambda: [PageBreak(), Contents(content.voice.text(message("booklet.contents")), levels=1)],
        "glance": lambda: read_first(content, course, safety="safety" in sections),
        "safety": lambda: [] if "glance" in sections else safety_panel(course, content.voice),
        "glossary": lambda: _glossary(content),
        "materials": lambda: _materials(content, opens=not ready),
        "cut list": lambda: _cut_list(content, opens=not ready and "materials" not in sections),
        "bands": lambda: _bands(content, opens=not ready and not {"materials", "cut list"} & set(sections)),
        "tools": lambda: _tools(content),
        "steps": lambda: _steps(content, course, withheld, lists),
        "mends": lambda: _mends(course, content.voice),
        "record": lambda: record(content, course),
        "imprint": list,
    }
    blocks: list[Block] = []
    lists: dict[str, Section] = {}
    for name in SECTIONS:
        if name in sections:
            made = makers[name]()
            if made and ready and name in LISTS:
                lists[name] = Section(name, tuple(made))
            elif made:
                blocks.append(Section(name, tuple(made)))
    document = document_of(content, blocks, content.pattern.subtitle)
    return replace(document, notes=content.voice.text(message("booklet.notes")))


def handout_document(content: BookletContent, sections: Sequence[str] = HANDOUT) -> Document:
    """A class handout: the sections the teacher chose, less what the licence withholds, and room for notes. Whoever is told
    the steps is told the cautions as well.
    """
    withheld = content.pattern.withheld
    allowed = [name for name in sections if name not in withheld and name != "cover"]
    if "steps" in allowed and "safety" not in allowed:
        allowed.append("safety")
    document = booklet_document(content, allowed, withheld)
    ruled = NotesLines(content.voice.text(message("booklet.notes")), lines=8)
    notes = Section("notes", (ruled, *class_licence(content)))
    return document_of(
        content,
        [Section("title", tuple(title_block(content))), *_under_title(document.blocks), notes],
        content.voice.text(message("booklet.class-handout")),
    )


def _under_title(blocks: Sequence[Block]) -> list[Block]:
    """Sections whose first one opens under the title of the handout and not on a page of its own."""
    told = list(blocks)
    if told and isinstance(told[0], Section):
        opening: list[Block] = []
        for block in told[0].blocks:
            if isinstance(block, Heading) and block.level == 1:
                opening.append(Heading(2, block.words, block.anchor))
            elif not isinstance(block, PageBreak):
                opening.append(block)
        told[0] = Section(told[0].name, tuple(opening))
    return told


def _tag(voice: Voice) -> str:
    """The language of a document as a BCP 47 tag, for hyphenation and for who reads it aloud."""
    return LANGUAGES[voice.vocabulary.name] if voice.language.code == ENGLISH else voice.language.about("tag")


def document_of(content: BookletContent, blocks: Sequence[Block], subtitle: str) -> Document:
    """A document of this pattern around `blocks`."""
    pattern = content.pattern
    return Document(
        title=pattern.title,
        blocks=tuple(blocks),
        subtitle=subtitle,
        author=pattern.designer or pattern.workshop,
        language=_tag(content.voice),
        subject=content.voice.text(message("booklet.basket-pattern")),
        keywords=("basketry", "pattern", *(size.name for size in content.sizes)),
        date=pattern.dated or dt.date(2000, 1, 1),
        foot=content.edition_line,
        head=pattern.title,
    )


# ---------------------------------------------------------------------------------------------------------- sections
def _materials(content: BookletContent, *, opens: bool) -> list[Block]:
    table = buying_table(content.measured, content.voice, _how_to_buy(content))
    if not opens:
        return [replace(table, anchor="materials")]
    heading = Heading(1, content.voice.text(message("booklet.materials-and-cut-list")), anchor="materials")
    return [PageBreak(), heading, table]


def _cut_list(content: BookletContent, *, opens: bool) -> list[Block]:
    heading: list[Block] = (
        [Heading(1, content.voice.text(message("booklet.cut-list-2")), anchor="cut-list")] if opens else []
    )
    table = cutting_table(content.measured, content.voice)
    if not opens:
        table = replace(table, anchor="cut-list", follows=True)
    return [*heading, table, *bars(content.measured, content.voice)]


def _bands(content: BookletContent, *, opens: bool) -> list[Block]:
    table = band_table(content.measured, content.voice)
    heading: list[Block] = (
        [Heading(1, content.voice.text(message("booklet.what-each-band-takes")), anchor="bands")] if opens else []
    )
    return [*heading, table if opens else replace(table, follows=True)] if table else []


def _how_to_buy(content: BookletContent) -> str:
    bought = [item for size in content.sizes for item in size.quantities.purchase]
    voice, told = content.voice, message("booklet.joins-and-spare-are-included")
    if all(item.rods is not None for item in bought):
        return voice.text(message("booklet.rods-are-counted-as-they", told=told))
    if any(item.mass_g is not None for item in bought):
        return voice.text(message("booklet.buy-by-these-lengths-weights", told=told))
    return voice.text(told)


def _tools(content: BookletContent) -> list[Block]:
    return (
        [
            Heading(1, content.voice.text(message("booklet.tools-heading")), anchor="tools"),
            Paragraph(tools_line(content)),
        ]
        if content.tools
        else []
    )


def _steps(
    content: BookletContent, course: Course, withheld: Collection[str], lists: Mapping[str, Section]
) -> list[Block]:
    """The stages; of the first what is bought stands before its steps, what is cut and woven with the one that cuts it."""
    pictures = {} if FIGURES in withheld else content.pictures
    told = steps_of(course, pictures, content.voice)
    steps = [(place, block) for place, block in enumerate(told) if isinstance(block, Step)]
    if not lists or not steps:
        return told
    place, first = steps[0]
    bought = [lists[name] for name in LISTS[:1] if name in lists]
    cut, woven = ([lists[name]] if name in lists else [] for name in LISTS[1:])
    cutting = replace(first, counts=(), opens=not bought)
    return [PageBreak(), *told[:place], *bought, cutting, *cut, *first.counts, *woven, *told[place + 1 :]]


def _mends(course: Course, voice: Voice) -> list[Block]:
    table = mends_of(course, voice)
    return [Heading(1, voice.text(message("booklet.if-it-goes-wrong")), anchor="mends"), table] if table else []


SHEETS_LEAD = message("booklet.print-these-sheets-at-not")


def _glossary(content: BookletContent) -> list[Block]:
    if not content.glossary.entries:
        return []
    return [Heading(2, content.voice.text(message("booklet.words-used-here")), anchor="glossary"), content.glossary]
