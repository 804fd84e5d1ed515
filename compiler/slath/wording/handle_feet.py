"""Where the feet of handles go down, in words: their stakes, pair by pair, and whether they face each other."""

from __future__ import annotations

from slath.basket.model import WorkedHandle
from slath.messages import Listed, Message, Numbers, message
from slath.plan.planner import rim_numbering
from slath.wording.told import Clause
from slath.wording.work import Work


def pairs(handle: WorkedHandle) -> list[tuple[int, ...]]:
    """The stakes of each handle of a set: two for a bow, one for a ring."""
    count = 1 if handle.spec.family == "swinging" else handle.spec.count
    each = max(len(handle.feet_at) // max(count, 1), 1)
    return [handle.feet_at[place : place + each] for place in range(0, len(handle.feet_at), each)]


def stakes_of(numbers: tuple[int, ...]) -> Message:
    """Stakes by their numbers: ``[stakes] 1 and 17``, or ``[stake] 1``."""
    return message("handle.stakes", at=Numbers(numbers))


def stake(pair: tuple[int, ...], place: int) -> Message:
    """One of the two of a handle."""
    return stakes_of((pair[place],)) if len(pair) > place else message("handle.its-stake")


def found(handle: WorkedHandle) -> Message:
    """Counting round to the stakes of all its feet."""
    return message("handle.count-round", stakes=stakes_of(handle.feet_at))


def opposite(work: Work, handle: WorkedHandle) -> list[Clause]:
    """Whether the two feet stand opposite, told so that the hand can check it by counting."""
    if len(handle.feet_at) != 2:
        return []
    first, second = handle.feet_at
    total = sum(stake.kind != "bye-stake" for stake in work.basket.stakes)
    if work.basket.changes and handle.spec.set_in != "at the upsett":
        total = rim_numbering(work.basket).count
    one_way, other_way = abs(second - first) - 1, total - abs(second - first) - 1
    if one_way == other_way:
        return [message("handle.face-each-other", count=one_way)]
    return [message("handle.between-them", one=one_way, other=other_way)]


def others(handle: WorkedHandle) -> list[Clause]:
    """The other handles of a set, made likewise at their own stakes."""
    rest = pairs(handle)[1:]
    if not rest:
        return []
    return [message("handle.others-likewise", number=len(rest), places=Listed(tuple(stakes_of(pair) for pair in rest)))]
