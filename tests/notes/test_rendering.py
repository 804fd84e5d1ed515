"""Notes printed for a terminal and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

from slath.notes import Note, Place, Severity
from slath.notes.records import notes_as_json
from slath.notes.text import counted, notes_as_text

NOTE = Note(
    "wrong-dimension",
    Severity.ERROR,
    Place("weir.yaml", 3, 11),
    "height is a length, 3 a plain number: they cannot be added.",
    size="medium",
    part="side",
    remedies=("give the number a unit: 3 in, or 3 cm",),
    related=((Place("weir.yaml", 1, 1), "first given here"),),
)
LINES = {1: "height: 4 in", 3: "  taller: height + 3"}


def _line(place: Place) -> str:
    return LINES[place.line]


def test_a_note_points_at_its_place() -> None:
    """The block holds place, code, size and part, the sentence, the line with a caret under the column, and remedies."""
    assert notes_as_text([NOTE], line_of=_line).split("\n") == [
        "weir.yaml:3:11: Error wrong-dimension",
        "  medium, side: height is a length, 3 a plain number: they cannot be added.",
        "    3 │   taller: height + 3",
        "                  ^",
        "  first given here: weir.yaml:1:1",
        "    1 │ height: 4 in",
        "        ^",
        "  → Give the number a unit: 3 in, or 3 cm.",
    ]


def test_colour_only_where_asked() -> None:
    """No escape sequence is printed unless colour is asked for; with it, the words stay the same."""
    plain, coloured = notes_as_text([NOTE], line_of=_line), notes_as_text([NOTE], line_of=_line, colour=True)
    assert "\033" not in plain
    assert "\033[31m" in coloured
    for code in ("\033[31m", "\033[2m", "\033[0m"):
        coloured = coloured.replace(code, "")
    assert coloured == plain


def test_caret_stands_under_wide_and_combining_characters() -> None:
    """Characters two columns wide push the caret two columns, combining ones none, tabs one."""
    note = Note("unknown-key", Severity.ERROR, Place("a", 1, 6), "x")
    for line, blanks in (("abcdefg", 5), ("漢字abcd", 7), ("e\u0301abcde", 4), ("\t\tabcde", 5)):
        caret = notes_as_text([note], line_of=lambda _place, line=line: line).split("\n")[3]  # type: ignore[misc]
        assert caret == " " * (len("    1 │ ") + blanks) + "^"


def test_control_characters_of_a_file_are_not_printed() -> None:
    """A line that holds an escape sequence cannot colour the terminal or hide itself."""
    note = Note("strange-character", Severity.ERROR, Place("a", 1, 8), "x")
    text = notes_as_text([note], line_of=lambda _place: "title: \033[2Jx\u202e")
    assert "\033" not in text
    assert "\u202e" not in text


def test_long_line_is_cut_round_the_place() -> None:
    """Of a very long line, the part round the place is shown, and the caret stands under it."""
    line = "a" * 500 + "X" + "b" * 500
    block = notes_as_text(
        [Note("yaml-broken", Severity.ERROR, Place("a", 1, 501), "x")], line_of=lambda _place: line
    ).split("\n")
    assert len(block[2]) < 120
    assert block[2][block[3].index("^")] == "X"


def test_lines_are_read_from_the_file(tmp_path: Path) -> None:
    """Left to itself the renderer reads the line from the file; a file that is gone shows no line."""
    file = tmp_path / "a.yaml"
    file.write_text("one\ntwo\n", "utf-8")
    note = Note("unknown-key", Severity.WARNING, Place(str(file), 2, 1), "x")
    assert "    2 │ two" in notes_as_text([note])
    gone = Note("unknown-key", Severity.WARNING, Place(str(tmp_path / "gone.yaml"), 2, 1), "x")
    assert notes_as_text([gone]).count("\n") == 1


def test_an_accepted_warning_says_why() -> None:
    """An accepted warning is printed as accepted, with the designer's reason."""
    note = Note("size-not-woven", Severity.WARNING, Place("a"), "Nobody has woven it.", accepted="Next week.")
    text = notes_as_text([note], line_of=lambda _place: "")
    assert "Accepted size-not-woven" in text
    assert "Accepted: Next week." in text


def test_summary_counts_by_severity() -> None:
    """The last line counts errors, warnings and advice, and what was accepted, each by itself."""
    warning = Note("size-not-woven", Severity.WARNING, Place("a"), "x")
    advice = Note("colour-missing", Severity.ADVICE, Place("a"), "x")
    accepted = Note("size-not-woven", Severity.WARNING, Place("a"), "x", accepted="y")
    assert counted([]) == ()
    found = counted([NOTE, warning, warning, advice, accepted])
    assert found == ("1 error", "2 warnings", "1 piece of advice", "1 accepted")


def test_json_holds_every_field() -> None:
    """The JSON of a note holds code, severity, size, part, place, message, remedies, acceptance and second places."""
    assert json.loads(notes_as_json([NOTE])) == [
        {
            "code": "wrong-dimension",
            "severity": "error",
            "size": "medium",
            "part": "side",
            "file": "weir.yaml",
            "line": 3,
            "column": 11,
            "message": "height is a length, 3 a plain number: they cannot be added.",
            "remedies": ["give the number a unit: 3 in, or 3 cm"],
            "accepted": "",
            "related": [{"file": "weir.yaml", "line": 1, "column": 1, "message": "first given here"}],
        }
    ]
