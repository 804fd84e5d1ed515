"""What the strands of a band go round: one working upright of the base, the side or a lid."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from slath.basket.rods import part_of, stick_of
from slath.quantities.crossing import UprightSection
from slath.units import Amount, Basis, worked

if TYPE_CHECKING:
    from collections.abc import Sequence

    from slath.basket.model import Basket, ConstructedBase, Stake, WovenBand
    from slath.language.pattern import Material, SizedPattern


@dataclass(frozen=True, slots=True)
class Upright:
    """The mean section of one working upright of a band, and the amounts it comes from."""

    section: UprightSection
    amounts: tuple[Amount, ...] = ()


def upright_of(band: WovenBand, basket: Basket) -> Upright:
    """The upright `band` of this basket, or of its lid, is worked on: stick ends on a base, stakes on a side."""
    if any(found is band for found in basket.base.bands):
        return upright_from(_of_sticks(basket.base, basket.pattern), band.group_sizes, "stick")
    lid = basket.lid
    if lid is not None and any(found is band for found in (*lid.base.bands, *lid.bands)):
        return upright_of(band, lid.basket)
    stakes = [_stake_of(stake, band, basket.pattern) for stake in basket.stakes]
    return upright_from(stakes, band.group_sizes, "stake")


def upright_from(materials: Sequence[Material], group_sizes: Sequence[int], word: str) -> Upright:
    """The upright made of `group_sizes` sticks or stakes of `materials`, one material for each.

    Those worked together lie side by side: their widths add, their thickness does not.
    """
    if not materials:
        return Upright(UprightSection(0.0, 0.0))
    thickness = math.fsum(material.thickness_mm for material in materials) / len(materials)
    width = math.fsum(material.width_mm for material in materials) / len(materials)
    together = sum(group_sizes) / len(group_sizes) if group_sizes else 1.0
    poorest = max(materials, key=lambda material: material.stock.basis).stock
    amounts = [Amount(f"{word} thickness", thickness, "mm", poorest.basis, poorest.source)]
    if together > 1.0:
        amounts.append(Amount(f"mean number of {word}s worked as one", together, "ratio", Basis.COUNTED))
    if together * width > thickness:
        formula = f"{word} width × {word}s worked as one"
        amounts.append(worked("upright width", together * width, "mm", formula, *amounts))
    return Upright(UprightSection(together * width, thickness), tuple(amounts))


def _stake_of(stake: Stake, band: WovenBand, pattern: SizedPattern) -> Material:
    """A stake as thick as it is where the band is; of a rod that turns up at both ends, one end is butt and one tip."""
    material = pattern.materials[stake.material]
    return material if stake.kind == "through" else part_of(material, band.from_mm, band.to_mm)


def _of_sticks(base: ConstructedBase, pattern: SizedPattern) -> list[Material]:
    """Each stick's material once for every end it brings to the edge."""
    by_number = {stick.number: stick for stick in base.sticks}
    return [stick_of(by_number[end.stick].material, pattern) for end in base.ends]
