"""Two editions of a pattern compared: what a reader of both lists would find by hand, and nothing else."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner

from slath.cli.commands import slath
from slath.output.facts import facts_of
from slath.output.kept import KeptEditionError, kept_text, read_kept
from slath.pipeline import compile_pattern
from slath.selling.causes import causes_between
from slath.selling.comparing import Comparison, compared
from slath.selling.errata import buyers_note, comparison_text, is_printed
from slath.selling.files import change_files
from slath.selling.keeping import read_edition

PATTERNS = Path(__file__).parents[2] / "patterns"


@pytest.fixture
def weir(tmp_path: Path) -> Path:
    """A copy of a shipped pattern with the workshop file it names."""
    for name in ("weir-field.yaml", "otter-weir.workshop.yaml"):
        shutil.copy(PATTERNS / name, tmp_path)
    return tmp_path / "weir-field.yaml"


def words_of(data: bytes) -> str:
    """The words of every page of a PDF, as another library reads them."""
    opened = pdfium.PdfDocument(data)
    return "\n".join(page.get_textpage().get_text_bounded() for page in opened)


def _changed(path: Path, *pairs: tuple[str, str]) -> Path:
    """A copy of a pattern with parts of its text replaced, each of which must be there once."""
    text = path.read_text("utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    other = path.with_name("later.yaml")
    other.write_text(text, "utf-8")
    return other


def _comparison(old: Path, new: Path) -> Comparison:
    before, after = read_edition(old), read_edition(new)
    return compared(before, after, causes_between(before, after))


def _lists(path: Path) -> dict[tuple[str, tuple[str, ...]], str]:
    """Every printed number of a pattern, worked out here from its compilation."""
    return {
        (size.name, fact.key): fact.printed
        for size in compile_pattern(path).sizes
        for fact in facts_of(size.quantities, "inches")
    }


def test_a_changed_border_count_and_height_are_found_as_the_two_lists_show(weir: Path) -> None:
    """The changes are the differences of the two lists, number by number; each names the line that did it."""
    later = _changed(
        weir, ("medium: 5 in", "medium: 5 1/2 in"), ("[before 3, in]", "[before 2, in]"), ('"1.0"', '"1.1"')
    )
    found = _comparison(weir, later)
    was, now = _lists(weir), _lists(later)
    expected = {key: (was.get(key), now.get(key)) for key in was.keys() | now.keys() if was.get(key) != now.get(key)}
    printed = {
        (change.size, change.fact.key): (
            change.before.printed if change.before else None,
            change.after.printed if change.after else None,
        )
        for change in found.numbers
        if is_printed(change)
    }
    assert printed == expected
    assert len(expected) > 10
    rounds = next(change for change in found.numbers if change.fact.key[:3] == ("band", "side", "spiral"))
    assert [(cause.line, cause.before, cause.after) for cause in rounds.causes] == [
        (_line_of(later, "side_height:"), "5 in", "5 1/2 in")
    ]
    lashing = next(change for change in found.numbers if change.size == "large" and change.fact.part == "lashings")
    assert [cause.line for cause in lashing.causes] == [_line_of(later, "[before 2, in]")]


def _line_of(path: Path, text: str) -> int:
    return next(number for number, line in enumerate(path.read_text("utf-8").splitlines(), 1) if text in line)


def test_a_change_of_one_size_leaves_the_others_unnamed(weir: Path) -> None:
    """Sizes in which nothing changed are silent, in the comparison and on the slip."""
    found = _comparison(weir, _changed(weir, ("medium: 5 in", "medium: 5 1/2 in")))
    assert found.sizes_concerned == ("medium",)
    assert {change.size for change in found.numbers} == {"medium"}
    assert "Small" not in comparison_text(found)
    slip = words_of(change_files(found)["later-errata-slip.pdf"])
    assert "Medium" in slip
    assert "Small" not in slip
    assert "Large" not in slip
    assert "go on as you are" in buyers_note(found)


def test_the_slip_holds_every_changed_number(weir: Path) -> None:
    """Each printed number that changed stands on the slip as it was and as it is."""
    found = _comparison(weir, _changed(weir, ("[before 3, in]", "[before 2, in]")))
    slip = " ".join(words_of(change_files(found)["later-errata-slip.pdf"]).split())
    changes = [change for change in found.numbers if is_printed(change)]
    assert len(changes) > 5
    for change in changes:
        assert change.before is not None
        assert change.after is not None
        for fact in (change.before, change.after):
            assert _as_set(fact.printed) in _as_set(slip), fact


def _as_set(words: str) -> str:
    """Letters and figures alone: the page sets real fractions and breaks lines."""
    return "".join(letter for letter in words.replace("⁄", "/") if letter.isalnum() or letter == "/")


def test_a_file_in_another_order_with_other_remarks_is_the_same(weir: Path) -> None:
    """What is compared is what a buyer reads, not lines of text."""
    text = weir.read_text("utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    start = lines.index("border:")
    border = lines[start : start + 4]
    moved = [*lines[:start], *lines[start + 4 :], "# the border, told last", *border]
    other = weir.with_name("other.yaml")
    other.write_text("\n".join(moved) + "\n", "utf-8")
    found = _comparison(weir, other)
    assert found.same
    assert comparison_text(found).endswith("Nothing a buyer reads has changed.\n")
    assert not [name for name in change_files(found) if name.endswith(".pdf")]


def test_sizes_that_came_and_went_are_told(weir: Path) -> None:
    """A size dropped from a pattern, and one taken in, are named as such and not as changed numbers."""
    text = weir.read_text("utf-8").replace("medium", "middling")
    later = weir.with_name("later.yaml")
    later.write_text(text, "utf-8")
    found = _comparison(weir, later)
    assert (found.sizes_new, found.sizes_gone) == (("middling",), ("medium",))
    assert not found.numbers


def test_a_kept_edition_reads_back_and_knows_when_it_was_changed(weir: Path) -> None:
    """Kept and read it is the same edition; a figure changed by hand breaks its checksum."""
    edition = read_edition(weir)
    path = weir.with_suffix(".json")
    path.write_text(kept_text(edition), "utf-8")
    assert read_kept(path) == edition
    assert kept_text(read_kept(path)) == path.read_text("utf-8")
    data = json.loads(path.read_text("utf-8"))
    data["sizes"][0]["numbers"][0][3] += 1
    path.write_text(json.dumps(data), "utf-8")
    with pytest.raises(KeptEditionError, match="changed since"):
        read_kept(path)


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"kept_edition": 1}', "[" * 100_000, '{"kept_edition": 9}'])
def test_what_is_no_kept_edition_is_refused(text: str, tmp_path: Path) -> None:
    """Any other file is refused with a reason, never with a traceback."""
    path = tmp_path / "kept.json"
    path.write_text(text, "utf-8")
    with pytest.raises(KeptEditionError):
        read_kept(path)


def test_numbers_changed_under_one_edition_are_a_warning(weir: Path) -> None:
    """Check says so at the edition, with the numbers; under another name, and unchanged, it says nothing."""
    runner = CliRunner()
    assert runner.invoke(slath, ["keep", str(weir)]).exit_code == 0
    codes = {note.code for note in compile_pattern(weir).notes}
    assert "edition-not-raised" not in codes
    weir.write_text(weir.read_text("utf-8").replace("medium: 5 in", "medium: 5 1/2 in"), "utf-8")
    (note,) = [note for note in compile_pattern(weir).notes if note.code == "edition-not-raised"]
    assert note.place.line == _line_of(weir, "edition:")
    assert "18 → 20" in note.sentence or "more" in note.sentence
    weir.write_text(weir.read_text("utf-8").replace('"1.0"', '"1.1"'), "utf-8")
    assert "edition-not-raised" not in {note.code for note in compile_pattern(weir).notes}


def test_an_edition_is_not_kept_over_another(weir: Path) -> None:
    """What was kept stays unless it is asked to go; the same edition may be kept twice."""
    runner = CliRunner()
    assert runner.invoke(slath, ["keep", str(weir)]).exit_code == 0
    kept = (weir.parent / "editions" / "weir-field-1.0.json").read_bytes()
    assert runner.invoke(slath, ["keep", str(weir)]).exit_code == 0
    weir.write_text(weir.read_text("utf-8").replace("medium: 5 in", "medium: 5 1/2 in"), "utf-8")
    assert runner.invoke(slath, ["keep", str(weir)]).exit_code == 3
    assert (weir.parent / "editions" / "weir-field-1.0.json").read_bytes() == kept
    assert runner.invoke(slath, ["keep", str(weir), "--overwrite"]).exit_code == 0
