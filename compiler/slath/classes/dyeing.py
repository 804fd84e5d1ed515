"""What is dyed at home for a class: of each colour the lengths and the dry weight that go into one bath."""

from __future__ import annotations

import math
from collections.abc import Iterable

from msgspec import Struct

from slath.classes.kits import Kit, Line
from slath.classes.record import InHand
from slath.classes.roster import Roster
from slath.trade.stock import Stock
from slath.trade.teaching import getting_ready
from slath.units import Amount, Basis


class DyeLot(Struct, frozen=True):
    """Lengths of one stock that go into a bath: what the kits take less what is dyed already; mm and dry g."""

    stock: Stock
    needed_mm: float
    in_hand_mm: float

    @property
    def length_mm(self) -> float:
        """What is still to be dyed."""
        return max(self.needed_mm - self.in_hand_mm, 0.0)

    @property
    def mass_g(self) -> float | None:
        """What it weighs dry; None where the stock's mass is not known."""
        each = self.stock.grams_per_metre
        return None if each is None else self.length_mm / 1000 * each


class Dyeing(Struct, frozen=True):
    """One colour: its lots, and how many baths they are if a pan takes `pan`. `kits` are those it goes into."""

    dye: str
    lots: tuple[DyeLot, ...]
    pan: Amount
    kits: tuple[str, ...]

    @property
    def mass_g(self) -> float | None:
        """Dry weight of all of it; None where a stock's mass is not known."""
        masses = [lot.mass_g for lot in self.lots]
        return math.fsum(mass for mass in masses if mass is not None) if None not in masses else None

    @property
    def baths(self) -> int | None:
        """How many baths; None where the weight is not known."""
        return None if self.mass_g is None else math.ceil(self.mass_g / self.pan.value - 1e-9)


def dyeing_of(roster: Roster, kits: Iterable[Kit]) -> tuple[Dyeing, ...]:
    """Every colour that is still to be dyed, in the order the kits call for it; nothing where the class buys dyed."""
    if not roster.record.dyed_at_home:
        return ()
    by_dye: dict[str, dict[str, list[Line]]] = {}
    names: dict[str, dict[str, None]] = {}
    for kit in kits:
        for line in kit.lines:
            if line.dye:
                by_dye.setdefault(line.dye, {}).setdefault(line.stock.name, []).append(line)
                names.setdefault(line.dye, {})[kit.name] = None
    pan = getting_ready("pan")
    if roster.record.pan_g is not None:
        pan = Amount("pan", roster.record.pan_g, "g", Basis.GIVEN)
    found = (
        Dyeing(dye, tuple(_lot(dye, lines, roster.in_hand) for lines in stocks.values()), pan, tuple(names[dye]))
        for dye, stocks in by_dye.items()
    )
    return tuple(dyeing for dyeing in found if any(lot.length_mm > 0 for lot in dyeing.lots))


def _lot(dye: str, lines: list[Line], in_hand: Iterable[InHand]) -> DyeLot:
    stock = lines[0].stock
    have = math.fsum(math.fsum(one.lengths_mm) for one in in_hand if (one.stock.name, one.dye) == (stock.name, dye))
    needed = math.fsum(line.total_mm for line in lines)
    return DyeLot(stock, needed, min(have, needed))
