"""Which measure stands first: as the pattern says, or as it is written."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.language.fragments import read


@pytest.mark.parametrize(
    ("fragment", "units"),
    [
        ("base: {kind: round slath, diameter: 15 cm, pierced: 4, threaded: 4, material: sticks}", "mm"),
        ("base: {kind: round slath, diameter: 6 in, pierced: 4, threaded: 4, material: sticks}", "inches"),
        ('base: {kind: round slath, diameter: 6½", pierced: 4, threaded: 4, material: sticks}', "inches"),
        ("measures: {wide: 150 mm + 2 cm, deep: 2 in}\nbase: {kind: round slath, diameter: wide, pierced: 4, material: sticks}", "mm"),
        ("about: 10 cm, 12 cm and 14 cm of snow.\nside: {height: 5 in, bands: [{weave: randing, strands: plain, to: top, note: 3 cm at least}]}", "inches"),
        ("stakes: {material: stakes, per_end: 2, depth: 50 mm}\nside: {height: 120 mm, bands: [{weave: pairing, strands: plain, to: top}]}", "mm"),
        ("units: inches\nbase: {kind: round slath, diameter: 150 mm, pierced: 4, threaded: 4, material: sticks}", "inches"),
        ("units: mm", "mm"),
    ],
)  # fmt: skip
def test_units_are_the_designers_own(fragment: str, units: str, tmp_path: Path) -> None:
    """Stocks named on a seller's scale and words of the designer's count for nothing; the key `units` comes first."""
    assert read(fragment, tmp_path).units == units
