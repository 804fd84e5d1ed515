"""Strands of a band: summed round by round, shared by material, joined from working lengths."""

from __future__ import annotations

import math
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.quantities.records import (
    CHASE,
    FRENCH,
    MATERIALS,
    PACKING,
    RAND,
    SLEW,
    WALE,
    band,
    material,
    settings,
    sized,
    woven,
)

from slath.language.pattern import Cell, Gauge, Stroke
from slath.quantities.crossing import UprightSection, crossing_mm
from slath.quantities.joins import pieces_for, working_length
from slath.quantities.take_up import jammed_rounds
from slath.quantities.uprights import Upright, upright_from
from slath.quantities.weaving import band_row, band_strands
from slath.trade.stock import Stock
from slath.units import Amount, Basis

STAKE = Upright(UprightSection(3.25, 3.25))


def test_each_round_is_taken_at_its_own_outline() -> None:
    """Two rounds of different outlines need the sum of the two, which the mean outline would not give."""
    rounds = woven(band(RAND, ("plain",)), 21, [300.0, 420.0])
    (run,) = band_strands(rounds, STAKE, sized())
    expected = sum(21 * crossing_mm(outline / 21, STAKE.section, 2.75) for outline in (300.0, 420.0))
    assert run.woven_mm.value == pytest.approx(expected, rel=1e-12)
    average = 2 * 21 * crossing_mm(360.0 / 21, STAKE.section, 2.75)
    assert abs(average - expected) > 0.5, "the mean outline is seen to be wrong here"


def test_strands_of_a_wale_share_the_band_by_material() -> None:
    """In a three-colour wale each colour weaves a third; with two rods of one material that one weaves two thirds."""
    three = band_strands(woven(band(WALE, ("plain", "rust", "slate")), 32, [600.0] * 4), STAKE, sized())
    assert [run.material for run in three] == ["plain", "rust", "slate"]
    assert len({round(run.woven_mm.value, 6) for run in three}) == 1
    two = band_strands(woven(band(WALE, ("plain", "rust", "plain")), 32, [600.0] * 4), STAKE, sized())
    assert [(run.material, run.rods) for run in two] == [("plain", 2), ("rust", 1)]
    assert two[0].woven_mm.value == pytest.approx(2 * two[1].woven_mm.value)


def test_chase_round_is_each_strand_once_round() -> None:
    """Two chasing strands take twice the strand of one randing strand for as many rounds."""
    chased = band_strands(woven(band(CHASE, ("plain", "plain")), 20, [500.0] * 3), STAKE, sized())
    randed = band_strands(woven(band(RAND, ("plain",)), 20, [500.0] * 3), STAKE, sized())
    assert chased[0].woven_mm.value == pytest.approx(2 * randed[0].woven_mm.value)


def test_slewing_bundle_counts_every_strand() -> None:
    """Three strands worked as one take three times one strand."""
    slewed = band_strands(woven(band(SLEW, ("plain",)), 21, [500.0]), STAKE, sized())
    randed = band_strands(woven(band(RAND, ("plain",)), 21, [500.0]), STAKE, sized())
    assert slewed[0].rods == 3
    assert slewed[0].woven_mm.value == pytest.approx(3 * randed[0].woven_mm.value)


def test_french_rand_is_one_stroke_of_every_rod() -> None:
    """Each of S rods passes two uprights in a round, so a round takes the outline twice over, in S lengths."""
    (run,) = band_strands(woven(band(FRENCH, ("plain",)), 24, [480.0] * 2), STAKE, sized())
    crossing = crossing_mm(20.0, STAKE.section, 2.75)
    assert run.woven_mm.value == pytest.approx(2 * 24 * 2 * crossing)
    assert run.rods == run.pieces.value == 24


def test_packing_rows_turn_back() -> None:
    """A row of packing over 6 of 24 uprights takes a quarter of a round; rows outside the cells take nothing."""
    cells = (Cell((1, 1), (1, 6), (Stroke(1, 1),)), Cell((2, 2), (1, 12), ()))
    (run,) = band_strands(woven(band(PACKING, ("plain",), cells=cells), 24, [480.0] * 3), STAKE, sized())
    (whole,) = band_strands(woven(band(RAND, ("plain",)), 24, [480.0]), STAKE, sized())
    assert run.woven_mm.value == pytest.approx(0.75 * whole.woven_mm.value)


