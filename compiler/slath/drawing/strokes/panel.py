"""One panel of a stroke: the wall from in front, and below it the same from above."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from msgspec import Struct

from slath.basket.model import WovenBand
from slath.basket.weave import Face
from slath.drawing.paint.curves import Numbers, monotone
from slath.drawing.paint.dress import Dress, faint
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.plate import FINE, FIRM, Plate, disc_radius
from slath.drawing.strokes.grid import HANG, Grid, Heading, heading_lines, heading_room
from slath.drawing.strokes.words import passed_by
from slath.drawing.wall.strands import Lay, rod_faces, rod_rows
from slath.language.pattern import WeaveSpec
from slath.messages import message

_TAIL, _TIP = 0.86, 0.62  # uprights by which a tail lies behind, and an end hangs out, beyond its space
_MOST_TOGETHER, _GROUP = 3, 0.7  # uprights of a group that are drawn, and the spaces they take
_FOLD = 0.06  # uprights by which a fold stands clear of the space it turns in
BRUSH = Brush(gap=0.28, edge=0.26, step=0.3)


class _Line(Struct, frozen=True):
    along: Numbers
    lift: Numbers
    depth: Numbers


class Panel:
    """One movement."""

    def __init__(
        self,
        plate: Plate,
        band: WovenBand,
        clothes: Wardrobe,
        letters: Sequence[str],
        grid: Grid,
        left: float,
        top: float,
        *,
        above: bool,
    ) -> None:
        self.plate, self.band, self.clothes, self.letters, self.grid = plate, band, clothes, letters, grid
        self.left, self.top, self.above = left, top, above
        down = grid.levels(plate.options)
        self.stake_top, self.row, self.stake_foot, self.section, self.end = (top - way for way in down)
        self.folded = band.begins_folded

    def x(self, at: float) -> float:
        """Page x of a place counted in uprights."""
        return self.left + self.grid.x(at)

    def heading(self, heading: Heading) -> None:
        """What the panel shows, over its left corner as it is read."""
        sheet = self.plate.for_reading()
        left = sheet.width - self.left - self.grid.width if self.plate.options.mirrored else self.left
        y, room = self.top - self.grid.heading_drop(sheet.em), heading_room(heading, sheet.options)
        if heading.letter:
            sheet.text(left + 0.4, y, heading.number, "start", bold=True)
            radius = disc_radius(heading.letter, sheet.options.text_pt)
            sheet.disc(left + room - radius - 0.3 * sheet.em, y, heading.letter, moved=True)
        for number, line in enumerate(heading_lines(heading, self.grid.width, sheet.options)):
            sheet.text(left + room, y - 1.2 * number * sheet.em, line, "start", bold=True)

    def draw(self, moved: tuple[int, ...], before: tuple[int, ...]) -> None:
        """The strands after so many strokes each; `before` are the strokes made in the panel before."""
        just = next((rod for rod, done in enumerate(moved) if before and done != before[rod]), None)
        self._front(moved, just)
        if self.above:
            self._section(moved)

    def draw_next_round(self) -> None:
        """A weave of one rod when it has come round: on this count it meets every upright on the other face."""
        plate, grid, count = self.plate, self.grid, self.band.uprights
        shown = list(range(grid.first, grid.last + 1))
        spec = self.band.spec
        faces = rod_faces(spec.weave, count, 0, count + grid.last + 2, spec.cells, spec.shift)
        below = [faces[place % count] for place in shown]
        stop = 2 * self.band.spec.weave.cycle
        above = [faces[count + place] for place in shown if place < stop]
        rods = self._standing()
        step = 1.06 * grid.strand * self.band.spec.weave.as_one
        first = self._row_line(below, 0.0, hangs=False)
        second = self._row_line(above, step, hangs=True)
        for line, quiet in ((first, True), (second, False)):
            points = np.column_stack([line.along, line.lift + self.row, line.depth])
            rods += self._bundle(points, 0, 1, quiet=quiet)
        plate.rods(rods, BRUSH, name="front")
        self._letter([(float(second.along[-1]), float(second.lift[-1] + self.row))], 0)
        if not self.above:
            return
        self._cut_stakes()
        cut = []
        for line, quiet in ((first, True), (second, False)):
            points = np.column_stack([line.along, self.section - line.depth, line.lift])
            cut += self._bundle(points, 0, 2, quiet=quiet)
        plate.rods(cut, BRUSH, name="section")
        self._sides()

    def show(self, front: Numbers, section: Numbers) -> None:
        """One strand by its centre lines from in front and from above, its letter at its end."""
        self.plate.rods([*self._standing(), *self._bundle(front, 0, 1)], BRUSH, name="front")
        self._letter([(float(front[-1, 0]), float(front[-1, 1]))], 0)
        if self.above:
            self._cut_stakes()
            self.plate.rods(self._bundle(section, 0, 2), BRUSH, name="section")
            self._sides()

    def draw_new_set(self) -> None:
        """Rods used up, their ends left behind an upright, and new ones laid in on top of them, one in every space."""
        plate, grid, weave = self.plate, self.grid, self.band.spec.weave
        step = 1.06 * grid.strand * weave.as_one
        shown = len(self.letters)
        old = [self._used_up(place) for place in range(grid.first - 1, grid.last + 1)]
        new = [self._line(rod, 0) for rod in range(shown)]
        rods, tips = self._standing(), []
        for place, line in enumerate(old):
            points = np.column_stack([line.along, line.lift + self.row - step, line.depth])
            rods += self._bundle(points, (grid.first - 1 + place) % shown, 1, quiet=True)
        for rod, line in enumerate(new):
            points = np.column_stack([line.along, line.lift + self.row, line.depth])
            tips.append((float(points[-1, 0]), float(points[-1, 1])))
            rods += self._bundle(points, rod, 1)
        plate.rods(rods, BRUSH, (self.left, self.end, grid.width, self.top - self.end), name="front")
        self._letter(tips, None)
        if not self.above:
            return
        self._cut_stakes()
        cut: list[Rod] = []
        for place, line in enumerate(old):
            points = np.column_stack([line.along, self.section - line.depth, line.lift - step])
            cut += self._bundle(points, (grid.first - 1 + place) % shown, 2, quiet=True)
        for rod, line in enumerate(new):
            cut += self._bundle(np.column_stack([line.along, self.section - line.depth, line.lift]), rod, 2)
        plate.rods(cut, BRUSH, (self.left, self.end, grid.width, self.top - self.end), name="section")
        self._sides()

    def _used_up(self, place: int) -> _Line:
        """The last stroke of a rod that lay in the space before upright `place`: before its own, and left behind the next."""
        reach = (self.grid.stake + self.grid.strand) / 2
        knots = [place + 0.02, place + 0.5, place + 1.0, place + 1.5, place + 1.0 + _TAIL]
        depth = [0.0, reach, 0.0, -reach, -1.02 * reach]
        way = np.linspace(knots[0], knots[-1], 80)
        along = np.array([self.x(at) for at in way.tolist()])
        return _Line(along, np.zeros(len(way)), monotone(knots, depth, way))

    def _row_line(self, faces: Sequence[Face], level: float, *, hangs: bool) -> _Line:
        """A strand that comes in at the left of the panel and passes the uprights shown on these faces."""
        grid = self.grid
        reach = (grid.stake + grid.strand) / 2
        at, height, depth = [grid.first - 0.05], [level], [0.0]
        for step, face in enumerate(faces):
            upright = grid.first + step
            at += [upright + 0.5, upright + 1.0]
            height += [level, level]
            here = reach if face == "before" else -reach
            following = faces[step + 1] if step + 1 < len(faces) else face
            depth += [here, here if following == face else 0.0]
        if hangs:
            space = grid.first + len(faces)
            at[-1], depth[-1] = space + 0.02, 0.9 * grid.strand
            at += [space + 0.32, space + _TIP]
            height += [level - 0.30 * HANG * grid.spacing, level - HANG * grid.spacing]
            depth += [2.1 * grid.strand, 2.7 * grid.strand]
        way = np.linspace(at[0], at[-1], 26 * (len(faces) + 1))
        along = np.array([self.x(place) for place in way.tolist()])
        return _Line(along, monotone(at, height, way), monotone(at, depth, way))

    # ------------------------------------------------------------------------------------------------------- views
    def _front(self, moved: tuple[int, ...], just: int | None) -> None:
        rods = self._standing()
        tips: list[tuple[float, float]] = []
        courses = []
        for rod, done in enumerate(moved):
            line = self._line(rod, done)
            points = np.column_stack([line.along, line.lift + self.row, line.depth])
            tips.append((float(points[-1, 0]), float(points[-1, 1])))
            courses.append(points)
        rods += self._bundles(courses, 1)
        self.plate.rods(rods, BRUSH, name="front")
        self._letter(tips, just)
        if just is not None:
            self._follow(just, moved[just])

    def _letter(self, tips: Sequence[tuple[float, float]], just: int | None) -> None:
        """Letters below the ends, in as many rows as they need to stand clear of one another."""
        plate = self.plate
        step = self.grid.disc_step(plate.em)
        order = sorted(range(len(tips)), key=lambda rod: tips[rod][0])
        for place, rod in enumerate(order):
            (x, y), low = tips[rod], (place % self.grid.disc_rows) * step
            x, y = x + 0.55 * plate.em, y - 0.72 * plate.em
            if low:
                plate.line([tips[rod], (x, y - low)], FINE)
            plate.disc(x, y - low, self.letters[rod], moved=rod == just)

    def _standing(self) -> list[Rod]:
        rods = []
        for upright in range(self.grid.first, self.grid.last + 1):
            for place in self._stakes_at(upright):
                line = np.array([[place, self.stake_foot, 0.0], [place, self.stake_top, 0.0]])
                rods.append(Rod(line, self._stake, self._uprights, (False, True), name=f"stake {upright}"))
            x, number = self.x(upright + 0.5), (upright + self.band.start - 1) % self.band.uprights + 1
            self.plate.text(x, self.stake_foot - 0.85 * self.plate.em, str(number), bold=True)
        return rods

    def _cut_stakes(self) -> None:
        for upright in range(self.grid.first, self.grid.last + 1):
            for place in self._stakes_at(upright):
                self.plate.circle(place, self.section, self._stake / 2, self._uprights.tones.body, width=0.4)

    @property
    def _uprights(self) -> Dress:
        return self.clothes.sticks if self.band.on_sticks else self.clothes.stakes

    def _sides(self) -> None:
        """Which side is which, in the view from above."""
        plate, grid, em = self.plate, self.grid, self.plate.em
        edge = self.left + grid.width - 0.4
        below = self.section - 3.3 * grid.strand - 0.6 * em
        flat = self.band.on_sticks
        far = message("figure-strokes.away-from-you" if flat else "figure.inside")
        near = message("figure-strokes.towards-you" if flat else "figure.outside")
        plate.text(edge, self.section + 2.0 * grid.strand + 0.7 * em, plate.say(far), "end", italic=True)
        plate.text(edge, below, plate.say(near), "end", italic=True)
        words, under = grid.from_above(plate.options)
        plate.text(self.left + 0.4, below - (1.1 * em if under else 0.0), words, "start", colour=plate.quiet)

    def _stakes_at(self, upright: int) -> list[float]:
        size = self.band.group_sizes[upright % len(self.band.group_sizes)] if self.band.group_sizes else 1
        shown = min(size, _MOST_TOGETHER)
        middle, apart = self.x(upright + 0.5), self._stake * 1.02
        return [middle + (place - (shown - 1) / 2) * apart for place in range(shown)]

    @property
    def _stake(self) -> float:
        """Width of an upright as drawn: thinner where more than two stand together, for the spaces between to show."""
        together = min(max(self.band.group_sizes, default=1), _MOST_TOGETHER)
        return self.grid.stake if together < _MOST_TOGETHER else _GROUP * self.grid.spacing / _MOST_TOGETHER

    def _bundles(self, courses: Sequence[Numbers], axis: int) -> list[Rod]:
        """Every rod along its course; two begun from one folded length are one rod from tip to tip."""
        if self.folded:
            joined = np.vstack([courses[0][::-1], courses[1]])
            return self._bundle(joined, 0, axis)
        return [strand for rod, points in enumerate(courses) for strand in self._bundle(points, rod, axis)]

    def _bundle(self, points: Numbers, rod: int, axis: int, *, quiet: bool = False) -> list[Rod]:
        """The strands of one rod side by side; `axis` is the page direction they are stacked in (1 up, 2 towards us)."""
        strands = self.band.materials[rod]
        width = self.grid.strand * (1.0 if len(strands) == 1 else 0.72)
        result = []
        for number, material in enumerate(strands):
            shifted = points.copy()
            shifted[:, axis] += (number - (len(strands) - 1) / 2) * width
            look = self.clothes.weaver(material)
            look = faint(look) if quiet else look
            result.append(Rod(shifted, width * 0.96, look, (True, True), name=self.letters[rod]))
        return result

    def _section(self, moved: tuple[int, ...]) -> None:
        self._cut_stakes()
        courses = []
        for rod, done in enumerate(moved):
            line = self._line(rod, done)
            level = line.lift + 0.4 * self.grid.strand * rod * (done > 0)
            courses.append(np.column_stack([line.along, self.section - line.depth, level]))
        self.plate.rods(self._bundles(courses, 2), BRUSH, name="section")
        self._sides()

    def _follow(self, rod: int, done: int) -> None:
        """An arrow along the strand just moved, broken where it runs behind."""
        weave, grid = self.band.spec.weave, self.grid
        start = rod + passed_by(weave, done - 1)
        line = self._line(rod, done)
        uprights = (line.along - self.left) / grid.spacing - 0.42 + grid.first
        end = rod + passed_by(weave, done)
        inside = (uprights > start + 0.12) & (uprights < end + 0.22)
        course = np.column_stack([line.along, line.lift + self.row])[inside]
        rise = 1.55 * grid.strand + 0.5 * grid.strand * (len(self.band.materials[rod]) > 1)
        course[:, 1] = course[:, 1].max() + rise
        span = np.linspace(0, np.pi, len(course))
        course[:, 1] += (
            0.55 * grid.strand * np.sin(span) - 0.9 * grid.strand * (span > 0.75 * np.pi) * (span / np.pi - 0.75) * 4
        )
        behind = line.depth[inside] < -0.2 * grid.strand
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
        """A rod after `done` strokes: from its tail behind, past its uprights, to its end hanging out of its space.

        Of two begun from one length, the first sets out from the fold, and the second reaches it behind the upright.
        """
        weave, grid = self.band.spec.weave, self.grid
        passed = passed_by(weave, done)
        faces: list[Face] = rod_faces(weave, self.band.uprights, rod, passed) if passed else []
        pitch = 1.06 * grid.strand * _rows_high(weave)
        rows = rod_rows(weave, faces, rod, Lay(grid.stake, grid.strand, pitch))
        knots = rod + np.arange(-1, passed) + 0.5
        at, height, depth = [rod - _TAIL], [rows.stake_height[0]], [rows.stake_depth[0] * 1.02]
        for place, knot in enumerate(knots):
            at += [knot, knot + 0.5]
            height += [rows.stake_height[place], rows.space_height[place]]
            depth += [rows.stake_depth[place], rows.space_depth[place]]
        if self.folded:
            at, height, depth = _from_fold(rod, at, height, depth)
        base = grid.strand if not weave.twined else height[0]
        mirrored = -1.0 if self.band.spec.reversed else 1.0
        height = [(level - base) * mirrored for level in height]
        space = rod + passed
        if not (self.folded and len(at) == 1):
            at[-1], height[-1], depth[-1] = space + 0.02, height[-2] - 0.1 * grid.strand, 0.9 * grid.strand
        at += [space + 0.32, space + _TIP]
        drop = HANG * grid.spacing
        height += [height[-1] - 0.30 * drop, height[-1] - drop]
        depth += [2.1 * grid.strand, 2.7 * grid.strand]
        way = np.linspace(at[0], at[-1], 26 * (passed + 2))
        along = np.array([self.x(place) for place in way.tolist()])
        return _Line(along, monotone(at, height, way), monotone(at, depth, way))


def _from_fold(
    rod: int, at: list[float], height: list[float], depth: list[float]
) -> tuple[list[float], list[float], list[float]]:
    """The knots of a half of a folded strand from the fold on, which turns in the space the first half sets out from."""
    if rod:
        return [_FOLD, *at[1:]], height, [0.0, *depth[1:]]
    return [_FOLD, *at[3:]], [height[2], *height[3:]], [0.0, *depth[3:]]


def _rows_high(weave: WeaveSpec) -> float:
    """Strand widths one round takes in height."""
    if weave.twined:
        return max(2.0, *(float(max(stroke.before, stroke.behind)) for stroke in weave.strokes))
    return float(weave.rods * weave.as_one)
