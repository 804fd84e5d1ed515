"""Where YAML itself breaks off: the likely slip, told from the line's own characters."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from slath.notes import Note, Place, Severity

if TYPE_CHECKING:
    import yaml

    from slath.language.source import Source

_OPENERS = {"[": "]", "{": "}", '"': '"', "'": "'"}
_NO_SPACE = re.compile(r"^\s*(?:- )?\w+:[^\s/]")
_SECOND_COLON = re.compile(r"^\s*(?:- )?[\w ]+:\s+[^\"'\[{#|>].*?:(?:\s|$)")


def syntax_note(source: Source, error: yaml.MarkedYAMLError) -> Note:
    """The parser's complaint as a note: its place, and a sentence in plain words."""
    mark = error.problem_mark or error.context_mark
    place = Place(source.file, mark.line + 1, mark.column + 1)
    line = source.line(place.line)
    opened = _opened(source, error)
    if opened is not None:
        opener, start = opened
        closer = _OPENERS[opener]
        if closer in line[place.column - 1 :]:
            return _note(place, f"A comma is missing before this word, or the {opener} of line {start.line} is closed in the wrong place.", "put a comma between two values", ((start, "opened here"),))
        return _note(place, f"The {opener} opened in line {start.line} is never closed.", f"close it with {closer}", ((start, "opened here"),))
    if "\t" in line[: len(line) - len(line.lstrip())] or (line[place.column - 1 : place.column] == "\t"):
        return _note(place, "A tab stands where YAML wants spaces.", "use spaces, two for each step inwards")
    if _SECOND_COLON.match(line):
        return _note(place, "A second colon on the line leaves unclear where the value begins.", 'put the value in quotes: key: "one: two"')
    crowded = next((number for number in (place.line, place.line - 1) if number and _NO_SPACE.match(source.line(number))), None)
    if crowded is not None:
        column = source.line(crowded).index(":") + 1
        return _note(Place(source.file, crowded, column), "A space is missing after the colon.", "write key: value")
    if line[place.column - 1 : place.column] in {"%", "@", "`"}:
        return _note(place, f"A value cannot begin with {line[place.column - 1]}.", "put it in quotes")
    return _note(place, _plain_sentence(source, place), "compare its indent, colons, commas and brackets with the lines around it")


def _opened(source: Source, error: yaml.MarkedYAMLError) -> tuple[str, Place] | None:
    mark = error.context_mark
    if mark is None:
        return None
    opener = source.line(mark.line + 1)[mark.column : mark.column + 1]
    return (opener, Place(source.file, mark.line + 1, mark.column + 1)) if opener in _OPENERS else None


def _plain_sentence(source: Source, place: Place) -> str:
    line = source.line(place.line)
    indent = len(line) - len(line.lstrip())
    above = next((source.line(number) for number in range(place.line - 1, 0, -1) if source.line(number).strip()), "")
    if line.strip() and place.column == indent + 1 and indent != len(above) - len(above.lstrip()):
        return "This line's indent fits none of the lines above it."
    return "The file stops being readable YAML here."


def _note(place: Place, sentence: str, remedy: str, related: tuple[tuple[Place, str], ...] = ()) -> Note:
    return Note("yaml-broken", Severity.ERROR, place, sentence, remedies=(remedy,), related=related)
