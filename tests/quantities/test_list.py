"""The whole list of a constructed basket: pieces in their parts, counts, border, measures, and checks from outside."""

from __future__ import annotations

import math
from datetime import date

import pytest
import shapely
from msgspec.structs import replace
from tests.quantities.records import (
    MATERIALS,
    PAIR,
    RAND,
    WALE,
    band,
    material,
    oval_pattern,
    round_pattern,
    settings,
    through_pattern,
    trac_border,
    tray_pattern,
)

from slath.basket.construct import construct
from slath.basket.outline import area_mm2
from slath.language.pattern import (
    Band,
    Board,
    Border,
    ByeStakes,
    Extent,
    Gauge,
    Handle,
    Lid,
    Outline,
    Plait,
    RoundSlath,
    StakeChange,
    Wrap,
)
from slath.quantities import quantities_of
from slath.quantities.borders import border_height, stake_mm
from slath.quantities.results import Piece, Quantities
from slath.quantities.uprights import upright_of
from slath.trade import find_stock
from slath.units import Basis

FOOT = 304.8


def piece(found: Quantities, part: str) -> Piece:
    """Find the one piece of that name."""
    (only,) = [item for item in found.pieces if item.part == part]
    return only


def test_oval_waled_in_three_colours_takes_sixty_feet_of_each() -> None:
    """Common practice, no source: a base about 9 1/2 × 5 in, No. 4 reed waled 6 in high in three colours takes about
    60 ft of each colour; 50 to 75 is accepted.
    """
    found = quantities_of(construct(oval_pattern()))
    runs = [run for run in found.strands if run.band == "spiral"]
    assert [run.material for run in runs] == ["plain", "rust", "slate"]
    for run in runs:
        assert 50 * FOOT < run.length_mm.value < 75 * FOOT


def test_woven_base_agrees_with_the_ring_between_slath_and_edge() -> None:
    """The paired base of the real basket takes about ring area ÷ pitch × 2 strands × take-up (Pappus), within 4 %."""
    basket = construct(round_pattern())
    found = quantities_of(basket)
    slath = basket.base.slath
    assert slath is not None
    first, last = basket.base.bands[0].rounds[0], basket.base.bands[-1].rounds[-1]
    pitch = basket.base.bands[0].pitch.value
    inner, outer = first.perimeter_mm / (2 * math.pi) - pitch / 2, last.perimeter_mm / (2 * math.pi) + pitch / 2
    rows = [row for row in found.bands if row.part == "base"]
    woven = sum(run.woven_mm.value for run in found.strands if run.part == "base")
    covered = 2 * math.pi * (outer**2 - inner**2) / pitch
    take_up = sum(row.take_up.value * row.rounds.value for row in rows) / sum(row.rounds.value for row in rows)
    assert woven == pytest.approx(covered * take_up, rel=0.04)


def test_count_chain_of_five_through_five() -> None:
    """5 through 5 is 10 sticks, 20 ends, two stakes each: 40 stakes (Turner 1909; Blanchard 1914)."""
    found = quantities_of(construct(round_pattern()))
    assert [(row.name, row.amount.value) for row in found.counts] == [("sticks", 10), ("ends", 20), ("stakes", 40)]
    assert found.counts[-1].sentence == "5 through 5 is 10 sticks, 20 ends, two stakes each: 40 stakes."
    assert found.counts[-1].amount.basis is Basis.COUNTED


def test_count_chain_with_one_left_out() -> None:
    """8 sticks, two stakes an end less one, are 31 (Gill 1916; Shaw 1911)."""
    base = round_pattern().base
    assert isinstance(base, RoundSlath)
    base = replace(base, pierced=4, threaded=4)
    stakes = round_pattern().stakes
    assert stakes is not None
    changed = round_pattern(base=base, stakes=replace(stakes, leave_out=1))
    side = changed.side
    assert side is not None
    randed = replace(side, bands=(band(RAND, ("plain",), extent=Extent(to="top")),))
    found = quantities_of(construct(replace(changed, side=randed)))
    assert found.stakes.value == 31
    assert found.counts[-1].sentence == "4 through 4 is 8 sticks, 16 ends, two stakes each, less one: 31 stakes."


