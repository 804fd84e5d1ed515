"""The catalogue of stocks, read once from ``data/stocks.yaml``; every value says what it rests on."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from difflib import get_close_matches
from fractions import Fraction
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Any

from msgspec.structs import replace

from slath.trade.soaking import rod_soak
from slath.trade.sources import source
from slath.trade.stock import Pack, Stock
from slath.trade.stock_names import plain_name, without_number
from slath.trade.tables import read_table
from slath.units.names import FOOT_MM, POUND_G

PLAUSIBLE_DENSITY = (0.40, 0.65)  # g/cm³ of reed and cane; estimated, a row outside it is suspect
_WILLOW_CLASS_MM = 300.0  # growers on the metric system sell rods by steps of 30 cm where others sell by the foot
_MEASURE = r"(\d{1,4}(?:\.\d{1,4})?|(?:\d{1,4} )?\d{1,2}/[1-9]\d?)"
_BY_DIAMETER = re.compile(rf"(round reed|centre cane|dowel) {_MEASURE} mm")
_COLOUR_LAST = re.compile(r"willow (buff|white|brown)\b")
LONGEST_NAME = 60  # letters
_WILLOW_METRIC = re.compile(rf"((?:buff |white |brown )?willow) {_MEASURE} (cm|m)")


def find_stock(name: str) -> Stock | None:
    """Find the stock written as `name`, however it is spelled, or None.

    Besides the catalogue it knows round reed, cane and dowel by diameter (``round reed 3 mm``), whose size is then
    given by the pattern, and willow by its metric class (``willow 150 cm``).
    """
    plain = _COLOUR_LAST.sub(r"\1 willow", plain_name(name))
    found = _by_plain_name().get(plain)
    if found is not None:
        return found
    if metric := _WILLOW_METRIC.fullmatch(plain):
        return _metric_rods(metric[1], _value(metric[2]) * {"cm": 10, "m": 1000}[metric[3]])
    if sized := _BY_DIAMETER.fullmatch(plain):
        return _of_diameter(sized[1], _value(sized[2]))
    return None


@lru_cache(maxsize=256)  # the same slip is met again in every size
def nearest_stocks(name: str, most: int = 3) -> tuple[str, ...]:
    """Up to `most` names of the catalogue nearest to `name`, the nearest first; none near one longer than any of them."""
    if len(name) > LONGEST_NAME:
        return ()
    plain = plain_name(name)
    known = _by_plain_name()
    words = set(plain.split())
    sharing = sorted(known, key=lambda key: -len(words & set(key.split())))
    close = get_close_matches(plain, list(known), n=most, cutoff=0.6)
    inside = [key for key in sharing if words and words <= set(key.split())]
    ordered = dict.fromkeys([*inside, *close, *(key for key in sharing if words & set(key.split()))])
    return tuple(known[key].name for key in list(ordered)[:most])


def scale_of(name: str) -> tuple[Stock, ...]:
    """Every stock of the scale that `name` belongs to, whatever its number, finest first; empty if there is none."""
    scale = without_number(name)
    return tuple(stock for stock in all_stocks() if stock.number and without_number(stock.name) == scale)


def all_stocks() -> tuple[Stock, ...]:
    """Every stock, in the order of the catalogue."""
    return tuple(_by_plain_name().values())


def section_mm2(kind: str, width_mm: float, thickness_mm: float) -> float:
    """Area of the cross section in mm²: round, oval, half round (half an ellipse) or rectangular."""
    full = {"flat reed": 1.0, "chair cane": 1.0, "raffia": 1.0, "braid": 1.0, "wood": 1.0}
    return full.get(kind, math.pi / 4) * width_mm * thickness_mm


def implied_density(stock: Stock) -> float | None:
    """Density in g/cm³ that a stock's mass per metre and section imply; None where its mass is not known."""
    if stock.grams_per_metre is None:
        return None
    return stock.grams_per_metre / section_mm2(stock.kind, stock.width_mm, stock.thickness_mm)


