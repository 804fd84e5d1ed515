"""Bands that stop when so many working lengths of strand are used up: the whole rounds these are enough for."""

from __future__ import annotations

import math
from collections.abc import Callable

from slath.basket.border_length import crossing_mm
from slath.basket.strand_lies import lying
from slath.language.pattern import Band, Material, SizedPattern, WeaveSpec

Around = Callable[[float], float]  # the perimeter a way along from where the first band begins, mm


def rounds_used(
    band: Band, pattern: SizedPattern, group_sizes: tuple[int, ...], pitch_mm: float, from_mm: float, around: Around
) -> int:
    """Whole rounds of `band` woven of its working lengths, joins and ends taken off; at least one."""
    materials = [pattern.materials[key] for key in band.strands]
    one = math.fsum(working_mm(band, material, pattern) for material in materials) / len(materials)
    strands = max(band.weave.rods * band.weave.as_one, 1)
    lap = min(pattern.settings.mm("join_lap"), one / 2)
    in_hand = (band.extent.used or 0) * (one - lap)  # a lap at every join, and for the two ends of every strand
    uprights = max(len(group_sizes), 1)
    thick = math.fsum(lying(material, band.laid)[1] for material in materials) / len(materials)
    upright = _upright_mm(band, pattern)
    rounds, taken = 0, 0.0
    while True:
        perimeter = around(from_mm + (rounds + 0.5) * pitch_mm)
        taken += strands * perimeter * _take_up(band.weave, perimeter / uprights, upright + thick)
        if taken > in_hand:
            return max(rounds, 1)
        rounds += 1


def working_mm(band: Band, material: Material, pattern: SizedPattern) -> float:
    """The length a strand is prepared in: the band's own, a rod's, or the maker's usual one if the stock is as long."""
    stock = material.stock
    if band.working_length_mm is not None:
        return band.working_length_mm
    if stock.length_class_mm is not None:
        return stock.length_class_mm
    return min(pattern.settings.mm("working_length"), stock.usual_length_mm or float("inf"))


def _upright_mm(band: Band, pattern: SizedPattern) -> float:
    """The thickness of what the band goes round: the stakes, or on a base (or where its sticks turn up) the sticks."""
    base, stakes = pattern.base, pattern.stakes
    key = stakes.material if stakes is not None and band.part != "base" else ""
    key = key or getattr(base, "material", "") or getattr(base, "crosswise_material", "")
    return pattern.materials[key].thickness_mm if key in pattern.materials else 0.0


def _take_up(weave: WeaveSpec, spacing_mm: float, apart_mm: float) -> float:
    """Strand for a length of weaving: a crossing wherever the strand changes face, straight past the others."""
    faces = [face for stroke in weave.strokes for face in "b" * stroke.before + "h" * stroke.behind]
    changes = sum(face != faces[place - 1] for place, face in enumerate(faces))
    if not faces or spacing_mm <= 0:
        return 1.0
    return ((len(faces) - changes) * spacing_mm + changes * crossing_mm(spacing_mm, apart_mm)) / (
        len(faces) * spacing_mm
    )