def test_stake_is_cut_in_its_parts() -> None:
    """A stake set in is depth + way up the side + border + hand hold + trim, rounded up to the half inch."""
    stakes = piece(quantities_of(construct(round_pattern())), "stakes")
    assert [part.name for part in stakes.parts] == ["into the base", "up the side", "border", "hand hold", "trim"]
    assert stakes.needed_mm.value == pytest.approx(sum(part.value for part in stakes.parts))
    steps = stakes.cut_mm.value / 12.7
    assert steps == pytest.approx(round(steps))
    assert 0 <= stakes.cut_mm.value - stakes.needed_mm.value < 12.7
    assert (stakes.count.value, stakes.spare) == (40, 2)


def test_way_up_a_flare_is_longer_than_it_stands() -> None:
    """On a round basket the stake's way up is the hypotenuse of the standing height and the flare."""
    basket = construct(round_pattern())
    found = quantities_of(basket)
    assert basket.profile is not None
    up = next(part for part in piece(found, "stakes").parts if part.name == "up the side")
    assert up.value == pytest.approx(math.hypot(basket.profile.height_mm, 25.4), rel=1e-6)


def test_longest_stake_sets_the_length_and_says_so() -> None:
    """Where the rim of an oval stands out more at its ends, stakes differ: the longest counts and the working says it."""
    side = oval_pattern().side
    assert side is not None
    basket = construct(oval_pattern(side=replace(side, rim=Outline("ellipse", 342.9, 152.4))))
    assert basket.profile is not None
    ways = [basket.profile.slope_mm(stake.u, basket.profile.height_mm) for stake in basket.stakes]
    up = next(part for part in piece(quantities_of(basket), "stakes").parts if part.name == "up the side")
    assert up.value == pytest.approx(max(ways))
    assert max(ways) - min(ways) > 1.0
    assert "the longest" in up.formula


def test_through_stick_is_the_base_and_both_sides() -> None:
    """A stick that turns up at both ends is the base and twice the rest; its half stick is half of it and one inch."""
    basket = construct(through_pattern())
    found = quantities_of(basket)
    long_stick, half = piece(found, "through sticks"), piece(found, "half stick")
    assert basket.profile is not None
    assert found.border is not None
    up = math.hypot(basket.profile.height_mm, 12.7)
    assert long_stick.needed_mm.value == pytest.approx(76.2 + 2 * (up + found.border.needed_mm.value), rel=1e-6)
    assert [part.name for part in long_stick.parts][:2] == ["base from edge to edge", "up the side (both ends)"]
    assert long_stick.count.value == 8
    assert found.stakes.value == 17
    assert half.needed_mm.value == pytest.approx(long_stick.cut_mm.value / 2 + 25.4)
    assert not [item for item in found.pieces if item.part == "stakes"], "no stake is set in"


@pytest.mark.parametrize(
    ("long_stick", "half_stick"), [(12, 7), (14, 8), (16, 9), (18, 10), (22, 12), (28, 15), (44, 23)]
)
def test_half_stick_is_half_the_long_stick_and_one_inch(long_stick: int, half_stick: int) -> None:
    """Mary White, How to Make Baskets (1901), in every basket with a half stick: from 12 and 7 in to 44 and 23 in."""
    base = through_pattern().base
    assert isinstance(base, RoundSlath)
    given = through_pattern(base=replace(base, stick_length_mm=long_stick * 25.4))
    assert piece(quantities_of(construct(given)), "half stick").cut_mm.value == pytest.approx(half_stick * 25.4)


def test_base_sticks_carry_their_trim() -> None:
    """A base stick is the base and half an inch, as in 32 models of Gill 1916; the oval has one length each way."""
    found = quantities_of(construct(oval_pattern()))
    assert piece(found, "lengthwise sticks").cut_mm.value == pytest.approx(10 * 25.4)
    assert piece(found, "crosswise sticks").cut_mm.value == pytest.approx(5.5 * 25.4)
    assert [piece(found, f"{way} sticks").count.value for way in ("lengthwise", "crosswise")] == [3, 7]


