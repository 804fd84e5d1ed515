"""The corpus: bad files each carry their expected notes as remarks on their lines; good ones come close and call for none."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from slath.language import read_pattern
from slath.notes import PatternFaultError, Severity
from slath.notes.catalogue import CATALOGUE

CORPUS = Path(__file__).parents[1] / "corpus"
BAD = sorted((CORPUS / "bad" / "language").glob("*.yaml"))
GOOD = sorted((CORPUS / "good" / "language").glob("*.yaml"))
# Codes that no file in the corpus can carry: made in tests/language/test_hostile_files.py, or by the file's absence.
ELSEWHERE = {"empty-file", "file-too-large", "wrong-encoding"}


def _expected(file: Path) -> list[tuple[int, str]]:
    lines = file.read_bytes().decode("utf-8", errors="replace").split("\n")
    return sorted(
        (number, code.strip())
        for number, line in enumerate(lines, 1)
        if (remark := re.search(r"# expect: (.*)", line))
        for code in remark.group(1).split(",")
    )


def _found(file: Path) -> list[tuple[int, str]]:
    try:
        notes = read_pattern(file).notes
    except PatternFaultError as fault:
        notes = fault.notes
    told = {(note.place.line, note.code, note.sentence) for note in notes if note.severity is not Severity.ADVICE}
    return sorted((line, code) for line, code, _ in told)


def test_corpus_is_there() -> None:
    """The corpus holds files, so that the tests over it look at something."""
    assert len(BAD) > 20
    assert len(GOOD) > 2


@pytest.mark.parametrize("file", BAD, ids=lambda file: file.stem)
def test_bad_file_has_its_notes(file: Path) -> None:
    """A bad file calls for exactly the notes written on its lines."""
    expected = _expected(file)
    assert expected
    assert _found(file) == expected


@pytest.mark.parametrize("file", GOOD, ids=lambda file: file.stem)
def test_good_file_has_none(file: Path) -> None:
    """A good file that comes close to a fault calls for no note."""
    assert _found(file) == []


def test_every_language_code_is_in_the_corpus() -> None:
    """Every code that reading a pattern can give is shown by a bad file."""
    shown = {code for file in BAD for _, code in _expected(file)}
    rooms = Path(__file__).parents[2] / "compiler" / "slath"
    sources = "\n".join(
        file.read_text("utf-8") for room in ("language", "units") for file in sorted((rooms / room).glob("*.py"))
    )
    used = {code for code in CATALOGUE if f'"{code}"' in sources}
    advice = {"colour-missing", "measure-unused", "material-unused"}
    assert len(used) > 50
    assert used - shown - advice - ELSEWHERE == set()
