"""A swinging bow: lying straight with its scarfs, how it hangs in its hole, and in place, standing and laid down."""

from __future__ import annotations

import math

import numpy as np

from slath.drawing.handle.lugs import BORDER, LEAST_SCALE, ROW, Draw, Swinging, face_of
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers, resample, travelled
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.lettering import POINT_MM
from slath.drawing.plate.plans import fitting_ratio, scale_said
from slath.drawing.plate.plate import Anchor, Plate
from slath.messages import Length, Message, message

_THIN = 0.3  # of a bow: its scarfed end as it is drawn
_LEAST_SCALE = 0.45  # an ear is drawn no smaller
_LEAST = 1.6  # mm on the page: a bow is drawn no thinner
_LEVEL = 91.0  # degrees from upright: a bow laid no further rests on the border
_BINDINGS = 6  # turns of a binding that are drawn
_BRUSH = Brush(gap=0.25, edge=0.24)


# ------------------------------------------------------------------------------------------------------------- a bow
def bow_words(made: Swinging) -> Message:
    """What a bow is cut as."""
    arch = Length(made.worked.bow_mm.value)
    return message("figure-handle.laid-bow-words", scarf=Length(made.scarf), arch=arch)


def bow_laid(made: Swinging, options: Options) -> Draw:
    """One bow lying straight, its scarfs shaved on the side that will lie against it."""
    em, measure = options.text_pt * POINT_MM, options.measure
    arch, scarf = made.worked.bow_mm.value, made.scarf
    left, right = 1.0, options.width_mm - 1.0
    scale = (right - left) / (arch + 2 * scarf)
    a, b, high = left + scarf * scale, right - scarf * scale, 4.0

    def draw(plate: Plate, y: float) -> None:
        level = y + 4.6 * em
        shape = [
            (left, level + high),
            (right, level + high),
            (right, level + high * (1 - _THIN / 2)),
            (b, level),
            (a, level),
            (left, level + high * (1 - _THIN / 2)),
        ]
        plate.area(shape, made.clothes.wood.tones.body, plate.ink, 0.35)
        for x in (a, b):
            plate.line([(x, level - 1.2), (x, level + high + 1.2)], 0.3, dash=(1.2, 0.7))
        plate.text(
            (left + right) / 2,
            level + high + 1.2 * em,
            plate.say(message("figure-handle.laid-marks")),
            italic=True,
        )
        row = level - 1.0 * em
        for one, other, words in ((left, a, measure(scarf)), (a, b, measure(arch)), (b, right, measure(scarf))):
            plate.dimension((one, row), (other, row), words if plate.wide(words) < other - one else "", above=False)
        narrow = plate.wide(measure(scarf)) >= a - left
        parts = message("figure-handle.laid-parts")
        if narrow:
            parts = message("figure-handle.laid-narrow", arch=Length(arch), scarf=Length(scarf))
        plate.text((left + right) / 2, row - (2.6 if not narrow else 2.4) * em, plate.say(parts))

    return 7.2 * em + high, draw


# ------------------------------------------------------------------------------------------------ how it hangs, edge on
def turn_words(made: Swinging) -> Message:
    """How a bow hangs in its hole."""
    bound = made.worked.spec.bind
    return message(
        "figure-handle.turn-words", scarf=Length(made.scarf), places=bound.places if bound is not None else None
    )


