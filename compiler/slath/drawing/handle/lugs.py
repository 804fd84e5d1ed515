"""The ears of a swinging handle: to scale, with every measure they are made by, and as they stand in the side."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from msgspec import Struct

from slath.basket.model import WorkedEar, WorkedHandle
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.lettering import POINT_MM
from slath.drawing.plate.note_blocks import Note, notes_height, place_notes
from slath.drawing.plate.plans import fitting_ratio
from slath.drawing.plate.plate import Plate
from slath.messages import Length, Message, message
from slath.messages.values import CUT
from slath.messages.values import Numbers as ByNumber

ROW, BORDER = 2.3, 2.8  # mm on the page: a row of weaving, a stake of the border
_POINT = 0.12  # breadth of an ear at its point, of its breadth above
LEAST_SCALE = 0.45  # an ear is drawn no smaller
_BRUSH = Brush(gap=0.25, edge=0.24)

Draw = tuple[float, Callable[[Plate, float], None]]


class Swinging(Struct, frozen=True):
    """A swinging handle with all it is drawn from; `thick` is the bow's thickness, mm."""

    worked: WorkedHandle
    ear: WorkedEar
    thick: float
    clothes: Wardrobe
    binding: Dress | None = None

    @property
    def holes(self) -> list[float]:
        """The middles of the holes across the face, mm from the middle of the ear."""
        count = self.worked.spec.ears.holes if self.worked.spec.ears else 1
        return [(number - (count - 1) / 2) * self.ear.hole_apart_mm for number in range(count)]

    @property
    def at(self) -> Message:
        """The stakes its ears stand beside."""
        return message("figure-handle.at-stakes", stakes=ByNumber(tuple(self.worked.feet_at)))

    @property
    def scarf(self) -> float:
        """How much of each end is turned back, mm."""
        return self.worked.scarf.value if self.worked.scarf else 0.0


# ------------------------------------------------------------------------------------------------------------ an ear
def face_of(ear: WorkedEar, scale: float) -> tuple[Numbers, Numbers]:
    """Heights over the rim and half breadths of an ear's face at a scale, from its point to its round top."""
    rise, foot, broad = ear.rise.value * scale, ear.foot_mm * scale, ear.width.value * scale
    radius = min(broad / 2, rise)
    head = rise - radius * (1 - np.sin(np.linspace(0.0, np.pi / 2, 20)))
    up = np.concatenate([[-foot, -0.25 * foot, 0.0], head])
    straight = np.interp(up, [-foot, -0.25 * foot, 0.0], np.array([_POINT, 1.0, 1.0]) * broad)
    below = np.clip(rise - up, 0.0, radius)
    return up, np.minimum(straight, broad * np.sqrt(np.maximum(1 - (1 - below / radius) ** 2, 0.0))) / 2


def ear_words(made: Swinging) -> Message:
    """What the figure of an ear shows, for those who do without it."""
    ear = made.ear
    return message(
        "figure-handle.lug-words",
        wide=Length(ear.width.value),
        rise=Length(ear.rise.value),
        above=ear.notch_mm[0] >= 0,
        notch=Length(ear.notch_mm[1] - ear.notch_mm[0]),
        deep=Length(ear.notch_deep_mm),
        holes=len(made.holes),
        bit=Length(ear.hole.value),
        up=Length(ear.hole_up_mm),
        foot=Length(ear.foot_mm),
    )


def ear_cut_words(made: Swinging) -> Message:
    """How long it is sawn, for those who do without the figure."""
    return message("figure-handle.lug-cut", length=Length(made.ear.length.value, CUT))


