"""The woven base as centre lines: how stick ends part from the slath to the edge, and how strands go round them.

Plan co-ordinates are the basket's (mm, seen from above); the third is height above the plane of the sticks. "Way out"
is counted in mm from the slath.
"""

from __future__ import annotations

import math

import numpy as np
from msgspec import Struct

from slath.basket.model import ConstructedBase, Stick, StickEnd, WovenBand
from slath.basket.weave import Face
from slath.drawing.paint.curves import Numbers, hermite, monotone, spline, travelled
from slath.drawing.plate.plans import slath_of
from slath.drawing.wall.side import rows_high
from slath.drawing.wall.strands import Lay, rod_faces, rod_rows

Knot = tuple[float, float, float]

_STRAIGHT = 0.35  # share of the way out up to which groups laid side by side in one arm are drawn straight on


class StrandCourse(Struct, frozen=True):
    """One strand over the base: points (n, 3), its material, its rod, and the first and last band it runs through.

    Of a rod of several the first `leads`. A `folded` one is half of a length and begins where the other half does.
    """

    rod: int
    material: str
    points: Numbers
    bands: tuple[int, int]
    leads: bool = True
    folded: bool = False


class BaseCourse:
    """Centre lines of a slath woven with its bands up to and with `upto` (all of them if None)."""

    def __init__(self, base: ConstructedBase, stick_mm: float, strand_mm: float, upto: int | None = None) -> None:
        self.base, self.slath = base, slath_of(base)
        self.stick, self.strand = stick_mm, strand_mm
        self.bands = base.bands if upto is None else base.bands[: upto + 1]
        outline = base.spec.outline
        self.spine = max((outline.length_mm - outline.width_mm) / 2, 0.0)
        self.core = self.slath.width_mm / 2
        self.room = (outline.width_mm - self.slath.width_mm) / 2
        self._sticks = {stick.number: stick for stick in base.sticks}
        self._axes = [self._axis(end) for end in base.ends]
        self._splines: dict[int, tuple[Numbers, Numbers, Numbers]] = {}
        self._tables: dict[int, list[list[float]]] = {}

    # ------------------------------------------------------------------------------------------------------- sticks
    def _axis(self, end: StickEnd) -> tuple[Numbers, Numbers]:
        """(point where the end leaves the slath, unit direction outwards)."""
        stick = self._sticks[end.stick]
        edge = np.array(self.base.edge.point(end.u))
        start, finish = np.array(stick.start), np.array(stick.finish)
        towards = finish if math.dist(finish, edge) <= math.dist(start, edge) else start
        away = start if towards is finish else finish
        course = (towards - away) / math.dist(towards, away)
        lengthwise = abs(course[0]) > abs(course[1])
        half = (self.slath.length_mm if lengthwise else self.slath.width_mm) / 2
        leave = (
            np.array([math.copysign(half, course[0]), towards[1]])
            if lengthwise
            else np.array([towards[0], math.copysign(half, course[1])])
        )
        return leave, course

    def ring(self, u: float, way: float) -> Numbers:
        """The point at `u` on the ring a way out from the slath."""
        edge = np.array(self.base.edge.point(u))
        inner = np.array([np.clip(edge[0], -self.spine, self.spine), 0.0])
        share = (way + self.core) / (self.room + self.core)
        return np.asarray(inner + (edge - inner) * share)

    def _tangent(self, u: float) -> Numbers:
        nx, ny = self.base.edge.normal(u)
        return np.array([-ny, nx])

    def _knots(self, index: int) -> tuple[list[float], list[Numbers]]:
        """Ways out and places of one stick end: along its stick, with its group while grouped, then to its own place."""
        end = self.base.ends[index]
        ways, places = [0.0], [self._axes[index][0]]
        for band in self.bands:
            group = _group_of(band, index)
            way = band.from_mm + 0.6 * (band.to_mm - band.from_mm)
            if len(group) > 1 and way > ways[-1] + 1:
                ways.append(way)
                places.append(self._in_group(index, group, way))
        far = self.room + 6.0
        last = _group_of(self.bands[-1], index) if self.bands else [index]
        if len(last) > 1:  # not yet opened further: the group runs on as it is
            ways.append(far)
            places.append(self._in_group(index, last, far))
            return ways, places
        for way in (ways[-1] + 0.45 * (self.room - ways[-1]), far):
            ways.append(way)
            places.append(self.ring(end.u, way))
        return ways, places

    def _in_group(self, index: int, group: list[int], way: float) -> Numbers:
        """Where an end lies at a way out while it is taken with its group: straight on, or beside the others."""
        if self._laid_together(group) and (way < _STRAIGHT * self.room or self._whole_arm(group)):
            leave, course = self._axes[index]
            return np.asarray(leave + course * way)
        u = math.fsum(self.base.ends[member].u for member in group) / len(group)
        beside = (group.index(index) - (len(group) - 1) / 2) * self.stick
        return np.asarray(self.ring(u, way) + self._tangent(u) * beside)

    def _whole_arm(self, group: list[int]) -> bool:
        """Whether a group is all the ends that leave the slath in one direction, so that nothing parts it from others."""
        course = self._axes[group[0]][1]
        arm = [member for member in range(len(self.base.ends)) if float(self._axes[member][1] @ course) > 0.999]
        return len(arm) == len(group)

    def _laid_together(self, group: list[int]) -> bool:
        """Whether a group is all the ends laid together that leave the slath in one direction: they run straight on."""
        first = group[0]
        laid, course = self.base.ends[first].group, self._axes[first][1]
        mates = [
            member
            for member, end in enumerate(self.base.ends)
            if end.group == laid and float(self._axes[member][1] @ course) > 0.999
        ]
        return sorted(mates) == sorted(group)

    def end_at(self, index: int, ways: Numbers) -> Numbers:
        """Places (n, 2) of stick end `index` at ways out from the slath."""
        if index not in self._splines:
            knots, places = self._knots(index)
            at, values = np.array(knots), np.array(places)
            rise = np.diff(values, axis=0) / np.diff(at)[:, None]
            step = np.diff(at)[:, None]
            slopes = np.empty_like(values)
            slopes[1:-1] = (rise[:-1] * step[1:] + rise[1:] * step[:-1]) / (step[1:] + step[:-1])
            slopes[0], slopes[-1] = self._axes[index][1], rise[-1]
            self._splines[index] = at, values, slopes
        at, values, slopes = self._splines[index]
        inside = np.maximum(ways, 0.0)
        placed = hermite(at, values, slopes, inside)
        return np.asarray(placed + self._axes[index][1] * np.minimum(ways, 0.0)[:, None])

    def _spot(self, index: int, way: float) -> tuple[float, float]:
        """The place of stick end `index` at one way out, read off a table of millimetre steps."""
        if index not in self._tables:
            last = int(self.room + 10.0)
            self._tables[index] = self.end_at(index, np.arange(0.0, last + 2.0)).tolist()
        table = self._tables[index]
        step = min(max(int(way), 0), len(table) - 2)
        share = way - step
        (x0, y0), (x1, y1) = table[step], table[step + 1]
        return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share

    def end_line(self, index: int, beyond: float, step: float = 2.0) -> Numbers:
        """The stick end from the slath to `beyond` mm past the edge, (n, 2)."""
        ways = np.arange(0.0, self.room + beyond + step / 2, step)
        return self.end_at(index, np.minimum(ways, self.room + beyond))

    def stick_line(self, stick: Stick, beyond: float) -> Numbers:
        """A whole stick through the slath, bent with its ends, (n, 2)."""
        mine = [index for index, end in enumerate(self.base.ends) if end.stick == stick.number]
        lines = [self.end_line(index, beyond) for index in mine]
        if len(lines) == 1:  # a half stick begins at the middle
            return np.vstack([np.array(stick.start), lines[0]])
        return np.vstack([lines[0][::-1], lines[1]])

    # ------------------------------------------------------------------------------------------------------ strands
    def strands(self) -> list[StrandCourse]:
        """Every strand, run on from band to band where the rods stay the same."""
        found: list[StrandCourse] = []
        first = 0
        while first < len(self.bands):
            last = first
            while last + 1 < len(self.bands) and _runs_on(self.bands[last], self.bands[last + 1]):
                last += 1
            folded = self.bands[first].begins_folded
            for rod, strands in enumerate(self.bands[first].materials):
                for number, material in enumerate(strands):
                    beside = (number - (len(strands) - 1) / 2) * self.strand
                    points = self._strand(rod, self.bands[first : last + 1], beside)
                    found.append(StrandCourse(rod, material, points, (first, last), number == 0, folded))
            first = last + 1
        return found

    def _strand(self, rod: int, bands: tuple[WovenBand, ...], beside: float) -> Numbers:
        knots: list[Knot] = []
        for number, band in enumerate(bands):
            knots += self._band_knots(rod, band, beside, tail=number == 0)
        line = np.array(knots)
        apart = np.concatenate([[True], np.hypot(*np.diff(line[:, :2], axis=0).T) > 0.05])
        line = line[apart]
        way = travelled(line[:, :2])
        at = np.linspace(0.0, way[-1], max(3, int(way[-1] / 1.6)))
        return np.column_stack([spline(way, line[:, :2], at), monotone(way, line[:, 2], at)])

    def _band_knots(self, rod: int, band: WovenBand, beside: float, *, tail: bool) -> list[Knot]:
        """Knots of one rod in one band. A rod that sets out (`tail`) starts `rod` uprights on; one that runs on does not."""
        weave, count = band.spec.weave, band.uprights
        skip = rod if tail else 0
        passed = count * len(band.rounds) - skip
        pitch = band.pitch.value
        strand = pitch / rows_high(band) if rows_high(band) else self.strand
        faces: list[Face] = rod_faces(weave, count, rod, passed + 1, band.spec.cells, band.spec.shift)
        if not tail:  # its phase is as if it had set out `rod` uprights before
            faces = _shifted(faces, weave.cycle, rod)
        rows = rod_rows(weave, faces[:passed], rod, Lay(self.stick, strand, pitch))
        heights, spaces = (rows.stake_height + beside).tolist(), (rows.space_height + beside).tolist()
        depths, gaps = rows.stake_depth.tolist(), rows.space_depth.tolist()
        groups = _groups(band)
        knots: list[Knot] = []
        if tail and band.begins_folded:
            knots.append(self._fold(band, groups, heights[0]))
            if rod:
                knots.append((*self._spot(groups[0][-1], self._way(band, 0.0) + heights[0]), depths[0]))
        elif tail:  # it lies behind the group before its first
            group = groups[(skip - 1) % count]
            way = self._way(band, skip / count) + heights[0]
            knots.append((*self._spot(group[len(group) // 2], way), depths[0]))
        for step in range(passed):
            out = self._way(band, (skip + step) / count)
            group, following = groups[(skip + step) % count], groups[(skip + step + 1) % count]
            knots.append((*self._spot(group[0], out + heights[step + 1]), depths[step + 1]))
            if len(group) > 1:
                knots.append((*self._spot(group[-1], out + heights[step + 1] + pitch * 0.5 / count), depths[step + 1]))
            if step < passed - 1:
                between = out + pitch * 0.5 / count + spaces[step + 1]
                knots += self._over_space(group[-1], following[0], between, gaps[step + 1], depths[step + 1 : step + 3])
        return knots

    def _fold(self, band: WovenBand, groups: list[list[int]], height: float) -> Knot:
        """Where a strand folded round the first group turns: in the space before it, close to its first stick."""
        way = self._way(band, 0.0) + height
        (x, y), (far_x, far_y) = self._spot(groups[0][0], way), self._spot(groups[-1][-1], way)
        share = min(0.5, (self.stick + 2 * self.strand) / 2 / max(math.hypot(far_x - x, far_y - y), 0.1))
        return x + (far_x - x) * share, y + (far_y - y) * share, 0.0

    def _way(self, band: WovenBand, rounds: float) -> float:
        """Way out to the inner edge of a row after so many rounds.

        Rows run out in a spiral, a pitch a round; where the band before ran out faster, the first round follows it.
        """
        pitch = band.pitch.value
        place = self.bands.index(band)
        below = self.bands[place - 1].pitch.value if place else 0.0
        return band.from_mm + min(rounds, 1.0) * max(pitch, below) + max(rounds - 1.0, 0.0) * pitch

    def _over_space(self, one: int, other: int, way: float, depth: float, beside: list[float]) -> list[Knot]:
        """Knots across the space between two stick ends, keeping to the ring; `beside`: depths at the two ends."""
        (ax, ay), (bx, by) = self._spot(one, way), self._spot(other, way)
        gap = math.hypot(bx - ax, by - ay)
        shares = (0.5,) if gap < 5 * self.stick else (0.2, 0.5, 0.8)
        out_a, out_b = self._out(ax, ay), self._out(bx, by)
        knots: list[Knot] = []
        for share in shares:
            x, y = ax + (bx - ax) * share, ay + (by - ay) * share
            inner = min(max(x, -self.spine), self.spine)
            reach = math.hypot(x - inner, y)
            target = out_a + (out_b - out_a) * share
            if len(shares) > 1:  # a wide corner is cut, as a strand pulled tight cuts it
                target = 0.5 * (target + reach)
            if reach > 1.0:
                x, y = inner + (x - inner) / reach * target, y / reach * target
            z = depth if share == 0.5 else 0.55 * beside[0 if share < 0.5 else 1]
            knots.append((x, y, z))
        return knots

    def _out(self, x: float, y: float) -> float:
        return math.hypot(x - min(max(x, -self.spine), self.spine), y)


def _shifted(faces: list[Face], cycle: int, rod: int) -> list[Face]:
    start = (-rod) % cycle
    doubled = faces + faces[:cycle]
    return doubled[start : start + len(faces)]


def _runs_on(one: WovenBand, other: WovenBand) -> bool:
    return one.materials == other.materials and one.spec.weave.twined == other.spec.weave.twined


def _groups(band: WovenBand) -> list[list[int]]:
    """Indices of the stick ends each upright of a band is made of."""
    groups, first = [], 0
    for size in band.group_sizes:
        groups.append(list(range(first, first + size)))
        first += size
    return groups


def _group_of(band: WovenBand, index: int) -> list[int]:
    return next(group for group in _groups(band) if index in group)
