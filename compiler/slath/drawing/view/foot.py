"""The foot of the finished basket: its weaving below the base and its border, made as a low basket and turned over."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from slath.basket.border_ends import foot_ends, makes
from slath.basket.model import Basket, WorkedBorder
from slath.basket.outline import turned_over
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.view.crests import crest_of
from slath.drawing.view.floor import board_mm
from slath.drawing.view.in_space import OVER, Placement, SpaceRod
from slath.drawing.view.surface import Surface, round_at, skirt
from slath.drawing.view.wall import Sinks, band_strands, stake_mm


def foot(basket: Basket, clothes: Wardrobe) -> Iterator[SpaceRod]:
    """The rods of a foot that closes, in place below the base."""
    worked = basket.foot
    if worked is None or not worked.closes or not worked.passes or not basket.stakes:
        return
    below = Placement(OVER.turn, np.array([0.0, 0.0, -board_mm(basket)]))
    yield from below.rods(_stood_on_its_rim(basket, worked, clothes))


def _stood_on_its_rim(basket: Basket, worked: WorkedBorder, clothes: Wardrobe) -> Iterator[SpaceRod]:
    stake = _foot_stake_mm(basket)
    high = math.fsum(band.reached_mm for band in basket.foot_bands)
    surface = skirt(turned_over(basket.base.hole_line or basket.base.edge), max(high, 0.5 * stake))
    units = _units(basket, worked)
    middles = np.array([math.fsum(unit) / len(unit) for unit in units])
    for band in basket.foot_bands:
        around = middles if len(middles) == band.uprights else np.arange(band.uprights) / band.uprights + middles[0]
        yield from band_strands(basket, band, clothes, surface, around, 0.0, 1.0, Sinks(()), stake)
    crest = crest_of(worked, stake)
    for number, unit in enumerate(units):
        for place, u in enumerate(unit):
            yield _end(surface, middles, (number, u), crest(place, len(unit)), stake, clothes)


def _end(
    surface: Surface, middles: Numbers, stands: tuple[int, float], crest: Numbers, stake: float, clothes: Wardrobe
) -> SpaceRod:  # fmt: skip
    unit, u = stands
    ways = np.linspace(0.0, max(surface.along - 0.4 * stake, 0.2 * stake), 8)
    points, normals = surface.at(np.full(len(ways), u), ways, 0.0)
    around = round_at(middles, unit + 0.5 + crest[:, 0])
    over, over_normals = surface.at(around, surface.along + 0.3 * stake + crest[:, 2], -crest[:, 1])
    rim = np.concatenate([np.zeros(len(ways), bool), np.ones(len(crest), bool)])
    return SpaceRod(
        np.vstack([points, over]), stake * 0.98, clothes.stakes, np.vstack([normals, over_normals]), rim=rim,
        ends=(False, True), name=f"foot {unit + 1}",
    )  # fmt: skip


def _foot_stake_mm(basket: Basket) -> float:
    own = basket.foot.spec.stakes if basket.foot else None
    if own is not None and own.material:
        return basket.pattern.materials[own.material].width_mm
    return stake_mm(basket)


def _units(basket: Basket, worked: WorkedBorder) -> list[list[float]]:
    """Places round of the ends worked as one, counted the other way round since the work is turned over."""
    past = sum(move.count for move in worked.spec.turned_down) + 0.5 if foot_ends(basket) == "from the rim" else 0.0
    shift = past / len(basket.stakes)
    chosen = sorted(
        -(stake.u + shift) % 1.0 for stake in basket.stakes if makes(worked, stake) and stake.kind != "post"
    )
    edges = np.linspace(0, len(chosen), min(worked.count, len(chosen)) + 1).round().astype(int).tolist()
    return [chosen[first:last] for first, last in pairwise(edges)]
