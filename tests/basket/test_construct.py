"""The side in whole rounds, and stakes that change part-way up."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from tests.basket.written import constructed

from slath.basket.model import CannotConstruct

BASE = """
base: {kind: round slath, diameter: 8 in, sticks: 10, material: sticks}
stakes: {material: stakes, per_end: 2}
"""


def test_whole_rounds_come_within_half_a_round_of_the_height(tmp_path: Path) -> None:
    """A band to the top takes the whole number of rounds nearest to what the other bands leave."""
    basket = constructed(
        tmp_path,
        BASE
        + """
side:
  height: 6 in
  rim: {diameter: 10 in}
  bands:
    - {name: upsett, weave: three-rod wale, strands: plain, rounds: 3}
    - {name: wall, weave: chasing, strands: plain, to: top}
    - {name: top, weave: three-rod wale, strands: plain, rounds: 2}
""",
    )
    slope = math.hypot(6 * 25.4, 25.4)
    reached = sum(band.reached_mm for band in basket.bands)
    assert abs(reached - slope) <= basket.bands[1].pitch.value / 2
    for band in basket.bands:
        assert band.reached_mm == pytest.approx(len(band.rounds) * band.pitch.value)
    assert basket.profile is not None
    assert basket.profile.along_mm == pytest.approx(reached)
    assert basket.rim.outline.length_mm == pytest.approx(254)


def test_every_round_has_its_own_perimeter(tmp_path: Path) -> None:
    """Rounds are measured at their middle on the leaning side: perimeters grow evenly from base to rim on a cone."""
    basket = constructed(
        tmp_path,
        BASE
        + """
side:
  height: 6 in
  rim: {diameter: 10 in}
  bands: [{name: wall, weave: three-rod wale, strands: plain, to: top}]
""",
    )
    rounds = basket.bands[0].rounds
    half = 1 / (2 * len(rounds))
    expected = [math.pi * 25.4 * (8 + 2 * (half + index / len(rounds))) for index in range(len(rounds))]
    assert [item.perimeter_mm for item in rounds] == pytest.approx(expected)
    assert [item.spacing_mm for item in rounds] == pytest.approx([value / 40 for value in expected])


def test_keeping_the_height_stretches_the_rounds(tmp_path: Path) -> None:
    """`keep: height` spreads whole rounds over exactly the height asked for, and says so in the pitch's working."""
    basket = constructed(
        tmp_path,
        BASE + "side: {bands: [{name: wall, weave: chasing, strands: plain, height: 100 mm, keep: height}]}",
    )
    band = basket.bands[0]
    assert band.reached_mm == pytest.approx(100)
    assert band.pitch.formula == "height asked for ÷ whole rounds"
    free = constructed(tmp_path, BASE + "side: {bands: [{name: wall, weave: chasing, strands: plain, height: 100 mm}]}")
    assert len(free.bands[0].rounds) == len(band.rounds)
    assert free.bands[0].reached_mm != pytest.approx(100, abs=0.1)


@pytest.mark.parametrize(
    ("change", "counts"),
    [
        ("{add_stakes: {count: 10, material: stakes}}", [40, 50]),
        ("{add_stakes: {beside: every, material: stakes}}", [40, 80]),
        ("{add_stakes: {count: 60, material: stakes}}", [40, 100]),
        ("{add_stakes: {stakes: [3, 17, 30], material: stakes}}", [40, 43]),
        ("{drop_stakes: {count: 10}}", [40, 30]),
        ("{drop_stakes: {stakes: [1, 2]}}", [40, 38]),
        ("{drop_stakes: {beside: every other}}", [40, 20]),
    ],
)
def test_counts_change_part_way_up(tmp_path: Path, change: str, counts: list[int]) -> None:
    """Added stakes are woven as uprights of their own from there up, dropped ones no longer; the rim has the new count."""
    basket = constructed(
        tmp_path,
        BASE
        + f"""
side:
  bands:
    - {{name: lower, weave: three-rod wale, strands: plain, rounds: 4}}
    - {change}
    - {{name: upper, weave: three-rod wale, strands: plain, rounds: 4}}
""",
    )
    assert [band.uprights for band in basket.bands] == counts
    assert basket.rim_uprights == counts[-1]


def test_a_rim_out_of_reach_is_told_with_both_sizes(tmp_path: Path) -> None:
    """A side too short to lean out to its rim cannot be built; the reason names both outlines."""
    with pytest.raises(CannotConstruct) as caught:
        constructed(
            tmp_path,
            BASE
            + "side: {height: 1 in, rim: {diameter: 16 in}, bands: "
            + "[{name: wall, weave: three-rod wale, strands: plain, rounds: 2}]}",
        )
    assert caught.value.code == "rim-out-of-reach"
    assert caught.value.remedies
