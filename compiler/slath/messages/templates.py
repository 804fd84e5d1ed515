"""Sentences as the language data write them, read once into their parts.

``{name}`` is a value, ``{name:variant:variant}`` a value in a form of its own (a case, figures, a capital);
``{name#one thing|several things}`` goes by a number, ``{name?said|not said}`` by whether there is a value. Parts inside
may hold values again. ``[stake]`` is a word of the trade, ``<rust>`` the letter of a material; ``{{`` is a brace.
"""

from __future__ import annotations

from msgspec import Struct

_MARKS = "{[<}|"


class TemplateError(ValueError):
    """A sentence of the language data that cannot be read."""


class Term(Struct, frozen=True):
    """A word of the trade, as it is written."""

    form: str


class LetterMark(Struct, frozen=True):
    """The letter of a material, by its key."""

    material: str


class Field(Struct, frozen=True):
    """A value by its name, and the forms it is wanted in."""

    name: str
    variants: tuple[str, ...] = ()


class Choice(Struct, frozen=True):
    """One of several wordings, by a number (``#``) or by whether there is a value (``?``)."""

    name: str
    kind: str
    branches: tuple[tuple[Part, ...], ...]


Part = str | Term | LetterMark | Field | Choice


def parsed(text: str) -> tuple[Part, ...]:
    """The parts of a sentence. Raises TemplateError."""
    parts, end = _sequence(text, 0, nested=False)
    if end != len(text):
        raise TemplateError(f"a stray {text[end]!r} at {end} in {text!r}")
    return parts


def fields_of(parts: tuple[Part, ...]) -> frozenset[str]:
    """Names of all values a sentence speaks of."""
    found: set[str] = set()
    for part in parts:
        if isinstance(part, Field | Choice):
            found.add(part.name)
        if isinstance(part, Choice):
            for branch in part.branches:
                found |= fields_of(branch)
    return frozenset(found)


def terms_of(parts: tuple[Part, ...]) -> tuple[str, ...]:
    """Words of the trade a sentence names, as written."""
    found: list[str] = []
    for part in parts:
        if isinstance(part, Term):
            found.append(part.form)
        elif isinstance(part, Choice):
            found += [form for branch in part.branches for form in terms_of(branch)]
    return tuple(found)


def _sequence(text: str, place: int, *, nested: bool) -> tuple[tuple[Part, ...], int]:
    """Parts up to the end, or, inside a choice, up to its next ``|`` or its ``}``."""
    parts: list[Part] = []
    plain: list[str] = []

    def flush() -> None:
        if plain:
            parts.append("".join(plain))
            plain.clear()

    while place < len(text):
        sign = text[place]
        if sign in "{}" and text[place : place + 2] == sign * 2 and not (nested and sign == "}"):
            plain.append(sign)
            place += 2
        elif nested and sign in "|}":
            break
        elif sign in "[<{":
            flush()
            part, place = _marked(text, place)
            parts.append(part)
        else:
            plain.append(sign)
            place += 1
    flush()
    return tuple(parts), place


def _marked(text: str, place: int) -> tuple[Part, int]:
    if text[place] == "{":
        return _braced(text, place)
    close = "]" if text[place] == "[" else ">"
    end = text.find(close, place)
    if end < 0:
        raise TemplateError(f"no {close!r} after {text[place:]!r}")
    inside = text[place + 1 : end]
    return (Term(inside) if close == "]" else LetterMark(inside)), end + 1


def _braced(text: str, place: int) -> tuple[Part, int]:
    start = place + 1
    end = start
    while end < len(text) and text[end] not in "#?}":
        end += 1
    if end == len(text):
        raise TemplateError(f"no end of {text[place:]!r}")
    name, *variants = text[start:end].split(":")
    if not name:
        raise TemplateError(f"a field without a name in {text!r}")
    if text[end] == "}":
        return Field(name, tuple(variants)), end + 1
    kind, branches = text[end], []
    while text[end] != "}":
        branch, end = _sequence(text, end + 1, nested=True)
        branches.append(branch)
        if end == len(text):
            raise TemplateError(f"no end of {text[place:]!r}")
    if len(branches) > 2:
        raise TemplateError(f"more than two ways in {text[place:end]!r}")
    return Choice(name, kind, (*branches, ())[:2] if len(branches) == 1 else tuple(branches)), end + 1
