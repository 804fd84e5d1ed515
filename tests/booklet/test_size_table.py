"""Measures in cells of a table: taken apart and told again, nothing of what is printed is lost."""

from __future__ import annotations

import pytest

from slath.booklet.reading import plain
from slath.booklet.size_table import measures_in_one, pair_of, shared_unit

PRINTED = [
    "9 1/2 in (241 mm)",
    "12 × 9 in (305 × 229 mm)",
    "200 mm (7 3/4 in) across",
    "2 rods, 8.5 mm (5/16 in) at the butt",
    "26 Ruten, 5,5 mm (7/32 Zoll) am Stammende",
    "16 ft (4.9 m), 2 rods",
    "1 × 1 lb coil",
    "34",
    "9 1/2 in",
    "not known",
]


@pytest.mark.parametrize("printed", PRINTED)
def test_a_cell_loses_nothing(printed: str) -> None:
    """A cell says what was printed, word for word and in its order, less the brackets in whose place type is smaller."""
    told = plain(pair_of(printed).told()).replace("\u00a0", " ").replace("\u2044", "/")
    assert told == printed.replace("(", "").replace(")", "")


def test_words_round_a_measure_are_no_unit() -> None:
    """Cells share their units over the column only where they are measures alone."""
    assert shared_unit([["9 in (229 mm)", "11 in (279 mm)"]]) == "in, mm"
    assert shared_unit([["9 in (229 mm) across", "11 in (279 mm) across"]]) == ""
    assert shared_unit([["2 rods, 8.5 mm (5/16 in)"]]) == ""


def test_several_sizes_say_each_unit_once() -> None:
    """Sizes told in one line say each unit, and what follows, once; what differs beyond its numbers is told whole."""
    across = ["9 in (229 mm) across", "11 in (279 mm) across"]
    assert measures_in_one(across) == "9 or 11 in (229 or 279 mm) across"
    assert measures_in_one([across[0], "11 × 9 in (279 × 229 mm)"]) == f"{across[0]} or 11 × 9 in (279 × 229 mm)"
