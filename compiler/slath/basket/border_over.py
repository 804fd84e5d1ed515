"""Which stakes of a border lie over which, on a rim without beginning or end.

Every stake there takes the same path, so it is enough to ask of stake 0: which others, `ahead` stakes further on, come
to lie over it, and in which space. What happens in a space follows from the order of work and a few facts:

* What is laid later lies over what is there already, wherever the two touch.
* A stake turned down from upright, or taken over the edge, comes on to a face from the top. So does one that goes
  through a space whose next upright still stands: it can be dropped in.
* An end that is rolled goes over the next ends of its own row, from root to root, and down beyond the last of them. Each
  of these is then taken up from beneath it and laid over its tip: that holds it.
* Through a space that is already closed by turned-down stakes an end has to be threaded at the bottom, and comes out
  beneath whatever lies across. It then runs beneath the older one, which it meets again where the older one leaves
  the face through a closed space: at the bottom too, on top of the end that comes out there. A neighbour that has come out in the
  space just before is still lower than that and passes below; one that has passed two stakes has climbed, and lies over.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from slath.basket.border_path import Face, Leg, Part, parts_of

_CLIMBED = 2  # stakes an end has passed when it lies higher than the ends that go in


@dataclass(frozen=True, slots=True, order=True)
class Over:
    """In `space` (from stake 0) leg `leg` of the stake `ahead` further on lies over the leg asked about."""

    space: int
    ahead: int
    leg: int


def lying_over(legs: Sequence[Leg]) -> tuple[tuple[Over, ...], ...]:
    """For each leg of stake 0: what is worked later in the same pass and lies over it, in the order it is met."""
    parts = [{part.space: part for part in parts_of(leg)} for leg in legs]
    return tuple(
        tuple(
            sorted(
                Over(space, ahead, other)
                for space in parts[index]
                for other, later in enumerate(legs)
                if later.pass_number == leg.pass_number
                for ahead in range(space - later.ends, space - later.begins + 1)
                if ahead != 0 and later.lag + ahead > leg.lag and _is_over(legs, parts, (index, other), ahead, space)
            )
        )
        for index, leg in enumerate(legs)
    )


def is_closed(leg: Leg, space: int) -> bool:
    """Whether the upright beyond a space has been turned down before `leg` of stake 0 is worked."""
    return leg.pass_number > 1 or space + 1 < leg.lag


def _is_over(
    legs: Sequence[Leg], parts: Sequence[dict[int, Part]], pair: tuple[int, int], ahead: int, space: int
) -> bool:
    """Whether the second leg of the pair, of the stake `ahead`, lies over the first leg of stake 0 in `space`."""
    below, above = parts[pair[0]][space], parts[pair[1]].get(space - ahead)
    if above is None:
        return False
    if legs[pair[0]].rolled and legs[pair[1]].rolled:
        return space > legs[pair[1]].begins + ahead or space == legs[pair[0]].ends
    for face in sorted(below.faces & above.faces):
        came_on = _came_beneath(legs, parts, pair, ahead, space, face)
        if came_on is None:
            return True
        leaves = below.left == face != below.right and is_closed(legs[pair[0]], space)
        passes_on = above.left == face == above.right
        if leaves and passes_on and space - came_on >= _CLIMBED:
            return True
    return False


def _came_beneath(
    legs: Sequence[Leg],
    parts: Sequence[dict[int, Part]],
    pair: tuple[int, int],
    ahead: int,
    space: int,
    face: Face,
) -> int | None:
    """The space in which the other stake came on to `face` beneath the leg of stake 0; None if it came from the top."""
    first, other = pair
    at = space - ahead
    while parts[other][at].left == face:
        at -= 1
    arrival = parts[other][at]
    across = parts[first].get(at + ahead)
    if across is None or face not in across.faces:
        return None  # the leg of stake 0 did not lie there yet: what comes later lies over it
    if any(parts[first][place].right != face for place in range(at + ahead, space)):
        return None  # it has left the face since and come back: that part of it lies elsewhere
    if arrival.arrives == "comes out":
        root = legs[other - 1]
        laid_on_root = (root.pass_number, root.lag + ahead) < legs[first].when
        return at + ahead if laid_on_root else None
    if arrival.arrives is not None or not is_closed(legs[other], at):
        return None
    return at + ahead
