"""The register of trade sources: what a value was read in, and so what it rests on."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from msgspec import Struct

from slath.trade.tables import read_table
from slath.units import Basis


class Source(Struct, frozen=True):
    """One source: its key in the data files, what it makes a value rest on, how it is cited, in full and in a sentence."""

    key: str
    basis: Basis
    cite: str
    short: str


@cache
def sources() -> Mapping[str, Source]:
    """Every source by its key, in the order of the register."""
    rows = read_table("sources")
    return MappingProxyType(
        {
            key: Source(key, Basis[row["basis"].upper()], row["cite"], row.get("short", row["cite"]))
            for key, row in rows.items()
        }
    )


def source(key: str) -> Source:
    """Return the source called `key`; KeyError if the register does not hold it."""
    return sources()[key]
