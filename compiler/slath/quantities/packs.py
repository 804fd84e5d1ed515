"""Which packs to buy: the cheapest choice that covers the need, or the one that leaves least over."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from slath.trade.stock import Pack

_HAIR = 1e-9
_TRIED = 50  # counts of the bulk pack tried below the largest useful one; the rest differ only by more small packs


class Filled(Struct, frozen=True):
    """A kind of pack and how much it holds, in the unit of the need (mm, or whole rods)."""

    pack: Pack
    holds: float


Choice = tuple[tuple[Filled, int], ...]


def choose_packs(need: float, kinds: Sequence[Filled]) -> Choice:
    """The packs, of one or two kinds, that cover `need` at the least cost.

    Where a price is missing or currencies differ, the choice that leaves least over; then the fewest packs. Empty
    where nothing is needed or nothing is sold.
    """
    useful = [kind for kind in kinds if kind.holds > 0]
    if need <= 0 or not useful:
        return ()
    priced = one_currency([kind.pack for kind in useful])
    choices = [choice for bulk in useful for rest in useful for choice in _pairs(need, bulk, rest)]
    return min(choices, key=lambda choice: rank(choice, priced=priced))


def one_currency(packs: Sequence[Pack]) -> bool:
    """Whether every pack has a price and all in the same money, so that prices can be added and compared."""
    return all(pack.price is not None for pack in packs) and len({pack.currency for pack in packs}) == 1


def _pairs(need: float, bulk: Filled, rest: Filled) -> list[Choice]:
    most = _packs(need, bulk.holds)
    counts = [0, *range(max(1, most - _TRIED), most + 1)]
    return [_tidy(bulk, count, rest, _packs(need - count * bulk.holds, rest.holds)) for count in counts]


def _packs(need: float, holds: float) -> int:
    return max(0, math.ceil(need / holds - _HAIR))


def _tidy(bulk: Filled, bulk_count: int, rest: Filled, rest_count: int) -> Choice:
    if bulk is rest:
        return ((bulk, bulk_count + rest_count),)
    return tuple((kind, count) for kind, count in ((bulk, bulk_count), (rest, rest_count)) if count)


def rank(choice: Choice, *, priced: bool, each: float = 1.0) -> tuple[float, float, int]:
    """How dear a choice is, how much it holds (in units of `each`), how many packs it is: the least is the best."""
    holds = round(math.fsum(kind.holds * count for kind, count in choice) * each, 6)
    cost = round(math.fsum((kind.pack.price or 0.0) * count for kind, count in choice), 6) if priced else 0.0
    return cost, holds, sum(count for _, count in choice)
