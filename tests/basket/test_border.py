"""Borders against facts of the trade, published borders, and a plain laying of stakes over one another by hand."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from sympy.combinatorics import Permutation
from tests.basket.border_words import border

from slath.basket.border import Turn, laid_turns, work_border, working_order
from slath.basket.border_path import legs_of, plait_last, plait_spares, plait_turns, unheld
from slath.language.pattern import Border, Plait

SPACING = 17.5

# Every path printed in the reference handbooks, in our words; "laid" borders have stakes laid down first.
# Gill, Practical Basketry, 1916; White, How to Make Baskets, 1901; Blanchard, The Basketry Book, 1914; McGaw, Construction
# Work, 1909; Beard, What a Girl Can Make and Do, 1902; a British cane basket of four stakes laid behind one.
PUBLISHED: list[tuple[str, int, tuple[str, ...], int]] = [
    ("Gill 1, White mat 1, Beard: open border 1", 13, ("behind 1, down",), 0),
    ("Gill 3 and 17, White mat 2: open border 2", 17, ("behind 2, down",), 0),
    ("Gill 4: closed border 1", 13, ("behind 1, out", "before 1, behind 1"), 0),
    ("Gill 5, 6, 8, 20, 21, 22, 41: closed border 2", 17, ("behind 1, out", "before 2, behind 1"), 0),
    ("Gill 7, 10, 11, 25, 26, 66", 31, ("behind 1, out", "before 3, behind 1"), 0),
    ("Gill 12: reversed rope", 31, ("behind 1, out", "behind 1, out"), 0),
    ("Gill 19: trac of five", 21, ("behind 1, before 1, behind 1, before 1, behind 1",), 0),
    ("Gill 23: rope twist; White work basket: rope border", 17, ("before 1, in", "before 1, in"), 0),
    ("Gill 27, 32, 49, 56, 60, 61, 63, 67, 68: border of Model 22", 31, ("behind 1, before 2, behind 1",), 3),
    ("Gill 29 and 42; White round cover", 17, ("behind 1, out", "before 1, in"), 0),
    ("Gill 30", 31, ("behind 1, out", "before 2, in", "over 1, behind 1"), 0),
    ("Gill 31", 20, ("behind 1, out", "before 3, in"), 0),
    ("Gill 35: foot", 30, ("behind 2, out", "before 1, behind 1"), 0),
    ("Gill 36", 39, ("behind 2, out", "before 2, in"), 0),
    ("Gill 45", 62, ("before 1, behind 1, before 1, behind 1, before 1, down",), 0),
    ("Gill 45: foot", 62, ("before 2, in", "before 1, behind 1"), 0),
    ("Gill 46", 96, ("over 2, under 2, over 2, under 2, over 2, under 2, out",), 0),
    ("Gill 46: foot", 96, ("before 3, behind 3", "before 3, in"), 0),
    ("Gill 48", 32, ("behind 2, out", "before 2, behind 1"), 0),
    ("Gill 50: foot", 45, ("before 2, behind 1",), 0),
    ("Gill 51: foot", 60, ("before 1, behind 1",), 0),
    ("Gill 62", 31, ("behind 1, out", "over 4, behind 1"), 0),
    ("Gill 71", 31, ("behind 1, out", "over 3, down"), 0),
    ("White work basket 16", 33, ("under 1, over 1, under 1, out", "under 1, over 1, in", "over 1, out"), 0),
    ("Blanchard 4", 32, ("behind 2, out", "before 3, in", "over 2, down"), 0),
    ("McGaw mat: open scallop", 16, ("before 2, down",), 0),
    ("McGaw hamper", 17, ("over 1, in",), 0),
    ("McGaw basket with handle", 17, ("under 1, over 1, in",), 0),
    ("a British cake basket: four laid, then before 2, behind 1", 32, ("behind 1, before 2, behind 1",), 4),
]


@pytest.mark.parametrize(("name", "count", "passes", "laid"), PUBLISHED, ids=[row[0] for row in PUBLISHED])
def test_published_borders_close(name: str, count: int, passes: tuple[str, ...], laid: int) -> None:
    """Every border printed in the handbooks closes on a count it was printed for, and tells its own smallest count."""
    assert name
    spec = border(*passes, laid_first=laid)
    made = work_border(spec, count, SPACING)
    assert made.closes, made.why_not
    assert made.reach == sum(len(one.visits) for one in made.passes)
    assert work_border(spec, made.smallest_count, SPACING).closes
    assert not work_border(spec, made.smallest_count - 1, SPACING).closes


def test_two_behind_on_forty_finishes_under_one_and_two() -> None:
    """Behind 2, out on 40: 39 goes under the loop of 1, 40 under those of 1 and 2 (read off a drawing to scale)."""
    first, second = work_border(border("behind 2, out", "before 3, in"), 40, SPACING).passes
    assert [(finish.stake, finish.under) for finish in first.finish] == [(39, (1,)), (40, (1, 2))]
    assert first.loose == (1, 2)
    # Row two goes in where row-two ends lie across that space already (common practice, no source; how many is estimated).
    assert [(finish.stake, finish.under) for finish in second.finish] == [(39, (1,)), (40, (1, 2))]
    assert second.loose == (1, 2)
    assert (second.begins, second.ends_at) == (2.5, 5.5)
    assert [(visit.offset, visit.face) for visit in second.visits] == [(3, "before"), (4, "before"), (5, "before")]


@pytest.mark.parametrize("behind", range(1, 7))
def test_loops_left_loose_are_the_reach_of_a_first_pass_behind(behind: int) -> None:
    """A first pass behind b leaves b loops loose; the last stake goes under all of them (common practice, no source)."""
    made = work_border(border(f"behind {behind}, out"), 24, SPACING).passes[0]
    assert made.loose == tuple(range(1, behind + 1))
    assert made.finish[-1].under == made.loose
    assert len(made.finish) == behind


@pytest.mark.parametrize("before", range(1, 7))
def test_a_second_pass_goes_in_under_the_ends_across_the_space(before: int) -> None:
    """A second pass before f, in: on a rim without end the next f - 1 ends are laid after it and run across the space it goes
    in through; the f-th only sets out there. On a ring the last goes under those f - 1, the one before it under f - 2, and so on.
    """
    made = work_border(border("behind 2, out", f"before {before}, in"), 40, SPACING).passes[1]
    under = {finish.stake: finish.under for finish in made.finish}
    assert under == {40 - short: tuple(range(1, before - short)) for short in range(before - 1)}


def threaded(spec: Border, count: int) -> dict[tuple[int, int], tuple[tuple[int, int], ...]]:
    """For each (stake, leg) that is threaded because work has come round: what it goes under, (stake, leg)."""
    return {
        (made.turn.stake, made.turn.leg): tuple(sorted((other.stake, other.leg) for other in made.under))
        for made in laid_turns(legs_of(spec), count)
        if made.under
    }


def test_plain_border_of_three_worked_out_by_hand() -> None:
    """Three-rod plain border on 17, followed stake by stake on paper: the last three uprights and who goes under whom.

    17 is laid behind 1, under its loop. 14 then goes behind 1; 15 behind 2, its way also across loop 1; 16 behind 3
    across loop 2; 17 behind 4 across loop 3, and where it comes to lie the end of 1, the first that moved, is over it. Where the
    long ones come out to the front the end of 2 runs across that space too.
    """
    found = {(17, 0): ((1, 0),), (14, 1): ((1, 0),), (15, 1): ((1, 0), (2, 0)), (16, 1): ((2, 0), (3, 0))}
    inside = threaded(border("behind 1, before 2, behind 1", laid_first=3), 17)
    assert inside == {**found, (17, 1): ((1, 1), (3, 0), (4, 0))}
    outside = threaded(border("behind 1, before 2, behind 1, out", laid_first=3), 17)
    assert outside[17, 1] == ((1, 1), (2, 1), (3, 0), (4, 0))


def test_one_more_laid_first_goes_over_the_loop_it_would_have_gone_under() -> None:
    """Four laid, then before 2, behind 1, on 17, followed on paper: the way in is across a loop already laid, and over it.

    So 15 is threaded under loop 2 only, not under loop 1; and so on round to 17, which the end of 1 lies over.
    """
    found = threaded(border("behind 1, before 2, behind 1", laid_first=4), 17)
    assert found == {
        (17, 0): ((1, 0),),
        (14, 1): ((1, 0),),
        (15, 1): ((2, 0),),
        (16, 1): ((3, 0),),
        (17, 1): ((1, 1), (4, 0)),
    }


def test_a_roll_is_held_by_the_next_end_and_closes_under_the_first() -> None:
    """Behind 1, out; before 2, in; over 1, down: each end goes down over the next, the last under what the first laid."""
    spec = border("behind 1, out", "before 2, in", "over 1, down")
    assert threaded(spec, 23)[23, 2] == ((1, 2),)
    wide = border("behind 2, out", "before 3, in", "over 2, down")
    rolls = {turn: under for turn, under in threaded(wide, 32).items() if turn[1] == 2}
    assert rolls == {(31, 2): ((1, 2),), (32, 2): ((1, 2), (2, 2))}


def test_plain_border_brings_the_next_upright_down_beside_the_one_that_moved() -> None:
    """Working order of a three-rod plain border: 1, 2, 3 laid; 1 moves, 4 comes down; 2 moves, 5 comes down..."""
    legs = legs_of(border("behind 1, before 2, behind 1, out", laid_first=3))
    order = list(working_order(legs, 7))
    assert order[:7] == [Turn(1, 0), Turn(2, 0), Turn(3, 0), Turn(1, 1), Turn(4, 0), Turn(2, 1), Turn(5, 0)]
    assert order[-3:] == [Turn(5, 1), Turn(6, 1), Turn(7, 1)]


@pytest.mark.parametrize(("rods", "behind"), [(3, 1), (4, 1), (5, 1), (3, 2), (4, 2), (5, 2)])
def test_plain_border_travels_rods_and_behind(rods: int, behind: int) -> None:
    """A k-rod plain border laid behind b travels k + b spaces (common practice, no source)."""
    spec = border(f"behind {behind}, before {rods - behind}, behind {behind}, out", laid_first=rods)
    made = work_border(spec, 30, SPACING)
    assert made.reach == rods + behind
    assert made.closes


def test_meets_itself_when_stakes_are_no_more_than_reach_and_one() -> None:
    """A border meets itself when the stakes are reach + 1 or fewer: each end would rest on its own stake."""
    spec = border("behind 2, out", "before 3, in")
    short = work_border(spec, 6, SPACING)
    assert not short.closes
    assert "meets itself in pass 2" in str(short.why_not)
    assert "at least 7" in str(short.why_not)
    assert work_border(spec, 7, SPACING).closes


def test_more_laid_first_than_there_are_cannot_begin() -> None:
    """Nine stakes cannot be laid down first among eight."""
    made = work_border(border("behind 1, before 2, behind 1", laid_first=9), 8, SPACING)
    assert not made.closes
    assert "only 8" in str(made.why_not)
    assert made.smallest_count == 9


@pytest.mark.parametrize(
    ("passes", "words"),
    [
        (("behind 1, down", "before 2, in"), "already went down"),
        (("down",), "does not say which way"),
        (("out",), "takes no stake past another"),
        (("behind 121, out",), "no stake is long enough"),
    ],
)
def test_paths_no_stake_can_take_say_why(passes: tuple[str, ...], words: str) -> None:
    """A path that cannot be worked has no passes, and says why in trade words."""
    made = work_border(border(*passes), 40, SPACING)
    assert not made.closes
    assert made.passes == ()
    assert words in str(made.why_not)


def test_ends_lying_inside_go_over_and_under_each_other_there() -> None:
    """Blanchard 1914, row 3: over 2 and down, from the inside: the end stays inside and never comes out."""
    third = work_border(border("behind 2, out", "before 3, in", "over 2, down"), 32, SPACING).passes[2]
    assert [visit.face for visit in third.visits] == ["behind", "behind"]


def test_plait_is_worked_in_groups_over_and_in() -> None:
    """Groups of two over one set, eight lengths added to the two pairs that begin outside: three sets of two pairs.

    Each pair goes before two and in, behind one and out, before two and in, and is left there (common practice, no source).
    """
    made = work_border(Border((), (), plait=Plait((), group=2, added=8, over=1)), 15, SPACING)
    assert made.closes
    assert [visit.face for visit in made.passes[0].visits] == ["before", "before", "behind", "before", "before"]
    assert (made.reach, made.thickness) == (5, 10)


def test_plait_of_three_pairs_takes_what_the_book_allows() -> None:
    """Gill 1916: four added lengths, 13 in at 3/4 in spacing; elsewhere 10 to 12 in at 0.6 to 1.2 in. It is a plait of three pairs.

    One length lies beside each of the first two, two make the third pair. Each stake goes past five and rests against the
    sixth, and even half as much again as its way straight on is less than the books leave it.
    """
    plait = Plait((), group=1, added=4, over=1)
    assert plait_turns(plait) == 2
    made = work_border(Border((), (), plait=plait), 31, SPACING)
    assert made.reach == 5
    assert 1.5 * 0.75 * (made.reach + 1) < 13
    assert 1.5 * 1.2 * (made.reach + 1) < 12
    assert plait_spares(plait) == ((1, -2, 1), (2, -1, 1), (3, 0, 1), (3, -3, 1))
    assert plait_last(plait, 31) == ((1, (29,)), (2, (30,)), (3, (31,)))


def test_plait_without_added_lengths_goes_over_and_in_once() -> None:
    """With nothing added each group goes over so many others and is left inside at once."""
    made = work_border(Border((), (), plait=Plait((), group=1, added=0, over=2)), 15, SPACING)
    assert [visit.face for visit in made.passes[0].visits] == ["before"] * 3
    assert made.passes[0].ending == "in"


def test_one_of_each_pair_cut_off_halves_the_thickness() -> None:
    """Gill 1916, Model 63: one stake of each pair is cut off before the border, so one lies where two would."""
    pairs = replace(border("behind 1, out", "before 2, in"), groups=2)
    assert work_border(pairs, 31, SPACING).thickness == 6
    assert work_border(replace(pairs, cut_to_one=True), 31, SPACING).thickness == 3


# ------------------------------------------------------------------------------------- laid over one another by hand
RUNS = st.lists(st.integers(1, 3), min_size=1, max_size=4)


@st.composite
def trac_words(draw: st.DrawFn) -> str:
    """A path worked in one movement: runs behind and before in turn, and an ending."""
    inside = draw(st.booleans())
    words = []
    for index, run in enumerate(draw(RUNS)):
        words.append(f"{'behind' if inside == (index % 2 == 0) else 'before'} {run}")
    end = "out" if words[-1].startswith("behind") else "in"
    ending = draw(st.sampled_from((end, "down", "")))
    return ", ".join([*words, ending] if ending else words)


def faces_by_space(words: str) -> list[set[str]]:
    """For each space from the stake's own on, the faces its path touches there, read straight off the words."""
    faces: list[str] = []
    ending = ""
    for item in words.split(", "):
        way, _, count = item.partition(" ")
        if count:
            faces += [way] * int(count)
        else:
            ending = way
    last = {"out": {faces[-1], "before"}, "in": {faces[-1], "behind"}, "down": {faces[-1]}, "": {faces[-1]}}
    return [{faces[0]}, *({left, right} for left, right in pairwise(faces)), last[ending]]


