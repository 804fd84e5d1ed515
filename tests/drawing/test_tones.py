"""Colour maths against published values, and the separation of what must be told apart in grey."""

from __future__ import annotations

import pytest

from slath.drawing.options import Options
from slath.drawing.paint.dress import dress, faint, picked_out, set_apart
from slath.drawing.paint.tones import lit, tones
from slath.units.colour import contrast, from_lab, grey, lab, lightness

MATERIALS = ("#efe4c8", "#cf8a62", "#2c4452", "#5f7a4a", "#8b1e1e", "#1b1b1b", "#ffffff")


@pytest.mark.parametrize(
    ("colour", "expected"),
    [
        ("#000000", 0.0),
        ("#ffffff", 100.0),
        ("#777777", 50.03),
        ("#ff0000", 53.24),
        ("#00ff00", 87.74),
        ("#0000ff", 32.30),
    ],
)
def test_lightness_of_known_colours(colour: str, expected: float) -> None:
    """CIE L* of sRGB primaries and mid grey (D65), as in common colour tables; from memory."""
    assert lightness(colour) == pytest.approx(expected, abs=0.03)


def test_contrast_of_black_on_white() -> None:
    """Black on white is 21 : 1 and #767676 on white is the darkest grey that just passes 4.5 : 1 (WCAG 2.2, 1.4.3)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") >= 4.5
    assert contrast("#777777", "#ffffff") < 4.5


@pytest.mark.parametrize("colour", MATERIALS)
def test_lab_and_back(colour: str) -> None:
    """A colour comes back from CIELAB unchanged."""
    assert from_lab(lab(colour)) == colour


@pytest.mark.parametrize("colour", MATERIALS)
def test_tones_keep_marks_and_edges_readable(colour: str) -> None:
    """Marks stand 35 L* off the body, the edge is darker than it, highlight and shade lie on either side of it."""
    look = tones(colour)
    body = lightness(look.body)
    assert abs(lightness(look.mark) - body) >= 35
    assert lightness(look.edge) < max(body, 12)
    assert lightness(look.shade) <= body <= lightness(look.highlight)


@pytest.mark.parametrize("colour", ["#efe4c8", "#cf8a62", "#2c4452", "#d9cdb4", "#c2a878"])
def test_picked_out_rod_differs_in_grey(colour: str) -> None:
    """A stake picked out is told from its like on a grey printer: 25 L* or more."""
    usual = dress(colour)
    assert abs(lightness(picked_out(usual).tones.body) - lightness(colour)) >= 25
    assert lightness(faint(usual).tones.body) > 80


def test_sticks_are_told_from_weavers() -> None:
    """A colour too near the others moves away from all of them; one far enough stays."""
    taken = ("#efe4c8", "#d9cdb4")
    moved = set_apart("#ecdfc0", taken, 9.0)
    assert all(abs(lightness(moved) - lightness(other)) >= 8.5 for other in taken)
    assert set_apart("#c2a878", taken, 9.0) == "#c2a878"


def test_light_changes_lightness_one_way() -> None:
    """More light is lighter, less is darker, none changes nothing."""
    assert lit("#cf8a62", 0) == "#cf8a62"
    assert lightness(lit("#cf8a62", -0.4)) < lightness("#cf8a62") < lightness(lit("#cf8a62", 0.1))
    assert grey("#cf8a62")[1:3] == grey("#cf8a62")[3:5] == grey("#cf8a62")[5:7]


def test_words_meet_contrast() -> None:
    """Ink and quiet words on paper, and words on a reversed disc, meet WCAG 2.2 AA for text (4.5 : 1)."""
    options = Options()
    assert contrast(options.ink, options.paper) >= 7
    assert contrast(options.quiet, options.paper) >= 4.5
