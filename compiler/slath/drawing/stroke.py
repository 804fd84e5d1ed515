"""The stroke: how each weave starts and its first strokes, from in front and from above, one panel a movement."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from slath.basket.model import WovenBand
from slath.basket.weave import Face
from slath.drawing.curves import Numbers, monotone
from slath.drawing.dress import Dress, faint
from slath.drawing.key import draw_key, key_height, rod_entries
from slath.drawing.options import Options
from slath.drawing.plate import FIRM, Plate
from slath.drawing.rods import Brush, Rod
from slath.drawing.scene import Scene
from slath.drawing.stroke_words import figure_words, passed_by, start_words, stroke_words
from slath.drawing.wall import Lay, rod_faces, rod_rows
from slath.drawing.wardrobe import Wardrobe
from slath.language.pattern import WeaveSpec

_PANELS = 4
_MOST_RODS = 6
_TAIL, _TIP = 0.86, 0.62  # uprights by which a tail lies behind, and an end hangs out, beyond its space


@dataclass(frozen=True, slots=True)
class _Scale:
    """Page measures of the panels, mm."""

    spacing: float
    strand: float
    stake: float
    width: float
    first: int  # the leftmost upright drawn, 0 is upright 1
    last: int

    def x(self, at: float) -> float:
        """Page x of a place counted in uprights."""
        return (at - self.first + 0.42) * self.spacing


def stroke_name(band: WovenBand) -> str:
    """The stable part of the name of the figure of a weave."""
    slug = "-".join("".join(sign if sign.isalnum() else " " for sign in band.spec.weave.label.lower()).split())
    return f"stroke-{slug}-reversed" if band.spec.reversed else f"stroke-{slug}"


def rod_letters(band: WovenBand, clothes: Wardrobe) -> list[str]:
    """A letter for each rod (the first few, if there are many): its material's where all differ, else A, B, C."""
    own = [clothes.weaver(strands[0]).letter for strands in band.materials[: _shown_rods(band)]]
    return own if len(set(own)) == len(own) > 1 else [chr(ord("A") + rod) for rod in range(len(own))]


