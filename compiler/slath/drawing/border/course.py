"""The path of a border stake in space: which stakes it passes at which height, from the order the border is worked in.

Places are counted in stakes along the rim, in stake diameters inwards (q) and upwards (h) from the top of the weaving.
Heights come from ranks: in every space and on each face the legs that meet there are stacked as the basket says they
lie over one another, so the drawing cannot show an order the simulation does not have.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

import numpy as np
from msgspec import Struct

from slath.basket.border_over import EndlessRim, endless
from slath.basket.border_path import Face, Leg, Part, is_closed, legs_of, parts_of
from slath.drawing.paint.curves import Numbers, spline
from slath.language.pattern import Border

_RISE = 0.90  # diameters from one stake to the next in a stack; pressed a little into each other
_FLOOR: dict[Face, float] = {"behind": 0.35, "before": -0.05}  # height of the lowest stake on each face
_SIDE: dict[Face, float] = {"behind": 1.03, "before": -1.15}  # diameters from the row of stakes to the middle of a face
BELOW = 3  # knots of a stake below its first bend
_PLAN_SPACING = 3.2  # diameters from stake to stake as drawn; by it along is measured against inwards and upwards

Knot = tuple[float, float, float]
Cell = tuple[int, int, Face]  # leg, space from the stake's own post, face


class BorderCourse(Struct, frozen=True):
    """The legs of a border with the rank of each in every space and on each face."""

    legs: tuple[Leg, ...]
    rank: dict[Cell, int]
    loop: float = 0.0  # diameters a loop of the first pass stands up; 0 where it lies along the rim

    @property
    def reach(self) -> int:
        """Stakes from a stake's own post to where its last end rests."""
        return self.legs[-1].ends + 1

    def knots(
        self, done: int, lift: float = 0.0, lifted: int = 0, standing: float = 9.0, *, trimmed: bool = False
    ) -> list[Knot]:
        """Knots of stake 0 after its first `done` legs, from below the rim to its end; `lift` raises leg `lifted`.

        `trimmed` cuts the end close, just past the stake it rests on.
        """
        if not done:
            return [(0.0, 0.0, -2.2), (0.0, 0.0, 0.0), (0.0, 0.0, standing)]
        line: list[Knot] = [(0.0, 0.0, -2.2), (0.0, 0.0, -1.1), (0.0, 0.0, -0.3)]
        for number in range(done):
            line += self._leg(number, lift if number == lifted else 0.0)
        tail = self._tail(done - 1)
        return [*line, *(_cut_close(tail) if trimmed else tail)]

    def line(self, done: int, lift: float = 0.0, lifted: int = 0, standing: float = 9.0) -> Numbers:
        """The centre line through the knots, (n, 3)."""
        return through(self.knots(done, lift, lifted, standing))

    def starts(self, leg: int) -> int:
        """How many knots come before those of a leg."""
        return BELOW + sum(len(self._leg(number, 0.0)) for number in range(leg))

    def _rank(self, leg: int, space: int, face: Face | None) -> float:
        return float(self.rank.get((leg, space, face), 0)) if face else 0.0

    def _level(self, leg: int, space: int, face: Face | None) -> float:
        """Height of a leg in a space on a face."""
        return _FLOOR[face or "behind"] + _RISE * self._rank(leg, space, face)

    def _post(self, leg: int, post: int, face: Face) -> Knot:
        """Beside a stake it passes: half way between its heights in the spaces to either side.

        It keeps its height to the last stake before it dives through a closed space, so that it crosses there what it
        goes under, and not before.
        """
        one, other = self._level(leg, post - 1, face), self._level(leg, post, face)
        mine = self.legs[leg]
        runs_up = mine.face_at(post - 1) == face
        dives = mine.face_at(post + 1) not in {face, None} or (post == mine.ends and mine.face != face)
        height = one if runs_up and dives and is_closed(mine, post) else (one + other) / 2
        lean = 0.06 * (height - _FLOOR[face]) / _RISE if face == "before" else 0.0
        return float(post), self._side(leg, face) - lean, height

    def _side(self, leg: int, face: Face) -> float:
        """Diameters from the row of stakes: a pass lies outside (or inside) whatever earlier passes left on its face."""
        earlier = {
            one.pass_number
            for one in self.legs
            if one.pass_number < self.legs[leg].pass_number and any(visit.face == face for visit in one.visits)
        }
        apart = 0.5 if parts_of(self.legs[leg])[0].arrives == "over the edge" else 0.92  # it lies over them, not beside
        return _SIDE[face] * (1 + apart * len(earlier))

    def _aside(self, leg: int) -> float:
        """An end comes to lie beside what is in its space already: a stake laid first, or an end of the pass before."""
        mine = self.legs[leg]
        laid = leg + 1 < len(self.legs) and self.legs[leg + 1].pass_number == mine.pass_number
        beside = any(one.pass_number < mine.pass_number and one.face == mine.face for one in self.legs)
        return 0.2 if laid else 0.16 if beside else 0.0

    def _leg(self, number: int, lift: float) -> list[Knot]:
        leg = self.legs[number]
        if self.loop and not number:
            return self._loop(leg, lift)
        parts = parts_of(leg)
        line: list[Knot] = self._arrival(number, parts[0], lift)
        for index, visit in enumerate(leg.visits):
            x, q, h = self._post(number, visit.offset, visit.face)
            line.append((x, q, h + lift * (0.8 ** (index + 1) if leg.came is None else min(0.5 * (index + 1), 1.2))))
            part = parts[index + 1]
            if part.left is not None and part.right is not None and part.left != part.right:
                line += self._crossing(number, part.space, part.left, part.right)
        return line

    def _loop(self, leg: Leg, lift: float) -> list[Knot]:
        """A loop that stands up over the stakes it passes: half an ellipse, leaving the row early and coming back late."""
        past, high = len(leg.visits), self.loop + lift
        side = _SIDE[leg.visits[0].face]
        turns = np.linspace(0.12, 0.90, 9) * np.pi
        return [
            (past * (1 - np.cos(turn)) / 2, side * min(1.0, 1.3 * np.sin(min(turn, 1.9))), high * float(np.sin(turn)))
            for turn in turns.tolist()
        ]

    def _arrival(self, number: int, part: Part, lift: float) -> list[Knot]:
        face: Face = part.right or "behind"
        side = self._side(number, face)
        at = float(part.space)
        level = self._level(number, part.space, face)
        if part.arrives == "rises":
            top = level - 0.62
            bend = [
                (at + 0.03, 0.05 * side, top - 0.55 + 0.6 * lift),
                (at + 0.29, 0.55 * side, top + 0.3 + lift),
            ]
            alone = len(self.legs[number].visits) == 1 or self.legs[number].visits[1].face != face
            return bend if alone else [*bend, (at + 0.70, 0.97 * side, top + 0.15 + lift)]
        if part.arrives == "over the edge":
            crest = self._crest(number) + lift
            return [
                (at + 0.52, -0.85 * side, crest - 0.9),
                (at + 0.60, -0.45 * side, crest - 0.15),
                (at + 0.71, 0.02 * side, crest),
                (at + 0.84, 0.5 * side, crest - 0.4),
            ]
        return [(at + 0.76, 0.85 * side, min(level - 0.1, 0.3))]

    def _crest(self, number: int) -> float:
        """Just over what earlier passes have left along the top."""
        mine = self.legs[number].pass_number
        lying = [rank for (leg, _, _), rank in self.rank.items() if self.legs[leg].pass_number < mine]
        return _FLOOR["behind"] + _RISE * (0.2 + max(lying, default=0))

    def _crossing(self, number: int, space: int, left: Face, right: Face) -> list[Knot]:
        """Through a space from one face to the other: at the bottom where it is closed, else dropped in from the top."""
        at = float(space) + self._aside(number)
        before, after = self._level(number, space, left), self._level(number, space, right)
        if is_closed(self.legs[number], space):
            low = min(self._rank(number, space, left), self._rank(number, space, right))
            after = min(_FLOOR["behind"] + _RISE * (low - 0.3), 0.1)
            before = (min(before, after + 1.3) + after) / 2
        if left == "behind":
            return [(at + 0.33, 0.5, after), (at + 0.55, -0.35, after - 0.1)]
        return [(at + 0.13, -0.55, before + 0.1), (at + 0.28, -0.02, (before + after) / 2), (at + 0.44, 0.55, after)]

    def _tail(self, number: int) -> list[Knot]:
        """The end, past the stake it rests on."""
        leg = self.legs[number]
        at = float(leg.ends) + self._aside(number)
        if leg.ending == "down":
            side = _SIDE[leg.face]
            # Beside the last stake passed, close against it (Gill 1916, open borders).
            return [(at + 0.27, 0.55 * side, 0.1), (at + 0.32, 0.12 * side, -0.8), (at + 0.33, 0.1 * side, -2.2)]
        if leg.rolled:
            side = self._side(number, leg.face)
            level = self._level(number, leg.ends, leg.face)
            return [(at + 0.30, side, level - 0.5), (at + 0.42, 1.02 * side, level - 1.3), (at + 0.46, side, -2.2)]
        if leg.face == "before":
            return [(at + 0.8, -1.1, 0.0), (at + 1.2, -2.0, -0.05), (at + 1.6, -2.9, -0.15)]
        runs_inside = any(visit.face == "behind" for visit in leg.visits)
        inner = self._side(number, "behind") if runs_inside else 1.05
        return [(at + 0.72, inner + 0.35, -0.12), (at + 1.1, inner + 0.95, -0.1), (at + 1.4, inner + 1.45, -0.1)]


