"""Stakes drawn together over the weaving and bound: how high they rise, how thick they lie, what binds them."""

from __future__ import annotations

import math

from slath.basket.model import Basket
from slath.language.pattern import Gathered

_PACKED = 0.75  # of a bundle's section that is rods: hand-tied, looser than the closest packing of 0.91; estimated


def gathered_of(basket: Basket) -> Gathered | None:
    """How the stakes of a basket are drawn together; None where they are not."""
    return basket.pattern.side.gathered if basket.pattern.side is not None else None


def bundle_mm(basket: Basket) -> float:
    """Across the bundle where it is bound."""
    materials = basket.pattern.materials
    section = math.fsum(
        materials[stake.material].width_mm * materials[stake.material].thickness_mm for stake in basket.stakes
    )
    return math.sqrt(section / _PACKED)


def inwards_mm(basket: Basket) -> float:
    """How far in a stake has to come from the rim to the bundle, the furthest."""
    return max((basket.rim.outline.length_mm - bundle_mm(basket)) / 2, 0.0)


def rise_mm(basket: Basket, gathered: Gathered) -> float | None:
    """How high over the weaving they are bound; None where they do not reach the middle."""
    inwards = inwards_mm(basket)
    return math.sqrt(gathered.above_mm**2 - inwards**2) if gathered.above_mm > inwards else None
