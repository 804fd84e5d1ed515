"""The notes of a border figure: what each is about and where that can be seen."""

from __future__ import annotations

from collections.abc import Iterator

from slath.drawing.border.plait_telling import plait_notes
from slath.drawing.border.rods import seen
from slath.drawing.border.spots import end_spot, loop_spot, spot_on
from slath.drawing.border.stretch import Stretch, Window
from slath.drawing.border.words import ending_said, past_said, under_said, under_these
from slath.drawing.paint.rods import Rod
from slath.drawing.plate.note_blocks import Note
from slath.messages import Message, message
from slath.messages.values import Numbers as ByNumber
from slath.plan.acts import Bend

_POINTED = 3  # loops left loose that are each pointed at; of more, the first and the last


def border_notes(stretch: Stretch, window: Window, rods: list[Rod]) -> list[Note]:
    """Notes of the figure with the spots they are about, in drawing mm."""
    if stretch.plait is not None:
        return list(plait_notes(stretch, window, rods, stretch.plait))
    if stretch.phase == "finish":
        notes = list(_finishing(stretch, window, rods))
    else:
        notes = list(_way(stretch, window, rods))
        if stretch.brought_down is not None:
            below = stretch.brought_down
            spot = loop_spot(stretch, window, rods, below)
            notes.append(_note(stretch, message("figure-border.note-down", number=stretch.number(below)), spot))
    loose = [stake for stake in stretch.worked.loose if stretch.is_loose(stake) and _is_down(stretch, stake)]
    if loose and stretch.phase != "running":
        pointed = loose if len(loose) <= _POINTED else [loose[0], loose[-1]]
        spots = tuple(loop_spot(stretch, window, rods, stake) for stake in pointed)
        numbers = ByNumber(tuple(stretch.worked.loose))
        leave = message("figure-border.note-leave", numbers=numbers)
        left = message("figure-border.note-left", numbers=numbers)
        notes.append(_note(stretch, leave if stretch.phase == "start" else left, *spots))
    return notes


def _note(stretch: Stretch, said: Message, *spots: tuple[float, float]) -> Note:
    return Note(stretch.options.say(said), spots)


def _is_down(stretch: Stretch, stake: int) -> bool:
    return stretch.done(stake) > stretch.earlier


def _way(stretch: Stretch, window: Window, rods: list[Rod]) -> Iterator[Note]:
    """Notes along the way of the stake picked out, from where it sets out to where it ends."""
    stake = stretch.picked
    sight = seen(rods, stake, window.sides)
    bend = stretch.turns(stretch.number(stake))[-1]
    leg = stretch.mine[-1]
    if bend.loop.kind != "loop" and len(stretch.mine) == 1:
        before, after = bend.steps[0].gap.between
        spot = spot_on(sight, stretch, window, stake, leg.begins + 0.65, 0.4)
        yield _note(stretch, message("figure-border.note-from", before=before, after=after), spot)
    for done, run in bend.runs:
        middle = leg.begins + done + (len(run) + 1) / 2
        spot = spot_on(sight, stretch, window, stake, middle, len(run) / 2 + 0.1)
        top = bend.over_top and not done
        said = message(
            "figure-border.note-past",
            top=top,
            under=None if top else under_these(bend.entries.get(done, ())),
            past=past_said(run, stretch.worked_from),
            here=window.inside and run[0].end is None,
        )
        yield _note(stretch, said, spot)
    ending = message("figure-border.note-ending", ending=ending_said(bend, stretch.worked_from))
    yield _note(stretch, ending, end_spot(sight, stretch, window, stake))


def _finishing(stretch: Stretch, window: Window, rods: list[Rod]) -> Iterator[Note]:
    """Where each of the last stakes comes through, and where the next row begins."""
    for stake in stretch.finishers:
        bend = _threaded(stretch, stretch.number(stake))
        sight = seen(rods, stake, window.sides)
        said = message("figure-border.note-ends", number=bend.loop.of.number, under=under_said(bend))
        yield _note(stretch, said, end_spot(sight, stretch, window, stake))
    if stretch.worked.number < len(stretch.border.passes):
        spot = end_spot(seen(rods, 1, window.sides), stretch, window, 1)
        yield _note(stretch, message("figure-border.note-next-row", row=stretch.worked.number + 1), spot)


def _threaded(stretch: Stretch, number: int) -> Bend:
    """The last turn in which a stake is threaded under others; its last of all where it is not."""
    turns = stretch.turns(number)
    return next((bend for bend in reversed(turns) if bend.threaded), turns[-1])
