"""The maker's habits: every setting a pattern may change, with its default and what that rests on."""

from __future__ import annotations

from functools import cache
from typing import Any

from slath.trade.sources import source
from slath.trade.tables import read_table
from slath.units import Amount, Unit
from slath.units.names import FOOT_MM, INCH_MM
from slath.units.printing import First

_INSIDE: dict[str, tuple[float, Unit]] = {
    "in": (INCH_MM, "mm"),
    "ft": (FOOT_MM, "mm"),
    "mm": (1.0, "mm"),
    "count": (1.0, "count"),
    "ratio": (1.0, "ratio"),
    "minutes": (1.0, "minutes"),
}


def default_settings(units: First = "inches") -> dict[str, Amount]:
    """Every setting by name, in mm, counts, ratios or minutes, with its basis and source.

    Lengths a maker lays off are whole or half centimetres where `units` are millimetres, and never less than in inches
    by more than 2 mm.
    """
    return dict(_defaults(units))


def setting_reason(name: str) -> str:
    """Return what the setting called `name` is for, as a clause; KeyError if there is none."""
    reason: str = _table()[name]["why"]
    return reason


@cache
def _table() -> dict[str, dict[str, Any]]:
    table: dict[str, dict[str, Any]] = read_table("settings")
    return table


@cache
def _defaults(units: First) -> dict[str, Amount]:
    return {name: _amount(name, row, units) for name, row in _table().items()}


def _amount(name: str, row: dict[str, Any], units: First) -> Amount:
    given, (factor, unit) = next((key, inside) for key, inside in _INSIDE.items() if key in row)
    origin = source(row["source"])
    if units == "mm" and "metric" in row:
        return Amount(name.replace("_", " "), float(row["metric"]), "mm", origin.basis, origin.cite)
    return Amount(name.replace("_", " "), row[given] * factor, unit, origin.basis, origin.cite)
