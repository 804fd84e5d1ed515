"""The shape of a side in words, against shapes whose widths are known beforehand."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.wording.small_baskets import told_of

BASE = """
base: {kind: round slath, diameter: 5 in, pierced: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2, leave_out: 1}
"""
FUNNEL = (
    "side: {height: 10 in, profile: [{height: 5 in, diameter: 3 in}, {height: 10 in, diameter: 9 in}], bands: BANDS}"
)
BELLY = "side: {height: 6 in, profile: belly, swell: 1 in, bands: BANDS}"
FLARE = "side: {height: 6 in, rim: {diameter: 7 in}, bands: BANDS}"
UPRIGHT = "side: {height: 6 in, bands: BANDS}"
BANDS = "[{weave: three-rod wale, strands: plain, rounds: 3}, {weave: randing, strands: plain, to: top}]"


@pytest.mark.parametrize(
    ("side", "lean"),
    [
        (
            FUNNEL,
            r"lean inwards from the first: the base is 5 in .* wide, at a height of 5( 1/16)? in .* it is 3( 1/16)? in .* rim is to be 9 in",
        ),
        (
            BELLY,
            r"lean outwards from the first: the base is 5 in .* wide, at a height of 3 in .* it is 7 in .* rim is to be 5 in",
        ),
        (
            FLARE,
            r"lean outwards from the first: the base is 5 in \(127 mm\) wide, and the rim is to be 7 in \(178 mm\)",
        ),
        (UPRIGHT, r"stand straight up: the rim is as wide as the base"),
    ],
)
def test_lean_is_told_by_the_way(tmp_path: Path, side: str, lean: str) -> None:
    """A funnel leans in to its neck before it flares; a belly leans out to its widest, half-way up, by the swell each side."""
    said = "\n".join(told_of(tmp_path, BASE + side.replace("BANDS", BANDS)))
    assert re.search(lean, said), said


def test_widths_are_told_only_where_the_side_bends(tmp_path: Path) -> None:
    """Between base and rim of a straight side the eye keeps the line; of any other the width stands after every band."""
    told = [
        sentence for sentence in told_of(tmp_path, BASE + FUNNEL.replace("BANDS", BANDS)) if "The side then" in sentence
    ]
    assert len(told) == 2
    assert all("across" in sentence for sentence in told)
    assert told[1].endswith("where it is 9 in (229 mm) across.")
    straight = [item for item in told_of(tmp_path, BASE + FLARE.replace("BANDS", BANDS)) if "The side then" in item]
    assert not any("across" in sentence for sentence in straight)
