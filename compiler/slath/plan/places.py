"""Things that have identity, and places that carry the numbering they are counted in."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from msgspec import Struct

UprightKind = Literal["stick", "stick end", "stake", "bye-stake", "post", "added", "foot stake", "end below"]
Side = Literal["outside", "inside", "above", "below"]
Counted = Literal["stick end", "stake", "pair", "group"]


class NoLongerHoldsError(ValueError):
    """A place that cannot be told in a numbering: what it names is gone, or is only a part of what is counted there."""


class Upright(Struct, frozen=True, order=True):
    """One upright for as long as it stands: its kind, and which of that kind, from 0, as they were set."""

    kind: UprightKind
    index: int


@dataclass(frozen=True, slots=True)
class Numbering:
    """Uprights as they are counted now, to the right from the mark, as seen from outside. A unit is worked as one.

    Two numberings are one only if they have one `key`; what is counted in one cannot be looked up in another.
    """

    key: str
    units: tuple[tuple[Upright, ...], ...] = field(compare=False, repr=False)
    counted: Counted = field(default="stake", compare=False, repr=False)

    @property
    def count(self) -> int:
        """How many are counted."""
        return len(self.units)

    def ring(self, number: int) -> int:
        """The number of one counted on past the last."""
        return (number - 1) % self.count + 1

    def number_of(self, upright: Upright) -> int:
        """The number of the unit that holds an upright. Raises NoLongerHoldsError where none does."""
        for number, unit in enumerate(self.units, start=1):
            if upright in unit:
                return number
        raise NoLongerHoldsError(f"{upright.kind} {upright.index + 1} is not counted in {self.key!r}")

    def at(self, number: int) -> Place:
        """The place of the unit with this number, or so many past the last."""
        return Place(self, self.ring(number))

    def after(self, number: int) -> Gap:
        """The space after a unit."""
        return Gap(self, self.ring(number))

    def before(self, upright: Upright) -> Gap:
        """The space to the left of an upright."""
        return self.after(self.number_of(upright) - 1)


class Place(Struct, frozen=True):
    """A unit by its number."""

    numbering: Numbering
    number: int

    @property
    def uprights(self) -> tuple[Upright, ...]:
        """What stands there."""
        return self.numbering.units[self.number - 1]


class Gap(Struct, frozen=True):
    """The space after a unit. What it is known by is the upright on its right, where the work goes on: that stays where
    uprights are added or parted.
    """

    numbering: Numbering
    number: int  # of the unit to its left

    @property
    def right(self) -> Upright:
        """The upright on its right."""
        return self.numbering.units[self.number % self.numbering.count][0]

    @property
    def between(self) -> tuple[int, int]:
        """The numbers to either side of it."""
        return self.number, self.numbering.ring(self.number + 1)


class Strand(Struct, frozen=True):
    """One strand as it was laid in, numbered through the whole basket; `material` is its key."""

    number: int
    material: str


LoopKind = Literal["loop", "end", "roll"]


class Loop(Struct, frozen=True):
    """What one unit lays in one turn of a border.

    Three names for three things that share a place: the `loop` as it is bent down from upright, its `end` as it goes on from
    there, and a `roll`, an end carried over the ends inside.
    """

    of: Place
    row: int  # from 1
    turn: int  # 0; in a plain border 0 as it is laid, 1 as it moves on
    kind: LoopKind
