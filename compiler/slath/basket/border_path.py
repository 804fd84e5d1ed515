"""A border read as the path of one stake: the stakes it passes, on which face, and how each part of its way ends.

Posts are counted from the stake itself (its own is 0, work runs to higher numbers) and space n lies between posts n
and n + 1. A *leg* is what a stake does in one go: a whole pass, or in a plain border first the laying down and later
the rest of the way.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from msgspec import Struct

from slath.basket.model import Visit
from slath.language.pattern import Border, BorderPass, Move, Plait
from slath.messages.told import Told, kept

Face = Literal["behind", "before"]
Ending = Literal["out", "in", "down", "lies", "rolled"]
EndWay = Literal["over", "under"]
Arrival = Literal["rises", "comes out", "over the edge"]

_LONGEST_REACH = 120  # stakes; at common spacings more than two metres, longer than any stake sold

_PAST_ENDS: dict[str, EndWay] = {"over": "over", "under": "under"}
_FACE_AFTER: dict[str, Face] = {"out": "before", "in": "behind"}


class Leg(Struct, frozen=True):
    """What a stake does in one go.

    It sets out from space `begins` (its own post for the first leg) on face `came` (None: upright), is worked `lag`
    stakes later than the stake's own number says, passes `visits`, and ends in space `ends`.
    """

    pass_number: int
    lag: float
    begins: int
    came: Face | None
    visits: tuple[Visit, ...]
    ends: int
    ending: Ending
    face: Face  # where its end comes to lie; for "down" the face it goes down from
    past_ends: tuple[EndWay | None, ...] = ()  # for each visit: over or under another end, not past a stake

    @property
    def rolled(self) -> bool:
        """Whether it goes over the ends next to it and down on their own face, to be held by the ends laid after it."""
        return self.ending == "rolled"

    @property
    def when(self) -> tuple[int, float]:
        """When stake 0 works this leg, on the endless rim: the pass, then the stake whose turn it is."""
        return self.pass_number, self.lag

    def face_at(self, post: int) -> Face | None:
        """The face on which it passes a post; None where it passes none."""
        index = post - self.begins - 1
        return self.visits[index].face if 0 <= index < len(self.visits) else None


class Part(Struct, frozen=True):
    """A leg inside one space: the face at the post to its left and to its right, None where it starts or ends there."""

    space: int
    left: Face | None
    right: Face | None
    arrives: Arrival | None = None
    sinks: bool = False  # goes down into the weave here

    @property
    def faces(self) -> frozenset[Face]:
        """The faces it touches in this space."""
        if self.sinks or self.arrives == "over the edge":
            return frozenset(("behind", "before"))
        return frozenset(face for face in (self.left, self.right) if face)


@dataclass(eq=False)  # an exception must stay open to the traceback that is set on it
class PathFault(Exception):  # noqa: N818 - says what is wrong with the path, in trade words
    """The moves make no path a stake could take."""

    reason: Told


def legs_of(border: Border) -> tuple[Leg, ...]:
    """The legs of every pass in working order. Raises PathFault where a pass cannot follow the one before it."""
    if border.plait is not None:
        return _legs_of_plait(border.plait)
    passed = sum(move.count for one in passes_of(border) for move in one.moves)
    if passed > _LONGEST_REACH:
        raise PathFault(kept("refusals.each-stake-would-pass-others", passed=passed, longest_reach=_LONGEST_REACH))
    legs: list[Leg] = []
    for number, spec in enumerate(passes_of(border), start=1):
        before = legs[-1] if legs else None
        if before and before.ending == "down":
            raise PathFault(kept("refusals.pass-cannot-be-worked-the", number=number, pass_number=before.pass_number))
        legs += _legs_of_pass(spec, number, before)
    if not legs:
        raise PathFault(kept("refusals.the-border-has-no-passes"))
    return tuple(legs)


def passes_of(border: Border) -> tuple[BorderPass, ...]:
    """The passes; a plait is one pass, told as the whole way of one group through it."""
    if border.plait is None:
        return border.passes
    plait: Plait = border.plait
    outside, inside = Move("before", plait.over + 1), Move("behind", 1)
    return (BorderPass(plait.path, (*(outside, inside) * (plait_turns(plait) - 1), outside, Move("in"))),)


def plait_turns(plait: Plait) -> int:
    """How often a group goes over and in before it is left inside: as many groups lie together in each set of the plait.

    Sets are `over` + 2: one passes over the others outside, one lies inside. The added lengths and the uprights that begin
    outside fill them: with Gill's four lengths (1916) it is a plait of three pairs.
    """
    begun = plait.group * (plait.over + 1) + plait.added * plait.over
    return max(1, -(-begun // (plait.group * (plait.over + 2))))


def plait_spares(plait: Plait) -> tuple[tuple[int, int, int], ...]:
    """The added lengths: the group in whose set they begin, the group (below 1) they stand in for, how many they are.

    They lie beside the groups that begin outside; the others lie inside at first, a set that comes out with the next upright.
    """
    sets, left = plait.over + 2, plait.added * plait.over
    found: list[tuple[int, int, int]] = []
    while left > 0:
        turn, place = divmod(len(found), sets)
        first = place + 1 if turn + 1 < plait_turns(plait) else sets
        found.append((first, first - (turn + 1) * sets, min(plait.group, left)))
        left -= plait.group
    return tuple(found)


def plait_last(plait: Plait, count: int) -> tuple[tuple[int, tuple[int, ...]], ...]:
    """Which of the last of `count` groups go on in the set that each of the first began, in order: (first, its last ones)."""
    sets, turns = plait.over + 2, plait_turns(plait)
    return tuple(
        (first, tuple(count + first - turn * sets for turn in range(turns - 1, 0, -1)))
        for first in range(1, sets + 1)
        if turns > 1
    )


def _legs_of_plait(plait: Plait) -> tuple[Leg, ...]:
    """A group comes out, lies outside until its set is the last there, goes over the other sets and in, and so on.

    At each place the set furthest back goes in before the upright there is brought down; the set inside comes out with
    that upright. Common practice, no source.
    """
    legs: list[Leg] = []
    for turn in range(plait_turns(plait)):
        place = turn * (plait.over + 2)  # whose upright is brought down as the group comes out
        behind = (Visit(place, "behind"),) if turn else ()
        came: Face | None = "behind" if turn else None
        legs.append(Leg(1, float(place), place - len(behind), came, behind, place, "out", "before"))
        ends = place + plait.over + 1
        before = tuple(Visit(post, "before") for post in range(place + 1, ends + 1))
        legs.append(Leg(1, ends - 0.25, place, "before", before, ends, "in", "behind"))
    return tuple(legs)


def is_closed(leg: Leg, space: int) -> bool:
    """Whether the upright beyond a space has been turned down before `leg` of stake 0 is worked."""
    return leg.pass_number > 1 or space + 1 < leg.lag


def parts_of(leg: Leg) -> tuple[Part, ...]:
    """The leg space by space, in the order it is travelled."""
    first: Face | None = leg.visits[0].face if leg.visits else None
    arrives: Arrival = "comes out"
    if leg.came is None:
        arrives = "rises"
    elif first is not None and first != leg.came:
        arrives = "over the edge"
    if not leg.visits:
        lies = leg.face if leg.came is None else None  # a group of a plait that only comes down
        return (Part(leg.begins, leg.came, lies, arrives, sinks=leg.ending == "down"),)
    parts = [Part(leg.begins, None, first, arrives)]
    for visit, following in zip(leg.visits, leg.visits[1:], strict=False):
        parts.append(Part(visit.offset, visit.face, following.face))
    last = leg.visits[-1]
    sinks = leg.ending == "down"
    parts.append(Part(last.offset, last.face, None if sinks or leg.rolled else leg.face, sinks=sinks))
    return tuple(parts)


def _legs_of_pass(spec: BorderPass, number: int, before: Leg | None) -> list[Leg]:
    begins = before.ends if before else 0
    came = before.face if before else None
    visits, ending, face = _walk(spec, number, begins, came)
    if not visits and before is None:
        raise PathFault(kept("refusals.the-first-pass-takes-no"))
    ends = begins + len(visits)
    whole = Leg(number, 0.0, begins, came, visits, ends, ending, face, _past_ends(spec, came, visits, ending))
    if not spec.laid_first:
        return [whole]
    laid = _first_run(visits)
    if before is not None or laid == len(visits):
        raise PathFault(kept("refusals.in-pass-no-stake-can", number=number))
    beyond = visits[laid].face
    ending_laid: Ending = "out" if beyond == "before" else "in"
    return [
        Leg(number, 0.0, 0, None, visits[:laid], laid, ending_laid, beyond),
        Leg(number, spec.laid_first - 0.5, laid, beyond, visits[laid:], ends, ending, face),
    ]


def _walk(spec: BorderPass, number: int, begins: int, came: Face | None) -> tuple[tuple[Visit, ...], Ending, Face]:
    """The visits of a pass, how it ends, and the face its end is left on."""
    visits: list[Visit] = []
    face = came
    ending: Ending = "lies"
    for move in spec.moves:
        if ending in {"down", "rolled"}:
            raise PathFault(kept("refusals.pass-goes-on-after-the", number=number))
        if move.way in _FACE_AFTER:
            ending = "out" if move.way == "out" else "in"
            face = _FACE_AFTER[move.way]
        elif move.way == "down":
            ending = "rolled" if is_roll(spec, came) else "down"
        else:
            ending = "lies"
            face = _face_of(move, came, face)
            visits += [Visit(begins + len(visits) + step, face) for step in range(1, move.count + 1)]
    if face is None:
        raise PathFault(kept("refusals.pass-does-not-say-which", number=number))
    return tuple(visits), ending, face


def is_roll(spec: BorderPass, came: Face | None) -> bool:
    """Whether ends that lie on one face go over the next ends there and down: a roll, held by the ends laid after it."""
    *moves, last = spec.moves
    return came is not None and last.way == "down" and bool(moves) and all(move.way == "over" for move in moves)


def unheld(border: Border, legs: Sequence[Leg]) -> bool:
    """Whether nothing holds the ends a border leaves: its last pass stays on one face, goes over and under nothing there,
    and neither goes down nor is rolled. Common practice, no source.
    """
    last = legs[-1]
    if border.plait is not None or last.ending in {"down", "rolled"}:
        return False
    mine = [leg for leg in legs if leg.pass_number == last.pass_number]
    faces = {leg.came for leg in mine if leg.came} | {visit.face for leg in mine for visit in leg.visits} | {last.face}
    ways = {move.way for move in border.passes[-1].moves if move.count}
    return len(faces) == 1 and len(ways) == 1


def _face_of(move: Move, came: Face | None, face: Face | None) -> Face:
    """Behind is inside, before is outside.

    "Over" and "under" say the same of stakes that stand up. In a pass whose ends already lie inside, they mean over and
    under the other ends there, and the end stays inside.
    """
    if move.way == "behind":
        return "behind"
    if move.way == "before":
        return "before"
    if came == "behind" and face == "behind":
        return "behind"
    return "before" if move.way == "over" else "behind"


def _past_ends(
    spec: BorderPass, came: Face | None, visits: tuple[Visit, ...], ending: Ending
) -> tuple[EndWay | None, ...]:
    """For each visit whether it goes over or under an end that lies there, instead of past a stake."""
    ways = [move.way for move in spec.moves for _ in range(move.count)]
    return tuple(
        _PAST_ENDS.get(way) if ending == "rolled" or came == "behind" == visit.face else None
        for way, visit in zip(ways, visits, strict=True)
    )


def _first_run(visits: tuple[Visit, ...]) -> int:
    """How many stakes are passed before the face changes."""
    for index, visit in enumerate(visits):
        if visit.face != visits[0].face:
            return index
    return len(visits)


def middle_of(space: int) -> float:
    """A space as a place in stakes: space 2 lies at 2.5."""
    return space + 0.5
