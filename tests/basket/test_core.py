"""The first rounds of a base go round its crossing as it is: against a cord laid round it."""

from __future__ import annotations

import pytest
from shapely.geometry import box
from tests.quantities.records import round_pattern

from slath.basket.construct import construct
from slath.basket.model import Basket


@pytest.mark.parametrize("basket", [construct(round_pattern())], ids=["round"])
def test_rounds_over_whole_arms_lie_round_a_square(basket: Basket) -> None:
    """Five sticks of 5.6 mm through five make a crossing of 28 mm: 112 mm round, where a circle is 88 or, midway between its
    sides and corners, 106. Each round lies so far out from it as it is woven.
    """
    slath = basket.base.slath
    assert slath is not None
    square = box(-slath.length_mm / 2, -slath.width_mm / 2, slath.length_mm / 2, slath.width_mm / 2)
    assert square.length == pytest.approx(112.0)
    band = basket.base.bands[0]
    assert band.spec.groups == "grouped"
    for found in band.rounds:
        assert found.perimeter_mm == pytest.approx(square.buffer(found.along_mm, quad_segs=64).length, rel=1e-3)
        assert found.spacing_mm == pytest.approx(found.perimeter_mm / band.uprights)
