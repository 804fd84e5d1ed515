"""Changes of the stakes part-way up a side: added, left out, parted, crossed or taken together anew."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.units.counting import in_spans, in_words
from slath.wording.speech import many

if TYPE_CHECKING:
    from slath.language.pattern import StakeChange
    from slath.wording.told import ToldStep
    from slath.wording.work import Work


def change_step(work: Work, place: int) -> ToldStep:
    """The change of the stakes that comes at this place among them; `before` uprights there were, `after` there are."""
    voice, changes = work.voice, work.basket.changes
    _, change, after = changes[place]
    before = changes[place - 1][2] if place else work.basket.working
    tellers = {
        "add": [
            "Cut one end of each new [stake] to a [slype].",
            f"Push one down into the weaving {_where(change, before, after)}, on its {voice.on}, {work.setting('bye_stake_depth')} deep; open a way with the [bodkin].",
            "Part the two as you weave, so that each comes to stand alone.",
        ],
        "drop": [
            f"Cut away {_dropped(change, before, after)}, just above the weaving.",
            "Let the ends lie behind the last round.",
        ],
        "part": [
            "Part the groups, so that each [stake] stands alone."
            if change.count <= 1
            else f"Part the groups, so that {many(change.count, 'stake')} stand together.",
            "Space them evenly in the next round.",
        ],
        "cross": [
            f"Cross each [stake] over its neighbour to the {voice.on}."
            if change.count <= 1
            else f"Cross each [stake] over the next {in_words(change.count)} to the {voice.on}.",
            "Hold each crossing until the next round has passed it.",
        ],
    }
    tellers["regroup"] = [
        "Part every group, and take its [stakes] together with those of its neighbours.",
        f"The first group begins with [stake] {change.first}: take {many(max(change.count, 1), 'stake')} together, and so on all round.",
        "Space the new groups evenly, each above the middle between two of the old ones.",
    ]
    titles = {
        "regroup": "Take the [stakes] together anew",
        "add": "Add [stakes]",
        "drop": "Leave [stakes] out",
        "part": "Part the [stakes]",
        "cross": "Cross the [stakes]",
    }
    anew = f"From here on number them anew, from the one with the thread to the {voice.on}." if after != before else ""
    return work.step(
        f"change {change.action}",
        titles[change.action],
        [*tellers[change.action], anew],
        counts=[f"{after} uprights are to be woven from here on."],
        does={"add": ("point", "stake"), "drop": ("cut", "trim")}.get(change.action, ("weave",)),
        materials=(change.material,) if change.material else (),
    )


def _dropped(change: StakeChange, before: int, after: int) -> str:
    """Which stakes are cut away."""
    numbers = sorted(change.stakes) if change.beside == "listed" else _spread(before, before - after)
    return f"[stakes] {in_spans(numbers)}" if len(numbers) > 1 else f"[stake] {in_spans(numbers)}"


def _where(change: StakeChange, before: int, after: int) -> str:
    """Beside which of the stakes, as the construction spreads them."""
    added = after - before
    if change.beside != "listed" and added == before:
        return "beside each [stake]"
    numbers = sorted(change.stakes) if change.beside == "listed" else _spread(before, added)
    return f"beside [stakes] {in_spans(numbers)}" if len(numbers) > 1 else f"beside [stake] {in_spans(numbers)}"


def _spread(uprights: int, count: int) -> list[int]:
    """The numbers of `count` uprights spread evenly among all, as the construction takes them."""
    return [
        number for number in range(1, uprights + 1) if number * count // uprights > (number - 1) * count // uprights
    ]
