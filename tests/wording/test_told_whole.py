"""Nothing that is cut is left lying: what a basket lists is set in, and where, whatever it is set into."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.wording.small_baskets import told_of

THROUGH = """
base: {kind: round slath, diameter: 5 in, pierced: 4, half_stick: yes, half_stick_apart: yes, material: sticks, become_stakes: yes,
  weaving: [{weave: randing, strands: plain, rounds: 4, worked: grouped}, {weave: randing, strands: plain, to: edge}]}
bye_stakes: {material: stakes}
"""
MAT = THROUGH + "border: {kind: open, past: 2}\n"
ROUND = (
    THROUGH
    + "side: {height: 3 in, bands: [{weave: randing, strands: plain, to: top}]}\nborder: {passes: [[behind 1, before 1, in]]}\n"
)
PAIRS = """
base: {kind: round slath, diameter: 8 in, pierced: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2, worked: in twos}
side:
  rim: {diameter: 10 in}
  bands:
    - {weave: three-rod wale, strands: plain, rounds: 3}
    - part_stakes: {count: 1}
    - cross_stakes: {count: 1, first: 2}
    - {open: 2 in}
    - {weave: three-rod wale, strands: plain, rounds: 3}
border: {passes: behind 1 and out / before 2 and in}
foot:
  bands: [{weave: three-rod wale, strands: plain, rounds: 2}]
  stakes: {material: stakes}
  passes: [[behind 1, before 1, in]]
"""
OVAL = """
base: {kind: oval slath, length: 12 in, width: 8 in, material: sticks, half_stick: yes, lengthwise: {sticks: 5}, crosswise: {groups: [2, 1, 1, 2]},
  weaving: [{weave: randing, strands: plain, rounds: 3, worked: grouped}, {weave: randing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 1}
"""


@pytest.mark.parametrize(("basket", "do"), [(MAT, "worked"), (ROUND, "woven")], ids=["mat", "basket"])
def test_bye_stakes_beside_turned_up_sticks_are_set_in(basket: str, do: str, tmp_path: Path) -> None:
    """Second uprights beside sticks that turn up themselves go in before these are bent (common practice, no source)."""
    said = told_of(tmp_path, basket)
    assert [each for each in said if each.startswith("Push one down into the weaving beside each stake, on its right")]
    assert f"From here on the two are {do} as one." in said


def test_a_foot_of_its_own_stakes_is_woven_on_them_alone(tmp_path: Path) -> None:
    """Stakes pushed up beside pairs stand singly below the base, one to each pair."""
    said = told_of(tmp_path, PAIRS)
    foot = said[said.index("Let each stand as far from the next as all the others.") :]
    assert not [each for each in foot if "pairs of stakes" in each]
    assert "Tuck their ends behind the last stake and stakes 1 and 2, one behind each." in foot


def test_stakes_cross_over_the_height_left_open(tmp_path: Path) -> None:
    """They lean over the bare height and are held above it, whichever of the two the file names first; nothing is spaced
    in a next round where none follows.
    """
    said = told_of(tmp_path, PAIRS)
    bare = next(place for place, each in enumerate(said) if each.startswith("Leave the stakes bare"))
    cross = said.index("Cross stake 2 over stake 3, to the right; then 4 over 5, and so on all the way round.")
    assert bare < cross
    assert not [each for each in said if "Space them evenly in the next round" in each]


@pytest.mark.parametrize(
    ("key", "groups"),
    [
        ("", "two, one, two, one, two, one, one, two,"),
        ("half_stick_apart: no, ", "two, one, three, two, one, one, two,"),
    ],
    ids=["apart", "with the others"],
)
def test_a_long_base_is_taken_in_the_order_told(key: str, groups: str, tmp_path: Path) -> None:
    """Where groups differ the order is told from the start, with a half stick as without."""
    said = told_of(tmp_path, OVAL.replace("half_stick: yes, ", f"half_stick: yes, {key}"))
    assert [each for each in said if "in this order" in each and groups in each]


def test_a_mould_comes_out_when_all_is_dry(tmp_path: Path) -> None:
    """What stakes stood round is drawn off at the end, and only there is it told."""
    mould = """
base: {kind: ready made, diameter: 5 in, made_of: a pot}
stakes: {material: stakes, count: 25, depth: 0}
side: {height: 4 in, bands: [{weave: randing, strands: plain, to: top}]}
border: {kind: closed}
"""
    words = "Draw it off what it was woven on when it is dry, and not before: it keeps the shape it dries in."
    assert told_of(tmp_path, mould).count(words) == 1
    assert words not in told_of(tmp_path, PAIRS)
