"""The side of the finished basket: its strands as they lie on its uprights, in space."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Basket, WovenBand
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.wardrobe import Wardrobe, is_flat
from slath.drawing.view.in_space import SpaceRod
from slath.drawing.view.surface import Surface, round_at
from slath.drawing.wall.side import rows_high
from slath.drawing.wall.standing import Standing
from slath.drawing.wall.strands import Lay, rows_lacking, strand_lines, wedge_after
from slath.language.pattern import Material
from slath.quantities.borders import thickest

_POINT = 0.06  # breadth of the point a flat strand is cut to, of its own


class Sinks(Struct, frozen=True):
    """Where rows of packing end short: how much lower all that is worked above them lies, mm, by places round."""

    bands: tuple[tuple[int, Numbers, Numbers], ...]  # the band, the middles of its uprights, what lacks there

    def below(self, band: int, places: Numbers) -> Numbers:
        """How much lower the weaving lies at places over the bands below `band`."""
        low = np.zeros(len(places))
        for index, middles, lacking in self.bands:
            if index < band:
                low += np.interp(places, middles, lacking, period=1.0)
        return low


def sinks_of(basket: Basket, standing: Standing) -> Sinks:
    """The short rows of a basket that the weaving above them follows down."""
    found = []
    for band in basket.bands:
        lacking = rows_lacking(band)
        if lacking is not None:
            found.append((band.index, standing.fractions(band.index) % 1.0, lacking * band.pitch.value))
    return Sinks(tuple(found))


def stake_mm(basket: Basket) -> float:
    """How thick the stakes are, off the weaving: the thickest, where they differ."""
    materials = basket.pattern.materials
    return thickest("stakes", [materials[stake.material] for stake in basket.stakes if stake.kind != "post"]).value


def wall(basket: Basket, clothes: Wardrobe, surface: Surface, standing: Standing, sinks: Sinks) -> Iterator[SpaceRod]:
    """Every strand of every band of the side."""
    wedges = [0.0]
    for band in basket.bands:
        wedges.append(wedges[-1] if _level(band) else wedge_after(band, band.pitch.value, wedges[-1]))
    taper = _tapered(basket)
    squeeze = surface.along / (surface.along + 0.5 * wedges[-1] - taper)
    for band, wedge in zip(basket.bands, wedges, strict=False):
        yield from band_strands(
            basket, band, clothes, surface, standing.fractions(band.index), wedge, squeeze, sinks, stake_mm(basket),
            taper if band.index == 0 else 0.0, taper,
        )  # fmt: skip


def _tapered(basket: Basket) -> float:
    """How high the first round grows where one flat strand begins the side: it is cut to a point, so that no gap is left.

    0 for other weaving, whose rise in the first round is slight or stepped up.
    """
    band = basket.bands[0] if basket.bands else None
    if band is None or not band.rounds or not band.materials or band.spec.step_up or band.spec.weave.rods > 1:
        return 0.0
    if band.spec.weave.kind in {"packing", "french rand"}:
        return 0.0
    flat = all(is_flat(basket.pattern.materials[key]) for rod in band.materials for key in rod)
    return band.pitch.value if flat else 0.0


def band_strands(
    basket: Basket, band: WovenBand, clothes: Wardrobe, surface: Surface, fractions: Numbers, wedge: float, squeeze: float,
    sinks: Sinks, stake: float, taper: float = 0.0, sunk: float = 0.0,
) -> Iterator[SpaceRod]:  # fmt: skip
    """The strands of one band on a surface, `sunk` mm lower, heights times `squeeze`.

    The strand of a band with a `taper` is cut to a point where it begins and as broad as that, mm, after one round.
    """
    if not band.rounds or not band.materials:
        return
    materials = basket.pattern.materials
    pitch = band.pitch.value
    strand = pitch / rows_high(band)
    used = [materials[key] for rod in band.materials for key in rod]
    width = min(math.fsum(item.width_mm for item in used) / len(used) * 1.1, strand) * max(squeeze, 1.0)
    # Two or three rounds of a twined weave are stepped up by hand whatever they are called: they join up level.
    shown = replace(band, spec=replace(band.spec, step_up=True)) if _level(band) else band
    thick = max(item.thickness_mm for item in used)
    for line in strand_lines(shown, Lay(stake, width, pitch, thick), wedge, samples=7):
        around = round_at(fractions, line.at + (band.start - 1))
        begun = np.clip(line.at / band.uprights, _POINT, 1.0) if taper else np.ones(len(line.at))
        low = sunk - taper * (1.0 - begun) / 2
        ways = (band.from_mm + line.height - low - sinks.below(band.index, around)) * squeeze
        points, normals = surface.at(around, ways, line.depth)
        across = None
        if is_flat(materials[line.material]):
            above, _ = surface.at(around, ways + 1.0, line.depth)
            across = above - points
            across *= (begun / np.linalg.norm(across, axis=1))[:, None]
        yield SpaceRod(
            points, width, weaver_look(clothes, materials[line.material]), normals,
            name=f"{band.part} {band.index} rod {line.rod} strand {line.strand}", across=across,
        )  # fmt: skip


def weaver_look(clothes: Wardrobe, material: Material) -> Dress:
    """A weaver's dress for the whole basket, as it will look: without the marks of a key; a braid shows its plies."""
    braided = material.stock.kind == "braid" and is_flat(material)
    return replace(clothes.weaver(material.key), marks="braid" if braided else "none")


def _level(band: WovenBand) -> bool:
    return band.spec.weave.twined and len(band.rounds) <= 3
