"""The letters strands go by in every figure: those of their materials, as steps and lists have them."""

from __future__ import annotations

from collections import Counter

from slath.basket.model import WovenBand
from slath.drawing.paint.wardrobe import Wardrobe

_MOST_RODS = 6  # drawn and lettered of a weave with many
_FRENCH_RODS = 4  # of a weave with a rod at every stake


def shown_rods(band: WovenBand) -> int:
    """Rods drawn where the start is shown: all of them, or the first few."""
    return min(len(band.materials), _FRENCH_RODS if band.spec.weave.kind == "french rand" else _MOST_RODS)


def rod_letters(band: WovenBand, clothes: Wardrobe) -> list[str]:
    """A letter for each rod shown: its material's; where several have the same, numbered from the first that starts.

    A rod of several strands bears the letter of each material in it.
    """
    own = [
        "".join(dict.fromkeys(clothes.weaver(key).letter for key in strands))
        for strands in band.materials[: shown_rods(band)]
    ]
    many, met = Counter(own), Counter[str]()
    letters = []
    for letter in own:
        met[letter] += 1
        letters.append(f"{letter}{met[letter]}" if many[letter] > 1 else letter)
    return letters
