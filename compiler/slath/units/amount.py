"""A number that knows what it rests on and how it was worked out."""

from __future__ import annotations

from enum import IntEnum
from typing import Literal

from msgspec import Struct

Unit = Literal["mm", "g", "count", "ratio", "degrees", "money", "minutes"]


class LengthToCut(float):
    """A length a piece is cut to, mm: whatever prints it may round it up, in every unit, and never down.

    Sums and shares of it are plain lengths again.
    """

    __slots__ = ()


class FinishedSize(float):
    """A size of the finished basket, mm: nobody makes one truer than to the eighth of an inch."""

    __slots__ = ()


class Basis(IntEnum):
    """What a number rests on, strongest first; a result is as strong as its weakest input."""

    COUNTED = 0  # follows from whole numbers and geometry alone
    GIVEN = 1  # the designer wrote it in the pattern
    MEASURED = 2  # measured on a test piece or a woven basket
    PUBLISHED = 3
    COMMON = 4  # common practice, no source
    MEMORY = 5  # from memory, read nowhere
    ESTIMATED = 6

    @property
    def words(self) -> str:
        """The tag as printed."""
        return _WORDS[self]


_WORDS = {
    Basis.COUNTED: "counted",
    Basis.GIVEN: "given in the pattern",
    Basis.MEASURED: "measured",
    Basis.PUBLISHED: "published",
    Basis.COMMON: "common practice, no source",
    Basis.MEMORY: "from memory",
    Basis.ESTIMATED: "estimated",
}


class Amount(Struct, frozen=True):
    """A value in its inside unit (mm, g, whole count, ratio...) with its basis and, for the proof, its working.

    ``formula`` is readable arithmetic in trade words; ``inputs`` are the amounts that went in (kept shallow: their own
    inputs are cleared by `as_input`); ``path`` is the place in the pattern file it answers to.
    """

    name: str
    value: float
    unit: Unit
    basis: Basis
    source: str = ""
    formula: str = ""
    inputs: tuple[Amount, ...] = ()
    path: tuple[str | int, ...] = ()

    def as_input(self) -> Amount:
        """The same amount without its own working, to stand among another's inputs."""
        if not self.inputs:
            return self
        return Amount(self.name, self.value, self.unit, self.basis, self.source, self.formula, (), self.path)


def weakest(amounts: tuple[Amount, ...]) -> Basis:
    """The basis of a result worked out from `amounts`."""
    return max((amount.basis for amount in amounts), default=Basis.COUNTED)


def worked(
    name: str,
    value: float,
    unit: Unit,
    formula: str,
    *inputs: Amount,
    basis: Basis = Basis.COUNTED,
    source: str = "",
    path: tuple[str | int, ...] = (),
) -> Amount:
    """An amount calculated from `inputs`: its basis is the weakest of theirs and of `basis`."""
    kept = tuple(item.as_input() for item in inputs)
    return Amount(name, value, unit, max(weakest(kept), basis), source, formula, kept, path)
