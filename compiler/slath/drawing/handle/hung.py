"""Handles that hang outside from loops under the border: a drop handle by the eyes at its ends, and a ring."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from slath.basket.model import WorkedHandle
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers, beside, resample, travelled
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.plans import fitting_ratio, scale_said
from slath.drawing.plate.plate import Plate
from slath.messages import Length, message
from slath.messages.values import Numbers as ByNumber

_BORDER, _ROW, _ROWS = 2.8, 2.1, 3  # mm on the page: a stake of the border, a row of weaving, rows shown below it
_EYE = 1.5  # thicknesses from the middle of an eye to the middle of its rod: it is two wide inside
_LOOP = 1.3  # mm on the page: a strand of the loop
_WOUND = 2.6  # thicknesses from turn to turn of an end wound back
_LEAST = 1.6  # mm on the page: a handle is drawn no thinner
_BRUSH = Brush(gap=0.25, edge=0.26)

Draw = tuple[float, Callable[[Plate, float], None]]


def drop_in_place(worked: WorkedHandle, thick: float, clothes: Wardrobe, options: Options, em: float) -> Draw:
    """A handle that hangs by two eyes, its ends wound back from them."""
    curve = np.array(worked.curve) * [1.0, -1.0]  # it hangs
    high, long = float(np.ptp(curve[:, 1])), float(np.ptp(curve[:, 0]))
    room = options.width_mm - 17.0 * em
    scale = 1 / fitting_ratio(long + 6 * thick, high + 6 * thick, room, 0.5 * options.tallest_mm)
    rod = max(thick * scale, _LEAST)
    tall = high * scale + 2 * _EYE * rod + 1.4 * rod + 0.6 * em

    def draw(plate: Plate, y: float) -> None:
        middle, eyes = plate.width / 2, y + 4.2 * em + high * scale + 1.4 * rod
        rim = eyes + 2 * _EYE * rod + 0.6 * em
        page = np.column_stack([middle + curve[:, 0] * scale, eyes + curve[:, 1] * scale - float(curve[0, 1]) * scale])
        ends, tied = [page[0], page[-1]], _tied(worked, clothes)
        rods = [Rod(_lifted(page, 8.0), rod, clothes.wood, name="handle")]
        for place, (x, level) in enumerate(ends):
            rods.append(Rod(_ring(x, level + _EYE * rod, _EYE * rod, 8.2), rod, clothes.wood, name="eye"))
            line = page if place == 0 else page[::-1]
            rods.append(
                Rod(_wound(line, worked.foot_mm.value * scale, rod), 0.8 * rod, clothes.wood, (False, True), name="end")
            )
            rods += _loop(x, rim, level + 1.4 * _EYE * rod, tied)
        plate.rods([*_rim(middle, rim, long * scale / 2 + 9.0, clothes), *rods], _BRUSH, name="drop")
        _drop_measures(plate, worked, (middle, eyes, rim, scale, rod))
        plate.text(plate.width - 0.4, y + 0.9 * em, plate.say(scale_said(1 / scale)), "end", colour=plate.quiet)

    return tall + _BORDER * 2 + 6.4 * em, draw


def ring_in_place(worked: WorkedHandle, thick: float, clothes: Wardrobe, options: Options, em: float) -> Draw:
    """A ring that hangs by one loop."""
    scale = 1 / fitting_ratio(worked.span_mm, worked.span_mm, options.width_mm - 20.0 * em, 0.42 * options.tallest_mm)
    rod = max(thick * scale, _LEAST)
    radius = (worked.span_mm * scale - rod) / 2

    def draw(plate: Plate, y: float) -> None:
        middle, low = plate.width / 2, y + 2.6 * em + rod / 2
        rim = low + 2 * radius + rod + 0.6 * em
        rods = [Rod(_ring(middle, low + radius, radius, 8.0), rod, clothes.wood, name="handle")]
        rods += _loop(middle, rim, low + 2 * radius, _tied(worked, clothes))
        plate.rods([*_rim(middle, rim, radius + 12.0, clothes), *rods], _BRUSH, name="ring")
        across = worked.span_mm * scale / 2
        plate.dimension(
            (middle - across, low + radius),
            (middle + across, low + radius),
            plate.say(message("figure-handle.over-all", span=Length(worked.span_mm))),
        )
        once_round = message("figure-handle.once-round", bow=Length(worked.bow_mm.value))
        plate.text(middle, y + 0.9 * em, plate.say(once_round))
        _hung_by(plate, worked, middle, rim)
        plate.text(plate.width - 0.4, y + 0.9 * em, plate.say(scale_said(1 / scale)), "end", colour=plate.quiet)

    return worked.span_mm * scale + _BORDER * 2 + 6.4 * em, draw


def _drop_measures(plate: Plate, worked: WorkedHandle, where: tuple[float, float, float, float, float]) -> None:
    em = plate.em
    middle, eyes, rim, scale, rod = where
    half, low = worked.span_mm / 2 * scale, eyes - worked.rise_mm * scale
    plate.dimension(
        (middle - half, eyes),
        (middle + half, eyes),
        plate.say(message("figure-handle.span", span=Length(worked.span_mm))),
    )
    x = middle + half + 11.0
    plate.dimension((x, low), (x, eyes), "", offset=0.0)
    plate.paragraph(
        x + 0.6 * em,
        (low + eyes) / 2 + 0.6 * em,
        plate.say(message("figure-handle.drop", rise=Length(worked.rise_mm))),
        plate.width - x - em,
    )
    under = low - 1.4 * rod - 0.9 * em
    bow, foot = Length(worked.bow_mm.value), Length(worked.foot_mm.value)
    words = message("figure-handle.along-and-wound", bow=bow, foot=foot)
    plate.paragraph(middle, under, plate.say(words), plate.width - 1.0, "middle")
    for side, number in zip((-1.0, 1.0), worked.feet_at[:2], strict=False):
        stake = message("figure-handle.at-stake", number=number)
        plate.text(middle + side * half, rim + 2 * _BORDER + 0.9 * em, plate.say(stake), bold=True)


def _hung_by(plate: Plate, worked: WorkedHandle, x: float, rim: float) -> None:
    stakes = message("figure-handle.beside", stakes=ByNumber(tuple(worked.feet_at)))
    plate.text(x, rim + 2 * _BORDER + 0.9 * plate.em, plate.say(stakes), bold=True)


def _rim(middle: float, rim: float, half: float, clothes: Wardrobe) -> Iterator[Rod]:
    """The border and the rows below it, behind what hangs there."""
    levels = [(rim + 0.5 * _BORDER, _BORDER), (rim + 1.4 * _BORDER, _BORDER)]
    levels += [(rim - (row + 0.5) * _ROW, _ROW) for row in range(_ROWS)]
    for number, (level, thick) in enumerate(levels):
        line = np.array([[middle - half, level, -0.3 * number], [middle + half, level, -0.3 * number]])
        yield Rod(line, thick * 0.96, clothes.stakes, (True, True), name="rim")


def _loop(x: float, rim: float, eye: float, look: Dress) -> list[Rod]:
    """Two turns round the border, out under it and through what hangs there."""
    top = rim + 2 * _BORDER
    ways = np.array([[0.0, top, 3.0], [0.0, top - 0.5, 12.0], [0.0, eye, 12.0], [0.0, eye - 0.4, 6.0]])
    turns = [ways + np.array([[x + side * 0.55 * _LOOP, 0.0, 0.0]]) for side in (-1.0, 1.0)]
    return [Rod(turn, _LOOP, look, name="loop") for turn in turns]


def _tied(worked: WorkedHandle, clothes: Wardrobe) -> Dress:
    """How the strand of the loops shows."""
    return clothes.of(worked.spec.lash) if worked.spec.lash else clothes.stakes


def _lifted(page: Numbers, near: float) -> Numbers:
    return np.column_stack([page, np.full(len(page), near)])


def _ring(x: float, y: float, radius: float, near: float) -> Numbers:
    turn = np.linspace(0.0, 2 * np.pi, 49)
    return np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn), np.full(len(turn), near)])


def _wound(line: Numbers, long: float, rod: float) -> Numbers:
    """An end wound round the handle from its eye on, as far as it reaches or to the middle."""
    (even,) = resample(line, 0.15 * rod)
    way = travelled(even)
    turn = 2 * np.pi * way / (_WOUND * rod)
    wound = np.column_stack([beside(even, 0.85 * rod * np.sin(turn)), 8.0 + 0.9 * rod * np.cos(turn)])
    return np.asarray(wound[way <= min(long, 0.48 * float(way[-1]))])
