"""The height of one round after packing: given, measured on a test piece, or worked out from the strands."""

from __future__ import annotations

import math

from msgspec.structs import replace

from slath.basket.strand_lies import laid_of, lying
from slath.language.pattern import Band, Gauge, Material, SizedPattern, WeaveSpec
from slath.trade.stock_names import plain_name
from slath.trade.stocks import find_stock
from slath.units import Amount, Basis, worked


def pitch_of(band: Band, pattern: SizedPattern, uprights: int) -> Amount:
    """Height (mm) that one round of `band` adds, on `uprights` working uprights.

    A round is each strand of the band once round: a chase round is two rows, a three-rod wale round one wale. The
    designer's own pitch comes first, then rounds measured over a height on a test piece, then
    strands lying over one another at one upright × mean strand width × packing factor.
    """
    if band.pitch is not None:
        return replace(band.pitch, path=band.pitch.path or (*band.path, "pitch"))
    measured = measured_rounds(band, pattern)
    if measured is not None:
        return _measured(band, measured)
    if not band.strands:
        return _open(band)
    return _packed(band, pattern, uprights)


def rows_high(weave: WeaveSpec, uprights: int) -> float:
    """How many strands lie over one another at one upright after one round, on its busier face (a ratio).

    Of the strands that pass an upright the share before (or behind) it lies on one face: 2 of 3 in a three-rod wale.
    Twined strands cross in every space, so never less than 2; strands that do not cross lie each in its own row, so
    never less than one for each rod. The strands of a bundle (slewing) lie side by side and all count.
    """
    passes = passes_at(weave, uprights)
    before = sum(stroke.before for stroke in weave.strokes)
    busier = passes * max(before, weave.cycle - before) / weave.cycle
    least = 2.0 if weave.twined else passes
    return max(busier, least) * weave.as_one


def passes_at(weave: WeaveSpec, uprights: int) -> float:
    """How many rods (or bundles) pass one upright in one round: every rod once.

    In a French rand there is a rod for every upright and a round is one stroke of each.
    """
    if weave.kind == "french rand":
        return uprights * weave.cycle / uprights
    return float(weave.rods)


def measured_rounds(band: Band, pattern: SizedPattern) -> Gauge | None:
    """The last gauge entry with rounds over a height for the band's weave and strand, if the pattern has one."""
    found = [entry for entry in gauges_of(band, pattern) if entry.rounds and entry.over_mm]
    return found[-1] if found else None


def gauges_of(band: Band, pattern: SizedPattern) -> tuple[Gauge, ...]:
    """Gauge entries for the band's weave worked with the band's stock; the colour of a strand does not matter."""
    label = " ".join(band.weave.label.casefold().split())
    return tuple(
        entry
        for entry in pattern.gauge
        if " ".join(entry.weave.casefold().split()) == label and _same_strand(entry, band, pattern)
    )


def _same_strand(entry: Gauge, band: Band, pattern: SizedPattern) -> bool:
    """Whether all strands of the band are of the stock measured; it may be named as a material or as a stock."""
    if not entry.strand:
        return True
    measured = plain_name(_stock_of(entry.strand, pattern))
    return all(plain_name(pattern.materials[key].stock.name) == measured for key in band.strands)


def _stock_of(strand: str, pattern: SizedPattern) -> str:
    if strand in pattern.materials:
        return pattern.materials[strand].stock.name
    found = find_stock(strand)
    return found.name if found is not None else strand


def _measured(band: Band, entry: Gauge) -> Amount:
    """From a test piece, or from a woven size. A height that several weaves share is not measured for each of them."""
    rounds, over = entry.rounds or 1, entry.over_mm or 0.0
    basis = Basis.ESTIMATED if entry.shared else Basis.MEASURED
    height = "its share of the measured height" if entry.shared else "measured height"
    return worked(
        f"height of one round, {band.name}",
        over / rounds,
        "mm",
        f"{height} ÷ rounds measured",
        Amount(height, over, "mm", basis, entry.source, path=entry.path),
        Amount("rounds measured", rounds, "count", Basis.MEASURED, entry.source, path=entry.path),
        source=entry.source,
        path=entry.path,
    )


def _open(band: Band) -> Amount:
    """A space left unwoven is one round as high as the space."""
    height = band.extent.height_mm or 0.0
    return Amount(f"height of the open space, {band.name}", height, "mm", Basis.GIVEN, path=(*band.path, "height"))


def _packed(band: Band, pattern: SizedPattern, uprights: int) -> Amount:
    materials = [pattern.materials[key] for key in band.strands]
    rows = rows_high(band.weave, uprights)
    width = math.fsum(lying(material, band.laid)[0] for material in materials) / len(materials)
    factor = pattern.settings["pitch_factor_wale" if band.weave.kind == "wale" else "pitch_factor"]
    return worked(
        f"height of one round, {band.name}",
        rows * width * factor.value,
        "mm",
        "strands over one another × strand width × packing factor",
        Amount("strands over one another", rows, "ratio", Basis.COUNTED, f"{band.weave.label}"),
        _mean_width(materials, width, band),
        factor,
        path=band.path,
    )


def _mean_width(materials: list[Material], width: float, band: Band) -> Amount:
    poorest = max(materials, key=lambda material: material.stock.basis)
    name = "strand width" if len({material.width_mm for material in materials}) == 1 else "mean strand width"
    ways = {laid_of(material, band.laid) for material in materials}
    if ways != {"flat"}:
        name = f"{name}, {' and '.join(sorted(ways))}"
    return Amount(name, width, "mm", poorest.stock.basis, poorest.stock.source, path=poorest.path)
