"""A basket constructed from a few lines of a pattern, the rest filled in."""

from __future__ import annotations

from pathlib import Path

from slath.basket.construct import construct
from slath.basket.model import Basket
from slath.language import read_pattern

MATERIALS = """
slath: 1
title: Test basket
materials:
  sticks: {stock: us round reed 8}
  stakes: {stock: us round reed 5}
  plain: {stock: us round reed 4}
  rust: {stock: us round reed 4, dye: rust, letter: R, colour: "#cf8a62"}
  slate: {stock: us round reed 4, dye: slate, letter: S, colour: "#2c4452"}
"""


def constructed(folder: Path, text: str) -> Basket:
    """The only size of a pattern made of the usual materials and `text`."""
    file = folder / "basket.yaml"
    file.write_text(MATERIALS + text, encoding="utf-8")
    pattern = read_pattern(file)
    assert not [note for note in pattern.notes if note.stops], pattern.notes
    return construct(pattern.sizes[0])
