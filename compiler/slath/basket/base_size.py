"""Sizes that follow from what is there: a base as wide as its bands make it, a side as high as its stakes reach."""

from __future__ import annotations

from msgspec.structs import replace

from slath.basket.base import construct_base
from slath.basket.model import CannotConstruct
from slath.language.pattern import Band, Board, Outline, OvalSlath, RoundSlath, SizedPattern
from slath.messages.told import kept
from slath.messages.values import Length

_TRIALS = 4  # the length of an oval shifts its slath, and that its rounds, by less every time


def sized_by_bands(pattern: SizedPattern) -> SizedPattern:
    """The pattern with the size of a base that is left to its bands: as wide as their rounds reach from the slath."""
    base = pattern.base
    if not isinstance(base, RoundSlath | OvalSlath) or not base.by_bands:
        return pattern
    for _ in range(_TRIALS):
        built = construct_base(base, pattern, pattern.stakes, pattern.side)
        if built.slath is None or not built.bands:
            return pattern
        out = 2 * built.bands[-1].to_mm
        length, width = built.slath.length_mm + out, built.slath.width_mm + out
        if isinstance(base, RoundSlath):
            base = replace(base, outline=Outline("circle", width, width))
        else:
            base = replace(base, outline=Outline(base.outline.shape, max(length, width + 1.0), width))
    return replace(pattern, base=base)


def stake_left(band: Band, pattern: SizedPattern) -> float:
    """How far up its stakes a side is woven that stops where so much of them is left, mm."""
    stakes, base = pattern.stakes, pattern.base
    leaves = band.extent.leaves_mm or 0.0
    if stakes is not None and stakes.length_mm is not None:
        seat = stakes.depth_mm if stakes.depth_mm is not None else pattern.settings.mm("stake_depth")
        if isinstance(base, Board):
            seat = base.thickness_mm + stakes.below_mm
        room = stakes.length_mm - seat - leaves
    elif isinstance(base, RoundSlath) and base.become_stakes and base.stick_length_mm is not None:
        room = (base.stick_length_mm - base.outline.width_mm) / 2 - leaves
    else:
        raise CannotConstruct(
            "stake-length-unknown", (*band.path, "leaves"), "side",
            kept("refusals.stops-where-so-much-of", band=band.name),
            (kept("refusals.give-the-stakes-their-length"), kept("refusals.give-the-band-its-rounds")),
        )  # fmt: skip
    if room <= 0:
        raise CannotConstruct(
            "stakes-all-left", (*band.path, "leaves"), "side", kept("refusals.with-left-of-the-stakes", leaves=Length(leaves)),
            (kept("refusals.leave-less"), kept("refusals.cut-the-stakes-longer")),
        )  # fmt: skip
    return room
