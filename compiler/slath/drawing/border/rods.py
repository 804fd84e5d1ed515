"""The rods of a border figure: the stakes side by side as they are worked, and what they come out of."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from slath.basket.model import WovenBand
from slath.drawing.border.plait_course import group_breadth
from slath.drawing.border.stretch import LIFT, Stretch, Window
from slath.drawing.paint.curves import Numbers, beside, resample
from slath.drawing.paint.dress import Dress, dress
from slath.drawing.paint.rods import Rod
from slath.drawing.wall.side import rows_high, side_bands
from slath.drawing.wall.strands import Lay, strand_lines
from slath.units.colour import lightness, with_lightness

_STACKED = 0.9  # diameters from stake to stake of a stack, for how high uprights must stand to show


def stake_rods(stretch: Stretch, window: Window) -> list[Rod]:
    """Every stake that shows, each piece of it a rod; pieces of one stake lie side by side at one height."""
    course = stretch.course
    lowest = max(2.4, _STACKED * (max(course.rank.values(), default=0) + 1))
    wide = window.stake * 0.96 * group_breadth(stretch.together)
    thick = wide / stretch.together
    rods: list[Rod] = []
    for stake in range(window.first - course.reach - 2, window.last + 2):
        lift = LIFT if stretch.is_loose(stake) else 0.0
        line = course.line(stretch.done(stake), lift, lifted=stretch.earlier, standing=lowest + 2.6)
        rods += _pieces(window.place(line, float(stake)), thick, stretch.looks(stake), f"stake {stake}")
    for first, stood_in_for, many in stretch.stand_ins():
        line = course.line(stretch.legs_made(stood_in_for))
        begins = first - 0.65 if first == stretch.brought_down else first + 0.08  # inside, or laid in beside an upright
        shown = line[line[:, 0] > begins - stood_in_for]
        looks = [stretch.spare_look] * many
        rods += _pieces(window.place(shown, float(stood_in_for)), thick, looks, f"spare {first}", butt=True)
    return rods


def _pieces(page: Numbers, thick: float, looks: list[Dress], name: str, *, butt: bool = False) -> Iterator[Rod]:
    """Stakes worked as one, side by side along one line."""
    for piece, look in enumerate(looks):
        aside = ((len(looks) - 1) / 2 - piece) * thick
        moved = np.column_stack([beside(page, aside), page[:, 2]]) if aside else page
        yield Rod(moved, thick, look, (butt, True), name=name)


def wall_rods(stretch: Stretch, window: Window) -> Iterator[Rod]:
    """The last rounds of weaving that the stakes come out of."""
    band = _band_below(stretch)
    if band is None:
        return
    shown = replace(band, rounds=band.rounds[:1] * 4, spec=replace(band.spec, step_up=False, cells=()))
    high = rows_high(band)
    pitch = min(1.8, 0.9 * high)
    strand = pitch / high
    quiet = {key: _quiet(stretch.clothes.weaver(key)) for rod in band.materials for key in rod}
    for line in strand_lines(shown, Lay(1.0, strand, pitch), samples=10):
        for lap in (1, 2, 3):
            part = line.between(lap * band.uprights + 0.0, lap * band.uprights + window.last - window.first + 3.0)
            if len(part.at) < 4:
                continue
            row = part.height - pitch * part.at / band.uprights - (4 - lap) * pitch - 0.5 - 0.4 * strand
            at = part.at - lap * band.uprights + window.first - 1.5
            points = np.column_stack([at, -part.depth, row])
            page = window.place(points, 0.0)
            yield Rod(page, 0.94 * strand * window.stake, quiet[part.material], name="wall")


def _band_below(stretch: Stretch) -> WovenBand | None:
    """The band the border stands on: the last of the side or the base; of a foot its own, or the first of the side."""
    basket = stretch.basket
    side = side_bands(basket)
    if stretch.border.spec.foot:
        own = [band for band in basket.foot_bands if band.rounds and band.materials]
        return own[-1] if own else None if basket.base.holes else next(iter(side), None)
    bands = side or [band for band in basket.base.bands if band.rounds and band.materials]
    return bands[-1] if bands else None


def _quiet(look: Dress) -> Dress:
    """The side below a border, paler and unmarked, so that the border stands out."""
    level = lightness(look.tones.body)
    return dress(with_lightness(look.tones.body, 76 + 0.17 * level, 0.28))


# ------------------------------------------------------------------------------------------------------- what is seen
class Seen(Struct, frozen=True):
    """The centre line of one stake in even steps, (n, 3) in drawing mm, and which of its points nothing covers."""

    line: Numbers
    clear: NDArray[np.bool_]

    def nearest(self, x: float, y: float, least: float, most: float) -> tuple[float, float]:
        """The point in sight nearest to (x, y) between two page x; (x, y) itself where all between them is covered."""
        inside = self.clear & (self.line[:, 0] >= least) & (self.line[:, 0] <= most)
        points = self.line[inside]
        if not len(points):
            return x, y
        chosen = points[int(((points[:, 0] - x) ** 2 + (points[:, 1] - y) ** 2).argmin())]
        return float(chosen[0]), float(chosen[1])

    def stretches(self, least: float) -> Iterator[Numbers]:
        """Stretches in sight that are at least so long, mm."""
        yield from _runs(self.line, self.clear, least)

    def covered(self, within: NDArray[np.bool_], least: float) -> Iterator[Numbers]:
        """Stretches among the points flagged that something covers, at least so long."""
        yield from _runs(self.line, ~self.clear & within, least)


def _runs(line: Numbers, chosen: NDArray[np.bool_], least: float) -> Iterator[Numbers]:
    """The stretches of a line whose points are chosen, those that are at least so long, mm."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], chosen, [False]]).astype(int)))
    for first, last in zip(edges[::2], edges[1::2], strict=True):
        part = line[first:last]
        if len(part) > 2 and np.hypot(*np.diff(part[:, :2], axis=0).T).sum() >= least:
            yield part


def seen(rods: list[Rod], which: int | str, sides: tuple[float, float]) -> Seen:
    """What can be seen of the middle piece of a stake, or of rods of a name, among all rods, between two page x."""
    name = f"stake {which}" if isinstance(which, int) else which
    mine = [rod for rod in rods if rod.name == name]
    own = mine[len(mine) // 2]
    (line,) = resample(own.points, own.diameter / 6)
    clear = (line[:, 0] > sides[0]) & (line[:, 0] < sides[1])
    left, right = line[:, 0].min(), line[:, 0].max()
    for rod in rods:
        reach = 0.62 * rod.diameter
        near = rod.points[:, 0].min() < right + reach and rod.points[:, 0].max() > left - reach
        if near and rod.name != name:
            (other,) = resample(rod.points, rod.diameter / 4)
            other = other[(other[:, 0] > left - reach) & (other[:, 0] < right + reach)]
            far = (line[:, None, 0] - other[None, :, 0]) ** 2 + (line[:, None, 1] - other[None, :, 1]) ** 2
            over = other[None, :, 2] > line[:, None, 2] + 0.05 * own.diameter
            clear &= ~((far < reach**2) & over).any(axis=1)
    return Seen(line, clear)
