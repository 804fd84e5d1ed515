"""What is said, before any language: a key with typed values, of which some are secret and some differ by size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Secrecy = Literal["cut list", "materials"]
OPEN: frozenset[Secrecy] = frozenset()
CUT: frozenset[Secrecy] = frozenset({"cut list"})  # lengths of the cut list
BOUGHT: frozenset[Secrecy] = frozenset({"materials"})  # amounts of material


@dataclass(frozen=True, slots=True)
class Length:
    """A length in mm. Whatever is reckoned from a secret one is as secret."""

    mm: float
    secrecy: frozenset[Secrecy] = OPEN

    def __add__(self, other: Length) -> Length:
        return Length(self.mm + other.mm, self.secrecy | other.secrecy)

    def __sub__(self, other: Length) -> Length:
        return Length(self.mm - other.mm, self.secrecy | other.secrecy)

    def __mul__(self, times: float) -> Length:
        return Length(self.mm * times, self.secrecy)

    def __truediv__(self, parts: float) -> Length:
        return Length(self.mm / parts, self.secrecy)


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass in g."""

    g: float
    secrecy: frozenset[Secrecy] = OPEN


@dataclass(frozen=True, slots=True)
class Minutes:
    """A time in minutes, said as a teacher says it."""

    minutes: float


@dataclass(frozen=True, slots=True)
class Numbers:
    """Things by their numbers, in the order they are told: stakes 2, 3 and 4."""

    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Letter:
    """The letter of a strand on its colour, by the key of its material; nothing where it bears none."""

    material: str


@dataclass(frozen=True, slots=True)
class Own:
    """Words that are not ours: a name, or what the designer wrote. `by_language` holds them where they gave several.

    `marked` is the same with the words of the trade in brackets, for a booklet in English.
    """

    text: str
    by_language: tuple[tuple[str, str], ...] = ()
    marked: str = ""

    def within(self, language: str) -> str:
        """The words in a language, by its code; as they were written where there are none."""
        return dict(self.by_language).get(language, self.text)


@dataclass(frozen=True, slots=True)
class Listed:
    """Several things one after another; the template says how they are joined."""

    items: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class BySize:
    """One value a size, in the order of the sizes."""

    values: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Message:
    """A sentence or a part of one: its key in the language data, ``area.name``, and the values that stand in it."""

    key: str
    values: tuple[tuple[str, Value], ...] = ()


@dataclass(frozen=True, slots=True)
class OfSizes:
    """A message said of some sizes only, by their names."""

    sizes: tuple[str, ...]
    said: Message


Value = int | bool | str | None | Length | Mass | Minutes | Numbers | Letter | Own | Listed | BySize | Message


def message(key: str, **values: Value) -> Message:
    """A message from its key and its values by name (underscores stand for the hyphens of the template)."""
    return Message(key, tuple(values.items()))


def secret(value: Value, withheld: frozenset[Secrecy]) -> bool:
    """Whether a value, or anything in it, is withheld."""
    if not withheld:
        return False
    match value:
        case Length(_, secrecy) | Mass(_, secrecy):
            return bool(secrecy & withheld)
        case Message(_, values):
            return any(secret(one, withheld) for _, one in values)
        case Listed(items) | BySize(items):
            return any(secret(one, withheld) for one in items)
        case _:
            return False
