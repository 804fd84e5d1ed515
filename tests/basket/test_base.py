"""Bases: chains of counts from the handbooks, the order of ends, openings, boards."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import pytest
from tests.basket.written import constructed

from slath.basket.ends import parted
from slath.basket.weave import follows, holds

SIDE = """
side:
  height: 5 in
  bands: [{name: wall, weave: three-rod wale, strands: plain, to: top}]
"""


@pytest.mark.parametrize(
    ("sticks", "stakes", "ends", "count"),
    [
        ("sticks: 9", "per_end: 2", 18, 36),
        ("pierced: 5, threaded: 5", "per_end: 2", 20, 40),
        ("sticks: 8", "per_end: 2", 16, 32),
        ("sticks: 6", "per_end: 2", 12, 24),
        ("sticks: 8", "per_end: 2, leave_out: 1", 16, 31),
        ("sticks: 8", "per_end: 4, leave_out: 2, worked: in twos", 16, 62),
        ("sticks: 10", "per_end: 1, add: 1", 20, 21),
    ],
)
def test_chains_of_counts(tmp_path: Path, sticks: str, stakes: str, ends: int, count: int) -> None:
    """Turner 1909 and Blanchard 1914: 9 sticks → 18 → 36; 5 through 5 → 20 → 40; 8 → 32; 6 → 24. Gill 1916: 8 sticks, two
    to an end less one, are 31; 62 in pairs; 10 sticks and one more stake are 21.
    """
    basket = constructed(
        tmp_path,
        f"base: {{kind: round slath, diameter: 7 in, material: sticks, {sticks}}}\nstakes: {{material: stakes, {stakes}}}"
        + SIDE,
    )
    assert len(basket.base.ends) == ends
    assert len(basket.stakes) == count


def test_half_stick_makes_the_count_odd(tmp_path: Path) -> None:
    """White 1901 and Gill 1916: 8 through sticks and a half stick stand up as 17."""
    basket = constructed(
        tmp_path,
        "base: {kind: round slath, diameter: 4 in, material: sticks, sticks: 8, half_stick: yes, become_stakes: yes}"
        + SIDE,
    )
    assert len(basket.base.ends) == len(basket.stakes) == 17
    assert [end.kind for end in basket.base.ends].count("half stick") == 1
    half = next(stick for stick in basket.base.sticks if stick.kind == "half stick")
    assert half.length_mm == pytest.approx(4 * 25.4 / 2)


def test_ends_go_round_left_to_right_seen_from_outside(tmp_path: Path) -> None:
    """Ends and stakes are numbered at even distances, anticlockwise in a plan seen from above."""
    basket = constructed(
        tmp_path,
        "base: {kind: round slath, diameter: 7 in, material: sticks, sticks: 10}\nstakes: {material: stakes, per_end: 2}"
        + SIDE,
    )
    for places in ([end.u for end in basket.base.ends], [stake.u for stake in basket.stakes]):
        gaps = [later - earlier for earlier, later in pairwise(places)]
        assert gaps == pytest.approx([1 / len(places)] * (len(places) - 1))
    for end in basket.base.ends:
        beside = [stake.u for stake in basket.stakes if stake.end == end.number]
        assert sum(beside) / len(beside) == pytest.approx(end.u)


OVAL = """
base:
  kind: oval slath
  length: 11 in
  width: 7 in
  lengthwise: {sticks: 4, material: sticks}
  crosswise: {groups: [2, 1, 1, 1, 2], material: sticks}
  weaving:
    - {name: tied, weave: chasing, strands: plain, rounds: 2, worked: grouped}
    - {name: opened, weave: chasing, strands: plain, to: edge, worked: singly}
stakes: {material: stakes, per_end: 2, except: {crosswise singles: 1}}
"""


def test_oval_ends_groups_and_stakes(tmp_path: Path) -> None:
    """Ends = 2 (long + cross sticks): 2 (4 + 7) = 22, opened as 14 groups; one stake at the six single ends leaves 38."""
    basket = constructed(tmp_path, OVAL + SIDE)
    assert len(basket.base.ends) == 22
    assert [band.uprights for band in basket.base.bands] == [14, 22]
    assert len(basket.stakes) == 2 * 16 + 6
    assert all(follows(band.spec.weave, band.uprights) for band in basket.base.bands)


def test_oval_base_reaches_its_edge_in_whole_rounds(tmp_path: Path) -> None:
    """The woven width comes within half a round, on each side, of the width asked for."""
    base = constructed(tmp_path, OVAL + SIDE).base
    assert base.reached_mm is not None
    assert abs(base.reached_mm - 7 * 25.4) <= base.bands[-1].pitch.value
    growing = [item.perimeter_mm for band in base.bands for item in band.rounds]
    assert growing == sorted(growing)
    assert growing[-1] < base.edge.perimeter


def test_woven_round_base_agrees_with_the_area_of_its_ring(tmp_path: Path) -> None:
    """Rounds on growing rings: Σ perimeters × pitch is the area of the ring they cover, whatever the number of rounds."""
    base = constructed(
        tmp_path,
        """
base:
  kind: round slath
  diameter: 9 in
  sticks: 10
  material: sticks
  weaving: [{weave: pairing, strands: plain, to: edge}]
stakes: {material: stakes, per_end: 2}
"""
        + SIDE,
    ).base
    band = base.bands[0]
    covered = sum(item.perimeter_mm for item in band.rounds) * band.pitch.value
    first = band.rounds[0].perimeter_mm / math.tau - band.pitch.value / 2
    last = band.rounds[-1].perimeter_mm / math.tau + band.pitch.value / 2
    assert covered == pytest.approx(math.pi * (last**2 - first**2), rel=0.03)


@pytest.mark.parametrize(
    ("count", "size", "groups"),
    [(5, 2, (2, 1, 2)), (4, 2, (2, 2)), (5, 5, (5,)), (8, 4, (4, 4)), (7, 2, (2, 2, 1, 2)), (3, 2, (2, 1)), (0, 2, ())],
)
def test_arms_open_evenly(count: int, size: int, groups: tuple[int, ...]) -> None:
    """Five ends opened in twos are two, one, two: what is over stays in the middle (common practice, no source)."""
    assert parted(count, size) == groups


@pytest.mark.parametrize("weave", ["randing", "chasing", "over 2 under 1"])
def test_board_takes_the_nearest_count_that_suits_the_side(tmp_path: Path, weave: str) -> None:
    """Holes come near the spacing asked for, on a count on which the side can be woven."""
    basket = constructed(
        tmp_path,
        f"""
base: {{kind: board, shape: circle, diameter: 10 in, holes: {{spacing: 3/4 in, inset: 5/8 in}}}}
stakes: {{material: stakes}}
side: {{height: 2 in, bands: [{{name: wall, weave: {weave}, strands: plain, to: top}}]}}
""",
    )
    line = math.pi * (10 - 2 * 5 / 8) * 25.4
    count = len(basket.stakes)
    spec = basket.bands[0].spec.weave
    suit = [n for n in range(20, 60) if holds(spec, n) and follows(spec, n)]
    assert count in suit
    assert abs(count - line / 19.05) == min(abs(n - line / 19.05) for n in suit)
    assert basket.base_spacing_mm == pytest.approx(line / count)
