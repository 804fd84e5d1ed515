"""The stretch of rim a border figure shows: which stakes, how far each has got, and how each is dressed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from typing import Literal

import numpy as np
from msgspec import Struct

from slath.basket.border_ends import foot_ends
from slath.basket.border_path import Leg, plait_spares
from slath.basket.border_stakes import border_units, stakes_together
from slath.basket.model import Basket, WorkedBorder, WorkedPass
from slath.drawing.border.course import BorderCourse, on_page
from slath.drawing.border.plait_course import course_of
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import Dress, dress, picked_out
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.lettering import POINT_MM
from slath.language.pattern import Plait
from slath.messages import Message, message
from slath.messages.values import Numbers as ByNumber
from slath.plan.acts import Bend
from slath.plan.border_rows import BorderRow, border_rows

Phase = Literal["start", "running", "finish"]
PHASES: tuple[Phase, ...] = ("start", "running", "finish")

LIFT = 0.75  # diameters by which a loop left loose is drawn above the others
_STOUT, _SLIM = 0.31, 0.17  # of the spacing: thickness of a stake as drawn, and in a plait
_WIDEST, _WIDEST_PLAIT = 11.0, 15.0  # mm from one stake to the next on the page; a plait's are many and thin
_TALLEST_LOOP = 7.0  # diameters; a loop is drawn no higher, for the width of the page
_UNITS = {
    "stake": message("figure-border.stake"),
    "pair": message("figure-border.pair"),
    "group": message("figure-border.group"),
}
_FINISHERS = 3  # the last stakes that are picked out
_SPARE = "#b9c4c4"  # what a plait is begun with, dotted
_OTHERS = (("#b4714a", "rings"), ("#5d7f93", "dots"))  # a second and a third stake picked out


class Window(Struct, frozen=True):
    """The stretch of rim shown: stakes `first`..`last` in endless numbering (1 is stake 1), page measures in mm."""

    first: int
    last: int
    spacing: float
    stake: float
    left: float
    base: float
    inside: bool

    def x(self, at: float) -> float:
        """Page x of a place counted in stakes."""
        if self.inside:
            return self.left + (self.last - at) * self.spacing
        return self.left + (at - self.first) * self.spacing

    def along(self, x: Numbers) -> Numbers:
        """The places in stakes of page x."""
        far = (x - self.left) / self.spacing
        return self.last - far if self.inside else self.first + far

    def place(self, line: Numbers, at: float) -> Numbers:
        """A centre line of the stake at `at` on the page."""
        moved = line + np.array([at, 0.0, 0.0])
        page = on_page(moved, self.spacing, self.stake, inside=self.inside)
        page[:, 0] += self.x(0.0)
        page[:, 1] += self.base
        return page

    @property
    def sides(self) -> tuple[float, float]:
        """Page x where it is cut off, left and right."""
        return self.left - 0.5 * self.spacing, self.left + (self.last - self.first + 0.5) * self.spacing


class Stretch:
    """One pass of a border at one phase of it."""

    def __init__(
        self,
        basket: Basket,
        border: WorkedBorder,
        number: int,
        phase: Phase,
        clothes: Wardrobe,
        options: Options,
    ) -> None:
        self.basket, self.border, self.phase = basket, border, phase
        self.clothes, self.options = clothes, options
        self.worked: WorkedPass = border.passes[number - 1]
        high = border.spec.loop_height_mm
        loop = min(high / border.spacing_mm / _STOUT, _TALLEST_LOOP) if high is not None else 0.0
        self.course: BorderCourse = course_of(border.spec, loop)
        self.earlier = sum(leg.pass_number < number for leg in self.course.legs)
        self.mine: list[Leg] = [leg for leg in self.course.legs if leg.pass_number == number]
        self.row: BorderRow = border_rows(border)[number - 1]
        came = self.mine[0].came
        self.inside = came == "behind" and all(visit.face == "behind" for leg in self.mine for visit in leg.visits)
        self.together = stakes_together(basket, border)
        self.window = self._window()

    # ----------------------------------------------------------------------------------------------------- how far
    def _window(self) -> Window:
        reach = self.mine[-1].ends + 1
        count = max(8, reach + 4)
        if self.phase == "running":
            first = min(10, max(1, self.border.count // 3))
        elif self.phase == "start":
            first = -1
            if self.plait is not None:
                count = 2 * self.plait.over + 6
        else:
            first = 1 - max(3, len(self.worked.finish) if len(self.worked.finish) < 6 else 4)
            count = max(count, 3 - first + self.mine[-1].ends)  # the last end in whole
        width = self.options.width_mm
        widest = _WIDEST if self.plait is None else _WIDEST_PLAIT
        most = max(widest, 2.6 * self.options.text_pt * POINT_MM)
        spacing = min(most, (width - 2.0) / (count + 0.2))
        left = (width - count * spacing) / 2 + 0.5 * spacing
        stout = _STOUT if self.plait is None else _SLIM
        return Window(first, first + count - 1, spacing, stout * spacing, left, 0.0, self.inside)

    @property
    def worked_from(self) -> str:
        """The side the maker looks at, by which moves are told."""
        return "inside" if self.border.spec.from_inside else "outside"

    @property
    def flat(self) -> bool:
        """Whether it is the border of a mat, which has a front and a back."""
        return self.basket.profile is None and not self.border.spec.foot

    @property
    def near(self) -> str:
        """The side of the basket the figure is seen from."""
        return "inside" if self.inside != self.border.spec.from_inside else "outside"

    @property
    def sides(self) -> tuple[Message, Message]:
        """The side it is seen from, and the far one."""
        outer = message("figure-border.side-front" if self.flat else "figure-border.side-outside")
        inner = message("figure-border.side-back" if self.flat else "figure-border.side-inside")
        return (outer, inner) if self.near == "outside" else (inner, outer)

    @property
    def one(self) -> Message:
        """What is worked as one: a stake, a pair or a group."""
        return _UNITS[self._kind]

    def these(self, numbers: Iterable[int]) -> Message:
        """Some of what is worked as one, by number: "stake 1", "pairs 1 and 2"."""
        return message(f"figure-border.these-{self._kind}", numbers=ByNumber(tuple(numbers)))

    @property
    def _kind(self) -> str:
        return {1: "stake", 2: "pair"}.get(self.together, "group")

    @property
    def plait(self) -> Plait | None:
        """How it is plaited, if it is."""
        return self.border.spec.plait

    @property
    def picked(self) -> int:
        """The stake whose way is shown, in endless numbering."""
        if self.phase == "running":
            return self.window.first + 1
        return 1 if self.phase == "start" else 0

    @property
    def brought_down(self) -> int | None:
        """The upright brought down when the stake picked out has moved, in endless numbering: in plain borders and plaits."""
        laid = self.worked.spec.laid_first
        if self.plait is not None:
            laid = self.plait.over + 1 if self.phase == "start" else self.mine[-1].ends
        return self.picked + laid if laid and self.phase != "finish" else None

    def _now(self) -> float:
        """How far the pass has got: turns of stakes up to this are done."""
        if self.phase == "finish":
            return float("inf")
        if self.brought_down is not None:
            return float(self.brought_down)
        if self.phase == "running":
            return self.picked + self.mine[-1].lag
        return float(min(3, max(2, len(self.worked.loose))))

    def done(self, stake: int) -> int:
        """Legs the stake has made."""
        return self.earlier if self.phase == "start" and stake < 1 else self.legs_made(stake)

    def legs_made(self, stake: int) -> int:
        """Legs a stake has made, or what stands in for one below 1 as if it had gone before."""
        now = self._now()
        return self.earlier + sum(stake + leg.lag <= now for leg in self.mine)

    def stand_ins(self) -> Iterator[tuple[int, int, int]]:
        """The added lengths where a plait starts: the group whose set they begin in, the group stood in for, how many."""
        if self.plait is not None and self.phase == "start":
            yield from plait_spares(self.plait)

    def number(self, stake: int) -> int:
        """The number on the ring of a stake in endless numbering."""
        return (stake - 1) % self.border.count + 1

    @cached_property
    def finishers(self) -> list[int]:
        """Last stakes picked out, in endless numbering (0 is the last stake of all)."""
        stakes = [finish.stake - self.border.count for finish in self.worked.finish] or [0]
        return [stake for stake in stakes if stake >= self.window.first][-_FINISHERS:]

    def is_loose(self, stake: int) -> bool:
        """Whether the stake's loop (in later passes its end) is left loose and drawn so."""
        return self.phase != "running" and 1 <= stake <= self.window.last and stake in self.worked.loose

    def turns(self, number: int) -> tuple[Bend, ...]:
        """The turns of a stake in this pass, by its number on the ring."""
        return self.row.turns(number)

    # ------------------------------------------------------------------------------------------------------- dress
    @property
    def spare_look(self) -> Dress:
        """The dress of the added lengths of a plait."""
        return dress(_SPARE, "dots")

    def looks(self, stake: int) -> list[Dress]:
        """How each piece of what is worked as one is dressed, picked out where it is."""
        return [self._told_apart(stake, look) for look in self._own(stake)]

    def _told_apart(self, stake: int, usual: Dress) -> Dress:
        chosen = self.finishers[::-1] if self.phase == "finish" else [self.picked, self.brought_down]
        if stake not in chosen:
            return usual
        place = chosen.index(stake)
        if not place or self.clothes.uprights:
            return picked_out(usual)
        colour, marks = _OTHERS[place - 1]
        return dress(colour, marks)  # type: ignore[arg-type]

    def _own(self, stake: int) -> list[Dress]:
        own = self.basket.pattern.foot.stakes if self.border.spec.foot and self.basket.pattern.foot else None
        if own is not None and foot_ends(self.basket) == "of its own":
            return [self.clothes.of(own.material)] * self.together
        members = self._units[(stake - 1) % len(self._units)]
        return [self._dress(members[piece % len(members)]) for piece in range(self.together)]

    def _dress(self, index: int) -> Dress:
        through = self.basket.stakes[index].kind == "through"
        return self.clothes.sticks if through else self.clothes.upright(index)

    @cached_property
    def _units(self) -> list[list[int]]:
        return border_units(self.basket, self.border)
