"""What has been tried: sizes woven, rounds measured on a test piece, and measurements nothing uses."""

from __future__ import annotations

import math
from collections.abc import Iterator

from slath.basket.model import WovenBand
from slath.basket.pitch import gauges_of
from slath.messages.told import Figure, Spoken, saying, several, told, word
from slath.quantities.results import TestRow
from slath.rules.finding import Context, Finding, name_of
from slath.units import Basis

_TEST_ROUNDS = 10  # rounds on a test piece, enough to lay a rule along


def size_woven(context: Context) -> Iterator[Finding]:
    """A size nobody has woven rests on arithmetic alone."""
    if context.sized.woven_on is None:
        yield Finding(
            next(((key,) for key in ("woven", "sizes") if (key,) in context.pattern.places), ("title",)),
            "",
            told("Nobody has woven this size yet; its numbers are calculated."),
            (told("weave it and say when (woven)"), told("print the test-weave form and fill it in")),
        )


def pitch_measured(context: Context) -> Iterator[Finding]:
    """Until rounds are measured on a test piece, heights and strand lengths rest on an estimate."""
    estimated: dict[tuple[str, tuple[str, ...]], list[WovenBand]] = {}
    for band in context.bands:
        if band.rounds and band.pitch.basis is Basis.ESTIMATED:
            stocks = tuple(dict.fromkeys(context.material(key).stock.name for key in band.spec.strands))
            estimated.setdefault((band.spec.weave.label, stocks), []).append(band)
    for (label, stocks), bands in estimated.items():
        names = several(dict.fromkeys(name_of(band) for band in bands))
        expected = _TEST_ROUNDS * bands[0].pitch.value
        yield Finding(
            bands[0].spec.path,
            _parts(bands),
            told(
                "The height of a round of {label} in {stocks} is estimated; the rounds of {names} rest on it.",
                label=word(label),
                stocks=several(stocks),
                names=names,
            ),
            (
                told("weave {test_rounds} rounds on a test piece and measure them (gauge)", test_rounds=_TEST_ROUNDS),
                told(
                    "let it stand if {test_rounds} rounds of yours come to {expected}",
                    test_rounds=_TEST_ROUNDS,
                    expected=context.measure(expected),
                ),
            ),
        )


def _parts(bands: list[WovenBand]) -> Spoken:
    return several(dict.fromkeys(word(band.part) for band in bands))


def woven_bands_known(context: Context) -> Iterator[Finding]:
    """What a test weave found of a band is read under the band's own name; heights only of bands of the side."""
    woven = context.sized.woven
    if woven is None:
        return
    for key, found in (("rounds", woven.rounds), ("band_heights", woven.band_heights_mm)):
        names = [row.key[1] for row in context.quantities.test if row.key[0] == key]
        for name in found:
            if name not in names:
                where = told("on the side of this basket") if key == "band_heights" else told("in this basket")
                yield Finding(
                    (*woven.path, key, name),
                    name,
                    told("No band {where} is called {name}.", where=where, name=name),
                    (told("write {names}", names=several(names, "or")) if names else told("take it out"),),
                )


def prediction_held(context: Context) -> Iterator[Finding]:
    """A size that came out further from its numbers than is allowed for says how much the other sizes may be trusted."""
    most = context.setting("prediction_miss")
    missed = [row for row in context.quantities.test if row.miss is not None and _too_far(row, most)]
    if missed and context.sized.woven is not None:
        first, *others = (told("{what}: {value}", what=saying(row.what), value=_value(context, row)) for row in missed)
        worst = max(abs(row.miss or 0.0) for row in missed)
        yield Finding(
            context.sized.woven.path,
            "",
            told(
                "Woven, this size came out otherwise than predicted. {missed}.",
                missed=several((first.begun(), *others), "; "),
            ),
            (
                told("check the figures, and that it was woven as the pattern now stands"),
                told("let it stand: what can be learned from it is in the list already"),
                told(
                    "allow more (settings, prediction_miss: {ceil})", ceil=Figure(f"{math.ceil(worst * 100) / 100:g}")
                ),
            ),
        )


def _too_far(row: TestRow, most: float) -> bool:
    """Rounds are whole, so one more or less is no miss."""
    return abs(row.miss or 0.0) > most and not (row.key[0] == "rounds" and abs(row.difference) <= 1)


def _value(context: Context, row: TestRow) -> Spoken:
    share = Figure(f"{abs(row.miss or 0.0):.0%}".replace("%", " %"))
    found = row.found or 0.0
    unit = row.predicted.unit
    return told(
        "{figure}, {share} {more?more|less} than {figure2}",
        figure=_figure(context, found, unit),
        share=share,
        more=row.difference > 0,
        figure2=_figure(context, row.predicted.value, unit),
    )


def _figure(context: Context, value: float, unit: str) -> Figure:
    if unit == "g":
        return Figure(f"{value:.0f} g")
    return context.measure(value) if unit == "mm" else Figure(f"{value:.0f}")


def woven_figures_believable(context: Context) -> Iterator[Finding]:
    """A figure half or twice what was worked out is a slip of the pen, or of the unit, more often than a finding."""
    for doubt in context.quantities.doubts:
        found, predicted = (_figure(context, value, doubt.unit) for value in (doubt.found, doubt.predicted))
        yield Finding(
            doubt.path,
            "",
            told(
                "The {what} is said to be {found}, but works out at {predicted}; nothing is learned from it.",
                what=saying(doubt.what),
                found=found,
                predicted=predicted,
            ),
            (told("check the figure and its unit"), told("take it out if it was not measured")),
        )


def gauge_used(context: Context) -> Iterator[Finding]:
    """A measurement that fits no band changes nothing; most often the weave's name differs by a word."""
    fitting = {entry.path for band in context.bands for entry in gauges_of(band.spec, context.sized)}
    labels = list(dict.fromkeys(band.spec.weave.label for band in context.bands if band.rounds))
    for entry in context.sized.gauge:
        if entry.path not in fitting and entry.path[:1] == ("gauge",):
            yield Finding(
                entry.path,
                "gauge",
                told(
                    "No band is {weave} in {strand}, so this measurement is not used.",
                    weave=entry.weave,
                    strand=entry.strand,
                ),
                (told("name a weave of this pattern: {labels}", labels=several(labels, "or")), told("take it out")),
            )
