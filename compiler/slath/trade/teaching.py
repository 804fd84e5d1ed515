"""What a teacher knows of a day's work: how long stages take, their usual mistakes, how long getting ready takes."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Any

from msgspec import Struct

from slath.trade.sources import source
from slath.trade.tables import read_table
from slath.units import Amount


class StageTime(Struct, frozen=True):
    """How long a stage takes of a medium round basket: a beginner and an improver, and showing it; minutes.

    `rest`: the work may be left half done; how is in the language data.
    """

    key: str
    beginner: Amount
    improver: Amount
    show: float
    rest: bool


class Mistake(Struct, frozen=True):
    """A usual mistake of a stage; what it is, how it is seen, kept away and mended is in the language data under its key."""

    stage: str
    key: str
    source: str


@cache
def stage_times() -> Mapping[str, StageTime]:
    """Every stage by its key."""
    return MappingProxyType({key: _stage(key, row) for key, row in _table()["stages"].items()})


def _stage(key: str, row: Mapping[str, Any]) -> StageTime:
    origin = source(row["source"])
    beginner, improver = (
        Amount(f"{key}, {who}", 60.0 * hours, "minutes", origin.basis, origin.cite)
        for who, hours in zip(("beginner", "improver"), row["hours"], strict=True)
    )
    return StageTime(key, beginner, improver, float(row["show"]), bool(row.get("rest")))


@cache
def mistakes() -> tuple[Mistake, ...]:
    """Every usual mistake, in the order of the stages."""
    return tuple(Mistake(row["stage"], row["key"], source(row["source"]).cite) for row in _table()["mistakes"])


def mistakes_of(stage: str) -> tuple[Mistake, ...]:
    """The usual mistakes of one stage."""
    return tuple(mistake for mistake in mistakes() if mistake.stage == stage)


def slowest() -> float:
    """How many times the time allowed the slowest of a class may take."""
    pace: float = _table()["slowest"]
    return pace


def getting_ready(what: str) -> Amount:
    """How long one kind of getting ready takes (minutes), or how much a dye pan takes (g). KeyError for another name."""
    row = _table()["ready"][what]
    origin = source(row["source"])
    if "grams" in row:
        return Amount(what, row["grams"], "g", origin.basis, origin.cite)
    return Amount(what, row["minutes"], "minutes", origin.basis, origin.cite)


@cache
def _table() -> Mapping[str, Any]:
    table: Mapping[str, Any] = read_table("teaching")
    return table
