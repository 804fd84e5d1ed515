"""Baskets of handbooks and class handouts that were written from memory: constructions the printed eighty do not have.

Nothing of them can be looked up, so that only what follows from the recipe itself is held: counts from the sticks, pieces as
they are cut, lengths that cover what they are made up of, and that what is peculiar to each is told in its steps.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from tests.wording.told_patterns import sentences

from slath.pipeline import Compilation, compile_pattern
from slath.trade.words import UK
from slath.wording.telling import tell

HERE = Path(__file__).resolve().parent
INCH = 25.4
FACTS: Mapping[str, Mapping[str, Any]] = yaml.safe_load((HERE / "memory.yaml").read_text(encoding="utf-8"))
SHORT = {"piece-too-short", "piece-may-not-reach", "piece-leaves-no-hold", "foot-too-short", "stock-too-short"}


@cache
def compiled(name: str) -> Compilation:
    """A remembered basket compiled."""
    return compile_pattern(HERE / "memory" / f"{name}.yaml")


def test_every_remembered_basket_has_its_facts() -> None:
    """No file without facts, and none left out."""
    assert {file.stem for file in (HERE / "memory").glob("*.yaml")} == set(FACTS)


@pytest.mark.parametrize("name", FACTS)
def test_it_is_said_fully_and_exactly(name: str) -> None:
    """Nothing stops it or falls short; ends, stakes and pieces come out as the recipe has them."""
    (size,), facts = compiled(name).sizes, FACTS[name]
    assert not [note for note in compiled(name).notes if note.stops or note.code in SHORT]
    assert len(size.basket.base.ends) == facts["ends"]
    assert len(size.basket.standing) == facts["stakes"]
    found = {piece.part: piece for piece in size.quantities.pieces}
    for part, (count, *lengths) in facts["pieces"].items():
        assert found[part].count.value == count, part
        for length in lengths:
            assert found[part].cut_mm.value == pytest.approx(length * INCH), part


@pytest.mark.parametrize("name", FACTS)
def test_what_is_peculiar_to_it_is_told(name: str) -> None:
    """Each construction has its step."""
    pattern, (size,) = compiled(name).pattern, compiled(name).sizes
    said = " ".join(sentences(tell(pattern, size.basket, size.quantities, vocabulary=UK)))
    for words in FACTS[name]["told"]:
        assert words in said, words
