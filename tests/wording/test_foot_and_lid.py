"""Feet and lids in words: where the ends of a foot come from, and what a lid is held against."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.basket.written import constructed
from tests.wording.small_baskets import told_of

from slath.basket.border_ends import foot_ends

POT = """
base: {kind: round slath, diameter: 6 in, pierced: 4, material: sticks, weaving: {weave: pairing, strands: plain, to: edge}}
stakes: {material: stakes, per_end: 2}
side: {height: 3 in, bands: {weave: pairing, strands: plain, to: top}}
"""
FOOT = "foot: {kind: trac, moves: [behind 1, before 1, in]}\n"


@pytest.mark.parametrize(
    ("border", "ends"),
    [
        ("border: {kind: open, past: 2}\n", "of its own"),
        ("border: {passes: [{moves: [behind 2, down], depth: 4 in}]}\n", "after the border"),
        ("border: {kind: plain, rods: 3}\n", "of its own"),
    ],
)
def test_ends_that_only_hold_make_no_foot(tmp_path: Path, border: str, ends: str) -> None:
    """An end down an inch and a half in a side of three does not stand out below the base; one led down as far does."""
    assert foot_ends(constructed(tmp_path, POT + border + FOOT)) == ends


@pytest.mark.parametrize(
    ("fit", "words"), [("resting", "past the edge of the opening everywhere"), ("over", "stand clear by")]
)
def test_a_lid_is_held_against_what_it_meets(tmp_path: Path, fit: str, words: str) -> None:
    """A lid that rests overlaps the opening; only one that goes over or inside stands clear of the rim."""
    lid = f"border: {{kind: plain, rods: 3}}\nlid: {{base: {{kind: round slath, diameter: 8 in, pierced: 4, material: sticks, weaving: {{weave: pairing, strands: plain, to: edge}}}}, fit: {fit}}}\n"
    turned = [sentence for sentence in told_of(tmp_path, POT + lid) if sentence.startswith("Turn it round")]
    assert len(turned) == 1
    assert words in turned[0]
