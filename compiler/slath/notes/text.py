"""Notes as text for a terminal: the sentence, the offending line with a caret under the place, and the remedies."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable
from pathlib import Path

from slath.messages.told import Told, told
from slath.notes.note import Note, Place, Severity

_WORDS = {Severity.ERROR: told("Error"), Severity.WARNING: told("Warning"), Severity.ADVICE: told("Advice")}
_COLOURS = {Severity.ERROR: "31", Severity.WARNING: "33", Severity.ADVICE: "36"}  # ANSI: red, yellow, cyan
_GREATEST_LINE = 100
_GREATEST_FILE = 1_000_000
LineOf = Callable[["Place"], str]
Tongue = Callable[[str], str]  # what is printed of words that may be told in another language


def notes_as_text(
    notes: Iterable[Note], *, colour: bool = False, line_of: LineOf | None = None, tongue: Tongue = str
) -> str:
    """Every note as a block of lines, blocks parted by blank lines; empty where there is no note.

    `line_of` gives the source line of a place; left out, it is read from the file the place names. `tongue` says what
    is told in another language.
    """
    find_line = line_of or _SourceLines().line_of
    return "\n\n".join("\n".join(_block(note, find_line, _Ink(colour), tongue)) for note in notes)


def counted(notes: Iterable[Note]) -> tuple[Told, ...]:
    """How many errors, warnings and pieces of advice there are, and how many are accepted; what there is none of left out."""
    counts = dict.fromkeys(Severity, 0)
    accepted = 0
    for note in notes:
        if note.accepted:
            accepted += 1
        else:
            counts[note.severity] += 1
    parts = (
        (counts[Severity.ERROR], told("{count#{count} error|{count} errors}", count=counts[Severity.ERROR])),
        (counts[Severity.WARNING], told("{count#{count} warning|{count} warnings}", count=counts[Severity.WARNING])),
        (
            counts[Severity.ADVICE],
            told("{count#{count} piece of advice|{count} pieces of advice}", count=counts[Severity.ADVICE]),
        ),
        (accepted, told("{count} accepted", count=accepted)),
    )
    return tuple(words for count, words in parts if count)


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


def _block(note: Note, line_of: LineOf, ink: _Ink, tongue: Tongue) -> list[str]:
    where = ", ".join(tongue(part) for part in (note.size, note.part) if part)
    label = told("Accepted") if note.accepted else _WORDS[note.severity]
    sentence, remedies = tongue(note.sentence), [tongue(remedy) for remedy in note.remedies]
    head = f"{ink(_COLOURS[note.severity], tongue(label))} {ink('2', note.code)}"
    lines = [f"{note.place}: {head}", f"  {where}: {sentence}" if where else f"  {sentence}"]
    if note.standing and not note.accepted:
        ways = tongue(told("; or ")).join(remedies)
        return [*lines, f"  → {ways[:1].upper()}{ways[1:]}."] if ways else lines
    lines += _pointed(note.place, line_of(note.place), ink, _COLOURS[note.severity])
    for place, words in note.related:
        lines += [f"  {tongue(words)}: {place}", *_pointed(place, line_of(place), ink, "2")]
    lines += [
        f"  → {_begun(remedy, english)}{'' if remedy.endswith(('.', '”', '?')) else '.'}"
        for remedy, english in zip(remedies, note.remedies, strict=True)
    ]
    if note.accepted:
        lines.append(f"  {tongue(label)}: {note.accepted}")
    return lines


def _begun(remedy: str, english: str) -> str:
    """A remedy in English begins with a verb, and a capital; in another language it may begin with a key, which has none."""
    return f"{remedy[:1].upper()}{remedy[1:]}" if remedy == english else remedy


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
