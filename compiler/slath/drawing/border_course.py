"""The path of a border stake in space: which stakes it passes at which height, from the order the border is worked in.

Places are counted in stakes along the rim, in stake diameters inwards (q) and upwards (h) from the top of the weaving.
Heights come from ranks: in every space and on each face the legs that meet there are stacked as the basket says they
lie over one another, so the drawing cannot show an order the simulation does not have.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from slath.basket.border_over import is_closed, lying_over
from slath.basket.border_path import Face, Leg, Part, legs_of, parts_of
from slath.drawing.curves import Numbers, catmull_rom
from slath.language.pattern import Border

_RISE = 0.90  # diameters from one stake to the next in a stack; pressed a little into each other
_FLOOR: dict[Face, float] = {"behind": 0.35, "before": -0.05}  # height of the lowest stake on each face
_SIDE: dict[Face, float] = {"behind": 1.03, "before": -1.15}  # diameters from the row of stakes to the middle of a face

Knot = tuple[float, float, float]
Cell = tuple[int, int, Face]  # leg, space from the stake's own post, face


@dataclass(frozen=True, slots=True)
class BorderCourse:
    """The legs of a border with the rank of each in every space and on each face."""

    legs: tuple[Leg, ...]
    rank: dict[Cell, int]

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
        return catmull_rom(self.knots(done, lift, lifted, standing), 10)

    def _rank(self, leg: int, space: int, face: Face | None) -> float:
        return float(self.rank.get((leg, space, face), 0)) if face else 0.0

    def _post(self, leg: int, post: int, face: Face) -> Knot:
        lower = min(self._rank(leg, post - 1, face), self._rank(leg, post, face))
        out = 0.06 * lower if face == "before" else 0.0
        return float(post), self._side(leg, face) - out, _FLOOR[face] + _RISE * lower

    def _side(self, leg: int, face: Face) -> float:
        """Diameters from the row of stakes: a pass lies outside (or inside) whatever earlier passes left on its face."""
        earlier = {
            one.pass_number
            for one in self.legs
            if one.pass_number < self.legs[leg].pass_number and any(visit.face == face for visit in one.visits)
        }
        return _SIDE[face] * (1 + 0.92 * len(earlier))

    def _aside(self, leg: int) -> float:
        """Stakes laid down first come out beside those that move before them."""
        laid = leg + 1 < len(self.legs) and self.legs[leg + 1].pass_number == self.legs[leg].pass_number
        return 0.2 if laid else 0.0

    def _leg(self, number: int, lift: float) -> list[Knot]:
        leg = self.legs[number]
        parts = parts_of(leg)
        line: list[Knot] = self._arrival(number, parts[0], lift)
        for index, visit in enumerate(leg.visits):
            x, q, h = self._post(number, visit.offset, visit.face)
            h += lift * 0.8 ** (index + 1)
            part = parts[index + 1]
            alone = parts[index].left != visit.face and part.right != visit.face
            line += [(x - 0.18, q, h), (x + 0.18, q, h)] if alone else [(x, q, h)]
            if part.right is not None and part.left == part.right:
                level = _FLOOR[visit.face] + _RISE * (self._rank(number, part.space, part.left) - 0.5)
                line.append((part.space + 0.5, q, level + lift * 0.5 * 0.8 ** (index + 1)))
            elif part.left is not None and part.right is not None:
                line += self._crossing(number, part.space, part.left, part.right)
        return line

    def _arrival(self, number: int, part: Part, lift: float) -> list[Knot]:
        face: Face = part.right or "behind"
        side = self._side(number, face)
        at = float(part.space)
        level = _FLOOR[face] + _RISE * self._rank(number, part.space, face)
        if part.arrives == "rises":
            top = level - 0.62
            return [
                (at + 0.04, 0.05 * side, top - 0.55 + 0.6 * lift),
                (at + 0.32, 0.58 * side, top + 0.3 + lift),
                (at + 0.70, 0.97 * side, top + 0.15 + lift),
            ]
        if part.arrives == "over the edge":
            crest = _FLOOR["behind"] + _RISE * (1 + max(self.rank.values(), default=0))
            return [
                (at + 0.45, -0.7 * side, crest - 0.7),
                (at + 0.66, -0.1 * side, crest),
                (at + 0.84, 0.6 * side, crest - 0.25),
            ]
        return [(at + 0.76, 0.85 * side, level - 0.10)]

    def _crossing(self, number: int, space: int, left: Face, right: Face) -> list[Knot]:
        """Through a space from one face to the other: at the bottom where it is closed, else dropped in from the top."""
        at = float(space) + self._aside(number)
        low = min(self._rank(number, space, left), self._rank(number, space, right))
        level = _FLOOR["behind"] + _RISE * (low - 0.3)
        if is_closed(self.legs[number], space):
            level = min(level, 0.1)
        before = _FLOOR[left] + _RISE * self._rank(number, space, left)
        half = (min(before, level + 1.3) + level) / 2
        if left == "behind":
            return [(at + 0.33, 0.5, level), (at + 0.55, -0.35, level - 0.1)]
        return [(at + 0.12, -0.55, half + 0.15), (at + 0.28, -0.02, level + 0.12), (at + 0.44, 0.55, level)]

    def _tail(self, number: int) -> list[Knot]:
        """The end, past the stake it rests on."""
        leg = self.legs[number]
        at = float(leg.ends) + self._aside(number)
        if leg.ending == "down":
            side = _SIDE[leg.face]
            # Beside the last stake passed, close against it (Gill 1916, open borders).
            return [(at + 0.27, 0.55 * side, 0.1), (at + 0.32, 0.12 * side, -0.8), (at + 0.33, 0.1 * side, -2.2)]
        if leg.face == "before":
            return [(at + 0.8, -1.1, 0.0), (at + 1.2, -2.0, -0.05), (at + 1.6, -2.9, -0.15)]
        runs_inside = any(visit.face == "behind" for visit in leg.visits)
        inner = self._side(number, "behind") if runs_inside else 1.05
        return [(at + 0.72, inner + 0.35, -0.12), (at + 1.1, inner + 0.95, -0.1), (at + 1.4, inner + 1.45, -0.1)]


def _cut_close(tail: list[Knot]) -> list[Knot]:
    """The tail of a finished end: as far as the stake it rests on and a little over."""
    (x0, q0, h0), (x1, q1, h1) = tail[0], tail[1]
    return [tail[0], (x0 + 0.6 * (x1 - x0), q0 + 0.3 * (q1 - q0), h0 + 0.6 * (h1 - h0))]


def border_course(border: Border) -> BorderCourse:
    """The course of a border. Raises PathFault where its moves make no path."""
    legs = legs_of(border)
    return BorderCourse(legs, _ranks(legs))


def _ranks(legs: Sequence[Leg]) -> dict[Cell, int]:
    """Stack the legs in every space and on each face; what is worked later lies over, unless the basket says beneath."""
    cells: dict[Cell, None] = {}
    for number, leg in enumerate(legs):
        for part in parts_of(leg):
            for face in ("behind", "before"):
                if face in part.faces:
                    cells[number, part.space, face] = None
    over = lying_over(legs)
    above: dict[Cell, list[Cell]] = {cell: [] for cell in cells}
    for cell in cells:
        for other in cells:
            if other[2] == cell[2] and _lies_over(legs, over, cell, other):
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


def _lies_over(legs: Sequence[Leg], over: Sequence[Sequence[object]], cell: Cell, other: Cell) -> bool:
    """Whether the piece in `other` lies over the piece in `cell` where both are in one space of the rim."""
    leg, space, _ = cell
    later, later_space, _ = other
    ahead = space - later_space  # how many stakes further on the other's own post is
    if ahead == 0:
        return False
    if legs[leg].pass_number != legs[later].pass_number:
        crosses_end = space == legs[leg].ends and not _only_arrives(legs[later], later_space)
        return legs[later].pass_number > legs[leg].pass_number and crosses_end
    listed = {(item.ahead, item.leg, item.space) for item in over[leg]}  # type: ignore[attr-defined]
    if (ahead, later, space) in listed:
        return True
    worked_later = legs[later].lag + ahead > legs[leg].lag
    if worked_later:
        return False
    mirrored = {(item.ahead, item.leg, item.space) for item in over[later]}  # type: ignore[attr-defined]
    return (-ahead, leg, later_space) not in mirrored


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
