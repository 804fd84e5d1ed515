"""How flat strands are made ready to lie in the weaving: as they are, folded or twisted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.basket.strand_lies import laid_of

if TYPE_CHECKING:
    from slath.basket.model import WovenBand
    from slath.wording.work import Work


def how_laid(work: Work, band: WovenBand) -> str:
    """What the hand does to flat strands of a band before it weaves with them; empty where they are laid as they are."""
    materials = [work.basket.pattern.materials[key] for rod in band.materials for key in rod]
    ways = {laid_of(material, band.spec.laid) for material in materials if material.width_mm > material.thickness_mm}
    one = "the [strand]" if len(materials) == 1 else "each [strand]"
    if ways == {"folded"}:
        return (
            f"Fold {one} lengthwise, edge to edge, as you come to it, and weave with the fold always to the same side."
        )
    if ways == {"twisted"}:
        return f"Twist {one} as you weave, always the same way round, so that it lies like a cord."
    return ""