def suspect_density(stock: Stock) -> float | None:
    """Return the implied density if reed or cane cannot have it, so that size or mass is wrong; None if all is well."""
    density = implied_density(stock)
    reed = stock.kind in {"round reed", "flat reed", "oval reed", "half round reed", "centre cane", "chair cane"}
    if density is None or not reed or PLAUSIBLE_DENSITY[0] <= density <= PLAUSIBLE_DENSITY[1]:
        return None
    return density


@cache
def _by_plain_name() -> Mapping[str, Stock]:
    stocks = [_stock(table, row) for table in read_table("stocks") for row in table["rows"]]
    return MappingProxyType({plain_name(stock.name): stock for stock in stocks})


def _stock(table: Mapping[str, Any], row: Mapping[str, Any]) -> Stock:
    """One stock from its row, the table filling in what the row leaves out."""
    tapered = "butt" in row
    width = (row["butt"] + row["tip"]) / 2 if tapered else row["mm"]
    thickness = width if tapered else row.get("thick", row["mm"])
    mass, mass_source = _grams_per_metre(table, row, width, thickness)
    cites = table["source"]
    size, sold = source(row.get("size", cites["size"])), source(cites["sold"])
    length, soak = source(cites["length"]), source(row.get("soak_source", cites["soak"]))
    class_mm = float(row["number"]) * FOOT_MM if tapered else None
    long_mm = table.get("long_mm", table["long_ft"] * FOOT_MM if "long_ft" in table else class_mm)
    return Stock(
        name=table["name"].format(number=row["number"]),
        kind=table["kind"],
        width_mm=width,
        thickness_mm=thickness,
        scale=table["scale"],
        number=row["number"],
        grams_per_metre=mass,
        usual_length_mm=long_mm,
        length_class_mm=class_mm,
        butt_mm=row.get("butt"),
        tip_mm=row.get("tip"),
        packs=tuple(Pack(**pack) for pack in table.get("packs", ())),
        soak=rod_soak(table["name"], class_mm).words if class_mm else row.get("soak", table.get("soak", "")),
        basis=size.basis,
        source=size.cite,
        mass_basis=source(mass_source).basis,
        mass_source=source(mass_source).cite,
        length_basis=length.basis,
        length_source=length.cite,
        soak_basis=soak.basis,
        soak_source=soak.cite,
        pack_basis=sold.basis,
        pack_source=sold.cite,
    )


def _grams_per_metre(
    table: Mapping[str, Any], row: Mapping[str, Any], width: float, thickness: float
) -> tuple[float | None, str]:
    """Mass per metre and the key of its source: from feet a pound, or else from the density of the table."""
    given: str = row.get("mass", table["source"]["mass"])
    if "feet_per_pound" in row:
        return POUND_G / (row["feet_per_pound"] * FOOT_MM / 1000), given
    if "density" not in table:
        return None, given
    worked_out = "reed_density" if table["density"] == 0.52 else "estimated"
    return section_mm2(table["kind"], width, thickness) * table["density"], worked_out


def _metric_rods(kind: str, length_mm: float) -> Stock | None:
    """Willow of a metric class: as thick as the class in feet it stands for, as long as it says."""
    rods = _by_plain_name().get(f"{kind} {round(length_mm / _WILLOW_CLASS_MM)} ft")
    if rods is None:
        return None
    number = f"{length_mm / 10:g} cm"
    soak = rod_soak(kind, length_mm).words
    return replace(
        rods, name=f"{kind} {number}", number=number, length_class_mm=length_mm, usual_length_mm=length_mm, soak=soak
    )


def _of_diameter(kind: str, diameter_mm: float) -> Stock | None:
    """Make a round stock known by its diameter alone, sold as it is sold by the metric system; everything else as in the
    catalogue; None if it is no rod.
    """
    if not 0.5 <= diameter_mm <= 50:
        return None
    table = next(table for table in read_table("stocks") if table["kind"] == kind)
    row = {"number": f"{diameter_mm:g}", "mm": diameter_mm, "size": "given"}
    sold = table.get("by_mm", {})
    cites = {**table["source"], **sold.get("source", {})}
    return _stock({**table, **sold, "source": cites, "name": f"{kind} {{number}} mm", "scale": "mm"}, row)


def _value(text: str) -> float:
    return float(sum(Fraction(part) for part in text.split()))
