"""What has been tried: sizes woven, rounds measured on a test piece, and measurements nothing uses."""

from __future__ import annotations

import math
from collections.abc import Iterator

from slath.basket.model import WovenBand
from slath.basket.pitch import gauges_of
from slath.quantities.results import TestRow
from slath.rules.finding import Context, Finding
from slath.units import Basis
from slath.units.counting import listed

_TEST_ROUNDS = 10  # rounds on a test piece, enough to lay a rule along


def size_woven(context: Context) -> Iterator[Finding]:
    """A size nobody has woven rests on arithmetic alone."""
    if context.sized.woven_on is None:
        yield Finding(
            next(((key,) for key in ("woven", "sizes") if (key,) in context.pattern.places), ("title",)), "",
            "Nobody has woven this size yet; its numbers are calculated.",
            ("weave it and say when (woven)", "print the test-weave form and fill it in"),
        )  # fmt: skip


def pitch_measured(context: Context) -> Iterator[Finding]:
    """Until rounds are measured on a test piece, heights and strand lengths rest on an estimate."""
    told: dict[tuple[str, tuple[str, ...]], list[WovenBand]] = {}
    for band in context.bands:
        if band.rounds and band.pitch.basis is Basis.ESTIMATED:
            stocks = tuple(dict.fromkeys(context.material(key).stock.name for key in band.spec.strands))
            told.setdefault((band.spec.weave.label, stocks), []).append(band)
    for (label, stocks), bands in told.items():
        names = listed(list(dict.fromkeys(band.name for band in bands)))
        expected = _TEST_ROUNDS * bands[0].pitch.value
        yield Finding(
            bands[0].spec.path, _parts(bands),
            f"The height of a round of {label} in {listed(list(stocks))} is estimated; the rounds "
            f"of {names} rest on it.",
            (
                f"weave {_TEST_ROUNDS} rounds on a test piece and measure them (gauge)",
                f"let it stand if {_TEST_ROUNDS} rounds of yours come to {context.measure(expected)}",
            ),
        )  # fmt: skip


def _parts(bands: list[WovenBand]) -> str:
    parts = list(dict.fromkeys(band.part for band in bands))
    return listed(parts)


def woven_bands_known(context: Context) -> Iterator[Finding]:
    """What a test weave found of a band is read under the band's own name; heights only of bands of the side."""
    woven = context.sized.woven
    if woven is None:
        return
    for key, found in (("rounds", woven.rounds), ("band_heights", woven.band_heights_mm)):
        names = [row.key[1] for row in context.quantities.test if row.key[0] == key]
        for name in found:
            if name not in names:
                where = "on the side of this basket" if key == "band_heights" else "in this basket"
                yield Finding(
                    (*woven.path, key, name), name, f"No band {where} is called {name}.",
                    (f"write {listed(names, 'or')}" if names else "take it out",),
                )  # fmt: skip


def prediction_held(context: Context) -> Iterator[Finding]:
    """A size that came out further from its numbers than is allowed for says how much the other sizes may be trusted."""
    most = context.setting("prediction_miss")
    missed = [row for row in context.quantities.test if row.miss is not None and _too_far(row, most)]
    if missed and context.sized.woven is not None:
        told = "; ".join(f"{row.what}: {_value(context, row)}" for row in missed)
        worst = max(abs(row.miss or 0.0) for row in missed)
        yield Finding(
            context.sized.woven.path, "",
            f"Woven, this size came out otherwise than predicted. {told[:1].upper()}{told[1:]}.",
            (
                "check the figures, and that it was woven as the pattern now stands",
                "let it stand: what can be learned from it is in the list already",
                f"allow more (settings, prediction_miss: {math.ceil(worst * 100) / 100:g})",
            ),
        )  # fmt: skip


def _too_far(row: TestRow, most: float) -> bool:
    """Rounds are whole, so one more or less is no miss."""
    return abs(row.miss or 0.0) > most and not (row.key[0] == "rounds" and abs(row.difference) <= 1)


def _value(context: Context, row: TestRow) -> str:
    share = f"{abs(row.miss or 0.0):.0%}".replace("%", " %")
    more = "more" if row.difference > 0 else "less"
    found = row.found or 0.0
    unit = row.predicted.unit
    return f"{_figure(context, found, unit)}, {share} {more} than {_figure(context, row.predicted.value, unit)}"


def _figure(context: Context, value: float, unit: str) -> str:
    if unit == "g":
        return f"{value:.0f} g"
    return context.measure(value) if unit == "mm" else f"{value:.0f}"


def woven_figures_believable(context: Context) -> Iterator[Finding]:
    """A figure half or twice what was worked out is a slip of the pen, or of the unit, more often than a finding."""
    for doubt in context.quantities.doubts:
        found, predicted = (_figure(context, value, doubt.unit) for value in (doubt.found, doubt.predicted))
        yield Finding(
            doubt.path, "",
            f"The {doubt.what} is said to be {found}, but works out at {predicted}; nothing is learned from it.",
            ("check the figure and its unit", "take it out if it was not measured"),
        )  # fmt: skip


def gauge_used(context: Context) -> Iterator[Finding]:
    """A measurement that fits no band changes nothing; most often the weave's name differs by a word."""
    fitting = {entry.path for band in context.bands for entry in gauges_of(band.spec, context.sized)}
    labels = list(dict.fromkeys(band.spec.weave.label for band in context.bands if band.rounds))
    for entry in context.sized.gauge:
        if entry.path not in fitting and entry.path[:1] == ("gauge",):
            yield Finding(
                entry.path, "gauge",
                f"No band is {entry.weave} in {entry.strand}, so this measurement is not used.",
                (f"name a weave of this pattern: {listed(labels, 'or')}", "take it out"),
            )  # fmt: skip
