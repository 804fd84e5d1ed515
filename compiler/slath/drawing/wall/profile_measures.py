"""The measures and the names round a section: standing, along the slope, across base and rim, and what each part is."""

from __future__ import annotations

from typing import Literal

import numpy as np
from msgspec import Struct

from slath.basket.model import Basket, Profile
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers, left_normals, travelled
from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width
from slath.drawing.plate.plans import side_of
from slath.drawing.plate.plate import FINE, Plate, along_curve
from slath.drawing.wall.profile_ends import base_mm
from slath.messages import Length, Message, message

_LEAST_LINE = 1.0  # mm; a shorter piece of a line is left out
_ALIKE = 0.05  # mm by which length and width may differ and be told as one


class Section(Struct, frozen=True):
    """Where the section lies: page mm to one mm, the middle line, the level of the base, and -1 for one upside down."""

    scale: float
    middle: float
    level: float
    up: float = 1.0

    def at(self, half: float, height: float) -> tuple[float, float]:
        """Page place of a point `half` mm right of the middle (negative: left) and `height` up."""
        return self.middle + half * self.scale, self.level + self.up * height * self.scale


def wall_line(profile: Profile, steps: int = 40) -> Numbers:
    """The section of the side at its middle: (half width, height) from base to top."""
    heights = np.linspace(0.0, profile.height_mm, steps + 1)
    return np.array([(profile.outline_at(height).width_mm / 2, height) for height in heights.tolist()])


def measures(plate: Plate, section: Section, basket: Basket, beyond: tuple[float, float]) -> None:
    """The measures; what stands `beyond` the sides, below and above, mm, is left clear."""
    profile = side_of(basket)
    em = plate.em
    base, rim = basket.base.spec.outline, profile.outline_at(profile.height_mm)
    across_base, across_rim = _widths(basket)
    dip = dip_of(profile, plate.options, profile.height_mm * section.scale)
    low = section.level - max(
        max(base_mm(basket), beyond[0]) * section.scale + 1.2 * em, dip + 1.1 * em if dip else 0.0
    )
    a, b = section.at(-base.width_mm / 2, 0.0), section.at(base.width_mm / 2, 0.0)
    _wide_measure(
        plate,
        (a[0], b[0], low),
        plate.measured(message("figure-wall.measure-base"), base.width_mm, across_base),
        above=False,
    )
    c, d = section.at(-rim.width_mm / 2, profile.height_mm), section.at(rim.width_mm / 2, profile.height_mm)
    top = _rim_level(plate.options, section, profile, beyond[1])
    _wide_measure(
        plate,
        (c[0], d[0], top),
        plate.measured(message("figure-wall.measure-rim"), rim.width_mm, across_rim),
        above=True,
    )
    wall = np.array([section.at(-half, height) for half, height in wall_line(profile).tolist()])
    overhang = max(_lid_half(basket) - rim.width_mm / 2, 0.0) * section.scale
    along = message("figure-wall.length", length=Length(profile.along_mm))
    told = plate.measured(message("figure-wall.measure-slope"), profile.along_mm, along)
    named = told if plate.options.lettered else plate.say(message("figure-wall.slope", along=along))
    _slope_measure(plate, wall, 2.0 * em + overhang, (named, told), low)
    high = message("figure-wall.length", length=Length(profile.height_mm))
    told = plate.measured(message("figure-wall.measure-standing"), profile.height_mm, high)
    named = told if plate.options.lettered else plate.say(message("figure-wall.standing", high=high))
    bare = _standing_measure(plate, section, (max(a[0], c[0]), min(b[0], d[0])), (a[1], c[1]), (named, told))
    _centre_line(plate, section.middle, (section.at(0, -2 * base_mm(basket))[1], top - 0.4 * em), bare)


def _centre_line(plate: Plate, x: float, ends: tuple[float, float], bare: tuple[float, float]) -> None:
    """The middle of the section, broken where words stand across it."""
    (low, high), (below, above) = ends, bare
    for foot, head in ((low, min(below, high)), (max(above, low), high)) if above > below else ((low, high),):
        if head - foot > _LEAST_LINE:
            plate.line([(x, foot), (x, head)], FINE, plate.quiet, dash=(3.0, 0.8, 0.6, 0.8))


