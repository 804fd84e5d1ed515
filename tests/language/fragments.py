"""Pieces of patterns made whole: a test writes only the keys it is about."""

from __future__ import annotations

import re
from pathlib import Path

from slath.language import read_pattern
from slath.language.pattern import Pattern, SizedPattern
from slath.notes import Note, PatternFaultError, Severity

_REST = {
    "slath": "slath: 1",
    "title": "title: Trial piece",
    "materials": """materials:
  sticks: {stock: us round reed 8}
  stakes: {stock: us round reed 5}
  plain: {stock: us round reed 4}
  rust: {stock: us round reed 4, dye: rust, colour: "#c0713f"}
  slate: {stock: us round reed 4, dye: slate, colour: "#2c4452"}
  bow: {stock: us round reed 12}
  board: {stock: plywood 6 mm}""",
    "base": "base: {kind: round slath, diameter: 6 in, pierced: 4, threaded: 4, material: sticks}",
    "stakes": "stakes: {material: stakes, per_end: 2}",
}


def whole(fragment: str) -> str:
    """`fragment` with the keys it leaves out added below it, so that its own lines keep their numbers; no stakes where the
    sticks of its base turn up.
    """
    given = set(re.findall(r"^(\w+):", fragment, re.MULTILINE))
    base = re.search(r"^base:.*(?:\n .*)*", fragment, re.MULTILINE)
    if base is not None and "become_stakes: yes" in base[0]:
        given.add("stakes")
    return "\n".join([fragment.rstrip("\n"), *(text for key, text in _REST.items() if key not in given), ""])


def read(fragment: str, folder: Path) -> Pattern:
    """The pattern a fragment makes; PatternFaultError as for any file."""
    file = folder / "trial.yaml"
    file.write_text(whole(fragment), "utf-8")
    return read_pattern(file)


def read_one(fragment: str, folder: Path) -> SizedPattern:
    """The first size of the pattern a fragment makes."""
    return read(fragment, folder).sizes[0]


def notes_of(fragment: str, folder: Path) -> tuple[Note, ...]:
    """The notes a fragment calls for, advice left out."""
    file = folder / "trial.yaml"
    file.write_text(whole(fragment), "utf-8")
    return notes_of_file(file)


def notes_of_file(file: Path) -> tuple[Note, ...]:
    """The notes a file calls for, advice left out, whether or not a pattern could be made of it."""
    try:
        notes = read_pattern(file).notes
    except PatternFaultError as fault:
        notes = fault.notes
    return tuple(note for note in notes if note.severity is not Severity.ADVICE)


def codes_of(fragment: str, folder: Path) -> list[tuple[int, str]]:
    """Line and code of every note a fragment calls for, advice left out."""
    return [(note.place.line, note.code) for note in notes_of(fragment, folder)]
