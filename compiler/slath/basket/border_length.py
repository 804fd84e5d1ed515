"""How much stake a border takes above the weaving, by geometry of the path over the stakes it passes.

Taken up, part by part: the stake rises over the stakes that lie beside it and bends down; it runs along the rim past
others, changing face between them; its end lies past the stake it rests on, or goes down into the weave; and there must
be enough to hold on to. Lengths are of the centre line, mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.border_path import Leg, legs_of, parts_of, plait_turns
from slath.basket.model import WorkedBorder
from slath.basket.outline import ellipse_perimeter
from slath.language.pattern import Plait, Settings
from slath.units import Amount, Basis, worked

_PLAIT_SPACING = 19.05  # mm; a plaited border's published allowance is for stakes 3/4 in apart (Tinsley, Gill)
# Share of that allowance the plait itself takes, the rest being for the hand. Estimated from stakes that were cut shorter:
# Anna A. Gill, Practical Basketry (1916), models 39, 47, 50 and 58 leave 10 to 12 in at 0.6 to 1.2 in.
_PLAIT_ITSELF = 0.6


class BorderNeed(Struct, frozen=True):
    """Stake needed for a border: `needed` is the sum of `parts`. `given` is the designer's own allowance, if any."""

    needed: Amount
    parts: tuple[Amount, ...]
    given: Amount | None


def border_need(border: WorkedBorder, stake: Amount, spacing: Amount, settings: Settings) -> BorderNeed:
    """What one stake of thickness `stake` needs for `border` where uprights stand `spacing` apart at the rim, mm.

    The border must have a path (`border.passes` not empty).
    """
    path = border.spec.path
    given = _given("border allowance", border.spec.allowance_mm, (*path, "allowance"))
    plait = border.spec.plait
    if plait is not None:
        if plait.allowance_mm is not None:
            given = _given("border allowance", plait.allowance_mm, (*path, "allowance"))
        parts = _plait(border, plait, stake, spacing, settings)
    else:
        parts = _parts(border, stake, spacing, settings)
    total = math.fsum(part.value for part in parts)
    formula = " + ".join(part.name for part in parts)
    return BorderNeed(worked("stake for the border", total, "mm", formula, *parts, path=path), parts, given)


def _parts(border: WorkedBorder, stake: Amount, spacing: Amount, settings: Settings) -> tuple[Amount, ...]:
    legs = legs_of(border.spec)
    if border.spec.loop_height_mm is not None:
        return _loops(border, legs[0], border.spec.loop_height_mm, spacing, _end(border, stake, spacing, settings))
    parts = [_turned_down(legs[0], stake)]
    for worked_pass in border.passes:
        mine = [leg for leg in legs if leg.pass_number == worked_pass.number]
        along = math.fsum(along_mm(leg, spacing.value, stake.value) for leg in mine)
        along += math.fsum(_climb_mm(legs, leg, stake.value) for leg in mine)
        formula = f"way past {worked_pass.reach} stakes, over and under them"
        parts.append(
            worked(f"pass {worked_pass.number}", along, "mm", formula, spacing, stake, path=worked_pass.spec.path)
        )
    bend = settings["bend_allowance"]
    turns = len(legs) - 1
    if turns:
        parts.append(worked("turns between passes", turns * bend.value, "mm", f"{turns} × {bend.name}", bend))
    end = _end(border, stake, spacing, settings)
    parts.append(end)
    hold = (
        _given("hand hold", border.spec.hand_hold_mm, (*border.spec.path, "hand_hold")) or settings["border_hand_hold"]
    )
    extra = max(hold.value - end.value, 0.0)
    parts.append(
        worked("hand hold", extra, "mm", "length to hold, less the end already beyond the last stake", hold, end)
    )
    return tuple(parts)


