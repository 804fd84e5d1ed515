"""Where YAML itself breaks off: the likely slip, told from the line's own characters."""

from __future__ import annotations

import re
from collections.abc import Callable

import yaml
from msgspec import Struct

from slath.language.source import Source
from slath.messages.told import Spoken, told
from slath.notes import Note, Place, Severity

_OPENERS = {"[": "]", "{": "}", '"': '"', "'": "'"}
_NO_SPACE = re.compile(r"^\s*(?:- )?\w+:[^\s/]")
_SECOND_COLON = re.compile(r"^\s*(?:- )?[\w ]+:\s+[^\"'\[{#|>].*?:(?:\s|$)")


class _Break(Struct, frozen=True):
    """Where the parser gave up, and what it was reading when it did."""

    source: Source
    place: Place
    began: Place | None

    @property
    def line(self) -> str:
        return self.source.line(self.place.line)

    @property
    def char(self) -> str:
        return self.line[self.place.column - 1 : self.place.column]

    def note(self, sentence: Spoken, remedy: Spoken, place: Place | None = None, *, opened: bool = False) -> Note:
        related = ((self.began, told("opened here")),) if opened and self.began else ()
        where = place or self.place
        return Note("yaml-broken", Severity.ERROR, where, sentence, remedies=(remedy,), related=related)


def syntax_note(source: Source, error: yaml.MarkedYAMLError) -> Note:
    """The parser's complaint as a note: its place, and a sentence in plain words."""
    broken = _Break(
        source, _place(source, error.problem_mark) or Place(source.file, 1, 1), _place(source, error.context_mark)
    )
    for guess in _GUESSES:
        note = guess(broken)
        if note is not None:
            return note
    remedy = told("compare its indent, colons, commas and brackets with the lines around it")
    return broken.note(told("The file stops being readable YAML here."), remedy)


def _place(source: Source, mark: yaml.Mark | None) -> Place | None:
    return Place(source.file, mark.line + 1, mark.column + 1) if mark else None


def _unclosed(broken: _Break) -> Note | None:
    began = broken.began
    opener = broken.source.line(began.line)[began.column - 1 : began.column] if began else ""
    if began is None or opener not in _OPENERS:
        return None
    closer = _OPENERS[opener]
    if closer in broken.line[broken.place.column - 1 :]:
        sentence = told(
            "A comma is missing before this, or the {opener} of line {line} is closed in the wrong place.",
            opener=opener,
            line=began.line,
        )
        return broken.note(sentence, told("put a comma between two values"), opened=True)
    return broken.note(
        told("The {opener} opened in line {line} is never closed.", opener=opener, line=began.line),
        told("close it with {closer}", closer=closer),
        opened=True,
    )


def _tab(broken: _Break) -> Note | None:
    indent = broken.line[: len(broken.line) - len(broken.line.lstrip())]
    if "\t" not in indent and broken.char != "\t":
        return None
    return broken.note(told("A tab stands where YAML wants spaces."), told("use spaces, two for each step inwards"))


def _second_colon(broken: _Break) -> Note | None:
    if not _SECOND_COLON.match(broken.line):
        return None
    sentence = told("A second colon on the line leaves unclear where the value begins.")
    return broken.note(sentence, told('put the value in quotes: key: "one: two"'))


def _crowded_colon(broken: _Break) -> Note | None:
    for number in (broken.place.line, broken.place.line - 1):
        line = broken.source.line(number) if number else ""
        if _NO_SPACE.match(line):
            place = Place(broken.source.file, number, line.index(":") + 1)
            return broken.note(told("A space is missing after the colon."), told("write key: value"), place)
    return None


def _odd_start(broken: _Break) -> Note | None:
    return (
        broken.note(told("A value cannot begin with {char}.", char=broken.char), told("put it in quotes"))
        if broken.char in {"%", "@", "`"}
        else None
    )


def _indent(broken: _Break) -> Note | None:
    line, number = broken.line, broken.place.line
    indent = len(line) - len(line.lstrip())
    above = next((text for at in range(number - 1, 0, -1) if (text := broken.source.line(at)).strip()), "")
    if not line.strip() or broken.place.column != indent + 1 or indent == len(above) - len(above.lstrip()):
        return None
    return broken.note(
        told("This line's indent fits none of the lines above it."), told("indent it as its neighbours, in spaces")
    )


_GUESSES: tuple[Callable[[_Break], Note | None], ...] = (
    _unclosed,
    _tab,
    _second_colon,
    _crowded_colon,
    _odd_start,
    _indent,
)
