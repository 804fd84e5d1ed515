"""Where outlines are measured, the way of strands that lie outside the stakes, and what stands below the weaving."""

from __future__ import annotations

import math

import numpy as np
import pytest
from msgspec.structs import replace
from tests.quantities.records import (
    CHASE,
    FOUR_WALE,
    PAIR,
    RAND,
    WALE,
    band,
    round_pattern,
    sized,
    tray_pattern,
    woven,
)

from slath.basket.construct import construct
from slath.basket.lid import rim_size
from slath.basket.weave import faces_of
from slath.language.pattern import Board, Handle, Outline, SizedPattern, Stroke, WeaveSpec
from slath.quantities import quantities_of
from slath.quantities.crossing import UprightSection
from slath.quantities.uprights import Upright
from slath.quantities.weaving import band_strands

SIX_WALE = WeaveSpec("wale", (Stroke(5, 1),), 6, 1, True, "six-rod wale")
JAPANESE = WeaveSpec("rand", (Stroke(2, 1),), 1, 1, False, "Japanese weave")
UNDER_TWO = WeaveSpec("rand", (Stroke(1, 2),), 1, 1, False, "before 1 behind 2")
STAKE_MM, STRAND_MM = 3.25, 2.75
SECTION = Upright(UprightSection(STAKE_MM, STAKE_MM))


def bent_less_flat(weave: WeaveSpec, stakes: int, radius: float) -> float:
    """How much longer one round of a strand is round a circle of stakes than past as many in a straight row.

    The centre line is measured by quadrature: half a stake and half a strand out before a stake, as far in behind one,
    and over from face to face in a raised cosine.
    """
    faces = faces_of(weave.strokes)
    turns = weave.cycle  # so many rounds close the strokes
    angle = np.linspace(0.0, 2 * math.pi * turns, 4000 * turns + 1)
    place = angle / (2 * math.pi) * stakes
    low = np.floor(place).astype(int)
    side = np.array([1.0 if faces[index % len(faces)] == "before" else -1.0 for index in range(stakes * turns + 2)])
    mixed = side[low] + (side[low + 1] - side[low]) * (1 - np.cos(math.pi * (place - low))) / 2
    out = (STAKE_MM + STRAND_MM) / 2 * mixed
    bent = np.hypot(np.diff((radius + out) * np.cos(angle)), np.diff((radius + out) * np.sin(angle))).sum()
    flat = np.hypot(np.diff(radius * angle), np.diff(out)).sum()
    return float(bent - flat) / turns


@pytest.mark.parametrize("weave", [RAND, PAIR, CHASE, JAPANESE, UNDER_TWO, WALE, FOUR_WALE, SIX_WALE])
@pytest.mark.parametrize(("stakes", "radius"), [(31, 100.0), (19, 60.0), (48, 150.0)])
def test_strands_outside_the_stakes_go_a_longer_way(weave: WeaveSpec, stakes: int, radius: float) -> None:
    """What the list adds for the way of a strand beside the stakes is what bending the row into a round adds to it."""
    laid = [
        band_strands(woven(band(weave, ("plain",), part=part), stakes, [2 * math.pi * radius]), SECTION, sized())
        for part in ("side", "base")
    ]
    more = (laid[0][0].woven_mm.value - laid[1][0].woven_mm.value) / weave.rods
    assert more == pytest.approx(bent_less_flat(weave, stakes, radius), abs=0.25)


def test_a_wale_takes_more_than_the_line_of_the_stakes() -> None:
    """On a rim of six inches a three-rod wale takes about 1 % more for lying outside, a six-rod about 3 %."""
    radius, stakes, pattern = 76.2, 31, sized()
    for weave, share in ((WALE, 0.013), (SIX_WALE, 0.026)):
        runs = band_strands(woven(band(weave, ("plain",)), stakes, [2 * math.pi * radius]), SECTION, pattern)
        flat = band_strands(
            woven(band(weave, ("plain",), part="base"), stakes, [2 * math.pi * radius]), SECTION, pattern
        )
        more = runs[0].woven_mm.value / flat[0].woven_mm.value - 1
        assert more == pytest.approx(share, abs=0.003), weave.label


def measured(where: str) -> SizedPattern:
    """A round basket whose rim was measured in one of the three places."""
    return round_pattern(measured=where)


def test_outlines_mean_the_line_of_the_stakes() -> None:
    """Given outside, the stakes stand half a wall further in; inside, further out; the list prints what was given.

    Half a wall: half a stake of 3.25 mm and a weaver of 2.75 mm.
    """
    wall = 3.25 / 2 + 2.75
    for where, shift in (("at the stakes", 0.0), ("outside", -wall), ("inside", wall)):
        basket = construct(measured(where))
        assert basket.rim.outline.length_mm == pytest.approx(254.0 + 2 * shift)
        found = quantities_of(basket)
        assert found.finished.rim_length.value == pytest.approx(254.0)
        assert found.finished.rim_measured == where
        assert found.rim_spacing.value == pytest.approx(math.pi * (254.0 + 2 * shift) / basket.working)
        again = construct(basket.pattern)
        assert again.rim.outline == basket.rim.outline, "what was brought to the stakes stays there"


def test_a_lid_meets_the_wall_on_both_sides_of_the_stakes() -> None:
    """Without a border a rim is a wall thicker over all than the line of its stakes, and its opening a wall narrower."""
    pattern = round_pattern(border=None)
    wall = 3.25 / 2 + 2.75
    found = rim_size(Outline("circle", 254.0, 254.0), pattern)
    assert found.over_all == pytest.approx((254.0 + 2 * wall, 254.0 + 2 * wall))
    assert found.opening == pytest.approx((254.0 - 2 * wall, 254.0 - 2 * wall))


def test_heights_count_the_board_and_the_foot() -> None:
    """A tray stands on its foot border, and its board lies below the weaving: both heights have them."""
    bow = Handle(("handle",), "bow", "sticks", rise_mm=150.0)
    whole = tray_pattern(handles=(bow,))
    base = whole.base
    assert isinstance(base, Board)
    found = quantities_of(construct(whole)).finished
    thin = quantities_of(construct(replace(whole, base=replace(base, thickness_mm=1.0)))).finished
    footless = quantities_of(construct(replace(whole, foot=None))).finished
    assert found.height_with_handle is not None
    assert thin.height_with_handle is not None
    assert footless.height_with_handle is not None
    assert found.height.value - thin.height.value == pytest.approx(5.0)
    assert found.height_with_handle.value - thin.height_with_handle.value == pytest.approx(5.0)
    foot = next(part.value for part in found.height.inputs if part.name == "height of the foot border")
    assert foot > 0
    assert found.height.value - footless.height.value == pytest.approx(foot)
    assert found.height_with_handle.value - footless.height_with_handle.value == pytest.approx(foot)
