"""What each stake of a border does in each of its turns, in stake numbers: the one source for drawings and wording."""

from __future__ import annotations

from dataclasses import dataclass

from slath.basket.border import Turn, thread, working_order
from slath.basket.border_over import is_closed
from slath.basket.border_path import Ending, Face, Leg, legs_of, parts_of
from slath.basket.model import WorkedBorder


@dataclass(frozen=True, slots=True)
class Under:
    """A stake under which another is threaded: under its `loop`, or behind its `end` from a later pass or turn."""

    stake: int
    what: str  # "loop" or "end"


@dataclass(frozen=True, slots=True)
class StakeWay:
    """One turn of one stake (or group), in numbers counted round the rim in the direction of work.

    `passes` are the stakes it goes by and the face it goes by them on. `sets_out` is the space, between two stakes, where
    its end stood before the turn (None: upright). `ends_between` is the space it ends in, `rests_on` the stake past
    which its end must lie, `through_loop` the loop under which that space is entered where it is closed already.
    `over_edge`: it first goes over the top of the border to the other face. `under` is what it is threaded under
    because work has come round. `over_ends` are the stakes whose ends it is rolled over. With
    `from_inside` the moves are those of a maker who looks at the inside. `brings_down` is the upright turned down beside it next, in a plain border.
    """

    stake: int
    pass_number: int
    laid: bool
    sets_out: tuple[int, int] | None
    over_edge: bool
    passes: tuple[tuple[int, Face], ...]
    ending: Ending
    ends_between: tuple[int, int]
    rests_on: int
    through_loop: int | None
    under: tuple[Under, ...]
    brings_down: int | None
    over_ends: tuple[int, ...] = ()
    from_inside: bool = False


def stake_ways(border: WorkedBorder) -> tuple[StakeWay, ...]:
    """Every turn of every stake in working order; empty for a border that cannot be worked."""
    if not border.closes:
        return ()
    legs = legs_of(border.spec)
    under = {threading.turn: threading.under for threading in thread(legs, border.count)}
    return tuple(_way(border, legs, turn, under.get(turn, ())) for turn in working_order(legs, border.count))


def _way(border: WorkedBorder, legs: tuple[Leg, ...], turn: Turn, under: tuple[Turn, ...]) -> StakeWay:
    leg = legs[turn.leg]
    count = border.count

    def number(post: int) -> int:
        return (turn.stake + post - 1) % count + 1

    first, last = parts_of(leg)[0], parts_of(leg)[-1]
    goes_through = last.sinks or last.left != last.right
    beside = turn.stake + int(leg.lag + 0.5) if leg.lag else None
    return StakeWay(
        stake=turn.stake,
        pass_number=leg.pass_number,
        laid=turn.leg + 1 < len(legs) and legs[turn.leg + 1].pass_number == leg.pass_number,
        sets_out=None if leg.came is None else (number(leg.begins), number(leg.begins + 1)),
        over_edge=first.arrives == "over the edge",
        passes=tuple((number(visit.offset), visit.face) for visit in leg.visits),
        ending=leg.ending,
        ends_between=(number(leg.ends), number(leg.ends + 1)),
        rests_on=number(leg.ends + 1),
        through_loop=number(leg.ends) if goes_through and is_closed(leg, leg.ends) else None,
        under=tuple(Under(other.stake, "loop" if legs[other.leg].came is None else "end") for other in under),
        from_inside=border.spec.from_inside,
        over_ends=tuple(number(ahead) for ahead in range(1, len(leg.visits) + 1)) if leg.rolled else (),
        brings_down=beside if beside is not None and beside <= count else None,
    )
