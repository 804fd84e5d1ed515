"""The cutting plan: which pieces are cut from which length as it is sold, for whom, the longest first."""

from __future__ import annotations

import math
from collections import defaultdict, deque
from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from slath.classes.kits import Kit, Line
from slath.classes.record import InHand
from slath.quantities.nesting import Cut, nest
from slath.trade.stock import Stock

LEAST_USE_MM = 300.0  # an offcut as long as this still serves for weaving or a lashing; estimated
_WHOLE = frozenset({"wood"})  # boards are sawn one by one


class CutPiece(Struct, frozen=True):
    """One piece to cut: its part, its length and whose it is."""

    part: str
    length_mm: float
    kit: str


class CutLength(Struct, frozen=True):
    """One length as it lies before the maker, what is cut from it in order, and what is left of it."""

    number: int
    length_mm: float
    in_hand: bool
    pieces: tuple[CutPiece, ...]
    left_mm: float

    @property
    def left_serves(self) -> bool:
        """Whether what is left is long enough to be kept for something."""
        return self.left_mm >= LEAST_USE_MM


class StockPlan(Struct, frozen=True):
    """How all pieces of one stock in one dye are cut. `too_long` are pieces longer than any length there is."""

    stock: Stock
    dye: str
    sold_mm: float
    measured: bool  # the teacher measured how long the lengths are; else as the stock is usually sold
    lengths: tuple[CutLength, ...]
    too_long: tuple[CutPiece, ...]

    @property
    def bought(self) -> int:
        """How many of the lengths have to be bought."""
        return sum(not length.in_hand for length in self.lengths)

    @property
    def left_mm(self) -> float:
        """What is left of all lengths."""
        return math.fsum(length.left_mm for length in self.lengths)


def cutting_plans(kits: Iterable[Kit], in_hand: Sequence[InHand], sold: Mapping[str, float]) -> tuple[StockPlan, ...]:
    """A plan for every stock that pieces are cut from; natural and dyed apart, since what is dyed is dyed whole.

    Tapering rods are cut one by one as they grew and boards are sawn singly, so that neither is here.
    """
    wanted: dict[tuple[str, str], list[CutPiece]] = defaultdict(list)
    stocks: dict[str, Stock] = {}
    for kit in kits:
        for line in kit.lines:
            if line.whole and not _one_by_one(line):
                stocks[line.stock.name] = line.stock
                wanted[line.stock.name, line.dye] += [CutPiece(line.part, line.length_mm, kit.name)] * line.count
    return tuple(_plan(stocks[name], dye, pieces, in_hand, sold.get(name)) for (name, dye), pieces in wanted.items())


def _one_by_one(line: Line) -> bool:
    return line.stock.kind in _WHOLE or line.stock.tapered


def _plan(
    stock: Stock, dye: str, pieces: Sequence[CutPiece], in_hand: Sequence[InHand], measured: float | None
) -> StockPlan:
    longest = max(piece.length_mm for piece in pieces)
    sold = measured or stock.usual_length_mm or longest
    hand = [
        length for one in in_hand if (one.stock.name, one.dye) == (stock.name, dye) for length in _lengths(one, sold)
    ]
    plan = nest([piece.length_mm for piece in pieces], sold, hand)
    waiting: dict[float, deque[CutPiece]] = defaultdict(deque)
    for piece in pieces:
        waiting[piece.length_mm].append(piece)
    lengths = [
        _cut(number, cut, waiting, in_hand=number <= len(plan.from_hand))
        for number, cut in enumerate((*plan.from_hand, *plan.to_buy), start=1)
    ]
    too_long = tuple(waiting[length].popleft() for length in plan.too_long_mm)
    return StockPlan(stock, dye, sold, measured is not None, tuple(lengths), too_long)


def _lengths(one: InHand, sold_mm: float) -> list[float]:
    """What is in hand as single lengths: as measured, or taken to be in lengths as sold and one shorter."""
    if one.measured:
        return list(one.lengths_mm)
    whole, rest = divmod(math.fsum(one.lengths_mm), sold_mm)
    return [sold_mm] * int(whole) + ([rest] if rest > 1.0 else [])


def _cut(number: int, cut: Cut, waiting: Mapping[float, deque[CutPiece]], *, in_hand: bool) -> CutLength:
    pieces = tuple(waiting[length].popleft() for length in cut.pieces_mm)
    return CutLength(number, cut.length_mm, in_hand, pieces, cut.left_mm)
