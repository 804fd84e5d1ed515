"""How flat strands are made ready to lie in the weaving: as they are, folded or twisted."""

from __future__ import annotations

from slath.basket.model import WovenBand
from slath.basket.strand_lies import laid_of
from slath.messages import Message, message
from slath.wording.work import Work


def how_laid(work: Work, band: WovenBand) -> Message | None:
    """What the hand does to flat strands of a band before it weaves with them; none where they are laid as they are."""
    materials = [work.basket.pattern.materials[key] for rod in band.materials for key in rod]
    ways = {laid_of(material, band.spec.laid) for material in materials if material.width_mm > material.thickness_mm}
    if ways == {"folded"}:
        return message("strokes.fold-lengthwise-edge-to-edge", strands=len(materials))
    if ways == {"twisted"}:
        return message("strokes.twist-as-you-weave-always", strands=len(materials))
    return None
