"""What each end of a border does, in words for the notes and texts of its figures, from the same acts as the steps."""

from __future__ import annotations

from collections.abc import Sequence

from slath.plan.acts import Bend, Pass
from slath.plan.places import Loop
from slath.units.counting import in_spans, listed


def way_words(bend: Bend, near: str = "outside") -> str:
    """Where one turn goes: "behind 4 and 5, out between 5 and 6". `near` is the side the maker looks at."""
    told = ["over the top"] if bend.over_top else []
    for done, run in bend.runs:
        across = bend.entries.get(done, ())
        if across:
            told.append(f"{_through(run[0].side, near)} {under_these(across)}")
        told.append(past_words(run, near))
    return ", ".join([*told, ending_words(bend, near)])


def past_words(run: Sequence[Pass], near: str = "outside") -> str:
    """What is passed in one go: "behind 4 and 5", "over the end of 4"."""
    numbers = in_spans([passed.of.number for passed in run])
    if run[0].end:
        return f"{run[0].end} the end{'s' if len(run) > 1 else ''} of {numbers}"
    return f"{'before' if run[0].side == near else 'behind'} {numbers}"


def _through(side: str, near: str) -> str:
    """The way through a space to a side; to one who looks at the inside all goes through to the outside."""
    return "out" if side == near else "in" if side == "inside" else "through"


def turn_words(bend: Bend, one: str = "stake", near: str = "outside") -> str:
    """One turn of one stake: "stake 3 goes behind 4 and 5, out between 5 and 6"."""
    whose = "" if bend.loop.kind == "loop" else "the end of "
    return f"{whose}{one} {bend.loop.of.number} goes {way_words(bend, near)}"


def ending_words(bend: Bend, near: str = "outside") -> str:
    """How a turn ends and where: "out between 3 and 4", "in between 3 and 4, under loop 3"."""
    last = bend.steps[-1]
    a, b = last.gap.between
    if bend.ending == "rolled":
        return f"down between {a} and {b}"
    if bend.ending == "down":
        passed = bend.passes[-1] if bend.passes else None
        return f"down between {a} and {b}" if passed is not None and passed.end else f"down beside {a}"  # Gill (1916)
    if bend.ending == "lies":
        return f"rests on {b}"
    across = bend.entries.get(len(bend.passes), ())
    under = f", {under_these(across)}" if across else ""
    return f"{_through(last.side, near)} between {a} and {b}{under}"


def under_words(bend: Bend) -> str:
    """What a turn is threaded under because work has come round: "under loops 1 and 2 and under the end of 1"."""
    return under_these(bend.threaded) or "as before"


def under_these(loops: Sequence[Loop]) -> str:
    """Loops, ends and rolls apart, each by number."""
    said = []
    for kind, one, many in (("loop", "loop", "loops"), ("end", "the end of", "the ends of"), ("roll", "the roll of", "the rolls of")):  # fmt: skip
        numbers = sorted(loop.of.number for loop in loops if loop.kind == kind)
        if numbers:
            said.append(f"under {one if len(numbers) == 1 else many} {in_spans(numbers)}")
    return listed(said)


def sentence(words: str) -> str:
    """A clause as a sentence."""
    return f"{words[0].upper()}{words[1:]}."