def test_board_stakes_stand_through_the_board_with_their_foot() -> None:
    """On a drilled board a stake is its foot border, the board, the side and the border; nothing is pointed."""
    found = quantities_of(construct(tray_pattern()))
    stakes = piece(found, "stakes")
    names = [part.name for part in stakes.parts]
    assert names[0] == "foot border"
    assert "through the board" in names
    assert "trim" not in names
    assert stakes.count.value == 38
    assert found.foot is not None
    assert found.foot.foot
    assert piece(found, "board").cut_mm.value == pytest.approx(304.8)
    assert found.finished.mass_g is None, "the mass of the board is not known"


def test_designers_length_is_kept_and_compared() -> None:
    """A cut length the designer fixes is what is cut; the need stands beside it to be compared."""
    stakes_spec = round_pattern().stakes
    assert stakes_spec is not None
    stakes = piece(quantities_of(construct(round_pattern(stakes=replace(stakes_spec, length_mm=254.0)))), "stakes")
    assert (stakes.cut_mm.value, stakes.given_mm, stakes.cut_mm.basis) == (254.0, 254.0, Basis.GIVEN)
    assert stakes.needed_mm.value > 254.0
    assert stakes.path == ("stakes", "length")


def test_border_allowance_of_the_designer_is_cut() -> None:
    """A border allowance the designer gives goes into the stake in place of the need, which stays to be compared."""
    given = round_pattern(border=replace(trac_border(), allowance_mm=152.4))
    found = quantities_of(construct(given))
    parts = {part.name: part.value for part in piece(found, "stakes").parts}
    assert parts["border"] == 152.4
    assert "hand hold" not in parts
    assert found.border is not None
    assert found.border.given_mm == 152.4
    assert found.border.needed_mm.value == pytest.approx(sum(part.value for part in found.border.parts))


def test_border_grows_with_the_rim_spacing() -> None:
    """Spacing is at the rim: the same border on a wider rim takes longer stakes."""
    side = round_pattern().side
    assert side is not None
    wide = round_pattern(side=replace(side, rim=Outline("circle", 279.4, 279.4)))
    small, large = (quantities_of(construct(pattern)).border for pattern in (round_pattern(), wide))
    assert small is not None
    assert large is not None
    assert large.needed_mm.value > small.needed_mm.value


def test_bye_stakes_go_from_their_band_to_the_border() -> None:
    """A bye-stake set in after the upsett is its depth, the rest of the side and the border, one beside every stake."""
    byes = ByeStakes(("bye_stakes", 0), "stakes", after_band="upsett")
    basket = construct(round_pattern(bye_stakes=(byes,)))
    byes_piece = piece(quantities_of(basket), "bye-stakes")
    assert byes_piece.count.value == 40
    names = [part.name for part in byes_piece.parts]
    assert names == ["into the weaving", "up the rest of the side", "border", "hand hold"]
    whole = next(part for part in piece(quantities_of(basket), "stakes").parts if part.name == "up the side")
    rest = byes_piece.parts[1]
    share = (basket.bands[1].reached_mm) / (basket.bands[0].reached_mm + basket.bands[1].reached_mm)
    assert rest.value == pytest.approx(whole.value * share, rel=1e-3)


def test_bye_stakes_cut_off_at_the_top_need_no_border() -> None:
    """Where one of each group is cut off before the border, bye-stakes are cut for the side alone."""
    byes = ByeStakes(("bye_stakes", 0), "stakes")
    cut = round_pattern(bye_stakes=(byes,), border=replace(trac_border(), cut_to_one=True))
    names = [part.name for part in piece(quantities_of(construct(cut)), "bye-stakes").parts]
    assert names == ["into the weaving", "up the side"]


