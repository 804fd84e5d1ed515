"""What a maker who has only the paper needs to be told: where counting begins, what is left for the end, what comes off."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.wording.small_baskets import told_of
from tests.wording.told_patterns import SIZED, made, sentences, told

from slath.plan.border_rows import border_rows

SEVENTEEN = """
base: {kind: round slath, diameter: 6 in, pierced: 4, half_stick: yes, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 1}
"""


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_a_long_base_is_counted_from_the_end_where_its_numbers_begin(name: str, size: int) -> None:
    """Feet are told by number: a thread tied to any end of an oval would set a handle askew (common practice, no source)."""
    _, basket, _ = made(name, size)
    ends = basket.base.ends
    said = [
        each for each in sentences(told(name, size)) if "Tie a bright thread to" in each and "first stick end" in each
    ]
    sticks = sum(stick.kind == "lengthwise" for stick in basket.base.sticks)
    first = [end.kind for end in ends[:sticks]]
    if sticks and set(first) == {"lengthwise"}:
        assert len(said) == 1
        assert "the one furthest to the left" in said[0]
        assert ends[-1].kind != "lengthwise"
    else:
        assert not said


def test_the_feet_of_the_oval_stand_at_its_middle() -> None:
    """From the first lengthwise end the feet of the handle come to the single cross sticks in the middle of both sides."""
    _, basket, _ = made("weir-field", 1)
    ends = {stake.number: basket.base.ends[stake.end - 1] for stake in basket.stakes if stake.end}
    (handle,) = basket.handles
    assert {ends[number].kind for number in handle.feet_at} == {"crosswise single"}


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_uprights_that_come_down_at_the_last_are_left_till_then(name: str, size: int) -> None:
    """Where one of the last ones still stands, the maker is not told to go on until none does."""
    _, basket, _ = made(name, size)
    if basket.border is None or basket.border.spec.plait is not None:
        return
    said = sentences(told(name, size))
    for row in border_rows(basket.border):
        stands = [bend.loop.of.number for bend in row.last_ones if bend.loop.kind == "loop"]
        if row.laid_first and stands:
            assert f"Go on until only stake {stands[0]} still stands upright." in said
            assert any(each.startswith(f"Stake {stands[0]}, ") and " goes " in each for each in said)


def test_what_was_kept_slack_is_pulled_tight_by_name() -> None:
    """A few one by one, more of them by runs, in the order they were made."""
    assert "Pull tight, one at a time: the loop of stake 1, then the loop of stake 2." in sentences(
        told("weir-field", 1)
    )
    assert (
        "Pull tight, one at a time: the loops of stakes 1 to 4, then the end of stake 1, then the loop of stake 5, "
        "then the ends of stakes 2 and 3."
    ) in sentences(told("osier-eyot", 1))


def test_an_odd_number_of_strands_is_shared_out_in_whole_ones() -> None:
    """Seven rope strands are four and three."""
    said = sentences(told("osier-eyot", 1))
    assert "Push four of them into the weaving beside one leg, and the other three beside the other." in said


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_the_thread_comes_off_again(name: str, size: int) -> None:
    """Whoever looks for the stake with the thread takes it off when the work is done."""
    said = sentences(told(name, size))
    sought = any("the one with the thread" in each for each in said)
    assert sought == any(each.startswith("Take off the thread") for each in said)


@pytest.mark.parametrize(("weave", "shown"), [("randing", True), ("randing before 2 behind 1", False)])
def test_rounds_that_lie_alike_are_a_fault_only_where_strokes_go_by_turns(
    tmp_path: Path, weave: str, *, shown: bool
) -> None:
    """Before two and behind one, two neighbouring rounds both lie in front of a third of the stakes, and rightly so."""
    said = told_of(tmp_path, f"{SEVENTEEN}side: {{bands: [{{weave: {weave}, strands: plain, rounds: 9}}]}}\n")
    assert any("lie alike" in each for each in said) == shown


def test_what_is_soaked_bears_the_name_it_is_listed_by() -> None:
    """A rod with a title of its own is found in the list by that title, and by no stock that is not in the list."""
    said = sentences(told("osier-eyot", 1))
    (rod,) = [each for each in said if each.startswith("Soak about eight days")]
    assert rod.endswith(": a stout brown rod.")
    assert not any("8 ft" in each for each in said)
