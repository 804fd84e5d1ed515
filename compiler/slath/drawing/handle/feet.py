"""The feet of a bow where they go down: beside their stakes through the weaving, shaved to a slype, lashed over the border."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from slath.basket.model import WorkedHandle
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.plate import Plate

_REACH = 8.0  # mm on the page: how much of the side is shown to either side of a foot
_ROW, _BORDER, _STAKE = 2.1, 2.6, 2.2  # mm on the page: a row of weaving, a stake of the border, an upright
_LEAST_DEEP = 5 * _ROW  # a foot that does not go down shows so much of the side
_BELOW = 0.6  # mm of upright that stand out below the rows shown
_SLYPE = 3.0  # thicknesses of a foot over which it is shaved to its point
_TIED, _TURNS = 0.9, 2  # mm on the page: a strand of a lashing; turns of it each way over the border
_BRUSH = Brush(gap=0.22, edge=0.25)


def rod_end(legs: float, thick: float) -> float:
    """How far down a foot keeps its whole thickness, mm on the page."""
    return legs - min(_SLYPE * thick, 0.5 * legs)


def feet_in_side(
    plate: Plate, worked: WorkedHandle, clothes: Wardrobe, feet: Sequence[float], place: tuple[float, float, float],
    bow: Rod,
) -> None:  # fmt: skip
    """The bow with both feet (page x) in the side: every second row behind each foot and its stake, the others before it.

    `place` is the page y of the rim, how far the feet go down, and their thickness. The slope of a slype lies on the stake.
    """
    rim, legs, thick = place
    levels = np.arange(rim - _ROW / 2, rim - max(legs, _LEAST_DEEP), -_ROW).tolist()
    plate.rods([_row(x, level, _ROW, clothes) for x in feet for level in levels[1::2]], _BRUSH, name="behind")
    foot = levels[-1] - _ROW / 2 - _BELOW
    uprights = [x - thick / 2 - 0.55 * _STAKE for x in feet]
    stakes = [
        Rod(np.array([[x, foot, -1.0], [x, rim + 0.4, -1.0]]), _STAKE, clothes.stakes, name="stake") for x in uprights
    ]
    plate.rods([*stakes, bow], _BRUSH, name="bow")
    if legs > 0:
        tip, whole = rim - legs, rim - rod_end(legs, thick)
        for x in feet:
            slype = [(x - thick / 2, whole), (x + thick / 2, tip), (x + thick / 2, whole)]
            plate.area(slype, clothes.wood.tones.highlight, clothes.wood.tones.edge, 0.25)
    before = [_row(x, level, _ROW, clothes) for x in feet for level in levels[::2]]
    border = [_row(x, rim + (share + 0.5) * _BORDER, _BORDER, clothes) for x in feet for share in (0, 1)]
    tied = [rod for x in feet for rod in _lashed(worked, clothes, x, (rim, thick))]
    plate.rods([*before, *border, *tied], _BRUSH, name="before")


def _row(x: float, level: float, thick: float, clothes: Wardrobe) -> Rod:
    line = np.array([[x - _REACH, level, 4.0], [x + _REACH, level, 4.0]])
    return Rod(line, 0.94 * thick, clothes.stakes, (True, True), name="row")


def _lashed(worked: WorkedHandle, clothes: Wardrobe, x: float, place: tuple[float, float]) -> list[Rod]:
    """The lashing crossed over the border, as often one way as the other, and carried round the foot above it."""
    if not worked.spec.lash:
        return []
    rim, thick = place
    look, wide, top = clothes.of(worked.spec.lash), 0.5 * thick + 1.6, rim + 2 * _BORDER
    rods = []
    for turn in range(_TURNS):
        off = (turn - (_TURNS - 1) / 2) * 1.1 * _TIED
        for way in (-1.0, 1.0):
            line = np.array([[x - way * wide + off, rim - 1.5 * _ROW, 9.0], [x + way * wide + off, top + 0.4, 9.0]])
            rods.append(Rod(line, _TIED, look, (True, True), name="lashing"))
        level = top + (turn + 0.8) * 1.05 * _TIED
        round_it = np.array([[x - 0.5 * thick - 0.5, level, 10.0], [x + 0.5 * thick + 0.5, level + 0.3, 10.0]])
        rods.append(Rod(round_it, _TIED, look, (True, True), name="lashing"))
    return rods