def test_added_stakes_are_listed_from_where_they_begin() -> None:
    """Stakes added after the upsett are counted and cut from there up."""
    side = round_pattern().side
    assert side is not None
    change = StakeChange(("side", "bands", 1), "add", 20, "every other")
    upsett, field = side.bands
    pattern = round_pattern(side=replace(side, bands=(upsett, change, field)))
    basket = construct(pattern)
    added = piece(quantities_of(basket), "added stakes")
    assert added.count.value == 20
    assert added.parts[1].name == "up the rest of the side"
    assert added.parts[1].value == pytest.approx(basket.bands[1].reached_mm, rel=1e-3)


def test_measured_pitch_reaches_the_list() -> None:
    """With a measured wale the rounds, the pitch and the lengths are no longer estimated by the packing factor."""
    gauge = Gauge(("gauge", 0), WALE.label, "plain", 13, 76.2, None, None, "M.", date(2026, 3, 1))
    found = quantities_of(construct(oval_pattern(gauge=(gauge,))))
    (row,) = [row for row in found.bands if row.name == "spiral"]
    assert row.rounds.value == round(quantities_of(construct(oval_pattern())).finished.along.value / (76.2 / 13))
    assert row.pitch.basis is Basis.MEASURED


def test_whole_rounds_leave_a_remainder() -> None:
    """Rounds are whole: the height reached and what is left of the height asked for add up to it."""
    found = quantities_of(construct(oval_pattern()))
    (row,) = [row for row in found.bands if row.name == "spiral"]
    assert row.rounds.value == int(row.rounds.value)
    assert row.asked_mm is not None
    assert row.left_over_mm is not None
    assert row.along.value + row.left_over_mm == pytest.approx(row.asked_mm)
    assert abs(row.left_over_mm) <= row.pitch.value / 2 + 1e-9


def test_finished_height_stands_above_the_weaving() -> None:
    """Height is the weaving and what the border stands above it; along the side is more than standing in a flare."""
    basket = construct(round_pattern())
    done = quantities_of(basket).finished
    assert basket.profile is not None
    assert done.height.value > basket.profile.height_mm
    assert done.along.value == pytest.approx(sum(band.reached_mm for band in basket.bands), rel=1e-6)
    assert (done.base_length.value, done.rim_length.value) == (203.2, 254.0)


def test_mass_leaves_out_what_is_trimmed() -> None:
    """The basket weighs less than what is bought for it, and more than its weaving alone."""
    found = quantities_of(construct(round_pattern()))
    bought = sum(row.mass_g.value for row in found.purchase if row.mass_g is not None)
    assert found.finished.mass_g is not None
    taken = found.taken_mm()
    grams = {
        key: taken[key] / 1000 * (MATERIALS[key].stock.grams_per_metre or 0.0) for key in ("plain", "fine", "rust")
    }
    woven = grams["plain"] + grams["fine"]
    assert woven < found.finished.mass_g.value < bought
    sticks, stakes = piece(found, "base sticks"), piece(found, "stakes")
    in_stakes = sum(part.value for part in stakes.parts if part.name not in ("trim", "hand hold"))
    kept = woven + (10 * sticks.parts[0].value * 12.8 + 40 * in_stakes * 4.25) / 1000
    spare = sum(run.spare_mm.value for run in found.strands)
    assert spare == 0
    assert found.finished.mass_g.value == pytest.approx(kept + grams["rust"])


def test_untested_size_says_so() -> None:
    """A size nobody has woven says calculated; a woven one says when."""
    assert quantities_of(construct(round_pattern())).tested == "calculated, not yet woven"
    woven = round_pattern(woven_on=date(2026, 3, 1))
    assert quantities_of(construct(woven)).tested == "woven 2026-03-01"


def test_basket_without_border_is_only_trimmed() -> None:
    """Without a border the stakes are depth, side and trim, and the list has no border row."""
    found = quantities_of(construct(round_pattern(border=None)))
    assert found.border is None
    assert [part.name for part in piece(found, "stakes").parts] == ["into the base", "up the side", "trim"]


