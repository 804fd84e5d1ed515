"""Words taken apart into runs, and read as plain text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import zip_longest
from typing import Literal

from msgspec import Struct

from slath.booklet.blocks import (
    Blank,
    Chip,
    Emphasis,
    Link,
    Measure,
    MeasureLetter,
    Piece,
    Second,
    Shows,
    SizeRing,
    Strong,
    Term,
    TickBox,
    Words,
    pieces_of,
)

NO_BREAK = "\u00a0"
FRACTION_SLASH = "\u2044"
VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5),
    "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
UNITS = r"(?:in|Zoll|Fuß|inch|inches|ft|feet|yd|yards|mm|cm|m|metres|kg|g|oz|lb|°C|°F|°|%|h|min|days?|hours?|minutes?|rounds?)"
_VULGAR = re.compile(f"([0-9]*)([{''.join(VULGAR)}])")
_SLASHED = re.compile(r"(?<![\d/])(?:(\d+)[ \u00a0]|())(\d+)/(\d+)(?![\d/])")
_BEFORE_UNIT = re.compile(
    rf"(?<![\d/])(?:(\d+)[ \u00a0](\d+)/(\d+)(?![\d/])|()(\d+)/(\d+)(?=[ \u00a0-]{UNITS}(?!\w)|[″′\"]))"
)
_FIGURE = r"\d+(?:[ \u00a0]\d+/\d+|/\d+|\.\d+)?"
_BY_SIZE = re.compile(rf"(?<![\d/.]){_FIGURE}(?:, {_FIGURE})* or {_FIGURE} {UNITS}(?!\w)")  # 9 1/2, 11 or 13 in
_BOUND = re.compile(rf"(\d|{FRACTION_SLASH}\d+) (?={UNITS}(?![\w]))")
_MIXED = re.compile(rf"(\d+)[ \u00a0](?=\d+{FRACTION_SLASH})")
_TIMES = re.compile(r"(\d|in|mm|cm) ([×÷:]) (?=\d)")  # 9 × 6 in, 40 ÷ 3, scale 1 : 4
_NUMBER = re.compile(r"(\b(?:No\.|page|step|figure|fig\.|size)) (?=\d)", re.IGNORECASE)
_NAMING = re.compile(r"(?<=\w) $")  # the space after the name of what a patch of colour is of
_BLANKS = re.compile(r"[ \t\r\n]+")
_APOSTROPHE = re.compile(r"(?<=[^\W\d_])'(?=[^\W\d_]|\s|$)")
_FRACTION = re.compile(rf"(\d+){FRACTION_SLASH}(\d+)")


class Run(Struct, frozen=True):
    """Words of one look. ``anchor`` is where they lead."""

    text: str
    strong: bool = False
    emphasis: bool = False
    term: bool = False
    target: str = ""
    second: bool = False


class Inset(Struct, frozen=True):
    """Something drawn among the words."""

    piece: Blank | TickBox | Chip | MeasureLetter | SizeRing


def _spelled(match: re.Match[str]) -> str:
    whole, upper, lower = [part for part in match.groups() if part is not None][-3:]
    return (f"{whole}{NO_BREAK}" if whole else "") + f"{upper}{FRACTION_SLASH}{lower}"


def _row(match: re.Match[str]) -> str:
    """Numbers of several sizes: their fractions spelled; a line may end only after one of the commas."""
    return ", ".join(bound(part, measure=True) for part in match[0].split(", "))


def _from_vulgar(match: re.Match[str]) -> str:
    whole, character = match.groups()
    upper, lower = VULGAR[character]
    return (f"{whole}{NO_BREAK}" if whole else "") + f"{upper}{FRACTION_SLASH}{lower}"


@lru_cache(maxsize=4096)
def bound(text: str, *, measure: bool = False) -> str:
    """``text`` with its fractions written with U+2044 and its measures held together by U+00A0, with real apostrophes and single spaces.

    With ``measure`` the whole text is one measure: every ``3/8`` is a fraction and no space breaks.
    """
    text = _APOSTROPHE.sub("’", _BLANKS.sub(" ", text))
    text = _VULGAR.sub(_from_vulgar, text)
    if not measure:
        text = _BY_SIZE.sub(_row, text)
    text = (_SLASHED if measure else _BEFORE_UNIT).sub(_spelled, text)
    if measure:
        return text.replace(" ", NO_BREAK)
    text = _MIXED.sub(rf"\1{NO_BREAK}", text)
    text = _BOUND.sub(rf"\1{NO_BREAK}", text)
    text = _TIMES.sub(rf"\1{NO_BREAK}\2{NO_BREAK}", text)
    return _NUMBER.sub(rf"\1{NO_BREAK}", text)


def runs(words: Words, run: Run | None = None) -> Iterator[Run | Inset]:
    """Take ``words`` apart, outermost look first. The texts come bound (see `bound`); a patch of colour stays with the
    word it follows.
    """
    run = run or Run("")
    pieces = pieces_of(words)
    for piece, following in zip_longest(pieces, pieces[1:]):
        if isinstance(piece, str) and isinstance(following, Chip):
            yield from _piece_runs(_NAMING.sub(NO_BREAK, piece), run)
        else:
            yield from _piece_runs(piece, run)


def _piece_runs(piece: Piece, run: Run) -> Iterator[Run | Inset]:
    strong, emphasis, term, target, second = run.strong, run.emphasis, run.term, run.target, run.second
    match piece:
        case str():
            yield Run(bound(piece), strong, emphasis, term, target, second)
        case Measure(text):
            yield Run(bound(text, measure=True), strong, emphasis, term, target, second)
        case Strong(words):
            yield from runs(words, Run("", True, emphasis, term, target, second))
        case Emphasis(words):
            yield from runs(words, Run("", strong, not emphasis, term, target, second))
        case Second(words):
            yield from runs(words, Run("", strong, emphasis, term, target, True))
        case Shows():
            return
        case Term(words, anchor):
            yield from runs(words, Run("", strong, emphasis, True, f"#{anchor}" if anchor else target))
        case Link(words, aim):
            outside = aim.startswith(("https:", "http:", "mailto:"))
            yield from runs(words, Run("", strong, emphasis, term, aim if outside else f"#{aim.lstrip('#')}"))
        case _:
            yield Inset(piece)


def plain(words: Words) -> str:
    """``words`` as plain text, fractions with U+2044, no-break spaces as they are."""
    return "".join(_plain_part(part) for part in runs(words))


def _plain_part(part: Run | Inset) -> str:
    if isinstance(part, Run):
        return part.text
    match part.piece:
        case Blank():
            return "________"
        case TickBox():
            return "☐ "
        case Chip(_, letter) | MeasureLetter(letter):
            return letter
        case SizeRing():
            return ""


Shape = Literal["text", "fraction", "gap"]


def fraction_parts(text: str) -> Iterator[tuple[Shape, str, str]]:
    """Split a text at its fractions: ``("text", words, "")`` and ``("fraction", numerator, denominator)``.

    A whole number before a fraction is followed by ``("gap", "", "")`` instead of its space.
    """
    at = 0
    for match in _FRACTION.finditer(text):
        before = text[at : match.start()]
        gap = len(before) > 1 and before[-1] in " \u00a0" and before[-2].isdigit()
        before = before[:-1] if gap else before
        if before:
            yield "text", before, ""
        if gap:
            yield "gap", "", ""
        yield "fraction", match.group(1), match.group(2)
        at = match.end()
    if at < len(text):
        yield "text", text[at:], ""
