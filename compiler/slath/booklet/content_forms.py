"""Editions beside the booklet: bench cards, the test-weave form, the full-size sheets and the proof."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from msgspec.structs import replace

from slath.booklet.blocks import (
    Abreast,
    Block,
    CautionRow,
    Column,
    Document,
    Figure,
    Form,
    FormBox,
    Heading,
    NotesLines,
    PageBreak,
    Paragraph,
    Row,
    Second,
    Section,
    Strong,
    Table,
    TickBox,
    Words,
    pieces_of,
)
from slath.booklet.content import SHEETS_LEAD, document_of
from slath.booklet.content_record import BookletContent
from slath.booklet.content_steps import Course, NumberedStage, SizeContent, numbered
from slath.booklet.content_tables import cutting_table
from slath.booklet.proof_words import found_value, line_of, missed_by, missed_in_all, proof_input, proof_value
from slath.booklet.reading import NO_BREAK
from slath.fonts.letters import printable
from slath.language.pattern import Pattern
from slath.messages import Own, message
from slath.messages.told import said
from slath.notes import Note
from slath.quantities.proof import ProofRow, proof_rows
from slath.quantities.results import Quantities, TestRow
from slath.wording.speech import Voice, sentence_case
from slath.wording.stuff import title_said


# ------------------------------------------------------------------------------------------------------- bench cards
def bench_cards_document(content: BookletContent) -> Document:
    """One card a stage: its cautions, one figure, each step with a box to tick, what is counted and checked, and a row of
    boxes for the rounds of each band. The steps themselves are in the booklet; what is withheld is on no card.
    """
    withheld = content.pattern.withheld
    course = content.course(withheld)
    blocks: list[Block] = []
    shown = set[str]()
    for stage in numbered(course):
        if blocks:
            blocks.append(PageBreak())
        blocks += _card(content, course, stage, shown)
    return document_of(content, blocks, content.voice.text(message("forms.bench-cards")))


def _card(content: BookletContent, course: Course, stage: NumberedStage, shown: set[str]) -> list[Block]:
    due = {caution.mark: caution for each in stage.steps for caution in each.told.cautions if caution.short}
    steps: list[Block] = []
    for each in stage.steps:
        steps.append(Paragraph((TickBox(), Strong((each.number, "  ", *pieces_of(each.told.title))))))
        steps += [*each.told.stops, *each.told.counts]
    opening: list[Block] = [Heading(1, stage.title, number=stage.number), CautionRow(tuple(due.values()))]
    if stage.stage.key == "prepare" and "cut list" not in content.pattern.withheld:
        half = -(-len(steps) // 2)
        return [
            *opening,
            cutting_table(content.measured, content.voice),
            Abreast((tuple(steps[:half]), tuple(steps[half:]))),
        ]
    figure = _figure_of(course, stage, shown)
    if figure and figure.measures:
        steps.append(figure.measures)
    half = -(-len(steps) // 2)
    columns = ((figure,), tuple(steps)) if figure else (tuple(steps[:half]), tuple(steps[half:]))
    ticks = tuple(
        replace(row, label=each.told.title) for each in stage.steps for row in course.ticks(each.told, each.stage)
    )
    return [*opening, Abreast(columns), *ticks]


def _figure_of(course: Course, stage: NumberedStage, shown: set[str]) -> Figure | None:
    """The figure of a stage that shows most of it: the last that stands beside text, else what takes a whole page width;
    the others stand in for one that cannot be read on a card, if there are no letters to explain.
    """
    figures = [
        figure for each in stage.steps for figure in course.figures_for(each.told, each.stage, shown, first=each.first)
    ]
    ways = ("", "whole", "strip")
    best = [figure for way in ways for figure in reversed(figures) if figure.room == way]
    if not best or best[0].measures:
        return best[0] if best else None
    return dataclasses.replace(best[0], instead=tuple(figure for figure in best[1:] if not figure.measures))


# ---------------------------------------------------------------------------------------------------- test weave
BOX_WIDTH = 20.0  # mm

# What the form asks for, in the words of its headings, by where it is written in the file.
_GROUPS = {
    "": message("forms.measures"),
    "rounds": message("forms.rounds"),
    "band_heights": message("forms.band-heights"),
    "used": message("forms.used"),
    "left_over": message("forms.left-over"),
}


def test_weave_document(content: BookletContent) -> Document:
    """A page a size: predicted values beside empty boxes in words, with the key each is written by; or how they compared."""
    blocks: list[Block] = []
    for size in content.sizes:
        blocks += [
            PageBreak(),
            Heading(1, content.voice.text(message("forms.test-weave", size=Own(size.name)))),
            Paragraph(content.voice.text(message("forms.test-weave-lead")), role="small"),
            *_compared(size, content.voice),
            *_test_forms(size, content.voice),
            NotesLines(content.voice.text(message("forms.should-say"))),
        ]
    return document_of(content, blocks, content.voice.text(message("forms.test-weave-form")))


def _compared(size: SizeContent, voice: Voice) -> list[Block]:
    """Predicted and found of what was measured, and how well that was foretold; nothing where nobody has woven it."""
    rows = [row for row in size.quantities.test if row.found is not None]
    if not rows:
        return []
    columns = (
        Column(voice.text(message("forms.measured")), row_header=True, weight=2.0),
        Column(voice.text(message("forms.predicted"))),
        Column(voice.text(message("forms.found"))),
        Column(voice.text(message("forms.missed-by")), align="right"),
    )  # fmt: skip
    table = Table(
        voice.text(message("forms.predicted-and-found")),
        columns,
        tuple(
            Row(
                (
                    voice.text(row.what),
                    _in_words(row.predicted.value, row, voice),
                    _in_words(row.found or 0.0, row, voice),
                    missed_by(row, voice),
                )
            )
            for row in rows
        ),
    )
    return [table, Paragraph(missed_in_all(size.quantities, voice))]


def _test_forms(size: SizeContent, voice: Voice) -> list[Block]:
    """A box for everything not yet measured: measures in one column, what is counted and weighed out in the other."""
    grouped: dict[str, list[FormBox]] = {name: [] for name in _GROUPS}
    if size.basket.pattern.woven is None:
        grouped[""] += [
            FormBox(_asked(voice.text(message("forms.the-day")), "on")),
            FormBox(_asked(voice.text(message("forms.who")), "by")),
        ]
    for row in size.quantities.test:
        if row.found is not None:
            continue
        group, key = row.key[0] if len(row.key) > 1 else "", row.key[-1]
        name = _asked(sentence_case(_title_of(row, group, size, voice)), key)
        grouped[group].append(FormBox(name, _in_words(row.predicted.value, row, voice), width=BOX_WIDTH))
        if group == "used":
            grouped["left_over"].append(FormBox(name, width=BOX_WIDTH))
    if size.basket.pattern.woven is None:
        grouped[""].append(FormBox(_asked(voice.text(message("forms.how-long")), "time"), width=BOX_WIDTH))
    heads = ("", voice.text(message("forms.predicted")), voice.text(message("forms.found")))
    forms = {
        group: (Heading(2, voice.text(_GROUPS[group])), Form(tuple(boxes), heads))
        for group, boxes in grouped.items()
        if boxes
    }
    first = [block for group in ("", "rounds", "band_heights") for block in forms.get(group, ())]
    second = [block for group in ("used", "left_over") for block in forms.get(group, ())]
    return [Abreast((tuple(first), tuple(second)))]


def _asked(said: str, key: str) -> Words:
    """What belongs in a box, and the word the file has for it."""
    return (Strong(said), f" {NO_BREAK}", Second(key))


def _title_of(row: TestRow, group: str, size: SizeContent, voice: Voice) -> str:
    """What is asked for in words: a material by its title, a band by its name."""
    if group == "used":
        return voice.text(
            message("listing.own", name=title_said(size.basket.pattern.materials[row.key[-1]], whole=False))
        )
    return row.key[-1] if group else voice.text(row.what)


def _in_words(value: float, row: TestRow, voice: Voice) -> str:
    """A value of the form in the booklet's units: a count, a mass, a long length of material or a measure."""
    unit = row.predicted.unit
    if unit == "count":
        count = round(value)
        return voice.text(message("forms.rods", rods=count)) if row.key[0] == "used" else str(count)
    if unit == "g":
        return voice.mass(value)
    return voice.long(value) if row.key[0] == "used" else voice.length(value)


