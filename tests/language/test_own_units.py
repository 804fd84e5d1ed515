"""Which measure stands first: as the pattern says, or as it is written."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest
from tests.language.fragments import read

from slath.language.document import read_document
from slath.language.own_units import own_units
from slath.language.source import read_source

SHIPPED = [file for file in sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml")) if "." not in file.stem]


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


@pytest.mark.parametrize("file", SHIPPED, ids=lambda file: file.stem)
def test_units_are_the_same_whatever_the_order_of_keys(file: Path) -> None:
    """Lengths are counted, and where they stand counts for nothing."""
    data = read_document(read_source(file)).data
    chances = random.Random(1)  # noqa: S311 - the same order every time
    assert {own_units(_shuffled(data, chances)) for _ in range(20)} == {own_units(data)}


def _shuffled(value: Any, chances: random.Random) -> Any:
    if isinstance(value, dict):
        keys = list(value)
        chances.shuffle(keys)
        return {key: _shuffled(value[key], chances) for key in keys}
    return [_shuffled(item, chances) for item in value] if isinstance(value, list) else value
