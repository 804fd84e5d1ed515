"""`slath check`: what it prints, in words and as JSON, and its exit codes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.cli.running import PATTERNS, faulty, slath, start


def test_a_good_pattern(tmp_path: Path) -> None:
    """A pattern without fault is called good, with its counts; its warnings stand above, exit code 0."""
    done = slath("check", start(tmp_path, sizes=("small", "large")).name, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines()[-1] == "basket.yaml: good, 4 warnings (small 40 stakes, large 40 stakes)"
    assert "small and large: Nobody has woven this size yet" in done.stdout


def test_a_fault_is_shown_where_it_stands(tmp_path: Path) -> None:
    """A fault is told with file, line and column, the line itself and a caret under the place, and a remedy; exit 1."""
    file = faulty(tmp_path)
    line = file.read_text("utf-8").splitlines().index("  height: sid") + 1
    done = slath("check", file.name, cwd=tmp_path)
    assert done.returncode == 1
    shown = done.stdout.splitlines()
    assert shown[0] == f"faulty.yaml:{line}:11: Error unknown-name"
    assert shown[2] == f"{line:>5} │   height: sid"
    assert shown[3].index("^") == shown[2].index("sid")
    assert any("side" in text for text in shown if text.startswith("  → "))
    assert shown[-1].startswith("faulty.yaml: 1 error")


def test_json_has_a_record_for_every_note(tmp_path: Path) -> None:
    """`--format json` prints one list of notes for all files, with the keys of the published list."""
    schema = json.loads(slath("schema", "list", cwd=tmp_path).stdout)
    done = slath("check", faulty(tmp_path).name, start(tmp_path).name, "--format", "json", cwd=tmp_path)
    assert done.returncode == 1
    notes = json.loads(done.stdout)
    assert {note["file"] for note in notes} == {"faulty.yaml", "basket.yaml"}
    assert any(note["severity"] == "error" and note["column"] == 11 for note in notes)
    wanted = set(schema["$defs"]["note"]["required"])
    assert wanted >= {"code", "severity", "size", "line", "column", "message", "remedies"}
    assert all(wanted <= set(note) for note in notes)


def test_one_faulty_file_does_not_hide_another(tmp_path: Path) -> None:
    """Every file is looked at, whatever is wrong with those before it."""
    done = slath("check", faulty(tmp_path).name, start(tmp_path).name, cwd=tmp_path)
    assert done.returncode == 1
    assert "basket.yaml: good" in done.stdout


def test_a_workshop_file(tmp_path: Path) -> None:
    """A file that patterns share is held to what it may say, not called a pattern that lacks its base."""
    done = slath("check", *sorted(PATTERNS.glob("*.yaml")), cwd=tmp_path)
    assert done.returncode == 0
    assert "otter-weir.workshop.yaml: good (a workshop file)" in done.stdout


def test_only_the_size_asked_for(tmp_path: Path) -> None:
    """`--size` leaves the other sizes out of what is said."""
    done = slath("check", start(tmp_path, sizes=("small", "large")).name, "--size", "large", cwd=tmp_path)
    assert done.returncode == 0
    assert done.stdout.splitlines()[-1].endswith("(large 40 stakes)")


@pytest.mark.parametrize("pattern", sorted(path.name for path in PATTERNS.glob("*.yaml") if "." not in path.stem))
def test_shipped_patterns_are_good(pattern: str) -> None:
    """Every shipped pattern is without error; what it warns of, its designer has accepted with a reason."""
    done = slath("check", pattern, cwd=PATTERNS)
    assert done.returncode == 0
    assert "Warning" not in done.stdout
    assert done.stdout.startswith(f"{pattern}: good")


def test_another_workshop_file(tmp_path: Path) -> None:
    """`--workshop` takes the place of the workshop file a pattern names, wherever it lies."""
    file = start(tmp_path)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "own.yaml").write_text(
        "slath: 1\nname: Mill Lane\ngauge: [{weave: chasing, strand: us round reed 3, rounds: 10, over: 1 in}]\n",
        "utf-8",
    )
    without = slath("check", file.name, "--format", "json", cwd=tmp_path)
    done = slath("check", file.name, "--workshop", "elsewhere/own.yaml", "--format", "json", cwd=tmp_path)
    estimated = [
        "chasing" in note["message"] for note in json.loads(without.stdout) if note["code"] == "pitch-estimated"
    ]
    assert any(estimated)
    assert done.returncode == 0
    assert not any(
        "chasing" in note["message"] for note in json.loads(done.stdout) if note["code"] == "pitch-estimated"
    )
