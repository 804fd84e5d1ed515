"""Notes as plain records for JSON: stable keys, the same for `slath check` and `slath list`."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from slath.notes.note import Note, Place


def note_record(note: Note) -> dict[str, Any]:
    """One note under the keys of the published format; `line` and `column` count from 1, 0 is the whole file."""
    return {
        "code": note.code,
        "severity": note.severity.value,
        "size": note.size,
        "part": note.part,
        "file": note.place.file,
        "line": note.place.line,
        "column": note.place.column,
        "message": note.sentence,
        "remedies": list(note.remedies),
        "accepted": note.accepted,
        "related": [{**_place_record(place), "message": words} for place, words in note.related],
    }


def notes_as_json(notes: Iterable[Note]) -> str:
    """Every note as a JSON list, ending in a line break."""
    return json.dumps([note_record(note) for note in notes], ensure_ascii=False, indent=2) + "\n"


def _place_record(place: Place) -> dict[str, Any]:
    return {"file": place.file, "line": place.line, "column": place.column}
