"""What makers write of their own accord: one entry without its list, and other words of the trade."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.language.fragments import notes_of, read_one

from slath.language.pattern import Border, Frame, Move

WALE = "{weave: three-rod wale, strands: plain, rounds: 2}"


@pytest.mark.parametrize(
    ("one", "list_of_it"),
    [
        (f"side: {{bands: {WALE}}}", f"side: {{bands: [{WALE}]}}"),
        ("handles: {kind: side, material: bow, count: 2}", "handles: [{kind: side, material: bow, count: 2}]"),
        (
            "handle: {kind: bow, material: bow, at: 5, wraps: {kind: lapping, strands: plain}}",
            "handle: {kind: bow, material: bow, at: [5], wraps: [{kind: lapping, strands: plain}]}",
        ),
        (
            "fittings: {part: loop, material: plain, length: 6 in}",
            "fittings: [{part: loop, material: plain, length: 6 in}]",
        ),
        (
            "gauge: {weave: pairing, strand: plain, rounds: 9, over: 2 in}",
            "gauge: [{weave: pairing, strand: plain, rounds: 9, over: 2 in}]",
        ),
        ("bye_stakes: {material: stakes, beside: 4}", "bye_stakes: [{material: stakes, beside: [4]}]"),
        (
            f"base: {{kind: round slath, diameter: 6 in, pierced: 4, material: sticks, weaving: {WALE}}}",
            f"base: {{kind: round slath, diameter: 6 in, pierced: 4, material: sticks, weaving: [{WALE}]}}",
        ),
    ],
)
def test_one_entry_may_stand_without_its_list(tmp_path: Path, one: str, list_of_it: str) -> None:
    """One entry says the same as a list of one, places in the file apart."""

    def record(fragment: str) -> str:
        told = repr(read_one(fragment, tmp_path))
        return re.sub(r"'(\w+)'(?:, 0|,)(?=[,)])", r"'\1'", told)

    assert record(one) == record(list_of_it)


def test_one_pass_may_stand_without_brackets_of_its_own(tmp_path: Path) -> None:
    """A path with one end, last, is one pass; moves without an end, or each with its own, are as many passes."""

    def passes(written: str) -> list[tuple[Move, ...]]:
        border = read_one(f"border: {{passes: {written}}}", tmp_path).border
        assert isinstance(border, Border)
        return [each.moves for each in border.passes]

    one = (Move("behind", 1), Move("before", 2), Move("in"))
    assert passes("[behind 1, before 2, in]") == passes("[[behind 1, before 2, in]]") == [one]
    assert passes('["behind 1, out", "before 2, in"]') == passes("[[behind 1, out], [before 2, in]]")
    assert len(passes('["before 2, behind 1", "before 1"]')) == 2


def test_a_closed_border_is_its_two_rows(tmp_path: Path) -> None:
    """Behind one and out, before two and in, by its name (Gill 1916, closed borders); before so many as it says."""

    def moves(written: str) -> list[tuple[Move, ...]]:
        border = read_one(f"border: {written}", tmp_path).border
        assert isinstance(border, Border)
        return [each.moves for each in border.passes]

    assert moves("{kind: closed}") == moves("{passes: [[behind 1, out], [before 2, in]]}")
    assert moves("{kind: closed, past: 3}") == moves("{passes: [[behind 1, out], [before 3, in]]}")


@pytest.mark.parametrize(
    ("fragment", "remedy"),
    [
        ("border: {kind: heavy}", "write kind: plain and rods: 4"),
        ("border: {kind: simple}", "write kind: closed, or its rows under passes, such as [[behind 1, out], [before 2, in]]"),
        ("border: {kind: Looped}", "write kind: scalloped, and height: how high each loop stands"),
        ("border: {kind: opn, past: 1}", "write open"),
        ("handle: {kind: hoop, material: bow}", "write kind: bow"),
        ("base: {kind: square, length: 6 in, width: 6 in}", "write kind: frame"),
        ("side: {profile: funnel, bands: [" + WALE + "]}", "write a list of outlines: [{height: 5 in, diameter: 3 in}, {height: 8 in, diameter: 7 in}]"),
        ("stakes: {material: stakes, worked: in pairs}", "write in twos"),
        ("stakes: {material: stakes, add: -1}", "write leave_out for stakes fewer"),
        ("side: {profile: belly, bands: [" + WALE + "]}", "add swell: how far it stands out half-way up, each side"),
        ("side: {profile: waist, bands: [" + WALE + "]}", "add swell: how far it draws in half-way up, each side"),
    ],
)  # fmt: skip
def test_other_words_are_told_by_ours(tmp_path: Path, fragment: str, remedy: str) -> None:
    """One note, and in it what to write; nothing that only follows from the word."""
    (note,) = notes_of(fragment, tmp_path)
    assert note.remedies == (remedy,)


def test_a_roped_handle_needs_its_rope(tmp_path: Path) -> None:
    """A bow that is to be wound is not left bare for want of saying with what."""
    (note,) = notes_of("handle: {kind: roped, material: bow, rise: 6 in}", tmp_path)
    assert (note.code, note.remedies[0]) == ("missing-key", "add wraps: {kind: rope, strands: …}")
    assert not notes_of(
        "handle: {kind: roped, material: bow, rise: 6 in, wraps: {kind: rope, strands: plain}}", tmp_path
    )


def test_a_frame_may_have_long_sticks_alone(tmp_path: Path) -> None:
    """A base worked in a screw block has lengthwise sticks and weaving, and no cross sticks to double."""
    frame = "base: {kind: frame, length: 12 in, width: 9 in, material: sticks, lengthwise: {sticks: 11}EXTRA}"
    base = read_one(frame.replace("EXTRA", ""), tmp_path).base
    assert isinstance(base, Frame)
    assert (base.lengthwise, base.crosswise) == (11, 0)
    (note,) = notes_of(frame.replace("EXTRA", ", doubled_ends: yes"), tmp_path)
    assert (note.code, note.remedies[0]) == ("key-unfit", "give the frame crosswise sticks")
