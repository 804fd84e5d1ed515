"""The proof as text: every number with its formula, its inputs, its place in the file and what it rests on."""

from __future__ import annotations

from collections.abc import Sequence

from slath.booklet.proof_words import found_value, line_of, missed_by, missed_in_all, proof_input, proof_value
from slath.language.pattern import Pattern
from slath.messages import Own, Voice, message
from slath.messages.told import said
from slath.notes import Note
from slath.quantities.proof import ProofRow, proof_rows
from slath.quantities.results import Quantities


def proof_text(pattern: Pattern, found: Sequence[Quantities], notes: Sequence[Note], voice: Voice) -> str:
    """The proof of the given sizes, then the warnings the designer accepted, with the reasons."""
    edition = voice.text(message("forms.edition", edition=Own(pattern.edition))) if pattern.edition else ""
    lines = [f"{voice.text(message('forms.proof-of', title=Own(pattern.title)))}{edition}"]
    for quantities in found:
        lines += ["", quantities.size.upper()]
        section = ""
        for row in proof_rows(quantities):
            if row.section != section:
                section = row.section
                lines += ["", section[:1].upper() + section[1:]]
            lines += _row(row, pattern)
        lines += _test_weave(quantities, voice)
    if any(row.found is not None for quantities in found for row in quantities.test):
        lines += ["", voice.text(message("forms.errors-by-size")), ""]
        lines += [f"  {missed_in_all(quantities, voice)}" for quantities in found]
    accepted = [note for note in notes if note.accepted]
    if accepted:
        lines += ["", voice.text(message("forms.warnings-accepted")), ""]
        for note in accepted:
            where = f" ({said(note.size, voice.language)})" if note.size else ""
            lines += [
                f"  {note.place.in_print} {note.code}{where}",
                f"    {said(note.sentence, voice.language)}",
                f"    {voice.text(message('forms.accepted', reason=Own(note.accepted)))}",
            ]
    return "\n".join(lines) + "\n"


def _row(row: ProofRow, pattern: Pattern) -> list[str]:
    place = pattern.place(row.path).in_print if line_of(pattern, row.path) else ""
    rests = ", ".join(part for part in (row.basis.words, row.source, place) if part)
    lines = [f"  {row.name} = {proof_value(row.value, row.unit)}    [{rests}]"]
    if row.formula:
        lines.append(f"    = {row.formula}")
    lines += [f"      {proof_input(item)}" for item in row.inputs]
    return lines


def _test_weave(quantities: Quantities, voice: Voice) -> list[str]:
    """What was predicted of the size before it was woven, what was found, and by how much that missed."""
    compared = [row for row in quantities.test if row.found is not None]
    if not compared:
        return []
    lines = ["", voice.text(message("forms.test-weave-compared"))]
    for row in compared:
        told = message(
            "forms.compared",
            what=row.what,
            predicted=Own(proof_value(row.predicted.value, row.predicted.unit)),
            found=Own(found_value(row)),
            missed=Own(missed) if (missed := missed_by(row, voice)) else None,
        )
        lines.append(f"  {voice.text(told)}")
    return lines
