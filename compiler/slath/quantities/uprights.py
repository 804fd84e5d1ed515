"""What the strands of a band go round: one working upright of the base, the side or a lid."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from slath.basket.model import Basket, ConstructedBase, Stake, WovenBand
from slath.basket.rods import part_of, stick_of
from slath.language.pattern import ByeStakes, Material, SizedPattern
from slath.quantities.crossing import UprightSection
from slath.units import Amount, Basis, worked


class Upright(Struct, frozen=True):
    """The mean section of one working upright of a band, and the amounts it comes from."""

    section: UprightSection
    amounts: tuple[Amount, ...] = ()


def upright_of(band: WovenBand, basket: Basket) -> Upright:
    """The upright `band` of this basket, or of its lid, is worked on: stick ends on a base, stakes on a side."""
    if any(found is band for found in basket.base.bands):
        return upright_from(_of_sticks(basket.base, basket.pattern), band.group_sizes, "stick")
    for one in basket.apart:
        if any(found is band for found in one.woven):
            return upright_of(band, one.basket)
    stakes = [_stake_of(stake, band, basket.pattern) for stake in basket.stakes]
    beside = _set_in_below(band, basket)
    return upright_from([*stakes, *beside], band.group_sizes, "stake", beside=len(beside))


def bye_stakes_of(bye: ByeStakes, basket: Basket) -> list[str]:
    """The material of each bye-stake of one set, in order round the basket."""
    stakes = sum(stake.kind in ("stake", "through") for stake in basket.stakes)
    hosts = len(bye.beside) or math.ceil(stakes / max(bye.every, 1))
    return [bye.material_of(index) for index in range(hosts if bye.count is None else bye.count)]


def upright_from(materials: Sequence[Material], group_sizes: Sequence[int], word: str, *, beside: int = 0) -> Upright:
    """The upright made of `group_sizes` sticks or stakes of `materials`, one material for each.

    Those worked together lie side by side: their widths add, their thickness does not. `beside` more are spread among
    them that the groups do not count.
    """
    if not materials:
        return Upright(UprightSection(0.0, 0.0))
    thickness = math.fsum(material.thickness_mm for material in materials) / len(materials)
    width = math.fsum(material.width_mm for material in materials) / len(materials)
    together = (sum(group_sizes) + beside) / len(group_sizes) if group_sizes else 1.0
    poorest = max(materials, key=lambda material: material.stock.basis).stock
    amounts = [Amount(f"{word} thickness", thickness, "mm", poorest.basis, poorest.source)]
    if together > 1.0:
        amounts.append(Amount(f"mean number of {word}s worked as one", together, "ratio", Basis.COUNTED))
    if together * width > thickness:
        formula = f"{word} width × {word}s worked as one"
        amounts.append(worked("upright width", together * width, "mm", formula, *amounts))
    return Upright(UprightSection(together * width, thickness), tuple(amounts))


def _set_in_below(band: WovenBand, basket: Basket) -> list[Material]:
    """Bye-stakes set in after a band that lies below this one: they stand beside their stakes from there up."""
    below = {other.name for other in basket.bands[: band.index]}
    materials = basket.pattern.materials
    return [
        part_of(materials[key], 0.0, band.to_mm - band.from_mm)
        for bye in basket.pattern.bye_stakes
        if bye.after_band in below
        for key in bye_stakes_of(bye, basket)
    ]


def _stake_of(stake: Stake, band: WovenBand, pattern: SizedPattern) -> Material:
    """A stake as thick as it is where the band is; of a rod that turns up at both ends, one end is butt and one tip."""
    material = pattern.materials[stake.material]
    return material if stake.kind == "through" else part_of(material, band.from_mm, band.to_mm)


def _of_sticks(base: ConstructedBase, pattern: SizedPattern) -> list[Material]:
    """Each stick's material once for every end it brings to the edge."""
    by_number = {stick.number: stick for stick in base.sticks}
    return [stick_of(by_number[end.stick].material, pattern) for end in base.ends]
