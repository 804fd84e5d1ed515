"""Notes as plain records for JSON: stable keys, the same for `slath check` and `slath list`."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from slath.notes.note import Note, Place
from slath.notes.text import Tongue


def note_record(note: Note, tongue: Tongue = str) -> dict[str, Any]:
    """One note under the keys of the published format, its sentences as `tongue` says them; `line` and `column` count from 1, 0 is the whole file."""
    return {
        "code": note.code,
        "severity": note.severity.value,
        "size": tongue(note.size),
        "part": tongue(note.part),
        "file": note.place.file,
        "line": note.place.line,
        "column": note.place.column,
        "message": tongue(note.sentence),
        "remedies": [tongue(remedy) for remedy in note.remedies],
        "accepted": note.accepted,
        "related": [{**_place_record(place), "message": tongue(words)} for place, words in note.related],
    }


def notes_as_json(notes: Iterable[Note], tongue: Tongue = str) -> str:
    """Every note as a JSON list, ending in a line break."""
    return json.dumps([note_record(note, tongue) for note in notes], ensure_ascii=False, indent=2) + "\n"


def _place_record(place: Place) -> dict[str, Any]:
    return {"file": place.file, "line": place.line, "column": place.column}
