"""One spelling for every way a stock is written: ``US Round Reed No. 2½`` and ``us round reed 2.5`` are one stock."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

_WORDS = {
    "center": "centre", "inch": "in", "inches": "in", '"': "in", "feet": "ft", "foot": "ft", "millimetre": "mm",
    "millimetres": "mm", "millimeter": "mm", "millimeters": "mm", "centimetre": "cm", "centimetres": "cm",
    "no": "", "nr": "", "number": "", "size": "", "usa": "us", "american": "us", "british": "uk", "english": "uk",
    "rattan": "reed",
}  # fmt: skip
_TOKEN = re.compile(r"\d+\s+\d+/\d+|\d+/\d+|\d+\.\d+|\.\d+|\d+|[a-z]+|\"|'")


def plain_name(name: str) -> str:
    """`name` in the one spelling the catalogue is searched by: lower case, fractions in lowest terms, no punctuation."""
    text = re.sub(r"(\d)([¼½¾⅓⅔⅛⅜⅝⅞])", r"\1 \2", name.casefold().strip())
    text = unicodedata.normalize("NFKC", text).replace("⁄", "/").replace("″", '"').replace("′", "'")
    text = re.sub(r"(\d)-(\d)", r"\1 \2", text)
    words = [_number(word) if word[0].isdigit() or word[0] == "." else _word(word) for word in _TOKEN.findall(text)]
    return " ".join(word for word in words if word)


def without_number(name: str) -> str:
    """`name` in the one spelling, its numbers left out: what a scale is known by (``us round reed``)."""
    return " ".join(word for word in plain_name(name).split() if not word[0].isdigit())


def _word(word: str) -> str:
    return "ft" if word == "'" else _WORDS.get(word, word)


def _number(text: str) -> str:
    if len(text) > 1 and not text.strip("0"):
        return text  # 00 and 000 are numbers of their own, finer than 0
    parts = text.split()
    try:
        value = sum((Fraction(part) for part in parts), Fraction(0))
    except ZeroDivisionError:
        return text
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    if rest.denominator > 64:
        return f"{float(value):g}"
    return f"{whole} {rest}" if whole else str(rest)
