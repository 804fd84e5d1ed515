"""The class file: read whole, every slip told at its place with what would help."""

from __future__ import annotations

from pathlib import Path

import pytest

from slath.classes.file import read_class
from slath.classes.recognising import is_class_file
from slath.classes.roster import call_roll, who_makes_what
from slath.notes import Note, PatternFaultError

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"
SHIPPED = PATTERNS / "otter-weir.class.yaml"
TEXT = SHIPPED.read_text("utf-8")


def beside(folder: Path, text: str) -> Path:
    """A class file with that text, in a folder with the shipped patterns."""
    for path in PATTERNS.glob("*.yaml"):
        (folder / path.name).write_bytes(path.read_bytes())
    file = folder / "saturday.yaml"
    file.write_text(text, "utf-8")
    return file


def notes_on(folder: Path, text: str) -> tuple[Note, ...]:
    """Everything that is said of a class file with that text."""
    try:
        return call_roll(beside(folder, text)).notes
    except PatternFaultError as fault:
        return fault.notes


def test_the_shipped_class_is_good() -> None:
    """Twelve people, seven small and five large, and nothing to be said against it."""
    roster = call_roll(SHIPPED)
    assert roster.notes == ()
    assert who_makes_what(roster) == "a class of 12: Weir Field basket 7 small and 5 large"
    assert is_class_file(SHIPPED)
    assert not is_class_file(PATTERNS / "weir-field.yaml")


SLIPS = {
    "size: small, prints": ("size: smal, prints", "unknown-size", "write small"),
    "- {name: Iris, makes: weir": ("- {name: Iris, makes: wier", "unknown-pattern", "write weir"),
    "size: large, colourway: moss and cream": (
        "size: large, colourway: mos and cream", "unknown-colourway", "write moss and cream",
    ),
    "name: Kasia": ("name: Ada", "name-twice", "add the first letter of the other name"),
    "{rust: moss, slate: none}": ("{rsut: moss, slate: none}", "unknown-material", "write rust"),
    "rust: 60 ft,": ("rsut: 60 ft,", "unknown-stock", "write rust"),
    "09:30-12:30": ("13:00-12:30", "hours-overlap", "write from-to, such as 09:30-12:30"),
    "weir-field.yaml}": ("weir-fields.yaml}", "file-not-read", "write weir-field.yaml"),
    "{weir: weir-field.yaml}": ("{weir: ../weir-field.yaml}", "outside-folder", "keep the class file beside its patterns"),
    "stakes: 2 each": ("stakes: two", "wrong-form", ""),
    "prints: large print": ("prints: larg print", "unknown-choice", "write large print"),
    "fee: 85 GBP": ("fee: 85", "wrong-kind", ""),
    "2027-05-16]": ("2027-02-30]", "no-such-day", "write year-month-day, such as 2026-03-01"),
    "left: 6 mm": ("left: 60 mm", "labels-off-sheet", "measure the sheet again"),
    "- {name: Iris,": ("- {", "missing-key", "add name:, or count: while names are not known"),
    "spares: {kits": ("spare: {kits", "unknown-key", "write spares"),
}  # fmt: skip


@pytest.mark.parametrize("slip", SLIPS)
def test_slips_are_told_at_their_line(slip: str, tmp_path: Path) -> None:
    """One slip gives one note, on its line, with the nearest name or the way to write it."""
    assert TEXT.count(slip) >= 1
    wrong, code, remedy = SLIPS[slip]
    text = TEXT.replace(slip, wrong, 1)
    line = TEXT[: TEXT.index(slip)].count("\n") + 1
    found = [note for note in notes_on(tmp_path, text) if note.code == code]
    assert [note.place.line for note in found] == [line]
    assert not remedy or remedy in found[0].remedies
    assert all(note.place.column > 0 for note in found)


def test_a_colourway_that_breaks_the_promise_is_told(tmp_path: Path) -> None:
    """All strands of the spiral in one dye show no steps, whatever the materials are called."""
    text = TEXT.replace("{rust: moss, slate: none}", "{plain: moss, rust: moss, slate: moss}")
    notes = notes_on(tmp_path, text)
    line = next(number for number, each in enumerate(text.splitlines(), 1) if "plain: moss" in each)
    assert [(note.code, note.place.line) for note in notes if note.code == "looks-not-kept"] == [
        ("looks-not-kept", line)
    ]
    assert "all its strands are of one colour" in next(note.sentence for note in notes if note.code == "looks-not-kept")


def test_a_colourway_too_alike_in_grey_is_told(tmp_path: Path) -> None:
    """Two dark dyes side by side cannot be told in a grey print."""
    text = TEXT.replace("{slate: {dye: wine, marks: dots}}", "{rust: wine, slate: charcoal}")
    assert [note.code for note in notes_on(tmp_path, text)] == ["colours-too-alike"]


def test_people_by_count_have_places(tmp_path: Path) -> None:
    """Names may come later: so many alike are numbered."""
    text = TEXT.replace("- {name: Ada, makes: weir, size: small", "- {count: 3, makes: weir, size: small")
    people = read_class(beside(tmp_path, text)).record.people
    assert [person.name for person in people][:4] == ["Place 1", "Place 2", "Place 3", "Ben"]


def test_one_pattern_and_size_go_without_saying(tmp_path: Path) -> None:
    """Where there is only one pattern, and of it one size, nobody need say what they make."""
    basket = TEXT.partition("patterns:")[0] + "patterns: pot.yaml\non: 2027-05-15\npeople: [{name: Ada}, {name: Ben}]\n"
    file = beside(tmp_path, basket)
    pot = (tmp_path / "wren-pot.yaml").read_text("utf-8")
    (tmp_path / "pot.yaml").write_text(pot, "utf-8")
    with pytest.raises(PatternFaultError) as fault:
        read_class(file)
    assert [note.remedies for note in fault.value.notes] == [("add size: wren, robin or blackbird",)] * 2