def draw_stroke(band: WovenBand, clothes: Wardrobe, options: Options) -> Scene:
    """The first strokes of one weave: the start and three movements."""
    weave = band.spec.weave
    letters = rod_letters(band, clothes)
    moves = _movements(band)
    scale = _scale(band, moves, options)
    entries = rod_entries(band, letters, clothes)
    below = key_height(entries, options)
    panel_height = _panel_height(scale, options)
    columns = 2 if 2 * scale.width <= options.width_mm + 0.1 else 1
    rows = -(-len(moves) // columns)
    plate = Plate(options.width_mm, rows * panel_height + below, options)
    for number, moved in enumerate(moves):
        column = number % columns if not options.mirrored else columns - 1 - number % columns  # read from left to right
        left = column * (options.width_mm - scale.width if columns == 2 else 0.0)
        top = plate.height - (number // columns) * panel_height
        panel = _Panel(plate, band, clothes, letters, scale, left, top)
        if len(letters) == 1 and number == len(moves) - 1:
            panel.draw_next_round()
        else:
            panel.draw(moved, moves[number - 1] if number else ())
    draw_key(plate, entries, below)
    return plate.scene(
        stroke_name(band),
        f"{weave.label[:1].upper()}{weave.label[1:]}: the first strokes",
        figure_words(band, letters, moves, options),
        seen_from="the side worked on, and from above" if band.part == "base" else "outside, and from above",
        caption=f"{weave.label[:1].upper()}{weave.label[1:]}: the start and the first strokes, from outside and from above.",
        data={"band": band.name, "moves": moves},
    )


def _movements(band: WovenBand) -> list[tuple[int, ...]]:
    """How many strokes every rod has made in each panel: none at first, then one more of the leftmost each time."""
    weave, done = band.spec.weave, [0] * _shown_rods(band)
    order = [step % len(done) for step in range(_PANELS - 1)]
    if weave.kind == "chase":  # rods do not take turns stroke by stroke: one goes ahead and the other follows
        order = [0, 0, 1]
    elif weave.kind == "french rand":  # each next rod is worked to the left of the one before
        order = [len(done) - 1 - step for step in range(_PANELS - 1)]
    states = [tuple(done)]
    for rod in order:
        done[rod] += 1
        states.append(tuple(done))
    return states


def _shown_rods(band: WovenBand) -> int:
    """Rods drawn: all of them, or the first of a weave with a rod at every stake."""
    return min(len(band.materials), _PANELS if band.spec.weave.kind == "french rand" else _MOST_RODS)


def _scale(band: WovenBand, moves: Sequence[tuple[int, ...]], options: Options) -> _Scale:
    weave = band.spec.weave
    reach = max(rod + passed_by(weave, done) for state in moves for rod, done in enumerate(state))
    first, last = -1, max(reach, _shown_rods(band) + 1)
    shown = last - first + 1
    column = (options.width_mm - 5.0) / 2
    spacing = column / (shown + 0.7)
    width = column
    if spacing < 4.8:
        width = options.width_mm
        spacing = min(9.0, width / (shown + 0.7))
    spacing = min(spacing, 9.0)
    return _Scale(spacing, 0.30 * spacing, 0.32 * spacing, width, first, last)


def _panel_height(scale: _Scale, options: Options) -> float:
    em = options.text_pt * 25.4 / 72
    return 5.6 * em + 13.2 * scale.strand + 1.6 * scale.spacing


class _Panel:
    """One movement: the wall from outside above, the same from above below it."""

    def __init__(
        self,
        plate: Plate,
        band: WovenBand,
        clothes: Wardrobe,
        letters: list[str],
        scale: _Scale,
        left: float,
        top: float,
    ) -> None:
        self.plate, self.band, self.clothes, self.letters, self.scale = plate, band, clothes, letters, scale
        self.left, self.top = left, top
        em, d = plate.em, scale.strand
        self.stake_top = top - 1.6 * em
        self.row = self.stake_top - 5.6 * d
        self.stake_foot = self.row - 1.5 * scale.spacing
        self.section = self.stake_foot - 1.6 * em - 3.2 * d

    def x(self, at: float) -> float:
        return self.left + self.scale.x(at)

    def draw(self, moved: tuple[int, ...], before: tuple[int, ...]) -> None:
        just = next((rod for rod, done in enumerate(moved) if before and done != before[rod]), None)
        self._title(moved, before, just)
        self._front(moved, just)
        self._section(moved)

    def draw_next_round(self) -> None:
        """A weave of one rod when it has come round: on this count it meets every upright on the other face."""
        plate, scale, count = self.plate, self.scale, self.band.uprights
        shown = list(range(scale.first, scale.last + 1))
        spec = self.band.spec
        faces = rod_faces(spec.weave, count, 0, count + scale.last + 2, spec.cells, spec.shift)
        below = [faces[place % count] for place in shown]
        stop = 2 * self.band.spec.weave.cycle
        above = [faces[count + place] for place in shown if place < stop]
        self._heading("Next round, on top of the first")
        rods = self._standing()
        step = 1.06 * scale.strand * self.band.spec.weave.as_one
        first = self._row_line(below, 0.0, hangs=False)
        second = self._row_line(above, step, hangs=True)
        for line, quiet in ((first, True), (second, False)):
            points = np.column_stack([line.along, line.lift + self.row, line.depth])
            rods += self._bundle(points, 0, 1, quiet=quiet)
        plate.rods(rods, Brush(gap=0.28, edge=0.26, step=0.3), name="front")
        x, y = float(second.along[-1]), float(second.lift[-1] + self.row)
        plate.disc(x + 0.55 * plate.em, y - 0.72 * plate.em, self.letters[0], moved=True)
        self._cut_stakes()
        cut = []
        for line, quiet in ((first, True), (second, False)):
            points = np.column_stack([line.along, self.section - line.depth, line.lift])
            cut += self._bundle(points, 0, 2, quiet=quiet)
        plate.rods(cut, Brush(gap=0.28, edge=0.26, step=0.3), name="section")
        self._sides()

    def _row_line(self, faces: Sequence[Face], level: float, *, hangs: bool) -> _Line:
        """A strand that comes in at the left of the panel and passes the uprights shown on these faces."""
        scale = self.scale
        reach = (scale.stake + scale.strand) / 2
        at, height, depth = [scale.first - 0.05], [level], [0.0]
        for step, face in enumerate(faces):
            upright = scale.first + step
            at += [upright + 0.5, upright + 1.0]
            height += [level, level]
            here = reach if face == "before" else -reach
            following = faces[step + 1] if step + 1 < len(faces) else face
            depth += [here, here if following == face else 0.0]
        if hangs:
            space = scale.first + len(faces)
            at[-1], depth[-1] = space + 0.02, 0.9 * scale.strand
            at += [space + 0.32, space + _TIP]
            height += [level - 0.30 * 0.95 * scale.spacing, level - 0.95 * scale.spacing]
            depth += [2.1 * scale.strand, 2.7 * scale.strand]
        way = np.linspace(at[0], at[-1], 26 * (len(faces) + 1))
        along = np.array([self.x(place) for place in way.tolist()])
        return _Line(along, monotone(at, height, way), monotone(at, depth, way))

    # ------------------------------------------------------------------------------------------------------- words
    def _heading(self, words: str) -> None:
        """The title of the panel over its left corner as it is read."""
        sheet = self.plate.for_reading()
        left = sheet.width - self.left - self.scale.width if self.plate.options.mirrored else self.left
        sheet.text(left + 0.4, self.top - 0.75 * sheet.em, words, "start", bold=True)

    def _title(self, moved: tuple[int, ...], before: tuple[int, ...], just: int | None) -> None:
        if just is None:
            self._heading(f"Start: {start_words(self.band)}")
            return
        said = stroke_words(self.band, just, before[just])
        self._heading(f"{sum(moved)}  {self.letters[just]} {said}")

    def _number(self, upright: int) -> str:
        count = self.band.uprights
        return str((upright + self.band.start - 1) % count + 1)

    # ------------------------------------------------------------------------------------------------------- views
    def _front(self, moved: tuple[int, ...], just: int | None) -> None:
        plate = self.plate
        rods = self._standing()
        tips: list[tuple[float, float]] = []
        for rod, done in enumerate(moved):
            line = self._line(rod, done)
            height = line.lift + self.row
            points = np.column_stack([line.along, height, line.depth])
            tips.append((float(points[-1, 0]), float(points[-1, 1])))
            rods += self._bundle(points, rod, 1)
        plate.rods(rods, Brush(gap=0.28, edge=0.26, step=0.3), name="front")
        for rod, (x, y) in enumerate(tips):
            plate.disc(x + 0.55 * plate.em, y - 0.72 * plate.em, self.letters[rod], moved=rod == just)
        if just is not None:
            self._follow(just, moved[just])

    def _standing(self) -> list[Rod]:
        rods = []
        for upright in range(self.scale.first, self.scale.last + 1):
            for place in self._stakes_at(upright):
                line = np.array([[place, self.stake_foot, 0.0], [place, self.stake_top, 0.0]])
                rods.append(Rod(line, self.scale.stake, self._uprights, (False, True), name=f"stake {upright}"))
            x = self.x(upright + 0.5)
            self.plate.text(x, self.stake_foot - 0.85 * self.plate.em, self._number(upright), bold=True)
        return rods

    def _cut_stakes(self) -> None:
        for upright in range(self.scale.first, self.scale.last + 1):
            for place in self._stakes_at(upright):
                self.plate.circle(place, self.section, self.scale.stake / 2, self._uprights.tones.body, width=0.4)

    @property
    def _uprights(self) -> Dress:
        return self.clothes.sticks if self.band.part == "base" else self.clothes.stakes

    def _sides(self) -> None:
        """Which side is which, in the view from above."""
        plate, scale = self.plate, self.scale
        edge = self.left + scale.width - 0.4
        below = self.section - 3.2 * scale.strand - 0.6 * plate.em
        far, near = ("away from you", "towards you") if self.band.part == "base" else ("inside", "outside")
        plate.text(edge, self.section + 1.9 * scale.strand, far, "end", italic=True)
        plate.text(edge, below, near, "end", italic=True)
        plate.text(self.left + 0.4, below, "the same from above", "start", colour=plate.quiet)

    def _stakes_at(self, upright: int) -> list[float]:
        size = self.band.group_sizes[upright % len(self.band.group_sizes)] if self.band.group_sizes else 1
        middle, apart = self.x(upright + 0.5), self.scale.stake * 1.02
        return [middle + (place - (size - 1) / 2) * apart for place in range(min(size, 3))]

    def _bundle(self, points: Numbers, rod: int, axis: int, *, quiet: bool = False) -> list[Rod]:
        """The strands of one rod side by side; `axis` is the page direction they are stacked in (1 up, 2 towards us)."""
        strands = self.band.materials[rod]
        width = self.scale.strand * (1.0 if len(strands) == 1 else 0.72)
        result = []
        for number, material in enumerate(strands):
            shifted = points.copy()
            shifted[:, axis] += (number - (len(strands) - 1) / 2) * width
            look = self.clothes.weaver(material)
            look = faint(look) if quiet else look
            result.append(Rod(shifted, width * 0.96, look, (True, True), name=self.letters[rod]))
        return result

    def _section(self, moved: tuple[int, ...]) -> None:
        plate, scale = self.plate, self.scale
        self._cut_stakes()
        rods: list[Rod] = []
        for rod, done in enumerate(moved):
            line = self._line(rod, done)
            points = np.column_stack(
                [line.along, self.section - line.depth, line.lift + 0.4 * scale.strand * rod * (done > 0)]
            )
            rods += self._bundle(points, rod, 2)
        plate.rods(rods, Brush(gap=0.28, edge=0.26, step=0.3), name="section")
        self._sides()

    def _follow(self, rod: int, done: int) -> None:
        """An arrow along the strand just moved, broken where it runs behind."""
        weave, scale = self.band.spec.weave, self.scale
        start = rod + passed_by(weave, done - 1)
        line = self._line(rod, done)
        uprights = (line.along - self.left) / scale.spacing - 0.42 + scale.first
        end = rod + passed_by(weave, done)
        inside = (uprights > start + 0.12) & (uprights < end + 0.22)
        course = np.column_stack([line.along, line.lift + self.row])[inside]
        rise = 1.55 * scale.strand + 0.5 * scale.strand * (len(self.band.materials[rod]) > 1)
        course[:, 1] = np.maximum.accumulate(course[:, 1]) * 0.0 + course[:, 1].max() + rise
        span = np.linspace(0, np.pi, len(course))
        course[:, 1] += (
            0.55 * scale.strand * np.sin(span) - 0.9 * scale.strand * (span > 0.75 * np.pi) * (span / np.pi - 0.75) * 4
        )
        behind = line.depth[inside] < -0.2 * scale.strand
        first_behind = int(np.argmax(behind)) if behind.any() else len(course)
        if 2 < first_behind < len(course) - 3:
            self.plate.line(course[: first_behind + 1], FIRM)
            stop = first_behind + int(behind.sum())
            self.plate.line(course[first_behind:stop], FIRM, dash=(0.9, 0.7))
            self.plate.arrow(course[stop - 1 :], FIRM)
        else:
            self.plate.arrow(course, FIRM)

    # -------------------------------------------------------------------------------------------------- the strand
    def _line(self, rod: int, done: int) -> _Line:
        """A rod after `done` strokes: from its tail behind, past its uprights, to its end hanging out of its space."""
        weave, scale = self.band.spec.weave, self.scale
        passed = passed_by(weave, done)
        faces: list[Face] = rod_faces(weave, self.band.uprights, rod, passed) if passed else []
        pitch = 1.06 * scale.strand * _rows_high(weave)
        rows = rod_rows(weave, faces, rod, Lay(scale.stake, scale.strand, pitch))
        knots = rod + np.arange(-1, passed) + 0.5
        at, height, depth = [rod - _TAIL], [rows.stake_height[0]], [rows.stake_depth[0] * 1.02]
        for place, knot in enumerate(knots):
            at += [knot, knot + 0.5]
            height += [rows.stake_height[place], rows.space_height[place]]
            depth += [rows.stake_depth[place], rows.space_depth[place]]
        base = scale.strand if not weave.twined else height[0]
        mirrored = -1.0 if self.band.spec.reversed else 1.0
        height = [(level - base) * mirrored for level in height]
        space = rod + passed
        at[-1], height[-1], depth[-1] = space + 0.02, height[-2] - 0.1 * scale.strand, 0.9 * scale.strand
        at += [space + 0.32, space + _TIP]
        drop = 0.95 * scale.spacing
        height += [height[-1] - 0.30 * drop, height[-1] - drop]
        depth += [2.1 * scale.strand, 2.7 * scale.strand]
        way = np.linspace(at[0], at[-1], 26 * (passed + 2))
        along = np.array([self.x(place) for place in way.tolist()])
        return _Line(along, monotone(at, height, way), monotone(at, depth, way))


@dataclass(frozen=True, slots=True)
class _Line:
    along: Numbers
    lift: Numbers
    depth: Numbers


def _rows_high(weave: WeaveSpec) -> float:
    """Strand widths one round takes in height."""
    if weave.twined:
        return max(2.0, *(float(max(stroke.before, stroke.behind)) for stroke in weave.strokes))
    return float(weave.rods * weave.as_one)
