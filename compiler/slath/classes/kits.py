"""Kits: what each person is given, exactly as their handout lists it; spares, once; and the sum of them all, piece by piece.

Where the class file says what is spare, the handouts list nothing spare and it is kept in hand for the whole class;
otherwise a kit holds the spares of its booklet.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.classes.record import Person, Share, Spares
from slath.classes.roster import Roster
from slath.language.pattern import Material
from slath.pipeline import CompiledSize
from slath.quantities.results import Piece, StrandRun
from slath.trade.stock import Stock
from slath.units import Amount, Basis

_HAIR = 1e-9
SPARE_KIT, SPARES = "Spare kit", "Spares"


class Kit(Struct, frozen=True):
    """Pieces and strands for one basket, or spare ones of one kind of basket. `person` is None for what is spare."""

    name: str
    person: Person | None
    title: str
    size: CompiledSize
    pieces: tuple[Piece, ...]
    runs: tuple[StrandRun, ...]

    def material(self, key: str) -> Material:
        """A material of this basket, in the colours of the kit."""
        return self.size.basket.pattern.materials[key]

    @property
    def lines(self) -> tuple[Line, ...]:
        """What is counted into the kit, line by line in the order it is listed."""
        return (*_piece_lines(self), *_strand_lines(self))

    @property
    def mass_g(self) -> float | None:
        """What the kit weighs, dry; None where a stock in it has no known mass."""
        masses = [line.mass_g for line in self.lines]
        return math.fsum(mass for mass in masses if mass is not None) if all(m is not None for m in masses) else None

    @property
    def weighed_on(self) -> Basis:
        """What the weight rests on."""
        return max((self.material(line.key).stock.mass_basis for line in self.lines), default=Basis.COUNTED)


class Line(Struct, frozen=True):
    """So many of one thing: pieces of a part cut to a length, or lengths of weaving material.

    `length_mm` is that of one; `total_mm` of all of them, of weaving material what is handed out, spare included.
    """

    part: str
    key: str
    material: Material
    count: int
    length_mm: float
    total_mm: float
    whole: bool  # cut to its length before the day; else measured off and cut while weaving
    rods: int = 0  # of tapering rods, which are counted and not measured
    each_g: float | None = None

    @property
    def stock(self) -> Stock:
        """What it is made of."""
        return self.material.stock

    @property
    def dye(self) -> str:
        """Its dye; empty for natural."""
        return self.material.dye or ""

    @property
    def mass_g(self) -> float | None:
        """What all of it weighs, dry; None where the stock's mass is not known."""
        if self.each_g is not None:
            return self.count * self.each_g
        if self.stock.grams_per_metre is None:
            return None
        return self.total_mm / 1000 * self.stock.grams_per_metre


def _piece_lines(kit: Kit) -> Iterator[Line]:
    for piece in kit.pieces:
        count = round(piece.count.value) + piece.spare
        if count:
            mass = piece.mass_g.value if piece.mass_g is not None else None
            length = piece.cut_mm.value
            material = kit.material(piece.material)
            yield Line(piece.part, piece.material, material, count, length, count * length, whole=True, each_g=mass)


def _strand_lines(kit: Kit) -> Iterator[Line]:
    """Weaving material by colour: one bundle each, whatever bands it goes into."""
    for key in dict.fromkeys(run.material for run in kit.runs):
        runs = [run for run in kit.runs if run.material == key]
        total = math.fsum(run.length_mm.value + run.spare_mm.value for run in runs)
        material = kit.material(key)
        longest = max(run.piece_mm.value for run in runs)
        rods = sum(_rods(run) for run in runs) if material.stock.tapered else 0
        yield Line("weaving", key, material, 1, longest, total, whole=False, rods=rods)


def _rods(run: StrandRun) -> int:
    share = run.spare_mm.value / run.length_mm.value if run.length_mm.value else 0.0
    return round(run.pieces.value) + math.ceil(run.pieces.value * share - _HAIR)


# --------------------------------------------------------------------------------------------------------- the class
class Kits(Struct, frozen=True, dict=True):
    """Everything that is made ready: a kit for each person, whole spare kits, and what else is spare."""

    people: tuple[Kit, ...]
    spare: tuple[Kit, ...]

    @property
    def all(self) -> tuple[Kit, ...]:
        """Kits and spares, in the order they are made up."""
        return (*self.people, *self.spare)


