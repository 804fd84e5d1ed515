"""Weave names in UK and US words, and the strokes they stand for."""

from __future__ import annotations

import pytest

from slath.language.pattern import Stroke
from slath.language.weaves import UnknownWeaveError, find_weave


@pytest.mark.parametrize(
    ("name", "kind", "strokes", "rods", "as_one", "twined"),
    [
        # UK words; the strokes are common practice, no source.
        ("randing", "rand", [(1, 1)], 1, 1, False),
        ("plain rand", "rand", [(1, 1)], 1, 1, False),
        ("slewing", "slew", [(1, 1)], 1, 2, False),
        ("slewing with 3", "slew", [(1, 1)], 1, 3, False),
        ("slewing with three strands, before 2 behind 1", "slew", [(2, 1)], 1, 3, False),
        ("chasing", "chase", [(1, 1)], 2, 1, False),
        ("pairing", "pair", [(1, 1)], 2, 1, True),
        ("double pairing", "pair", [(1, 1)], 2, 2, True),
        ("three-rod wale", "wale", [(2, 1)], 3, 1, True),
        ("Four Rod Wale", "wale", [(3, 1)], 4, 1, True),
        ("6-rod wale", "wale", [(5, 1)], 6, 1, True),
        ("waling with 5", "wale", [(4, 1)], 5, 1, True),
        ("four-rod wale before 2 behind 2", "wale", [(2, 2)], 4, 1, True),
        ("French randing", "french rand", [(1, 1)], 1, 1, False),
        ("English randing", "french rand", [(1, 1)], 1, 1, False),
        ("fitching", "fitch", [(1, 1)], 2, 1, True),
        ("packing", "packing", [(1, 1)], 1, 1, False),
        # Words of US handbooks (White 1901, Gill 1916, Blanchard 1914).
        ("over and under", "rand", [(1, 1)], 1, 1, False),
        ("under and over", "rand", [(1, 1)], 1, 1, False),
        ("double weave", "slew", [(1, 1)], 1, 2, False),
        ("double over 2 under 1", "slew", [(2, 1)], 1, 2, False),
        ("twining", "pair", [(1, 1)], 2, 1, True),
        ("two weavers", "chase", [(1, 1)], 2, 1, False),
        ("triple twist", "wale", [(2, 1)], 3, 1, True),
        ("three-rod coil", "wale", [(2, 1)], 3, 1, True),
        # Strokes written out.
        ("before 2 behind 1", "rand", [(2, 1)], 1, 1, False),
        ("over 3 under 2", "rand", [(3, 2)], 1, 1, False),
        ("in front of 2, behind 2", "rand", [(2, 2)], 1, 1, False),
        ("before 2 behind 1, before 1 behind 2", "rand", [(2, 1), (1, 2)], 1, 1, False),
        ("over two, under one", "rand", [(2, 1)], 1, 1, False),
        ("behind 1 before 2", "rand", [(2, 1)], 1, 1, False),
        # Other ways makers say them; common practice, no source.
        ("in and out", "rand", [(1, 1)], 1, 1, False),
        ("over-and-under weaving", "rand", [(1, 1)], 1, 1, False),
        ("simple weave", "rand", [(1, 1)], 1, 1, False),
        ("rib randing", "rand", [(2, 1)], 1, 1, False),
        ("Japanese weave", "rand", [(2, 1)], 1, 1, False),
        ("two-rod slew", "slew", [(1, 1)], 1, 2, False),
        ("3-rod slewing", "slew", [(1, 1)], 1, 3, False),
        ("chase weave", "chase", [(1, 1)], 2, 1, False),
        ("chasing with two weavers", "chase", [(1, 1)], 2, 1, False),
        ("double chasing", "chase", [(1, 1)], 2, 2, False),
        ("paired weave", "pair", [(1, 1)], 2, 1, True),
    ],
)
def test_a_weave_is_known_by_name(
    name: str, kind: str, strokes: list[tuple[int, int]], rods: int, as_one: int, twined: bool
) -> None:
    """A weave's name gives its strokes, its rods, and the strands worked as one."""
    weave, turns = find_weave(name)
    assert (weave.kind, weave.rods, weave.as_one, weave.twined, turns) == (kind, rods, as_one, twined, "")
    assert weave.strokes == tuple(Stroke(before, behind) for before, behind in strokes)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("triple twist", "3-rod wale"),
        ("twine", "pairing"),
        ("over and under", "plain randing"),
        ("double randing", "slewing with 2"),
        ("over 2 under 1", "before 2 behind 1"),
        ("slewing with 2 over 2 under 1", "double over 2 under 1"),
    ],
)
def test_two_names_of_one_weave_are_one(one: str, other: str) -> None:
    """Two names of one weave give equal records, label and all, so that a gauge in one word serves the other."""
    assert find_weave(one) == find_weave(other)


@pytest.mark.parametrize("turns", ["arrow", "chain"])
def test_turns_are_told_apart(turns: str) -> None:
    """An arrow or a chain is its weave with a word for how its rounds turn."""
    for name in (f"three-rod {turns}", f"three-rod wale {turns}", f"3-rod {turns} wale"):
        weave, found = find_weave(name)
        assert (weave.label, found) == ("three-rod wale", turns)


@pytest.mark.parametrize(
    ("name", "remedy"),
    [
        ("three rod whale", "write three-rod wale"),
        ("pareing", "write pairing"),
        ("wale", "say its rods, three or more: three-rod wale"),
        ("two-rod wale", "say its rods, three or more: three-rod wale"),
        ("99-rod wale", "work with 1 to 12 rods"),
        ("before 0 behind 1", "let each stroke pass before and behind 1 to 12 stakes"),
        ("fitching with 3", "fitching takes no strokes and no number"),
        ("sideways", "write its strokes, such as before 2 behind 1"),
        ("reverse pairing", "write the weave by its name, and reversed: yes beside it"),
        ("three-rod wale with step-up", "write the wale by its rods, and step_up: yes beside it"),
        ("upset", "write three-rod wale, and name: upsett beside it"),
        ("open weave", "write open: and its height in place of weave"),
        ("twill weave", "write its strokes, such as before 2 behind 2"),
        ("chase slewing", "write double chasing"),
        ("chain wale", "say its rods: three-rod arrow, three-rod chain"),
        ("willow pattern", "write its strokes, such as before 2 behind 1"),
    ],
)
def test_an_unknown_weave_has_a_remedy(name: str, remedy: str) -> None:
    """A name that is no weave's is refused with what to write."""
    with pytest.raises(UnknownWeaveError) as caught:
        find_weave(name)
    assert caught.value.remedy == remedy
