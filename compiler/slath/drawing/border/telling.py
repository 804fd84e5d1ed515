"""A border figure told in words that do without it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from operator import attrgetter

from slath.drawing.border.plait_telling import plait_words
from slath.drawing.border.stretch import Stretch
from slath.drawing.border.words import turn_said, under_said, ways_said
from slath.messages import Listed, Message, Numbers, message
from slath.plan.border_rows import BorderRow, border_rows
from slath.plan.places import Loop

_ONE_BY_ONE = 3  # things left loose that are each named; of more, runs of a kind


def border_title(stretch: Stretch) -> Message:
    """What the figure shows: "Border, row 2: before 3, in; the start"."""
    shown, foot = message(f"figure-border.shown-{stretch.phase}"), stretch.border.spec.foot
    if stretch.plait is not None:
        return message("figure-border.title-plaited", foot=foot, shown=shown)
    spec = stretch.worked.spec
    return message(
        "figure-border.title",
        foot=foot,
        row=stretch.worked.number if len(stretch.border.passes) > 1 else None,
        moves=Listed(tuple(message(f"figure-border.move-{move.way}", count=move.count) for move in spec.moves)),
        comes_out=spec.comes_out,
        shown=shown,
    )


def border_words(stretch: Stretch) -> Message:
    """The step in words, from which it can be worked without the figure."""
    seen = message("figure-border.seen", foot=stretch.border.spec.foot, side=stretch.sides[0], back=stretch.inside)
    tell = {"start": _start, "running": _running, "finish": _finish}[stretch.phase]
    said = plait_words(stretch, stretch.plait) if stretch.plait is not None else tell(stretch)
    return message("figure.sentences", all=Listed((seen, *said)))


def _turn(stretch: Stretch, row: BorderRow, number: int, place: int = 0) -> Message:
    """One of the turns of a unit in a row."""
    return turn_said(row.turns(number)[place], stretch.one, stretch.worked_from)


def _start(stretch: Stretch) -> Iterator[Message]:
    row = stretch.row
    if row.begins is not None:
        yield _turn_on(stretch, row)
    if len(row.turns(1)) > 1:
        laid = stretch.these(range(1, row.laid_first + 1))
        yield message("figure-border.first-bend", these=laid, turn=_turn(stretch, row, 1))
        yield from _moved_on(stretch, 1)
    else:
        yield message("figure-border.turn-made", turn=_turn(stretch, row, 1))
        yield message("figure-border.then-turn", turn=_turn(stretch, row, 2))
    if row.slack:
        yield message(
            "figure-border.leave-slack",
            slack=_slack(stretch),
            slack_count=len(row.slack),
            last=len(row.last_ones),
        )


def _slack(stretch: Stretch) -> Listed:
    """What is left loose, by name: "the loops of stakes 1 and 2 and the end of stake 1"."""
    told = []
    for kind in ("loop", "end", "roll"):
        numbers = tuple(sorted(loop.of.number for loop in stretch.row.slack if loop.kind == kind))
        if numbers:
            these = stretch.these(numbers)
            told.append(message(f"figure-border.slack-{kind}", numbers=Numbers(numbers), these=these))
    return Listed(tuple(told))


def _in_turn(slack: Sequence[Loop]) -> Listed:
    """What was left loose in the order it was made, of many runs of one kind together: "loop 1, then loop 2"."""
    runs = [(loop.kind, [loop]) for loop in slack]
    if len(slack) > _ONE_BY_ONE:
        runs = [(kind, list(run)) for kind, run in groupby(slack, key=attrgetter("kind"))]
    told = []
    for kind, run in runs:
        numbers = Numbers(tuple(loop.of.number for loop in run))
        told.append(message(f"figure-border.tight-{'loop' if kind == 'loop' else 'end'}", numbers=numbers))
    return Listed(tuple(told))


def _turn_on(stretch: Stretch, row: BorderRow) -> Message:
    """How a row begins with the ends of the one before."""
    first = row.bends[0].steps[0]
    before, after = first.gap.between
    return message(
        "figure-border.turn-on",
        flat=stretch.flat,
        inside=first.side == "inside",
        row=row.number,
        one=stretch.one,
        before=before,
        after=after,
    )


def _moved_on(stretch: Stretch, number: int) -> Iterator[Message]:
    """In a plain border: the stake that moves, and the upright brought down beside it."""
    one, near = stretch.one, stretch.worked_from
    moved = stretch.turns(number)[-1]
    yield message("figure-border.moves-on", one=one, number=number, ways=ways_said(moved, near))
    if moved.brings_down is not None:
        beside = moved.brings_down.number
        ways = ways_said(stretch.turns(beside)[0], near)
        yield message("figure-border.next-upright", one=one, number=beside, ways=ways)


def _running(stretch: Stretch) -> Iterator[Message]:
    number = stretch.number(stretch.picked)
    turn = _turn(stretch, stretch.row, number)
    if len(stretch.turns(number)) > 1:
        yield message("figure-border.when-down", turn=turn)
        yield from _moved_on(stretch, number)
    else:
        yield message("figure-border.turn-made", turn=turn)
    yield message("figure-border.every-one")


def _finish(stretch: Stretch) -> Iterator[Message]:
    rows, last = border_rows(stretch.border), stretch.row.last_ones
    if last:
        yield message("figure-border.last-ones", count=len(last))
        for bend in last:
            turn = turn_said(bend, stretch.one, stretch.worked_from)
            yield message("figure-border.last-turn", turn=turn, under=under_said(bend))
        yield message("figure-border.pull-tight", slack=_in_turn(stretch.row.slack))
    else:
        turn = turn_said(stretch.row.bends[-1], stretch.one, stretch.worked_from)
        yield message("figure-border.turn-made", turn=turn)
        yield message("figure-border.none-threaded")
    if stretch.row.number < len(rows):
        yield _turn_on(stretch, rows[stretch.row.number])
