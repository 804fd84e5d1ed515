"""A border as acts: row by row what every end does, what is kept slack, and what the last ones go under."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import groupby, takewhile

from msgspec import Struct

from slath.basket.border import LaidIn, LaidTurn, Turn, laid_turns
from slath.basket.border_over import endless
from slath.basket.border_path import Ending, Face, Leg, legs_of, parts_of
from slath.basket.model import WorkedBorder
from slath.language.pattern import Border
from slath.plan.acts import Act, Bend, DrawTight, InTurn, KeepSlack, Pass, Step
from slath.plan.places import Gap, Loop, LoopKind, Numbering, Side, Upright

SIDE: dict[Face, Side] = {"behind": "inside", "before": "outside"}
_OTHER: dict[Side, Side] = {"inside": "outside", "outside": "inside"}


def side_of(face: Face, border: Border) -> Side:
    """The side of the basket a face is on: what is behind for one who looks at the inside is outside."""
    return _OTHER[SIDE[face]] if border.from_inside else SIDE[face]


class BorderRow(Struct, frozen=True):
    """One row of a border: every turn of it in working order, and what is kept slack for the last ones."""

    number: int
    laid_first: int
    bends: tuple[Bend, ...]

    @property
    def slack(self) -> tuple[Loop, ...]:
        """What is kept slack as it is made, in the order it is made."""
        wanted = {loop for bend in self.bends for loop in bend.threaded}
        return tuple(bend.loop for bend in self.bends if bend.loop in wanted)

    @property
    def in_turn(self) -> tuple[Bend, ...]:
        """The turns before the first that must be threaded."""
        return tuple(takewhile(lambda bend: not bend.threaded, self.bends))

    @property
    def last_ones(self) -> tuple[Bend, ...]:
        """The turns from the first that must be threaded on."""
        return self.bends[len(self.in_turn) :]

    @property
    def ending(self) -> Ending:
        """How its ends are left."""
        return self.bends[-1].ending

    @property
    def begins(self) -> Gap | None:
        """Where the end of number 1 is found when the row begins; None where it stands upright."""
        first = self.bends[0]
        return None if first.loop.kind == "loop" else first.steps[0].gap

    def turns(self, number: int) -> tuple[Bend, ...]:
        """The turns of one unit, in order."""
        return tuple(bend for bend in self.bends if bend.loop.of.number == number)

    def acts(self) -> tuple[Act, ...]:
        """The row as it is worked. The first ones differ where what lies at the start is not there yet."""
        slack = self.slack
        opened = self.in_turn[: self.laid_first]
        runs = [list(run) for _, run in groupby(self.in_turn[self.laid_first :], key=_likeness)] if not opened else []
        pairs = self.in_turn[self.laid_first :]
        return (
            *((KeepSlack(slack),) if slack else ()),
            *((InTurn(opened), *_in_pairs(pairs)) if opened else (InTurn(tuple(run)) for run in runs)),
            *self.last_ones,
            *((DrawTight(slack),) if slack else ()),
        )


def _likeness(bend: Bend) -> tuple[object, ...]:
    """What two turns have in common that are worked alike: what they go under, counted from their own place."""
    number, count = bend.loop.of.number, bend.loop.of.numbering.count
    return tuple(
        (step.side, tuple(((loop.of.number - number) % count, loop.row, loop.turn) for loop in step.beneath))
        for step in bend.steps
    )


def _in_pairs(bends: tuple[Bend, ...]) -> list[Act]:
    """The moved one and the upright brought down beside it, over and over; what does not come in pairs, by itself."""
    paired = [bend for bend in bends if bend.loop.turn or bend.loop.kind == "loop"]
    whole = len(paired) // 2 * 2
    alternating = all(bend.loop.turn == (place + 1) % 2 for place, bend in enumerate(paired[:whole]))
    if not alternating:
        return list(bends)
    return [InTurn(bends[:whole], each=2), *bends[whole:]] if whole else list(bends)


def border_rows(border: WorkedBorder, numbering: Numbering | None = None) -> tuple[BorderRow, ...]:
    """Every row of a border on the uprights of `numbering` (a ring of its own without one); none where it cannot be worked."""
    return _on_a_ring(border) if numbering is None else _rows(border, numbering)


@lru_cache(maxsize=32)
def _on_a_ring(border: WorkedBorder) -> tuple[BorderRow, ...]:
    return _rows(border, plain_ring(border.count))


def _rows(border: WorkedBorder, ring: Numbering) -> tuple[BorderRow, ...]:
    if not border.closes:
        return ()
    legs = legs_of(border.spec)
    turns = tuple(laid_turns(legs, border.count))
    return tuple(
        BorderRow(
            worked.number,
            worked.spec.laid_first,
            tuple(
                _bend(border, legs, made, ring) for made in turns if legs[made.turn.leg].pass_number == worked.number
            ),
        )
        for worked in border.passes
    )


def plain_ring(count: int) -> Numbering:
    """A ring of uprights of which nothing is known but how many they are."""
    return Numbering(f"ring of {count}", tuple((Upright("stake", index),) for index in range(count)))


def _bend(border: WorkedBorder, legs: Sequence[Leg], made: LaidTurn, ring: Numbering) -> Bend:
    turn, leg = made.turn, legs[made.turn.leg]
    ends = leg.past_ends or (None,) * len(leg.visits)
    beside = turn.stake + int(leg.lag + 0.5) if leg.lag else None
    brought_down = beside is not None and beside <= ring.count
    return Bend(
        loop=_loop(legs, turn, ring),
        steps=tuple(_step(border, legs, turn, laid, ring) for laid in made.way),
        passes=tuple(
            Pass(ring.at(turn.stake + (visit.offset if way is None else place)), side_of(visit.face, border.spec), way)
            for place, (visit, way) in enumerate(zip(leg.visits, ends, strict=True), start=1)
        ),
        ending=leg.ending,
        over_top=parts_of(leg)[0].arrives == "over the edge",
        brings_down=ring.at(beside) if beside is not None and brought_down else None,
        comes_out=leg.ending == "down" and border.passes[leg.pass_number - 1].spec.comes_out,
    )


def _loop(legs: Sequence[Leg], turn: Turn, ring: Numbering) -> Loop:
    number = legs[turn.leg].pass_number
    earlier = sum(leg.pass_number == number for leg in legs[: turn.leg])
    kind: LoopKind = "loop" if legs[turn.leg].came is None else "roll" if any(legs[turn.leg].past_ends) else "end"
    return Loop(ring.at(turn.stake), number, earlier, kind)


def _step(border: WorkedBorder, legs: Sequence[Leg], turn: Turn, laid: LaidIn, ring: Numbering) -> Step:
    return Step(
        ring.after(turn.stake + laid.space),
        side_of(laid.face, border.spec),
        tuple(_loop(legs, other, ring) for other in laid.beneath),
        tuple(_loop(legs, other, ring) for other in laid.threaded),
        tuple(_loop(legs, other, ring) for other in laid.beneath if _runs_on(legs, turn, other, laid, ring.count)),
    )


def _runs_on(legs: Sequence[Leg], turn: Turn, other: Turn, laid: LaidIn, count: int) -> bool:
    """Whether what lies in a space goes on past the upright on its right, on the same face."""
    own = (turn.stake + laid.space - other.stake) % count  # the space counted from the other's own place
    return (own + 1, laid.face) in endless(tuple(legs)).lies[other.leg].cells
