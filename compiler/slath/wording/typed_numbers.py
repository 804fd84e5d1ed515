"""Lengths a designer typed by hand in their own words, held against the list of the same size.

Counts typed by hand are held against the construction by the rules.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from slath.wording.references import REFERENCE, printed

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from slath.units import Amount
    from slath.wording.work import Work

_UNITS = {
    "in": 25.4, "inch": 25.4, "inches": 25.4, "mm": 1.0, "millimetres": 1.0, "millimeters": 1.0, "cm": 10.0,
    "centimetres": 10.0, "centimeters": 10.0,
}  # fmt: skip
_NUMBER = r"(?<![\w./])(\d+[ -]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
_LENGTH = re.compile(rf"{_NUMBER}[ -]?({'|'.join(sorted(_UNITS, key=len, reverse=True))})\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Disagreement:
    """A number typed by hand that nothing in the list says: as typed, and the nearest that the list does say."""

    typed: str
    name: str
    listed: str


def disagreements(text: str, amounts: Mapping[str, Amount], work: Work) -> tuple[Disagreement, ...]:
    """Typed lengths in `text` that agree with nothing in the list; references are left out of account."""
    plain = unicodedata.normalize("NFKC", _spaced(REFERENCE.sub(" ", text))).replace("⁄", "/")
    return tuple(_lengths(plain, amounts, work))


def _spaced(text: str) -> str:
    """A space before a fraction written as one character, so that 3¾ does not become 33/4."""
    return re.sub(r"(\d)(?=[¼-¾⅐-⅞])", r"\1 ", text)


def _lengths(plain: str, amounts: Mapping[str, Amount], work: Work) -> Iterator[Disagreement]:
    known = {name: amount for name, amount in amounts.items() if amount.unit == "mm"}
    for found in _LENGTH.finditer(plain):
        value = _value(found[1])
        if value is None:
            continue
        unit = _UNITS[found[2].lower()]
        typed, slack = value * unit, _slack(found[1]) * unit
        if known and not any(abs(typed - amount.value) <= slack for amount in known.values()):
            name = min(known, key=lambda key: (abs(known[key].value - typed), key))
            yield Disagreement(found[0], name, printed(known[name], work))


def _value(text: str) -> float | None:
    try:
        return float(sum(Fraction(part) for part in re.split(r"[ -]", text)))
    except ZeroDivisionError:
        return None


def _slack(text: str) -> float:
    """Half a last place of what was typed: a sixteenth's half for fractions and whole inches, half a decimal place."""
    if "/" in text:
        return 1 / 32
    _, point, decimals = text.partition(".")
    return 0.5 * 10.0 ** -len(decimals) if point else 0.5 if len(text) > 1 else 1 / 16