def test_border_that_cannot_be_read_leaves_its_row_out() -> None:
    """A border without a pass has no need to tell; the list is still whole for the rules to judge."""
    nowhere = replace(trac_border(), passes=())
    basket = construct(round_pattern(border=nowhere))
    assert basket.border is not None
    assert not basket.border.passes
    found = quantities_of(basket)
    assert found.border is None
    assert [part.name for part in piece(found, "stakes").parts] == ["into the base", "up the side", "trim"]


def test_bow_handle_is_its_bow_its_feet_and_trim() -> None:
    """A bow of a half circle is π/2 × its span (of the centre line) and two feet, with trim; a set of two takes two."""
    handle = Handle(("handles", 0), "bow", "sticks", count=2, shape="half circle", span_mm=200.0, feet_mm=100.0)
    found = quantities_of(construct(round_pattern(handles=(handle,))))
    bow = piece(found, "bow handles")
    assert bow.count.value == 2
    assert [part.name for part in bow.parts] == ["bow", "feet", "trim"]
    assert bow.parts[0].value == pytest.approx(math.pi / 2 * 200.0, rel=0.05)
    assert bow.parts[1].value == pytest.approx(200.0)
    assert found.finished.height_with_handle is not None
    assert found.finished.height_with_handle.value > found.finished.height.value


def test_two_piece_handle_is_two_pieces() -> None:
    """Each piece of a two-piece handle is its share of the bow and the lap, one foot and trim."""
    handle = Handle(("handles", 0), "two-piece", "sticks", pieces=2, rise_mm=200.0, span_mm=200.0, lap_mm=150.0)
    two = piece(quantities_of(construct(round_pattern(handles=(handle,)))), "two-piece handle pieces")
    assert two.count.value == 2
    assert [part.name for part in two.parts] == ["share of the bow", "share of the laps", "foot", "trim"]


def test_rope_wrap_shares_its_strands_by_material() -> None:
    """The strands that cover a roped handle are shared among the materials listed, and every strand has its tails."""
    wrap = Wrap(("handles", 0, "wraps", 0), "rope", ("plain", "rust"), gap_mm=63.5)
    handle = Handle(("handles", 0), "roped", "sticks", rise_mm=200.0, span_mm=250.0, wraps=(wrap,), lash="fine")
    basket = construct(round_pattern(handles=(handle,)))
    found = quantities_of(basket)
    strands = [item for item in found.pieces if item.part == "rope strands"]
    needed = basket.handles[0].wraps[0].strands.value
    assert [item.material for item in strands] == ["plain", "rust"]
    assert sum(item.count.value for item in strands) == needed
    assert abs(strands[0].count.value - strands[1].count.value) <= 1
    assert [part.name for part in strands[0].parts] == ["round the handle", "tails"]
    assert piece(found, "lashings").count.value == 2


def test_lid_is_listed_beside_its_basket() -> None:
    """A lid's sticks and strands are pieces of their own, and are bought with the basket's."""
    base = RoundSlath(
        ("lid", "base"), Outline("circle", 260.0, 260.0), 4, 4, half_stick=False, material="sticks",
        weaving=(Band("lid weaving", ("lid", "base", "weaving", 0), PAIR, ("fine", "fine"), Extent(to="edge"), "lid"),),
    )  # fmt: skip
    lid = Lid(("lid",), base, None, None, "resting", 3.0)
    alone, lidded = (quantities_of(construct(round_pattern(lid=item))) for item in (None, lid))
    sticks = piece(lidded, "lid sticks")
    assert sticks.count.value == 8
    assert piece(lidded, "base sticks").count.value == 10
    (run,) = [run for run in lidded.strands if run.part == "lid"]
    (row,) = [row for row in lidded.bands if row.part == "lid"]
    assert row.height.value == 0
    before, after = ({row.material: row.length_mm.value for row in found.purchase} for found in (alone, lidded))
    assert after["fine"] == pytest.approx(before["fine"] + run.length_mm.value)
    assert after["sticks"] == pytest.approx(before["sticks"] + 9 * sticks.cut_mm.value)


