"""Words and what stands among them: the pieces of a sentence, as plain records.

Words are one piece or a tuple of pieces, so both ``"Soak the stakes."`` and ``("Cut to ", Measure("16 3/8 in"), ".")`` are
words.
"""

from __future__ import annotations

from msgspec import Struct


class Strong(Struct, frozen=True):
    """Words that must catch the eye."""

    words: Words


class Emphasis(Struct, frozen=True):
    """Words said with stress, names of other works, words of another language."""

    words: Words


class Term(Struct, frozen=True):
    """A word of the trade. ``anchor`` is its place in the glossary, to which it links."""

    words: Words
    anchor: str = ""


class Link(Struct, frozen=True):
    """Words that lead to ``target``: the anchor of a block, or a web address (``https:`` or ``mailto:``)."""

    words: Words
    target: str


class Measure(Struct, frozen=True):
    """A measure as it is to be read, such as ``16 3/8 in``. It never breaks over a line; its fractions are set."""

    text: str


class Blank(Struct, frozen=True):
    """An empty box to write one value in, ``width`` mm wide. ``name`` says what belongs there to who cannot see it."""

    name: str
    width: float = 18.0


class TickBox(Struct, frozen=True):
    """A small square to tick."""


class Chip(Struct, frozen=True):
    """A patch of colour with the strand's letter beside it: the letter carries the meaning, the colour helps."""

    colour: str
    letter: str = ""


class Second(Struct, frozen=True):
    """Words of less weight beside the ones that count, such as a measure in the unit that is not cut by: set smaller."""

    words: Words


class MeasureLetter(Struct, frozen=True):
    """A letter in a square: a measure of a drawing, to be looked up in the table beside it."""

    letter: str


class SizeRing(Struct, frozen=True):
    """A ring to fill in beside the name of a size, already filled where that size alone is told."""

    filled: bool = False


class Shows(Struct, frozen=True):
    """From here on ``figure`` (its name) shows what is told. ``words`` head the sentences that follow."""

    figure: str
    words: Words = ""


Piece = (
    str | Strong | Emphasis | Term | Link | Measure | Blank | TickBox | Chip | Second | MeasureLetter | SizeRing | Shows
)
Words = Piece | tuple[Piece, ...]


def pieces_of(words: Words) -> tuple[Piece, ...]:
    """Words as pieces one after another, also where they are one piece."""
    return words if isinstance(words, tuple) else (words,)