def through(knots: Sequence[Knot], steps: int = 10) -> Numbers:
    """The centre line through knots that stand unevenly: by the square root of their distances, so that it never kinks.
    It cannot be written to, for most stakes of a border have the same, in every figure.
    """
    return _through(tuple(knots), steps)


@lru_cache(maxsize=512)
def _through(knots: tuple[Knot, ...], steps: int) -> Numbers:
    at = np.asarray(knots, float)
    gaps = np.sqrt(((np.diff(at, axis=0) * [_PLAN_SPACING, 1.0, 1.0]) ** 2).sum(axis=1)) ** 0.5
    way = np.concatenate([[0.0], np.cumsum(gaps)])
    fine = np.concatenate(
        [np.linspace(one, other, steps, endpoint=False) for one, other in pairwise(way.tolist())] + [way[-1:]]
    )
    line = spline(way, at, fine)
    line.flags.writeable = False
    return line


def _cut_close(tail: list[Knot]) -> list[Knot]:
    """The tail of a finished end: as far as the stake it rests on and a little over."""
    (x0, q0, h0), (x1, q1, h1) = tail[0], tail[1]
    return [tail[0], (x0 + 0.6 * (x1 - x0), q0 + 0.3 * (q1 - q0), h0 + 0.6 * (h1 - h0))]


