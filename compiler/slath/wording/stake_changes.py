"""Changes of the stakes part-way up a side: added, left out, parted, crossed or taken together anew."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.messages import Numbers, message

if TYPE_CHECKING:
    from slath.language.pattern import StakeChange
    from slath.wording.told import Clause, ToldStep
    from slath.wording.work import Work


def change_step(work: Work, place: int) -> ToldStep:
    """The change of the stakes that comes at this place among them; `before` uprights there were, `after` there are."""
    changes = work.basket.changes
    _, change, after = changes[place]
    before = changes[place - 1][2] if place else work.basket.working
    tellers = {
        "add": [
            message("changes.cut-one-end-of-each"),
            message(
                "changes.push-one-down-into-the",
                where=_where(change, before, after),
                depth=work.length_setting("bye_stake_depth"),
            ),
            message("changes.part-the-two-as-you"),
        ],
        "drop": [
            message("changes.cut-away-just-above-the", dropped=_dropped(change, before, after)),
            message("changes.let-the-ends-lie-behind"),
        ],
        "part": [
            message("changes.part-the-groups-so-that")
            if change.count <= 1
            else message("changes.part-the-groups-so-that-2", count=change.count),
            message("changes.space-them-evenly-in-the"),
        ],
        "cross": [
            message("changes.cross-each-stake-over-its")
            if change.count <= 1
            else message("changes.cross-each-stake-over-the", count=change.count),
            message("changes.hold-each-crossing-until-the"),
        ],
    }
    tellers["regroup"] = [
        message("changes.part-every-group-and-take"),
        message("changes.the-first-group-begins-with", first=change.first, count=max(change.count, 1)),
        message("changes.space-the-new-groups-evenly"),
    ]
    titles = {
        "regroup": message("changes.take-the-stakes-together-anew"),
        "add": message("changes.add-stakes"),
        "drop": message("changes.leave-stakes-out"),
        "part": message("changes.part-the-stakes"),
        "cross": message("changes.cross-the-stakes"),
    }
    anew = message("changes.from-here-on-number-them") if after != before else None
    return work.step(
        f"change {change.action}",
        titles[change.action],
        [*tellers[change.action], anew],
        counts=[message("changes.uprights-are-to-be-woven", after=after)],
        does={"add": ("point", "stake"), "drop": ("cut", "trim")}.get(change.action, ("weave",)),
        materials=(change.material,) if change.material else (),
    )


def _dropped(change: StakeChange, before: int, after: int) -> Clause:
    """Which stakes are cut away."""
    numbers = sorted(change.stakes) if change.beside == "listed" else _spread(before, before - after)
    return message("changes.stakes", numbers=Numbers(tuple(numbers)))


def _where(change: StakeChange, before: int, after: int) -> Clause:
    """Beside which of the stakes, as the construction spreads them."""
    added = after - before
    if change.beside != "listed" and added == before:
        return message("changes.beside-each-stake")
    numbers = sorted(change.stakes) if change.beside == "listed" else _spread(before, added)
    return message("changes.beside-stakes", numbers=Numbers(tuple(numbers)))


def _spread(uprights: int, count: int) -> list[int]:
    """The numbers of `count` uprights spread evenly among all, as the construction takes them."""
    return [
        number for number in range(1, uprights + 1) if number * count // uprights > (number - 1) * count // uprights
    ]
