"""Where the feet of handles go down, in words: their stakes, pair by pair, and whether they face each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.plan.planner import rim_numbering
from slath.units.counting import in_words, listed
from slath.wording.speech import many

if TYPE_CHECKING:
    from slath.basket.model import WorkedHandle
    from slath.wording.work import Work


def pairs(handle: WorkedHandle) -> list[tuple[int, ...]]:
    """The stakes of each handle of a set: two for a bow, one for a ring."""
    count = 1 if handle.spec.family == "swinging" else handle.spec.count
    each = max(len(handle.feet_at) // max(count, 1), 1)
    return [handle.feet_at[place : place + each] for place in range(0, len(handle.feet_at), each)]


def stakes_found(handle: WorkedHandle) -> str:
    """All of them: ``[stakes] 1 and 17``."""
    return stakes_of(handle.feet_at)


def stakes_of(numbers: tuple[int, ...]) -> str:
    """``[stakes] 1 and 17``, or ``[stake] 1``."""
    words = [str(number) for number in numbers]
    return f"[stakes] {listed(words)}" if len(words) > 1 else f"[stake] {''.join(words)}"


def beside(handle: WorkedHandle) -> str:
    """``beside [stakes] 1 and 17``; a ring on a lid stands beside none."""
    return f"beside {stakes_found(handle)}" if handle.feet_at else "at its place"


def stake(pair: tuple[int, ...], place: int) -> str:
    """One of the two of a handle."""
    return f"[stake] {pair[place]}" if len(pair) > place else "its [stake]"


def opposite(work: Work, handle: WorkedHandle) -> list[str]:
    """Whether the two feet stand opposite, told so that the hand can check it by counting."""
    if len(handle.feet_at) != 2:
        return []
    first, second = handle.feet_at
    total = sum(stake.kind != "bye-stake" for stake in work.basket.stakes)
    if work.basket.changes and handle.spec.set_in != "at the upsett":
        total = rim_numbering(work.basket).count
    one_way, other_way = abs(second - first) - 1, total - abs(second - first) - 1
    if one_way == other_way:
        return [f"There are {many(one_way, 'stake')} between them on either side: they face each other."]
    return [f"Between them stand {in_words(one_way)} on one side and {in_words(other_way)} on the other."]


def others(handle: WorkedHandle) -> list[str]:
    """The other handles of a set, made likewise at their own stakes."""
    rest = pairs(handle)[1:]
    if not rest:
        return []
    places = listed([stakes_of(pair) for pair in rest])
    each = "the second handle" if len(rest) == 1 else "each of the others"
    return [f"Make and fasten {each} likewise, at {places}."]