def _slope_measure(plate: Plate, wall: Numbers, away: float, said: tuple[str, str], lowest: float) -> None:
    """The measure along the left wall, beside it: with its name, or bare. Beside a wall so waisted that a line along it would fold over itself the
    words stand alone.
    """
    em = plate.em
    slope = along_curve(wall, away)
    steps = np.diff(slope, axis=0)
    backwards = (steps * np.diff(wall, axis=0)).sum(axis=1) < 0
    if np.hypot(*steps[backwards].T).sum() > em:
        named, told = said
        words = named if plate.wide(named) < plate.height - lowest - em else told
        long = plate.wide(words)
        level = max(float(wall[:, 1].mean()), lowest + long / 2 + 0.5 * em)
        beside = long < float(np.ptp(wall[:, 1]))  # else clear of the words of base and rim
        plate.text(float(wall[:, 0].min()) - 1.4 * em if beside else 0.9 * em, level, words, turn=90.0)
        return
    plate.line(slope, FINE)
    for place in (0, -1):
        across = left_normals(slope)[place]
        along = np.array([across[1], -across[0]])
        tick = (across + along) * 0.7
        plate.line([slope[place] - tick, slope[place] + tick], 0.4)
    spot, turn, words = _along_words(plate, slope, said, lowest)
    plate.text(spot[0], spot[1], words, turn=turn)


def _along_words(
    plate: Plate, slope: Numbers, said: tuple[str, str], lowest: float
) -> tuple[tuple[float, float], float, str]:
    """Where the measure along the slope stands, its turn, and its words: as near the middle of the line as it has room
    inside the figure and above page y `lowest`, with its name if that fits anywhere; longer than the line, it is moved up
    along it as far as that takes.
    """
    em, middle = plate.em, len(slope) // 2
    nearest = sorted(range(1, len(slope) - 1), key=lambda place: (abs(place - middle), place))
    out = left_normals(slope) * 0.8 * em
    for words in said:
        half = plate.wide(words) / 2
        if 2 * half > travelled(slope)[-1] + 2 * em:
            continue
        for place in nearest:
            (x, y), course = (slope[place] + out[place]).tolist(), slope[place + 1] - slope[place - 1]
            across, up = (np.abs(course) / np.hypot(*course) * half).tolist()
            if x - across > 0.7 * em and y - up > lowest:
                return (x, y), _upwards(course), words
    told, course = said[1], slope[middle + 1] - slope[middle - 1]
    along = course / np.hypot(*course)
    (x, y), (across, up) = (slope[middle] + out[middle]).tolist(), (np.abs(along) * plate.wide(told) / 2).tolist()
    hanging = up + 0.4 * em * abs(along[0])  # of turned letters below their line, and a little air
    needed, leftwards = max(lowest + hanging - y, 0.0) / max(along[1], 0.1), max(-along[0], 0.0)
    room = max(x - across - 0.7 * em, 0.0)
    moved = needed if needed * leftwards <= room else room / leftwards
    return (x + moved * float(along[0]), y + moved * float(along[1])), _upwards(course), told


def _upwards(course: Numbers) -> float:
    """Degrees by which words along a course are turned so that they read upwards, as at the other measures."""
    turn = float(np.degrees(np.arctan2(course[1], course[0])))
    return turn if turn <= 118 else turn - 180


def _standing_measure(
    plate: Plate, section: Section, walls: tuple[float, float], ends: tuple[float, float], said: tuple[str, str]
) -> tuple[float, float]:
    """The standing height inside, with its name or bare: along its line, beside it, or under its name beside it. Returns
    from where to where (page y) its words stand across the middle; from 0 to 0 where they do not.
    """
    em, (left, right), (low, high), (named, words) = plate.em, walls, ends, said
    x = section.middle + 1.6 * em
    lines = in_lines(named, right - left - 2.3 * em, plate.options.text_pt)
    wide = max(plate.wide(line) for line in lines)
    along = next((told for told in said if plate.wide(told) <= high - low), "")
    if not along and (wide + 2.3 * em > right - left or 1.2 * len(lines) * em > high - low + 2.0 * em):
        along = words
    if along:
        x = max(min(x, right - 1.7 * em), left + 0.6 * em)
        plate.dimension((x, low), (x, high), along, above=False)
        return 0.0, 0.0
    x = min(x, right - wide - 1.4 * em)
    if section.middle - 0.9 * em < x < section.middle + 0.9 * em:
        x = section.middle - 0.9 * em
    x = max(x, left + 0.9 * em)
    plate.dimension((x, low), (x, high), "", above=False)
    first = max((low + high) / 2, low + 0.6 * len(lines) * em) + 0.6 * (len(lines) - 1) * em
    for place, line in enumerate(lines):
        plate.text(x + 0.7 * em, first - 1.2 * place * em, line, "start")
    if not x < section.middle < x + 1.2 * em + wide:
        return 0.0, 0.0
    return first - (1.2 * (len(lines) - 1) + 0.7) * em, first + 0.7 * em


def dip_of(profile: Profile, options: Options, high: float) -> float:
    """How far the measure along the slope stands out below and above a wall lower than it is long, mm on the page."""
    return max(0.0, word_width(options.measure(profile.along_mm), options.text_pt) - high) / 2


def level_room(middle: float, options: Options) -> float:
    """Width for words centred at `middle`, mm."""
    return 2 * min(middle, options.width_mm - middle) - 0.8


