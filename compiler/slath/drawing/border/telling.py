"""A border figure told in words that do without it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from operator import attrgetter

from slath.drawing.border.plait_telling import plait_words
from slath.drawing.border.stretch import Stretch
from slath.drawing.border.words import sentence, turn_words, under_words, way_words
from slath.plan.border_rows import BorderRow, border_rows
from slath.units.counting import in_spans, listed

_ONE_BY_ONE = 3  # things left loose that are each named; of more, runs of a kind


def border_title(stretch: Stretch) -> str:
    """What the figure shows: "Border, row 2: before 3, in; the start"."""
    moves = ", ".join(f"{move.way} {move.count}" if move.count else move.way for move in stretch.worked.spec.moves)
    moves += ", out through the side" if stretch.worked.spec.comes_out else ""
    shown = {"start": "the start", "running": "one whole way", "finish": "the finish"}[stretch.phase]
    if stretch.plait is not None:
        return f"{'Plaited foot border' if stretch.border.spec.foot else 'Plaited border'}; {shown}"
    stem = "Foot border" if stretch.border.spec.foot else "Border"
    row = f"row {stretch.worked.number}: " if len(stretch.border.passes) > 1 else ""
    return f"{stem}, {row}{moves}; {shown}"


def border_words(stretch: Stretch) -> str:
    """The step in words, from which it can be worked without the figure."""
    options = stretch.options
    near = stretch.seen_from
    held = "Held upside down, seen" if stretch.border.spec.foot else "Seen"
    to = options.left if stretch.inside else options.right
    towards = ", and behind is the side towards you" if stretch.inside else ""
    said = [f"{held} from {near} and above; the work runs to the {to}{towards}."]
    if stretch.plait is not None:
        return " ".join([*said, *plait_words(stretch, stretch.plait)])
    tell = {"start": _start, "running": _running, "finish": _finish}[stretch.phase]
    return " ".join([*said, *tell(stretch)])


def _one(stretch: Stretch) -> str:
    """What is worked as one: "stake", "pair", "group"."""
    return {1: stretch.options.term("stake"), 2: "pair"}.get(stretch.together, "group")


def _many(stretch: Stretch) -> str:
    return {1: stretch.options.term("stakes"), 2: "pairs"}.get(stretch.together, "groups")


def _these(stretch: Stretch, numbers: list[int]) -> str:
    return f"{_one(stretch) if len(numbers) == 1 else _many(stretch)} {in_spans(numbers)}"


def _start(stretch: Stretch) -> Iterator[str]:
    one = _one(stretch)
    turns = stretch.turns(1)
    if stretch.row.begins is not None:
        yield _turn_on(stretch, stretch.row)
    if len(turns) > 1:
        laid = list(range(1, stretch.row.laid_first + 1))
        yield f"First bend down {_these(stretch, laid)} in order: {turn_words(turns[0], one, stretch.worked_from)}, and each after it alike."
        yield from _moved_on(stretch, 1)
    else:
        yield sentence(turn_words(turns[0], one, stretch.worked_from))
        yield f"Then {turn_words(stretch.turns(2)[0], one, stretch.worked_from)}, and so on, one after another."
    slack = stretch.row.slack
    if slack:
        them = "them" if len(slack) > 1 else "it"
        last = "the last ones are" if len(stretch.row.last_ones) > 1 else "the last one is"
        yield f"Leave {_slack(stretch)} loose: {last} threaded under {them}."


def _slack(stretch: Stretch) -> str:
    """What is left loose, by name: "the loops of stakes 1 and 2 and the end of stake 1"."""
    told = []
    for kind, name in (("loop", "loop"), ("end", "end"), ("roll", "roll")):
        numbers = [loop.of.number for loop in stretch.row.slack if loop.kind == kind]
        if numbers:
            told.append(f"the {name}{'s' if len(numbers) > 1 else ''} of {_these(stretch, sorted(numbers))}")
    return listed(told)


def _in_turn(stretch: Stretch) -> str:
    """What was left loose in the order it was made, of many runs of one kind together: "loop 1, then loop 2"."""
    names = {"loop": ("loop", "loops"), "end": ("the end of", "the ends of"), "roll": ("the end of", "the ends of")}
    told = []
    slack = stretch.row.slack
    runs = [(loop.kind, [loop]) for loop in slack]
    if len(slack) > _ONE_BY_ONE:
        runs = [(kind, list(run)) for kind, run in groupby(slack, key=attrgetter("kind"))]
    for kind, run in runs:
        told.append(f"{names[kind][len(run) > 1]} {in_spans([loop.of.number for loop in run])}")
    return ", then ".join(told)


def _turn_on(stretch: Stretch, row: BorderRow) -> str:
    """How a row begins with the ends of the one before."""
    first = row.bends[0].steps[0]
    a, b = first.gap.between
    lie = ("in front" if first.side == "outside" else "at the back") if stretch.flat else first.side
    return f"All ends lie {lie} now; row {row.number} begins with the end of {_one(stretch)} 1, between {a} and {b}."


def _moved_on(stretch: Stretch, number: int) -> Iterator[str]:
    """In a plain border: the stake that moves, and the upright brought down beside it."""
    one = _one(stretch)
    moved = stretch.turns(number)[-1]
    yield f"Then the end of {one} {number} moves on: {way_words(moved, stretch.worked_from)}."
    if moved.brings_down is not None:
        beside = moved.brings_down.number
        yield f"The next upright, {one} {beside}, is bent down beside it: {way_words(stretch.turns(beside)[0], stretch.worked_from)}."


def _running(stretch: Stretch) -> Iterator[str]:
    number = stretch.number(stretch.picked)
    turns = stretch.turns(number)
    one = _one(stretch)
    if len(turns) > 1:
        yield sentence(f"{turn_words(turns[0], one, stretch.worked_from)} when it is bent down")
        yield from _moved_on(stretch, number)
    else:
        yield sentence(turn_words(turns[0], one, stretch.worked_from))
    yield "Every one in turn does the same."


def _finish(stretch: Stretch) -> Iterator[str]:
    one, rows = _one(stretch), border_rows(stretch.border)
    last = stretch.row.last_ones
    if last:
        yield (
            "The last ones do as the others did, but each is threaded under what lies there already, in this order."
            if len(last) > 1
            else "The last one does as the others did, but is threaded under what lies there already."
        )
        for bend in last:
            on_its_way = f"; on its way it passes {under_words(bend)}" if bend.threaded else ""
            yield sentence(f"{turn_words(bend, one, stretch.worked_from)}{on_its_way}")
        yield f"Then pull tight {_in_turn(stretch)}."
    else:
        yield sentence(turn_words(stretch.row.bends[-1], one, stretch.worked_from))
        yield "The last ones do as the others did; none needs threading."
    if stretch.row.number < len(rows):
        yield _turn_on(stretch, rows[stretch.row.number])
