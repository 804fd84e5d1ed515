"""Bands that go on where the band before them stopped: with its strands, or with others on the stroke that was due."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

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


def in_step(bands: Sequence[WovenBand]) -> tuple[WovenBand, ...]:
    """Bands one above another, each with the upright in front of which it begins.

    One strand that goes on in the strokes of the band below begins where that one is next to begin a stroke: after R rounds
    of S uprights that is -R·S mod the cycle further on. Begun at the mark again after an odd number of rounds on an odd number
    of uprights it would lie on its own track, and two rows would lie alike all round.
    """
    placed: list[WovenBand] = []
    for band in bands:
        below = placed[-1] if placed else None
        placed.append(band if below is None else following(below, band))
    return tuple(placed)


def following(below: WovenBand, band: WovenBand) -> WovenBand:
    """The band with the upright it begins on, if it goes on in the strokes of the one below; else as it is."""
    if not keeps_step(below, band):
        return band
    travelled = len(below.rounds) * (below.uprights - below.spec.shift)
    ahead = -travelled % band.spec.weave.cycle
    return replace(band, start=(below.start + ahead - 1) % band.uprights + 1)


def keeps_step(below: WovenBand, band: WovenBand) -> bool:
    """Whether a band goes on in the strokes of the one below it, with the same strands or with others."""
    one, other = below.spec, band.spec
    if not below.rounds or one.cells or other.cells or not other.weave.strokes:
        return False
    alike = (one.weave.strokes, one.weave.rods, one.weave.twined) == (
        other.weave.strokes,
        other.weave.rods,
        other.weave.twined,
    )
    if not alike or below.group_sizes != band.group_sizes or other.weave.kind in {*_ENDS_EVERY_TIME, "figure"}:
        return False
    if not other.weave.twined:
        return True
    turned = one.reversed != other.reversed or one.step_up or other.step_up
    same = below.materials == band.materials and other.goes_on is not False and not turned
    return band.spec.weave.cycle == other.weave.rods and (same or other.runs_on_from(one))
