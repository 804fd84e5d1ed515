"""Soaking: what books and growers say, each with its source, because they differ; of willow, by the length of the rod."""

from __future__ import annotations

from functools import cache
from typing import Any

from msgspec import Struct

from slath.trade.sources import Source, source
from slath.trade.stock import Stock
from slath.trade.tables import read_table
from slath.units.counting import duration, in_words
from slath.units.names import FOOT_MM


class SoakingAdvice(Struct, frozen=True):
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


_DAY = 24 * 60  # minutes


class RodSoak(Struct, frozen=True):
    """How long rods of one length soak, and how long they mellow afterwards, wrapped; minutes."""

    minutes: float
    mellow_minutes: float
    source: Source

    @property
    def words(self) -> str:
        """As printed: ``soak an hour and a half``, ``soak about five days, then mellow a day``."""
        if not self.days:
            return f"soak {duration(self.quarter_hours)}"
        mellow = f", then mellow {_days(self.mellow_days)}" if self.mellow_days else ""
        return f"soak about {_days(self.days)}{mellow}"

    @property
    def days(self) -> int:
        """Whole days of soaking, the nearest; none under one day."""
        return max(1, round(self.minutes / _DAY)) if self.minutes >= _DAY else 0

    @property
    def mellow_days(self) -> int:
        """Whole days of mellowing; none if they do not mellow."""
        return max(1, round(self.mellow_minutes / _DAY)) if self.mellow_minutes else 0

    @property
    def quarter_hours(self) -> int:
        """Minutes of soaking to the quarter of an hour."""
        return round(self.minutes / 15) * 15


def rod_soak(name: str, length_mm: float) -> RodSoak:
    """How long willow rods of a stock called `name` soak: a grower's table, by length; brown takes days, buff hours."""
    row = next((row for row in _rod_table() if set(row["rods"]) & set(name.casefold().split())), _rod_table()[0])
    (short, least), (tall, most) = sorted(row["minutes"].items())
    feet = length_mm / FOOT_MM
    minutes = least + (most - least) * (feet - short) / (tall - short)
    return RodSoak(max(minutes, least / 2), row["mellow_minutes"], source(row["source"]))


@cache
def _rod_table() -> list[dict[str, Any]]:
    """Brown before the rest: a name may hold both words (brown willow)."""
    rows: list[dict[str, Any]] = read_table("willow")
    return sorted(rows, key=lambda row: "brown" not in row["rods"])


def _days(days: int) -> str:
    return "a day" if days == 1 else f"{in_words(days)} days"
