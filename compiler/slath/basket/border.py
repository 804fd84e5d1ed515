"""A border worked on a ring of uprights: what is left loose, what the last stakes go under, and whether it closes.

The pattern a border makes is that of an endless rim (`border_over`). On a ring the first stakes are down before the
last ones are worked, though in the pattern they would come after them: so the last stakes are threaded under exactly
those loops and ends that would have been laid over them, and these must have been left loose.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from slath.basket.border_over import Over, endless
from slath.basket.border_path import Face, Leg, PathFault, legs_of, middle_of, passes_of
from slath.basket.model import Finish, WorkedBorder, WorkedPass
from slath.language.pattern import Border
from slath.messages.told import Told, kept


class Turn(Struct, frozen=True):
    """One stake's turn in the working order: which leg of its path it makes. Stakes count from 1."""

    stake: int
    leg: int


class LaidIn(Struct, frozen=True):
    """One space and face a turn goes through: what lies there already and it goes under.

    `beneath` is what every other goes under as well; `threaded` what is there only because work has come round the ring, and
    must have been left loose.
    """

    space: int  # counted on from the stake's own
    face: Face
    beneath: tuple[Turn, ...]
    threaded: tuple[Turn, ...]


class LaidTurn(Struct, frozen=True):
    """One turn as it is laid, space by space."""

    turn: Turn
    way: tuple[LaidIn, ...]

    @property
    def under(self) -> tuple[Turn, ...]:
        """All it is threaded under because work has come round, in the order it is met."""
        return tuple(dict.fromkeys(other for laid in self.way for other in laid.threaded))


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
    why_not = _hindrance(spec, legs, count, smallest)
    laid = () if why_not else tuple(laid_turns(legs, count))
    passes = tuple(_worked_pass(spec, legs, number, laid) for number in range(1, legs[-1].pass_number + 1))
    reach = sum(worked.reach for worked in passes)
    thickness = sum(worked.thickness for worked in passes)
    return WorkedBorder(
        spec, count, spacing_mm, passes, reach, thickness,
        closes=why_not is None, why_not=why_not, smallest_count=smallest,
    )  # fmt: skip


def smallest_count(spec: Border, legs: Sequence[Leg]) -> int:
    """The fewest uprights on which the border can be worked, found by trying."""
    count = max((one.laid_first for one in passes_of(spec)), default=0)
    count = max(count, 2)
    while _meets_itself(legs, count):
        count += 1
    return count


def _hindrance(spec: Border, legs: Sequence[Leg], count: int, smallest: int) -> Told | None:
    """What stops the border on `count` uprights, and on how many it could be worked; None when it can be."""
    laid = max((one.laid_first for one in passes_of(spec)), default=0)
    if laid > count:
        return kept("refusals.stakes-are-to-be-laid", laid=laid, count=count, smallest=smallest)
    met = _meets_itself(legs, count)
    return kept("refusals.on-uprights-the-border-meets", count=count, number=met, smallest=smallest) if met else None


def _meets_itself(legs: Sequence[Leg], count: int) -> int:
    """The pass in which the border comes round to where it began, 0 if in none. Follows stake 1 round the ring."""
    for leg in legs:
        # An end is held by the stake it comes to rest on, the next after the last it passed.
        if any(post % count == 0 for post in range(leg.begins + 1, leg.ends + 2)):
            return leg.pass_number
    return 0


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


def laid_turns(legs: Sequence[Leg], count: int) -> Iterator[LaidTurn]:
    """Every turn in working order, with what it goes under.

    Work the ring turn by turn. A stake is laid over all it meets, save what lies over it in the endless pattern: what it comes
    out beneath, and what comes after it there but, going round the ring, has been worked before it.
    """
    rim = endless(tuple(legs))
    above = [rim.over(leg) for leg in range(len(legs))]
    worked: set[Turn] = set()
    for turn in working_order(legs, count):
        way = []
        for (space, face), overs in zip(rim.lies[turn.leg].cells, above[turn.leg], strict=True):
            there = [(over, Turn((turn.stake + over.ahead - 1) % count + 1, over.leg)) for over in overs]
            there = [(over, other) for over, other in there if other in worked]
            beneath = tuple(other for over, other in there if not over.later)
            way.append(LaidIn(space, face, beneath, _without_roots(there)))
        yield LaidTurn(turn, tuple(way))
        worked.add(turn)


def _without_roots(there: list[tuple[Over, Turn]]) -> tuple[Turn, ...]:
    """What is threaded under in one place. An end that sets out where the same stake's loop came out is that loop still."""
    late = [other for over, other in there if over.later]
    return tuple(other for other in late if Turn(other.stake, other.leg - 1) not in late)


# ------------------------------------------------------------------------------------------------------------- passes
def _worked_pass(spec: Border, legs: Sequence[Leg], number: int, laid: Sequence[LaidTurn]) -> WorkedPass:
    mine = [leg for leg in legs if leg.pass_number == number]
    first, last = mine[0], mine[-1]
    visits = tuple(visit for leg in mine for visit in leg.visits)
    under: dict[int, tuple[int, ...]] = {}
    for made in laid:
        if legs[made.turn.leg].pass_number == number and made.under:
            earlier = under.pop(made.turn.stake, ())  # a stake threaded twice is finished with its last turn
            stakes = {*earlier, *(other.stake for other in made.under)}
            under[made.turn.stake] = tuple(sorted(stakes))
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
