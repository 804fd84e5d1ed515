"""The way of every stake up the unrolled side: straight, but where stakes change places over a height left open."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from slath.basket.model import Basket, WovenBand
from slath.drawing.paint.curves import Numbers
from slath.drawing.wall.standing import standing_of

_OPEN, _CROSSED = 3.0, 9.0  # mm on the page of a height left open, and of one where stakes cross
_BEND = 1.2  # mm a stake stands straight before it leans
_OVER = 0.55  # thicknesses by which the one that leans along the work lies over the other


def open_height(basket: Basket, band: WovenBand) -> float:
    """Height on the page of a band left open, mm."""
    return _CROSSED if crosses_after(basket, band.index) else _OPEN


def crosses_after(basket: Basket, band: int) -> int:
    """How many stakes change places with as many others between a band and the next; none where they stand straight."""
    crossing = [change.count for before, change, _ in basket.changes if before == band + 1 and change.action == "cross"]
    return max(crossing[0], 1) if crossing else 0


def stake_ways(
    basket: Basket, shown: int, levels: list[float], ends: tuple[float, float], thick: float
) -> Iterator[Numbers]:
    """For every stake shown from the left its points (n, 3): place in stakes, page height, depth.

    `levels` are the lower edges of the bands and the upper edge of the last, `ends` the foot and the head of all stakes.
    """
    crossed = [band for band in range(len(levels) - 1) if crosses_after(basket, band)]
    slots = (
        [[slot.stake for group in level for slot in group] for level in standing_of(basket).levels] if crossed else []
    )
    low, high = ends
    for place in range(shown):
        at = place + 0.5
        points = [(at, low, 0.0)]
        for band in crossed:
            count = len(slots[band])
            if len(slots[band + 1]) != count:
                continue
            turn, now = divmod(int(at), count)
            moved = slots[band + 1].index(slots[band][now]) + turn * count + 0.5
            depth = _OVER * thick * float(np.sign(moved - at))
            foot, head = levels[band] + _BEND, levels[band + 1] - _BEND
            points += [(at, foot, 0.0), ((at + moved) / 2, (foot + head) / 2, depth), (moved, head, 0.0)]
            at = moved
        yield np.array([*points, (at, high, 0.0)])
