"""What a rule looks at and what it hands back: the context of one size, a finding, and the rule itself."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from typing import Literal

from msgspec import Struct

from slath.basket.model import Basket, WovenBand
from slath.language.pattern import Material, Outline, Pattern, SizedPattern
from slath.language.places import Path
from slath.messages.told import Figure, Spoken, Told, told, word
from slath.notes import Severity
from slath.quantities.results import Quantities
from slath.units import Amount, Basis
from slath.units.names import INCH_MM
from slath.units.printing import First, inches, millimetres, ordered

_FINE_BELOW_MM = 50.0
# Share by which an estimate may be out: heights printed in handbooks differ by so much from those worked out of their rows
# (Gill 1916, White 1901; tests of eighty baskets). What stops a booklet must rest on more than an estimate.
_MAY_BE_OUT = 0.2
_HAIR = 1e-6  # of a step
UNNAMED = re.compile(r"band \d+")  # what the reader calls a band the designer gave no name


Way = Literal["nearest", "up", "down"]


def measured(mm: float, first: First, way: Way = "nearest") -> Figure:
    """A length in both units, small ones finer, so that a near miss can be seen.

    A limit is rounded to the side on which it is kept: what is to be at least so much `up`, at most so much `down`.
    """
    length = max(mm, 0.0)
    fine = length < _FINE_BELOW_MM
    inch, metric = INCH_MM / (32 if fine else 16), 0.1 if fine else 1.0
    low, high = _kept(length, inch, way), _kept(length, metric, way)
    return Figure(ordered(inches(low, 32 if fine else 16), millimetres(high, 1 if fine else 0), first))


def _kept(length: float, step: float, way: Way) -> float:
    """The length in whole steps up or down; as it is where the nearest will do."""
    if way == "nearest":
        return length
    steps = length / step
    return step * (math.ceil(steps - _HAIR) if way == "up" else math.floor(steps + _HAIR))


def surely_less(amount: Amount) -> float:
    """What may be taken off a number that is estimated, before anything is said to be impossible because of it."""
    return _MAY_BE_OUT * amount.value if amount.basis is Basis.ESTIMATED else 0.0


class Context(Struct, frozen=True):
    """One size of a pattern, constructed and measured."""

    pattern: Pattern
    sized: SizedPattern
    basket: Basket
    quantities: Quantities

    @property
    def bands(self) -> tuple[WovenBand, ...]:
        """Every band in the order it is worked: base, then side. A lid is a basket with a context of its own."""
        return self.basket.woven

    @property
    def on_stakes(self) -> tuple[WovenBand, ...]:
        """The bands worked round the stakes of the side."""
        return self.basket.bands

    def on_base(self, band: WovenBand) -> bool:
        """Whether the band is worked round stick ends, not round stakes."""
        return any(found is band for found in self.basket.base.bands)

    @property
    def first(self) -> First:
        """Which measure stands first, as in the pattern."""
        return self.pattern.units

    def measure(self, mm: float) -> Figure:
        """A length in both units, the designer's own first; small ones finer, so that a near miss can be seen."""
        return measured(mm, self.first)

    def at_least(self, mm: float) -> Figure:
        """A length that must be reached, in both units, neither of them short."""
        return measured(mm, self.first, "up")

    def at_most(self, mm: float) -> Figure:
        """A length that must not be passed, in both units, neither of them beyond."""
        return measured(mm, self.first, "down")

    def across(self, outline: Outline, way: Way = "nearest") -> Spoken:
        """The size of an outline: its diameter, or its length by its width; a limit is rounded to the side it is kept on."""
        long = measured(outline.length_mm, self.first, way)
        if outline.shape == "circle":
            return long
        return told("{long} by {wide}", long=long, wide=measured(outline.width_mm, self.first, way))

    def material(self, key: str) -> Material:
        """The material of this size called `key`."""
        return self.sized.materials[key]

    def setting(self, name: str) -> float:
        """The bare value of a setting, in mm, a ratio or a count."""
        return self.sized.settings[name].value


class Finding(Struct, frozen=True):
    """What a rule found: where in the file (`path`), in which part, why, and what would put it right.

    `sentence` says the reason in trade words and stands alone; `remedies` give their resulting numbers. `related`
    are other places that bear on it, with a few words each.
    """

    path: Path
    part: str
    sentence: Told
    remedies: tuple[Spoken, ...] = ()
    related: tuple[tuple[Path, Spoken], ...] = ()


Check = Callable[[Context], Iterator[Finding]]


class Rule(Struct, frozen=True):
    """One rule: its code, how much it stops, and the function that looks for it.

    `whole`: what it finds is so in every size alike, so its notes name none. `basket_only`: it is not asked of a lid,
    which is a basket of its own to every other rule.
    """

    code: str
    severity: Severity
    check: Check
    whole: bool = False
    basket_only: bool = False


def part_of(band: WovenBand) -> Told:
    """``side band 2``, with the designer's own name for it where it has one: ``side band 2, spiral``."""
    name = band.name.strip()
    if UNNAMED.fullmatch(name):
        return told("{part} band {number}", part=word(band.part), number=int(name.removeprefix("band ")))
    return told("{part} band {number}, {name}", part=word(band.part), number=band.index + 1, name=name)


def name_of(band: WovenBand) -> str:
    """The designer's own name for a band; for one without, its number."""
    name = band.name.strip()
    return told("band {number}", number=int(name.removeprefix("band "))) if UNNAMED.fullmatch(name) else name
