"""Numbers and inputs as a proof prints them, on pages and as text."""

from __future__ import annotations

from slath.language.pattern import Path, Pattern
from slath.quantities.proof import ProofInput
from slath.units import Unit


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