def _loops(border: WorkedBorder, leg: Leg, high_mm: float, spacing: Amount, end: Amount) -> tuple[Amount, ...]:
    """A loop that stands up over the rim: half an ellipse from the stake to where its end goes down."""
    path = border.spec.path
    height = Amount("height of the loops", high_mm, "mm", Basis.GIVEN, path=(*path, "height"))
    span = len(leg.visits) * spacing.value
    half = ellipse_perimeter(max(span, 2 * high_mm), min(span, 2 * high_mm)) / 2
    formula = f"half an ellipse {len(leg.visits)} spaces wide"
    return (worked("loop", half, "mm", formula, spacing, height, path=path), end)


def along_mm(leg: Leg, spacing_mm: float, stake_mm: float) -> float:
    """The way of a leg along the rim: to the middle of the space it goes through at its end, or to the last stake it passes.

    From one stake to the next it crosses over the stakes that lie there one by one: a thickness up or down each time.
    """
    half = spacing_mm / 2
    crossing = crossing_mm(spacing_mm, 2 * stake_mm)
    parts = parts_of(leg)
    level = 0.0
    for part in parts[1:-1]:
        level += math.hypot(spacing_mm if part.left == part.right else crossing, stake_mm)
    first, last = parts[0], parts[-1]
    level += tangent_mm(spacing_mm, stake_mm) if first.arrives == "rises" else half
    if last is first:
        return level if first.arrives == "rises" else 0.0
    if last.sinks:
        return level + stake_mm  # round the stake, to the far side of it
    return level if last.left == last.right else level + crossing / 2


def crossing_mm(spacing_mm: float, apart_mm: float) -> float:
    """From the front of one stake to the back of the next, `apart_mm` between the centre lines of strand and stakes × 2.

    Two arcs of radius apart/2 and the straight line that touches both: with sin θ = apart/spacing, the length is
    √(spacing² − apart²) + apart·θ (F. T. Peirce, "The Geometry of Cloth Structure", J. Textile Inst. 28, 1937, one
    system straight). Stakes nearer than that jam: then a quarter turn round each.
    """
    if spacing_mm <= apart_mm:
        return apart_mm * math.pi / 2
    return math.sqrt(spacing_mm**2 - apart_mm**2) + apart_mm * math.asin(apart_mm / spacing_mm)


def tangent_mm(spacing_mm: float, radius_mm: float) -> float:
    """From a stake's own centre line to the side of the next stake, round which it lies at `radius_mm`."""
    if spacing_mm <= radius_mm:
        return radius_mm * math.pi / 2
    return math.sqrt(spacing_mm**2 - radius_mm**2) + radius_mm * math.asin(radius_mm / spacing_mm)


def _turned_down(first: Leg, stake: Amount) -> Amount:
    """Up over the stakes that lie there, then a quarter turn of one thickness radius, less what the turn moves along."""
    over = len(first.visits)
    value = stake.value * (over + 0.5 + math.pi / 2 - 2)
    formula = f"rise over {over} lying and a quarter turn, less the way the turn goes along the rim"
    return worked("turned down", value, "mm", formula, stake, path=())


def _climb_mm(legs: Sequence[Leg], leg: Leg, stake_mm: float) -> float:
    """Up one face and down the other of what lies on the rim, where a pass goes over the edge first."""
    if parts_of(leg)[0].arrives != "over the edge":
        return 0.0
    lying = sum(len(earlier.visits) for earlier in legs[: legs.index(leg)])
    return 2 * lying * stake_mm


