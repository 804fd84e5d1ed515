"""Lengths a designer typed by hand in their own words, held against the list of the same size.

Read are figures with a unit (``3 3/4 in``, ``3¾-inch``, ``11.5 cm``, ``1 ft 6 in``, ``9"``), both ends of a range and both
ways of a size (``2 to 3 in``, ``between 2 and 3 in``, ``9 × 6 in``), and words (``two inches``, ``half an inch``). ``2 in each hole`` is a count,
and feet or metres alone tell of rods and rooms.
Counts typed by hand are held against the construction by the rules.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from fractions import Fraction

from msgspec import Struct

from slath.units import Amount
from slath.units.counting import in_words
from slath.units.names import EVERYDAY_UNITS, FOOT_MM, INCH_MM
from slath.wording.references import REFERENCE, printed
from slath.wording.work import Work

_UNITS = {'"': INCH_MM} | {
    name: EVERYDAY_UNITS[name][0]
    for name in (
        "in", "inch", "inches", "mm", "millimetre", "millimetres", "millimeter", "millimeters", "cm", "centimetre", "centimetres",
        "centimeter", "centimeters",
    )
}  # fmt: skip
_FIGURE = r"\d+(?: |-| and )\d+/\d+|\d+/\d+|\d+(?:\.\d+)?"
_COUNTS = {in_words(count): Fraction(count) for count in range(1, 13)}
_PARTS = {
    "half": Fraction(1, 2), "a half": Fraction(1, 2), "a quarter of": Fraction(1, 4), "three quarters of": Fraction(3, 4),
    "an eighth of": Fraction(1, 8),
}  # fmt: skip
_WORD = rf"(?:(?:{'|'.join(_PARTS)}) an?|(?:an?|{'|'.join(_COUNTS)})(?: and (?:a half|a quarter|three quarters))?)"
# After these "in" is a word of place: "2 in each hole", "step 3 in the list", "40 in all".
_PLACE = r"(?! (?:all|each|every|the|an?|any|one|its|their|this|that|these|those|front|place|turn|order|hand|between|to|from below|pairs|twos)\b)"
_SPELLED = "|".join(sorted((unit for unit in _UNITS if unit.isalpha() and unit != "in"), key=len, reverse=True))
_UNIT = rf"(?:in{_PLACE}|{_SPELLED})\b|\""
_MEASURE = re.compile(
    rf"(?<![\w./])(?:(?P<feet>\d+) ?(?:ft|feet|foot) (?=\d[^.;]*?in)|)"
    rf"(?:between (?P<least>{_FIGURE}) and |(?P<other>{_FIGURE})(?: ?(?:to|–|-|×|x|by|or) ?))??(?P<number>{_FIGURE})[ -]?(?P<unit>{_UNIT})"
    rf"|\b(?P<words>{_WORD}) (?P<of>inch|inches)\b",
    re.IGNORECASE,
)  # fmt: skip
# What is called by a number: "No. 4 in water", "stake 3 in front".
_CALLED = re.compile(r"\b(?:No\.|number|page|step|stakes?|rounds?|rows?|size|figure|ends?|holes?) ?$", re.IGNORECASE)


class Disagreement(Struct, frozen=True):
    """A number typed by hand that nothing in the list says: as typed, and the nearest that the list does say."""

    typed: str
    name: str
    listed: str


def disagreements(text: str, amounts: Mapping[str, Amount], work: Work) -> tuple[Disagreement, ...]:
    """Typed lengths in `text` that agree with nothing in the list; references are left out of account."""
    known = {name: amount for name, amount in amounts.items() if amount.unit == "mm"}
    if not known:
        return ()
    wrong = []
    for typed, mm, slack in _lengths(_plain(text)):
        if not any(abs(mm - amount.value) <= slack for amount in known.values()):
            name = min(known, key=lambda key: (abs(known[key].value - mm), key))
            wrong.append(Disagreement(typed, name, printed(known[name], work)))
    return tuple(wrong)


def _plain(text: str) -> str:
    """Text without references, its fractions written ``3 3/4`` and its inch marks ``"``."""
    spaced = re.sub(r"(\d)(?=[¼-¾⅐-⅞])", r"\1 ", REFERENCE.sub(" ", text))  # so that 3¾ does not become 33/4
    return unicodedata.normalize("NFKC", spaced.replace("″", '"')).replace("⁄", "/")


def _lengths(plain: str) -> Iterator[tuple[str, float, float]]:
    """Each length as typed, in mm, and how far a true one may be from it."""
    for found in _MEASURE.finditer(plain):
        if found["words"]:
            unit = _UNITS[found["of"].casefold()]
            yield found[0], float(_spoken(found["words"].casefold())) * unit, unit / 16
            continue
        if found["unit"].casefold() == "in" and _CALLED.search(plain[: found.start()]):
            continue
        unit = _UNITS[found["unit"].casefold()]
        feet = FOOT_MM * int(found["feet"]) if found["feet"] else 0.0
        for number in (found["least"], found["other"], found["number"]):
            value = _value(number) if number else None
            if value is not None:
                yield found[0], feet + value * unit, _slack(number) * unit


def _value(text: str) -> float | None:
    try:
        return float(sum(Fraction(part) for part in re.split(r" and |[ -]", text)))
    except ZeroDivisionError:
        return None


def _spoken(words: str) -> Fraction:
    """``half an``, ``a quarter of an``, ``two and a half``."""
    whole, _, more = words.partition(" and ")
    named = {"a": Fraction(1), "an": Fraction(1), **_COUNTS}
    if whole not in named:
        return _PARTS[re.sub(r" an?$", "", words)]
    return named[whole] + (_PARTS.get(more) or _PARTS.get(f"{more} of") or Fraction(0))


def _slack(text: str) -> float:
    """Half a last place of what was typed: a sixteenth's half for fractions and whole inches, half a decimal place."""
    if "/" in text:
        return 1 / 32
    _, point, decimals = text.partition(".")
    return 0.5 * 10.0 ** -len(decimals) if point else 0.5 if len(text) > 1 else 1 / 16