def test_given_take_up_is_used_as_it_is() -> None:
    """A designer's take-up replaces the geometry and the length is then as sure as the take-up."""
    spec = band(RAND, ("plain",), take_up=Amount("take-up", 1.2, "ratio", Basis.GIVEN))
    (run,) = band_strands(woven(spec, 21, [400.0]), STAKE, sized())
    assert run.woven_mm.value == pytest.approx(480.0)


def gauge(take_up: float, spacing_mm: float | None) -> Gauge:
    """Make a take-up measured on a test piece of randing."""
    return Gauge(("gauge", 0), "randing", "rust", None, None, take_up, spacing_mm, "M.", date(2026, 3, 1))


def test_measured_take_up_replaces_the_geometry() -> None:
    """A take-up measured with another colour of the same reed is used and the basis says measured."""
    pattern = sized(gauge=(gauge(1.11, None),))
    rounds = woven(band(RAND, ("plain",)), 21, [400.0])
    runs = band_strands(rounds, STAKE, pattern)
    assert runs[0].woven_mm.value == pytest.approx(444.0)
    row = band_row(rounds, runs, None)
    assert row.take_up.value == pytest.approx(1.11)
    assert any(item.basis is Basis.MEASURED for item in runs[0].woven_mm.inputs)


def test_measured_take_up_follows_the_spacing() -> None:
    """Measured at the band's own spacing it is met exactly; at wider spacing the crimp shrinks as the geometry's does."""
    pattern = sized(gauge=(gauge(1.11, 400.0 / 21),))
    (same,) = band_strands(woven(band(RAND, ("plain",)), 21, [400.0]), STAKE, pattern)
    assert same.woven_mm.value == pytest.approx(444.0)
    (wider,) = band_strands(woven(band(RAND, ("plain",)), 21, [800.0]), STAKE, pattern)
    assert 800.0 < wider.woven_mm.value < 888.0


def test_gauge_of_another_weave_is_left_alone() -> None:
    """A take-up measured in randing says nothing about a wale."""
    rounds = woven(band(WALE, ("plain", "plain", "plain")), 21, [400.0])
    with_gauge = band_strands(rounds, STAKE, sized(gauge=(gauge(1.5, None),)))
    assert with_gauge[0].woven_mm.value == pytest.approx(band_strands(rounds, STAKE, sized())[0].woven_mm.value)


def test_jammed_rounds_are_named_and_bounded() -> None:
    """Where uprights stand closer than D + d the round is reported and its take-up is held at the jam."""
    rounds = woven(band(RAND, ("plain",)), 40, [200.0, 480.0])
    assert [found.number for found in jammed_rounds(rounds, STAKE, sized())] == [1]
    (run,) = band_strands(rounds, STAKE, sized())
    second = 40 * crossing_mm(12.0, STAKE.section, 2.75)
    assert run.woven_mm.value == pytest.approx(200.0 * math.pi / 2 + second)
    assert run.woven_mm.basis is Basis.ESTIMATED


def test_lengths_add_up_and_joins_are_shown_apart() -> None:
    """Length is woven, ends and laps; pieces less strands are the joins; spare is a share of the length, apart."""
    pattern = sized(settings=settings(spare_strands=0.1, working_length=2000.0, join_lap=60.0))
    for run in band_strands(woven(band(WALE, ("plain", "rust", "plain")), 32, [640.0] * 25), STAKE, pattern):
        assert run.length_mm.value == pytest.approx(run.woven_mm.value + run.ends_mm.value + run.laps_mm.value)
        assert run.joins.value == run.pieces.value - run.rods
        assert run.laps_mm.value == pytest.approx(60.0 * run.joins.value)
        assert run.spare_mm.value == pytest.approx(0.1 * run.length_mm.value)
        assert run.pieces.value * run.piece_mm.value >= run.length_mm.value


def test_short_strand_is_cut_to_its_own_length() -> None:
    """A strand shorter than the working length is one piece, rounded up to the maker's step."""
    (run,) = band_strands(woven(band(RAND, ("plain",)), 21, [400.0]), STAKE, sized())
    assert (run.pieces.value, run.joins.value) == (1, 0)
    assert run.length_mm.value <= run.piece_mm.value < run.length_mm.value + 12.7