def _end(border: WorkedBorder, stake: Amount, spacing: Amount, settings: Settings) -> Amount:
    last = border.passes[-1]
    path = border.spec.path
    if last.ending == "down":
        depth = (
            _given("depth of the end", last.spec.depth_mm, (*last.spec.path, "depth")) or settings["border_down_depth"]
        )
        if last.spec.comes_out:
            tail = _given("tail", border.spec.tail_mm, (*path, "tail")) or settings["border_tail"]
            value = stake.value * math.pi / 2 + depth.value + 3 * stake.value + tail.value
            formula = "a quarter turn + depth in the weave + the wall, three thicknesses + tail"
            return worked("end down and out through the side", value, "mm", formula, stake, depth, tail)
        value = stake.value * math.pi / 2 + depth.value
        return worked("end down beside a stake", value, "mm", "a quarter turn + depth in the weave", stake, depth)
    tail = _given("tail", border.spec.tail_mm, (*path, "tail")) or settings["border_tail"]
    if last.ending == "rolled":
        holding = len(last.visits)
        value = (holding + 0.5) * stake.value + tail.value
        return worked(
            "end under those laid over it", value, "mm", f"{holding} ends over it + half a stake + tail", stake, tail
        )
    if last.ending == "lies":
        value = stake.value / 2 + tail.value
        return worked("end past the last stake", value, "mm", "half a stake + tail", stake, tail)
    value = spacing.value / 2 + stake.value / 2 + tail.value
    return worked("end past the next stake", value, "mm", "half a space + half a stake + tail", spacing, stake, tail)


def _plait(
    border: WorkedBorder, plait: Plait, stake: Amount, spacing: Amount, settings: Settings
) -> tuple[Amount, ...]:
    """The published allowance or the way through the plait by geometry, whichever is more: the plait, and what is held."""
    hold = (
        _given("hand hold", border.spec.hand_hold_mm, (*border.spec.path, "hand_hold")) or settings["border_hand_hold"]
    )
    itself, held = _plait_published(spacing, settings)
    way = _plait_way(border, plait, stake, spacing, settings)
    if way.value + hold.value <= itself.value + held.value:
        return itself, held
    return way, replace(hold, name="hand hold")


def _plait_published(spacing: Amount, settings: Settings) -> tuple[Amount, Amount]:
    """The published allowance, never less; what the plait itself takes of it in proportion where stakes stand further apart
    than it was published for. A hand needs no more to hold for that.
    """
    allowance = settings["plait_allowance"]
    value = _PLAIT_ITSELF * allowance.value * max(spacing.value / _PLAIT_SPACING, 1.0)
    formula = "published allowance" + (" × spacing / 3/4 in" if spacing.value > _PLAIT_SPACING else "")
    itself = worked("plait", value, "mm", f"{_PLAIT_ITSELF:g} × {formula}", allowance, spacing)
    rest = (1 - _PLAIT_ITSELF) * allowance.value
    held = worked("hand hold", rest, "mm", f"{1 - _PLAIT_ITSELF:g} × published allowance", allowance)
    return itself, held


def _plait_way(border: WorkedBorder, plait: Plait, stake: Amount, spacing: Amount, settings: Settings) -> Amount:
    """The way of a stake through the plait: down, over and in as often as it goes, and its end inside.

    In each turn it lies over the sets it passes and changes face twice, round sets as thick as the groups that lie in them.
    """
    turns, passed = plait_turns(plait), plait.over + 2
    thick = turns * plait.group * stake.value
    each = (passed - 2) * spacing.value + 2 * crossing_mm(spacing.value, 2 * thick)
    tail = _given("tail", border.spec.tail_mm, (*border.spec.path, "tail")) or settings["border_tail"]
    down = stake.value * math.pi / 2 + thick
    value = down + turns * each + tail.value
    sets = Amount("groups lying in a set", turns, "count", Basis.COUNTED, path=plait.path)
    formula = (
        f"{turns} × over {passed} sets and in, changing face round {turns * plait.group} stakes each + down + tail"
    )
    return worked("plait", value, "mm", formula, spacing, stake, sets, tail, basis=Basis.ESTIMATED, path=plait.path)


def _given(name: str, value: float | None, path: tuple[str | int, ...]) -> Amount | None:
    return None if value is None else Amount(name, value, "mm", Basis.GIVEN, path=path)
