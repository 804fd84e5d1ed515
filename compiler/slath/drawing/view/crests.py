"""The part of a stake above the weaving in the finished basket: laid into its border, plaited, looped, or turned down.

A crest is a line (n, 3): stakes along the rim from the stake's own place, mm inwards, mm above the weaving. Every stake
of a border has the same one, so that it closes on any count.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from msgspec import Struct

from slath.basket.border_path import plait_turns
from slath.basket.model import Basket, WorkedBorder
from slath.drawing.border.course import BorderCourse, border_course, through
from slath.drawing.paint.curves import Numbers, catmull_rom
from slath.language.pattern import Border, Plait
from slath.quantities.borders import border_height
from slath.units import Amount, Basis

Crest = Callable[[int, int], Numbers]  # (place in what is worked as one, how many are) to the line

_ROPE_TURN = 1.4  # stakes along the rim in which a strand of a rope goes once round
_STANDS = 6.0  # thicknesses from stake to stake, about: only which side of a slanting stake is up hangs on it
# Of the height of a border figure, which shows its stakes apart; closer, every stake would lie in the next.
_CLOSEST = 0.8
_SITS = 0.3  # stake thicknesses by which a rope or a plait is pressed down on the weaving


class _Ply(Struct, frozen=True):
    """The stakes that run together in each set of a plaited border, and how many sets it has."""

    stakes: int
    sets: int


def crest_of(border: WorkedBorder, stake: float) -> Crest:
    """The crest of the stakes of a border, `stake` mm thick."""
    spec = border.spec
    if spec.plait is not None:
        ply = _ply(spec.plait)
        return lambda place, together: _plaited(ply, stake, place / max(together, 1))
    if is_rope(spec):
        return lambda _place, _together: _roped(stake)
    loop = (spec.loop_height_mm - stake) / stake if spec.loop_height_mm is not None else 0.0
    course = border_course(spec, loop)
    high = border_height(border, Amount("stake", stake, "mm", Basis.COUNTED), "border").value / stake
    return lambda place, together: _laid(course, stake, high, place, together)


def is_rope(border: Border) -> bool:
    """Whether a border is a rope: two rows, each before one and in, the second twisting with the first."""
    return len(border.passes) == 2 and all(
        [(move.way, move.count) for move in one.moves if move.way not in {"in", "out"}] == [("before", 1)]
        and one.moves[-1].way == "in"
        for one in border.passes
    )


def _laid(course: BorderCourse, stake: float, high: float, place: int, together: int) -> Numbers:
    """Stakes laid as the passes say, beaten down to the height in thicknesses the list has, as far as they can be without
    lying in one another; those worked together lie side by side.
    """
    line = through(course.knots(len(course.legs), trimmed=True)[3:], 6).copy()
    crest = max(float(line[:, 2].max()), 0.1)
    line[:, 2] *= np.where(line[:, 2] > 0, min(max((high - 0.5) / crest, _CLOSEST), 1.0), 1.0)
    beside = (place - (together - 1) / 2) * 0.7
    return np.column_stack([line[:, 0], line[:, 1] * stake, (line[:, 2] + beside) * stake])


def _roped(stake: float) -> Numbers:
    """Twice round the rim in a helix: outside at the next two stakes, going in below and coming over the edge above."""
    radius = 1.05 * stake
    along = np.linspace(0.45, 2.75, 40)
    turn = 2 * math.pi * (along - 0.8) / _ROPE_TURN
    middle = radius - _SITS * stake
    line = np.column_stack([along, -radius * np.cos(turn), middle - radius * np.sin(turn)])
    rise = np.array([[0.0, 0.0, -0.3 * stake], [0.06, 0.15 * stake, 0.6 * middle], [0.2, 0.25 * stake, 1.3 * middle]])
    return np.vstack([catmull_rom(np.vstack([rise, line[:1]]), 5)[:-1], line])


def _ply(plait: Plait) -> _Ply:
    """As many plies as there are sets in the plait; each upright that joins one lets its oldest go."""
    return _Ply(plait_turns(plait), plait.over + 2)


def _plaited(ply: _Ply, stake: float, share: float) -> Numbers:
    """A flat plait along the rim: a stake comes out into its set, which lies outside at all stakes but the last of each
    turn, goes over to the inside and out again, and ends there.
    """
    wide = ply.stakes * 0.92 * stake
    reach, lift = 0.75 * wide + 0.45 * stake, 0.62 * stake
    along = np.linspace(0.27 * ply.sets, ply.sets * ply.stakes - 0.1, int(22 * ply.stakes) + 12)
    turn = 2 * math.pi * (along / ply.sets - 0.5)
    middle = 2 * lift - _SITS * stake
    line = np.column_stack([along, -reach * np.cos(turn), middle + lift * np.sin(2 * turn)])
    # Side by side in the set, the newest outside; each moves one place on when the next comes in.
    age = np.clip((along - along[0]) / ply.sets, 0.0, ply.stakes - 1.0)
    beside = ((ply.stakes - 1) / 2 - age) * 0.95 * stake + (share - 0.5) * 0.3 * stake
    slope = np.gradient(line[:, 1], along)
    steep = np.hypot(slope, _STANDS * stake)
    line[:, 1] -= beside * _STANDS * stake / steep
    line[:, 0] += beside * slope / steep / (_STANDS * stake)
    rise = np.array([[0.0, 0.0, -0.3 * stake], [0.05, 0.05 * stake, 0.3 * stake], [0.25, 0.2 * stake, 0.8 * stake]])
    return np.vstack([catmull_rom(np.vstack([rise, line[:1]]), 5)[:-1], line])


def turned_down(basket: Basket, stake: float, weaver: float, down: float) -> Numbers:
    """A stake bent over the rim and led down outside to `down` mm below it, past the stakes its moves name."""
    foot = basket.foot
    past = sum(move.count for move in foot.spec.turned_down) if foot else 0
    at, out = past + 0.5, -(stake + weaver)
    knots = [(0.0, 0.0, -0.3 * stake), (0.08, 0.25 * stake, 0.35 * stake)]
    knots += [(step - 0.1, 1.0 * stake, 0.5 * stake) for step in range(1, past + 1)]
    knots += [(at - 0.2, 0.7 * stake, 1.0 * stake), (at - 0.05, -0.3 * stake, 1.4 * stake), (at, out, 0.2 * stake)]
    knots += [(at, out, -share * down) for share in (0.1, 0.3, 0.5, 0.75, 1.0)]
    return catmull_rom(np.array(knots), 6)
