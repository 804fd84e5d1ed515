"""What a booklet holds: sections in reading order, from the list, the told stages and the figures.

Nothing is computed here: every number comes from the list (`Quantities`), every sentence from the wording.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

from slath.booklet.blocks import (
    Block,
    Contents,
    Cover,
    Definition,
    Definitions,
    Document,
    Figure,
    Heading,
    Listing,
    NotesLines,
    Notice,
    PageBreak,
    Paragraph,
    Section,
    Words,
    pieces_of,
)
from slath.booklet.content_steps import SizeContent, course_of, steps_of
from slath.booklet.content_tables import Measured, band_tables, buying_table, cutting_table, over_all, sizes_table
from slath.booklet.size_order import how_told, order
from slath.booklet.withholding import FIGURES, spared, speaking
from slath.language.pattern import Pattern
from slath.units.counting import listed
from slath.wording.speech import Voice, bracketed, sentence_case, verbatim

SECTIONS = ("cover", "contents", "imprint", "glance", "materials", "cut list", "bands", "tools", "steps", "glossary")
HANDOUT = (
    "glance",
    "materials",
    "cut list",
    "bands",
    "tools",
    "steps",
)  # what a class is given unless its teacher chooses
LANGUAGES = {"UK": "en-GB", "US": "en-US"}


@dataclass(frozen=True, slots=True)
class BookletContent:
    """A pattern in the sizes to be printed, with what is the same for all of them."""

    pattern: Pattern
    sizes: tuple[SizeContent, ...]
    voice: Voice
    skill: Words
    tools: tuple[tuple[Words, Words], ...]
    glossary: Definitions
    pictures: Mapping[str, bytes]

    @property
    def edition_line(self) -> str:
        """What stands at the foot of every page: title, size if there is only one, edition and day."""
        parts = [self.pattern.title]
        if len(self.sizes) == 1 and len(self.pattern.sizes) > 1:
            parts.append(self.sizes[0].name)
        parts += [f"edition {self.pattern.edition}"] if self.pattern.edition else []
        if self.pattern.dated:
            parts.append(self.pattern.dated.isoformat())
        return " · ".join(parts)


def _edition_words(pattern: Pattern) -> list[str]:
    """The edition and its day, so far as the pattern names them."""
    named = [f"Edition {pattern.edition}"] if pattern.edition else []
    return [*named, pattern.dated.isoformat()] if pattern.dated else named


def booklet_document(
    content: BookletContent, sections: Sequence[str] = SECTIONS, withheld: Collection[str] = ()
) -> Document:
    """The booklet, or those of its sections asked for, in reading order; its steps silent on what is `withheld`."""
    makers: dict[str, Callable[[BookletContent], list[Block]]] = {
        "cover": _cover,
        "contents": lambda _: [PageBreak(), Contents(levels=2)],
        "imprint": _imprint,
        "glance": _glance,
        "materials": _materials,
        "cut list": _cut_list,
        "bands": _bands,
        "tools": _tools,
        "steps": lambda told: _steps(told, withheld),
        "glossary": _glossary,
    }
    blocks: list[Block] = []
    for name in SECTIONS:
        if name in sections:
            made = makers[name](content)
            if made:
                blocks.append(Section(name, tuple(made)))
    return document_of(content, blocks, content.pattern.subtitle)


def handout_document(content: BookletContent, sections: Sequence[str] = HANDOUT) -> Document:
    """A class handout: the sections the teacher chose, less what the licence withholds, and room for notes."""
    withheld = content.pattern.withheld
    allowed = [name for name in sections if name not in withheld and name != "cover"]
    document = booklet_document(content, allowed, withheld)
    notes = Section("notes", (NotesLines(lines=8),))
    title: tuple[Block, ...] = (Heading(1, content.pattern.title),)
    if allowed[:1] != ["glance"]:  # which says it itself
        title = (*title, Notice(_status(content)))
    return document_of(content, [Section("title", title), *_under_title(document.blocks), notes], "class handout")


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


def document_of(content: BookletContent, blocks: Sequence[Block], subtitle: str) -> Document:
    """A document of this pattern around `blocks`."""
    pattern = content.pattern
    return Document(
        title=pattern.title,
        blocks=tuple(blocks),
        subtitle=subtitle,
        author=pattern.designer or pattern.workshop,
        language=LANGUAGES[content.voice.vocabulary.name],
        subject="basket pattern",
        keywords=("basketry", "pattern", *(size.name for size in content.sizes)),
        date=pattern.dated or dt.date(2000, 1, 1),
        foot=content.edition_line,
    )


# ---------------------------------------------------------------------------------------------------------- sections
def _cover(content: BookletContent) -> list[Block]:
    pattern, middle = content.pattern, content.sizes[(len(content.sizes) - 1) // 2]
    view = middle.figures.get("view")
    shown = f"{sentence_case(middle.name)}, drawn" if len(content.sizes) > 1 else "Drawn"
    figure = Figure(view, caption=f"{shown} from its own strands", width="page") if view else None
    names = ", ".join(size.name for size in content.sizes)
    return [
        Cover(
            title=pattern.title,
            subtitle=pattern.subtitle or (f"in {names}" if len(content.sizes) > 1 else names),
            figure=figure,
            designer=pattern.designer or pattern.workshop,
            edition=", ".join(_edition_words(pattern)),
            notices=(_status(content),),
            sizes=tuple(Definition(sentence_case(size.name), _finished(size, content.voice)) for size in content.sizes),
        )
    ]


def _finished(size: SizeContent, voice: Voice) -> str:
    """How large a basket is when it is finished, in one line."""
    finished = size.quantities.finished
    rim = over_all(finished.rim_length, finished.rim_width, voice)
    height = finished.height_with_handle or finished.height
    if size.basket.profile is None or not height.value:
        return rim
    with_handle = " with the handle" if finished.height_with_handle else ""
    return f"{rim}, {voice.length(height.value)} high{with_handle}"


def _status(content: BookletContent) -> str:
    """Which sizes have been woven from these numbers, and which are only calculated."""
    by_status: dict[str, list[str]] = {}
    for size in content.sizes:
        by_status.setdefault(size.quantities.tested, []).append(size.name)
    if len(by_status) == 1:
        return sentence_case(next(iter(by_status))) + "."
    return " ".join(f"{sentence_case(listed(names))}: {status}." for status, names in by_status.items())


def _glance(content: BookletContent) -> list[Block]:
    pattern, voice = content.pattern, content.voice
    facts = [
        Definition("For", _for(content)),
        Definition("Takes", sentence_case(pattern.time)),
        Definition("Worked", _direction(voice)),
        Definition("Sizes", _sizes(content)),
        Definition("Words of the trade", _vocabulary(voice)),
        Definition("Woven?", _status(content)),
        Definition("The count", _counts(content)),
    ]
    blocks: list[Block] = [PageBreak(), Heading(1, "At a glance", anchor="glance")]
    if pattern.about:
        blocks.append(Paragraph(voice.say(bracketed(verbatim(pattern.about))), role="lead"))
    blocks.append(Definitions(tuple(fact for fact in facts if fact.meaning), kind="facts"))
    blocks.append(sizes_table(_measured(content), voice))
    return blocks


def _for(content: BookletContent) -> Words:
    word = sentence_case(content.pattern.skill)
    if not content.skill:
        return word
    return (f"{word}. ", *pieces_of(content.skill))


def _sizes(content: BookletContent) -> str:
    if len(content.sizes) < 2:
        return ""
    return f"{sentence_case(order(content.sizes))}; numbers that differ stand in this order in every sentence"


def _direction(voice: Voice) -> str:
    return f"{'Right to left' if voice.mirrored else 'Left to right'}, seen from outside"


def _vocabulary(voice: Voice) -> str:
    return {"UK": "British", "US": "American, as in the handbooks"}[voice.vocabulary.name]


def _counts(content: BookletContent) -> Words:
    """The sentence that counts, once where all sizes share it, else once for each size."""
    sentences: dict[str, list[str]] = {}
    for size in content.sizes:
        for row in size.quantities.counts:
            if row.name == "stakes" and row.sentence:
                sentences.setdefault(bracketed(row.sentence), []).append(size.name)
    if len(sentences) == 1:
        return content.voice.say(sentence_case(next(iter(sentences))))
    return content.voice.say(" ".join(f"{sentence_case(listed(names))}: {said}" for said, names in sentences.items()))


def _materials(content: BookletContent) -> list[Block]:
    voice = content.voice
    blocks: list[Block] = [Heading(1, "Materials to buy", anchor="materials")]
    blocks.append(Paragraph(_how_to_buy(content)))
    blocks.append(buying_table(_measured(content), voice))
    return blocks


def _cut_list(content: BookletContent) -> list[Block]:
    return [Heading(1, "Cut list", anchor="cut-list"), cutting_table(_measured(content), content.voice)]


def _bands(content: BookletContent) -> list[Block]:
    tables = band_tables(_measured(content), content.voice)
    return [Heading(1, "What each band takes", anchor="bands"), *tables] if tables else []


def _how_to_buy(content: BookletContent) -> str:
    bought = [item for size in content.sizes for item in size.quantities.purchase]
    told = "For one basket, joins and spare included."
    if all(item.rods is not None for item in bought):
        return f"{told} Rods are counted as they grew, sorted by length and by the thickness of the thick end."
    if any(item.mass_g is not None for item in bought):
        return f"{told} Buy by these lengths: weights differ from maker to maker."
    return told


def _tools(content: BookletContent) -> list[Block]:
    if not content.tools:
        return []
    explained = tuple(Definition(_capital_words(name), use) for name, use in content.tools if use)
    blocks: list[Block] = [Heading(1, "Tools", anchor="tools")]
    if explained:
        blocks.append(Definitions(explained, kind="facts"))
    plain_names = tuple(_capital_words(name) for name, use in content.tools if not use)
    if plain_names:
        blocks.append(Listing(plain_names))
    return blocks


def _steps(content: BookletContent, withheld: Collection[str]) -> list[Block]:
    blocks: list[Block] = [PageBreak(), Heading(1, "Making it", anchor="steps")]
    if told := how_told(content.sizes, content.voice):
        blocks.append(Paragraph(told))
    pictures = {} if FIGURES in withheld else content.pictures
    return [*blocks, *steps_of(spared(course_of(content.sizes, speaking(content.voice, withheld)), withheld), pictures)]


SHEETS_LEAD = (
    "Print these sheets at 100 %, not fitted to the page. Measure the test square on each before you rely on it."
)


def _glossary(content: BookletContent) -> list[Block]:
    if not content.glossary.entries:
        return []
    return [Heading(1, "Words used here", anchor="glossary"), content.glossary]


def _imprint(content: BookletContent) -> list[Block]:
    pattern = content.pattern
    lines = [content.edition_line, _status(content)]
    lines.append("Every number was worked out from the construction; numbers marked estimated have not been measured.")
    lines.append("Local rules, and the makers' own sheets for dyes and finishes, come before anything said here.")
    if pattern.licence:
        lines.append(pattern.licence)
    blocks: list[Block] = [Heading(1, "This edition", anchor="imprint")]
    blocks += [Paragraph(line, role="small") for line in lines]
    if pattern.changes:
        blocks += [Heading(2, "Changed since the edition before"), Listing(pattern.changes)]
    return blocks


def _measured(content: BookletContent) -> list[Measured]:
    return [Measured(size.basket, size.quantities) for size in content.sizes]


def _capital_words(words: Words) -> Words:
    if isinstance(words, str):
        return sentence_case(words)
    if isinstance(words, tuple) and words and isinstance(words[0], str):
        return (sentence_case(words[0]), *words[1:])
    return words
