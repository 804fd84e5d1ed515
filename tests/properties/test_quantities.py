"""What holds of the list of any basket: parts make totals, lengths scale, colours and sizes do not leak."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given
from hypothesis import settings as within
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.properties.scaling import check_scaling, scaled
from tests.quantities.records import (
    CHASE,
    FOUR_WALE,
    PAIR,
    RAND,
    SLEW,
    WALE,
    band,
    oval_pattern,
    round_pattern,
    settings,
    through_pattern,
    tray_pattern,
)

from slath.basket.construct import construct
from slath.language.pattern import Extent, Outline, RoundSlath, Side, SizedPattern, Stakes
from slath.quantities import quantities_of

COLOURS = ("plain", "rust", "slate")
quick = within(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])


@st.composite
def baskets(draw: st.DrawFn) -> SizedPattern:
    """Any round basket with stakes set in: its cross, size, flare, height, bands, colours and spare."""
    diameter = draw(st.floats(120, 400))
    per_end = draw(st.integers(1, 2))
    across = draw(st.integers(4, 7))
    base = round_pattern().base
    assert isinstance(base, RoundSlath)
    base = replace(base, outline=Outline("circle", diameter, diameter), pierced=across, threaded=across)
    rim = diameter * draw(st.floats(0.9, 1.3))
    weaves = draw(st.lists(st.sampled_from([CHASE, FOUR_WALE, PAIR, RAND, SLEW, WALE]), min_size=1, max_size=3))
    bands = tuple(
        band(
            weave,
            tuple(draw(st.sampled_from(COLOURS)) for _ in range(weave.rods)),
            name=f"band {index}",
            path=("side", "bands", index),
            extent=Extent(rounds=draw(st.integers(3, 12))) if index else Extent(to="top"),
        )
        for index, weave in enumerate(weaves)
    )
    side = Side(("side",), draw(st.floats(150, 300)), Outline("circle", rim, rim), "straight", 0.0, (), bands)
    spare = draw(st.sampled_from([0.0, 0.1]))
    return round_pattern(
        base=base, side=side, stakes=Stakes(("stakes",), "stakes", per_end), settings=settings(spare_strands=spare)
    )


@quick
@given(baskets())
def test_totals_are_the_sum_of_their_parts(pattern: SizedPattern) -> None:
    """Every cut length, strand length, purchase and height of the list is the sum of what it is made of."""
    found = quantities_of(construct(pattern))
    for piece in found.pieces:
        assert piece.needed_mm.value == pytest.approx(sum(part.value for part in piece.parts))
        assert piece.cut_mm.value >= piece.needed_mm.value - 1e-6
    for run in found.strands:
        assert run.length_mm.value == pytest.approx(run.woven_mm.value + run.ends_mm.value + run.laps_mm.value)
        assert run.joins.value + run.rods == run.pieces.value
    for row in found.purchase:
        cut = sum(
            (item.count.value + item.spare) * item.cut_mm.value
            for item in found.pieces
            if item.material == row.material
        )
        strands = sum(run.length_mm.value + run.spare_mm.value for run in found.strands if run.material == row.material)
        assert row.length_mm.value == pytest.approx(cut + strands)
        assert row.surplus_mm is not None
        assert row.surplus_mm.value >= -1e-6
    sides = [row.along.value for row in found.bands if row.part == "side"]
    assert found.finished.along.value == pytest.approx(sum(sides), rel=1e-5)


@quick
@given(baskets())
def test_strands_of_a_band_cover_every_round(pattern: SizedPattern) -> None:
    """All strands of a band together are at least its rounds × strands × outline, and no more than π/2 of that."""
    check_covered(pattern)


def test_strands_that_run_on_cover_the_rounds_of_both_bands() -> None:
    """Where a band goes on as the one below it was woven, its strands do too, and are listed once for both."""
    bands = tuple(
        band(RAND, ("plain",), name=f"band {index}", path=("side", "bands", index), extent=extent)
        for index, extent in enumerate((Extent(to="top"), Extent(rounds=3)))
    )
    side = Side(("side",), 150.0, Outline("circle", 250.0, 250.0), "straight", 0.0, (), bands)
    check_covered(round_pattern(side=side))
    assert [run.band for run in quantities_of(construct(round_pattern(side=side))).strands if run.part == "side"] == [
        "band 0"
    ]


def check_covered(pattern: SizedPattern) -> None:
    """Strands listed under a band cover its rounds, and those of bands after it that go on alike and list none."""
    basket = construct(pattern)
    used: dict[str, float] = {}
    for run in quantities_of(basket).strands:
        if run.part == "side":
            used[run.band] = used.get(run.band, 0.0) + run.woven_mm.value
    covered: dict[str, float] = {}
    first = basket.bands[0]
    for woven in basket.bands:
        if woven.name in used:
            first = woven
        assert (woven.materials, woven.spec.weave) == (first.materials, first.spec.weave), woven.name
        strands = sum(len(rod) for rod in woven.materials)
        way = strands * sum(place.perimeter_mm for place in woven.rounds)
        covered[first.name] = covered.get(first.name, 0.0) + way
    assert covered.keys() == used.keys()
    assert all(covered[name] <= length <= covered[name] * 1.5708 for name, length in used.items())


@quick
@given(baskets())
def test_every_number_is_as_weak_as_its_weakest_input(pattern: SizedPattern) -> None:
    """No amount claims to rest on more than the poorest of the amounts that went into it."""
    for amount in quantities_of(construct(pattern)).amounts():
        for item in amount.inputs:
            assert amount.basis >= item.basis, (amount.name, item.name)


@quick
@given(baskets(), st.sampled_from([0.5, 2.0, 4.0]))
def test_scaling_every_length_scales_every_length(pattern: SizedPattern, factor: float) -> None:
    """With every length of a pattern, its stocks and its settings scaled, counts stay and lengths scale with them."""
    check_scaling(pattern, factor)


@pytest.mark.parametrize("make", [oval_pattern, through_pattern, tray_pattern])
def test_scaling_holds_for_other_bases(make: Callable[[], SizedPattern]) -> None:
    """The same for an oval slath, for sticks that become stakes and for a drilled board with a foot border."""
    check_scaling(make(), 2.0)


@quick
@given(baskets())
def test_colours_change_no_length(pattern: SizedPattern) -> None:
    """Dyeing is free of charge in length: with every colour plain the same reed is needed in all."""
    plain = dict.fromkeys(COLOURS, pattern.materials["plain"])
    recoloured = replace(pattern, materials={**pattern.materials, **plain})
    first, second = (quantities_of(construct(item)) for item in (pattern, recoloured))
    assert sum(run.length_mm.value for run in first.strands) == pytest.approx(
        sum(run.length_mm.value for run in second.strands)
    )


def test_scaling_scales_something() -> None:
    """The scaled pattern differs where it should: outline, stock and settings, and not in its counts."""
    pattern, double = round_pattern(), scaled(round_pattern(), 2.0)
    assert double.base.outline.length_mm == 2 * pattern.base.outline.length_mm
    assert double.materials["plain"].stock.width_mm == 2 * pattern.materials["plain"].stock.width_mm
    assert double.settings["join_lap"].value == 2 * pattern.settings["join_lap"].value
    assert double.settings["spare_stakes"].value == pattern.settings["spare_stakes"].value
