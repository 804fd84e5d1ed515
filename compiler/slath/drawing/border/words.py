"""What each end of a border does, for the notes and texts of its figures, from the same acts as the steps."""

from __future__ import annotations

from collections.abc import Sequence

from slath.messages import Listed, Message, Numbers, message
from slath.plan.acts import Bend, Pass
from slath.plan.places import Loop


def ways_said(bend: Bend, near: str = "outside") -> Listed:
    """Where one turn goes: "behind 4 and 5, out between 5 and 6". `near` is the side the maker looks at."""
    told = [message("figure-border.over-the-top")] if bend.over_top else []
    for done, run in bend.runs:
        across = bend.entries.get(done, ())
        if across:
            way = _through(run[0].side, near)
            told.append(message("figure-border.through-under", way=way, under=under_these(across)))
        told.append(past_said(run, near))
    return Listed((*told, ending_said(bend, near)))


def past_said(run: Sequence[Pass], near: str = "outside") -> Message:
    """What is passed in one go: "behind 4 and 5", "over the end of 4"."""
    numbers = Numbers(tuple(passed.of.number for passed in run))
    if run[0].end:
        return message("figure-border.past-ends", over=run[0].end == "over", numbers=numbers)
    return message("figure-border.past", front=run[0].side == near, numbers=numbers)


def _through(side: str, near: str) -> Message:
    """The way through a space to a side; to one who looks at the inside all goes through to the outside."""
    if side == near:
        return message("figure-border.way-out")
    return message("figure-border.way-in" if side == "inside" else "figure-border.way-through")


def turn_said(bend: Bend, one: Message, near: str = "outside") -> Message:
    """One turn of one stake: "stake 3 goes behind 4 and 5, out between 5 and 6"."""
    return message(
        "figure-border.turn",
        end=bend.loop.kind != "loop",
        one=one,
        number=bend.loop.of.number,
        ways=ways_said(bend, near),
    )


def ending_said(bend: Bend, near: str = "outside") -> Message:
    """How a turn ends and where: "out between 3 and 4", "in between 3 and 4, under loop 3"."""
    last = bend.steps[-1]
    before, after = last.gap.between
    if bend.ending == "lies":
        return message("figure-border.rests", after=after)
    passed = bend.passes[-1] if bend.passes else None
    if bend.ending == "rolled" or (bend.ending == "down" and passed is not None and passed.end):
        return message("figure-border.down-between", before=before, after=after)
    if bend.ending == "down":
        return message("figure-border.down-beside", before=before)  # Gill (1916)
    across = bend.entries.get(len(bend.passes), ())
    return message(
        "figure-border.between",
        way=_through(last.side, near),
        before=before,
        after=after,
        under=under_these(across),
    )


def under_said(bend: Bend) -> Message | None:
    """What a turn is threaded under because work has come round: "under loops 1 and 2 and under the end of 1"."""
    return under_these(bend.threaded)


def under_these(loops: Sequence[Loop]) -> Message | None:
    """Loops, ends and rolls apart, each by number; None where there are none."""
    said = []
    for kind in ("loop", "end", "roll"):
        numbers = tuple(sorted(loop.of.number for loop in loops if loop.kind == kind))
        if numbers:
            said.append(message(f"figure-border.under-{kind}", numbers=Numbers(numbers)))
    return message("figure-border.under", loops=Listed(tuple(said))) if said else None
