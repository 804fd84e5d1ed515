"""Lids fitted to the rim the basket is predicted to have."""

from __future__ import annotations

from typing import Literal

import pytest
from msgspec.structs import replace
from tests.basket.border_words import border
from tests.quantities.records import PAIR, round_pattern

from slath.basket.construct import construct, construct_lid
from slath.basket.lid import best_size, fits, rim_size
from slath.basket.model import ConstructedLid
from slath.language.pattern import Band, Border, Extent, Lid, Outline, RoundSlath, SizedPattern

STAKE, WEAVER, TOP = 3.25, 2.75, 2.75  # mm in the test materials: stakes, and the weavers of the last band


def pattern(rim_border: Border | None) -> SizedPattern:
    """The usual round basket, its rim 10 in over all."""
    return round_pattern(border=rim_border)


def lid(fit: Literal["over", "inside", "resting"], size_mm: float, rim_border: Border | None = None) -> ConstructedLid:
    """A flat round lid of this size with no border, on a basket with this border."""
    base = RoundSlath(
        ("lid", "base"), Outline("circle", size_mm, size_mm), 4, 4, half_stick=False, material="sticks",
        weaving=(Band("lid", ("lid", "base", "weaving", 0), PAIR, ("fine", "fine"), Extent(to="edge"), "lid"),),
    )  # fmt: skip
    spec = Lid(("lid",), base, None, None, fit, clearance_mm=3.0)
    whole = pattern(rim_border)
    return construct_lid(spec, construct(whole).rim, whole)


def test_border_inside_narrows_the_opening_and_outside_widens_the_rim() -> None:
    """Stakes that go behind lie inside the opening, stakes that go before lie outside over all."""
    outline = Outline("circle", 254.0, 254.0)
    bare = rim_size(outline, pattern(None))
    behind = rim_size(outline, pattern(border("behind 2, down")))
    before = rim_size(outline, pattern(border("before 2, down")))
    # The outline is the line of the stakes: half a stake and a weaver lie on either side of it.
    assert bare.over_all[0] == pytest.approx(254.0 + 2 * (STAKE / 2 + TOP))
    assert bare.opening[0] == pytest.approx(254.0 - 2 * (STAKE / 2 + TOP))
    assert behind.opening[0] < bare.opening[0]
    assert behind.over_all == bare.over_all
    assert before.over_all[0] > bare.over_all[0]
    assert before.opening == bare.opening


def test_lid_inside_needs_room_all_round() -> None:
    """A lid that drops in is smaller than the opening by its clearance on every side."""
    opening = rim_size(Outline("circle", 254.0, 254.0), pattern(None)).opening[0]
    loose, tight = lid("inside", opening - 8.0), lid("inside", opening - 4.0)
    assert loose.gap_mm == pytest.approx(4.0)
    assert fits(loose)
    assert not fits(tight)
    assert tight.rim_mm == pytest.approx(opening)


def test_lid_resting_needs_an_edge_to_rest_on() -> None:
    """A lid that rests must reach past the opening; one that just fits inside falls in."""
    opening = rim_size(Outline("circle", 254.0, 254.0), pattern(None)).opening[0]
    assert fits(lid("resting", opening + 6.0))
    assert not fits(lid("resting", opening + 1.0))


def test_lid_over_clears_the_border() -> None:
    """A lid that goes over the rim must clear the ends of the border that lie outside."""
    rim = border("behind 1, out", "before 2, in")
    over_all = rim_size(Outline("circle", 254.0, 254.0), pattern(rim)).over_all[0]
    assert not fits(lid("over", over_all + 4.0, rim))
    assert fits(lid("over", over_all + 6.0, rim))


@pytest.mark.parametrize("fit", ["over", "inside", "resting"])
def test_best_size_fits_exactly(fit: Literal["over", "inside", "resting"]) -> None:
    """Made to the size advised, the lid has just its clearance."""
    rim = border("behind 1, out", "before 2, in")
    first = lid(fit, 250.0, rim)
    length, _ = best_size(first, Outline("circle", 250.0, 250.0))
    assert lid(fit, length, rim).gap_mm == pytest.approx(3.0)


def test_lid_is_constructed_as_a_basket_of_its_own() -> None:
    """The lid has its own sticks, ends and weaving; nothing of the basket's side or stakes comes with it."""
    made = lid("resting", 254.0)
    assert len(made.base.ends) == 16
    assert made.bands == ()
    assert made.border is None
    assert replace(pattern(None), lid=made.spec).lid is made.spec
