"""Where uprights stand at every height: taken in groups, added, left out, parted, crossed and taken together anew.

Places round the basket are fractions of its perimeter, rising in working order; a list of them spans one turn.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from msgspec import Struct

from slath.basket.construct import changed_at
from slath.basket.model import Basket
from slath.drawing.paint.curves import Numbers
from slath.language.pattern import StakeChange


class Slot(Struct, frozen=True):
    """A place for one stake, and the stake that stands in it: an index into the stakes of the basket and, from there
    on, those added on the way up.
    """

    u: float
    stake: int


class Added(Struct, frozen=True):
    """A stake set in part of the way up, before band `band`."""

    material: str
    band: int


class Standing(Struct, frozen=True):
    """For every band of the side, and for the rim after the last: the working uprights as groups of slots."""

    levels: tuple[tuple[tuple[Slot, ...], ...], ...]
    added: tuple[Added, ...]

    def fractions(self, level: int) -> Numbers:
        """The middle of every working upright at a level."""
        return np.array([math.fsum(slot.u for slot in group) / len(group) for group in self.levels[level]])

    def places(self, level: int, apart: float) -> dict[int, float]:
        """Where each stake stands at a level; those of a group close together, `apart` (a share of the perimeter)."""
        found: dict[int, float] = {}
        groups = self.levels[level]
        room = 1.0 / max(sum(len(group) for group in groups), 1)
        for group in groups:
            middle = math.fsum(slot.u for slot in group) / len(group)
            for place, slot in enumerate(group):
                beside = (place - (len(group) - 1) / 2) * min(apart, room)
                found[slot.stake] = middle + beside if len(group) > 1 else slot.u
        return found


def standing_of(basket: Basket) -> Standing:
    """The uprights of a basket from its base to its rim."""
    groups: list[list[Slot]] = []
    working: list[int] = []
    for index, stake in enumerate(basket.stakes):
        if not working or working[-1] != stake.working:
            working.append(stake.working)
            groups.append([])
        groups[-1].append(Slot(stake.u, index))
    added: list[Added] = []
    levels = []
    changes = list(basket.changes)
    for index, band in enumerate(basket.bands):
        while changes and changes[0][0] <= index:
            groups = _changed(groups, changes.pop(0)[1], index, basket, added)
        levels.append(_taken(groups, band.group_sizes))
    while changes:
        groups = _changed(groups, changes.pop(0)[1], len(basket.bands), basket, added)
    levels.append(tuple(tuple(group) for group in groups))
    return Standing(tuple(levels), tuple(added))


def _taken(groups: list[list[Slot]], sizes: tuple[int, ...]) -> tuple[tuple[Slot, ...], ...]:
    """The groups as one band takes them; its own sizes are whole groups put together."""
    slots = [slot for group in groups for slot in group]
    if not sizes or sum(sizes) != len(slots):
        return tuple(tuple(group) for group in groups)
    ends = np.cumsum([0, *sizes]).tolist()
    return tuple(tuple(slots[first:last]) for first, last in pairwise(ends))


def _changed(
    groups: list[list[Slot]], change: StakeChange, band: int, basket: Basket, added: list[Added]
) -> list[list[Slot]]:
    if change.action == "part":
        return _portions(groups, max(change.count, 1))
    if change.action == "cross":
        return _crossed(groups, max(change.count, 1), change.first - 1)
    if change.action == "regroup":
        slots = [slot for group in groups for slot in group]
        lead = change.first - 1
        turned = [*slots[lead:], *(Slot(slot.u + 1.0, slot.stake) for slot in slots[:lead])]
        return _portions([turned], max(change.count, 1))
    taken = changed_at(tuple(len(group) for group in groups), change)
    if change.action == "drop":
        return [group for group, dropped in zip(groups, taken, strict=True) if not dropped]
    result: list[list[Slot]] = []
    for place, (group, here) in enumerate(zip(groups, taken, strict=True)):
        result.append(group)
        after = groups[(place + 1) % len(groups)][0].u + (1.0 if place + 1 == len(groups) else 0.0)
        for number in range(1, here + 1):
            u = group[-1].u + (after - group[-1].u) * number / (here + 1)
            result.append([Slot(u, len(basket.stakes) + len(added))])
            added.append(Added(change.material or basket.stakes[group[0].stake % len(basket.stakes)].material, band))
    return result


def _portions(groups: list[list[Slot]], size: int) -> list[list[Slot]]:
    return [group[first : first + size] for group in groups for first in range(0, len(group), size)]


def _crossed(groups: list[list[Slot]], over: int, lead: int) -> list[list[Slot]]:
    """Each of `over` uprights changes places with the one as many further on, the first `lead` of them last of all; what is
    left over at the end stays.
    """
    count = len(groups)
    result = [list(group) for group in groups]
    for first in range(lead, lead + count - 2 * over + 1, 2 * over):
        for left in range(first, first + over):
            at, to = left % count, (left + over) % count
            one, other = groups[at], groups[to]
            if len(one) == len(other):
                result[at] = [Slot(a.u, b.stake) for a, b in zip(one, other, strict=True)]
                result[to] = [Slot(b.u, a.stake) for a, b in zip(one, other, strict=True)]
    return result
