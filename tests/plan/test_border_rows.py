"""What one end of a border does, in numbers, against borders followed by hand."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from tests.basket.border_words import border

from slath.basket.border import work_border
from slath.plan.acts import Bend
from slath.plan.border_rows import BorderRow, border_rows
from slath.plan.places import Loop


def rows(*passes: str, count: int, laid_first: int = 0) -> tuple[BorderRow, ...]:
    """The rows of a border on so many stakes."""
    return border_rows(work_border(border(*passes, laid_first=laid_first), count, 17.5))


def passed(bend: Bend) -> list[tuple[int, str]]:
    """What an end goes past, by number and side."""
    return [(one.of.number, one.side) for one in bend.passes]


def named(loops: tuple[Loop, ...]) -> list[tuple[int, str]]:
    """Loops by number and what they are called."""
    return [(loop.of.number, loop.kind) for loop in loops]


def test_a_stake_in_the_middle_of_both_rows() -> None:
    """On 40, behind 2, out; before 3, in: 7 goes behind 8 and 9, out before 10; then before 10, 11 and 12, and in under the
    loops of 11 and 12, which run across that space inside.
    """
    first, second = (row.turns(7)[0] for row in rows("behind 2, out", "before 3, in", count=40))
    assert passed(first) == [(8, "inside"), (9, "inside")]
    assert (first.ending, first.steps[-1].gap.between, first.entries, first.threaded) == ("out", (9, 10), {}, ())
    assert second.steps[0].gap.between == (9, 10)
    assert passed(second) == [(10, "outside"), (11, "outside"), (12, "outside")]
    assert (second.ending, second.steps[-1].gap.between) == ("in", (12, 13))
    assert {place: named(loops) for place, loops in second.entries.items()} == {3: [(11, "loop"), (12, "loop")]}


def test_the_last_stake_is_told_what_it_goes_under() -> None:
    """On 40 the last stake goes under loops 1 and 2 in the first row and under the ends of 1 and 2 in the second."""
    first, second = rows("behind 2, out", "before 3, in", count=40)
    assert named(first.turns(40)[0].threaded) == [(1, "loop"), (2, "loop")]
    assert named(second.turns(40)[0].threaded) == [(1, "end"), (2, "end")]
    assert named(second.slack) == [(1, "end"), (2, "end")]
    assert [bend.loop.of.number for bend in second.last_ones] == [39, 40]


def test_a_roll_goes_over_the_next_end_and_down() -> None:
    """Over 1, down, with the ends inside: 7 goes over the end of 8, not behind a stake; the last is held by the first roll."""
    roll = rows("behind 1, out", "before 2, in", "over 1, down", count=23)[2]
    middle = roll.turns(7)[0]
    assert [(one.of.number, one.end) for one in middle.passes] == [(8, "over")]
    assert middle.steps[-1].gap == roll.turns(8)[0].steps[0].gap
    assert named(roll.turns(23)[0].threaded) == [(1, "roll")]


def test_rope_goes_over_the_top() -> None:
    """Rope twist (Gill 1916, Model 23): ends lie inside after row 1; row 2 takes them over the top, before 1 and in."""
    first, second = rows("before 1, in", "before 1, in", count=17)
    assert not any(bend.over_top for bend in first.bends)
    assert all(bend.over_top for bend in second.bends)


def test_plain_border_says_which_upright_comes_down() -> None:
    """Three laid first: when 1 has moved, 4 comes down beside it; when the last three move, none is left."""
    (row,) = rows("behind 1, before 2, behind 1", count=17, laid_first=3)
    moved = {bend.loop.of.number: bend.brings_down for bend in row.bends if bend.loop.turn}
    told = {number: place.number if place else None for number, place in moved.items()}
    assert (told[1], told[14]) == (4, 17)
    assert [told[stake] for stake in (15, 16, 17)] == [None, None, None]


def test_a_border_that_cannot_be_worked_has_no_rows() -> None:
    """Nothing is told of a border that meets itself."""
    assert rows("behind 2, out", "before 3, in", count=5) == ()


@given(st.integers(1, 4), st.integers(1, 5), st.integers(2, 30))
def test_each_upright_is_passed_by_as_many_as_each_stake_passes(behind: int, before: int, more: int) -> None:
    """Count from the other side: every upright is passed by `behind` stakes inside and `before` outside."""
    count = behind + before + more
    made = rows(f"behind {behind}, out", f"before {before}, in", count=count)
    met = [item for row in made for bend in row.bends for item in passed(bend)]
    for upright in range(1, count + 1):
        assert met.count((upright, "inside")) == behind
        assert met.count((upright, "outside")) == before
