"""What the hand must know when it needs it: where to begin, what to press, when to begin anew, in the order of the work."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.wording.small_baskets import told_of

WOVEN = "weaving: [{weave: pairing, strands: plain, to: edge}]"
SLATH = f"base: {{kind: round slath, diameter: 6 in, pierced: 4, material: sticks, {WOVEN}}}\n"
STAKES = "stakes: {material: stakes, per_end: 2}\n"


def place(said: list[str], start: str) -> int:
    """Where the one sentence that starts so stands."""
    (found,) = (index for index, sentence in enumerate(said) if sentence.startswith(start))
    return found


def side(bands: str) -> str:
    """A straight side of these bands."""
    return f"side: {{bands: [{bands}]}}\n"


def test_stakes_begin_at_the_mark_before_the_first_is_set(tmp_path: Path) -> None:
    """And what is left out of the usual count stands among the actions, before the thread is moved."""
    odd = "stakes: {material: stakes, per_end: 2, leave_out: 1}\n"
    said = told_of(tmp_path, SLATH + odd + side("{weave: randing, strands: plain, rounds: 5}"))
    order = [
        place(said, start)
        for start in (
            "Begin at the marked",
            "Set two at each",
            "Set only one at the last stick end,",
            "Move the thread",
        )
    ]
    assert order == sorted(order)


def test_a_band_is_ended_before_it_is_measured(tmp_path: Path) -> None:
    """Nobody measures a round that is not yet closed; and the string comes off last."""
    said = told_of(tmp_path, SLATH + STAKES + side("{weave: three-rod wale, strands: plain, rounds: 3}"))
    tucked = max(index for index, sentence in enumerate(said) if sentence.startswith("Push each back to the inside"))
    order = [
        place(said, "Work three whole rounds"),
        tucked,
        place(said, "The side then measures"),
        place(said, "Untie the string"),
    ]
    assert order == sorted(order)


def test_stakes_are_pressed_outwards_inwards_and_held_upright(tmp_path: Path) -> None:
    """Only where the side changes its course; a straight one leans as it began."""
    bands = (
        "{weave: randing, strands: plain, rounds: 9}, "
        "{weave: randing, strands: plain, rounds: 20, ends_at: {diameter: 8 in}}, "
        "{weave: randing, strands: plain, rounds: 9, ends_at: {diameter: 8 in}}, "
        "{weave: randing, strands: plain, rounds: 20, ends_at: {diameter: 6 in}}"
    )
    odd = "stakes: {material: stakes, per_end: 2, leave_out: 1}\n"
    said = told_of(tmp_path, SLATH + odd + side(bands))
    order = [
        place(said, start)
        for start in ("Press the stakes outwards", "Keep the stakes upright as", "Press the stakes inwards")
    ]
    assert order == sorted(order)
    straight = told_of(
        tmp_path,
        SLATH + odd + side("{weave: randing, strands: plain, rounds: 9}, {weave: randing, strands: rust, rounds: 9}"),
    )
    assert not any(sentence.startswith("Press the stakes") for sentence in straight)


def test_a_round_is_told_where_it_could_be_miscounted(tmp_path: Path) -> None:
    """A round of chasing is both strands once round (two rows); rounds in a spiral are counted past the mark."""
    chased = told_of(tmp_path, SLATH + STAKES + side("{weave: chasing, strands: [plain, rust], rounds: 8}"))
    assert "Count a round when both have been once round: it lies two rows high." in chased
    assert any(
        sentence.endswith("Count one each time you have come past stake 1 again, and tick it off.")
        for sentence in chased
    )
    stepped = told_of(
        tmp_path, SLATH + STAKES + side("{weave: three-rod wale, strands: plain, rounds: 8, step_up: yes}")
    )
    assert not any("come past" in sentence for sentence in stepped)


@pytest.mark.parametrize(
    ("stakes", "change", "where"),
    [
        ("", "add_stakes: {count: 5, beside: every other, material: stakes}", "beside stakes 4, 7, 10, 13 and 16,"),
        ("", "add_stakes: {beside: every other, material: stakes}", "beside stakes 2, 4, 6, 8, 10, 12, 14 and 16,"),
        ("", "add_stakes: {beside: every, material: stakes}", "beside each stake,"),
        ("", "add_stakes: {beside: listed, stakes: [9, 2, 3, 4, 5], material: stakes}", "beside stakes 2 to 5 and 9,"),
        ("", "drop_stakes: {beside: every other}", "Cut away stakes 2, 4, 6, 8, 10, 12, 14 and 16,"),
    ],
)  # fmt: skip
def test_changed_stakes_are_named_as_they_are_spread(stakes: str, change: str, where: str, tmp_path: Path) -> None:
    """The words name the very stakes the construction takes, and have them numbered anew."""
    stakes = stakes or "stakes: {material: stakes, per_end: 1}\n"
    bands = (
        f"{{weave: pairing, strands: plain, rounds: 3}}, {{{change}}}, {{weave: pairing, strands: plain, rounds: 3}}"
    )
    said = told_of(tmp_path, SLATH + stakes + side(bands))
    assert sum(where in sentence for sentence in said) == 1
    assert "From here on number them anew, from the one with the thread to the right." in said


def test_a_new_set_of_rods_is_told_where_one_does_not_reach(tmp_path: Path) -> None:
    """French randing in short strands needs more sets than one; in long strands nothing is said of a second."""
    short = told_of(
        tmp_path, SLATH + STAKES + side("{weave: French randing, strands: plain, rounds: 20, working_length: 15 in}")
    )
    (told,) = (sentence for sentence in short if sentence.startswith("Begin a new set"))
    assert told.endswith("sets in all.")
    assert sum(sentence.startswith("When the strands are used up, after about") for sentence in short) == 1
    long = told_of(
        tmp_path, SLATH + STAKES + side("{weave: French randing, strands: plain, rounds: 4, working_length: 15 ft}")
    )
    assert not any("new set" in sentence for sentence in long)


def test_sticks_in_fours_are_laid_and_woven_in_fours(tmp_path: Path) -> None:
    """A centre of fours is two layers of two groups, woven over as it lies: nothing is parted before the twos."""
    base = (
        "base: {kind: round slath, diameter: 6 in, pierced: 8, threaded: 8, centre: crossed, laid_together: 4, material: sticks, "
        "become_stakes: yes, weaving: [{weave: pairing, strands: plain, rounds: 3, worked: in fours}, "
        "{weave: pairing, strands: plain, rounds: 3, worked: in twos}, {weave: pairing, strands: plain, to: edge}]}\n"
    )
    said = told_of(tmp_path, base + "border: {kind: open, past: 2}\n")
    assert "Lay eight sticks side by side on the table, in two groups of four." in said
    assert "Take each group of four as one, as it lies in the cross." in said
    assert not any("group of eight" in sentence for sentence in said)
    assert "Part each group of four into two and two, as you come to them." in said


def test_stick_ends_are_not_counted_as_sticks(tmp_path: Path) -> None:
    """Eight sticks have sixteen ends; the count before a band on single ends says ends."""
    said = told_of(tmp_path, SLATH + STAKES + side("{weave: pairing, strands: plain, rounds: 3}"))
    assert "16 stick ends and two strands." in said
    assert not any(sentence.startswith("16 sticks") for sentence in said)


def test_what_is_woven_with_is_cut_as_it_is_needed_and_a_bow_bent_first(tmp_path: Path) -> None:
    """Strands come off the coil in lengths that can be handled; the handle dries in its shape before it is set in."""
    bow = "handle: {kind: bow, material: sticks, rise: 6 in}\n"
    said = told_of(
        tmp_path,
        SLATH + STAKES + side("{weave: pairing, strands: plain, rounds: 20}") + "border: {kind: open, past: 2}\n" + bow,
    )
    assert place(said, "Leave the rest uncut: cut strands for weaving from it") < place(
        said, "Soak and bend the handle a day before"
    )
    plain = told_of(tmp_path, SLATH + STAKES + side("{weave: pairing, strands: plain, rounds: 20}"))
    assert not any("bend the handle" in sentence for sentence in plain)


@pytest.mark.parametrize(
    ("moves", "told", "pairs"),
    [
        ("[behind 1, before 2, behind 1, out]", "behind stake 5, and out to the front.", True),
        ("[behind 1, before 2, behind 1]", "behind stake 5; there its end rests.", False),
        ("[behind 1, before 2, behind 1, in]", "behind stake 5, and its end stays inside.", False),
    ],
)
def test_a_plain_border_ends_its_stakes_where_the_pattern_does(
    moves: str, told: str, pairs: bool, tmp_path: Path
) -> None:
    """Only ends that come out lie as pairs; others are finished where they go, as the last ones are told to be."""
    border = f"border: {{passes: [{{moves: {moves}, laid_first: 3}}]}}\n"
    said = told_of(tmp_path, SLATH + STAKES + side("{weave: pairing, strands: plain, rounds: 3}") + border)
    (first,) = (sentence for sentence in said if sentence.startswith("Take the end of stake 1, the one furthest"))
    assert first.endswith(told)
    assert any("pairs lie outside" in sentence for sentence in said) == pairs
    ends = {
        sentence.split(". On its way")[0].rpartition("behind stake")[2].partition(" ")[2].partition(" ")[2]
        for sentence in said
        if sentence.startswith("The end of stake 3") and " goes " in sentence
    }
    assert ends
    assert all(end.rstrip(".") in told for end in ends)
