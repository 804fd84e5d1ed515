"""Buying: length to mass to packs, rods by length class, lengths cut out of rods, cost and what is left over."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.quantities.records import FRENCH, MATERIALS, RAND, WALE, band, material, reed, settings, sized, woven
from tests.quantities.test_weaving import STAKE

from slath.language.pattern import SizedPattern
from slath.quantities.cutting import cut_step, piece_of, rounded_up
from slath.quantities.packs import Filled, choose_packs
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
    """100 pieces of 1.5 m come three from a reed of 16 ft: 34 reeds, 165.8 m, 493 g, more than a pound coil (453.6 g).

    Bought by their sum, 446 g, one coil would have seemed enough.
    """
    (row,) = purchases([pieces("plain", 100, 1500.0)], [], sized())
    assert row.length_mm.value == pytest.approx(150_000)
    assert row.lengths is not None
    assert row.lengths.value == 34
    assert row.buy_mm.value == pytest.approx(34 * 4876.8)
    assert row.mass_g is not None
    assert row.mass_g.value == pytest.approx(34 * 4.8768 * 2.976)
    assert [(pack.title, pack.count) for pack in row.packs] == [("1 lb coil", 2)]
    assert row.surplus_mm is not None
    assert row.surplus_mm.value == pytest.approx(2 * 453.59237 / 2.976 * 1000 - 34 * 4876.8)


def rods_of(length: float, *packs: Pack) -> SizedPattern:
    """A size with one stock sold in such packs, each rod of it so long."""
    stock = Stock("rod", "dowel", 6.0, 6.0, usual_length_mm=length, packs=packs)
    return sized(materials={"rods": material("rods", stock)})


@pytest.mark.parametrize(
    ("packs", "bought"),
    [
        ((Pack("rod", pieces=1),), {"rod": 11}),
        ((Pack("bundle of five", pieces=5), Pack("rod", pieces=1)), {"bundle of five": 2, "rod": 1}),
        ((Pack("rod of 600 mm", length_mm=600.0),), {"rod of 600 mm": 11}),
        ((Pack("two of 1200 mm", length_mm=1200.0, pieces=2),), {"two of 1200 mm": 2}),
        ((Pack("rod of 1 m", length_mm=1000.0, pieces=1), Pack("rod of 700 mm", length_mm=700.0, pieces=1)), {"rod of 700 mm": 6}),
    ],
)  # fmt: skip
def test_pieces_are_laid_into_the_lengths_of_every_kind_of_pack(
    packs: tuple[Pack, ...], bought: dict[str, int]
) -> None:
    """Eleven sticks of 345 mm: one to a rod of 600, two to one of 700 or 1000, three to one of 1200 mm."""
    (row,) = purchases([pieces("rods", 11, 345.0)], [], rods_of(600.0, *packs))
    assert {pack.title: pack.count for pack in row.packs} == bought


def test_weaving_is_joined_on_and_takes_no_whole_lengths() -> None:
    """Strands that are joined of several pieces take what they are long; strands of one piece are cut whole."""
    pattern = sized(settings=settings(spare_strands=0.0))
    joined = band_strands(woven(band(RAND, ("plain",)), 31, [700.0] * 40), STAKE, pattern)
    (row,) = purchases([pieces("plain", 4, 2500.0)], joined, pattern)
    assert row.buy_mm.value == pytest.approx(4 * 4876.8 + joined[0].length_mm.value)
    whole = band_strands(woven(band(WALE, ("plain",)), 31, [700.0] * 3), STAKE, pattern)
    assert whole[0].joins.value == 0
    (row,) = purchases([], whole, pattern)
    assert row.lengths is not None
    assert row.lengths.value == 2, "two strands of more than 7 ft come out of a reed of 16 ft"


def test_one_stock_is_bought_once() -> None:
    """Natural under two names, and natural that is dyed at home, come out of one coil; what is bought dyed does not."""
    four = reed("4", 2.75, 2.976)
    named = {
        "weaver": replace(material("weaver", four), title="natural weaver"),
        "waler": replace(material("waler", four), title="natural waler"),
        "rust": replace(material("rust", four), title="rust", dye="rust", bought_natural=True),
        "navy": replace(material("navy", four), title="navy", dye="navy"),
        "stout": material("stout", reed("5", 3.25, 4.25)),
    }
    cut = [pieces(key, 10, 1000.0) for key in named]
    rows = purchases(cut, [], sized(materials=named))
    assert [[share.material for share in row.shares] for row in rows] == [
        ["weaver", "waler", "rust"],
        ["navy"],
        ["stout"],
    ]
    together = rows[0]
    assert together.lengths is not None
    assert together.lengths.value == 8, "thirty pieces, four to a reed"
    assert together.length_mm.value == pytest.approx(sum(share.length_mm.value for share in together.shares))
    assert [pack.count for pack in together.packs] == [1], "not a coil for each name"


@pytest.mark.parametrize(
    ("have", "lengths", "buy"),
    [
        (0.0, 10, 48_768.0),
        (4876.8, 9, 43_891.2),
        (7000.0, 9, 43_891.2),
        (9753.6, 8, 39_014.4),
        (48_768.0, 0, 0.0),
        (90_000.0, 0, 0.0),
    ],
)
def test_what_is_in_hand_is_not_bought(have: float, lengths: int, buy: float) -> None:
    """Twenty pieces of 2 m come two from a reed of 16 ft; what is in hand lies in reeds, and one that is shorter."""
    named = {"plain": replace(MATERIALS["plain"], have_mm=have)}
    (row,) = purchases([pieces("plain", 20, 2000.0)], [], sized(materials=named))
    assert row.lengths is not None
    assert row.lengths.value == lengths
    assert row.buy_mm.value == pytest.approx(buy)
    assert bool(row.packs) is (lengths > 0)


def test_rods_in_hand_are_not_bought() -> None:
    """Of 27 rods of five feet twelve are in hand: two bundles of ten are bought, five rods are left over."""
    willow = find_stock("buff willow 5 ft")
    assert willow is not None
    bundled = replace(willow, packs=(Pack("bundle", pieces=10),))
    pattern = sized(materials={"willow": replace(material("willow", bundled), have_mm=12 * 1524.0)})
    (row,) = purchases([pieces("willow", 27, 900.0)], [], pattern)
    assert row.rods is not None
    assert (row.rods.value, row.packs[0].count) == (27, 2)
    assert row.surplus_mm is not None
    assert row.surplus_mm.value == pytest.approx(5 * 1524.0)


def test_stock_that_runs_on_is_bought_by_length() -> None:
    """Cord of no length of its own is bought as long as it is needed, less what is in hand."""
    cord = Stock("cord", "cord", 1.0, 1.0, packs=(Pack("reel", mass_g=50.0),), grams_per_metre=1.0)
    pattern = sized(materials={"cord": replace(material("cord", cord), have_mm=20_000.0)})
    (row,) = purchases([pieces("cord", 10, 8000.0)], [], pattern)
    assert row.lengths is None
    assert row.buy_mm.value == pytest.approx(60_000.0)
    assert [pack.count for pack in row.packs] == [2]


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


def test_cut_step_follows_the_units_of_the_pattern() -> None:
    """A pattern in inches is cut to the half inch, one in millimetres to the centimetre, whatever scale its stock goes by;
    the step the maker sets comes first, and of two the pattern's own.
    """
    assert cut_step(sized()).value == pytest.approx(12.7)
    assert cut_step(sized(units="mm")).value == 10.0
    assert cut_step(sized(settings=settings(cut_step=5.0))).value == 5.0
    both = settings(cut_step=5.0, cut_step_inches=6.35)
    assert [cut_step(sized(settings=both, units=units)).value for units in ("inches", "mm")] == [6.35, 5.0]


@given(st.floats(0, 5000), st.sampled_from([5.0, 6.35, 25.4]))
def test_cut_lengths_round_up_by_less_than_a_step(length: float, step: float) -> None:
    """A cut length is never short of the need (beyond a float's last digits) nor a whole step above it."""
    cut = rounded_up(length, step)
    assert length - 1e-6 <= cut < length + step
    assert rounded_up(cut, step) == pytest.approx(cut), "whole steps stay as they are"