def bow_in_ear(made: Swinging, options: Options) -> Draw:
    """From the edge of the ear: the bow down the outside, through the hole, and up again inside."""
    ear, em = made.ear, options.text_pt * POINT_MM
    scale = max(min(1.0, 0.42 * options.tallest_mm / (2.4 * ear.length.value)), LEAST_SCALE)
    thick, deep, wide = max(made.thick * scale, 3.0), max(ear.thick_mm * scale, 3.0), 0.5 * options.width_mm
    rise, foot = ear.rise.value * scale, 0.5 * ear.foot_mm * scale + 3.0
    above = max(1.6 * rise, 18.0)

    def draw(plate: Plate, y: float) -> None:
        rim = y + foot + 1.4 * em
        top, hole = rim + rise, rim + ear.hole_up_mm * scale
        wood = made.clothes.wood
        plate.area(
            [
                (wide - deep / 2, rim - foot),
                (wide + deep / 2, rim - foot),
                (wide + deep / 2, top),
                (wide - deep / 2, top),
            ],
            wood.tones.shade,
            plate.ink,
            0.4,
        )
        reach = ear.hole.value * scale / 2
        plate.area(
            [
                (wide - deep / 2, hole - reach),
                (wide + deep / 2, hole - reach),
                (wide + deep / 2, hole + reach),
                (wide - deep / 2, hole + reach),
            ],
            plate.paper,
            plate.ink,
            0.25,
        )
        rods = _looped(made, wide, (top, hole, above), (thick, deep))
        plate.rods(rods, Brush(gap=0.0, edge=0.26), name="bow")
        low, high = (rim + level * scale for level in ear.notch_mm)
        cut = max(ear.notch_deep_mm * scale, 1.0)
        plate.area(
            [
                (wide - deep / 2 - 0.1, low),
                (wide - deep / 2 + cut, low),
                (wide - deep / 2 + cut, high),
                (wide - deep / 2 - 0.1, high),
            ],
            plate.paper,
            plate.ink,
            0.3,
        )
        plate.text(
            wide - deep / 2 - 3.0, rim - foot + 0.6 * em, plate.say(message("figure.outside")), "end", italic=True
        )
        plate.text(
            wide + deep / 2 + 3.0, rim - foot + 0.6 * em, plate.say(message("figure.inside")), "start", italic=True
        )
        side = wide + deep / 2 + thick + 1.5 * em
        plate.paragraph(
            side,
            top + 0.75 * above,
            plate.say(message("figure-handle.turn-scarf", scarf=Length(made.scarf))),
            plate.width - side - 0.5,
        )
        if made.worked.spec.bind:
            words = plate.say(message("figure-handle.turn-bound", places=made.worked.spec.bind.places))
            plate.paragraph(
                wide - deep / 2 - thick - 1.5 * em, top + 0.55 * above, words, wide - deep / 2 - thick - 2.5, "end"
            )

    return rise + foot + above + 2.2 * em, draw


def _looped(made: Swinging, middle: float, levels: tuple[float, float, float], sizes: tuple[float, float]) -> list[Rod]:
    """The bow down outside, through its hole and up inside until it lies on itself, with what binds it."""
    top, hole, above = levels
    thick, deep = sizes
    thin = 0.55 * thick
    away = deep / 2 + thick / 2 + 0.3
    end, wood = top + above, made.clothes.wood
    bow = np.array([[middle - thin / 2, end + 2.0], [middle - thin / 2, top + 0.35 * above], [middle - away, top - 0.1 * above], [middle - away, hole + thick / 2],
                    [middle - away + 0.5 * thick, hole], [middle, hole]])  # fmt: skip
    back = np.array([[middle, hole], [middle + away - 0.5 * thick, hole], [middle + away, hole + thick / 2], [middle + away, top - 0.1 * above], [middle + thick / 2, top + 0.35 * above],
                     [middle + thick / 2, top + 0.9 * above]])  # fmt: skip
    rods = [
        Rod(_smooth(bow), thick, wood, (True, False), name="bow"),
        Rod(_smooth(back), thin, wood, (False, True), name="scarf"),
    ]
    if made.worked.spec.bind is None or made.binding is None:
        return rods
    places = made.worked.spec.bind.places
    for place in range(places):
        level = top + above * (0.42 + 0.4 * place / max(places - 1, 1))
        for turn in range(_BINDINGS):
            y = level + 0.62 * turn
            rods.append(
                Rod(
                    np.array(
                        [
                            [middle - thin / 2 - thick / 2 - 0.2, y, 9.0],
                            [middle + thick / 2 + thin / 2 + 0.2, y + 0.25, 9.0],
                        ]
                    ),
                    0.6,
                    made.binding,
                    name="binding",
                )
            )
    return rods


