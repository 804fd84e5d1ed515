"""Tables with a row for an item and a column for a size, and the words of several sizes in one cell or line."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import cached_property

from msgspec import Struct

from slath.basket.model import Basket
from slath.booklet.blocks import Chip, Column, Measure, Row, Second, SizeRing, Strong, Words
from slath.booklet.reading import NO_BREAK
from slath.language.pattern import Board, Outline
from slath.messages import Voice, message
from slath.quantities.results import Quantities
from slath.wording.speech import sentence_case
from slath.wording.stuff import lettered, title_said

NOTHING = "–"
IN_ENGLISH = Voice({})


class Measured(Struct, frozen=True, dict=True):
    """One size with its list, of ``of`` sizes the pattern has."""

    basket: Basket
    quantities: Quantities
    of: int = 1
    voice: Voice = IN_ENGLISH

    @property
    def name(self) -> str:
        """The size's name."""
        return self.basket.size

    @cached_property
    def lettered(self) -> frozenset[str]:
        """Materials told apart by their letters."""
        return lettered(self.basket)

    def title(self, key: str) -> Words:
        """A material as it stands in a table: its letter on its colour if it is woven, then its title."""
        material = self.basket.pattern.materials[key]
        named = self.voice.text(message("stuff.named", title=title_said(material)))
        return (Chip(material.colour, material.letter), f"{NO_BREAK}{named}") if key in self.lettered else named

    def short_title(self, key: str) -> Words:
        """The same without what its title says in brackets, for where it is said again."""
        material = self.basket.pattern.materials[key]
        named = self.voice.text(message("stuff.named", title=title_said(material, whole=False)))
        return (Chip(material.colour, material.letter), f"{NO_BREAK}{named}") if key in self.lettered else named

    def board(self, part: str) -> Outline | None:
        """The outline of a board, if that is what `part` is."""
        of = next((one.basket for one in self.basket.apart if part.startswith(one.name)), self.basket)
        spec = of.base.spec
        return spec.outline if part.endswith("board") and isinstance(spec, Board) else None


class Pair(Struct, frozen=True):
    """A measure as printed in two units: the first number and its unit, the second and its unit; words round them."""

    first: str
    first_unit: str = ""
    second: str = ""
    second_unit: str = ""
    before: str = ""
    after: str = ""

    @property
    def units(self) -> tuple[str, str]:
        """Both units."""
        return self.first_unit, self.second_unit

    def told(self, *, bare: bool = False) -> Words:
        """The measure for a cell, the unit that is worked by in bold and the other after it; without units if `bare`."""
        first = self.first if bare or not self.first_unit else f"{self.first} {self.first_unit}"
        second = self.second if bare else f"{self.second} {self.second_unit}"
        if not self.second:
            return (Strong(Measure(first)),)
        lead = (Strong(self.before), Strong(Measure(first))) if self.before else (Strong(Measure(first)),)
        return (*lead, " ", Second(Measure(second)), *((self.after,) if self.after else ()))


_PAIR = re.compile(
    r"(?P<before>(?:.*[^\W\d],? )??)(?P<first>[^()A-Za-z]*\d[^()A-Za-z]*?) (?P<first_unit>[^\s\d()]+) "
    r"\((?P<second>[^()]*\d[^()]*) (?P<second_unit>[^\s\d()]+)\)(?P<after>.*)"
)


def pair_of(printed: str) -> Pair:
    """A measure printed as ``9 1/2 in (241 mm)``, with words round it or not, or in one unit, or words alone, as a pair."""
    found = _PAIR.fullmatch(printed)
    return Pair(**found.groupdict()) if found else Pair(printed)


def size_head(size: Measured, among: int) -> Words:
    """The name of a size over its column, with a ring to fill in; the ring is filled where this size alone is told."""
    if size.of == 1:
        return sentence_case(size.name)
    return (SizeRing(filled=among == 1), size.name)


def size_columns(sizes: Sequence[Measured], unit: str = "") -> tuple[Column, ...]:
    """A column for each size."""
    after = (Second(f" {unit}"),) if unit else ()
    heads = (size_head(size, len(sizes)) for size in sizes)
    return tuple(Column((*(head if isinstance(head, tuple) else (head,)), *after), align="centre") for head in heads)


def shared_unit(rows: Sequence[Sequence[str]]) -> str:
    """The units all measures of a table are in, such as ``in, mm``; nothing if they differ."""
    pairs = [pair_of(cell) for row in rows for cell in row if cell]
    units = {pair.units for pair in pairs}
    if len(units) != 1 or any(pair.before or pair.after for pair in pairs):
        return ""
    first, second = next(iter(units))
    return f"{first}, {second}" if first and second else ""


def cells(printed: Sequence[str], *, bare: bool) -> tuple[Words, ...]:
    """The cells of one row, a dash where a size has none."""
    return tuple(pair_of(cell).told(bare=bare) if cell else NOTHING for cell in printed)


def row_of(name: Words, printed: Sequence[str], *, bare: bool = False, before: tuple[Words, ...] = ()) -> Row:
    """One row: what it is, then a cell a size."""
    return Row((*before, name, *cells(printed, bare=bare)))


def by_size(sizes: Sequence[Measured], value: Callable[[Measured], str]) -> list[str]:
    """What is printed for every size."""
    return [value(size) for size in sizes]


def in_one(printed: Sequence[str]) -> str:
    """The same thing of several sizes: once if it is alike, else size by size: ``34, 38 or 42``."""
    told = [cell for cell in printed if cell]
    if len(set(told)) <= 1:
        return told[0] if told else ""
    return f"{', '.join(told[:-1])} or {told[-1]}"


def measures_in_one(printed: Sequence[str]) -> str:
    """Measures of several sizes in one line, each unit once: ``9, 11 or 12 1/2 in (229, 279 or 318 mm)``."""
    pairs = [pair_of(cell) for cell in printed if cell]
    if len(set(printed)) <= 1 or len({(pair.units, pair.before, pair.after) for pair in pairs}) > 1 or pairs[0].before:
        return in_one(printed)
    first, second = (in_one([getattr(pair, side) for pair in pairs]) for side in ("first", "second"))
    units = pairs[0].units
    return f"{first} {units[0]} ({second} {units[1]}){pairs[0].after}" if units[1] else first
