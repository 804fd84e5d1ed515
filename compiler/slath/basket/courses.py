"""Bands that are worked on with the strands of the band before: nothing is ended, begun or joined between them."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from slath.basket.model import Basket, WovenBand

_ENDS_EVERY_TIME = {"open", "french rand", "packing"}  # weaves whose strands do not come round to go on


def band_before(basket: Basket, band: WovenBand) -> WovenBand | None:
    """The band worked before it on the same uprights; below the lowest of the side the last of the base."""
    woven = basket.woven
    place = next((index for index, found in enumerate(woven) if found is band), 0)
    return woven[place - 1] if place else None


def runs_on(basket: Basket, band: WovenBand) -> bool:
    """Whether the strands of the band before run on into it.

    As the designer says; else where it is a part of the same arrow or chain, and where the same weave goes on with the same
    strands on the same uprights, as over a change of shape. Sticks opened further on a base are uprights for that.
    """
    before = band_before(basket, band)
    if before is None or not before.materials or not band.materials or band.spec.goes_on is False:
        return False
    if band.spec.runs_on_from(before.spec):
        return True
    if before.part != band.part or band.spec.weave.kind in _ENDS_EVERY_TIME or band.spec.cells or before.spec.cells:
        return False
    same = before.spec.weave == band.spec.weave and before.materials == band.materials
    if band.on_sticks:
        return same
    changed = any(index == band.index for index, _, _ in basket.changes)
    turned = before.spec.reversed != band.spec.reversed or before.spec.step_up != band.spec.step_up
    return same and not changed and not turned and before.group_sizes == band.group_sizes


def runs_on_beyond(basket: Basket, band: WovenBand) -> bool:
    """Whether the strands of the band run on into the next."""
    woven = basket.woven
    place = next((index for index, found in enumerate(woven) if found is band), len(woven))
    return place + 1 < len(woven) and runs_on(basket, woven[place + 1])