def ear_to_scale(made: Swinging, options: Options) -> Draw:
    """The ear lying: its face above, its edge below, every measure it is sawn, notched and bored by."""
    ear, em = made.ear, options.text_pt * POINT_MM
    holes = message(
        "figure-handle.lug-holes",
        holes=len(made.holes),
        bit=Length(ear.hole.value),
        apart=Length(ear.hole_apart_mm) if len(made.holes) > 1 else None,
    )
    notch = message(
        "figure-handle.lug-notch", notch=Length(ear.notch_mm[1] - ear.notch_mm[0]), deep=Length(ear.notch_deep_mm)
    )
    left, right = 4.6 * em, options.width_mm - 1.0
    scale = min((right - left) / ear.length.value, 1.0)
    right = left + ear.length.value * scale
    rim, half = left + ear.foot_mm * scale, ear.width.value * scale / 2
    deep = max(ear.thick_mm * scale, 2.6)
    reach = made.holes[-1] * scale + 0.5 * ear.hole.value * scale
    notes = [
        Note(options.say(holes), ((rim + ear.hole_up_mm * scale, reach),)),
        Note(options.say(notch), ((rim + math.fsum(ear.notch_mm) / 2 * scale, 0.55 * half),)),
        Note(options.say(message("figure-handle.lug-line")), ((rim, half),)),
        Note(
            options.say(message("figure-handle.lug-wide", wide=Length(ear.width.value))),
            ((rim - 0.25 * ear.foot_mm * scale, half),),
        ),
    ]
    above = notes_height(notes, options)
    edge_up, face_up = 6.6 * em + deep / 2, 8.6 * em + deep + half

    def draw(plate: Plate, y: float) -> None:
        face, edge = y + face_up, y + edge_up
        up, widths = face_of(ear, scale)
        wood, ink = made.clothes.wood.tones.body, plate.ink
        plate.area(
            np.column_stack([rim + np.concatenate([up, up[::-1]]), face + np.concatenate([widths, -widths[::-1]])]),
            wood,
            ink,
            0.4,
        )
        for hole in made.holes:
            plate.circle(
                rim + ear.hole_up_mm * scale, face + hole * scale, ear.hole.value * scale / 2, fill=plate.paper
            )
        low, high = (rim + level * scale for level in ear.notch_mm)
        plate.area(
            [(low, face - half), (high, face - half), (high, face + half), (low, face + half)],
            made.clothes.wood.tones.shade,
            ink,
            0.3,
        )
        plate.line([(rim, face - half - 1.5), (rim, face + half + 1.5)], 0.35, dash=(1.4, 0.8))
        top, cut = edge + deep / 2, ear.notch_deep_mm * scale
        side = [(left, edge - 0.3), (left, edge + 0.3), (left + 0.75 * ear.foot_mm * scale, top), (low, top), (low, top - cut), (high, top - cut),
                (high, top), (right, top), (right, edge - deep / 2), (left + 0.75 * ear.foot_mm * scale, edge - deep / 2)]  # fmt: skip
        plate.area(side, wood, ink, 0.4)
        plate.text(0.2, face, plate.say(message("figure-handle.lug-face")), "start", italic=True)
        plate.text(0.2, edge, plate.say(message("figure-handle.lug-edge")), "start", italic=True)
        _ear_measures(plate, made, (left, right, rim, edge - deep / 2))
        placed = [Note(note.words, tuple((x, face + up_by) for x, up_by in note.spots)) for note in notes]
        place_notes(plate, placed, face + half + 2.4)

    return face_up + half + 2.4 + above + 0.4 * em, draw


def _ear_measures(plate: Plate, made: Swinging, where: tuple[float, float, float, float]) -> None:
    """Below the edge: along the ear from its point, then the whole length it is sawn to."""
    ear, em, measure = made.ear, plate.em, plate.options.measure
    left, right, rim, foot = where
    row = foot - 1.5 * em
    plate.dimension((left, row), (rim, row), measure(ear.foot_mm), above=False)
    plate.dimension((rim, row), (right, row), measure(ear.rise.value), above=False)
    row -= 2.1 * em
    with plate.telling_cut_lengths():
        long = message("figure-handle.lug-long", length=Length(ear.length.value, CUT))
        plate.dimension((left, row), (right, row), plate.say(long), above=False)


# ------------------------------------------------------------------------------------------------------- in the side
def ear_in_side_words(made: Swinging) -> Message:
    """What the figure of an ear in its place shows."""
    return message(
        "figure-handle.lug-in-side-words",
        at=made.at,
        foot=Length(made.ear.foot_mm),
        rise=Length(made.ear.rise.value),
        border=made.ear.notch_mm[0] >= 0,
    )