def _smooth(line: Numbers) -> Numbers:
    """A line with its corners cut, at one depth."""
    for _ in range(3):
        mixed = np.empty((2 * (len(line) - 1), 2))
        mixed[::2], mixed[1::2] = 0.75 * line[:-1] + 0.25 * line[1:], 0.25 * line[:-1] + 0.75 * line[1:]
        line = np.vstack([line[:1], mixed, line[-1:]])
    return np.column_stack([line, np.full(len(line), 4.0)])


# ----------------------------------------------------------------------------------------------------------- in place
def bows_words(made: Swinging) -> Message:
    """The bows on the rim."""
    worked = made.worked
    return message(
        "figure-handle.swinging-words",
        count=worked.spec.count,
        at=made.at,
        span=Length(worked.span_mm),
        bow=Length(worked.bow_mm.value),
        rise=Length(worked.rise_mm),
        laid=_laid(made),
        scarf=Length(made.scarf),
    )


def _laid(made: Swinging) -> Message:
    level = made.worked.laid_degrees <= _LEVEL
    return message("figure-handle.laid-on-border" if level else "figure-handle.laid-outside")


def bows_in_place(made: Swinging, options: Options) -> Draw:
    """The bow standing between its ears, and hanging, to scale."""
    worked, ear, em = made.worked, made.ear, options.text_pt * POINT_MM
    curve = np.array(worked.curve)
    high, long = float(curve[:, 1].max()), float(np.ptp(curve[:, 0]))
    lean = math.cos(math.radians(worked.laid_degrees))  # of a bow laid down, seen from the side
    drop = max(-(high - ear.hole_up_mm) * lean - ear.hole_up_mm, 0.0)
    ratio = fitting_ratio(
        long + ear.width.value, high + max(drop, ear.foot_mm), options.width_mm - 9.0 * em, 0.6 * options.tallest_mm
    )
    scale = 1 / ratio
    down = max(max(drop, ear.foot_mm) * scale, 3 * ROW)  # the rim's rows, and the names of the stakes below them
    rod = max(made.thick * scale, _LEAST)

    def draw(plate: Plate, y: float) -> None:
        middle, rim = plate.width / 2 - 2.0 * em, y + 3.6 * em + down
        page = np.column_stack([middle + curve[:, 0] * scale, rim + curve[:, 1] * scale])
        hole = rim + ear.hole_up_mm * scale
        half = long * scale / 2
        hanging = np.column_stack([page[:, 0], hole + (page[:, 1] - hole) * lean])
        rods = list(_rim(middle, rim, half + 8.0, made.clothes))
        plate.rods(rods, _BRUSH, name="rim")
        for side in (-1.0, 1.0):
            up, widths = face_of(ear, scale)
            keep = up >= -0.1 * ear.foot_mm * scale
            x = middle + side * half
            plate.area(
                np.column_stack(
                    [
                        x + np.concatenate([widths[keep], -widths[keep][::-1]]),
                        rim + np.concatenate([up[keep], up[keep][::-1]]),
                    ]
                ),
                made.clothes.wood.tones.shade,
                plate.ink,
                0.3,
            )
        if worked.spec.count > 1:
            plate.rods(
                [Rod(np.column_stack([hanging, np.full(len(hanging), 8.0)]), rod, made.clothes.wood, name="hanging")],
                _BRUSH,
                name="hanging bow",
            )
        else:
            plate.line(hanging, 0.45, plate.quiet, dash=(2.0, 1.2))
        plate.rods(_standing(made, page, rod, scale), _BRUSH, name="bow")
        _bows_measures(plate, made, (middle, rim, half, scale))
        plate.text(0.4, y + 0.9 * em, plate.say(scale_said(ratio)), "start", colour=plate.quiet)

    return high * scale + down + 7.4 * em, draw


