"""Each pass of a border: how it starts and what stays loose, one stake's whole way, how it finishes and turns on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from slath.basket.border_ways import StakeWay, stake_ways
from slath.basket.model import Basket, WorkedBorder, WorkedPass
from slath.drawing.border_course import BorderCourse, border_course, on_page
from slath.drawing.border_words import ending_words, listed, loose_words, runs, turn_words, under_words
from slath.drawing.curves import Numbers
from slath.drawing.dress import Dress, dress, picked_out
from slath.drawing.lettering import POINT_MM
from slath.drawing.note_rows import note_rows, place_notes
from slath.drawing.options import Options
from slath.drawing.plate import Plate
from slath.drawing.rods import Brush, Rod
from slath.drawing.scene import Scene
from slath.drawing.side import rows_high, side_bands
from slath.drawing.tones import lightness, with_lightness
from slath.drawing.wall import Lay, strand_lines
from slath.drawing.wardrobe import Wardrobe

Phase = Literal["start", "running", "finish"]
PHASES: tuple[Phase, ...] = ("start", "running", "finish")
_PHASE: dict[str, Phase] = {phase: phase for phase in PHASES}

_LIFT = 0.75  # diameters by which a loop left loose is drawn above the others
_SECOND = "#b4714a"  # the second of two stakes picked out, ringed


@dataclass(frozen=True, slots=True)
class _Window:
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

    def place(self, line: Numbers, at: float) -> Numbers:
        """A centre line of the stake at `at` on the page."""
        moved = line + np.array([at, 0.0, 0.0])
        page = on_page(moved, self.spacing, self.stake, inside=self.inside)
        page[:, 0] += self.x(0.0)
        page[:, 1] += self.base
        return page


def border_names(basket: Basket) -> list[str]:
    """Names of the border figures in working order, foot border first."""
    names: list[str] = []
    for border, stem in ((basket.foot, "foot-border"), (basket.border, "border")):
        if border and border.passes and border.closes:
            names += [f"{stem}-{worked.number}-{phase}" for worked in border.passes for phase in PHASES]
    return names


def draw_border(basket: Basket, name: str, clothes: Wardrobe, options: Options) -> Scene:
    """The border figure called `name` (see `border_names`)."""
    foot = name.startswith("foot-")
    number, phase = name.removeprefix("foot-").split("-")[1:]
    border = basket.foot if foot else basket.border
    if border is None:
        raise KeyError(f"this basket has no border for a figure {name!r}")
    return _Figure(basket, border, int(number), _PHASE[phase], clothes, options, foot=foot).scene(name)


class _Figure:
    """One figure of one pass."""

    def __init__(
        self,
        basket: Basket,
        border: WorkedBorder,
        number: int,
        phase: Phase,
        clothes: Wardrobe,
        options: Options,
        *,
        foot: bool,
    ) -> None:
        self.basket, self.border, self.phase, self.clothes, self.options = basket, border, phase, clothes, options
        self.foot = foot
        self.worked: WorkedPass = border.passes[number - 1]
        self.course: BorderCourse = border_course(border.spec)
        self.earlier = sum(leg.pass_number < number for leg in self.course.legs)
        self.mine = [leg for leg in self.course.legs if leg.pass_number == number]
        self.ways = [way for way in stake_ways(border) if way.pass_number == number]
        came = self.mine[0].came
        self.inside = came == "behind" and all(visit.face == "behind" for leg in self.mine for visit in leg.visits)
        self.em = options.text_pt * POINT_MM
        self.window = self._window()

    # ----------------------------------------------------------------------------------------------------- what stands
    def _window(self) -> _Window:
        reach = self.mine[-1].ends + 1
        count = max(8, reach + 4)
        if self.phase == "running":
            first = min(10, max(1, self.border.count // 3))
        elif self.phase == "start":
            first = -1
        else:
            first = 1 - max(3, len(self.worked.finish) if len(self.worked.finish) < 6 else 4)
            count = max(count, 2 - first + self.mine[-1].ends)
        spacing = min(11.0, (self.options.width_mm - 2.0) / (count + 0.2))
        wide = count * spacing
        left = (self.options.width_mm - wide) / 2 + 0.5 * spacing
        return _Window(first, first + count - 1, spacing, 0.31 * spacing, left, 0.0, self.inside)

    @property
    def picked(self) -> int:
        """The stake whose way is shown, in endless numbering."""
        if self.phase == "running":
            return self.window.first + 1
        if self.phase == "start":
            return 1
        return 0

    def _now(self) -> float:
        """How far the pass has got: turns of stakes up to this are done."""
        last = self.mine[-1].lag
        if self.phase == "running":
            return self.picked + last
        if self.phase == "start":
            return 1.0 + last if last else float(min(3, max(2, len(self.worked.loose))))
        return float("inf")

    def done(self, stake: int) -> int:
        """Legs the stake has made."""
        if self.phase == "start" and stake < 1:
            return self.earlier
        now = self._now()
        return self.earlier + sum(stake + leg.lag <= now for leg in self.mine)

    def _finishers(self) -> list[int]:
        """Last stakes picked out, in endless numbering (0 is the last stake of all)."""
        stakes = [finish.stake - self.border.count for finish in self.worked.finish] or [0]
        return [stake for stake in stakes if stake >= self.window.first][-2:]

    def _look(self, stake: int) -> Dress:
        usual = self._own(stake)
        if self.phase == "finish":
            finishers = self._finishers()
            if stake in finishers:
                return picked_out(usual) if stake == finishers[-1] else dress(_SECOND, "rings")
            return usual
        return picked_out(usual) if stake == self.picked else usual

    def _own(self, stake: int) -> Dress:
        """The stake's own dress; of a group worked as one, its first stake's."""
        all_round = len(self.clothes.uprights)
        return self.clothes.upright((stake - 1) % self.border.count * all_round // self.border.count)

    def _is_loose(self, stake: int) -> bool:
        return self.phase != "running" and stake in self.worked.loose and stake >= 1

    # ------------------------------------------------------------------------------------------------------- the rods
    def _lines(self) -> Iterator[tuple[int, Numbers]]:
        """Stakes that show in the window with their centre lines (not yet placed on the page)."""
        reach = self.course.reach + 1
        lowest = max(2.4, _RANK_HIGH * (max(self.course.rank.values(), default=0) + 1))
        for stake in range(self.window.first - reach - 1, self.window.last + 2):
            done = self.done(stake)
            lift = _LIFT if self._is_loose(stake) else 0.0
            yield stake, self.course.line(done, lift, lifted=self.earlier, standing=lowest + 2.6)

    def _rods(self, window: _Window) -> list[Rod]:
        rods = list(self._wall(window))
        groups = max(self.border.spec.groups, 1) if not self.border.spec.cut_to_one else 1
        for stake, line in self._lines():
            page = window.place(line, float(stake))
            width = window.stake * 0.96
            for piece in range(min(groups, 3)):
                shift = (piece - (min(groups, 3) - 1) / 2) * width / min(groups, 3) * 1.1
                moved = page + np.array([0.35 * shift, shift, 0.2 * shift])
                thin = width if groups == 1 else width / min(groups, 3) * 1.15
                rods.append(Rod(moved, thin, self._look(stake), (False, True), name=f"stake {stake}"))
        return rods

    def _wall(self, window: _Window) -> Iterator[Rod]:
        """The last two rounds of the side below the border."""
        bands = side_bands(self.basket) or [band for band in self.basket.base.bands if band.rounds and band.materials]
        if not bands or self.foot:
            return
        last = bands[-1]
        shown = replace(last, rounds=last.rounds[:1] * 4, spec=replace(last.spec, step_up=False, cells=()))
        high = rows_high(last)
        pitch = min(1.8, 0.9 * high)
        strand = pitch / high
        quiet = {key: _quiet(self.clothes.weaver(key)) for rod in last.materials for key in rod}
        for line in strand_lines(shown, Lay(1.0, strand, pitch), samples=10):
            for lap in (1, 2, 3):
                part = line.between(lap * last.uprights + 0.0, lap * last.uprights + window.last - window.first + 3.0)
                if len(part.at) < 4:
                    continue
                row = part.height - pitch * part.at / last.uprights - (4 - lap) * pitch - 0.5 - 0.4 * strand
                at = part.at - lap * last.uprights + window.first - 1.5
                points = np.column_stack([at, -part.depth, row])
                page = window.place(points, 0.0)
                yield Rod(page, 0.94 * strand * window.stake, quiet[part.material], name="wall")

    # --------------------------------------------------------------------------------------------------------- figure
    def scene(self, name: str) -> Scene:
        """The figure with its notes."""
        em, window = self.em, self.window
        flat = self._rods(replace(window, base=0.0))
        bent = [rod for rod in flat if rod.name.startswith("stake")]
        high = max(float(rod.points[:, 1].max()) for rod in bent) + window.stake
        low = min(float(rod.points[:, 1].min()) for rod in flat) - 0.6
        rows = note_rows([(0.0, 0.0, words) for _, _, words in self._notes(window)], self.options)
        foot, head = 4.7 * em, (3.9 + 1.3 * len(rows)) * em
        window = replace(window, base=foot - low)
        plate = Plate(self.options.width_mm, foot + (high - low) + head, self.options)
        left, right = (
            window.left - 0.5 * window.spacing,
            window.left + (window.last - window.first + 0.5) * window.spacing,
        )
        plate.rods(
            self._rods(window),
            Brush(gap=0.28, edge=0.28, depth=0.05),
            (left, 0.0, right - left, plate.height),
            name="border",
        )
        self._numbers(plate, window, foot)
        self._frame(plate)
        place_notes(plate, self._notes(window), plate.height - 2.2 * em)
        return plate.scene(
            name, self._title(), self._words(), seen_from=f"{'inside' if self.inside else 'outside'} and above",
            caption=f"{self._title()}. Seen from {'inside' if self.inside else 'outside'} and above.",
            data={"pass": self.worked.number, "phase": self.phase, "loose": self.worked.loose},
        )  # fmt: skip

    def _number(self, stake: int) -> int:
        return (stake - 1) % self.border.count + 1

    def _numbers(self, plate: Plate, window: _Window, foot: float) -> None:
        for stake in range(window.first, window.last + 1):
            plate.text(window.x(stake), foot - 1.1 * self.em, str(self._number(stake)), bold=True)

    def _frame(self, plate: Plate) -> None:
        em = self.em
        near, far = ("inside", "outside") if self.inside else ("outside", "inside")
        if self.inside:
            plate.arrow([(10.0, plate.height - 0.8 * em), (1.0, plate.height - 0.8 * em)], 0.5)
            plate.text(10.0 + 0.5 * em, plate.height - 0.8 * em, "work", "start")
        else:
            plate.work_arrow(1.0, plate.height - 0.8 * em)
        plate.text(plate.width - 1.0, plate.height - 0.8 * em, far, "end", italic=True)
        plate.text(plate.width - 1.0, 0.8 * em, near, "end", italic=True)
        held = "held upside down; " if self.foot else ""
        plate.text(1.0, 0.8 * em, f"{held}seen from {near} and above", "start", colour=plate.quiet)

    # ---------------------------------------------------------------------------------------------------------- notes
    def _notes(self, window: _Window) -> list[tuple[float, float, str]]:
        """Notes of the figure: page place of what each is about, and its words."""
        notes: list[tuple[float, float, str]] = []
        if self.phase == "finish":
            for stake in self._finishers():
                way = self._way(self._number(stake))
                spot = self._spot(window, stake, -4)
                notes.append((*spot, f"{self._number(stake)} {under_words(way)}"))
        else:
            notes += self._way_notes(window)
        loose = [stake for stake in self.worked.loose[:3] if window.first <= stake <= window.last]
        for stake in loose if self.phase != "running" else ():
            if self.done(stake) > self.earlier:
                x, y = self._spot(window, stake, None)
                notes.append((x, y, f"{stake} loose"))
        return notes

    def _spot(self, window: _Window, stake: int, knot: int | None) -> tuple[float, float]:
        """A page place on a stake: at one of its knots, or on top of its loop."""
        done = self.done(stake)
        lift = _LIFT if self._is_loose(stake) else 0.0
        knots = self.course.knots(done, lift, lifted=self.earlier)
        if knot is None:  # on the loop this pass makes: just past its bend, or over the first stake it passes
            start = 3 if not self.earlier else len(self.course.knots(self.earlier)) - 3
            knot = min(start + 2, len(knots) - 1)
        chosen = knots[knot]
        page = window.place(np.array([chosen, chosen]), float(stake))[0]
        return float(page[0]), float(page[1])

    def _way_notes(self, window: _Window) -> list[tuple[float, float, str]]:
        """Notes along the way of the stake picked out."""
        way = self._way(self._number(self.picked))
        knots = self.course.knots(self.done(self.picked))
        start = len(self.course.knots(self.earlier)) - 3 if self.earlier else 3
        notes = []
        for face, numbers, offsets in runs(way, self.mine):
            middle = offsets[len(offsets) // 2]
            mine = [knot for knot in knots[start:] if abs(knot[0] - middle) < 0.3] or [knots[-1]]
            page = window.place(np.array([mine[0], mine[0]]), float(self.picked))[0]
            notes.append((float(page[0]), float(page[1]), f"{face} {listed(numbers)}"))
        page = window.place(np.array([knots[-1], knots[-1]]), float(self.picked))[0]
        hidden = knots[-3 if self.mine[-1].ending == "down" else -6 if len(knots) > 6 else -1]
        if self.mine[-1].ending in {"in", "down"}:
            page = window.place(np.array([hidden, hidden]), float(self.picked))[0]
        notes.append((float(page[0]), float(page[1]), ending_words(way)))
        return notes

    def _way(self, number: int) -> StakeWay:
        return [way for way in self.ways if way.stake == number][-1]

    # ---------------------------------------------------------------------------------------------------------- words
    def _title(self) -> str:
        moves = ", ".join(f"{move.way} {move.count}" if move.count else move.way for move in self.worked.spec.moves)
        stem = "Foot border" if self.foot else "Border"
        passes = f"pass {self.worked.number}: " if len(self.border.passes) > 1 else ""
        return f"{stem}, {passes}{moves}: {'start' if self.phase == 'start' else self.phase}"

    def _words(self) -> str:
        way = self._way(self._number(max(self.picked, 1)))
        stakes = self.options.term("stakes")
        laid = self.worked.spec.laid_first
        said = [f"Seen from {'inside' if self.inside else 'outside'} and above."]
        if self.phase == "start":
            if self.worked.number > 1:
                said.append(
                    f"All ends lie {'inside' if self.mine[0].came == 'behind' else 'outside'} from the pass before; begin again with stake 1."
                )
            if laid:
                said.append(f"First lay down {laid} {stakes}, 1 to {laid}, in order.")
            said.append(f"{turn_words(way)}.")
            if self.worked.loose:
                said.append(
                    f"Leave {loose_words(self.worked.loose, stakes, self.options)} loose, to thread the last ones under."
                )
        elif self.phase == "running":
            said.append(f"{turn_words(way)}. Every one in turn does the same, working to the {self.options.right}.")
        else:
            if self.worked.finish:
                said.append(
                    "The last ones do as the others did, but threaded under what is there already, in this order:"
                )
            for finish in self.worked.finish:
                own = self._way(finish.stake)
                said.append(f"{turn_words(own)}, {under_words(own)}.")
            if not self.worked.finish:
                said.append(
                    f"{turn_words(self._way(self.border.count))}. The last ones do as the others did; none needs threading."
                )
        return " ".join(said)


_RANK_HIGH = 0.9


def _quiet(look: Dress) -> Dress:
    """The side below a border, paler and unmarked, so that the border stands out."""
    level = lightness(look.tones.body)
    return dress(with_lightness(look.tones.body, 76 + 0.17 * level, 0.28))
