"""A plaited border told: how its sets are begun, how they pass over each other and in, and where the last ones go."""

from __future__ import annotations

from slath.basket.border_path import plait_last, plait_spares, plait_turns
from slath.basket.model import WorkedBorder
from slath.language.pattern import Plait
from slath.messages import Listed, Message, message
from slath.wording.border_path import Rim, rim_of
from slath.wording.figure_names import border_pass_names
from slath.wording.told import ToldStep
from slath.wording.work import Work


def plait_step(work: Work, border: WorkedBorder, plait: Plait) -> ToldStep:
    """A plait of sets: one goes over the others outside and in, one comes out with the upright that is brought down."""
    rim = rim_of(work, border)
    sets, together = plait.over + 1, plait_turns(plait) * plait.group
    others = message("border.the-others", count=plait.over)
    inside = any(first > sets for first, _, _ in plait_spares(plait))
    actions = [
        message("border.take-together", count=plait.group) if plait.group > 1 else None,
        *_spares(plait, rim),
        message("border.bend-sets", these=rim.these(range(1, sets + 1))),
        message("border.take-set", others=others, one=rim.at(sets + 1)),
        message("border.bend-over-it", inside=inside),
        message("border.always-over", others=others),
        message("border.comes-out-again"),
        message("border.no-more-than", count=together) if together > plait.group else None,
        message("border.none-upright", left=None, many=False),
        _last_of_plait(plait, rim),
    ]
    return work.step(
        "border 1",
        message("border.plait"),
        actions,
        notes=[message("border.flat-side-by-side")],
        counts=[message("border.none-of-counted", counted=rim.counted)],
        figures=border_pass_names(border, 1),
        does=("border",),
        materials=tuple(dict.fromkeys(stake.material for stake in work.basket.stakes)),
    )


def _spares(plait: Plait, rim: Rim) -> list[Message]:
    """Where the spare lengths are laid: beside those that begin outside, and the rest inside as a set of their own."""
    sets = plait.over + 1
    laid: dict[int, int] = {}
    for first, _, many in plait_spares(plait):
        laid[first] = laid.get(first, 0) + many
    told = [
        message("border.spares-beside", count=many, one=rim.at(first)) for first, many in laid.items() if first <= sets
    ]
    inside = laid.get(sets + 1, 0)
    if inside:
        told.append(message("border.spares-inside", count=inside, one=rim.at(sets + 1)))
    if not told:
        return []
    return [message("border.spares", count=plait.added * plait.over, places=Listed(tuple(told)))]


def _last_of_plait(plait: Plait, rim: Rim) -> Message:
    """Where the last ones go, so that the plait closes: along the way of the sets the first began."""
    last = plait_last(plait, rim.count)
    if not last:
        return message("border.thread-under-first")
    told = [
        message("border.in-set", one=rim.at(first), numbers=len(numbers), these=rim.these(numbers))
        for first, numbers in last
    ]
    return message("border.thread-last", spares=bool(plait.added), sets=Listed(tuple(told)))