def widths(basket: Basket, options: Options) -> tuple[str, str]:
    """The sizes of base and rim in words."""
    base, rim = _widths(basket)
    return options.say(base), options.say(rim)


def _widths(basket: Basket) -> tuple[Message, Message]:
    profile = side_of(basket)
    base, rim = basket.base.spec.outline, profile.outline_at(profile.height_mm)
    return across_said("base", base.length_mm, base.width_mm), across_said("rim", rim.length_mm, rim.width_mm)


def _wide_measure(plate: Plate, place: tuple[float, float, float], words: str, *, above: bool) -> None:
    """A level measure from x to x at y, its words in two lines where they are wider than the figure has room for."""
    (left, right, y), em = place, plate.em
    middle = (left + right) / 2
    room = level_room(middle, plate.options)
    lines = in_lines(words, room, plate.options.text_pt)
    plate.dimension((left, y), (right, y), lines[0] if len(lines) == 1 else "", above=above)
    if len(lines) > 1:
        first = y + (0.72 + 1.2 * (len(lines) - 1)) * em if above else y - 0.72 * em
        plate.paragraph(middle, first, words, room, "middle")


def across_said(what: Literal["base", "rim", "a-base", "a-rim"], length: float, width: float) -> Message:
    """One size where it is as long as wide, else both: "rim 9 in across", "base 7 in wide, 10 in long"."""
    alike = abs(length - width) < _ALIKE
    return message(f"figure-wall.width-{what}", width=Length(width), length=None if alike else Length(length))


def _lid_half(basket: Basket) -> float:
    """How far the lid reaches from the middle; nothing without one."""
    return basket.lid.basket.base.edge.outline.width_mm / 2 if basket.lid else 0.0


class Names(Struct, frozen=True):
    """Names of parts in a column at page `x`: for each from where to where it lies (page y), its lines, and the first's y."""

    x: float
    spans: tuple[tuple[float, float], ...]
    lines: tuple[tuple[str, ...], ...]
    firsts: tuple[float, ...]


def placed_names(
    options: Options, section: Section, basket: Basket, parts: list[tuple[str, float, float]], above: float
) -> Names:  # fmt: skip
    """The names of the parts beside the right wall; `above` is what stands over the side, mm."""
    em, profile = options.text_pt * POINT_MM, side_of(basket)
    walls = [half for half, _ in wall_line(profile).tolist()]
    walls += [basket.base.edge.outline.width_mm / 2, _lid_half(basket)]
    x = max(section.at(half, 0.0)[0] for half in walls) + 1.4 * em
    placed = _stacked(options, section, parts, x)
    if placed.firsts[-1] > _rim_level(options, section, profile, above) - 0.6 * em:
        # They would run into the words of the rim: they stand beside those.
        across = in_lines(widths(basket, options)[1], level_room(section.middle, options), options.text_pt)
        level = max(word_width(line, options.text_pt) for line in across)
        placed = _stacked(options, section, parts, max(x, section.middle + level / 2 + 0.6 * em))
    return placed


def _stacked(options: Options, section: Section, parts: list[tuple[str, float, float]], x: float) -> Names:
    """Names from the lowest up, each clear of the one below it."""
    em, firsts, told, highest = options.text_pt * POINT_MM, [], [], -10.0
    spans = [(section.at(0, low)[1], section.at(0, high)[1]) for _, low, high in parts]
    for (name, _, _), (foot, head) in zip(parts, spans, strict=True):
        lines = in_lines(name, options.width_mm - x - 0.8 * em, options.text_pt)
        last = max((foot + head) / 2 - 1.2 * (len(lines) - 1) * em, highest + 1.15 * em)
        highest = last + 1.2 * (len(lines) - 1) * em
        firsts.append(highest)
        told.append(tuple(lines))
    return Names(x, tuple(spans), tuple(told), tuple(firsts))


def name_parts(plate: Plate, names: Names) -> None:
    """The parts beside the right wall: what each is, from where to where."""
    em, x = plate.em, names.x
    for (foot, head), first, told in zip(names.spans, names.firsts, names.lines, strict=True):
        plate.line([(x, foot + 0.2), (x, max(head - 0.2, foot + 0.4))], 0.5)
        plate.line([(x, (foot + head) / 2), (x + 0.5 * em, first)], FINE, plate.quiet)
        for place, line in enumerate(told):
            plate.text(x + 0.7 * em, first - 1.2 * place * em, line, "start")


def _rim_level(options: Options, section: Section, profile: Profile, above: float) -> float:
    """Page y of the measure across the rim, over all that stands `above` the side, mm."""
    dip = dip_of(profile, options, profile.height_mm * section.scale)
    return section.at(0.0, profile.height_mm)[1] + max(above * section.scale, dip) + 1.6 * options.text_pt * POINT_MM
