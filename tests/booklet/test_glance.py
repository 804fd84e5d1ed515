"""The table of sizes at a glance."""

from __future__ import annotations

from pathlib import Path

from tests.basket.written import constructed

from slath.booklet.content_tables import sizes_table
from slath.booklet.size_table import Measured
from slath.quantities.measuring import quantities_of
from slath.wording.speech import Voice, plain

BASKET = """
base: {kind: round slath, diameter: 6 in, pierced: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {bands: [{weave: pairing, strands: plain, rounds: 3}, CHANGE{weave: pairing, strands: plain, rounds: 3}]}
"""


def rows(folder: Path, change: str) -> dict[str, str]:
    """The rows of the table by their names."""
    basket = constructed(folder, BASKET.replace("CHANGE", change))
    table = sizes_table([Measured(basket, quantities_of(basket))], Voice(basket.pattern.materials))
    return {plain(row.cells[0]): plain(row.cells[1]) for row in table.rows}


def test_stakes_are_counted_where_they_stand(tmp_path: Path) -> None:
    """Where stakes are added part-way up, the base and the top are counted apart; else there is one count."""
    added = rows(tmp_path, "{add_stakes: {count: 8, beside: every other, material: stakes}}, ")
    assert (added["Stakes at the base"], added["Uprights at the top"]) == ("32", "40")
    same = rows(tmp_path, "")
    assert same["Stakes"] == "32"
    assert "Uprights at the top" not in same
