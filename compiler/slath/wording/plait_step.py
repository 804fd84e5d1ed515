"""A plaited border told: how its sets are begun, how they pass over each other and in, and where the last ones go."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.basket.border_path import plait_last, plait_spares, plait_turns
from slath.units.counting import in_words, listed
from slath.wording.border_path import counted_rim, rim_of
from slath.wording.figure_names import border_pass_names

if TYPE_CHECKING:
    from slath.basket.model import WorkedBorder
    from slath.language.pattern import Plait
    from slath.wording.border_path import Rim
    from slath.wording.told import ToldStep
    from slath.wording.work import Work


def plait_step(work: Work, border: WorkedBorder, plait: Plait) -> ToldStep:
    """A plait of sets: one goes over the others outside and in, one comes out with the upright that is brought down."""
    voice, rim = work.voice, rim_of(work, border)
    sets, together = plait.over + 1, plait_turns(plait) * plait.group
    firsts = rim.these(list(range(1, sets + 1)))
    others = "the other one" if plait.over == 1 else f"the other {in_words(plait.over)}"
    inside = any(first > sets for first, _, _ in plait_spares(plait))
    with_inside = "; the set that lies inside comes out behind it and lies with it" if inside else ""
    actions = [
        f"Take the [stakes] {in_words(plait.group)} together." if plait.group > 1 else "",
        *_spares(plait, rim),
        f"Bend down {firsts} to the {voice.on}, one after another, each with what lies beside it as one set, flat along the edge.",
        f"Take the set furthest to the {voice.back}: over {others}, in front of the next upright, {rim.at(sets + 1)}, and in.",
        f"Bend that upright down over it, out to the front{with_inside}.",
        f"From now on the set furthest to the {voice.back} outside always goes over {others}, in front of the next upright and in.",
        "Each time, the set that lies inside then comes out behind that upright, and the upright is bent down with it.",
        f"Keep no more than {in_words(together)} in a set: when one more comes to it, leave its oldest inside."
        if together > plait.group
        else "",
        "Go on until none stands upright.",
        *_last_of_plait(plait, rim),
    ]
    return work.step(
        "border 1",
        "Plait the edge",
        actions,
        notes=["Keep all that is plaited together flat and side by side: a plait that twists shows its edge."],
        counts=[f"None of the {counted_rim(rim)} still stands."],
        figures=border_pass_names(border, 1),
        does=("border",),
        materials=tuple(dict.fromkeys(stake.material for stake in work.basket.stakes)),
    )


def _spares(plait: Plait, rim: Rim) -> list[str]:
    """Where the spare lengths are laid: beside those that begin outside, and the rest inside as a set of their own."""
    sets = plait.over + 1
    laid: dict[int, int] = {}
    for first, _, many in plait_spares(plait):
        laid[first] = laid.get(first, 0) + many
    told = [f"{in_words(many)} beside {rim.at(first)}" for first, many in laid.items() if first <= sets]
    inside = laid.get(sets + 1, 0)
    if inside:
        told.append(f"{in_words(inside)} inside, behind {rim.at(sets + 1)}, as a set of their own")
    many = plait.added * plait.over
    return [f"Lay in {in_words(many)} spare {'length' if many == 1 else 'lengths'}: {listed(told)}."] if told else []


def _last_of_plait(plait: Plait, rim: Rim) -> list[str]:
    """Where the last ones go, so that the plait closes: along the way of the sets the first began."""
    last = plait_last(plait, rim.count)
    if not last:
        return ["Thread the last ones under the first, along the way that makes the plait whole."]
    told = [f"in the set of {rim.at(first)}, {listed([str(number) for number in numbers])}" for first, numbers in last]
    drawn = "Draw out the spare lengths one by one, and thread" if plait.added else "Thread"
    return [f"{drawn} the last ones along the way of the first sets, over and under as they lie: {'; '.join(told)}."]
