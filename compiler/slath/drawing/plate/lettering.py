"""How wide words stand in a figure, so that labels can be placed without loading a font.

Widths are those of the bundled sans face, printable ASCII in thousandths of an em; a test compares them with the font.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import cache, lru_cache

from slath.messages.language import Language, languages
from slath.units.names import INCH_MM

POINT_MM = INCH_MM / 72  # one point in mm
CAP_HEIGHT = 0.66  # of the em

_REGULAR = (
    200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497, 497, 497, 497,
    497, 497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 543, 588, 571, 615, 527, 494, 617, 652, 263, 479, 579,
    486, 727, 647, 664, 566, 664, 569, 534, 536, 645, 515, 786, 513, 476, 539, 303, 350, 303, 497, 500, 542, 504,
    553, 456, 555, 496, 292, 504, 544, 246, 247, 495, 255, 829, 547, 542, 555, 555, 347, 419, 338, 544, 467, 719,
    446, 467, 425, 303, 241, 303, 497,
)  # fmt: skip
_BOLD = (
    200, 328, 510, 521, 520, 849, 653, 288, 334, 334, 447, 520, 288, 327, 288, 341, 520, 520, 520, 520, 520, 520,
    520, 520, 520, 520, 288, 288, 520, 520, 520, 454, 889, 565, 601, 579, 630, 543, 517, 633, 668, 292, 501, 606,
    510, 754, 661, 679, 589, 679, 602, 550, 551, 660, 546, 807, 554, 513, 541, 334, 341, 334, 520, 500, 552, 522,
    568, 465, 568, 512, 329, 527, 565, 269, 270, 535, 279, 850, 566, 552, 568, 568, 386, 437, 372, 562, 509, 762,
    497, 508, 452, 334, 261, 334, 520,
)  # fmt: skip
_UNITS = {"in", "ft", "yd", "mm", "cm", "m", "oz", "lb", "g", "kg"}
_SHARP_S = (576, 618)  # ß, regular and bold
_OTHER = 560  # dashes and signs beyond ASCII: near the mean, on the wide side


@lru_cache(maxsize=8192)  # the same labels are tried in one place after another
def word_width(words: str, size_pt: float, *, bold: bool = False) -> float:
    """Width of `words` in mm at `size_pt` points."""
    return sum(_advance(sign, bold=bold) for sign in words) / 1000 * size_pt * POINT_MM


@cache
def _advance(sign: str, *, bold: bool) -> int:
    """Width of a sign in thousandths of an em; an accented letter is as wide as the letter without."""
    if sign == "ß":
        return _SHARP_S[bold]
    plain = unicodedata.normalize("NFD", sign)[0]
    return (_BOLD if bold else _REGULAR)[ord(plain) - 32] if " " <= plain <= "~" else _OTHER


def in_lines(words: str, width: float, size_pt: float, *, bold: bool = False) -> list[str]:
    """`words` broken at spaces into lines no wider than `width` mm (a longer word or measure stands alone)."""
    lines: list[str] = []
    line = ""
    for word in _unparted(words):
        longer = f"{line} {word}" if line else word
        if line and word_width(longer, size_pt, bold=bold) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line] if line else lines


def _unparted(words: str) -> Iterator[str]:
    """What stands between the places where a label may break: a measure's number, fraction and unit stand together."""
    piece = ""
    for word in words.split():
        measure = word.rstrip(".,;:)") in _units() or (word[0].isdigit() and "/" in word)
        if piece and piece[-1].isdigit() and measure:
            piece += f" {word}"
            continue
        if piece:
            yield piece
        piece = word
    if piece:
        yield piece


@cache
def _units() -> frozenset[str]:
    """Units as any language prints them."""
    return frozenset(_UNITS.union(*(Language(code).units.values() for code in languages())))
