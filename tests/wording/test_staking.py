"""Where stakes and bye-stakes are told to go, against where they are constructed."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.wording.small_baskets import told_of

ROUND = "base: {kind: round slath, diameter: 6 in, pierced: 4, half_stick: yes, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}\n"
THROUGH = ROUND.replace("material: sticks", "material: stakes, become_stakes: yes")
SIDE = "side: {bands: [{name: upsett, weave: three-rod wale, strands: plain, rounds: 6}, {weave: pairing, strands: plain, rounds: 6}]}\n"


def test_stakes_by_their_count_are_spread(tmp_path: Path) -> None:
    """32 stakes round 12 by 8 in stand 40 / 32 = 1 1/4 in apart; no stick end has any."""
    frame = """
base: {kind: frame, length: 12 in, width: 8 in, material: sticks, lengthwise: {sticks: 9}, crosswise: {sticks: 2}, weaving: [{weave: randing, strands: plain, to: edge}]}
stakes: {material: stakes, count: 32}
"""
    said = told_of(tmp_path, frame + SIDE)
    assert any("for 32 stakes, evenly all the way round: 1 1/4 in (32 mm) from one" in sentence for sentence in said)
    assert not any("Set none" in sentence or "beside a stick end" in sentence for sentence in said)


@pytest.mark.parametrize(
    ("depth", "expected"),
    [("depth: 1 in", "Set one in at each mark, 1 in (25 mm) deep."), ("depth: 0", "Stand one at each mark")],
)
def test_a_mould_has_no_stick_ends(tmp_path: Path, depth: str, expected: str) -> None:
    """Round a base made otherwise there are no sticks to go beside."""
    text = f"base: {{kind: ready made, diameter: 4 in, made_of: a tube}}\nstakes: {{material: stakes, count: 17, {depth}}}\n"
    said = told_of(tmp_path, text + SIDE)
    assert any(sentence.startswith(expected) for sentence in said)
    assert not any("beside a stick end" in sentence for sentence in said)


def test_stakes_beside_sticks_that_turn_up(tmp_path: Path) -> None:
    """17 ends turn up and one stake goes beside each but the half stick's."""
    said = told_of(
        tmp_path, THROUGH + "stakes: {material: stakes, per_end: 1, depth: 1 in, except: {half stick: 0}}\n" + SIDE
    )
    assert (
        "Set one at each of the 8 ends of the slit sticks, on the right of the stick as its end points away from you."
        in said
    )
    assert "Set none at the one end of the half stick." in said
    assert not any("it is stake 1" in sentence for sentence in said)


def test_each_set_of_bye_stakes_is_told_for_itself(tmp_path: Path) -> None:
    """One set beside every fifth stake at the start, one beside four by number after the upsett: each with its own count."""
    byes = """
stakes: {material: stakes, per_end: 2}
bye_stakes:
  - {material: stakes, every: 5, depth: 1 in}
  - {material: stakes, beside: [1, 2, 18, 19], depth: 1/2 in, after: upsett}
"""
    said = told_of(tmp_path, ROUND + byes + SIDE)
    assert (
        "Push one down into the weaving beside every fifth stake, beginning with the first, on its right, 1 in (25 mm) deep."
        in said
    )
    assert (
        "Push one down into the weaving beside each of stakes 1, 2, 18 and 19, on its right, 1/2 in (13 mm) deep."
        in said
    )
    assert "7 bye-stakes are set in." in said
    assert "4 bye-stakes are set in." in said
    assert sum("bye-stakes are set in" in sentence for sentence in said) == 2


def test_a_border_on_pairs_says_so(tmp_path: Path) -> None:
    """34 stakes woven in twos are 17 pairs at the border, and a pair is bent down at a time."""
    text = (
        ROUND
        + "stakes: {material: stakes, per_end: 2, worked: in twos}\n"
        + SIDE
        + "border: {passes: [[behind 1, out], [before 1, in]]}\n"
    )
    said = told_of(tmp_path, text)
    assert any(sentence.startswith("Take pair 1 and bend it down") for sentence in said)
    assert any("17 pairs of stakes. Each must stand" in sentence for sentence in said)


def test_a_plait_counts_its_groups(tmp_path: Path) -> None:
    """34 stakes plaited two together with three spare lengths make 17 pairs, the spare lengths beside the first two."""
    text = (
        ROUND
        + "stakes: {material: stakes, per_end: 2}\n"
        + SIDE
        + "border: {kind: plait, group: 2, added: 3, over: 1}\n"
    )
    said = told_of(tmp_path, text)
    assert "Lay in three spare lengths: two beside pair 1 and one beside pair 2." in said
    assert any(
        "along the set of pair 1 the end of pair 15; along the set of pair 2 the end of pair 16; along the set of pair 3 the end of pair 17."
        in each
        for each in said
    )
    assert "All 17 pairs of stakes are down." in said
