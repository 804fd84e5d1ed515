"""A plaited border in notes and words: out, over the other sets, in, and out again until a group is left inside."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.border_path import plait_last, plait_spares
from slath.drawing.border.rods import seen
from slath.drawing.border.spots import spot_on
from slath.drawing.border.stretch import Stretch, Window
from slath.drawing.border.words import ways_said
from slath.drawing.paint.rods import Rod
from slath.drawing.plate.note_blocks import Note
from slath.language.pattern import Plait
from slath.messages import Message, message
from slath.messages.values import Numbers as ByNumber
from slath.plan.acts import Bend


def plait_notes(stretch: Stretch, window: Window, rods: list[Rod], plait: Plait) -> Iterator[Note]:
    """Notes along the way of the group picked out; at the finish where each of the last ones is left inside."""
    if stretch.phase == "finish":
        for stake in stretch.finishers:
            sight = seen(rods, stake, window.sides)
            spot = spot_on(sight, stretch, window, stake, stretch.mine[-1].ends + 0.7, 1.0)
            inside = message("figure-border.plait-inside", number=stretch.number(stake))
            yield Note(stretch.options.say(inside), (spot,))
        return
    stake = stretch.picked
    sight = seen(rods, stake, window.sides)
    made = stretch.done(stake)
    for place, (way, leg) in enumerate(zip(stretch.turns(stretch.number(stake)), stretch.mine, strict=True)):
        if place >= made:
            break
        before, after = way.steps[-1].gap.between
        if place % 2:
            last = place + 1 == len(stretch.mine)
            at, said = leg.ends + 0.05, message("figure-border.plait-in", before=before, after=after, last=last)
        else:
            at, said = (
                leg.ends + 0.6,
                message("figure-border.plait-out", before=before, after=after, again=place > 0),
            )
        yield Note(stretch.options.say(said), (spot_on(sight, stretch, window, stake, at, 0.5),))
    if stretch.phase == "start":
        yield from _spare_notes(stretch, window, rods)
        down = stretch.picked + plait.over + 1
        yield Note(
            stretch.options.say(message("figure-border.plait-down", number=down)),
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
        yield Note(stretch.options.say(message("figure-border.plait-spares", count=many)), tuple(spots))


def plait_words(stretch: Stretch, plait: Plait) -> Iterator[Message]:
    """The step in words, from which it can be worked without the figure."""
    if stretch.phase == "finish":
        yield from _finish(stretch, plait)
        return
    number = stretch.number(stretch.picked)
    turns = stretch.turns(number)
    if stretch.phase == "start":
        yield from _start(stretch, plait, turns[1])
        return
    yield message("figure-border.plait-comes-down", one=stretch.one, number=number, ways=ways_said(turns[0]))
    for out, goes_in in zip([*turns[2::2], None], turns[1::2], strict=True):
        yield message("figure-border.plait-goes-in", count=plait.over, ways=ways_said(goes_in))
        if out is not None:
            yield message("figure-border.plait-out-again", ways=ways_said(out))
    yield message("figure-border.plait-left", one=stretch.one)


def _start(stretch: Stretch, plait: Plait, goes_in: Bend) -> Iterator[Message]:
    sets, one = plait.over + 1, stretch.one
    spares = plait_spares(plait)
    beside = sorted({first for first, _, _ in spares if first <= sets})
    if beside:
        yield message("figure-border.plait-beside", these=stretch.these(beside))
    inside = any(first > sets for first, _, _ in spares)
    if inside:
        yield message("figure-border.plait-behind", one=one, number=sets + 1)
    yield message("figure-border.plait-bend", these=stretch.these(range(1, sets + 1)))
    yield message("figure-border.plait-set-one", count=plait.over, ways=ways_said(goes_in))
    yield message("figure-border.plait-over-it", one=one, before=sets + 1, after=sets + 2, inside=inside)
    yield message("figure-border.plait-from-now")


def _finish(stretch: Stretch, plait: Plait) -> Iterator[Message]:
    """Which of the last ones take the places of what the plait began with."""
    yield message("figure-border.plait-until")
    if plait.added:
        yield message("figure-border.plait-draw-out")
    for beside, last in plait_last(plait, stretch.border.count):
        yield message("figure-border.plait-in-set", one=stretch.one, number=beside, last=ByNumber(tuple(last)))
    yield message("figure-border.plait-leave")
