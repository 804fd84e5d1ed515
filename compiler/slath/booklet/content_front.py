"""What stands round the steps of a booklet: cover, what to read first, the panel of cautions, the record, the imprint."""

from __future__ import annotations

from typing import TYPE_CHECKING

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
    NotesLines,
    Notice,
    PageBreak,
    Panel,
    Paragraph,
    SizeRing,
    Strong,
    Words,
    pieces_of,
)
from slath.booklet.content_tables import sizes_table
from slath.messages import Listed, message
from slath.units.counting import listed
from slath.wording.choices import variant_named
from slath.wording.speech import Voice, bracketed, plain, sentence_case, verbatim

if TYPE_CHECKING:
    from slath.booklet.content_record import BookletContent
    from slath.booklet.content_steps import Course, SizeContent
    from slath.language.pattern import Pattern


SKILLS = ("beginner", "improver", "experienced", "advanced")  # the least skill first
HOW_SURE = "Every number was worked out from the construction; what rests on an estimate is named on the last page."


def cover(content: BookletContent) -> list[Block]:
    """The first page: the basket, for whom it is and how long it takes, its sizes, the tools it wants."""
    pattern, middle = content.pattern, content.sizes[(len(content.sizes) - 1) // 2]
    view = middle.figures.get("view")
    shown = f"{sentence_case(middle.name)}, drawn" if len(content.sizes) > 1 else "Drawn"
    figure = Figure(view, caption=f"{shown} from its own strands", width="page") if view else None
    names = ", ".join(size.name for size in content.sizes)
    about = [
        _variant(content),
        _for(content),
        _time(content),
        f"Worked {_direction(content.voice)}. {_vocabulary(content.voice)}",
    ]
    status = status_of(content)
    notices = [tools_line(content)] if content.tools else []
    notices.append((Strong(status), " ", HOW_SURE))
    return [
        Cover(
            title=pattern.title,
            subtitle=pattern.subtitle or (f"in {names}" if len(content.sizes) > 1 else names),
            figure=figure,
            designer=pattern.designer or pattern.workshop,
            edition=" · ".join(_edition_words(pattern)),
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
    return [Heading(1, content.pattern.title), Notice(status_of(content)), *view_of(middle)]


def view_of(size: SizeContent) -> list[Block]:
    """The finished basket, drawn."""
    view = size.figures.get("view")
    return [Figure(view, caption=f"The finished basket, {size.name}.")] if view else []


def _edition_words(pattern: Pattern) -> list[str]:
    """The edition and its day, so far as the pattern names them."""
    named = [f"Edition {pattern.edition}"] if pattern.edition else []
    return [*named, pattern.dated.isoformat()] if pattern.dated else named


def status_of(content: BookletContent) -> str:
    """Which sizes have been woven from these numbers, and which are only calculated."""
    by_status: dict[str, list[str]] = {}
    for size in content.sizes:
        by_status.setdefault(size.quantities.tested, []).append(size.name)
    if len(by_status) == 1:
        return sentence_case(next(iter(by_status))) + "."
    return " ".join(f"{sentence_case(listed(names))}: {status}." for status, names in by_status.items())


def tools_line(content: BookletContent) -> Words:
    """All tools in one sentence."""
    names = [plain(name) for name, _ in content.tools]
    first, *others = names
    return (Strong("Tools. "), f"{listed([first, *(name[:1].lower() + name[1:] for name in others)])}.")


def _for(content: BookletContent) -> Words:
    word = sentence_case(content.pattern.skill)
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


def _direction(voice: Voice) -> str:
    return f"{'right to left' if voice.mirrored else 'left to right'}, seen from outside"


def _vocabulary(voice: Voice) -> str:
    return {"UK": "Words of the trade: British.", "US": "Words of the trade: American, as in the handbooks."}[
        voice.vocabulary.name
    ]


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
        left.append(Paragraph((Strong("The count: "), *pieces_of(counts))))
    left += [Heading(2, "The marks", anchor="marks"), _marks(content)]
    blocks: list[Block] = [PageBreak(), Heading(1, "Read this first", anchor="glance")]
    panel = safety_panel(course) if safety else []
    return [*blocks, Abreast((tuple(left), tuple(panel)))] if panel else [*blocks, *left]


def _your_size(content: BookletContent) -> list[Block]:
    names = [size.name for size in content.sizes]
    if len(names) < 2:
        return []
    rings = tuple(piece for name in names for piece in (SizeRing(), Strong(name), "     "))
    told = (
        "Fill in the ring of yours, here and over its column in every table. Several numbers in a sentence stand in the "
        f"order {listed(names)}; a number that stands alone is for every size, and a sentence that opens with the name of "
        "a size for that size."
    )
    return [Heading(2, "Your size", anchor="your-size"), Paragraph(rings), Paragraph(told)]


def _marks(content: BookletContent) -> Definitions:
    entries: list[tuple[Words, str]] = [
        (MeasureLetter("A"), "A measure of a drawing. Find its letter in the table beside it."),
        (Strong("Take care"), "What cannot be mended later."),
        (Strong("Stop and count"), "Count, tick the box, and go on only when it is right."),
        (Strong("2.3"), "Stage 2, step 3. The marks at the edge of the page show the stage."),
    ]
    chips = _letters(content)
    if chips:
        entries.append(chips)
    way = "right to left" if content.voice.mirrored else "left to right"
    entries.append(("Other hand", f"All runs {way}. To work the other way, hold the drawings to a mirror."))
    return Definitions(tuple(Definition(name, meaning) for name, meaning in entries), kind="facts")


def _letters(content: BookletContent) -> tuple[Words, str] | None:
    """The strands that bear letters, and which is which."""
    letters: dict[str, tuple[Chip, str]] = {}
    for size in content.measured:
        for key in size.lettered:
            material = size.basket.pattern.materials[key]
            letters[key] = (Chip(material.colour, material.letter), material.dye or "natural")
    if len(letters) < 2:
        return None
    order = [key for key in content.measured[0].basket.pattern.materials if key in letters]
    chips: tuple[Words, ...] = tuple(piece for key in order for piece in (letters[key][0], " "))
    return chips, f"The strands: {listed([letters[key][1] for key in order])}, with the same letters in every drawing."  # type: ignore[return-value]


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


def safety_panel(course: Course) -> list[Block]:
    """Every caution about people that a step calls for, whole, once, in the order the work comes to them."""
    due: dict[str, Caution] = {}
    for stage in course.stages:
        for told in stage.steps:
            for caution in told.cautions:
                if caution.kind == "safety":
                    due.setdefault(caution.mark or plain(caution.words), caution)
    return [Panel("Safety", tuple(due.values()))] if due else []


# ---------------------------------------------------------------------------------------------------------- last page
RECORD = (
    ("Made by",),
    ("Date and place",),
    ("Size", "Weight"),
    ("Base", "Rim"),
    ("Standing", "With handle"),
    ("Next time",),
)


def record(content: BookletContent, course: Course) -> list[Block]:
    """Lines to write down this one basket, beside what there is to say of the edition; the rest of the page for notes."""
    handled = any(size.quantities.finished.height_with_handle for size in content.sizes)
    rows = (
        RECORD
        if handled
        else tuple(("Standing", "Time") if row == ("Standing", "With handle") else row for row in RECORD)
    )
    panel = Panel("This basket", (Fields(rows),))
    edition = _imprint(content, course)
    half = -(-len(edition) // 2)
    return [Abreast(((panel,), tuple(edition[:half]), tuple(edition[half:]))), NotesLines(lines=0)]


def _imprint(content: BookletContent, course: Course) -> list[Block]:
    pattern = content.pattern
    whose = f" by {pattern.designer}" if pattern.designer else ""
    of = f" of {pattern.workshop}" if pattern.workshop and pattern.designer else ""
    lines: list[Words] = [
        f"{content.edition_line}{whose}{of}. {status_of(content)} {HOW_SURE}",
        "Local rules, and the makers' own sheets for dyes and finishes, come before anything said here.",
    ]
    lines += [words for stage in course.stages for told in stage.steps for words in told.sources]
    if pattern.licence:
        lines.append(pattern.licence)
    blocks: list[Block] = [Heading(2, "This edition", anchor="imprint")]
    blocks += [Paragraph(line, role="small") for line in lines]
    if pattern.changes:
        blocks += [Heading(2, "Changed since the edition before"), Listing(pattern.changes)]
    return blocks