def border_course(border: Border, loop: float = 0.0) -> BorderCourse:
    """The course of a border; `loop` diameters is how high its loops stand up. Raises PathFault where it has no path."""
    legs = legs_of(border)
    return BorderCourse(legs, _ranks(legs), loop)


def _ranks(legs: Sequence[Leg]) -> dict[Cell, int]:
    """Stack the legs in every space and on each face; what is worked later lies over, unless the basket says beneath."""
    cells: dict[Cell, None] = {}
    for number, leg in enumerate(legs):
        for part in parts_of(leg):
            for face in ("behind", "before"):
                if face in part.faces:
                    cells[number, part.space, face] = None
    rim = endless(tuple(legs))
    above: dict[Cell, list[Cell]] = {cell: [] for cell in cells}
    for cell in cells:
        for other in cells:
            if other[2] == cell[2] and _lies_over(rim, cell, other):
                above[cell].append(other)
    return _stacked(above)


def _stacked(above: dict[Cell, list[Cell]]) -> dict[Cell, int]:
    """Longest stack below each cell. Where orders run in a ring (stakes interlaced in one space), the least held goes first."""
    held = dict.fromkeys(above, 0)
    for others in above.values():
        for other in others:
            held[other] += 1
    rank = dict.fromkeys(above, 0)
    waiting = dict(held)
    while waiting:
        cell = min(waiting, key=lambda item: (waiting[item], item[0], -item[1], item[2]))
        del waiting[cell]
        for other in above[cell]:
            if other in waiting:
                waiting[other] -= 1
                rank[other] = max(rank[other], rank[cell] + 1)
    return rank


def _lies_over(rim: EndlessRim, cell: Cell, other: Cell) -> bool:
    """Whether the piece in `other` lies over the piece in `cell` where both are in one space of the rim."""
    leg, space, face = cell
    later, later_space, _ = other
    ahead = space - later_space  # how many stakes further on the other's own post is
    if ahead == 0:
        return False
    if rim.legs[leg].pass_number != rim.legs[later].pass_number:
        crosses_end = space == rim.legs[leg].ends and not _only_arrives(rim.legs[later], later_space)
        return rim.legs[later].pass_number > rim.legs[leg].pass_number and crosses_end
    both = (space, face) in rim.lies[leg].cells and (later_space, face) in rim.lies[later].cells
    if both:
        return rim.lies_over(leg, later, ahead, (space, face))
    return rim.legs[later].lag + ahead > rim.legs[leg].lag


def _only_arrives(leg: Leg, space: int) -> bool:
    """Whether the leg merely sets out in this space: there it still lies where its last pass left it."""
    return space == leg.begins and leg.came is not None


def on_page(line: Numbers, spacing: float, diameter: float, *, inside: bool, elevation: float = 42.0) -> Numbers:
    """Places along, inwards and up as page mm (x right, y up, z to the eye), seen from outside (or inside) and above."""
    tilt = np.radians(elevation)
    turn = -1.0 if inside else 1.0
    along, inward, up = line[:, 0] * spacing * turn, line[:, 1] * diameter * turn, line[:, 2] * diameter
    return np.column_stack(
        [along, up * np.cos(tilt) + inward * np.sin(tilt), up * np.sin(tilt) - inward * np.cos(tilt)]
    )
