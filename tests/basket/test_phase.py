"""No row lies as the row below it, from band to band: every stake is passed on the other face (common practice, no source)."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest
from tests.basket.written import constructed

from slath.basket.model import WovenBand
from slath.basket.weave import face_at

PATTERN = """
base: {{kind: round slath, diameter: 7 in, pierced: 5, threaded: 4, material: sticks, weaving: [{{weave: pairing, strands: plain, to: edge}}]}}
stakes: {{material: stakes, per_end: 2, leave_out: 1}}
side: {{bands: [{bands}]}}
border: {{kind: closed}}
"""


def rows_of(band: WovenBand) -> list[list[str]]:
    """The face of every stake in every round, from the weave model and the stake the band begins on."""
    return [
        [
            face_at(band.spec.weave, 0, row * band.uprights + upright - (band.start - 1))
            for upright in range(band.uprights)
        ]
        for row in range(len(band.rounds))
    ]


@pytest.mark.parametrize("counts", [(3, 4), (4, 3), (5, 5, 5), (2, 1, 1, 3)])
def test_rows_alternate_from_band_to_band(counts: tuple[int, ...], tmp_path: Path) -> None:
    """After an odd number of rounds the next band begins one stake further on."""
    colours = ["plain", "rust"]
    bands = ", ".join(
        f"{{weave: randing, strands: {colours[place % 2]}, rounds: {rounds}}}" for place, rounds in enumerate(counts)
    )
    made = constructed(tmp_path, PATTERN.format(bands=bands))
    rows = [row for band in made.bands for row in rows_of(band)]
    assert len(rows) == sum(counts)
    for below, above in itertools.pairwise(rows):
        assert all(one != other for one, other in zip(below, above, strict=True))


@pytest.mark.parametrize("rows", [11, 12])
def test_round_over_a_doorway_takes_up_the_rows_beside_it(rows: int, tmp_path: Path) -> None:
    """Where rows turned back beside an opening, the first whole round lies otherwise than the last of them."""
    bands = (
        "{weave: randing, strands: plain, rounds: 5}, "
        f"{{weave: packing, strands: plain, rounds: {rows}, short_rows: {{over: 4 to 32, leaves_open: yes}}}}, "
        "{weave: randing, strands: plain, rounds: 4}"
    )
    made = constructed(tmp_path, PATTERN.format(bands=bands))
    first = rows_of(made.bands[2])[0]
    # The first short row goes before stake 4; each turns back and meets every stake on the other face.
    last = ["before" if (number - 4 + rows - 1) % 2 == 0 else "behind" for number in range(4, 33)]
    assert all(one != other for one, other in zip(last, first[3:32], strict=True))
