"""Warnings the designer overrules in the file, each with a written reason."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from slath.language.pattern import Acceptance, Pattern
from slath.messages.told import told, word
from slath.notes import Note, Severity

OF_AN_ERROR = "acceptance-of-error"
NOT_NEEDED = "acceptance-not-needed"


def accepted(pattern: Pattern, note: Note) -> Note:
    """`note`, with the designer's reason if it is a warning or advice the pattern accepts. Errors stay as they are."""
    if note.severity is Severity.ERROR or note.accepted:
        return note
    reason = next((entry.reason for entry in pattern.accept if covers(entry, note)), "")
    return replace(note, accepted=reason) if reason else note


def covers(entry: Acceptance, note: Note) -> bool:
    """Whether an acceptance speaks of this note: its code, and its size and part where they are named."""
    sizes = {"", note.size.casefold()}
    parts = {"", note.part.casefold(), *(word.strip() for word in note.part.casefold().split(","))}
    return entry.code == note.code and entry.size.casefold() in sizes and entry.part.casefold() in parts


def idle(pattern: Pattern, notes: Sequence[Note]) -> tuple[Note, ...]:
    """A note for every acceptance that overrules nothing, and why."""
    return tuple(
        _note(pattern, entry, *_why(entry, notes))
        for entry in pattern.accept
        if not any(covers(entry, note) and note.severity is not Severity.ERROR for note in notes)
    )


def _why(entry: Acceptance, notes: Sequence[Note]) -> tuple[str, str, tuple[str, ...]]:
    """Code, sentence and remedies for one idle acceptance."""
    if any(covers(entry, note) for note in notes):
        sentence = told("“{code}” is an error and cannot be accepted: the basket could not be woven.", code=entry.code)
        return OF_AN_ERROR, sentence, (told("put right what it says, then take this entry out"),)
    where = "".join(f", {word}" for word in (entry.size, entry.part) if word)
    return (
        NOT_NEEDED,
        told("Nothing here calls for accepting “{code}”{where}.", code=entry.code, where=where),
        (told("take the entry out"),),
    )


def _note(pattern: Pattern, entry: Acceptance, code: str, sentence: str, remedies: tuple[str, ...]) -> Note:
    severity = Severity.ADVICE if code == NOT_NEEDED else Severity.WARNING
    return Note(
        code, severity, pattern.key_place((*entry.path, "code")), sentence, part=word("accept"), remedies=remedies
    )
