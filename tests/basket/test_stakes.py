"""Stakes at named ends, on bases whose sticks stay flat and on bases whose sticks turn up."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from tests.basket.written import constructed

from slath.basket.stakes import stake_depth

OVAL = """
base:
  kind: oval slath
  length: 11 in
  width: 7 in
  material: sticks
  lengthwise: {sticks: 3}
  crosswise: {groups: [2, 1, 1, 1, 2]}
  weaving: [{weave: chasing, strands: plain, to: edge}]
side: {height: 4 in, bands: [{weave: pairing, strands: plain, to: top}]}
"""
THROUGH = """
base:
  kind: round slath
  diameter: 4 in
  pierced: 4
  half_stick: yes
  material: stakes
  become_stakes: yes
  weaving: [{weave: randing, strands: plain, to: edge}]
side: {height: 4 in, bands: [{weave: pairing, strands: plain, to: top}]}
"""


@pytest.mark.parametrize(
    ("exceptions", "stakes"),
    [
        ("crosswise singles: 1", 2 * 20 - 6),
        ("crosswise pairs: 1", 2 * 20 - 8),
        ("crosswise: 1", 2 * 20 - 14),
        ("lengthwise: 1", 2 * 20 - 6),
        ('crosswise: 1, crosswise pairs: 2, "1": 0', 2 * 20 - 6 - 2),
    ],
)
def test_exceptions_by_the_name_of_the_ends(tmp_path: Path, exceptions: str, stakes: int) -> None:
    """Three long sticks and seven cross sticks, three of them single, have 20 ends: 6 long, 6 single, 8 of pairs."""
    basket = constructed(tmp_path, OVAL + f"stakes: {{material: stakes, per_end: 2, except: {{{exceptions}}}}}\n")
    assert len(basket.base.ends) == 20
    assert len(basket.stakes) == stakes


def test_exceptions_where_sticks_turn_up(tmp_path: Path) -> None:
    """Four through four and a half stick are 17 ends; one stake beside each but the half stick's makes 33."""
    basket = constructed(tmp_path, THROUGH + "stakes: {material: stakes, per_end: 1, except: {half stick: 0}}\n")
    (half,) = (end.number for end in basket.base.ends if end.kind == "half stick")
    beside = Counter(stake.end for stake in basket.stakes if stake.kind == "stake")
    assert len(basket.stakes) == 33
    assert beside == {end.number: 1 for end in basket.base.ends if end.number != half}


@pytest.mark.parametrize(
    ("told", "stakes"), [("per_end: 1, leave_out: 2", 32), ("per_end: 0, add: 3", 20), ("count: 20", 37)]
)
def test_stakes_beside_sticks_that_turn_up_are_counted(tmp_path: Path, told: str, stakes: int) -> None:
    """17 ends turned up and 15, 3 or 20 stakes set in: 32, 20 and 37 uprights, numbered once round."""
    basket = constructed(tmp_path, THROUGH + f"stakes: {{material: stakes, {told}}}\n")
    assert [stake.number for stake in basket.stakes] == list(range(1, stakes + 1))


def test_the_usual_depth_stops_at_the_slath(tmp_path: Path) -> None:
    """Four sticks of No. 8 side by side leave 2 1/2 in less half their width of a base of 5 in, under the usual 2 in of a
    smaller one; a depth the designer gives stands as it is, and is refused by its own rule where it is too much.
    """
    base = "base: {kind: round slath, diameter: SIZE, pierced: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}\n"
    stick = 5.6  # mm, No. 8 on the US scale, from memory
    for size, expected in (("8 in", 50.8), ("3 1/2 in", (3.5 * 25.4 - 4 * stick) / 2)):
        basket = constructed(tmp_path, base.replace("SIZE", size) + "stakes: {material: stakes, per_end: 2}\n")
        assert stake_depth(basket.base, basket.pattern).value == pytest.approx(expected, abs=0.01)
    basket = constructed(
        tmp_path, base.replace("SIZE", "3 1/2 in") + "stakes: {material: stakes, per_end: 2, depth: 2 in}\n"
    )
    assert stake_depth(basket.base, basket.pattern).value == 50.8
