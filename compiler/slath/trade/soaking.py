"""Soaking: what books and growers say, each with its source, because they differ."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from slath.trade.sources import source
from slath.trade.tables import read_table

if TYPE_CHECKING:
    from slath.trade.sources import Source
    from slath.trade.stock import Stock


@dataclass(frozen=True, slots=True)
class SoakingAdvice:
    """One source's word on soaking stocks of some kinds from one diameter (mm) up to another."""

    kinds: frozenset[str]
    from_mm: float
    to_mm: float
    minutes: tuple[int, int]
    water: str
    of: str
    source: Source

    def covers(self, stock: Stock) -> bool:
        """Whether this advice speaks of such a stock."""
        return stock.kind in self.kinds and self.from_mm <= stock.width_mm < self.to_mm


@cache
def soaking_advice() -> tuple[SoakingAdvice, ...]:
    """All advice, in the order it is printed."""
    return tuple(
        SoakingAdvice(
            frozenset(row["kinds"]), row["mm"][0], row["mm"][1], (row["minutes"][0], row["minutes"][1]), row["water"],
            row["of"], source(row["source"]),
        )
        for row in read_table("soaking")
    )  # fmt: skip


def advice_for(stock: Stock) -> tuple[SoakingAdvice, ...]:
    """Return every source's word on a stock; more than one where they disagree."""
    return tuple(advice for advice in soaking_advice() if advice.covers(stock))
