"""Editions beside the booklet: bench cards, the test-weave form, the full-size sheets and the proof."""

from __future__ import annotations

from collections.abc import Sequence

from slath.booklet.blocks import (
    Block,
    Column,
    Document,
    Figure,
    Form,
    FormBox,
    Heading,
    KeepTogether,
    Notice,
    NotesLines,
    PageBreak,
    Paragraph,
    Row,
    Section,
    Table,
    TickRow,
)
from slath.booklet.content import SHEETS_LEAD, BookletContent, SizeContent, document_of, figures_for, step_block
from slath.booklet.proof_words import line_of, proof_input, proof_value
from slath.language.pattern import Pattern
from slath.notes import Note
from slath.quantities.proof import ProofRow, proof_rows
from slath.wording.speech import Voice


# ------------------------------------------------------------------------------------------------------- bench cards
def bench_cards_document(content: BookletContent) -> Document:
    """One card a stage: its steps with boxes to tick, a row of boxes for the rounds of each band, its figures."""
    blocks: list[Block] = []
    for size in content.sizes:
        number = 0
        for stage in size.stages:
            card: list[Block] = [Heading(1, stage.title)]
            if len(content.sizes) > 1:
                card.append(Notice(f"{content.pattern.title}, {size.name}"))
            shown: set[str] = set()
            for place, told in enumerate(stage.steps):
                number += 1
                names = figures_for(told, stage, size, shown, first=place == 0)
                shown.update(names)
                step = step_block(number, told, tuple(Figure(size.figures[name]) for name in names), tick=True)
                card.append(step)
                if told.rounds > 1:
                    card.append(TickRow("Rounds", told.rounds))
            blocks += [PageBreak(), *card] if blocks else card
    return document_of(content, blocks, "bench cards")


# ---------------------------------------------------------------------------------------------------- test weave
def test_weave_document(content: BookletContent) -> Document:
    """Predicted values beside empty boxes; what is filled in goes back into the pattern under `woven:`."""
    voice = content.voice
    blocks: list[Block] = [
        Heading(1, "Test weave"),
        Paragraph(
            "Weave this basket once from these numbers. Measure as you go, write what you find beside what was "
            "predicted, and copy it into the pattern under woven: for this size."
        ),
    ]
    for size in content.sizes:
        blocks += [Heading(2, f"{content.pattern.title}, {size.name}"), *_test_forms(size, voice)]
        blocks += [NotesLines("What the pattern should say differently", 6), PageBreak()]
    return document_of(content, blocks[:-1], "test-weave form")


def _test_forms(size: SizeContent, voice: Voice) -> list[Block]:
    found = size.quantities
    finished = found.finished
    boxes = [
        FormBox("Woven by"),
        FormBox("Day"),
        FormBox(voice.say("[Stakes] counted before the side"), f"{found.stakes.value:.0f}"),
    ]
    for band in found.bands:
        name = band.name[:1].upper() + band.name[1:]
        boxes.append(FormBox(f"{name}: rounds", f"{band.rounds.value:.0f}"))
        if band.part == "side":
            boxes.append(FormBox(f"{name}: height up the side", voice.length(band.along.value)))
    boxes.append(FormBox("Height standing, to the top of the weaving", voice.length(finished.height.value)))
    boxes.append(FormBox("Rim, longest way", voice.length(finished.rim_length.value)))
    boxes.append(FormBox("Rim, shortest way", voice.length(finished.rim_width.value)))
    if finished.mass_g:
        boxes.append(FormBox("Weight, dry", voice.mass(finished.mass_g.value)))
    boxes.append(FormBox(voice.say("Cut off each [stake] at the end")))
    boxes.append(FormBox("Time taken"))
    used = [
        FormBox(size.basket.pattern.materials[item.material].title + ": used", voice.long(item.length_mm.value))
        for item in found.purchase
    ]
    return [Form(tuple(boxes)), KeepTogether((Heading(3, "Material"), Form(tuple(used))))]


# ------------------------------------------------------------------------------------------------------------ sheets
def sheets_document(content: BookletContent) -> Document | None:
    """The full-size sheets alone, never scaled; None if this pattern has none."""
    blocks: list[Block] = []
    for size in content.sizes:
        for scene in size.sheets:
            caption = f"{size.name}: {scene.caption or scene.title}" if len(content.sizes) > 1 else scene.caption
            blocks += [PageBreak(), Figure(scene, caption=caption)] if blocks else [Figure(scene, caption=caption)]
    if not blocks:
        return None
    lead: list[Block] = [Heading(1, f"{content.pattern.title}: full-size sheets"), Paragraph(SHEETS_LEAD)]
    return document_of(content, [*lead, *blocks], "full-size sheets")


# ------------------------------------------------------------------------------------------------------------- proof
def proof_document(content: BookletContent, notes: Sequence[Note]) -> Document:
    """Every number with its formula, inputs, place in the file and what it rests on; then the warnings accepted."""
    pattern = content.pattern
    blocks: list[Block] = [
        Heading(1, f"Proof of {pattern.title}"),
        Paragraph("For the designer: how every printed number was reached, from which line of the file, and what it rests on."),
    ]
    for size in content.sizes:
        blocks.append(Heading(2, size.name))
        rows = proof_rows(size.quantities)
        for section in dict.fromkeys(row.section for row in rows):
            blocks.append(_proof_table(section, [row for row in rows if row.section == section], pattern))
    accepted = [note for note in notes if note.accepted]
    if accepted:
        blocks.append(Heading(2, "Warnings accepted"))
        blocks += [Paragraph(f"{note.place}: {note.code}: {note.sentence} Accepted because: {note.accepted}") for note in accepted]
    return document_of(content, [Section("proof", tuple(blocks))], "proof")


def _proof_table(section: str, rows: Sequence[ProofRow], pattern: Pattern) -> Table:
    columns = (
        Column("Number", row_header=True, weight=1.4),
        Column("Value", align="right"),
        Column("How", weight=2.4),
        Column("Rests on", weight=1.4),
    )
    return Table(
        section[:1].upper() + section[1:],
        columns,
        tuple(
            Row((row.name, proof_value(row.value, row.unit), _how(row, pattern), _rests_on(row, pattern))) for row in rows
        ),
    )


def _how(row: ProofRow, pattern: Pattern) -> str:
    if not row.formula:
        return "as given" if row.path in pattern.places else "taken as it is"
    inputs = "; ".join(proof_input(item) for item in row.inputs)
    return f"{row.formula}: {inputs}" if inputs else row.formula


def _rests_on(row: ProofRow, pattern: Pattern) -> str:
    parts = [row.basis.words]
    if row.source:
        parts.append(row.source)
    line = line_of(pattern, row.path)
    if line:
        parts.append(f"line {line}")
    return ", ".join(parts)
