"""What to buy for a whole class: one row for each thing in the shop, whatever the patterns call it, packs rounded once.

Material dyed at home is bought with the natural of its stock. What is in hand is taken off: dyed first off its own dye,
natural off everything that begins natural.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.rods import butt_mm
from slath.classes.kits import Kit
from slath.classes.record import InHand
from slath.classes.roster import Roster
from slath.language.materials import NATURAL
from slath.language.pattern import Material
from slath.quantities.pooling import Pool
from slath.quantities.purchase import purchase_of
from slath.quantities.results import Piece, Purchase, StrandRun
from slath.trade.stock import Stock
from slath.trade.stock_words import stock_words
from slath.units import Basis

UNDYED = "natural"


class ToBuy(Struct, frozen=True):
    """One row of the shopping list. `dyes` says what length of it each dye takes, natural under “natural”.

    `dye` is the colour it is bought in, empty for natural. `by_use` is what the length used costs at the packs' price.
    """

    stock: Stock
    dye: str
    purchase: Purchase
    dyes: tuple[tuple[str, float], ...]
    suppliers: tuple[str, ...]
    by_packs: float | None
    by_use: float | None
    currency: str

    @property
    def title(self) -> str:
        """What is asked for in the shop."""
        return f"{stock_words(self.stock)}, {self.dye}" if self.dye else stock_words(self.stock)


class Cost(Struct, frozen=True):
    """What a class costs in one currency: all packs, and the share of them that is used; and how many pay for it."""

    currency: str
    by_packs: float
    by_use: float
    people: int

    @property
    def a_head_by_packs(self) -> float:
        """All packs, shared out."""
        return self.by_packs / self.people

    @property
    def a_head_by_use(self) -> float:
        """What is used, shared out."""
        return self.by_use / self.people


class Shopping(Struct, frozen=True, dict=True):
    """The shopping list of a class. `unpriced` are the titles of what has no price."""

    rows: tuple[ToBuy, ...]
    costs: tuple[Cost, ...]
    unpriced: tuple[str, ...]


class _Taken(Struct, frozen=True):
    """Pieces and strands of one stock in one dye, and how much of a rod serves for sticks."""

    stock: Stock
    dye: str
    pieces: tuple[Piece, ...]
    runs: tuple[StrandRun, ...]
    butt_mm: float
    colour: str


def shopping_of(roster: Roster, kits: Iterable[Kit]) -> Shopping:
    """What to buy for all these kits."""
    taken = _taken(roster, kits)
    together: dict[tuple[str, str], list[_Taken]] = {}
    for one in taken:
        together.setdefault((one.stock.name, "" if roster.record.dyed_at_home else one.dye), []).append(one)
    rows = tuple(_row(ones, dye, roster.in_hand) for (_, dye), ones in together.items())
    people = len(roster.record.people)
    costs = [
        Cost(
            currency,
            math.fsum(row.by_packs for row in rows if row.currency == currency and row.by_packs is not None),
            math.fsum(row.by_use for row in rows if row.currency == currency and row.by_use is not None),
            people,
        )
        for currency in dict.fromkeys(row.currency for row in rows if row.by_packs is not None)
    ]
    unpriced = tuple(row.title for row in rows if row.by_packs is None and row.purchase.buy_mm.value > 0)
    return Shopping(rows, tuple(costs), unpriced)


def _taken(roster: Roster, kits: Iterable[Kit]) -> tuple[_Taken, ...]:
    """Everything that is made, by stock and dye. The teacher's own measure of a stock stands in place of the usual."""
    pieces: dict[tuple[str, str], list[Piece]] = {}
    runs: dict[tuple[str, str], list[StrandRun]] = {}
    materials: dict[tuple[str, str], tuple[Material, float]] = {}
    for kit in kits:
        for piece in kit.pieces:
            pieces.setdefault(_noted(materials, kit, piece.material), []).append(piece)
        for run in kit.runs:
            runs.setdefault(_noted(materials, kit, run.material), []).append(run)
    return tuple(
        _Taken(
            _as_measured(material.stock, roster.lengths_sold.get(material.stock.name)),
            material.dye or "",
            tuple(replace(piece, material=dye or UNDYED) for piece in pieces.get((stock, dye), ())),
            tuple(replace(run, material=dye or UNDYED) for run in runs.get((stock, dye), ())),
            butt,
            material.colour,
        )
        for (stock, dye), (material, butt) in materials.items()
    )


