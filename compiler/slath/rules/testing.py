"""What has been tried: sizes woven, rounds measured on a test piece, and measurements nothing uses."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.model import WovenBand
from slath.basket.pitch import gauges_of
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
