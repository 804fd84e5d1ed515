"""Stakes at named ends, on bases whose sticks stay flat and on bases whose sticks turn up."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from tests.basket.written import constructed

from slath.basket.model import Basket
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


ROUND = """
base: {{kind: round slath, diameter: 7 in, pierced: 5, threaded: 4, material: sticks, weaving: [{{weave: pairing, strands: plain, to: edge}}]}}
stakes: {{material: stakes, per_end: 2, {extra}}}
side: {{height: 4 in, bands: [{{weave: three-rod wale, strands: plain, to: top}}]}}
border: {{kind: open, past: 1}}
{handle}
"""


def at_ends(basket: Basket) -> list[int]:
    """Stakes at each stick end, in order."""
    ends = [stake.end for stake in basket.stakes]
    return [ends.count(end.number) for end in basket.base.ends]


def test_named_ends_have_one_fewer(tmp_path: Path) -> None:
    """Nine sticks, eighteen ends, two each less one at four named ends: 32 (trade practice; the count is arithmetic)."""
    basket = constructed(tmp_path, ROUND.format(extra="leave_out_at: [2, 7, 11, 16]", handle=""))
    assert len(basket.stakes) == 32
    assert [number for number, here in enumerate(at_ends(basket), start=1) if here == 1] == [2, 7, 11, 16]


@pytest.mark.parametrize("left", range(1, 13))
@pytest.mark.parametrize("word", ["leave_out", "add"])
def test_extras_are_spread_evenly(left: int, word: str, tmp_path: Path) -> None:
    """T. Turner 1909 adds where gaps are widest; extras at round(i × N/k): two neighbours differ in distance by one at most."""
    basket = constructed(tmp_path, ROUND.format(extra=f"{word}: {left}", handle=""))
    usual = 2
    places = [index for index, here in enumerate(at_ends(basket)) if here != usual]
    assert len(places) == left
    gaps = [(after - before) % 18 or 18 for before, after in zip(places, [*places[1:], places[0]], strict=True)]
    assert max(gaps) - min(gaps) <= 1


def test_extras_keep_clear_of_the_handle(tmp_path: Path) -> None:
    """No stake is left out where a foot of the handle goes down: an end over the handle's own stake keeps both."""
    handle = "handle: {kind: bow, material: sticks, rise: 5 in, at: [9, 26]}"
    basket = constructed(tmp_path, ROUND.format(extra="leave_out: 2", handle=handle))
    short = {end.number for end, here in zip(basket.base.ends, at_ends(basket), strict=True) if here == 1}
    feet = {stake.end for stake in basket.stakes if stake.number in basket.handles[0].feet_at}
    assert len(short) == 2
    assert not short & feet


def test_two_ends_worked_as_one_make_the_count_odd(tmp_path: Path) -> None:
    """Sixteen ends, two of them worked as one from the base to the border: fifteen all the way."""
    basket = constructed(
        tmp_path,
        "base: {kind: round slath, diameter: 4 in, pierced: 4, material: sticks, become_stakes: yes, as_one: 5,\n"
        "  weaving: [{weave: randing, strands: plain, to: edge}]}\n"
        "side: {height: 3 in, bands: [{weave: randing, strands: plain, to: top}]}\nborder: {kind: closed}\n",
    )
    assert (basket.base.bands[0].uprights, basket.working, basket.bands[0].uprights) == (15, 15, 15)
    assert basket.border is not None
    assert basket.border.count == 15
    assert basket.stakes[4].working == basket.stakes[5].working


def test_half_stick_apart_is_a_group_of_its_own(tmp_path: Path) -> None:
    """Five groups round a cross of four arms: one strand holds while the sticks are still in groups."""
    basket = constructed(
        tmp_path,
        "base: {kind: round slath, diameter: 4 in, pierced: 4, half_stick: yes, half_stick_apart: yes, material: sticks,\n"
        "  become_stakes: yes, weaving: [{weave: randing, strands: plain, rounds: 3, worked: grouped},\n"
        "  {weave: randing, strands: plain, to: edge}]}\n",
    )
    assert basket.base.bands[0].group_sizes == (4, 1, 4, 4, 4)
    assert basket.base.bands[0].interlocks


def test_through_sticks_are_taken_in_twos_once_for_all(tmp_path: Path) -> None:
    """Said under the base, bands and border of the side follow: 32 ends, sixteen pairs."""
    basket = constructed(
        tmp_path,
        "base: {kind: round slath, diameter: 4 in, pierced: 8, laid_together: 2, material: sticks, become_stakes: yes,\n"
        "  worked: in twos, weaving: [{weave: pairing, strands: plain, to: edge, worked: in twos}]}\n"
        "side: {height: 3 in, bands: [{weave: pairing, strands: plain, to: top}]}\nborder: {kind: closed}\n",
    )
    assert (basket.working, basket.bands[0].uprights) == (16, 16)
    assert basket.border is not None
    assert basket.border.count == 16
