"""Numbers and inputs as a proof prints them, on pages and as text."""

from __future__ import annotations

from slath.language.pattern import Pattern
from slath.language.places import Path
from slath.messages import Own, Voice, message
from slath.messages.names import named
from slath.messages.numbers import written
from slath.quantities.prediction import misses
from slath.quantities.proof import ProofInput
from slath.quantities.results import Quantities, TestRow
from slath.units import Unit

_NOTHING = 0.005  # less than the proof prints


def proof_input(item: ProofInput) -> str:
    """One input in words: its name, value and, unless it was merely counted, what it rests on."""
    said = f"{item.name} {proof_value(item.value, item.unit)}"
    return f"{said} ({item.basis.words})" if item.basis else said


def line_of(pattern: Pattern, path: Path) -> int:
    """The line of the file a number answers to; 0 if it answers to none."""
    return pattern.place(path).line if path else 0


def proof_value(value: float, unit: Unit) -> str:
    """A number as the proof prints it: more decimals than a booklet, so that a reader can work it again."""
    if unit == "mm":
        return f"{value:.2f} mm"
    if unit == "g":
        return f"{value:.2f} g"
    if unit == "ratio":
        return f"{value:.4f}"
    if unit == "degrees":
        return f"{value:.1f}°"
    if unit == "minutes":
        return f"{value:.0f} min"
    return f"{value:.0f}" if value == int(value) else f"{value:.2f}"


def found_value(row: TestRow) -> str:
    """What a test weave found; empty where it was not measured."""
    return "" if row.found is None else proof_value(row.found, row.predicted.unit)


def missed_by(row: TestRow, voice: Voice) -> str:
    """By how much a number was missed, and what share of it that is: ``+3.28 mm (+2.6 %)``."""
    if row.found is None or not row.judged:
        return ""
    if abs(row.difference) < _NOTHING:
        return voice.text(message("forms.nothing"))
    sign = "-" if row.difference < 0 else "+"
    missed = f"{sign}{proof_value(abs(row.difference), row.predicted.unit)}"
    return missed if row.miss is None else f"{missed} ({percent(row.miss)})"


def percent(share: float) -> str:
    """A share with its sign, to a tenth of a percent."""
    return f"{100 * share:+.1f} %" if abs(share) >= 0.0005 else "0.0 %"


def missed_in_all(found: Quantities, voice: Voice) -> str:
    """How well one size was predicted, in a sentence."""
    summary = misses(found.test)
    tested = named("status", found.tested)
    if summary is None:
        return voice.text(message("forms.nothing-measured", size=Own(found.size), tested=tested))
    worst = summary.worst
    return voice.text(
        message(
            "forms.missed-in-all",
            size=Own(found.size),
            tested=tested,
            count=summary.compared,
            mean=Own(written(voice.language, f"{100 * summary.mean:.1f} %")),
            worst=Own(written(voice.language, percent(worst.miss or 0.0))),
            what=worst.what,
        )
    )
