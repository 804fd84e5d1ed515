"""What a band asks beside its plain stroke: a shifted course, a figure, strands laid the other way about."""

from __future__ import annotations

from pathlib import Path

from tests.wording.small_baskets import told_of

SLATH = "base: {kind: round slath, diameter: 6 in, pierced: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}\nstakes: {material: stakes, per_end: 2}\n"


def test_a_shifted_course_is_told(tmp_path: Path) -> None:
    """One strand holds on an even count only if it passes one stake more once a round; without the words it would not."""
    side = "side: {bands: [{weave: slewing with 2, strands: plain, rounds: 9, shift: 1}, {weave: pairing, strands: plain, rounds: 2}]}\n"
    said = told_of(tmp_path, SLATH + side)
    assert sum(sentence.startswith("At the end of every round pass one stake more") for sentence in said) == 1


def test_a_figure_is_told_place_by_place(tmp_path: Path) -> None:
    """The rows and stakes of a figure and its strokes stand in the step."""
    side = """
side:
  bands:
    - weave: chasing
      strands: plain
      rounds: 9
      figure: [{rows: 1 to 4, stakes: 5 to 9, weave: before 3 behind 1}, {rows: 5, stakes: 7, weave: before 2 behind 2}]
"""
    said = told_of(tmp_path, SLATH + side)
    assert "In rounds 1 to 4, at stakes 5 to 9, go in front of three stakes and behind one instead." in said
    assert "In round 5, at stake 7, go in front of two stakes and behind two instead." in said


def test_pairing_turned_on_an_oval_base_is_told(tmp_path: Path) -> None:
    """An oval base paired half one way and half the other needs the word where the turn begins."""
    oval = """
base:
  kind: oval slath
  length: 9 in
  width: 6 in
  material: sticks
  lengthwise: {sticks: 3}
  crosswise: {sticks: 5}
  weaving: [{weave: pairing, strands: plain, rounds: 4}, {weave: pairing, strands: plain, to: edge, reversed: yes}]
"""
    said = told_of(tmp_path, oval)
    assert any("From here on carry each under the other, where it went over." in sentence for sentence in said)


def test_a_frame_is_woven_in_rows(tmp_path: Path) -> None:
    """Rows turn back at the outer sticks; nine lines of cross sticks, two lying double, stand 9 in less a stick over eight."""
    frame = "base: {kind: frame, length: 9 in, width: 6 in, material: sticks, lengthwise: {sticks: 9}, crosswise: {sticks: 9}, doubled_ends: yes, weaving: [{weave: randing, strands: plain, rounds: 60}]}\n"
    said = told_of(tmp_path, frame)
    assert any("Mark the places of the crosswise sticks between these, 7 of them" in sentence for sentence in said)
    assert any("At the end of each row turn round the outer stick" in sentence for sentence in said)
    assert not any("clockwise as you look at the face" in sentence for sentence in said)


def test_strands_worked_as_one_are_taken_together(tmp_path: Path) -> None:
    """Double pairing is two pairs of strands, four in all; folding one strand would give half of it."""
    side = "side: {bands: [{weave: double pairing, strands: plain, rounds: 4}, {weave: double chasing, strands: plain, rounds: 4}]}\n"
    said = told_of(tmp_path, SLATH + side)
    assert any(sentence.endswith("and lay them two together, to work as one.") for sentence in said)
    assert "Take the pair of strands furthest to the left." in said
    assert any("the second pair of strands" in sentence for sentence in said)
    assert sum("32 stakes and four strands" in sentence for sentence in said) == 2
