"""Buying: length to mass to packs, rods by length class, lengths cut out of rods, cost and what is left over."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.quantities.records import FRENCH, MATERIALS, RAND, WALE, band, material, settings, sized, woven
from tests.quantities.test_weaving import STAKE

from slath.language.pattern import SizedPattern
from slath.quantities.cutting import cut_step, piece_of, rounded_up
from slath.quantities.packs import Filled, choose_packs, lengths_to_buy
from slath.quantities.purchase import purchases
from slath.quantities.results import Piece
from slath.quantities.weaving import band_strands
from slath.trade.stock import Pack, Stock
from slath.trade.stocks import find_stock
from slath.units import Amount, Basis


def pieces(key: str, count: int, length: float, spare: int = 0) -> Piece:
    """Make pieces of one part whose only part is `length`, cut to the millimetre."""
    pattern = sized(settings=settings(cut_step=1.0))
    part = Amount("length", length, "mm", Basis.GIVEN)
    return piece_of(
        "pieces", key, Amount("pieces", count, "count", Basis.COUNTED), (part,), pattern, path=(), spare=spare
    )


def test_length_becomes_mass_becomes_packs() -> None:
    """100 pieces of 1.5 m at 2.976 g/m weigh 446 g: one pound coil (453.6 g) holds them and leaves 2.4 m."""
    (row,) = purchases([pieces("plain", 100, 1500.0)], [], sized())
    assert row.length_mm.value == pytest.approx(150_000)
    assert row.mass_g is not None
    assert row.mass_g.value == pytest.approx(446.4)
    assert [(pack.title, pack.count) for pack in row.packs] == [("1 lb coil", 1)]
    assert row.surplus_mm is not None
    assert row.surplus_mm.value == pytest.approx(453.59237 / 2.976 * 1000 - 150_000)


def test_one_millimetre_more_than_a_coil_needs_another() -> None:
    """Packs are rounded up: a little more than a coil holds is two coils, exactly a coil is one."""
    holds = 453.59237 / 2.976 * 1000
    (exact,) = purchases([pieces("plain", 1, 1.0)], [], sized())
    assert exact.packs[0].count == 1
    for length, coils in ((holds, 1), (holds + 1, 2)):
        choice = choose_packs(length, [Filled(Pack("coil"), holds)])
        assert [count for _, count in choice] == [coils]


def test_every_material_and_colour_is_bought_apart() -> None:
    """Strands of three colours of one reed are three purchases, and each is the sum of its strands and spare."""
    pattern = sized(settings=settings(spare_strands=0.05))
    runs = band_strands(woven(band(WALE, ("plain", "rust", "slate")), 32, [600.0] * 20), STAKE, pattern)
    rows = purchases([], runs, pattern)
    assert [row.material for row in rows] == ["plain", "rust", "slate"]
    for row, run in zip(rows, runs, strict=True):
        assert row.length_mm.value == pytest.approx(1.05 * run.length_mm.value)


def test_spare_pieces_are_bought() -> None:
    """Two spare stakes are bought with the ones needed."""
    (row,) = purchases([pieces("stakes", 40, 500.0, spare=2)], [], sized())
    assert row.length_mm.value == pytest.approx(42 * 500.0)


def test_willow_is_counted_by_rods() -> None:
    """Willow is counted, not weighed: each stake and each length of weaving is a rod of its class (common practice)."""
    willow = find_stock("buff willow 5 ft")
    assert willow is not None
    pattern = sized(materials={**MATERIALS, "willow": material("willow", willow)})
    runs = band_strands(woven(band(RAND, ("willow",)), 25, [700.0] * 40), STAKE, pattern)
    (row,) = purchases([pieces("willow", 25, 900.0, spare=2)], runs, pattern)
    assert row.rods is not None
    assert row.rods.value == 27 + runs[0].pieces.value
    assert row.mass_g is None
    assert row.packs == ()


def willow_pattern(name: str = "buff willow 180 cm", **changed: float) -> SizedPattern:
    """A size with one class of willow."""
    rods = find_stock(name)
    assert rods is not None
    return sized(materials={**MATERIALS, "willow": material("willow", rods)}, settings=settings(**changed))


def sticks(count: int, length: float, part: str = "base sticks") -> Piece:
    """So many short sticks of willow."""
    return replace(pieces("willow", count, length), part=part)


@pytest.mark.parametrize(
    ("length", "share", "rods"),
    [(215.0, 0.5, 2), (300.0, 0.5, 3), (500.0, 0.5, 7), (950.0, 0.5, 7), (215.0, 1.0, 1), (215.0, 0.1, 7)],
)
def test_short_sticks_are_cut_from_the_butts_of_rods(length: float, share: float, rods: int) -> None:
    """Seven sticks from rods of 1.8 m whose lower half is thick enough.

    Four of 215 mm, three of 300 mm or one of 500 mm come from a rod; what is longer than the butt takes a rod of its own (common practice, no source).
    """
    (row,) = purchases([sticks(7, length)], [], willow_pattern(butt_share=share))
    assert row.rods is not None
    assert row.rods.value == rods


def test_stakes_and_sticks_that_turn_up_are_whole_rods() -> None:
    """A stake is a rod, however short it is cut, for its tip makes the border; so is a stick that turns up at both ends."""
    for part in ("stakes", "through sticks", "lengthwise through sticks"):
        (row,) = purchases([sticks(7, 215.0, part)], [], willow_pattern())
        assert row.rods is not None
        assert row.rods.value == 7


def test_lid_sticks_and_half_sticks_share_the_butts() -> None:
    """A half stick of 110 mm fits beside three of 250 mm in a butt of 900 mm."""
    (row,) = purchases([sticks(3, 250.0, "lid sticks"), sticks(1, 110.0, "half stick")], [], willow_pattern())
    assert row.rods is not None
    assert row.rods.value == 1


def test_french_rand_takes_whole_sets_of_rods() -> None:
    """A French rand has a rod for every stake; if they do not reach the top, another whole set is begun.

    Each rod passes two stakes 30 mm apart in a round, so one of 3 ft lasts less than 15 rounds (common practice, no source).
    """
    pattern = willow_pattern("buff willow 3 ft")
    for rounds, sets in ((5, 1), (11, 1), (16, 2)):
        runs = band_strands(woven(band(FRENCH, ("willow",)), 24, [720.0] * rounds), STAKE, pattern)
        (row,) = purchases([], runs, pattern)
        assert row.rods is not None
        assert row.rods.value == sets * 24, rounds


def test_willow_is_weighed_only_where_its_weight_is_given() -> None:
    """No table gives the weight of a rod; a maker who has weighed one gets the weight of all, whole rods."""
    rods = find_stock("buff willow 5 ft")
    assert rods is not None
    weighed = replace(rods, grams_per_metre=12.0)
    pattern = sized(materials={"willow": material("willow", weighed)})
    (row,) = purchases([sticks(10, 900.0, "stakes")], [], pattern)
    assert row.mass_g is not None
    assert row.mass_g.value == pytest.approx(10 * 1.524 * 12.0)
    assert (row.butt_mm, row.tip_mm) == (7.0, 1.4)


def test_rods_are_thick_where_they_are_used() -> None:
    """A 5 ft rod of 7 mm at the butt and 1.4 at the tip is 4.2 mm in the middle, and 6.3 over its lowest quarter."""
    rods = find_stock("buff willow 5 ft")
    assert rods is not None
    assert rods.thickness_over(0, 1524) == pytest.approx(4.2)
    assert rods.thickness_over(0, 381) == pytest.approx(7.0 - 5.6 / 8)
    assert rods.thickness_over(1524, 1524) == pytest.approx(1.4)
    reed = find_stock("us round reed 5")
    assert reed is not None
    assert reed.thickness_over(0, 5000) == reed.thickness_mm


def test_willow_bolts_are_rounded_up() -> None:
    """27 rods from bundles of ten are three bundles, and three rods are left over."""
    willow = find_stock("buff willow 5 ft")
    assert willow is not None
    bundled = replace(willow, packs=(Pack("bundle", pieces=10, price=6.0, currency="GBP"),))
    pattern = sized(materials={"willow": material("willow", bundled)})
    (row,) = purchases([pieces("willow", 27, 900.0)], [], pattern)
    assert row.packs[0].count == 3
    assert row.surplus_mm is not None
    assert row.surplus_mm.value == pytest.approx(3 * 5 * 304.8)
    assert row.cost is not None
    assert row.cost.value == pytest.approx(18.0)


def test_piece_longer_than_its_class_takes_whole_rods() -> None:
    """A piece longer than the rod is counted as the rods it would take, so the list does not lie."""
    willow = find_stock("buff willow 5 ft")
    assert willow is not None
    pattern = sized(materials={"willow": material("willow", willow)})
    (row,) = purchases([pieces("willow", 10, 1600.0)], [], pattern)
    assert row.rods is not None
    assert row.rods.value == 20


def test_dowels_are_cut_out_of_their_rods() -> None:
    """Eight sticks of 240 mm come three to a 36 in rod: three rods, not the 2.1 their total length suggests."""
    dowel = find_stock("dowel 1/4 in")
    assert dowel is not None
    pattern = sized(materials={"dowel": material("dowel", dowel)})
    (row,) = purchases([pieces("dowel", 8, 240.0)], [], pattern)
    assert row.rods is not None
    assert row.rods.value == 3
    assert row.packs[0].count == 3
    assert row.surplus_mm is not None


def test_missing_mass_leaves_packs_open() -> None:
    """Where the mass of a stock is not known no pack by mass can be counted, and none is made up."""
    unknown = Stock("mystery", "round reed", 2.0, 2.0, packs=(Pack("coil", mass_g=500.0),))
    pattern = sized(materials={"mystery": material("mystery", unknown)})
    (row,) = purchases([pieces("mystery", 3, 500.0)], [], pattern)
    assert (row.mass_g, row.packs, row.surplus_mm, row.cost) == (None, (), None, None)


PRICED = [
    Filled(Pack("500 g coil", price=9.0, currency="GBP"), 500.0),
    Filled(Pack("250 g coil", price=5.0, currency="GBP"), 250.0),
]


@pytest.mark.parametrize(
    ("need", "expected"),
    [(600.0, {"500 g coil": 1, "250 g coil": 1}), (200.0, {"250 g coil": 1}), (900.0, {"500 g coil": 2}), (0.0, {})],
)
def test_cheapest_packs_cover_the_need(need: float, expected: dict[str, int]) -> None:
    """Of a 500 g coil at 9 and a 250 g coil at 5 the cheapest cover is bought."""
    assert {kind.pack.title: count for kind, count in choose_packs(need, PRICED)} == expected


def test_without_prices_least_is_left_over() -> None:
    """With one price missing the choice leaves least over instead."""
    kinds = [PRICED[0], Filled(Pack("250 g coil"), 250.0)]
    assert {kind.pack.title: count for kind, count in choose_packs(740.0, kinds)} == {"500 g coil": 1, "250 g coil": 1}


@given(st.floats(1, 5000), st.lists(st.tuples(st.integers(20, 900), st.integers(1, 50)), min_size=1, max_size=3))
def test_chosen_packs_are_the_cheapest_of_all(need: float, offers: list[tuple[int, int]]) -> None:
    """Against trying every count of two kinds, nothing cheaper covers the need."""
    kinds = [
        Filled(Pack(f"pack {index}", price=float(price), currency="GBP"), float(holds))
        for index, (holds, price) in enumerate(offers[:2])
    ]
    choice = choose_packs(need, kinds)
    assert sum(kind.holds * count for kind, count in choice) >= need * (1 - 1e-6)
    paid = sum((kind.pack.price or 0.0) * count for kind, count in choice)
    most = [int(need // kind.holds) + 2 for kind in kinds]
    if max(most) > 45:  # more than the chooser tries below its largest bulk count
        return
    cheapest = min(
        sum((kind.pack.price or 0.0) * count for kind, count in zip(kinds, counts, strict=True))
        for counts in itertools.product(*(range(top) for top in most))
        if sum(kind.holds * count for kind, count in zip(kinds, counts, strict=True)) >= need * (1 - 1e-9)
    )
    assert paid <= cheapest + 1e-6


@given(st.lists(st.floats(10, 900), min_size=1, max_size=30))
def test_pieces_fit_the_lengths_bought(cut: list[float]) -> None:
    """Lengths bought hold at least the pieces' total, and never more lengths than pieces are bought."""
    number = lengths_to_buy(cut, 914.4)
    assert number * 914.4 >= sum(cut) - 1e-6
    assert number <= len(cut)


def test_cut_step_follows_the_scale_of_the_stock() -> None:
    """Stock sold by the US scale is cut to the quarter inch, other stock to 5 mm, unless the maker sets the step."""
    assert cut_step(sized()).value == pytest.approx(6.35)
    cane = find_stock("uk centre cane 5")
    assert cane is not None
    assert cut_step(sized(materials={"cane": material("cane", cane)})).value == 5.0
    assert cut_step(sized(settings=settings(cut_step=10.0))).value == 10.0


@given(st.floats(0, 5000), st.sampled_from([5.0, 6.35, 25.4]))
def test_cut_lengths_round_up_by_less_than_a_step(length: float, step: float) -> None:
    """A cut length is never short of the need (beyond a float's last digits) nor a whole step above it."""
    cut = rounded_up(length, step)
    assert length - 1e-6 <= cut < length + step
    assert rounded_up(cut, step) == pytest.approx(cut), "whole steps stay as they are"
