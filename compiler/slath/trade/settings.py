"""The maker's habits: every setting a pattern may change, with its default and what that rests on."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from slath.trade.sources import source
from slath.trade.tables import read_table
from slath.units import Amount

if TYPE_CHECKING:
    from slath.units import Unit

_INSIDE: dict[str, tuple[float, Unit]] = {
    "in": (25.4, "mm"),  # exact: NIST SP 811 (2008), B.8
    "ft": (304.8, "mm"),
    "mm": (1.0, "mm"),
    "count": (1.0, "count"),
    "ratio": (1.0, "ratio"),
    "minutes": (1.0, "minutes"),
}


def default_settings() -> dict[str, Amount]:
    """Every setting by name, in mm, counts, ratios or minutes, with its basis and source."""
    return dict(_defaults())


def setting_reason(name: str) -> str:
    """Return what the setting called `name` is for, as a clause; KeyError if there is none."""
    reason: str = _table()[name]["why"]
    return reason


@cache
def _table() -> dict[str, dict[str, Any]]:
    table: dict[str, dict[str, Any]] = read_table("settings")
    return table


@cache
def _defaults() -> dict[str, Amount]:
    return {name: _amount(name, row) for name, row in _table().items()}


def _amount(name: str, row: dict[str, Any]) -> Amount:
    given, (factor, unit) = next((key, inside) for key, inside in _INSIDE.items() if key in row)
    origin = source(row["source"])
    return Amount(name.replace("_", " "), row[given] * factor, unit, origin.basis, origin.cite)