def _standing(made: Swinging, page: Numbers, rod: float, scale: float) -> list[Rod]:
    """The bow with its turned back ends along its legs, inside the arch, and their bindings."""
    wood = made.clothes.wood
    rods = [Rod(np.column_stack([page, np.full(len(page), 10.0)]), rod, wood, (True, True), name="bow")]
    (fine,) = resample(page, 0.4)
    for leg in (fine, fine[::-1]):
        way = travelled(leg)
        part = leg[way <= min(made.scarf * scale, 0.48 * float(way[-1]))]
        inward = np.column_stack([np.gradient(part[:, 1]), -np.gradient(part[:, 0])])
        inward /= np.linalg.norm(inward, axis=1)[:, None] + 1e-9
        if float(inward[0, 0]) * (float(np.mean(page[:, 0])) - float(part[0, 0])) < 0:
            inward = -inward
        beside = part + inward * 0.8 * rod
        rods.append(
            Rod(np.column_stack([beside, np.full(len(beside), 9.0)]), 0.6 * rod, wood, (False, True), name="scarf")
        )
        rods += _tied(made, part, inward, rod)
    return rods


def _tied(made: Swinging, part: Numbers, inward: Numbers, rod: float) -> list[Rod]:
    bind = made.worked.spec.bind
    if bind is None or made.binding is None:
        return []
    found = []
    for place in range(bind.places):
        at = int((len(part) - 1) * (0.3 + 0.55 * place / max(bind.places - 1, 1)))
        for turn in (-1, 0, 1):
            spot = min(max(at + 2 * turn, 0), len(part) - 1)
            ends = np.vstack([part[spot] - inward[spot] * 0.6 * rod, part[spot] + inward[spot] * 1.2 * rod])
            found.append(Rod(np.column_stack([ends, [12.0, 12.0]]), 0.5, made.binding, name="binding"))
    return found


def _rim(middle: float, rim: float, half: float, clothes: Wardrobe) -> list[Rod]:
    levels = [(rim + 0.5 * BORDER, BORDER), *((rim - (row + 0.5) * ROW, ROW) for row in range(3))]
    return [
        Rod(
            np.array([[middle - half, level, -0.3 * number], [middle + half, level, -0.3 * number]]),
            thick * 0.96,
            clothes.stakes,
            (True, True),
            name="rim",
        )
        for number, (level, thick) in enumerate(levels)
    ]


def _bows_measures(plate: Plate, made: Swinging, where: tuple[float, float, float, float]) -> None:
    worked, em = made.worked, plate.em
    span, rise = Length(worked.span_mm), Length(worked.rise_mm)
    middle, rim, half, scale = where
    top = rim + max(z for _, z in worked.curve) * scale
    along = message("figure-handle.along-arch", bow=Length(worked.bow_mm.value))
    plate.text(middle, top + 1.6 * em, plate.say(along))
    level = rim + made.ear.hole_up_mm * scale
    room = 2 * half - made.ear.width.value * scale
    words = plate.say(message("figure-handle.hole-to-hole", span=span))
    plate.dimension(
        (middle - half, level + 1.6 * em),
        (middle + half, level + 1.6 * em),
        words if plate.wide(words) < room else plate.options.measure(span.mm),
    )
    x = middle + half + max(made.ear.width.value * scale / 2, 2.0) + 2.5
    inner = rim + worked.rise_mm * scale
    plate.dimension((x, rim), (x, inner), "", offset=0.0)
    plate.paragraph(
        x + 0.6 * em,
        (rim + inner) / 2 + 0.6 * em,
        plate.say(message("figure-handle.rise", rise=rise)),
        plate.width - x - em,
    )
    for side, number in zip((-1.0, 1.0), worked.feet_at[:2], strict=False):
        anchor: Anchor = "end" if side < 0 else "start"
        away = made.ear.width.value * scale / 2 + 1.5
        plate.text(
            middle + side * (half + away),
            rim - 3 * ROW - 1.3 * em,
            plate.say(message("figure-handle.at-stake", number=number)),
            anchor,
            bold=True,
        )
    hanging = level + (top - level) * math.cos(math.radians(worked.laid_degrees)) - 1.4 * em
    words = plate.say(message("figure-handle.hanging", several=worked.spec.count > 1, laid=_laid(made)))
    plate.text(middle, min(hanging, rim - 3 * ROW - 3.0 * em), words, italic=True)
