"""Notes as text for a terminal: the sentence, the offending line with a caret under the place, and the remedies."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable
from pathlib import Path

from slath.notes.note import Note, Place, Severity

_WORDS = {Severity.ERROR: "Error", Severity.WARNING: "Warning", Severity.ADVICE: "Advice"}
_COLOURS = {Severity.ERROR: "31", Severity.WARNING: "33", Severity.ADVICE: "36"}  # ANSI: red, yellow, cyan
_GREATEST_LINE = 100
_GREATEST_FILE = 1_000_000
LineOf = Callable[["Place"], str]


def notes_as_text(notes: Iterable[Note], *, colour: bool = False, line_of: LineOf | None = None) -> str:
    """Every note as a block of lines, blocks parted by blank lines; empty where there is no note.

    `line_of` gives the source line of a place; left out, it is read from the file the place names.
    """
    find_line = line_of or _SourceLines().line_of
    return "\n\n".join("\n".join(_block(note, find_line, _Ink(colour))) for note in notes)


def summary(notes: Iterable[Note]) -> str:
    """How many errors, warnings and pieces of advice there are, in one line."""
    counts = dict.fromkeys(Severity, 0)
    accepted = 0
    for note in notes:
        if note.accepted:
            accepted += 1
        else:
            counts[note.severity] += 1
    parts = [
        _counted(counts[Severity.ERROR], "error", "errors"),
        _counted(counts[Severity.WARNING], "warning", "warnings"),
    ]
    if counts[Severity.ADVICE]:
        parts.append(_counted(counts[Severity.ADVICE], "piece of advice", "pieces of advice"))
    if accepted:
        parts.append(f"{accepted} accepted")
    return ", ".join(parts)


class _Ink:
    def __init__(self, colour: bool) -> None:
        self.colour = colour

    def __call__(self, code: str, text: str) -> str:
        return f"\033[{code}m{text}\033[0m" if self.colour and text else text


class _SourceLines:
    """Lines of source files, each file read once and no more of it than a pattern may be long."""

    def __init__(self) -> None:
        self._files: dict[str, list[str]] = {}

    def line_of(self, place: Place) -> str:
        if place.file not in self._files:
            self._files[place.file] = self._read(place.file)
        lines = self._files[place.file]
        return lines[place.line - 1] if 0 < place.line <= len(lines) else ""

    @staticmethod
    def _read(file: str) -> list[str]:
        try:
            with Path(file).open("rb") as stream:
                text = stream.read(_GREATEST_FILE).decode("utf-8-sig", errors="replace")
        except OSError:
            return []
        return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _block(note: Note, line_of: LineOf, ink: _Ink) -> list[str]:
    where = ", ".join(word for word in (note.size, note.part) if word)
    word = "Accepted" if note.accepted else _WORDS[note.severity]
    head = f"{ink(_COLOURS[note.severity], word)} {ink('2', note.code)}"
    lines = [f"{note.place}: {head}", f"  {where}: {note.sentence}" if where else f"  {note.sentence}"]
    if note.standing and not note.accepted:
        ways = "; or ".join(note.remedies)
        return [*lines, f"  → {ways[:1].upper()}{ways[1:]}."] if ways else lines
    lines += _pointed(note.place, line_of(note.place), ink, _COLOURS[note.severity])
    for place, words in note.related:
        lines += [f"  {words}: {place}", *_pointed(place, line_of(place), ink, "2")]
    lines += [
        f"  → {remedy[:1].upper()}{remedy[1:]}{'' if remedy.endswith(('.', '”', '?')) else '.'}"
        for remedy in note.remedies
    ]
    if note.accepted:
        lines.append(f"  Accepted: {note.accepted}")
    return lines


def _pointed(place: Place, line: str, ink: _Ink, code: str) -> list[str]:
    """The source line and a caret under the place; tabs and wide characters shift it as a terminal does."""
    if not line.strip() or not place.line:
        return []
    start = max(0, place.column - 1 - _GREATEST_LINE // 2) if len(line) > _GREATEST_LINE else 0
    shown = _printable(line[start : start + _GREATEST_LINE].rstrip())
    before = shown[: max(place.column - 1 - start, 0)]
    gutter = f"{place.line:>5} │ "
    caret = " " * (len(gutter) + sum(_width(char) for char in before))
    return [f"{ink('2', gutter)}{shown}", f"{caret}{ink(code, '^')}"]


def _printable(line: str) -> str:
    """Tabs as one blank and control characters as dots, so that columns stay where the file has them."""
    return "".join(
        " " if char == "\t" else "·" if unicodedata.category(char) in {"Cc", "Cf", "Cs"} else char for char in line
    )


def _width(char: str) -> int:
    if unicodedata.combining(char):
        return 0
    return 2 if unicodedata.east_asian_width(char) in {"W", "F"} else 1


def _counted(number: int, one: str, many: str) -> str:
    return f"{number or 'no'} {one if number == 1 else many}"
