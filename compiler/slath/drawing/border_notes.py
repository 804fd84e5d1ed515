"""The notes of a border figure: what each is about and where that can be seen."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from slath.basket.border_ways import StakeWay
from slath.drawing.border_rods import Seen, seen
from slath.drawing.border_stretch import LIFT, Stretch, Window
from slath.drawing.border_words import ending_words, runs, under_words
from slath.drawing.note_blocks import Note
from slath.drawing.rods import Rod
from slath.units.counting import in_spans

_POINTED = 3  # loops left loose that are each pointed at; of more, the first and the last


def border_notes(stretch: Stretch, window: Window, rods: list[Rod]) -> list[Note]:
    """Notes of the figure with the spots they are about, in drawing mm."""
    if stretch.phase == "finish":
        notes = list(_finishing(stretch, window, rods))
    else:
        notes = list(_way(stretch, window, rods))
        if stretch.brought_down is not None:
            below = stretch.brought_down
            spot = _loop_spot(stretch, window, rods, below)
            notes.append(Note(f"then {stretch.number(below)} down beside it", (spot,)))
    loose = [stake for stake in stretch.worked.loose if stretch.is_loose(stake) and _is_down(stretch, stake)]
    if loose and stretch.phase != "running":
        pointed = loose if len(loose) <= _POINTED else [loose[0], loose[-1]]
        spots = tuple(_loop_spot(stretch, window, rods, stake) for stake in pointed)
        many = in_spans(stretch.worked.loose)
        notes.append(Note(f"leave {many} loose" if stretch.phase == "start" else f"{many} left loose", spots))
    return notes


def _is_down(stretch: Stretch, stake: int) -> bool:
    return stretch.done(stake) > stretch.earlier


def _way(stretch: Stretch, window: Window, rods: list[Rod]) -> Iterator[Note]:
    """Notes along the way of the stake picked out, from where it sets out to where it ends."""
    stake = stretch.picked
    sight = seen(rods, stake, window.sides)
    way = stretch.turns(stretch.number(stake))[-1]
    leg = stretch.mine[-1]
    if way.sets_out is not None and len(stretch.mine) == 1:
        spot = _spot(sight, stretch, window, stake, leg.begins + 0.65, 0.4)
        yield Note(f"from between {way.sets_out[0]} and {way.sets_out[1]}", (spot,))
    place = leg.begins
    for face, numbers in runs(way):
        middle = place + (len(numbers) + 1) / 2
        spot = _spot(sight, stretch, window, stake, middle, len(numbers) / 2 + 0.1)
        side = " on this side" if window.inside else ""
        yield Note(f"{face} {in_spans(numbers)}{side}", (spot,))
        place += len(numbers)
    yield Note(ending_words(way), (_end_spot(sight, stretch, window, stake),))


def _finishing(stretch: Stretch, window: Window, rods: list[Rod]) -> Iterator[Note]:
    """Where each of the last stakes comes through, and where the next row begins."""
    for stake in stretch.finishers:
        way = _threaded(stretch, stretch.number(stake))
        sight = seen(rods, stake, window.sides)
        yield Note(f"{way.stake} {under_words(way)}", (_end_spot(sight, stretch, window, stake),))
    if stretch.worked.number < len(stretch.border.passes):
        spot = _end_spot(seen(rods, 1, window.sides), stretch, window, 1)
        yield Note(f"row {stretch.worked.number + 1} begins with the end of 1", (spot,))


def _threaded(stretch: Stretch, number: int) -> StakeWay:
    """The last turn in which a stake is threaded under others; its last of all where it is not."""
    turns = stretch.turns(number)
    return next((way for way in reversed(turns) if way.under), turns[-1])


# --------------------------------------------------------------------------------------------------------------- spots
def _on_page(stretch: Stretch, window: Window, stake: int, place: float) -> tuple[float, float]:
    """Where a stake lies on the page at a place counted from its own, after all it has done."""
    lift = LIFT if stretch.is_loose(stake) else 0.0
    line = stretch.course.line(stretch.done(stake), lift, lifted=stretch.earlier)
    chosen = line[[int(np.abs(line[:, 0] - place).argmin())]]
    page = window.place(chosen, float(stake))[0]
    return float(page[0]), float(page[1])


def _spot(sight: Seen, stretch: Stretch, window: Window, stake: int, place: float, reach: float) -> tuple[float, float]:
    """What is in sight of a stake nearest to a place on its way, no further off than `reach` stakes."""
    x, y = _on_page(stretch, window, stake, place)
    far = reach * window.spacing
    return sight.nearest(x, y, x - far, x + far)


def _end_spot(sight: Seen, stretch: Stretch, window: Window, stake: int) -> tuple[float, float]:
    """In the space a stake ends in, or as near to it as its end shows."""
    leg = stretch.mine[-1]
    beyond = 0.25 if leg.ending == "down" else 0.75
    return _spot(sight, stretch, window, stake, leg.ends + beyond, 0.8)


def _loop_spot(stretch: Stretch, window: Window, rods: list[Rod], stake: int) -> tuple[float, float]:
    """On the loop a stake makes in this pass: its bend, or in a later pass where it is about to leave the face it is on."""
    place = stretch.mine[-1].ends - 0.35 if stretch.earlier else 0.45
    return _spot(seen(rods, stake, window.sides), stretch, window, stake, place, 0.7)
