"""Which measures a designer thinks in: inches or millimetres, by how most lengths of the pattern are written."""

from __future__ import annotations

import re

from slath.units.printing import First

# Where the designer's own lengths stand. Stocks are called after the scale of their seller, and words are words.
_CONSTRUCTION = (
    "measures", "base", "stakes", "bye_stakes", "side", "border", "foot", "handle", "handles", "lid", "parts", "fittings",
    "gauge",
)  # fmt: skip
_WORDS = {"name", "note", "title", "stock", "material", "strand", "strands", "made_of"}
_AMOUNT = r"(?:\d|[½⅓⅔¼¾⅛⅜⅝⅞])\s*"
_IMPERIAL = re.compile(rf"{_AMOUNT}(?:ins?|inch(?:es)?|ft|foot|feet|yds?|yards?)\b|{_AMOUNT}[\"″]", re.IGNORECASE)
_METRIC = re.compile(rf"{_AMOUNT}(?:[cm]?m|(?:centi|milli)?met(?:re|er)s?)\b", re.IGNORECASE)


def own_units(data: object) -> First:
    """Inches where as many lengths of the construction or more are written in inches as by the metric system."""
    top = data if isinstance(data, dict) else {}
    texts = [text for key in _CONSTRUCTION for text in _texts(top.get(key))]
    imperial = sum(len(_IMPERIAL.findall(text)) for text in texts)
    metric = sum(len(_METRIC.findall(text)) for text in texts)
    return "mm" if metric > imperial else "inches"


def _texts(data: object) -> list[str]:
    """Every value below, but for words."""
    if isinstance(data, str):
        return [data]
    if isinstance(data, dict):
        return [text for key, value in data.items() if key not in _WORDS for text in _texts(value)]
    return [text for value in data for text in _texts(value)] if isinstance(data, list) else []
