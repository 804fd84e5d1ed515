"""The uprights of the finished basket from base to border: as they stand in groups, lean over open work and cross."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from slath.basket.border_ends import foot_ends, makes
from slath.basket.gathering import bundle_mm, gathered_of, rise_mm
from slath.basket.model import Basket, WorkedBorder
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.wardrobe import Wardrobe, is_flat
from slath.drawing.view.crests import crest_of, turned_down
from slath.drawing.view.in_space import SpaceRod
from slath.drawing.view.surface import Surface, round_at
from slath.drawing.view.wall import Sinks, stake_mm
from slath.drawing.wall.standing import Standing

_ENTERS = 25.0  # mm an added stake goes down into the weaving below, drawn, never measured


class _Upright(Struct, frozen=True):
    """One upright on its way up: ways up the side, places round and mm outwards at each, and whether it reaches the rim."""

    stake: int
    ways: Numbers
    places: Numbers
    out: Numbers
    to_rim: bool


class Rim(Struct, frozen=True):
    """What the border is worked on: the stakes of each thing worked as one, and the middle of each, rising."""

    units: tuple[tuple[int, ...], ...]
    middles: Numbers


def uprights(
    basket: Basket, clothes: Wardrobe, surface: Surface, standing: Standing, sinks: Sinks
) -> Iterator[SpaceRod]:
    """Every upright, with its part of the border."""
    border = basket.border if basket.border and basket.border.closes and basket.border.passes else None
    stake = stake_mm(basket)
    crest = crest_of(border, stake) if border else None
    rim = rim_of(basket, border, standing)
    worked = {
        index: (unit, place) for unit, members in enumerate(rim.units) for place, index in enumerate(members)
    }  # fmt: skip
    for upright in _uprights(basket, surface, standing, stake):
        index = upright.stake
        line: Numbers | None = None
        unit, place = worked.get(index, (0, 0))
        if _comes_down(basket, index):
            unit = _unit_at(rim, float(upright.places[-1]))
            line = turned_down(basket, stake, _top_weaver(basket), surface.along + 1.5 * stake)
        elif index in worked and crest and border and (not border.spec.cut_to_one or place == 0):
            line = crest(place, len(rim.units[unit]))
        if not upright.to_rim:
            line = None
        yield _rod(basket, clothes, surface, sinks, rim, (upright, unit, line))


def rim_of(basket: Basket, border: WorkedBorder | None, standing: Standing) -> Rim:
    """What a border at the rim is worked on."""
    slots = [slot for group in standing.levels[-1] for slot in group]
    chosen = [
        slot
        for slot in slots
        if border is None
        or (slot.stake < len(basket.stakes) and basket.stakes[slot.stake].kind != "post" and makes(border, basket.stakes[slot.stake]))
        or (slot.stake >= len(basket.stakes) and not border.stakes)
    ]  # fmt: skip
    count = len(chosen)
    units = min(border.count, count) if border else count
    edges = np.linspace(0, count, units + 1).round().astype(int).tolist()
    members = [chosen[first:last] for first, last in pairwise(edges)]
    middles = np.array([math.fsum(slot.u for slot in each) / len(each) for each in members])
    return Rim(tuple(tuple(slot.stake for slot in each) for each in members), middles)


def _comes_down(basket: Basket, index: int) -> bool:
    """Whether a stake is bent over the rim and led down outside, to make the foot."""
    if basket.foot is None or index >= len(basket.stakes) or foot_ends(basket) != "from the rim":
        return False
    return makes(basket.foot, basket.stakes[index]) and not makes(basket.border, basket.stakes[index])


def _unit_at(rim: Rim, place: float) -> int:
    far = np.abs((rim.middles - place + 0.5) % 1.0 - 0.5)
    return int(far.argmin())


def _top_weaver(basket: Basket) -> float:
    woven = [band for band in basket.bands if band.materials]
    materials = basket.pattern.materials
    return (
        max((materials[key].thickness_mm for rod in woven[-1].materials for key in rod), default=0.0) if woven else 0.0
    )


def _uprights(basket: Basket, surface: Surface, standing: Standing, stake: float) -> Iterator[_Upright]:
    girths = surface.girths()
    knots: dict[int, list[tuple[float, float]]] = {}
    last = len(basket.bands)
    for band in basket.bands:
        if not (band.rounds and band.materials):
            continue
        high = band.to_mm - band.from_mm
        apart = stake / float(np.interp((band.from_mm + band.to_mm) / 2, *girths))
        for index, place in standing.places(band.index, apart).items():
            inner = min(4.0, 0.2 * high)
            knots.setdefault(index, []).extend(
                [(band.from_mm + inner, place), (max(band.to_mm - inner, band.from_mm + inner + 0.1), place)]
            )
    at_rim = standing.places(last, stake / float(girths[1][-1]))
    for index, place in at_rim.items():
        knots.setdefault(index, [(0.0, place)]).append((max(surface.along, knots[index][-1][0] + 0.1), place))
    for index in sorted(knots):
        mine = knots[index]
        begins = _begins(basket, standing, index, stake, surface.along)
        ways = np.array([begins, *(way for way, _ in mine if way > begins)])
        places = np.array([mine[0][1], *(place for way, place in mine if way > begins)])
        places[1:] = places[0] + np.cumsum((np.diff(places) + 0.5) % 1.0 - 0.5)
        to_rim = index in at_rim
        top = surface.along if to_rim else float(ways[-1]) + 2.0
        even = np.linspace(begins, max(top, begins + 1.0), 24)
        bends = ways[(ways > begins) & (ways < top)]
        at = np.unique(np.concatenate([even, bends]))
        yield _Upright(index, at, np.interp(at, ways, places), _aside(at, ways, places, stake), to_rim)


def _begins(basket: Basket, standing: Standing, index: int, stake: float, along: float) -> float:
    if index < len(basket.stakes):
        return min(stake, 0.5 * along)
    band = standing.added[index - len(basket.stakes)].band
    from_mm = basket.bands[band].from_mm if band < len(basket.bands) else along
    return max(from_mm - _ENTERS, 0.0)


def _aside(at: Numbers, ways: Numbers, places: Numbers, stake: float) -> Numbers:
    """Outwards where a stake crosses to the right over those that cross to the left, which keep inside."""
    out = np.zeros(len(at))
    for (low, one), (high, other) in pairwise(zip(ways.tolist(), places.tolist(), strict=True)):
        if abs(other - one) > 1e-6 and high - low > 8.0:
            share = np.clip((at - low) / (high - low), 0.0, 1.0)
            out += np.sign(other - one) * 0.55 * stake * np.sin(np.pi * share)
    return out


def _rod(
    basket: Basket, clothes: Wardrobe, surface: Surface, sinks: Sinks, rim: Rim, drawn: tuple[_Upright, int, Numbers | None]
) -> SpaceRod:  # fmt: skip
    upright, unit, crest = drawn
    stake, top = stake_mm(basket), surface.along
    low = float(sinks.below(len(basket.bands), upright.places[-1:])[0]) if upright.to_rim else 0.0
    reach = (-0.4 * stake if crest is not None else 1.5 * stake) if upright.to_rim else 0.0
    highest = max(float(upright.ways[-1]) + reach - low, 0.6 * top if upright.to_rim else 0.0)
    begins = float(upright.ways[0])
    ways = begins + (upright.ways - begins) * (highest - begins) / max(float(upright.ways[-1]) - begins, 1e-6)
    points, normals = surface.at(upright.places, ways, upright.out)
    at_rim = np.zeros(len(ways), bool)
    materials = basket.pattern.materials
    material = materials[basket.stakes[0].material]
    if upright.stake < len(basket.stakes):
        material = materials[basket.stakes[upright.stake].material]
    if crest is not None:
        around = round_at(rim.middles, unit + 0.5 + crest[:, 0])
        own = (float(upright.places[-1]) - float(rim.middles[unit]) + 0.5) % 1.0 - 0.5
        around = around + own * np.clip(1.0 - crest[:, 0], 0.0, 1.0)
        sunk = sinks.below(len(basket.bands), around)
        over, over_normals = surface.at(around, top - sunk + 0.3 * stake + crest[:, 2], -crest[:, 1])
        at_rim = np.concatenate([ways > top - 2 * stake, crest[:, 2] > -stake])
        points, normals = np.vstack([points, over]), np.vstack([normals, over_normals])
    elif upright.to_rim:
        points, normals, at_rim = _drawn_together(basket, points, normals, at_rim)
    look = _look(basket, clothes, upright.stake)
    name = f"stake {upright.stake + 1}"
    goes_on = crest is not None and float(crest[-1, 2]) < -0.5 * top  # into the foot
    across = _across(points, normals) if is_flat(material) else None
    return SpaceRod(
        points,
        material.width_mm * 0.98,
        look,
        normals,
        rim=at_rim,
        ends=(False, not goes_on and across is None),
        name=name,
        across=across,
    )


def _drawn_together(
    basket: Basket, points: Numbers, normals: Numbers, at_rim: NDArray[np.bool_]
) -> tuple[Numbers, Numbers, NDArray[np.bool_]]:
    """A stake that is bound with all the others over the weaving goes on to the bundle, and stands out above the binding."""
    spec = gathered_of(basket)
    rise = rise_mm(basket, spec) if spec is not None else None
    if spec is None or rise is None:
        return points, normals, at_rim
    last, half = points[-1], bundle_mm(basket) / 2
    foot = last * [1.0, 1.0, 0.0]
    inner = foot / (np.linalg.norm(foot) + 1e-9) * half * 0.7
    share = np.linspace(0.0, 1.0, 14)[1:, None]
    bound = inner * [1.0, 1.0, 0.0] + np.array([0.0, 0.0, last[2] + rise])
    slant = last + (bound - last) * share + (0.1 * rise * np.sin(np.pi * share)) * [0.0, 0.0, 1.0]
    above = bound + np.linspace(0.0, 1.0, 5)[1:, None] * (np.array([0.0, 0.0, spec.stands_mm]) + 0.5 * inner)
    more = np.vstack([slant, above])
    return (
        np.vstack([points, more]),
        np.vstack([normals, np.repeat(normals[-1:], len(more), axis=0)]),
        np.concatenate([at_rim, np.zeros(len(more), bool)]),
    )


def _across(points: Numbers, normals: Numbers) -> Numbers:
    """The way across the face of a flat stake, which keeps to the wall: level while it stands, upright where it lies."""
    across = np.cross(np.gradient(points, axis=0), normals)
    return np.asarray(across / (np.linalg.norm(across, axis=1)[:, None] + 1e-9))


def _look(basket: Basket, clothes: Wardrobe, index: int) -> Dress:
    """A stick that turns up is dressed as a stick, and so is a stake of the same material set in among such."""
    through = {stake.material for stake in basket.stakes if stake.kind == "through"}
    if index < len(basket.stakes) and basket.stakes[index].material in through:
        return clothes.sticks
    return clothes.upright(index % max(len(basket.stakes), 1))
