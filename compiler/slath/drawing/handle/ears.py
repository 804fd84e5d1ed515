"""An ear, the carved lug a handle hangs in: its shape, how it stands in the side, and its two faces with their measures."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from slath.basket.model import WorkedHandle
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.lettering import word_width
from slath.drawing.plate.plans import fitting_ratio, scale_said
from slath.drawing.plate.plate import Plate
from slath.messages import Length, message

_BROAD, _OF_RISE = 3.4, 0.5  # thicknesses of an ear across its face, and the most of its rise
_NECK, _POINT = 0.8, 0.15  # breadth at the rim and at the point, of the broadest
_HOLE = 0.36  # width of its hole, of the broadest
_LEAST, _ROW = 6.5, 2.4  # mm on the page: the narrowest face drawn, and a row of weaving
_NOTCH = 3.6  # mm on the page up the foot
_NOTES = (message("figure-handle.hole-for-handle"), message("figure-handle.border-in-notch"))
_FACE_MM = 13.0  # room for both faces besides their words

Draw = tuple[float, Callable[[Plate, float], None]]


def breadth(rise: float, thick: float) -> float:
    """The breadth of the face of an ear that stands so high over the rim, of wood so thick, mm; drawn, never measured."""
    return max(min(_BROAD * thick, _OF_RISE * rise), thick)


def hole_breadth(broad: float) -> float:
    """The width of its hole, mm."""
    return _HOLE * broad


def breadths(up: Numbers, rise: float, foot: float, broad: float) -> Numbers:
    """How broad the face is at heights over the rim (below 0: down the foot), its head a half round."""
    tapered = np.interp(up, [-foot, 0.0, rise], np.array([_POINT, _NECK, 1.0]) * broad)
    below_top = np.clip(rise - up, 0.0, broad / 2)
    return np.asarray(np.minimum(tapered, 2 * np.sqrt(np.maximum(broad * below_top - below_top**2, 0.0))))


def _outline(rise: float, foot: float, broad: float) -> tuple[Numbers, Numbers]:
    """Heights over the rim and half breadths there, from point to head."""
    head = rise - broad / 2 * (1 - np.sin(np.linspace(0.0, np.pi / 2, 16)))
    up = np.concatenate([[-foot, 0.0], head])
    return up, breadths(up, rise, foot, broad) / 2


def ear_in_place(worked: WorkedHandle, thick: float, clothes: Wardrobe, options: Options, em: float) -> Draw:
    """The ear as it stands: pushed down beside its stake through the weaving, the border in its notch."""
    rise, foot = worked.rise_mm, worked.foot_mm.value
    scale = 1 / fitting_ratio(1.0, rise + foot, options.width_mm, 0.45 * options.tallest_mm)
    broad = max(breadth(rise, thick) * scale, _LEAST)
    up, half = _outline(max(rise * scale, broad), foot * scale, broad)
    noted = max(word_width(options.say(note), options.text_pt) for note in _NOTES)
    middle = max(0.36 * options.width_mm, noted + 16.0)

    def draw(plate: Plate, y: float) -> None:
        rim = y + 2.4 * em + foot * scale
        rows = [(level, number) for number, level in enumerate(np.arange(rim - 2.6, rim - foot * scale - 2.0, -_ROW))]
        stake = middle - broad / 2 - 1.9
        behind = [_row(level, middle, clothes) for level, number in rows if number % 2]
        plate.rods(behind, Brush(gap=0.0, edge=0.24), name="behind")
        upright = np.array([[stake, rim - foot * scale - 3.0, 0.0], [stake, rim + 1.0, 0.0]])
        plate.rods([Rod(upright, 2.6, clothes.stakes)], Brush(gap=0.2, edge=0.24), name="stake")
        plate.area(_shape(middle, rim, up, half), clothes.wood.tones.body, plate.ink, 0.4)
        plate.circle(middle, rim + float(up[-1]) - broad / 2, hole_breadth(broad) / 2, fill=plate.paper)
        before = [_row(level, middle, clothes) for level, number in rows if number % 2 == 0]
        border = [_row(rim + level, middle, clothes, 2.8) for level in (-0.2, 2.0)]
        plate.rods([*before, *border], Brush(gap=0.25, edge=0.24), name="before")
        _measures(plate, worked, (middle, rim, broad, scale))
        plate.text(stake, rim - foot * scale - 3.0 - 0.9 * em, str(worked.feet_at[0]), bold=True)
        plate.text(plate.width - 0.4, y + 0.9 * em, plate.say(scale_said(1 / scale)), "end", colour=plate.quiet)

    return (rise + foot) * scale + 5.2 * em, draw


def _row(level: float, middle: float, clothes: Wardrobe, thick: float = 2.1) -> Rod:
    """A strand across the ear and its stake, or a stake of the border."""
    line = np.array([[middle - 15.0, level, 0.0], [middle + 13.0, level, 0.0]])
    return Rod(line, thick, clothes.stakes, (True, True), name="row")


def _shape(middle: float, rim: float, up: Numbers, half: Numbers) -> Numbers:
    right = np.column_stack([middle + half, rim + up])
    left = np.column_stack([middle - half, rim + up])
    return np.vstack([right, left[::-1]])


def _measures(plate: Plate, worked: WorkedHandle, where: tuple[float, float, float, float]) -> None:
    em, rise, foot = plate.em, Length(worked.rise_mm), Length(worked.foot_mm.value)
    middle, rim, broad, scale = where
    x = middle + 15.5
    room = plate.width - x - em
    for low, high, words in (
        (rim, rim + rise.mm * scale, message("figure-handle.above-rim", rise=rise)),
        (rim - foot.mm * scale, rim, message("figure-handle.foot-beside", foot=foot)),
    ):  # fmt: skip
        plate.dimension((x, low), (x, high), "", offset=0.0)
        plate.paragraph(x + 0.7 * em, (low + high) / 2 + 0.6 * em, plate.say(words), room)
    first = rim + worked.rise_mm * scale
    second = min(rim + worked.rise_mm * scale / 2, first - 1.2 * em)
    notes = [
        (middle, rim + worked.rise_mm * scale - broad / 2, 0.4, first, _NOTES[0]),
        (middle - 11.0, rim + 2.0, 0.4, second, _NOTES[1]),
    ]
    for sx, sy, tx, ty, note in notes:
        told = plate.say(note)
        plate.line([(sx, sy), (tx + plate.wide(told) - 0.4 * em, ty - 0.5 * em)], 0.25)
        plate.circle(sx, sy, 0.5, fill=plate.ink, stroke=plate.paper)
        plate.text(tx, ty, told, "start")


def ear_faces(worked: WorkedHandle, thick: float, clothes: Wardrobe, em: float) -> Draw:
    """The ear laid down: its face with the hole, and from its edge, with the notch cut across the face."""

    def draw(plate: Plate, y: float) -> None:
        rise, foot, measure = worked.rise_mm, worked.foot_mm.value, plate.options.measure
        left, right = 1.0, plate.width - 1.0
        scale = (right - left) / (rise + foot)
        broad = max(breadth(rise, thick) * scale, _LEAST)
        deep = max(thick * scale, 2.2)
        up, half = _outline(max(rise * scale, broad), foot * scale, broad)
        rim, face, edge = right - float(up[-1]), y + 4.6 * em + broad / 2 + 7.0, y + 4.6 * em
        wood, ink = clothes.wood.tones.body, plate.ink
        lying = _shape(0.0, 0.0, up, half)
        plate.area(np.column_stack([rim + lying[:, 1], face + lying[:, 0]]), wood, ink, 0.4)
        plate.circle(right - broad / 2, face, hole_breadth(broad) / 2, fill=plate.paper)
        notch = [(rim, 0.0), (rim + 0.8, -0.45 * deep), (rim + _NOTCH - 0.8, -0.45 * deep), (rim + _NOTCH, 0.0)]
        for x in (rim, rim + _NOTCH):
            across = float(np.interp(x - rim, up, half))
            plate.line([(x, face - across), (x, face + across)], 0.3)
        top = edge + deep / 2
        side = [(left, edge - 0.3), (left, edge + 0.1), (rim - 0.4 * foot * scale, top), *((x, top + z) for x, z in notch),
                (right, top), (right, edge - deep / 2), (rim - 0.4 * foot * scale, edge - deep / 2)]  # fmt: skip
        plate.area(side, wood, ink, 0.4)
        plate.text(
            left, face + broad / 2 + 1.1 * em, plate.say(message("figure-handle.the-face")), "start", italic=True
        )
        plate.text(
            left, edge + deep / 2 + 0.9 * em, plate.say(message("figure-handle.from-its-edge")), "start", italic=True
        )
        notched = plate.say(message("figure-handle.notch"))
        plate.pointer(rim + _NOTCH / 2, top - 0.45 * deep, rim - 9.0, edge + deep / 2 + 0.9 * em, notched, "end")
        plate.dimension((rim, y + 2.6 * em), (right, y + 2.6 * em), measure(rise))
        plate.dimension(
            (left, y + 2.6 * em),
            (rim, y + 2.6 * em),
            plate.say(message("figure-handle.foot-shaved", foot=Length(foot))),
        )
        cut = message("figure-handle.cut-trim", length=Length(worked.piece_mm.value))
        plate.text(right, y + 0.9 * em, plate.say(cut), "end", colour=plate.quiet)

    return _FACE_MM + _LEAST + 7.6 * em, draw
