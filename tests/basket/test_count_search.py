"""Counts that suit a basket, against the trade's rules and published counts."""

from __future__ import annotations

from math import gcd
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.basket.border_words import border
from tests.basket.written import constructed
from tests.quantities.records import CHASE, PAIR, RAND, WALE, band, round_pattern

from slath.basket.construct import construct
from slath.basket.count_search import CountTried, counts_that_suit, try_count, try_counts
from slath.basket.model import Basket
from slath.language.pattern import Band, Board, Border, Extent, Handle, Outline, Stakes, Stroke, WeaveSpec


def basket(*bands: Band, rim: Border | None = None, **changed: object) -> Basket:
    """Five through five, two stakes an end: 40 stakes; these bands on the side."""
    plain = round_pattern(border=rim, **changed)
    assert plain.side is not None
    return construct(replace(plain, side=replace(plain.side, rim=plain.base.outline, bands=bands)))


def tried(made: Basket, lowest: int = 34, highest: int = 46) -> dict[int, CountTried]:
    """Counts tried, by count."""
    return {item.stakes: item for item in try_counts(made, lowest, highest)}


def test_randing_wants_odd_and_chasing_even() -> None:
    """Plain randing holds on odd counts only, chasing with two strands keeps its rows apart on even ones (trade rule)."""
    randed = counts_that_suit(basket(band(RAND, ("plain",))), 34, 46)
    chased = counts_that_suit(basket(band(CHASE, ("plain", "rust"))), 34, 46)
    assert [item.stakes for item in randed] == [35, 37, 39, 41, 43, 45]
    assert [item.stakes for item in chased] == list(range(34, 47)), "on an odd count it can be woven, in pairs of rows"
    assert [item.stakes for item in chased if not item.objections] == [34, 36, 38, 40, 42, 44, 46]


def test_leaving_one_out_of_forty_gives_thirty_nine() -> None:
    """The change that gets there is told with its count: ``leave one out: 39``; a half stick brings two stakes: 42."""
    found = tried(basket(band(RAND, ("plain",))))
    assert "leave one out: 39" in found[39].changes
    assert found[42].changes[0] == "add a half stick: 42"
    assert found[44].changes[0] == "one stick more: 44"
    assert found[40].changes == ()


@given(st.integers(1, 5), st.integers(1, 5), st.integers(20, 60))
def test_one_strand_against_the_interlock_rule(before: int, behind: int, stakes: int) -> None:
    """One strand before a, behind b holds exactly where gcd(S, a + b) ≤ min(a, b)."""
    weave = WeaveSpec("rand", (Stroke(before, behind),), 1, 1, twined=False, label="before and behind")
    suits = try_count(basket(band(weave, ("plain",))), stakes).suits
    assert suits is (gcd(stakes, before + behind) <= min(before, behind))


def test_colours_of_a_published_spiral() -> None:
    """Three-rod wale in three colours: 37 steps left, 38 right, 39 stands upright (Choate; D: S mod 3)."""
    found = tried(basket(band(WALE, ("plain", "rust", "slate"), name="spiral")))
    assert [found[count].colours[0].steps for count in (37, 38, 39)] == [-1, 1, 0]
    assert all(found[count].suits for count in (37, 38, 39))


def test_border_needs_more_than_its_reach() -> None:
    """Behind 2, out; before 3, in reaches 5: the smallest count is 7."""
    found = tried(basket(band(PAIR, ("plain", "plain")), rim=border("behind 2, out", "before 3, in")), 5, 9)
    assert [count for count, item in found.items() if item.suits] == [7, 8, 9]
    assert "at least 7" in found[6].objections[0].reason


def test_border_in_pairs_leaves_one_over() -> None:
    """61 stakes in pairs are 30 pairs and one over: the misprint of Gill 1916, Model 35, is told."""
    pairs = replace(border("behind 2, out"), groups=2)
    found = try_count(basket(band(PAIR, ("plain", "plain")), rim=pairs), 61)
    assert not found.suits
    assert "one of 61 would be left over" in found.objections[0].reason


def test_bow_handle_prefers_even() -> None:
    """Handles ask for an even number of stakes (Blanchard 1914); an odd one is told, not refused: Gill 1916 prints some."""
    made = basket(band(PAIR, ("plain", "plain")), handles=(Handle(("handle",), "bow", "stakes", rise_mm=120.0),))
    found = tried(made, 39, 40)
    assert found[39].suits
    assert not found[39].objections[0].stops
    assert found[40].objections == ()


def test_board_counts_are_holes_drilled_at_usual_spacing() -> None:
    """On a board any count can be drilled; the holes are told to be too close or too far at the published spacings."""
    board = Board(("base",), Outline("circle", 254.0, 254.0), "sticks", 9.0, 39, None, 10.0)
    made = basket(band(PAIR, ("plain", "plain")), base=board, stakes=Stakes(("stakes",), "stakes"))
    found = tried(made, 20, 80)
    assert found[45].changes == ("drill 45 holes",)
    assert found[20].objections[0].part == "board"
    assert found[80].objections[0].part == "board"
    assert found[45].objections == ()


def test_stakes_worked_in_pairs_must_pair_up() -> None:
    """Stakes woven two as one leave a single on an odd count."""
    made = basket(band(PAIR, ("plain", "plain")), stakes=Stakes(("stakes",), "stakes", per_end=2, worked_as=2))
    found = tried(made, 39, 40)
    assert not found[39].suits
    assert found[40].suits


def test_own_count_is_what_stands() -> None:
    """Spacing told for the basket's own count is the spacing it has."""
    made = basket(band(RAND, ("plain",)), rim=border("behind 1, out", "before 2, in"))
    own = try_count(made, 40)
    assert own.base_spacing_mm == pytest.approx(made.base_spacing_mm)
    assert own.rim_spacing_mm == pytest.approx(made.rim_spacing_mm)


def test_a_band_may_pass_one_more_to_change_its_course() -> None:
    """Randing on an even count holds if the strand passes over one more once a round (McGaw 1909, tray)."""
    shifted = band(RAND, ("plain",), shift=1, extent=Extent(rounds=5))
    assert try_count(basket(shifted), 40).suits
    assert not try_count(basket(band(RAND, ("plain",))), 40).suits


@pytest.mark.parametrize(("words", "suits", "not_suits"), [("as_one: 5", 16, 17), ("worked: in twos", 18, 16)])
def test_counts_take_stick_ends_together_as_the_basket_does(
    words: str, suits: int, not_suits: int, tmp_path: Path
) -> None:
    """Sixteen ends of which two are one are fifteen to weave, and one strand holds; eighteen in twos are nine."""
    text = (
        f"base: {{kind: round slath, diameter: 4 in, pierced: 4, material: sticks, become_stakes: yes, {words}}}\n"
        "side: {height: 3 in, bands: [{weave: randing, strands: plain, to: top}]}\nborder: {kind: closed}\n"
    )
    basket = constructed(tmp_path, text)
    assert try_count(basket, suits).suits
    assert not try_count(basket, not_suits).suits
