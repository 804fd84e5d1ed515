"""Measures as people write them: ``3 3/4 in``, ``18in``, ``11.5 cm``, ``1 ft 6 in``, ``3½ in``, ``1 lb``."""

from __future__ import annotations

import re
import unicodedata
from difflib import get_close_matches
from functools import cache
from typing import NamedTuple

from msgspec import Struct

from slath.messages.told import Spoken, told
from slath.units.names import EVERYDAY_UNITS, TRADE_WORDS, Dimension, unit_names


class Quantity(Struct, frozen=True):
    """A number in its inside unit (millimetres, grams, or plain) with what it measures."""

    value: float
    dimension: Dimension


class Scan(NamedTuple):
    """What was read at one place of a text, and where reading stopped."""

    quantity: Quantity
    end: int


class MeasureFaultError(ValueError):
    """A text is not a measure: `code`, one sentence, remedies, and how far into the text the fault stands."""

    def __init__(self, code: str, sentence: Spoken, remedies: tuple[Spoken, ...] = (), offset: int = 0) -> None:
        super().__init__(sentence)
        self.code = code
        self.sentence = sentence
        self.remedies = remedies
        self.offset = offset


GREATEST_NUMBER = 1e9  # a thousand kilometres in millimetres: beyond any basket, and exact in a float
LONGEST_NUMBER = 40  # digits and signs, 3 3/4 among them
_VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"  # every fraction Unicode has as one character
_NUMBER = re.compile(
    rf"""
      (?P<whole>\d+)\ *(?P<part>[{_VULGAR}])               # 3½
    | (?P<mixed>\d+)\ +(?P<over>\d+)[/⁄](?P<under>\d+)     # 3 3/4
    | (?P<top>\d+)[/⁄](?P<bottom>\d+)                      # 3/4
    | (?P<vulgar>[{_VULGAR}])                              # ¾
    | (?P<decimal>\d+\.\d+|\.\d+|\d+)                      # 11.5
    """,
    re.VERBOSE,
)
_COMMA_NUMBER = re.compile(r"(\d+),(\d+)(?![\d.])")
_OTHER_NUMBER = re.compile(r"\d[\d.]*[eE][+-]?\d|\d+_\d|\d+\.\d*\.\d")
_UNIT = re.compile(r"(?:[^\W\d_]+\.?|[\"″”'′’])")
_MARKS = {'"': "in", "″": "in", "”": "in", "'": "ft", "′": "ft", "’": "ft"}


def unknown_unit(word: str, offset: int) -> MeasureFaultError:
    """The fault of a number followed by a word that is no unit, with the nearest unit offered."""
    near = None if word.casefold() in TRADE_WORDS else nearest_unit(word)
    remedy = (
        told("write {near}", near=near)
        if near
        else told("write one of in, ft, yd, mm, cm, m for a length; g, kg, oz, lb for a mass")
    )
    return MeasureFaultError(
        "unknown-unit",
        told("“{word}” is not a unit of length or mass.", word=word),
        (remedy, told("to multiply by a measure called {word}, write * {word}", word=word)),
        offset,
    )


def scan_quantity(text: str, start: int, *, commas_part: bool = False) -> Scan | None:
    """The quantity that begins at `start`, or None if no number begins there.

    A feet-and-inches run such as ``1 ft 6 in`` is one quantity. `commas_part`: a comma parts arguments here.
    """
    _refuse_other_numbers(text, start, commas_part=commas_part)
    scan = _scan_single(text, start)
    while scan is not None and scan.quantity.dimension != Dimension(0, 0):
        after = _skip_blanks(text, scan.end)
        following = _scan_single(text, after) if after < len(text) and _NUMBER.match(text, after) else None
        if following is None or following.quantity.dimension != scan.quantity.dimension:
            break
        scan = Scan(_quantity(scan.quantity.value + following.quantity.value, scan.quantity.dimension), following.end)
    return scan


def _scan_single(text: str, start: int) -> Scan | None:
    match = _NUMBER.match(text, start)
    if match is None:
        return None
    number = _number(match)
    if number > GREATEST_NUMBER:
        raise MeasureFaultError(
            "number-too-large", told("{text} is beyond any basket.", text=match.group().strip()), (), start
        )
    after = _skip_blanks(text, match.end())
    unit = _UNIT.match(text, after)
    if unit is None or _is_longer_name(text, unit.end()):
        return Scan(Quantity(number, Dimension(0, 0)), match.end())
    found = find_unit(unit.group())
    if found is None:
        return Scan(Quantity(number, Dimension(0, 0)), match.end())
    factor, dimension = found
    return Scan(_quantity(number * factor, dimension), unit.end())


