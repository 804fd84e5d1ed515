"""What stands round the steps of a booklet: cover, what to read first, the panel of cautions, the record, the imprint."""

from __future__ import annotations

from collections.abc import Sequence

from slath.booklet.blocks import (
    Abreast,
    Block,
    Caution,
    Chip,
    Cover,
    Definition,
    Definitions,
    Fields,
    Figure,
    Heading,
    Listing,
    MeasureLetter,
    Notice,
    PageBreak,
    Panel,
    Paragraph,
    Piece,
    SizeRing,
    Strong,
    Words,
    pieces_of,
)
from slath.booklet.content_contact import contact_lines, photographs_at
from slath.booklet.content_record import BookletContent
from slath.booklet.content_steps import Course, SizeContent
from slath.booklet.content_tables import sizes_table
from slath.language.pattern import Pattern
from slath.messages import Listed, Message, Own, Value, message
from slath.messages.language import ENGLISH
from slath.messages.names import named
from slath.wording.choices import variant_named
from slath.wording.speech import Voice, bracketed, plain, sentence_case, verbatim
from slath.wording.stuff import dye_said

SKILLS = ("beginner", "improver", "experienced", "advanced")  # the least skill first
HOW_SURE = message("booklet.every-number-was-worked-out")


def cover(content: BookletContent) -> list[Block]:
    """The first page: the basket, for whom it is and how long it takes, its sizes, the tools it wants."""
    voice = content.voice
    pattern, middle = content.pattern, content.sizes[(len(content.sizes) - 1) // 2]
    view = middle.figures.get("view")
    shown = message("booklet.drawn", size=Own(middle.name) if len(content.sizes) > 1 else None)
    drawn = Figure(view, caption=voice.text(shown), width="page") if view else None
    figure = next(iter(photographs_at(content, "cover")), drawn)
    names = Listed(tuple(Own(size.name) for size in content.sizes))
    about = [
        _variant(content),
        _for(content),
        _time(content),
        voice.text(message("booklet.worked", mirrored=voice.mirrored, us=voice.vocabulary.name == "US")),
    ]
    status = status_of(content)
    notices = [tools_line(content)] if content.tools else []
    notices.append((Strong(status), " ", voice.text(HOW_SURE)))
    return [
        Cover(
            title=pattern.title,
            subtitle=pattern.subtitle or voice.text(message("booklet.in", several=len(content.sizes) > 1, names=names)),
            figure=figure,
            designer=pattern.designer or pattern.workshop,
            edition=" · ".join(_edition_words(pattern, voice)),
            about=tuple(words for words in about if words),
            sizes=sizes_table(content.measured, content.voice, short=True),
            notices=tuple(notices),
        )
    ]


def _variant(content: BookletContent) -> Words:
    """Which variant this is, and which there are besides; nothing where the pattern has none."""
    pattern, own = content.pattern, content.pattern.as_variant
    others = [variant_named(variant) for variant in pattern.variants if variant != own]
    if own is None or not others:
        return ""
    told = message("variants.this-one", own=variant_named(own), others=Listed(tuple(others)))
    return content.voice.say(told)


def title_block(content: BookletContent) -> list[Block]:
    """The name of the basket, and whether it was woven, over a document without a cover."""
    middle = content.sizes[(len(content.sizes) - 1) // 2]
    return [Heading(1, content.pattern.title), Notice(status_of(content)), *view_of(middle, content.voice)]


def view_of(size: SizeContent, voice: Voice) -> list[Block]:
    """The finished basket, drawn."""
    view = size.figures.get("view")
    return (
        [Figure(view, caption=voice.text(message("booklet.the-finished-basket", size=Own(size.name))))] if view else []
    )


def _edition_words(pattern: Pattern, voice: Voice) -> list[str]:
    """The edition and its day, so far as the pattern names them."""
    named = [voice.text(message("booklet.edition", edition=Own(pattern.edition)))] if pattern.edition else []
    return [*named, pattern.dated.isoformat()] if pattern.dated else named


def status_of(content: BookletContent) -> str:
    """Which sizes have been woven from these numbers, and which are only calculated."""
    by_status: dict[str, list[str]] = {}
    for size in content.sizes:
        by_status.setdefault(size.quantities.tested, []).append(size.name)
    several = len(by_status) > 1
    told = [
        message("booklet.status", sizes=_sizes(names) if several else None, status=named("status", status))
        for status, names in by_status.items()
    ]
    return " ".join(content.voice.text(one) for one in told)


def _sizes(names: list[str]) -> Listed:
    """Sizes by their names."""
    return Listed(tuple(Own(name) for name in names))


def tools_line(content: BookletContent) -> Words:
    """All tools in one sentence."""
    names = [plain(name) for name, _ in content.tools]
    first, *others = names
    lowered = content.voice.language.code == ENGLISH  # German nouns keep their capitals
    names = [first, *((name[:1].lower() + name[1:] if lowered else name) for name in others)]
    tools = Listed(tuple(Own(name) for name in names))
    opening = content.voice.text(message("booklet.tools"))
    return (Strong(opening), content.voice.text(message("booklet.listed", items=tools)))


def _for(content: BookletContent) -> Words:
    word = content.voice.text(message("booklet.skill", skill=named("skill-names", content.pattern.skill)))
    if not word:
        return ""
    known = SKILLS
    asked = content.pattern.skill.casefold()
    reached = known.index(asked) + 1 if asked in known else 0
    rings = tuple(SizeRing(filled=place < reached) for place in range(len(known))) if reached else ()
    said = pieces_of(content.skill) if content.skill else ()
    return (Strong(f"{word} "), *rings, " ", *said)


def _time(content: BookletContent) -> Words:
    return (Strong(f"{sentence_case(content.pattern.time)}."),) if content.pattern.time else ""


# --------------------------------------------------------------------------------------------------------- read first
def read_first(content: BookletContent, course: Course, *, safety: bool) -> list[Block]:
    """What it is, how several sizes are told, the count it rests on and what the marks mean; beside it the cautions."""
    pattern, voice = content.pattern, content.voice
    left: list[Block] = []
    if pattern.about:
        left.append(Paragraph(voice.say(bracketed(verbatim(pattern.about))), role="lead"))
    left += _your_size(content)
    counts = _counts(content)
    if counts:
        left.append(Paragraph((Strong(voice.text(message("booklet.the-count"))), *pieces_of(counts))))
    left += [Heading(2, voice.text(message("booklet.the-marks")), anchor="marks"), _marks(content)]
    blocks: list[Block] = [PageBreak(), Heading(1, voice.text(message("booklet.read-this-first")), anchor="glance")]
    panel = safety_panel(course, voice) if safety else []
    return [*blocks, Abreast((tuple(left), tuple(panel)))] if panel else [*blocks, *left]


def _your_size(content: BookletContent) -> list[Block]:
    voice = content.voice
    names = [size.name for size in content.sizes]
    if len(names) < 2:
        return []
    rings = tuple(piece for name in names for piece in (SizeRing(), Strong(name), "     "))
    told = voice.text(message("booklet.fill-in-the-ring-of", names=_sizes(names)))
    return [Heading(2, voice.text(message("booklet.your-size")), anchor="your-size"), Paragraph(rings), Paragraph(told)]


def _marks(content: BookletContent) -> Definitions:
    voice = content.voice
    entries: list[tuple[Words, str]] = [
        (MeasureLetter("A"), voice.text(message("booklet.a-measure-of-a-drawing"))),
        (Strong(voice.text(message("booklet.take-care"))), voice.text(message("booklet.what-cannot-be-mended-later"))),
        (Strong(voice.text(message("booklet.stop-and-count"))), voice.text(message("booklet.count-tick-the-box-and"))),
        (Strong("2.3"), voice.text(message("booklet.stage-step-the-marks-at"))),
    ]
    chips = _letters(content)
    if chips:
        entries.append(chips)
    entries.append(
        (
            voice.text(message("booklet.other-hand")),
            voice.text(message("booklet.all-runs-to-work-the", mirrored=voice.mirrored)),
        )
    )
    return Definitions(tuple(Definition(name, meaning) for name, meaning in entries), kind="facts")


def _letters(content: BookletContent) -> tuple[Words, str] | None:
    """The strands that bear letters, and which is which."""
    letters: dict[str, tuple[Chip, Value]] = {}
    for size in content.measured:
        for key in size.lettered:
            material = size.basket.pattern.materials[key]
            letters[key] = (Chip(material.colour, material.letter), dye_said(material.dye or "natural"))
    if len(letters) < 2:
        return None
    order = [key for key in content.measured[0].basket.pattern.materials if key in letters]
    chips: tuple[Piece, ...] = tuple(piece for key in order for piece in (letters[key][0], " "))
    colours = Listed(tuple(letters[key][1] for key in order))
    return chips, content.voice.text(message("booklet.the-strands-with-the-same", colours=colours))


def _counts(content: BookletContent) -> Words:
    """The sentence that counts, once where all sizes share it, else once for each size."""
    said: dict[Message, list[str]] = {}
    for size in content.sizes:
        for row in size.quantities.counts:
            if row.name == "stakes":
                said.setdefault(row.said, []).append(size.name)
    several = len(said) > 1
    told = [message("booklet.count", sizes=_sizes(names) if several else None, said=one) for one, names in said.items()]
    return content.voice.say(message("booklet.counts", counts=Listed(tuple(told)))) if told else ""


def safety_panel(course: Course, voice: Voice) -> list[Block]:
    """Every caution about people that a step calls for, whole, once, in the order the work comes to them."""
    due: dict[str, Caution] = {}
    for stage in course.stages:
        for told in stage.steps:
            for caution in told.cautions:
                if caution.kind == "safety":
                    due.setdefault(caution.mark or plain(caution.words), caution)
    return [Panel(voice.text(message("booklet.safety")), tuple(due.values()))] if due else []


# ---------------------------------------------------------------------------------------------------------- last page
RECORD = (
    ("made-by",),
    ("date-and-place",),
    ("size", "weight"),
    ("base", "rim"),
    ("standing", "handle"),
    ("next-time",),
)


def record(content: BookletContent, course: Course) -> list[Block]:
    """Lines to write down this one basket, beside what there is to say of the edition."""
    voice = content.voice
    handled = any(size.quantities.finished.height_with_handle for size in content.sizes)
    keys = [("standing", "time") if row == ("standing", "handle") and not handled else row for row in RECORD]
    rows = tuple(tuple(voice.text(message(f"record.{key}")) for key in row) for row in keys)
    panel = Panel(voice.text(message("booklet.this-basket")), (Fields(rows),))
    edition = _imprint(content, course)
    cut = min(range(1, len(edition)), key=lambda cut: max(_letters_in(edition[:cut]), _letters_in(edition[cut:])))
    abreast = Abreast(((panel,), tuple(edition[:cut]), tuple(edition[cut:])))
    return [abreast, *photographs_at(content, "back")]


def _letters_in(blocks: Sequence[Block]) -> int:
    """About how much room blocks of words take under one another."""
    return sum(len(plain(block.words)) + 30 for block in blocks if isinstance(block, Heading | Paragraph))


def _imprint(content: BookletContent, course: Course) -> list[Block]:
    pattern = content.pattern
    voice = content.voice
    whose = message(
        "booklet.edition-of",
        line=Own(content.edition_line),
        designer=Own(pattern.designer) if pattern.designer else None,
        workshop=Own(pattern.workshop) if pattern.workshop and pattern.designer else None,
    )
    lines: list[Words] = [
        voice.text(whose),
        voice.text(message("booklet.local-rules-and-the-makers")),
    ]
    lines += [words for stage in course.stages for told in stage.steps for words in told.sources]
    if pattern.licence:
        lines.append(pattern.licence)
    blocks: list[Block] = [Heading(2, voice.text(message("booklet.this-edition")), anchor="imprint")]
    blocks += [Paragraph(line, role="small") for line in lines]
    blocks += contact_lines(content)
    if pattern.changes:
        blocks += [
            Heading(2, voice.text(message("booklet.changed-since-the-edition-before"))),
            Listing(pattern.changes),
        ]
    return blocks