def test_lid_is_woven_on_its_own_sticks() -> None:
    """The strands of a lid go round the lid's sticks, not the basket's stakes or base sticks."""
    base = RoundSlath(
        ("lid", "base"), Outline("circle", 260.0, 260.0), 4, 4, half_stick=False, material="fine",
        weaving=(Band("lid weaving", ("lid", "base", "weaving", 0), PAIR, ("plain", "plain"), Extent(rounds=3), "lid"),),
    )  # fmt: skip
    basket = construct(round_pattern(lid=Lid(("lid",), base, None, None, "resting", 3.0)))
    assert basket.lid is not None
    assert upright_of(basket.lid.base.bands[0], basket).section.thickness_mm == pytest.approx(1.75)


def test_mat_has_neither_side_nor_stakes() -> None:
    """A mat of through sticks is its base and a border at both ends of every stick."""
    found = quantities_of(construct(through_pattern(side=None)))
    sticks = piece(found, "through sticks")
    assert [part.name for part in sticks.parts][:2] == ["base from edge to edge", "border (both ends)"]
    assert found.finished.along.value == 0
    assert {row.part for row in found.bands} == {"base"}


def test_plait_begins_with_added_pieces() -> None:
    """Two lengths laid beside each of the first three groups of a plait are six, as long as the border takes."""
    plait = Border(("border",), (), Plait(("border",), group=2, added=2, over=3))
    found = quantities_of(construct(round_pattern(border=plait)))
    added = piece(found, "added border pieces")
    assert added.count.value == 6
    assert found.border is not None
    assert added.needed_mm.value == pytest.approx(found.border.needed_mm.value)


def test_plaited_border_takes_its_published_allowance() -> None:
    """Handbooks of 1903 to 1916 give 13 in for a plaited border at 3/4 in spacing. Further apart the plait itself takes more
    in proportion, never less; a hand holds as much as before.
    """
    basket = construct(round_pattern(border=Border(("border",), (), Plait(("border",), group=2, added=0, over=3))))
    found = quantities_of(basket)
    assert basket.border is not None
    assert found.border is not None
    itself, held = (next(part for part in found.border.parts if part.name == name) for name in ("plait", "hand hold"))
    assert itself.value + held.value * basket.border.spacing_mm / 19.05 == pytest.approx(
        13 * 25.4 * basket.border.spacing_mm / 19.05
    )
    assert found.border.needed_mm.value == pytest.approx(itself.value + held.value)
    assert held.value < itself.value
    assert not [item for item in found.pieces if item.part == "added border pieces"]


def test_settings_reach_the_pieces() -> None:
    """Spares and trims are the maker's own."""
    found = quantities_of(construct(round_pattern(settings=settings(spare_stakes=5, stick_trim=0.0))))
    assert piece(found, "stakes").spare == 5
    assert piece(found, "base sticks").needed_mm.value == pytest.approx(203.2)


def test_chain_starts_and_finishes_its_strands_once() -> None:
    """Rounds of a chain are twined one way and the other with the same strands; its ends are those of one band."""
    rounds = [
        band(
            PAIR, ("plain", "rust"), 1, name=f"chain, round {number}", turn_of="chain", reversed=number % 2 == 0,
            path=("side", "bands", 1),
        )
        for number in range(1, 5)
    ]  # fmt: skip
    side = round_pattern().side
    assert side is not None
    chained = quantities_of(construct(round_pattern(side=replace(side, bands=(*rounds, side.bands[1])))))
    plain = band(PAIR, ("plain", "rust"), 4, name="chain", path=("side", "bands", 1))
    paired = quantities_of(construct(round_pattern(side=replace(side, bands=(plain, side.bands[1])))))
    whole, single = ([run for run in found.strands if run.band == "chain"] for found in (chained, paired))
    assert [(run.material, run.rounds) for run in whole] == [("plain", 4), ("rust", 4)]
    for together, once in zip(whole, single, strict=True):
        assert together.ends_mm.value == once.ends_mm.value > 0
        assert together.woven_mm.value == pytest.approx(once.woven_mm.value)
        assert together.pieces.value == once.pieces.value
    assert [row.name for row in chained.bands if row.course == "chain"] == [item.name for item in rounds]


