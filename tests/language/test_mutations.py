"""Patterns damaged at random: whatever a slip of the hand leaves, reading ends in a pattern or in notes."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from slath.language import read_pattern
from slath.notes import PatternFaultError
from slath.notes.catalogue import CATALOGUE

TEXTS = [file.read_text("utf-8") for file in sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml"))]
PIECES = [
    "", "[]", "{}", "null", '""', "yes", "3", "-1", "0", "1e300", ".nan", "3 in", "11,5 cm", "a: b", "[1, 2]", "{small: 3}",
    "{a: {b: c}}", "*x", "&x", "!t", '"', "[", "{", ":", "- ", "height + 3", "1/0 in", "grouped", "2026-13-45", "plain", "~",
    "true", "😀", "\t", "#", "|", ">", "base", "12345678901234567890", "{medium: 3 in, small: yes}", "[[[]]]", "\n",
]  # fmt: skip


@st.composite
def _damaged(draw: st.DrawFn) -> str:
    text = draw(st.sampled_from(TEXTS))
    for _ in range(draw(st.integers(1, 3))):
        words = [match.span() for match in re.finditer(r"[\w./\"+-]+(?: [\w/]+)?", text)]
        start, end = draw(st.sampled_from(words))
        text = text[:start] + draw(st.sampled_from(PIECES)) + text[end:]
    return text


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
@given(_damaged())
def test_damage_ends_in_notes(tmp_path: Path, text: str) -> None:
    """No damage raises anything but the notes of the file, each with a place, a sentence and a code of the catalogue."""
    file = tmp_path / "damaged.yaml"
    file.write_text(text, "utf-8")
    try:
        notes = read_pattern(file).notes
    except PatternFaultError as fault:
        notes = fault.notes
        assert any(note.stops for note in notes)
    for note in notes:
        assert note.code in CATALOGUE
        assert note.place.line
        assert note.sentence.strip()
        assert "None" not in note.sentence
