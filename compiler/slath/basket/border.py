"""A border worked on a ring of uprights: what is left loose, what the last stakes go under, and whether it closes.

The pattern a border makes is that of an endless rim (`border_over`). On a ring the first stakes are down before the
last ones are worked, though in the pattern they would come after them: so the last stakes are threaded under exactly
those loops and ends that would have been laid over them, and these must have been left loose.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from slath.basket.border_over import Over, lying_over
from slath.basket.border_path import Leg, PathFault, legs_of, middle_of, passes_of
from slath.basket.model import Finish, WorkedBorder, WorkedPass
from slath.language.pattern import Border


@dataclass(frozen=True, slots=True)
class Turn:
    """One stake's turn in the working order: which leg of its path it makes. Stakes count from 1."""

    stake: int
    leg: int


@dataclass(frozen=True, slots=True)
class Threading:
    """In its turn a stake must go under what these have already laid, in the order they are met along its way."""

    turn: Turn
    under: tuple[Turn, ...]


def work_border(spec: Border, count: int, spacing_mm: float) -> WorkedBorder:
    """The border worked on `count` uprights (or groups worked as one) `spacing_mm` apart at the rim.

    Never fails: where it cannot be worked, `closes` is False and `why_not` says why, and no pass has a finish (there
    are no passes if the moves make no path at all).
    """
    try:
        legs = legs_of(spec)
    except PathFault as fault:
        return WorkedBorder(spec, count, spacing_mm, (), 0, 0, closes=False, why_not=fault.reason, smallest_count=0)
    smallest = smallest_count(spec, legs)
    why_not = _hindrance(spec, legs, count)
    if why_not:
        why_not = f"{why_not}; it needs at least {smallest}"
    threadings = () if why_not else tuple(thread(legs, count))
    passes = tuple(_worked_pass(spec, legs, number, threadings) for number in range(1, legs[-1].pass_number + 1))
    reach = sum(worked.reach for worked in passes)
    thickness = sum(worked.thickness for worked in passes)
    return WorkedBorder(
        spec, count, spacing_mm, passes, reach, thickness,
        closes=not why_not, why_not=why_not, smallest_count=smallest,
    )  # fmt: skip


def smallest_count(spec: Border, legs: Sequence[Leg]) -> int:
    """The fewest uprights on which the border can be worked, found by trying."""
    count = 2
    while _hindrance(spec, legs, count):
        count += 1
    return count


def _hindrance(spec: Border, legs: Sequence[Leg], count: int) -> str:
    """What stops the border on `count` uprights; empty when it can be worked. Follows stake 1 round the ring."""
    laid = max((one.laid_first for one in passes_of(spec)), default=0)
    if laid > count:
        return f"{laid} stakes are to be laid down first, but there are only {count}"
    for leg in legs:
        # An end is held by the stake it comes to rest on, the next after the last it passed.
        for post in range(leg.begins + 1, leg.ends + 2):
            if post % count == 0:
                return (
                    f"on {count} uprights the border meets itself in pass {leg.pass_number}: each stake comes round to "
                    f"its own place before its end can rest"
                )
    return ""


# ------------------------------------------------------------------------------------------------------ working order
def working_order(legs: Sequence[Leg], count: int) -> Iterator[Turn]:
    """Every turn of the border in the order it is worked.

    With stakes laid first (two legs in a pass), the leftmost laid one moves and the next upright comes down beside it.
    """
    for number in range(1, legs[-1].pass_number + 1):
        mine = [index for index, leg in enumerate(legs) if leg.pass_number == number]
        turns = [(stake + legs[index].lag, Turn(stake, index)) for index in mine for stake in range(1, count + 1)]
        for _, turn in sorted(turns, key=lambda item: item[0]):
            yield turn


def thread(legs: Sequence[Leg], count: int) -> Iterator[Threading]:
    """The turns in which a stake has to be threaded under others already there, in working order.

    Work the ring turn by turn. A stake is simply laid over all it meets, save those that come after it in the endless
    pattern: going round the ring, they have been worked before it.
    """
    above = lying_over(legs)
    worked: set[tuple[int, int]] = set()
    for turn in working_order(legs, count):
        met = [Turn((turn.stake + over.ahead - 1) % count + 1, over.leg) for over in _first_meetings(above[turn.leg])]
        under = tuple(other for other in met if (other.stake, other.leg) in worked)
        if under:
            yield Threading(turn, under)
        worked.add((turn.stake, turn.leg))


def _first_meetings(overs: Sequence[Over]) -> list[Over]:
    """Each thing that lies over the stake once, where it is first met."""
    first: dict[tuple[int, int], Over] = {}
    for over in overs:
        first.setdefault((over.ahead, over.leg), over)
    return list(first.values())


# ------------------------------------------------------------------------------------------------------------- passes
def _worked_pass(spec: Border, legs: Sequence[Leg], number: int, threadings: Sequence[Threading]) -> WorkedPass:
    mine = [leg for leg in legs if leg.pass_number == number]
    first, last = mine[0], mine[-1]
    visits = tuple(visit for leg in mine for visit in leg.visits)
    under: dict[int, tuple[int, ...]] = {}
    for threading in threadings:
        if legs[threading.turn.leg].pass_number == number:
            earlier = under.pop(threading.turn.stake, ())  # a stake threaded twice is finished with its last turn
            stakes = (*earlier, *(other.stake for other in threading.under))
            under[threading.turn.stake] = tuple(dict.fromkeys(stakes))
    loose = sorted({stake for stakes in under.values() for stake in stakes})
    return WorkedPass(
        spec=passes_of(spec)[number - 1],
        number=number,
        begins=middle_of(first.begins) if number > 1 else 0.0,
        visits=visits,
        ends_at=middle_of(last.ends),
        ending=last.ending,
        reach=len(visits),
        loose=tuple(loose),
        finish=tuple(Finish(stake, stakes) for stake, stakes in under.items()),
        thickness=len(visits) * pieces_together(spec),
    )


def pieces_together(spec: Border) -> int:
    """Stakes in each thing that is worked as one."""
    if spec.cut_to_one:
        return 1
    return spec.plait.group if spec.plait else max(spec.groups, 1)
