"""A plaited border in notes and words: out, over the other sets, in, and out again until a group is left inside."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.border_path import plait_last, plait_spares
from slath.drawing.border.rods import seen
from slath.drawing.border.spots import spot_on
from slath.drawing.border.stretch import Stretch, Window
from slath.drawing.border.words import sentence, way_words
from slath.drawing.paint.rods import Rod
from slath.drawing.plate.note_blocks import Note
from slath.language.pattern import Plait
from slath.plan.acts import Bend
from slath.units.counting import counted, in_spans


def plait_notes(stretch: Stretch, window: Window, rods: list[Rod], plait: Plait) -> Iterator[Note]:
    """Notes along the way of the group picked out; at the finish where each of the last ones is left inside."""
    if stretch.phase == "finish":
        for stake in stretch.finishers:
            sight = seen(rods, stake, window.sides)
            spot = spot_on(sight, stretch, window, stake, stretch.mine[-1].ends + 0.7, 1.0)
            yield Note(f"{stretch.number(stake)} left inside", (spot,))
        return
    stake = stretch.picked
    sight = seen(rods, stake, window.sides)
    made = stretch.done(stake)
    for place, (way, leg) in enumerate(zip(stretch.turns(stretch.number(stake)), stretch.mine, strict=True)):
        if place >= made:
            break
        a, b = way.steps[-1].gap.between
        if place % 2:
            last = " and left there" if place + 1 == len(stretch.mine) else ""
            at, words = leg.ends + 0.05, f"over and in between {a} and {b}{last}"
        else:
            again = "out again, with the upright," if place else "out"
            at, words = leg.ends + 0.6, f"{again} between {a} and {b}"
        yield Note(words, (spot_on(sight, stretch, window, stake, at, 0.5),))
    if stretch.phase == "start":
        yield from _spare_notes(stretch, window, rods)
        down = stretch.picked + plait.over + 1
        yield Note(
            f"then {down} down over it",
            (spot_on(seen(rods, down, window.sides), stretch, window, down, 0.4, 0.6),),
        )


def _spare_notes(stretch: Stretch, window: Window, rods: list[Rod]) -> Iterator[Note]:
    """What the plait is begun with, where most of it is in sight."""
    spots = []
    for first in dict.fromkeys(first for first, _, _ in stretch.stand_ins()):
        sight = seen(rods, f"spare {first}", window.sides)
        longest = max(sight.stretches(0.5 * window.stake), key=len, default=None)
        if longest is not None:
            x, y, _ = longest[len(longest) // 2].tolist()
            spots.append((x, y))
    if spots:
        many = sum(together for _, _, together in stretch.stand_ins())
        yield Note(counted(many, "spare length", "spare lengths"), tuple(spots))


def plait_words(stretch: Stretch, plait: Plait) -> Iterator[str]:
    """The step in words, from which it can be worked without the figure."""
    one = {1: stretch.options.term("stake"), 2: "pair"}.get(stretch.together, "group")
    if stretch.phase == "finish":
        yield from _finish(stretch, plait, one)
        return
    number = stretch.number(stretch.picked)
    turns = stretch.turns(number)
    if stretch.phase == "start":
        yield from _start(plait, turns[1], one)
        return
    yield sentence(f"{one} {number} comes down, {way_words(turns[0])}")
    for out, goes_in in zip([*turns[2::2], None], turns[1::2], strict=True):
        yield f"When its set is the one furthest back outside, it goes over {_others(plait)}, {way_words(goes_in)}."
        if out is not None:
            yield f"It comes out again {way_words(out)}, as the upright there is brought down with it."
    yield f"There it is left inside. Every {one} in turn does the same."


def _start(plait: Plait, goes_in: Bend, one: str) -> Iterator[str]:
    sets = plait.over + 1
    spares = plait_spares(plait)
    beside = sorted({first for first, _, _ in spares if first <= sets})
    if beside:
        yield f"Spare lengths lie beside {one}{'s' if len(beside) > 1 else ''} {in_spans(beside)}."
    inside = any(first > sets for first, _, _ in spares)
    if inside:
        yield f"The other spare lengths lie inside, behind {one} {sets + 1}, as a set of their own."
    yield f"Bend down {one}s {in_spans(list(range(1, sets + 1)))} in order, each with what lies beside it as one set, out in the space after it."
    yield f"Then set 1 goes over {_others(plait)}, {way_words(goes_in)}."
    out = ", and the set from inside comes out with it" if inside else ""
    yield f"Bend {one} {sets + 1} down over it, out between {sets + 1} and {sets + 2}{out}."
    yield "From now on the set that lies inside comes out with each upright that is brought down."


def _others(plait: Plait) -> str:
    return "the other set" if plait.over == 1 else f"the other {plait.over} sets"


def _finish(stretch: Stretch, plait: Plait, one: str) -> Iterator[str]:
    """Which of the last ones take the places of what the plait began with."""
    yield "Plait until no upright stands. Then the last ones go on along the way of the first ones, over and under as they lie."
    if plait.added:
        yield "Draw out each spare length as you come to it, and thread in its place the one it stood in for."
    for beside, last in plait_last(plait, stretch.border.count):
        yield f"In the set that {one} {beside} began {'goes' if len(last) == 1 else 'go'} {in_spans(last)}."
    yield "Leave each inside where its own way ends."
