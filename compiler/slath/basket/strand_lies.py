"""How a flat strand lies in the weaving: flat, folded lengthwise or twisted round."""

from __future__ import annotations

import math

from slath.language.pattern import Laid, Material

_LOOSE = 1.1  # a strand twisted by hand holds some air; estimated


def laid_of(material: Material, laid: Laid | None) -> Laid:
    """How strands of a material are laid: as the band says, raffia twisted, all others as they are."""
    return laid or ("twisted" if material.stock.kind == "raffia" else "flat")


def lying(material: Material, laid: Laid | None) -> tuple[float, float]:
    """Width along the uprights and thickness off them, mm, of a strand as it lies.

    Folded lengthwise it is half as wide and twice as thick; twisted it is round, of the same section.
    """
    width, thickness = material.width_mm, material.thickness_mm
    way = laid_of(material, laid)
    if way == "folded":
        return max(width / 2, thickness), min(2 * thickness, width)
    if way == "twisted" and width > thickness:
        across = min(_LOOSE * math.sqrt(4 * width * thickness / math.pi), width)
        return across, across
    return width, thickness
