"""Lengths of time as people say them: "fifteen to twenty minutes", "an hour and a half", "two days for the medium size"."""

from __future__ import annotations

import re

from msgspec import Struct

from slath.units.counting import NUMBERS

_UNITS = {"minute": 1.0, "min": 1.0, "hour": 60.0, "h": 60.0}
_PART_DAYS = {"day": 1.0, "afternoon": 0.5, "morning": 0.5, "evening": 0.5}  # of a day's work
_WORDS = NUMBERS | {
    "a": 1.0, "an": 1.0, "half a": 0.5, "half an": 0.5, "three quarters of an": 0.75, "quarter of an": 0.25, "several": 4.0,
    "a few": 3.0,
}  # fmt: skip
_NUMBER = rf"(?:\d+(?:\.\d+)?|{'|'.join(sorted(_WORDS, key=len, reverse=True))})(?: and a half)?"
_UNIT = "|".join(sorted({*_UNITS, *_PART_DAYS}, key=len, reverse=True))
_RANGE = re.compile(rf"\b({_NUMBER})(?: ?({_UNIT})s?)? to ({_NUMBER}) ?({_UNIT})s?\b( and a half)?")
_SINGLE = re.compile(rf"\b({_NUMBER}) ?({_UNIT})s?\b( and a half)?")


class Span(Struct, frozen=True):
    """From so long to so long, in minutes."""

    least: float
    most: float


def span_in(text: str, *, minutes_a_day: float = 24 * 60) -> Span | None:
    """The first length of time that `text` names, in minutes; None if it names none.

    A day is `minutes_a_day`: of soaking, all of it; of work, as long as one works in a day.
    """
    said = text.casefold()
    ranged, single = _RANGE.search(said), _SINGLE.search(said)
    if ranged is not None and (single is None or ranged.start() <= single.start()):
        unit = _in_minutes(ranged[4], minutes_a_day)
        low = _in_minutes(ranged[2], minutes_a_day) if ranged[2] else unit
        half = 0.5 if ranged[5] else 0.0
        return Span(_value(ranged[1]) * low, (_value(ranged[3]) + half) * unit)
    if single is None:
        return None
    minutes = (_value(single[1]) + (0.5 if single[3] else 0.0)) * _in_minutes(single[2], minutes_a_day)
    return Span(minutes, minutes)


def _value(words: str) -> float:
    plain = words.removesuffix(" and a half")
    return (_WORDS[plain] if plain in _WORDS else float(plain)) + (0.5 if plain != words else 0.0)


def _in_minutes(unit: str, minutes_a_day: float) -> float:
    return _UNITS[unit] if unit in _UNITS else _PART_DAYS[unit] * minutes_a_day
