"""Changes of the stakes part-way up a side: added, left out, parted, crossed or taken together anew."""

from __future__ import annotations

from slath.language.pattern import StakeChange
from slath.messages import Message, Numbers, message
from slath.plan.acts import Recount
from slath.plan.places import Place
from slath.wording.told import Clause, ToldStep
from slath.wording.work import Work


def change_step(work: Work, place: int) -> ToldStep:
    """The change of the stakes that comes at this place among them; `before` uprights there were, `after` there are."""
    changes = work.basket.changes
    _, change, after = changes[place]
    act = next(one for one in reversed(work.acts(f"change {place + 1}")) if isinstance(one, Recount))
    before = changes[place - 1][2] if place else work.basket.working
    tellers: dict[str, list[Clause]] = {
        "add": [
            message("changes.cut-one-end-of-each"),
            message(
                "changes.push-one-down-into-the",
                where=_where(act),
                depth=work.length_setting("bye_stake_depth"),
            ),
            message("changes.part-the-two-as-you"),
        ],
        "drop": [
            message("changes.cut-away-just-above-the", dropped=message("changes.stakes", numbers=_numbers(act.gone))),
            message("changes.let-the-ends-lie-behind"),
        ],
        "part": [
            message("changes.part-the-groups-so-that")
            if change.count <= 1
            else message("changes.part-the-groups-so-that-2", count=change.count),
            message("changes.space-them-evenly-in-the") if _woven_next(work, place) else None,
        ],
        "cross": [
            _crossing(change, before),
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


def _woven_next(work: Work, place: int) -> bool:
    """Whether weaving follows a change at once, and neither another change nor a height left open."""
    index, _, _ = work.basket.changes[place]
    bands, following = work.basket.bands, work.basket.changes[place + 1 : place + 2]
    changed_again = bool(following) and following[0][0] == index
    return not changed_again and index < len(bands) and bands[index].spec.weave.kind != "open"


def _crossing(change: StakeChange, standing: int) -> Message:
    """The first that cross, and what they cross over; then the next, all round."""
    over = max(change.count, 1)

    def those(first: int) -> Numbers:
        return Numbers(tuple((first + step - 1) % standing + 1 for step in range(over)))

    one, other, after, last = (those(change.first + place * over) for place in range(4))
    return message("changes.cross-one-over-another", one=one, other=other, next=after, last=last)


def _where(act: Recount) -> Clause:
    """Beside which of the stakes, in the numbers that hold until then."""
    numbers = dict.fromkeys(act.beside)
    if act.beside and len(numbers) == act.beside[0].numbering.count:
        return message("changes.beside-each-stake")
    return message("changes.beside-stakes", numbers=_numbers(tuple(numbers)))


def _numbers(places: tuple[Place, ...]) -> Numbers:
    return Numbers(tuple(place.number for place in places))