def ear_in_side(made: Swinging, options: Options) -> Draw:
    """The ear from outside, beside its stake, with the weaving and the border over it."""
    ear, em = made.ear, options.text_pt * POINT_MM
    scale = max(1 / fitting_ratio(1.0, ear.length.value, options.width_mm, 0.4 * options.tallest_mm), LEAST_SCALE)
    rise, foot, half = ear.rise.value * scale, ear.foot_mm * scale, ear.width.value * scale / 2
    middle = 0.36 * options.width_mm
    low, high = (level * scale for level in ear.notch_mm)
    border = ear.notch_mm[0] >= 0
    in_notch = message("figure-handle.border-in-notch" if border else "figure-handle.rows-in-notch")
    notes = [
        Note(options.say(in_notch), ((middle - half + 1.0, (low + high) / 2),)),
        Note(options.say(_hole_said(made)), ((middle + made.holes[-1] * scale, ear.hole_up_mm * scale),)),
    ]
    above = notes_height(notes, options)

    def draw(plate: Plate, y: float) -> None:
        rim = y + foot + 5.0 + 1.6 * em
        levels = list(np.arange(rim - ROW / 2, rim - foot - 4.0, -ROW))
        plate.rods(
            [_row(level, middle, half, made.clothes, ROW * 0.92) for level in levels[1::2]],
            Brush(gap=0.0, edge=0.24),
            name="behind",
        )
        stake = middle - half - 1.9
        plate.rods(
            [Rod(np.array([[stake, rim - foot - 5.0, 0.0], [stake, rim + 1.0, 0.0]]), 2.6, made.clothes.stakes)],
            Brush(gap=0.2, edge=0.24),
            name="stake",
        )
        up, widths = face_of(ear, scale)
        plate.area(
            np.column_stack([middle + np.concatenate([widths, -widths[::-1]]), rim + np.concatenate([up, up[::-1]])]),
            made.clothes.wood.tones.body,
            plate.ink,
            0.4,
        )
        plate.area(
            [
                (middle - half, rim + low),
                (middle + half, rim + low),
                (middle + half, rim + high),
                (middle - half, rim + high),
            ],
            made.clothes.wood.tones.shade,
            plate.ink,
            0.3,
        )
        for hole in made.holes:
            plate.circle(
                middle + hole * scale, rim + ear.hole_up_mm * scale, ear.hole.value * scale / 2, fill=plate.paper
            )
        front = [level for level in levels[::2] if not rim + low <= level <= rim + high]
        rods = [_row(level, middle, half, made.clothes, ROW * 0.92) for level in front]
        rods += _held(made, middle, half, rim, (low, high))
        plate.rods(rods, _BRUSH, name="before")
        plate.text(stake, rim - foot - 5.0 - 0.9 * em, str(made.worked.feet_at[0]), bold=True)
        x = middle + half + 12.0
        for one, other, words in (
            (rim, rim + rise, message("figure-handle.lug-above", rise=Length(ear.rise.value))),
            (rim - foot, rim, message("figure-handle.lug-down", foot=Length(ear.foot_mm))),
        ):
            plate.dimension((x, one), (x, other), "", offset=0.0)
            plate.paragraph(x + 0.7 * em, (one + other) / 2 + 0.6 * em, plate.say(words), plate.width - x - em)
        place_notes(
            plate,
            [Note(note.words, tuple((sx, rim + sy) for sx, sy in note.spots)) for note in notes],
            rim + rise + 2.2,
        )

    return foot + rise + 5.0 + 1.6 * em + 2.4 + above + 0.4 * em, draw


def _hole_said(made: Swinging) -> Message:
    return message("figure-handle.lug-hole", several=len(made.holes) > 1, both=made.worked.spec.count > 1)


def _row(level: float, middle: float, half: float, clothes: Wardrobe, thick: float) -> Rod:
    line = np.array([[middle - half - 10.0, level, 0.0], [middle + half + 9.0, level, 0.0]])
    return Rod(line, thick, clothes.stakes, (True, True), name="row")


def _held(made: Swinging, middle: float, half: float, rim: float, notch: tuple[float, float]) -> list[Rod]:
    """What lies in the notch, drawn over the ear: the border, or the rows, with the border round the ear above them."""
    low, high = notch
    if made.ear.notch_mm[0] >= 0:
        return [
            _row(rim + low + share * (high - low), middle, half, made.clothes, 0.48 * (high - low))
            for share in (0.27, 0.75)
        ]
    rows = max(1, round((high - low) / ROW))
    step = (high - low) / rows
    return [_row(rim + low + (row + 0.5) * step, middle, half, made.clothes, 0.94 * step) for row in range(rows)]