# ------------------------------------------------------------------------------------------------------------ sheets
def sheets_document(content: BookletContent) -> Document | None:
    """The full-size sheets alone, never scaled; None if this pattern has none."""
    blocks: list[Block] = []
    for size in content.sizes:
        for scene in size.sheets.values():
            caption = f"{size.name}: {scene.caption or scene.title}" if len(content.sizes) > 1 else scene.caption
            blocks += [PageBreak(), Figure(scene, caption=caption)] if blocks else [Figure(scene, caption=caption)]
    if not blocks:
        return None
    lead: list[Block] = [
        Heading(1, content.voice.text(message("forms.full-size", title=Own(content.pattern.title)))),
        Paragraph(content.voice.text(SHEETS_LEAD)),
    ]
    return document_of(content, [*lead, *blocks], content.voice.text(message("forms.full-size-sheets")))


# ------------------------------------------------------------------------------------------------------------- proof
def proof_document(content: BookletContent, notes: Sequence[Note]) -> Document:
    """Every number with its formula, inputs, place in the file and what it rests on; then the warnings accepted."""
    pattern = content.pattern
    blocks: list[Block] = [
        Heading(1, content.voice.text(message("forms.proof-of", title=Own(pattern.title)))),
        Paragraph(content.voice.text(message("forms.proof-lead"))),
    ]
    for size in content.sizes:
        blocks.append(Heading(2, size.name))
        rows = proof_rows(size.quantities)
        blocks += [
            _proof_table(section, [row for row in rows if row.section == section], pattern, content.voice)
            for section in dict.fromkeys(row.section for row in rows)
        ]
        blocks += _missed(size.quantities, content.voice)
    if any(row.found is not None for size in content.sizes for row in size.quantities.test):
        blocks.append(Heading(2, content.voice.text(message("forms.errors-by-size"))))
        blocks += [Paragraph(missed_in_all(size.quantities, content.voice)) for size in content.sizes]
    accepted = [note for note in notes if note.accepted]
    if accepted:
        blocks.append(Heading(2, content.voice.text(message("forms.warnings-accepted"))))
        blocks += [
            Paragraph(
                content.voice.text(
                    message(
                        "forms.accepted-because",
                        place=Own(printable(note.place.in_print)),
                        code=Own(note.code),
                        sentence=Own(said(note.sentence, content.voice.language)),
                        reason=Own(note.accepted),
                    )
                )
            )
            for note in accepted
        ]
    return document_of(content, [Section("proof", tuple(blocks))], content.voice.text(message("forms.proof")))