@given(st.floats(1, 1e5), st.floats(100, 5000), st.floats(0, 0.5))
def test_pieces_laid_with_laps_cover_the_strand(strand: float, working: float, share: float) -> None:
    """So many pieces with so many laps reach the length, and one piece fewer would not."""
    lap = share * working
    pieces = pieces_for(strand, working, lap)
    assert pieces * working - (pieces - 1) * lap >= strand * (1 - 1e-6)
    if pieces > 1:
        assert (pieces - 1) * working - (pieces - 2) * lap < strand * (1 + 1e-6)


def test_lap_is_never_more_than_half_a_piece() -> None:
    """A working length of 100 mm with a lap of 76 mm laps 50 mm, so that every piece still gains half its length."""
    pattern = sized(settings=settings(working_length=100.0))
    (run,) = band_strands(woven(band(RAND, ("plain",)), 21, [400.0]), STAKE, pattern)
    assert run.laps_mm.value == pytest.approx(50.0 * run.joins.value)
    assert run.length_mm.value == pytest.approx(run.woven_mm.value + 50.0 + run.laps_mm.value)


def test_without_working_length_a_strand_is_not_parted() -> None:
    """A working length of nothing joins nothing: one piece as long as the strand."""
    pattern = sized(settings=settings(working_length=0.0))
    (run,) = band_strands(woven(band(RAND, ("plain",)), 21, [4000.0]), STAKE, pattern)
    assert (run.pieces.value, run.joins.value) == (1, 0)
    assert run.piece_mm.value >= run.length_mm.value == pytest.approx(run.woven_mm.value + 76.2)


def test_working_length_is_never_longer_than_the_stock() -> None:
    """Stock that comes in short lengths, and willow rods of a class, set the working length; a band may set its own."""
    rounds = woven(band(RAND, ("plain",)), 21, [400.0])
    pattern = sized()
    assert working_length(rounds, MATERIALS["plain"], pattern).value == pytest.approx(8 * 304.8)
    short = material("oval", Stock("oval", "oval reed", 6.0, 3.0, usual_length_mm=1500.0))
    assert working_length(rounds, short, pattern).value == 1500.0
    rod = material("rods", Stock("willow", "willow", 4.0, 4.0, length_class_mm=1524.0, butt_mm=7.0, tip_mm=1.4))
    assert working_length(rounds, rod, pattern).value == 1524.0
    own = woven(band(RAND, ("plain",), working_length_mm=900.0), 21, [400.0])
    assert working_length(own, MATERIALS["plain"], pattern).value == 900.0


def test_sticks_in_groups_are_as_wide_as_they_lie() -> None:
    """Four sticks worked as one are four sticks wide and one thick."""
    four = upright_from([MATERIALS["sticks"]] * 16, (4, 4, 4, 4), "stick")
    assert four.section == UprightSection(4 * 5.6, 5.6)
    single = upright_from([MATERIALS["sticks"]] * 16, (1,) * 16, "stick")
    assert single.section == UprightSection(5.6, 5.6)


@pytest.mark.parametrize("uprights", [21, 37, 64])
def test_woven_base_agrees_with_its_area(uprights: int) -> None:
    """Strand of a woven ring ≈ its area ÷ pitch × take-up (Pappus): here within one in a hundred of the rounds' sum."""
    pitch = 2.97
    inner, rounds = 25.0, 26
    radii = [inner + (index + 0.5) * pitch for index in range(rounds)]
    ring = woven(band(RAND, ("plain",), part="base"), uprights, [2 * math.pi * r for r in radii], pitch)
    thin = Upright(UprightSection(1.0, 1.0))
    runs = band_strands(ring, thin, sized(materials=MATERIALS))
    outer = inner + rounds * pitch
    area = math.pi * (outer**2 - inner**2)
    assert sum(2 * math.pi * r for r in radii) == pytest.approx(area / pitch, rel=1e-12)
    row = band_row(ring, runs, None)
    assert runs[0].woven_mm.value == pytest.approx(area / pitch * row.take_up.value, rel=0.01)
