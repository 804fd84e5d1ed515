"""Small baskets told sentence by sentence, shared by the tests of the wording."""

from __future__ import annotations

from pathlib import Path

from tests.basket.written import constructed
from tests.wording.told_patterns import sentences

from slath.language import read_pattern
from slath.quantities.measuring import quantities_of
from slath.trade.words import UK
from slath.wording.telling import tell


def told_of(folder: Path, text: str) -> list[str]:
    """Everything told of the basket made of the usual materials and `text`."""
    basket = constructed(folder, text)
    pattern = read_pattern(folder / "basket.yaml")
    return sentences(tell(pattern, basket, quantities_of(basket), vocabulary=UK))
