"""What is said, before any language: a key with typed values, of which some are secret and some differ by size."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

Secrecy = Literal["cut list", "materials"]
OPEN: frozenset[Secrecy] = frozenset()
CUT: frozenset[Secrecy] = frozenset({"cut list"})  # lengths of the cut list
BOUGHT: frozenset[Secrecy] = frozenset({"materials"})  # amounts of material


class Length(Struct, frozen=True):
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


class Mass(Struct, frozen=True):
    """A mass in g."""

    g: float
    secrecy: frozenset[Secrecy] = OPEN


class Minutes(Struct, frozen=True):
    """A time in minutes, said as a teacher says it."""

    minutes: float


class Decimals(Struct, frozen=True):
    """A bare number, of at most so many decimals: a ratio, turns, degrees."""

    value: float
    places: int = 0


class Numbers(Struct, frozen=True):
    """Things by their numbers, in the order they are told: stakes 2, 3 and 4."""

    numbers: tuple[int, ...]


class Letter(Struct, frozen=True):
    """The letter of a strand on its colour, by the key of its material; nothing where it bears none."""

    material: str


class Own(Struct, frozen=True):
    """Words that are not ours: a name, or what the designer wrote. `by_language` holds them where they gave several.

    `marked` is the same with the words of the trade in brackets, for a booklet in English.
    """

    text: str
    by_language: tuple[tuple[str, str], ...] = ()
    marked: str = ""

    def within(self, language: str) -> str:
        """The words in a language, by its code; as they were written where there are none."""
        return dict(self.by_language).get(language, self.text)


class Listed(Struct, frozen=True):
    """Several things one after another; the template says how they are joined."""

    items: tuple[Value, ...]


class BySize(Struct, frozen=True):
    """One value a size, in the order of the sizes."""

    values: tuple[Value, ...]


class Message(Struct, frozen=True):
    """A sentence or a part of one: its key in the language data, ``area.name``, and the values that stand in it."""

    key: str
    values: tuple[tuple[str, Value], ...] = ()


class OfSizes(Struct, frozen=True):
    """A message said of some sizes only, by their names."""

    sizes: tuple[str, ...]
    said: Message


Value = (
    int | bool | str | None | Length | Mass | Minutes | Decimals | Numbers | Letter | Own | Listed | BySize | Message
)


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
