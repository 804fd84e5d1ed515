"""Widths of words against the bundled font."""

from __future__ import annotations

from importlib import resources

import pytest
from fontTools.ttLib import TTFont

from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width

WORDS = ("in between 16 and 17, under loop 16", "9 11/16 in (246 mm) across", "WALE & fitch: 40 ÷ 3 leaves 1")


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", WORDS)
def test_words_are_as_wide_as_the_font_sets_them(words: str, bold: bool) -> None:
    """The table is the font's own advances; without kerning, so never narrower than set."""
    with TTFont(str(resources.files("slath.fonts") / ("sans-bold.ttf" if bold else "sans.ttf"))) as font:
        names, metrics, em = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
        plain = words.replace("÷", "")
        set_width = sum(metrics[names[ord(sign)]][0] for sign in plain) / em * 7.5 * POINT_MM
    assert word_width(plain, 7.5, bold=bold) == pytest.approx(set_width, rel=1e-9)


def test_lines_break_at_spaces_and_fit() -> None:
    """No line is wider than the room unless it is a single word; nothing is lost."""
    lines = in_lines("before 14, 15 and 16, then in between 16 and 17", 20.0, 7.5)
    assert " ".join(lines) == "before 14, 15 and 16, then in between 16 and 17"
    assert all(word_width(line, 7.5) <= 20.0 for line in lines)


def test_lines_never_break_a_measure() -> None:
    """A number, its fraction and its unit stay on one line, even where the room is narrower."""
    assert in_lines("foot 4 1/2 in (102 mm)", 5.0, 7.5) == ["foot", "4 1/2 in", "(102 mm)"]
