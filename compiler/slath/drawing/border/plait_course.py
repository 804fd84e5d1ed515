"""The path of a group through a plaited border: out over the set that goes in, down, up over the next set, and in.

Groups of one set lie side by side as a ribbon: each takes the place of the one that joined before it when it comes out
anew, and the oldest is left inside. Places are counted as in `border_course`.
"""

from __future__ import annotations

import math

from slath.basket.border_path import legs_of, plait_turns
from slath.drawing.border.course import BELOW, BorderCourse, Knot, border_course
from slath.language.pattern import Border

_TILT = math.radians(42.0)  # plaits are laid out as they are seen: from outside and above
_SIDE_BY_SIDE = 0.95  # of its breadth from one group to the next in a ribbon

_SUNK = 0.25  # of the breadth of a ribbon by which the plait hangs lower than centred on the rim

# A way from where it comes out to where it goes in: stakes along (the last two from where it goes in), height on the page
# in breadths of the ribbon, and diameters towards the eye from what it lies on.
_OUT = ((0.35, 0.55, 1.3), (0.70, 0.05, 1.2), (1.05, -0.50, 0.7))
_LOW = (1.45, -0.80, 0.8)
_IN = ((-0.27, -0.50, 1.4), (0.03, 0.0, 1.8), (0.35, 0.45, 0.5))
_INSIDE = ((0.66, 0.78, -1.1), (1.03, 0.80, -1.0))
_ENDS_INSIDE = ((0.66, 0.80, -1.1), (0.95, 0.98, -1.2), (1.25, 1.1, -1.3))
_ENDS_OUTSIDE = ((1.5, -0.95, 0.8), (2.1, -1.3, 0.9))
_BENDS = ((0.02, 0.30, 0.0), (0.12, 0.58, 0.5))


def group_breadth(stakes: int) -> float:
    """Diameters that so many stakes worked as one take side by side, drawn somewhat thinner than one."""
    return {1: 1.0, 2: 1.3}.get(stakes, 1.5)


def course_of(border: Border, loop: float = 0.0) -> BorderCourse:
    """The course of any border; `loop` as in `border_course`. Raises PathFault where it has no path."""
    if border.plait is None:
        return border_course(border, loop)
    plait = border.plait
    return PlaitCourse(legs_of(border), {}, turns=plait_turns(plait), over=plait.over, thick=group_breadth(plait.group))


class PlaitCourse(BorderCourse, frozen=True):
    """The course of a plait in sets of `turns` groups that each pass over `over` sets."""

    turns: int = 1
    over: int = 1
    thick: float = 1.0  # diameters a group takes

    def knots(
        self, done: int, lift: float = 0.0, lifted: int = 0, standing: float = 9.0, *, trimmed: bool = False
    ) -> list[Knot]:
        """Knots of group 0 after its first `done` legs, from below the rim to its end; nothing is lifted in a plait."""
        del lift, lifted
        if not done:
            return [(0.0, 0.0, -2.2), (0.0, 0.0, 0.0), (0.0, 0.0, standing)]
        line: list[Knot] = [(0.0, 0.0, -2.2), (0.0, 0.0, -1.1), (0.0, 0.0, -0.3)]
        line += [self._knot(0.0, knot, 0) for knot in _BENDS]
        for turn in range((done + 1) // 2):
            place = float(turn * (self.over + 2))
            line += [self._knot(place, knot, turn) for knot in _OUT]
            if 2 * turn + 1 == done:
                return [*line, *(self._knot(place, knot, turn) for knot in _ENDS_OUTSIDE)]
            ends = place + self.over + 1
            line += [self._knot(place + max(self.over - 1, 0) / 2, _LOW, turn)]
            line += [self._knot(ends, knot, turn) for knot in _IN]
            if 2 * turn + 2 < done:
                line += [self._knot(ends, knot, turn + at) for at, knot in enumerate(_INSIDE)]
            else:
                tail = [self._knot(ends, knot, turn) for knot in _ENDS_INSIDE]
                return [*line, *(tail[:2] if trimmed else tail)]
        return line

    def starts(self, leg: int) -> int:
        """How many knots come before those of a leg."""
        turn, goes_in = divmod(leg, 2)
        return BELOW + len(_BENDS) + turn * (len(_OUT) + 1 + len(_IN) + len(_INSIDE)) + goes_in * len(_OUT)

    def _knot(self, place: float, knot: tuple[float, float, float], turn: int) -> Knot:
        along, height, near = knot
        breadth = self.turns * self.thick * _SIDE_BY_SIDE
        level = (height - _SUNK) * breadth
        towards = near + (0.9 * level if level > 0 else -1.11 * level)  # along the stakes above the rim, the wall below
        up = level + ((self.turns - 1) / 2 - turn) * self.thick * _SIDE_BY_SIDE
        inwards = up * math.sin(_TILT) - towards * math.cos(_TILT)
        return place + along, inwards, up * math.cos(_TILT) + towards * math.sin(_TILT)
