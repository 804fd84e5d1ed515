"""Uprights that change: stakes added, dropped and parted, doubled stakes, leagues and bye-stakes, and what follows.

How each is worked is common practice, no source; the numbers are counted by hand.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.quantities.records import CHASE, PAIR, WALE, band, round_pattern, through_pattern, trac_border

from slath.basket.construct import construct
from slath.basket.model import Basket
from slath.language.pattern import ByeStakes, Extent, Outline, Side, SizedPattern, StakeChange, Stakes
from slath.quantities import quantities_of
from slath.quantities.crossing import take_up
from slath.quantities.results import Piece, Quantities
from slath.quantities.uprights import upright_of


def changing(*changes: StakeChange, **more: object) -> SizedPattern:
    """Forty stakes; an upsett, the changes, and ten rounds of pairing, on an upright side 8 in across."""
    upsett = band(WALE, ("plain",), name="upsett", rounds=2)
    wall = band(PAIR, ("plain", "plain"), 10, name="wall", path=("side", "bands", 9))
    side = Side(("side",), None, Outline("circle", 203.2, 203.2), "straight", 0.0, (), (upsett, *changes, wall))
    return round_pattern(side=side, **more)


def change(action: str, count: int = 0, **more: object) -> StakeChange:
    """A change of the stakes before the wall."""
    plain = StakeChange(("side", "bands", 1), "add", count)
    return replace(plain, action=action, **more)


def worked(pattern: SizedPattern) -> tuple[Basket, Quantities]:
    """The basket and its list."""
    basket = construct(pattern)
    return basket, quantities_of(basket)


def pieces(found: Quantities, part: str) -> list[Piece]:
    """The pieces of that name."""
    return [piece for piece in found.pieces if piece.part == part]


def woven_mm(found: Quantities, name: str) -> float:
    """All strands of one band, without ends and laps."""
    return sum(run.woven_mm.value for run in found.strands if run.band == name)


@pytest.mark.parametrize(
    ("made", "uprights", "added"),
    [
        (change("add", 20), 60, 20),
        (change("add", 40), 80, 40),
        (change("add", stakes=(1, 2, 30), beside="listed"), 43, 3),
        (change("drop", 20), 20, 0),
        (change("drop", stakes=(3, 7), beside="listed"), 38, 0),
        (change("cross", 1), 40, 0),
    ],
)
def test_bands_above_a_change_stand_on_its_uprights(made: StakeChange, uprights: int, added: int) -> None:
    """Stakes added are counted and cut; those dropped are cut all the same; below the change nothing is changed."""
    basket, found = worked(changing(made))
    upsett, wall = basket.bands
    assert (upsett.uprights, wall.uprights, basket.rim_uprights) == (40, uprights, uprights)
    assert wall.rounds[0].spacing_mm == pytest.approx(wall.rounds[0].perimeter_mm / uprights)
    assert sum(piece.count.value for piece in pieces(found, "added stakes")) == added
    assert sum(piece.count.value for piece in pieces(found, "stakes")) == 40
    assert woven_mm(found, "upsett") == pytest.approx(woven_mm(worked(changing())[1], "upsett"))


def test_strands_take_more_round_more_stakes() -> None:
    """Each strand of the wall takes its way × the take-up at the new spacing, worked out apart."""
    for count, uprights in ((20, 60), (0, 40)):
        basket, found = worked(changing(*([change("add", count)] if count else [])))
        wall = basket.bands[1]
        ratio = take_up(PAIR, wall.rounds[0].perimeter_mm / uprights, upright_of(wall, basket).section, 2.75)
        assert woven_mm(found, "wall") == pytest.approx(2 * 10 * wall.rounds[0].perimeter_mm * ratio)
    more, fewer = (woven_mm(worked(changing(change(way, 20)))[1], "wall") for way in ("add", "drop"))
    assert more > fewer


def test_added_stakes_reach_from_their_place_to_the_border() -> None:
    """Above a 2-round upsett a stake added is its depth, the rest of the way and the border; at the top, no way is left."""
    basket, found = worked(changing(change("add", 20)))
    (added,) = pieces(found, "added stakes")
    rest = next(part for part in added.parts if part.name == "up the rest of the side")
    assert rest.value == pytest.approx(basket.bands[1].reached_mm)
    side = changing().side
    assert side is not None
    last = replace(side, bands=(*side.bands, change("add", 20)))
    (at_top,) = pieces(worked(replace(changing(), side=last))[1], "added stakes")
    assert sum(part.value for part in at_top.parts if part.name.startswith("up ")) == pytest.approx(0.0, abs=1e-6)


def test_border_is_worked_on_the_stakes_at_the_rim() -> None:
    """With a stake added beside each, the border has twice the stakes at half the spacing, and takes less of each."""
    one, two = (worked(changing(*made))[1] for made in ((), (change("add", 40),)))
    assert one.border is not None
    assert two.border is not None
    assert two.rim_spacing.value == pytest.approx(one.rim_spacing.value / 2)
    assert two.border.needed_mm.value < one.border.needed_mm.value


def test_doubled_stakes_are_one_upright_till_they_are_parted() -> None:
    """Forty stakes worked in twos are twenty uprights; parted they are forty, and none is cut for it."""
    doubled = Stakes(("stakes",), "stakes", per_end=2, worked_as=2)
    basket, found = worked(changing(change("part", 1), stakes=doubled))
    upsett, wall = basket.bands
    assert (basket.working, upsett.uprights, wall.uprights) == (20, 20, 40)
    assert upright_of(upsett, basket).section.width_mm == pytest.approx(2 * 3.25)
    assert upright_of(wall, basket).section.width_mm == pytest.approx(3.25)
    assert sum(piece.count.value for piece in pieces(found, "stakes")) == 40
    assert not pieces(found, "added stakes")
    assert found.working.value == 20


def test_stake_added_to_parted_stakes_is_counted_after_them() -> None:
    """Twenty pairs parted are forty; ten added after that are ten pieces and fifty uprights."""
    doubled = Stakes(("stakes",), "stakes", per_end=2, worked_as=2)
    basket, found = worked(changing(change("part", 1), change("add", 10), stakes=doubled))
    (added,) = pieces(found, "added stakes")
    assert (added.count.value, basket.bands[1].uprights) == (10, 50)


def test_leagues_are_sticks_and_two_stakes_in_one() -> None:
    """Sticks that turn up at both ends are a stake at each; with one set in beside every end, twice as many stand."""
    alone, with_stakes = (
        through_pattern(border=trac_border()),
        through_pattern(border=trac_border(), stakes=Stakes(("stakes",), "stakes")),
    )
    (bare, plain), (basket, found) = worked(alone), worked(with_stakes)
    (leagues,) = pieces(plain, "through sticks")
    ends = len(bare.base.ends)
    assert ends == 2 * leagues.count.value + sum(piece.count.value for piece in pieces(plain, "half stick"))
    assert len(bare.stakes) == ends
    assert len(basket.stakes) == 2 * ends
    assert sum(piece.count.value for piece in pieces(found, "stakes")) == ends
    both = [part for part in leagues.parts if part.name.endswith("(both ends)")]
    assert [part.name for part in both] == ["up the side (both ends)", "border (both ends)", "hand hold (both ends)"]
    (stakes,) = pieces(found, "stakes")
    one = next(part for part in stakes.parts if part.name == "border")
    (wider,) = pieces(found, "through sticks")
    assert next(part for part in wider.parts if part.name == "border (both ends)").value == pytest.approx(2 * one.value)


@pytest.mark.parametrize(("every", "count", "byes"), [(1, None, 40), (2, None, 20), (3, None, 14), (1, 7, 7)])
def test_bye_stakes_stand_beside_their_stakes(every: int, count: int | None, byes: int) -> None:
    """One to every stake, to every second or third of forty, or a number said; they change no count of uprights."""
    bye = ByeStakes(("bye_stakes",), "stakes", count, every, after_band="upsett")
    basket, found = worked(changing(bye_stakes=(bye,)))
    assert sum(piece.count.value for piece in pieces(found, "bye-stakes")) == byes
    assert [woven.uprights for woven in basket.bands] == [40, 40]


def test_bye_stakes_widen_the_uprights_above_them() -> None:
    """Below the bye-stakes an upright is one stake wide, above them two; with every second stake, one and a half."""
    for every, widths in ((1, (3.25, 6.5)), (2, (3.25, 4.875))):
        bye = ByeStakes(("bye_stakes",), "stakes", every=every, after_band="upsett")
        basket, found = worked(changing(bye_stakes=(bye,)))
        assert [upright_of(woven, basket).section.width_mm for woven in basket.bands] == pytest.approx(list(widths))
        plain = worked(changing())[1]
        assert woven_mm(found, "wall") > woven_mm(plain, "wall")
        assert woven_mm(found, "upsett") == pytest.approx(woven_mm(plain, "upsett"))


def test_bye_stakes_from_the_start_widen_every_upright() -> None:
    """Bye-stakes that go in before the side are there from the first band on."""
    basket, _ = worked(changing(bye_stakes=(ByeStakes(("bye_stakes",), "stakes"),)))
    assert [upright_of(woven, basket).section.width_mm for woven in basket.bands] == pytest.approx([6.5, 6.5])
    assert basket.working == 40


def test_finer_bye_stakes_are_taken_as_fine_as_they_are() -> None:
    """A No. 2 bye-stake beside a No. 5 stake makes an upright of both widths together and of their mean thickness."""
    bye = ByeStakes(("bye_stakes",), "fine", after_band="upsett")
    basket, _ = worked(changing(bye_stakes=(bye,)))
    section = upright_of(basket.bands[1], basket).section
    assert section.width_mm == pytest.approx(3.25 + 1.75)
    assert section.thickness_mm == pytest.approx((3.25 + 1.75) / 2)


def test_change_between_bands_to_the_top_keeps_whole_rounds() -> None:
    """A band that goes to the top above a change has whole rounds on the new count, and all ways add up to the side."""
    side = changing(change("add", 20)).side
    assert side is not None
    top = band(CHASE, ("plain", "rust"), name="top", extent=Extent(to="top"), path=("side", "bands", 3))
    basket, found = worked(round_pattern(side=replace(side, height_mm=120.0, bands=(*side.bands[:2], top))))
    assert basket.bands[1].uprights == 60
    (row,) = [row for row in found.bands if row.name == "top"]
    assert row.rounds.value == int(row.rounds.value)
    assert found.finished.along.value == pytest.approx(sum(woven.reached_mm for woven in basket.bands))