def _proof_table(section: str, rows: Sequence[ProofRow], pattern: Pattern, voice: Voice) -> Table:
    columns = (
        Column(voice.text(message("forms.number")), row_header=True, weight=1.4),
        Column(voice.text(message("forms.value")), align="right"),
        Column(voice.text(message("forms.how")), weight=2.4),
        Column(voice.text(message("forms.rests-on")), weight=1.4),
    )
    return Table(
        section[:1].upper() + section[1:],
        columns,
        tuple(
            Row((row.name, proof_value(row.value, row.unit), _how(row, pattern, voice), _rests_on(row, pattern, voice)))
            for row in rows
        ),
    )


def _missed(found: Quantities, voice: Voice) -> list[Block]:
    """What the test weave of one size found against what was predicted of it."""
    rows = [row for row in found.test if row.found is not None]
    if not rows:
        return []
    columns = (
        Column(voice.text(message("forms.number")), row_header=True, weight=2.0),
        Column(voice.text(message("forms.predicted")), align="right"),
        Column(voice.text(message("forms.found")), align="right"),
        Column(voice.text(message("forms.missed-by")), align="right"),
    )  # fmt: skip
    cells = tuple(
        Row(
            (
                voice.text(row.what),
                proof_value(row.predicted.value, row.predicted.unit),
                found_value(row),
                missed_by(row, voice),
            )
        )
        for row in rows
    )
    return [Table(voice.text(message("forms.test-weave-compared")), columns, cells)]


def _how(row: ProofRow, pattern: Pattern, voice: Voice) -> str:
    if not row.formula:
        return voice.text(message("forms.as-given" if row.path in pattern.places else "forms.taken-as-it-is"))
    inputs = "; ".join(proof_input(item) for item in row.inputs)
    return f"{row.formula}: {inputs}" if inputs else row.formula


def _rests_on(row: ProofRow, pattern: Pattern, voice: Voice) -> str:
    parts = [row.basis.words]
    if row.source:
        parts.append(row.source)
    line = line_of(pattern, row.path)
    if line:
        parts.append(voice.text(message("forms.line", line=line)))
    return ", ".join(parts)
