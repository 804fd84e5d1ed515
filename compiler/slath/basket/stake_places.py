"""How many stakes stand at each stick end, with the ends at which extras stand or one is left out."""

from __future__ import annotations

from collections.abc import Sequence

from slath.basket.ends import stakes_at_end
from slath.basket.model import ConstructedBase
from slath.language.pattern import Handle, SizedPattern, Stakes


def stakes_at_ends(base: ConstructedBase, pattern: SizedPattern) -> list[int]:
    """Stakes set in at each end of the base, in order. A count is shared out alike; extras and stakes left out stand at the
    ends that are named, or spread evenly round the base and clear of the handle's feet.
    """
    stakes = pattern.stakes
    if stakes is None:
        return [0] * len(base.ends)
    if stakes.count is not None:
        whole, rest = divmod(stakes.count, len(base.ends))
        return [whole + (1 if index < rest else 0) for index in range(len(base.ends))]
    at_ends = [stakes_at_end(end.kind, end.number, stakes.per_end, stakes.exceptions) for end in base.ends]
    for index in changed_ends(base, pattern):
        at_ends[index] += 1 if stakes.add else -1
    return at_ends


def changed_ends(base: ConstructedBase, pattern: SizedPattern) -> list[int]:
    """The ends (0-based, an end as often as it is taken) with a stake more, or one fewer, than the others."""
    stakes = pattern.stakes
    if stakes is None or stakes.count is not None or not base.ends:
        return []
    at_ends = [stakes_at_end(end.kind, end.number, stakes.per_end, stakes.exceptions) for end in base.ends]
    named = stakes.add_at or stakes.leave_out_at
    if named:
        return [number - 1 for number in named if number <= len(base.ends)]
    free = [index for index, here in enumerate(at_ends) if here or stakes.add]
    return _spread(free, stakes.add or stakes.leave_out, _handle_places(base, pattern, stakes, sum(at_ends)), base)


def _spread(free: Sequence[int], many: int, handles: Sequence[float], base: ConstructedBase) -> list[int]:
    """`many` of the `free` ends, every N/k-th back from the last, moved on where one of them would stand at a handle."""
    if not many or not free:
        return []
    count, rest = len(free), many % len(free)
    taken = [index for index in free for _ in range(many // count)]
    if not rest:
        return taken

    def placed(moved: int) -> list[int]:
        return [free[(count - 1 - moved - round(index * count / rest)) % count] for index in range(rest)]

    def clear(moved: int) -> float:
        return min((_apart(base.ends[index].u, place) for index in placed(moved) for place in handles), default=1.0)

    # The mark stands at the first end, so the last is where the count comes round to it; near a handle the ends move on.
    near = 0.75 / len(base.ends)
    moved = next((step for step in range(count) if clear(step) > near), max(range(count), key=clear))
    return sorted([*taken, *placed(moved)])


def _apart(one: float, other: float) -> float:
    far = abs(one - other) % 1.0
    return min(far, 1.0 - far)


def _handle_places(base: ConstructedBase, pattern: SizedPattern, stakes: Stakes, count: int) -> list[float]:
    """Where handles stand round the edge: at their stakes, or half-way along the sides they go between."""
    places: list[float] = []
    total = count + stakes.add - stakes.leave_out
    first = base.ends[0].u
    for handle in pattern.handles:
        if handle.at and total:
            places += [first + (number - 1) / total for number in handle.at]
        else:
            places += _by_direction(handle)
    return places


def _by_direction(handle: Handle) -> list[float]:
    return [0.0, 0.5] if handle.direction == "along" else [0.25, 0.75]
