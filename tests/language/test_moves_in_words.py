"""Borders as handbooks word them, and keys that stand in the wrong part of a file."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.basket.written import constructed

from slath.language import read_pattern

BASE = """
base: {kind: round slath, diameter: 6 in, pierced: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 3 in, bands: [{weave: pairing, strands: plain, to: top}]}
"""


@pytest.mark.parametrize(
    "words",
    [
        "behind 1 before 2 in",
        "behind 1, before 2 and in",
        '"back of one, in front of the next two, and to the inside"',
        '"in back of the next, in front of 2 then inside"',
        "[[behind 1, before 2, in]]",
    ],
)
def test_a_pass_is_read_as_it_is_read_out(words: str, tmp_path: Path) -> None:
    """Commas are for the eye, and back of and in front of are behind and before (White 1901 and Gill 1916 word them so)."""
    basket = constructed(tmp_path, BASE + f"border:\n  passes: {words}\n")
    assert basket.border is not None
    (only,) = basket.border.spec.passes
    assert [(move.way, move.count) for move in only.moves] == [("behind", 1), ("before", 2), ("in", 0)]


def test_rows_without_commas_end_where_they_end(tmp_path: Path) -> None:
    """Each end begins a new row."""
    basket = constructed(tmp_path, BASE + "border:\n  passes: behind 1 out, over 2 in, over 1 down\n")
    assert basket.border is not None
    assert [len(one.moves) for one in basket.border.spec.passes] == [2, 2, 2]


def test_a_plait_is_of_three_single_stakes_unless_said(tmp_path: Path) -> None:
    """Published plaits take stakes singly and pass over one set (Gill 1916, models 33 to 70)."""
    basket = constructed(tmp_path, BASE + "border: {kind: plait}\n")
    assert basket.border is not None
    assert basket.border.spec.plait is not None
    assert (basket.border.spec.plait.group, basket.border.spec.plait.over) == (1, 1)


@pytest.mark.parametrize(
    ("line", "remedy"),
    [
        ("border: {passes: behind 1, before 2 and in}", "put the words in quotes: in braces a comma ends a value"),
        ("border: {passes: [[behind 1, out]], measured: inside}", "write measured beside title, at the left edge"),
        ("border: {passes: [[behind 1, out]], per_end: 2}", "write per_end under stakes"),
    ],
)
def test_a_key_in_the_wrong_part_is_told_where_it_belongs(line: str, remedy: str, tmp_path: Path) -> None:
    """What is a key elsewhere is not only called unknown; and a comma in braces is told for what it is."""
    file = tmp_path / "basket.yaml"
    materials = "materials: {sticks: {stock: us round reed 8}, stakes: {stock: us round reed 5}, plain: {stock: us round reed 3}}"
    file.write_text(f"slath: 1\ntitle: Trial\n{materials}\n{BASE}{line}\n", encoding="utf-8")
    notes = [note for note in read_pattern(file).notes if note.code == "unknown-key"]
    assert remedy in notes[0].remedies
