"""A handle whose length the designer fixed: what its feet and its rise come to, and what becomes of the rest."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.basket.written import constructed
from tests.wording.small_baskets import told_of

BASKET = """  bow: {stock: us round reed 8}
base: {kind: round slath, diameter: 8 in, pierced: 5, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 8 in, bands: [{weave: chasing, strands: plain, to: top}]}
border: {passes: [[behind 1, out], [before 2, in]]}
handle: {kind: KIND, material: bow, KEYS}
"""
INCH = 25.4


def written(kind: str, keys: str) -> str:
    """The basket with this handle."""
    return BASKET.replace("KIND", kind).replace("KEYS", keys)


@pytest.mark.parametrize(
    ("kind", "keys"),
    [
        ("side", "length: 12 in, span: 5 in"),
        ("bow", "length: 30 in, rise: 6 in"),
        ("side", "length: 16 in, span: 4 in, rise: 3 in"),
    ],
)
def test_what_the_bow_leaves_of_a_length_goes_down(kind: str, keys: str, tmp_path: Path) -> None:
    """Bow, two feet and trim are the length that was given, where nothing says how deep the feet go."""
    (handle,) = constructed(tmp_path, written(kind, keys)).handles
    assert handle.piece_mm.value == pytest.approx(float(keys.split()[1]) * INCH)
    assert INCH <= handle.foot_mm.value <= 8 * INCH


def test_what_is_over_is_cut_off_before_the_legs_are_pointed(tmp_path: Path) -> None:
    """Length, rise and feet all given, and the length more than they take: a leg marked from its end would stand too high."""
    said = told_of(tmp_path, written("bow", "length: 40 in, rise: 6 in, feet: 5 in"))
    (handle,) = constructed(tmp_path, written("bow", "length: 40 in, rise: 6 in, feet: 5 in")).handles
    cut = [
        place
        for place, each in enumerate(said)
        if each.startswith("Mark the middle of the piece, and cut each leg off")
    ]
    assert len(cut) == 1
    assert cut[0] < next(place for place, each in enumerate(said) if "long slype" in each)
    assert handle.piece_mm.value < 40 * INCH - 6
    assert not [each for each in told_of(tmp_path, written("bow", "rise: 6 in")) if "cut each leg off" in each]