def test_board_weighs_its_area_times_its_thickness_times_its_density() -> None:
    """12 by 8 in of 6 mm board at 0.6 g/cm³ is 223 g, in the basket and to buy; without a density nobody knows."""
    plywood = find_stock("plywood 6 mm")
    assert plywood is not None
    pattern = tray_pattern()
    base = pattern.base
    assert isinstance(base, Board)
    base = replace(base, outline=Outline("rectangle", 304.8, 203.2), thickness_mm=6.0)
    known = {**pattern.materials, base.material: material(base.material, plywood)}
    found = quantities_of(construct(replace(pattern, base=base, materials=known)))
    board = piece(found, "board")
    assert board.mass_g is not None
    assert board.mass_g.value == pytest.approx(30.48 * 20.32 * 0.6 * 0.6)
    (bought,) = [row for row in found.purchase if row.material == base.material]
    assert bought.mass_g is not None
    assert bought.mass_g.value == board.mass_g.value
    assert found.finished.mass_g is not None
    assert found.finished.mass_g.value > board.mass_g.value
    assert piece(quantities_of(construct(pattern)), "board").mass_g is None


@pytest.mark.parametrize(
    ("outline", "area"),
    [
        (Outline("circle", 200.0, 200.0), math.pi * 100**2),
        (Outline("ellipse", 300.0, 200.0), math.pi * 150 * 100),
        (Outline("rectangle", 300.0, 200.0), 300 * 200),
        (Outline("stadium", 300.0, 200.0), 100 * 200 + math.pi * 100**2),
        (Outline("rounded rectangle", 300.0, 200.0, 50.0), shapely.box(50, 50, 250, 150).buffer(50, 256).area),
    ],
)
def test_area_of_an_outline(outline: Outline, area: float) -> None:
    """Areas by school formulas, and by shapely where corners are rounded."""
    assert area_mm2(outline) == pytest.approx(area, rel=1e-4)


def test_border_of_a_mat_lies_round_its_edge() -> None:
    """A mat with a border is larger than its weaving by what lies there, at both ends; and no higher than stick and weaver."""
    bare, bordered = (through_pattern(side=None, border=item) for item in (None, trac_border()))
    plain, whole = (quantities_of(construct(item)).finished for item in (bare, bordered))
    basket = construct(bordered)
    assert basket.border is not None
    lying = border_height(basket.border, stake_mm(basket), "border").value
    assert lying > 0
    assert whole.rim_width.value == pytest.approx(plain.rim_width.value + 2 * lying)
    assert whole.base_width.value == plain.base_width.value == plain.rim_width.value
    stick = basket.pattern.materials[basket.base.sticks[0].material].thickness_mm
    assert whole.height.value == plain.height.value == pytest.approx(stick + 2 * 1.75)


def test_ring_of_a_lid_is_cut_and_bought() -> None:
    """A ring 40 mm across of 5.6 mm rod is π × 34.4 mm round, and laps; without a ring there is none in the list."""
    base = RoundSlath(("lid", "base"), Outline("circle", 260.0, 260.0), 4, 4, half_stick=False, material="fine")
    lid = Lid(("lid",), base, None, None, "resting", 3.0, ring="sticks")
    found = quantities_of(construct(round_pattern(lid=lid, settings=settings(lid_ring=40.0))))
    ring = piece(found, "lid ring")
    assert (ring.material, ring.count.value) == ("sticks", 1)
    assert ring.parts[0].value == pytest.approx(math.pi * (40.0 - 5.6))
    assert ring.needed_mm.value > ring.parts[0].value
    bare = quantities_of(construct(round_pattern(lid=replace(lid, ring=""), settings=settings(lid_ring=40.0))))
    assert not [item for item in bare.pieces if item.part == "lid ring"]
    before, after = ({row.material: row.length_mm.value for row in item.purchase} for item in (bare, found))
    assert after["sticks"] == pytest.approx(before["sticks"] + ring.cut_mm.value)