def _noted(materials: dict[tuple[str, str], tuple[Material, float]], kit: Kit, key: str) -> tuple[str, str]:
    material = kit.material(key)
    found = (material.stock.name, material.dye or "")
    materials.setdefault(found, (material, butt_mm(material, kit.size.basket.pattern)))
    return found


def _as_measured(stock: Stock, length_mm: float | None) -> Stock:
    if length_mm is None:
        return stock
    return replace(
        stock, usual_length_mm=length_mm, length_basis=Basis.MEASURED, length_source="the teacher's own measure"
    )


def _row(ones: Sequence[_Taken], dye: str, in_hand: Sequence[InHand]) -> ToBuy:
    """One row: the materials bought as one in the colour `dye`, with what is in hand of each."""
    stock = ones[0].stock
    ones = sorted(ones, key=lambda one: bool(one.dye))  # natural speaks for all; a stable sort
    begun = [each for each in in_hand if (each.stock.name, each.dye) == (stock.name, dye)]
    measured = tuple(length for each in begun if each.measured for length in each.lengths_mm)
    materials = [_material(one, _have_dyed(one, in_hand) if one.dye != dye else None) for one in ones]
    if begun:
        have = (materials[0].have_mm or 0.0) + _have(begun, stock) - math.fsum(measured)
        materials[0] = replace(materials[0], have_mm=have)
    pool = Pool(
        tuple(materials),
        tuple(piece for one in ones for piece in one.pieces),
        tuple(run for one in ones for run in one.runs),
        max(one.butt_mm for one in ones),
        measured,
    )
    return _priced(stock, dye, purchase_of(pool))


def _have_dyed(one: _Taken, in_hand: Sequence[InHand]) -> float | None:
    """What is in hand of a dye already, so far as the class needs it: it is of no use to another colour."""
    hand = [each for each in in_hand if (each.stock.name, each.dye) == (one.stock.name, one.dye)]
    return min(_have(hand, one.stock), _length(one)) if hand else None


def _have(hand: Iterable[InHand], stock: Stock) -> float:
    """All that is in hand as a length; rods at the length they are sorted by."""
    return math.fsum(math.fsum(each.lengths_mm) + each.rods * (stock.length_class_mm or 0.0) for each in hand)


def _length(one: _Taken) -> float:
    pieces = math.fsum((piece.count.value + piece.spare) * piece.cut_mm.value for piece in one.pieces)
    return pieces + math.fsum(run.length_mm.value + run.spare_mm.value for run in one.runs)


def _material(one: _Taken, have_mm: float | None) -> Material:
    return Material(
        key=one.dye or UNDYED,
        path=(),
        stock=one.stock,
        title=stock_words(one.stock),
        dye=one.dye or None,
        colour=one.colour if one.dye else NATURAL,
        have_mm=have_mm,
        bought_natural=bool(one.dye),
    )


def _priced(stock: Stock, dye: str, purchase: Purchase) -> ToBuy:
    """The row with its suppliers and costs: all of the packs, and what is used at their price."""
    chosen = [pack for pack in stock.packs if any(count.title == pack.title for count in purchase.packs)]
    cost = purchase.cost.value if purchase.cost is not None else None
    currency = purchase.packs[0].currency if cost is not None and purchase.packs else ""
    surplus = purchase.surplus_mm.value if purchase.surplus_mm is not None else 0.0
    held = purchase.buy_mm.value + surplus
    by_use = None
    if cost is not None and held > 0:
        by_use = cost * purchase.length_mm.value / held
    return ToBuy(
        stock,
        dye,
        purchase,
        tuple((share.material, share.length_mm.value) for share in purchase.shares),
        tuple(dict.fromkeys(pack.supplier for pack in chosen if pack.supplier)),
        cost,
        by_use,
        currency,
    )
