"""How a stock is sold, and the packs that bring what is needed: pieces laid into the lengths each pack holds."""

from __future__ import annotations

import math

from msgspec import Struct

from slath.quantities.nesting import nest
from slath.quantities.packs import Choice, Filled, choose_packs, one_currency, rank
from slath.quantities.pooling import Pool
from slath.trade.stock import Pack, Stock
from slath.units import Amount, Basis, worked

_HAIR = 1e-9
_ROD = 1.01  # a pack no longer than this share of one length of the stock is one length of it


class Sold(Struct, frozen=True):
    """What has to be bought: its length, the lengths it comes in (None where it runs on), the packs, and what they hold."""

    buy: Amount
    lengths: Amount | None
    choice: Choice
    held_mm: float


class _Need(Struct, frozen=True):
    """What has to be bought of lengths `each_mm` long; `lengths` may end in a part of one, where weaving is joined on."""

    each_mm: float
    lengths: float


def sold_by_the_rod(stock: Stock) -> float | None:
    """The length of one rod (mm) where the stock is sold rod by rod; None where it comes in coils, hanks or by mass."""
    usual = stock.usual_length_mm
    if usual is None or not stock.packs or any(pack.mass_g and not pack.pieces for pack in stock.packs):
        return None
    lengths = [pack.length_mm or usual for pack in stock.packs if pack.length_mm or pack.pieces]
    return max(lengths) if lengths and max(lengths) <= usual * _ROD else None


def packs_for(pool: Pool, length: Amount, *, count: int | None = None) -> Sold:
    """The packs that hold what a pool takes; `count`: so many rods or boards, whatever their length."""
    stock, path = pool.stock, pool.first.path
    name = f"{pool.title} to buy"
    if count is not None:
        each = stock.length_class_mm or 0.0
        choice = choose_packs(
            count, [Filled(pack, pack.pieces or (1 if pack.length_mm else 0)) for pack in stock.packs]
        )
        held = math.fsum(kind.holds * number for kind, number in choice) * each
        if not each:
            return Sold(Amount(name, length.value, "mm", length.basis, path=path), None, choice, held)
        number = Amount("rods to buy", count, "count", length.basis)
        rod = Amount("length of a rod", each, "mm", stock.length_basis, stock.length_source)
        buy = worked(name, count * each, "mm", "(rods - rods in hand) × length of a rod", number, rod, path=path)
        return Sold(buy, number, choice, held)
    return _by_length(pool, length, name)


def _by_length(pool: Pool, length: Amount, name: str) -> Sold:
    """Of all the lengths the stock comes in, those whose packs cost least, or leave least over."""
    stock, path = pool.stock, pool.first.path
    besides = max(length.value - math.fsum(pool.whole_mm) - pool.joined_mm, 0.0)
    kinds: dict[float | None, list[Filled]] = {}
    for pack in stock.packs:
        each, holds = _holds(stock, pack)
        if holds > 0:
            kinds.setdefault(each, []).append(Filled(pack, holds))
    priced = one_currency([kind.pack for found in kinds.values() for kind in found])
    offers: list[tuple[tuple[float, float, int], _Need | None, Choice]] = []
    for each, found in kinds.items():
        need = _need(pool, each, besides) if each else None
        choice = choose_packs(need.lengths if need else _running_mm(pool, length), found)
        offers.append((rank(choice, priced=priced, each=each or 1.0), need, choice))
    if offers:
        _, need, choice = min(offers, key=lambda offer: offer[0])
    else:
        need, choice = (_need(pool, stock.usual_length_mm, besides) if stock.usual_length_mm else None), ()
    held = math.fsum(kind.holds * number for kind, number in choice) * (need.each_mm if need else 1.0)
    if need is None:
        formula = "taken - in hand" if pool.have_mm else "taken"
        return Sold(worked(name, _running_mm(pool, length), "mm", formula, length, path=path), None, choice, held)
    each_amount = Amount(
        "length as sold", need.each_mm, "mm", max(stock.length_basis, Basis.GIVEN), stock.length_source
    )
    formula = "lengths the pieces are cut from, less those in hand + weaving"
    buy = worked(name, need.lengths * need.each_mm, "mm", formula, length, each_amount, path=path)
    number = worked("lengths to buy", math.ceil(need.lengths - _HAIR), "count", formula, length, each_amount, path=path)
    return Sold(buy, number, choice, held)


def _running_mm(pool: Pool, length: Amount) -> float:
    return max(length.value - (pool.have_mm or 0.0), 0.0)


def _need(pool: Pool, each_mm: float, besides_mm: float) -> _Need:
    """Whole pieces laid into lengths, those in hand first; weaving takes the lengths in hand that are left, then new ones.

    What is in hand is taken to be in lengths as sold, and one shorter, but for what was measured length by length.
    """
    whole, rest = divmod((pool.have_mm or 0.0) - math.fsum(pool.measured_mm), each_mm)
    hand = [*pool.measured_mm, *[each_mm] * int(whole), *([rest] if rest > _HAIR else [])]
    plan = nest(pool.whole_mm, each_mm, hand)
    spent = math.fsum(cut.length_mm for cut in plan.from_hand)
    joined = max(pool.joined_mm + besides_mm - (math.fsum(hand) - spent), 0.0)
    over = sum(math.ceil(piece / each_mm - _HAIR) for piece in plan.too_long_mm)
    return _Need(each_mm, len(plan.to_buy) + over + joined / each_mm)


def _holds(stock: Stock, pack: Pack) -> tuple[float | None, float]:
    """The length of one length in a pack, and how many; or None and the length it holds, where that runs on."""
    usual = stock.usual_length_mm
    if pack.length_mm and (pack.pieces or usual is None or pack.length_mm <= usual * _ROD):
        return pack.length_mm, pack.pieces or 1
    held = pack.length_mm or 0.0
    if not held and pack.mass_g and stock.grams_per_metre:
        held = pack.mass_g / stock.grams_per_metre * 1000
    if usual is None:
        return None, held
    return usual, pack.pieces if pack.pieces and not held else held / usual
