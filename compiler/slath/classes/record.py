"""A class file as read: who makes what, when, with what in hand. Plain records; millimetres, grams, minutes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Literal

from msgspec import Struct, field

from slath.language.colourways import Colourway
from slath.language.places import Path
from slath.notes import Place
from slath.trade.stock import Stock

Prints = Literal["handout", "large print", "bench cards", "text", "web page"]
AS_WRITTEN = ""  # the colourway of who names none: as in the pattern


class Person(Struct, frozen=True):
    """One person of the class and what they make. `named` is False while only a count is known."""

    name: str
    makes: str
    size: str
    colourway: str
    left_handed: bool
    prints: Prints
    path: Path
    named: bool = True


class Share(Struct, frozen=True):
    """So many for each person, or a share of them all (0.15)."""

    each: int = 0
    share: float = 0.0


class Spares(Struct, frozen=True):
    """What is kept in hand for the whole class. `given`: in place of the spares the booklets list."""

    given: bool = False
    kits: int = 0
    sticks: Share = field(default_factory=Share)
    stakes: Share = field(default_factory=Share)
    other: Share = field(default_factory=Share)
    strands: float = 0.0
    dyed: float = 0.0


class InHand(Struct, frozen=True):
    """What the teacher has of a stock in a dye (empty: natural): lengths in mm, or rods counted."""

    stock: Stock
    dye: str
    lengths_mm: tuple[float, ...]
    rods: int
    measured: bool  # the lengths are those of single pieces


class Hours(Struct, frozen=True):
    """One sitting of a day, in minutes after midnight."""

    start: int
    end: int


class Money(Struct, frozen=True):
    """A sum in one currency."""

    amount: float
    currency: str


class LabelGrid(Struct, frozen=True):
    """The grid of a sheet of labels, in mm."""

    sheet: str = "a4"
    across: int = 2
    down: int = 5
    width: float = 99.0
    height: float = 57.0
    left: float = 6.0
    top: float = 6.0
    gap_across: float = 0.0
    gap_down: float = 0.0

    @property
    def on_a_sheet(self) -> int:
        """How many labels a sheet holds."""
        return self.across * self.down

    def corner(self, place: int) -> tuple[float, float]:
        """Left and top, in mm, of the label at a place counted along the rows from 0."""
        row, column = divmod(place, self.across)
        return self.left + column * (self.width + self.gap_across), self.top + row * (self.height + self.gap_down)


class ClassFile(Struct, frozen=True):
    """A whole class file. `patterns` are files by the name the class gives them; `lead` days by supplier."""

    file: str
    title: str
    teacher: str
    place: str
    about: str
    patterns: Mapping[str, str]
    days: tuple[dt.date, ...]
    hours: tuple[Hours, ...]
    spares: Spares
    lead: Mapping[str, int]
    dyed_at_home: bool
    pan_g: float | None
    colourways: Mapping[tuple[str, str], Colourway]
    people: tuple[Person, ...]
    fee: Money | None
    labels: LabelGrid
    places: Mapping[Path, tuple[Place, Place]]

    def place_of(self, path: Path, *, at_key: bool = False) -> Place:
        """The place of a value (or key), or of the nearest thing round it that stands in the file."""
        while path:
            if path in self.places:
                return self.places[path][0 if at_key else 1]
            path = path[:-1]
        return Place(self.file, 1, 1)