def laid_by_hand(words: str, count: int, under: dict[int, tuple[int, ...]], step: int = 1) -> list[list[list[int]]]:
    """Stack the stakes in every space, stake by stake: each on top, or below those it is threaded under.

    Returns the stack of each space and face, every stake told by how far its own place is from that space. `step` -1
    works round the other way.
    """
    stacks: dict[tuple[int, str], list[int]] = {
        (space, face): [] for space in range(count) for face in ("behind", "before")
    }
    for stake in range(1, count + 1):
        for away, faces in enumerate(faces_by_space(words)):
            for face in faces:
                stack = stacks[(step * (stake + away)) % count, face]
                above = [stack.index(other) for other in under.get(stake, ()) if other in stack]
                stack.insert(min(above, default=len(stack)), stake)
    return [
        [[(space * step - stake) % count for stake in stacks[space, face]] for face in ("behind", "before")]
        for space in range(count)
    ]


@given(trac_words(), st.integers(2, 12))
def test_finish_makes_every_space_alike(words: str, more: int) -> None:
    """Laid by hand with the last stakes threaded as told, every space of the ring looks like every other.

    So the start cannot be found again, and beginning at another stake would change nothing. The ring is large enough for
    two stakes to meet on one side only: the laying by hand threads a stake under another wherever they meet.
    """
    spec = border(words)
    count = 2 * work_border(spec, 60, SPACING).reach + more
    made = work_border(spec, count, SPACING)
    stacks = laid_by_hand(words, count, {finish.stake: finish.under for finish in made.passes[0].finish})
    assert all(stack == stacks[0] for stack in stacks)


