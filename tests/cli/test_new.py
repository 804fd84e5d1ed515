"""`slath new`: a first pattern that builds as it stands, and never over another file."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest
from tests.cli.running import slath

from slath.editions import editions_of
from slath.language.starting import START_KINDS, Start, StartKind, starting_pattern
from slath.pipeline import compile_pattern
from slath.work import BuildOptions

NAMES = ("small", "medium", "large", "extra large")
# What is true of every basket nobody has woven or measured yet.
UNWOVEN = {"size-not-woven", "pitch-estimated"}


@pytest.mark.parametrize(
    ("kind", "units", "count"), list(itertools.product(START_KINDS, ("inches", "mm"), (1, 2, 3, 4)))
)
def test_every_start_is_good(kind: StartKind, units: str, count: int, tmp_path: Path) -> None:
    """Whatever is answered, the first pattern has no error, and no warning but that nobody has woven it yet."""
    file = tmp_path / "first.yaml"
    start = Start(kind, "First", "me", NAMES[:count], units, "2026-01-01")  # type: ignore[arg-type]
    file.write_text(starting_pattern(start, file.name), "utf-8")
    compilation = compile_pattern(file)
    assert [size.name for size in compilation.sizes] == list(NAMES[:count])
    assert {note.code for note in compilation.notes} <= UNWOVEN
    rims = [size.basket.rim.outline.length_mm for size in compilation.sizes]
    assert rims == sorted(set(rims))


@pytest.mark.parametrize("kind", START_KINDS)
def test_every_start_builds(kind: StartKind, tmp_path: Path) -> None:
    """A booklet can be made of every kind of first pattern."""
    file = tmp_path / "first.yaml"
    file.write_text(starting_pattern(Start(kind, "First", "me", NAMES[:2], "mm", "2026-01-01"), file.name), "utf-8")
    made = dict(editions_of(compile_pattern(file), BuildOptions(("booklet",)), lambda _text: None))
    assert made["first-booklet.pdf"].startswith(b"%PDF-")


def test_flags_answer_every_question(tmp_path: Path) -> None:
    """With flags nothing is asked, and what they say stands in the file."""
    done = slath(
        "new", "tray.yaml", "--kind", "board", "--title", "Tray: for tea", "--designer", "Bryony Marsh",
        "--sizes", "two cups, four cups", "--units", "mm", cwd=tmp_path,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "Wrote tray.yaml. Next: slath check tray.yaml\n"
    pattern = compile_pattern(tmp_path / "tray.yaml").pattern
    assert (pattern.title, pattern.designer) == ("Tray: for tea", "Bryony Marsh")
    assert [size.size for size in pattern.sizes] == ["two cups", "four cups"]
    assert "round reed 3.25 mm" in (tmp_path / "tray.yaml").read_text("utf-8")


def test_in_a_pipe_nothing_is_asked(tmp_path: Path) -> None:
    """Without a terminal the usual answers are taken: a round basket in three sizes, called after its file."""
    done = slath("new", "moor-hen", cwd=tmp_path, typed="oval\n")
    assert (done.returncode, done.stderr) == (0, "")
    text = (tmp_path / "moor-hen.yaml").read_text("utf-8")
    assert "title: Moor hen\n" in text
    assert "sizes: [small, medium, large]\n" in text
    assert "kind: round slath\n" in text


def test_a_file_is_never_written_over(tmp_path: Path) -> None:
    """A file that is there stays as it is, and the exit code lays it to the surroundings."""
    (tmp_path / "mine.yaml").write_text("mine", "utf-8")
    done = slath("new", "mine.yaml", cwd=tmp_path)
    assert done.returncode == 3
    assert done.stderr == "mine.yaml is already there; give another name.\n"
    assert [(path.name, path.read_text("utf-8")) for path in tmp_path.iterdir()] == [("mine.yaml", "mine")]


@pytest.mark.parametrize(
    ("sizes", "said"),
    [("a,a", "each name once"), (",", "at least one size"), ("a,[b]", "a size cannot be called “[b]”")],
)
def test_sizes_that_cannot_be(sizes: str, said: str, tmp_path: Path) -> None:
    """Sizes that name nothing, or one thing twice, are the command's fault, and nothing is written."""
    done = slath("new", "x.yaml", "--sizes", sizes, cwd=tmp_path)
    assert done.returncode == 2
    assert said in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "title", ["yes", "# 1", "Bird's nest", 'A "fine" basket', "5", "{x}", "café łozina", "$title", "a\nb: c"]
)
def test_any_title_stays_a_title(title: str, tmp_path: Path) -> None:
    """A title that YAML would read as something else is quoted, and comes out as it was given (less line breaks)."""
    file = tmp_path / "titled.yaml"
    file.write_text(starting_pattern(Start("round", title, title, ("one",), "mm", "2026-01-01"), file.name), "utf-8")
    pattern = compile_pattern(file).pattern
    assert (pattern.title, pattern.designer) == (" ".join(title.split()),) * 2