def kits_of(roster: Roster) -> Kits:
    """The kits of a class, and its spares."""
    spares = roster.record.spares
    people = tuple(_kit(roster, person, person.name) for person in roster.record.people)
    return Kits(people, (*_spare_kits(roster, people, spares), *_spare_pieces(people, spares)))


def _kit(roster: Roster, person: Person, name: str) -> Kit:
    size = roster.size(person)
    found = size.quantities
    return Kit(name, person, roster.pattern(person).title, size, found.pieces, found.strands)


def _spare_kits(roster: Roster, people: Sequence[Kit], spares: Spares) -> Iterator[Kit]:
    """Whole kits of each pattern, as most people make it; of two made by as many, the one first on the list."""
    number = 0
    for makes in dict.fromkeys(kit.person.makes for kit in people if kit.person):
        chosen = [kit.person for kit in people if kit.person and kit.person.makes == makes]
        counted = Counter((person.size, person.colourway) for person in chosen)
        most = max(counted, key=lambda way: counted[way])
        like = next(person for person in chosen if (person.size, person.colourway) == most)
        for _ in range(spares.kits):
            number += 1
            yield replace(_kit(roster, like, f"{SPARE_KIT} {number}"), person=None)


def _spare_pieces(people: Sequence[Kit], spares: Spares) -> Iterator[Kit]:
    """Spare pieces and weaving material, once for all who make the same basket."""
    alike: dict[tuple[str, str, str], list[Kit]] = {}
    for kit in people:
        if kit.person:
            alike.setdefault((kit.person.makes, kit.person.size, kit.person.colourway), []).append(kit)
    for kits in alike.values():
        first = kits[0]
        pieces = tuple(
            piece for piece in (_spare_piece(piece, len(kits), spares) for piece in first.pieces) if piece is not None
        )
        runs = tuple(
            run for run in (_spare_run(first, run, len(kits), spares) for run in first.runs) if run is not None
        )
        if pieces or runs:
            yield replace(first, name=SPARES, person=None, pieces=pieces, runs=runs)


def _spare_piece(piece: Piece, kits: int, spares: Spares) -> Piece | None:
    part = piece.part
    share: Share = spares.sticks if "stick" in part else spares.stakes if "stake" in part else spares.other
    each = round(piece.count.value)
    count = share.each * kits + math.ceil(share.share * each * kits - _HAIR)
    if part.endswith("board") or not count:
        return None
    return replace(piece, count=Amount(piece.count.name, count, "count", Basis.GIVEN), spare=0)


def _spare_run(kit: Kit, run: StrandRun, kits: int, spares: Spares) -> StrandRun | None:
    share = spares.dyed if kit.material(run.material).dye else spares.strands
    length = run.length_mm.value * share * kits
    if length <= 0:
        return None
    return replace(
        run,
        length_mm=replace(run.length_mm, value=length, inputs=(), formula="share of what is woven"),
        spare_mm=replace(run.spare_mm, value=0.0),
        pieces=replace(run.pieces, value=float(math.ceil(run.pieces.value * share * kits - _HAIR))),
    )


# -------------------------------------------------------------------------------------------------------- summed up
class Summed(Struct, frozen=True):
    """One line of the class list: all pieces of a part, stock, dye and length in the class, and whose they are."""

    line: Line
    count: int
    total_mm: float
    kits: tuple[str, ...]


def summed(kits: Iterable[Kit]) -> tuple[Summed, ...]:
    """The lines of all kits added up, whole pieces by whole numbers."""
    together: dict[tuple[str, str, str, float], list[tuple[Line, str]]] = {}
    for kit in kits:
        for line in kit.lines:
            key = (line.stock.name, line.dye, line.part, round(line.length_mm, 6) if line.whole else 0.0)
            together.setdefault(key, []).append((line, kit.name))
    return tuple(
        Summed(
            lines[0][0],
            sum(line.rods or line.count for line, _ in lines),
            math.fsum(line.total_mm for line, _ in lines),
            tuple(dict.fromkeys(name for _, name in lines)),
        )
        for lines in together.values()
    )
