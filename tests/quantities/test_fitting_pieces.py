"""Fittings in the cut list: the designer's own pieces at the designer's own length."""

from __future__ import annotations

from pathlib import Path

from tests.language.fragments import read_one

from slath.basket.construct import construct
from slath.quantities import quantities_of
from slath.units import Basis


def test_fittings_are_cut_and_bought(tmp_path: Path) -> None:
    """Two hinges of 9 in stand in the cut list as given, and their 18 in are bought with the material they are of."""
    text = "fittings: [{part: hinge, material: rust, count: 2, length: 9 in}]\nborder: {kind: rope}\nside: {bands: [{weave: pairing, strands: plain, rounds: 9}]}\n"
    found = quantities_of(construct(read_one(text, tmp_path)))
    (hinge,) = [piece for piece in found.pieces if piece.part == "hinge"]
    assert (hinge.count.value, hinge.count.basis, hinge.cut_mm.value, hinge.given_mm) == (2, Basis.GIVEN, 228.6, 228.6)
    (rust,) = [line for line in found.purchase if line.material == "rust"]
    assert rust.length_mm is not None
    assert round(rust.length_mm.value, 6) == 457.2
