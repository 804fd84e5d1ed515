"""Strands as they lie on their uprights: centre lines of any weave over a straightened wall.

Position along the wall is counted in uprights: upright p (from 0) stands at p + 0.5, the space after it at p + 1, and
rod i sets out from the space at i. Heights are mm above the lower edge of the band; depth is mm outwards.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct

from slath.basket.model import WovenBand
from slath.basket.weave import Face, faces_of
from slath.drawing.paint.curves import Numbers, eased, monotone
from slath.language.pattern import Cell, WeaveSpec

BULGE = 0.55  # diameters by which a float stands off between two stakes, and so lies over the strokes beside it
STEP_UP = (1.6, 0.9)  # uprights before and after the start over which all rods climb to the next round


class Lay(Struct, frozen=True):
    """What a weave is laid with, all mm: uprights, strands as wide as they show, and the height one round takes.

    `thick` is how far a flat strand stands off the uprights; round ones (0) are as thick as wide.
    """

    upright: float
    strand: float
    pitch: float
    thick: float = 0.0

    @property
    def depth(self) -> float:
        """Thickness of a strand off the face of the uprights."""
        return self.thick or self.strand


class StrandLine(Struct, frozen=True):
    """One strand of one rod: position along the wall in uprights, height and depth in mm, all (n,)."""

    rod: int
    strand: int
    material: str
    at: Numbers
    height: Numbers
    depth: Numbers

    def between(self, start: float, end: float) -> StrandLine:
        """The part with positions from `start` to `end`."""
        inside = (self.at >= start) & (self.at <= end)
        return StrandLine(
            self.rod, self.strand, self.material, self.at[inside], self.height[inside], self.depth[inside]
        )


class Rows(Struct, frozen=True):
    """Height and depth of a rod at each upright and in each space after it, in the order it passes them."""

    stake_height: Numbers
    space_height: Numbers
    stake_depth: Numbers
    space_depth: Numbers


def rod_faces(
    weave: WeaveSpec, uprights: int, rod: int, passed: int, cells: Sequence[Cell] = (), shift: int = 0
) -> list[Face]:
    """The face on which `rod` passes each of `passed` uprights from its own first one.

    Where its course shifts once a round it stays on one face for `shift` uprights more.
    """
    cycle = faces_of(weave.strokes)
    faces: list[Face] = [cycle[(step - shift * (step // uprights)) % len(cycle)] for step in range(passed)]
    for step in range(passed):
        round_number, upright = divmod(rod + step, uprights)
        for cell in (cell for cell in cells if cell.strokes):
            if cell.rows[0] <= round_number + 1 <= cell.rows[1] and cell.stakes[0] <= upright + 1 <= cell.stakes[1]:
                own = faces_of(cell.strokes)
                faces[step] = own[(upright + 1 - cell.stakes[0]) % len(own)]
    return faces


def strand_lines(band: WovenBand, lay: Lay, wedge: float = 0.0, samples: int = 8) -> Iterator[StrandLine]:
    """Every strand of a band, from its tail behind the upright before its first to the end of its last round.

    `wedge` (mm) is how much higher the weaving below stands at the end of the round than at its start.
    """
    weave, count = band.spec.weave, len(band.rounds)
    if weave.kind == "packing" and band.spec.cells:
        yield from _short_rows(band, lay, wedge, samples)
        return
    for rod, strands in enumerate(band.materials):
        passed = _passed(weave, band.uprights, rod, count)
        faces = rod_faces(weave, band.uprights, rod, passed + 1, band.spec.cells, band.spec.shift)
        rows = rod_rows(weave, faces, rod, lay)
        knots = rod + np.arange(-1, passed + 1) + 0.5
        between = np.column_stack([knots, knots + 0.5]).reshape(-1)[:-1]
        height = np.column_stack([rows.stake_height, rows.space_height]).reshape(-1)[:-1]
        depth = np.column_stack([rows.stake_depth, rows.space_depth]).reshape(-1)[:-1]
        at = np.linspace(rod - 0.85, rod + passed - 0.15, max(2, int((passed + 0.7) * samples)))
        climb = _climb(band, lay.pitch, at, rod, wedge)
        level = monotone(between, height, at)
        if band.spec.reversed:  # each float falls where it would climb: it is worked under the strands, not over them
            level = lay.pitch - level
        line, off = level + climb, monotone(between, depth, at)
        for strand, material in enumerate(strands):
            beside = (strand - (len(strands) - 1) / 2) * lay.strand
            yield StrandLine(rod, strand, material, at, line + beside, off)


def sunk(bands: Sequence[WovenBand], pitches: Sequence[float], places: Numbers) -> Numbers:
    """How much lower weaving lies at `places` (in stakes) than its full height, for rows of packing that end short of them.

    `bands` are those below it, `pitches` the height of one round of each, mm.
    """
    low = np.zeros(len(places))
    for band, pitch in zip(bands, pitches, strict=True):
        lacking = rows_lacking(band)
        if lacking is not None:
            middles = np.arange(band.uprights) + 0.5
            low += np.interp(places, middles, lacking * pitch, period=float(band.uprights))
    return low


def rows_lacking(band: WovenBand) -> Numbers | None:
    """How many rows of packing each stake has less than the band is high; None where the weaving above follows none down."""
    short = band.spec.short_rows
    if band.spec.weave.kind != "packing" or not band.spec.cells or (short is not None and short.leaves_open):
        return None
    lacking = np.full(band.uprights, float(len(band.rounds)))
    for cell in band.spec.cells:
        lacking[cell.stakes[0] - 1 : cell.stakes[1]] -= cell.rows[1] - cell.rows[0] + 1
    return lacking.clip(min=0.0)


def _short_rows(band: WovenBand, lay: Lay, wedge: float, samples: int) -> Iterator[StrandLine]:
    """Rows that turn back: each over its own stakes alone, on the other face from the row below it."""
    reach = (lay.upright + lay.depth) / 2
    for row in range(len(band.rounds)):
        for cell in band.spec.cells:
            if not cell.rows[0] <= row + 1 <= cell.rows[1]:
                continue
            first, last = cell.stakes
            begun = _begun_by(band.spec.cells, cell)
            knots = np.arange(first - 1, last) + 0.5
            odd = (np.arange(first, last + 1) - begun.stakes[0] + row - begun.rows[0] + 1) % 2 == 1
            depth = np.where(odd, -reach, reach)
            at = np.linspace(knots[0] - 0.3, knots[-1] + 0.3, max(2, (last - first + 1) * samples))
            off = monotone(knots, depth, np.clip(at, knots[0], knots[-1]))
            height = (row + 0.5) * lay.pitch + at / band.uprights * wedge
            yield StrandLine(0, 0, band.materials[0][0], at, height, off)


def _begun_by(cells: Sequence[Cell], cell: Cell) -> Cell:
    """The row with which the strand of `cell` began: it goes before the first stake of that."""
    return next((one for one in cells if one.stakes[0] <= cell.stakes[0] <= one.stakes[1]), cell)


def _passed(weave: WeaveSpec, uprights: int, rod: int, rounds: int) -> int:
    """Uprights a rod passes in a band."""
    if weave.kind == "french rand":  # each rod makes one stroke a round, from its own stake
        return max(1, weave.cycle * rounds)
    return max(1, uprights * rounds) if rod >= 0 else 0


def rod_rows(weave: WeaveSpec, faces: list[Face], rod: int, lay: Lay) -> Rows:
    """Knots of one rod; the first is the upright behind which its tail lies."""
    before = np.array([False, *(face == "before" for face in faces)])
    reach = (lay.upright + lay.depth) / 2
    depth = np.where(before, reach, -reach)
    ahead = np.append(before[1:], before[-1])
    space = np.where(before == ahead, depth, 0.0)
    if not weave.twined:
        row = lay.pitch / max(weave.rods, 1) if weave.kind != "french rand" else lay.pitch
        level = np.full(len(before), row * (0.5 if weave.kind == "french rand" else rod + 0.5))
        return Rows(level, level.copy(), depth, space)
    first, run = _places_in_run(before)
    front, back = _heights(first, run, lay.pitch)
    level = np.where(before, front, back)
    float_space = before & ahead
    space = np.where(float_space, reach + BULGE * lay.depth, space)
    middle = (level + np.append(level[1:], level[-1])) / 2
    # Where one strand goes in and another comes out the one going in lies above, the one coming out below.
    lift = np.where(run == 1, lay.pitch / 4, lay.pitch / 12)
    lift = np.where(before & ~ahead, lift, np.where(~before & ahead, -np.append(lift[1:], lift[-1]), 0.0))
    return Rows(level, middle + lift, depth, space)


def _places_in_run(before: Numbers) -> tuple[Numbers, Numbers]:
    """For every upright: its place in its run of one face (from 0), and the length of that run."""
    change = np.concatenate([[True], before[1:] != before[:-1]])
    number = np.cumsum(change) - 1
    starts = np.nonzero(change)[0]
    lengths = np.diff(np.append(starts, len(before)))
    return (np.arange(len(before)) - starts[number]).astype(float), lengths[number].astype(float)


def _heights(place: Numbers, run: Numbers, pitch: float) -> tuple[Numbers, Numbers]:
    """Heights in front and behind: a float climbs through its row, and drops back behind the stakes."""
    longest = max(2.0, float(run[1:].max(initial=2.0)))
    front = (place + 0.5) * pitch / np.maximum(run, 1)
    back = pitch / 2 + ((run - 1) / 2 - place) * pitch / longest
    return front, back


def _climb(band: WovenBand, pitch: float, at: Numbers, rod: int, wedge: float) -> Numbers:
    """How far the row has risen at each position: steadily, or all rods together at the start of each round."""
    count = band.uprights
    if band.spec.weave.kind == "french rand":
        return np.asarray((at - rod) * pitch / band.spec.weave.cycle)
    if not band.spec.step_up:
        return np.asarray(at / count * pitch)
    rounds = np.clip(np.floor((at + STEP_UP[0]) / count), 0, max(len(band.rounds) - 1, 0))
    into = at - rounds * count  # from just before the start of this round
    share = np.where(rounds > 0, eased(into, -STEP_UP[0], STEP_UP[1]), 1.0)
    return np.asarray((rounds - 1 + share) * (pitch - wedge) + at / count * wedge)


def wedge_after(band: WovenBand, pitch: float, wedge: float) -> float:
    """How much higher the weaving stands at the end of the round than at its start, after `band` on a `wedge`."""
    return wedge if band.spec.step_up or not band.rounds else pitch