@given(trac_words(), st.integers(2, 12))
def test_working_the_other_way_mirrors(words: str, more: int) -> None:
    """The same stakes threaded under the same, worked right to left, give the mirror image space by space."""
    spec = border(words)
    count = 2 * work_border(spec, 60, SPACING).reach + more
    under = {finish.stake: finish.under for finish in work_border(spec, count, SPACING).passes[0].finish}
    right, left = laid_by_hand(words, count, under), laid_by_hand(words, count, under, step=-1)
    assert all(right[space] == left[-space % count] for space in range(count))


def test_forgetting_one_thread_shows() -> None:
    """The laying by hand is not blind: leave 40 on top of loop 2 and its space no longer looks like the others."""
    made = work_border(border("behind 2, out"), 40, SPACING).passes[0]
    under = {finish.stake: finish.under for finish in made.finish}
    stacks = laid_by_hand("behind 2, out", 40, under | {40: ()})
    assert any(stack != stacks[0] for stack in stacks)


@given(trac_words(), st.integers(2, 20))
def test_stakes_map_to_spaces_one_to_one(words: str, more: int) -> None:
    """Each space takes the end of one stake: the map is a permutation, and a rotation (checked with sympy)."""
    count = work_border(border(words), 60, SPACING).reach + more
    made = work_border(border(words), count, SPACING).passes[0]
    ends = [int(stake + made.ends_at) % count for stake in range(count)]
    turned = Permutation(ends)  # refuses a list that is not one to one
    assert turned == Permutation([(place + 1) % count for place in range(count)]) ** int(made.ends_at)