def _quantity(value: float, dimension: Dimension) -> Quantity:
    """Ten decimals: 12 in is 304.8 mm, not the 304.79999999999995 of two factors in binary."""
    return Quantity(round(value, 10), dimension)


def everyday_unit(word: str) -> tuple[float, Dimension] | None:
    """Millimetres or grams in one of the everyday unit `word`, or None."""
    name = _MARKS.get(word, word.rstrip("."))
    return EVERYDAY_UNITS.get(name) or EVERYDAY_UNITS.get(name.lower())


def find_unit(word: str) -> tuple[float, Dimension] | None:
    """Millimetres or grams in one of the unit `word`; None if it is no unit of length or mass.

    Everyday units come from a table that a test holds against pint; any other word is asked of pint itself.
    """
    known, name = everyday_unit(word), word.rstrip(".")
    if known is not None or not name.isalpha() or len(name) < 2 or name.lower() in TRADE_WORDS:
        return known
    return None if nearest_unit(name) else _ask_pint(name)


def nearest_unit(word: str) -> str | None:
    """The everyday unit whose spelling comes nearest to `word`."""
    close = get_close_matches(word.lower(), unit_names(), 1, 0.75)
    return close[0] if close else None


@cache
def _ask_pint(name: str) -> tuple[float, Dimension] | None:
    import pint  # noqa: PLC0415 - a tenth of a second, and only for units outside the table

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    candidates = registry.parse_unit_name(name)
    plain = [unit for prefix, unit, _ in candidates if not prefix or unit in {"meter", "gram"}]
    if not plain:
        return None
    unit = registry.Unit(name)
    if unit.is_compatible_with("mm"):
        return float(registry.Quantity(1, unit).to("mm").magnitude), Dimension(1, 0)
    if unit.is_compatible_with("g"):
        return float(registry.Quantity(1, unit).to("g").magnitude), Dimension(0, 1)
    return None


def _number(match: re.Match[str]) -> float:
    group = match.groupdict()
    if len(match.group()) > LONGEST_NUMBER:
        raise MeasureFaultError(
            "number-too-large",
            told("{text}… is beyond any basket.", text=match.group()[:LONGEST_NUMBER]),
            (),
            match.start(),
        )
    if group["decimal"]:
        return float(group["decimal"])
    if group["vulgar"]:
        return unicodedata.numeric(group["vulgar"])
    if group["part"]:
        return int(group["whole"]) + unicodedata.numeric(group["part"])
    whole = int(group["mixed"] or 0)
    top, bottom = int(group["over"] or group["top"]), int(group["under"] or group["bottom"])
    if bottom == 0:
        raise MeasureFaultError(
            "division-by-zero", told("{text} divides by zero.", text=match.group().strip()), (), match.start()
        )
    return whole + top / bottom


def _refuse_other_numbers(text: str, start: int, *, commas_part: bool) -> None:
    comma = None if commas_part else _COMMA_NUMBER.match(text, start)
    if comma is not None:
        whole, part = comma.groups()
        reading = (
            f"{whole}.{part}"
            if len(part) != 3
            else told("{whole}{part}, or {whole}.{part} if a decimal is meant", whole=whole, part=part)
        )
        raise MeasureFaultError(
            "decimal-comma",
            told("{text} is written with a comma.", text=comma.group()),
            (told("write {reading}", reading=reading),),
            start,
        )
    other = _OTHER_NUMBER.match(text, start)
    if other is not None:
        raise MeasureFaultError(
            "number-form",
            told("{split} is not a number as makers write it.", split=text[start:].split(maxsplit=1)[0]),
            (told("write the number out in plain digits, such as 1000 or 3.5"),),
            start,
        )


def _skip_blanks(text: str, start: int) -> int:
    while start < len(text) and text[start] in " \t\u00a0\u202f":
        start += 1
    return start


def _is_longer_name(text: str, end: int) -> bool:
    return end < len(text) and (text[end] == "_" or text[end].isdigit())
