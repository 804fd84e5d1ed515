"""What one stake does, in stake numbers, against borders followed by hand."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from tests.basket.border_words import border

from slath.basket.border import work_border
from slath.basket.border_ways import Under, stake_ways


def test_a_stake_in_the_middle_of_both_passes() -> None:
    """On 40, behind 2, out; before 3, in: 7 goes behind 8 and 9, out before 10; then before 10, 11, 12, in under loop 12."""
    ways = [way for way in stake_ways(work_border(border("behind 2, out", "before 3, in"), 40, 17.5)) if way.stake == 7]
    first, second = ways
    assert first.passes == ((8, "behind"), (9, "behind"))
    assert (first.ending, first.ends_between, first.rests_on) == ("out", (9, 10), 10)
    assert (first.sets_out, first.through_loop, first.under) == (None, None, ())
    assert second.sets_out == (9, 10)
    assert second.passes == ((10, "before"), (11, "before"), (12, "before"))
    assert (second.ending, second.ends_between, second.through_loop) == ("in", (12, 13), 12)


def test_the_last_stake_is_told_what_it_goes_under() -> None:
    """On 40 the last stake goes under loops 1 and 2 in the first pass and behind the end of 1 in the second."""
    ways = [
        way for way in stake_ways(work_border(border("behind 2, out", "before 3, in"), 40, 17.5)) if way.stake == 40
    ]
    assert ways[0].under == (Under(1, "loop"), Under(2, "loop"))
    assert ways[1].under == (Under(1, "end"),)
    assert ways[1].passes == ((3, "before"), (4, "before"), (5, "before"))


def test_rope_goes_over_the_edge() -> None:
    """Rope twist (Gill 1916, Model 23): ends lie inside after row 1; row 2 takes them over the edge, before 1 and in."""
    ways = stake_ways(work_border(border("before 1, in", "before 1, in"), 17, 17.5))
    assert not any(way.over_edge for way in ways[:17])
    assert all(way.over_edge for way in ways[17:])


def test_plain_border_says_which_upright_comes_down() -> None:
    """Three laid first: when 1 has moved, 4 comes down beside it; when the last three move, none is left."""
    ways = stake_ways(work_border(border("behind 1, before 2, behind 1", laid_first=3), 17, 17.5))
    moved = {way.stake: way.brings_down for way in ways if not way.laid}
    assert moved[1] == 4
    assert moved[14] == 17
    assert [moved[stake] for stake in (15, 16, 17)] == [None, None, None]


def test_a_border_that_cannot_be_worked_has_no_ways() -> None:
    """Nothing is told of a border that meets itself."""
    assert stake_ways(work_border(border("behind 2, out", "before 3, in"), 5, 17.5)) == ()


@given(st.integers(1, 4), st.integers(1, 5), st.integers(2, 30))
def test_each_upright_is_passed_by_as_many_as_each_stake_passes(behind: int, before: int, more: int) -> None:
    """Count from the other side: every upright is passed by `behind` stakes inside and `before` outside."""
    made = work_border(border(f"behind {behind}, out", f"before {before}, in"), behind + before + more, 17.5)
    passed = [item for way in stake_ways(made) for item in way.passes]
    for upright in range(1, made.count + 1):
        assert passed.count((upright, "behind")) == behind
        assert passed.count((upright, "before")) == before