@pytest.mark.parametrize("over", [1, 2, 3])
@pytest.mark.parametrize("count", [17, 32])
def test_rolled_ends_are_held_by_those_laid_after_them(over: int, count: int) -> None:
    """A roll goes over the next ends and down; the last n lie over the first roots and under 1, 2 ... n finished ends.

    The Ontario cane tutor's "over two to its right and down" (inside); the finish by geometry, no published source.
    """
    third = work_border(border("behind 1, out", "before 2, in", f"over {over}, down"), count, SPACING).passes[2]
    assert third.ending == "rolled"
    assert third.loose == tuple(range(1, over + 1))
    assert [(finish.stake, finish.under) for finish in third.finish] == [
        (count - over + place, tuple(range(1, place + 1))) for place in range(1, over + 1)
    ]


def test_roll_may_be_repeated_and_lie_outside() -> None:
    """White 1901: behind one and out, over the next end and down, sometimes over the next once more."""
    made = work_border(border("behind 1, out", "over 1, down", "over 1, down"), 31, SPACING)
    assert made.closes
    assert [one.ending for one in made.passes] == ["out", "rolled", "rolled"]
    assert {visit.face for visit in made.passes[2].visits} == {"before"}
    assert made.passes[2].loose == (1,)


@pytest.mark.parametrize("row", PUBLISHED, ids=[row[0] for row in PUBLISHED])
def test_published_borders_hold_their_ends(row: tuple[str, int, tuple[str, ...], int]) -> None:
    """What handbooks print holds; the same with its last end left lying along the others does not."""
    spec = border(*row[2], laid_first=row[3])
    assert not unheld(spec, legs_of(spec))


@pytest.mark.parametrize("passes", [("behind 1, out", "before 2"), ("behind 1, out", "before 1, out"), ("behind 2",)])
def test_ends_that_only_lie_along_others_are_loose(passes: tuple[str, ...]) -> None:
    """Common practice, no source."""
    spec = border(*passes)
    assert unheld(spec, legs_of(spec))
