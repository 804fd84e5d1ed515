"""The numbers a buyer works by, one by one: what each is called, its value, and how a booklet prints it.

Two lists of one pattern are compared number by number through the keys, which do not depend on order or remarks.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from slath.quantities.results import BandRow, Finished, Piece, Purchase, Quantities, StrandRun
from slath.units import printing
from slath.units.printing import First

Key = tuple[str, ...]
_SAME_SHARE = 1e-9  # of a value: what two reckonings of one number may differ by


class Fact(Struct, frozen=True):
    """One number of one size. `key` is its identity, `part` what it belongs to, `what` the number of it that is meant.

    `value` is in mm, g or pieces, unrounded; `printed` is how a booklet gives it.
    """

    key: Key
    part: str
    what: str
    value: float
    printed: str

    def agrees(self, other: Fact) -> bool:
        """Whether both are the same number, however each was printed."""
        return abs(self.value - other.value) <= _SAME_SHARE * max(abs(self.value), abs(other.value), 1.0)


def facts_of(found: Quantities, first: First) -> tuple[Fact, ...]:
    """Every number of one size's list that is printed for a buyer, in the order of the booklet."""
    return tuple(replace(fact, value=float(fact.value)) for fact in _one_by_one(found, first))


def _one_by_one(found: Quantities, first: First) -> Iterator[Fact]:
    for row in found.counts:
        yield Fact(("count", row.name), row.name, "count", row.amount.value, _count(row.amount.value))
    yield from _finished(found.finished, lambda mm: printing.both(mm, first), lambda g: printing.both_mass(g, first))
    met: Counter[Key] = Counter()
    for piece in found.pieces:
        yield from _piece(piece, met, first)
    for band in found.bands:
        yield from _band(band, met, first)
    for run in found.strands:
        yield from _strand(run, met, first)
    for bought in found.purchase:
        yield from _bought(bought, first)


def _finished(found: Finished, length: Callable[[float], str], mass: Callable[[float], str]) -> Iterator[Fact]:
    rows = (
        ("base length", found.base_length),
        ("base width", found.base_width),
        ("rim length", found.rim_length),
        ("rim width", found.rim_width),
        ("height", found.height),
        ("height with handle", found.height_with_handle),
        ("height with parts", found.height_with_parts),
        ("weight", found.mass_g),
    )
    for what, amount in rows:
        if amount is not None and amount.value:
            told = (mass if amount.unit == "g" else length)(amount.value)
            yield Fact(("finished", what), "finished basket", what, amount.value, told)


def _piece(piece: Piece, met: Counter[Key], first: First) -> Iterator[Fact]:
    """Pieces of one part and material that are cut to several lengths are told apart by their order, longest first."""
    key = _told_apart(("cut", piece.part, piece.material), met)
    spare = f" + {piece.spare} spare" if piece.spare else ""
    many = piece.count.value + piece.spare
    yield Fact((*key, "count"), piece.part, "how many", many, f"{_count(piece.count.value)}{spare}")
    length = piece.cut_mm.value
    yield Fact((*key, "length"), piece.part, "cut to", length, printing.both(length, first))


def _told_apart(key: Key, met: Counter[Key]) -> Key:
    """A key with how often it has been met, so that the same name given twice stays two things."""
    met[key] += 1
    return (*key, str(met[key]))


def _band(band: BandRow, met: Counter[Key], first: First) -> Iterator[Fact]:
    key = _told_apart(("band", band.part, band.name), met)
    part = f"{band.part}, {band.name}"
    yield Fact((*key, "rounds"), part, "rounds", band.rounds.value, _count(band.rounds.value))
    yield Fact((*key, "along"), part, "measured along", band.along.value, printing.both(band.along.value, first))


def _strand(run: StrandRun, met: Counter[Key], first: First) -> Iterator[Fact]:
    key = _told_apart(("weave", run.part, run.band, run.material), met)
    part = f"{run.part}, {run.band}, {run.material}"
    length = run.length_mm.value
    yield Fact((*key, "length"), part, "takes", length, printing.both_long(length, first, up=True))
    yield Fact((*key, "strands"), part, "strands", run.rods, str(run.rods))


def _bought(bought: Purchase, first: First) -> Iterator[Fact]:
    key, part = ("buy", bought.material), f"to buy, {bought.title or bought.material}"
    length = bought.buy_mm.value
    if bought.rods is not None:
        yield Fact((*key, "rods"), part, "rods", bought.rods.value, _count(bought.rods.value))
    else:
        yield Fact((*key, "length"), part, "length", length, printing.both_long(length, first, up=True))
    for pack in bought.packs:
        yield Fact((*key, "packs", pack.title), part, pack.title, pack.count, str(pack.count))


def _count(value: float) -> str:
    return f"{value:.0f}"
