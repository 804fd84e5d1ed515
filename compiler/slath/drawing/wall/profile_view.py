"""The basket cut across the middle: its shape with heights standing and along the slope, and each band's place."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Basket, Profile, WovenBand
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers, left_normals, thinned
from slath.drawing.paint.wardrobe import Wardrobe, wardrobe
from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width
from slath.drawing.plate.plans import fitting_ratio, scale_said, side_of
from slath.drawing.plate.plate import FINE, Plate
from slath.drawing.scene import Scene
from slath.drawing.wall.profile_ends import (
    FOOT_BORDER,
    LEGS,
    Part,
    base_mm,
    border_face,
    border_part,
    foot_parts,
    lid_level,
    lid_part,
)
from slath.drawing.wall.profile_measures import (
    Section,
    across_said,
    dip_of,
    level_room,
    measures,
    name_parts,
    placed_names,
    wall_line,
    widths,
)
from slath.drawing.wall.side import rows_high
from slath.drawing.wall.strands import Lay, strand_lines
from slath.messages import Length, Listed, Message, Value, message
from slath.wording.band_names import band_said

_DOMED = 25  # points along a base that is domed
_LEAST_DOT = 0.62  # mm across, the smallest strand drawn as a ring with its own colour


def draw_profile(basket: Basket, clothes: Wardrobe, options: Options) -> Scene:
    """Section through the width with its measures."""
    profile = side_of(basket)
    em = options.text_pt * POINT_MM
    widest = max(profile.outline_at(share * profile.height_mm).width_mm for share in np.linspace(0, 1, 17).tolist())
    parts = [(options.say(message("figure-wall.band", name=said)), low, high) for said, low, high in _parts(basket)]
    labels = [label for label, _, _ in parts]
    longest = max((word_width(label, options.text_pt) for label in labels), default=0.0)
    left, right = 4.2 * em, min(longest, 9.0 * em) + 2.8 * em
    if basket.lid:
        widest = max(widest, basket.lid.basket.base.edge.outline.width_mm, basket.lid.basket.rim.outline.width_mm)
    below = max((-low for _, low, _ in parts), default=0.0)
    above = max((top for _, _, top in parts), default=0.0) - profile.height_mm
    tall = below + profile.height_mm + above
    ratio = fitting_ratio(widest, tall, options.width_mm - left - right, options.tallest_mm - 12 * em)
    dip, middle = dip_of(profile, options, profile.height_mm / ratio), left + (options.width_mm - left - right) / 2
    under, over = (
        1.2 * (len(in_lines(words, level_room(middle, options), options.text_pt)) - 1) * em
        for words in widths(basket, options)
    )
    section = Section(1 / ratio, middle, dip + under + 5.4 * em + below / ratio)
    names = placed_names(options, section, basket, parts, above)
    high = max(tall / ratio + 2 * dip + under + over + 10.6 * em, names.firsts[-1] + em)
    plate = Plate(options.width_mm, high, options)
    _floor(plate, section, basket, clothes)
    _walls(plate, section, basket, clothes)
    _ends(plate, section, basket, clothes)
    measures(plate, section, basket, (below, above))
    name_parts(plate, names)
    plate.text(0.4, 0.9 * em, plate.say(scale_said(ratio)), "start", colour=plate.quiet)
    return plate.scene(
        "profile", message("figure-wall.shape-title"), _words(basket),
        seen_from=message("figure-wall.shape-seen-from"),
        caption=message("captions.the-basket-cut-across-the", scale=scale_said(ratio)),
        data={"scale": section.scale, "height_mm": profile.height_mm, "along_mm": profile.along_mm},
    )  # fmt: skip


def _floor(plate: Plate, section: Section, basket: Basket, clothes: Wardrobe) -> None:
    """The base cut through: a stick with the weaving over it, or a board."""
    outline = basket.base.spec.outline
    half = outline.width_mm / 2
    thick = base_mm(basket)
    look = clothes.sticks if basket.base.sticks else clothes.wood
    crown = getattr(basket.base.spec, "crown_mm", 0.0) * np.sign(section.up)  # a lid is domed away from its inside
    across = np.linspace(-half, half, _DOMED if crown else 2)
    rise = (crown * (1.0 - (across / half) ** 2)).tolist()
    lower = [section.at(x, y - thick) for x, y in zip(across.tolist(), rise, strict=True)]
    upper = [section.at(x, y) for x, y in zip(across.tolist(), rise, strict=True)]
    plate.area([*lower, *reversed(upper)], look.tones.body, plate.ink, 0.3)


def _ends(plate: Plate, section: Section, basket: Basket, clothes: Wardrobe) -> None:
    """The border, the foot and the lid."""
    stake = basket.pattern.materials[basket.stakes[0].material].width_mm if basket.stakes else 3.0
    border = border_part(basket)
    if border and basket.border:
        _cut_border(plate, section, border_face(basket.border, border, basket.rim.outline.width_mm / 2, stake), clothes)
    half = (basket.base.hole_line or basket.base.edge).outline.width_mm / 2
    for part in foot_parts(basket):
        if part.said == LEGS:
            _legs(plate, section, part, (half, stake), clothes)
        elif basket.foot and part.said == FOOT_BORDER:
            _cut_border(plate, section, border_face(basket.foot, part, half, stake), clothes)
        else:
            _foot_weaving(plate, section, part, (half, stake), clothes)
    lid = basket.lid
    if lid is not None:
        turned = replace(section, level=section.at(0.0, lid_level(basket, lid))[1], up=-1.0)
        dressed = wardrobe(lid.basket)
        _floor(plate, turned, lid.basket, dressed)
        if lid.basket.profile is not None:
            _walls(plate, turned, lid.basket, dressed)
            _ends(plate, turned, lid.basket, dressed)


def _cut_border(plate: Plate, section: Section, face: Numbers, clothes: Wardrobe) -> None:
    """A border cut through at both walls."""
    for side in (-1.0, 1.0):
        points = [section.at(side * half, height) for half, height in face.tolist()]
        plate.area(points, clothes.stakes.tones.shade, plate.ink, 0.25)


def _legs(plate: Plate, section: Section, part: Part, wall: tuple[float, float], clothes: Wardrobe) -> None:
    """The ends that stand out below the base, one at each wall."""
    half, stake = wall
    for side in (-1.0, 1.0):
        middle = side * half
        (x0, y0), (x1, y1) = section.at(middle - stake / 2, part.low), section.at(middle + stake / 2, part.high)
        plate.area([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], clothes.stakes.tones.body, plate.ink, FINE)


def _foot_weaving(plate: Plate, section: Section, part: Part, wall: tuple[float, float], clothes: Wardrobe) -> None:
    """The stakes below the base between the weaving of the foot, cut through."""
    half, stake = wall
    for side in (-1.0, 1.0):
        for left, right, tone in ((-1.5, 1.5, clothes.stakes.tones.shade), (-0.5, 0.5, clothes.stakes.tones.body)):
            (x0, y0), (x1, y1) = (
                section.at(side * (half + way * stake), at) for way, at in ((left, part.low), (right, part.high))
            )
            plate.area([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], tone, plate.ink, FINE)


def _walls(plate: Plate, section: Section, basket: Basket, clothes: Wardrobe) -> None:
    profile = side_of(basket)
    line = wall_line(profile)
    stake = basket.pattern.materials[basket.stakes[0].material].width_mm if basket.stakes else 3.0
    cuts = list(_cuts(basket, stake))
    for side in (-1.0, 1.0):
        page = np.array([section.at(side * half, height) for half, height in line.tolist()])
        wide = max(stake * section.scale, 0.9)
        normals = left_normals(page)
        shape = np.vstack([page + normals * wide / 2, (page - normals * wide / 2)[::-1]])
        by_colour: dict[str, list[Numbers]] = {}
        for cut in cuts:
            half, height, (out_x, out_y) = _on_wall(profile, cut.band, cut.way)
            reach = cut.out + np.sign(cut.out) * max(0.0, wide / section.scale - stake) / 2
            middle = section.at(side * (half + reach * out_x), height + reach * out_y)
            outline = _cut_face(
                middle, (side * out_x, section.up * out_y), cut.wide * section.scale / 2, cut.thick * section.scale / 2
            )
            by_colour.setdefault(clothes.weaver(cut.material).tones.body, []).append(outline)
        # Below a printable size cut strands are only their bodies, without outlines.
        drawn = min((min(cut.wide, cut.thick) for cut in cuts), default=1.0) * section.scale >= _LEAST_DOT
        for colour, outlines in by_colour.items():
            plate.areas(outlines, colour, plate.ink if drawn else None, FINE)
        plate.area(thinned(shape, 0.02), clothes.stakes.tones.body, plate.ink, 0.25)


def _cut_face(middle: tuple[float, float], outwards: tuple[float, float], along: float, thick: float) -> Numbers:
    """A strand cut across: an ellipse as long as it is wide along the wall, at least a quarter of a mm each way."""
    turns = np.linspace(0, 2 * np.pi, 13)[:-1]
    out = np.array(outwards)
    up = np.array([-out[1], out[0]])
    r_along, r_out = max(along, 0.25), max(thick, 0.25)
    return np.asarray(np.array(middle) + np.outer(np.cos(turns), out) * r_out + np.outer(np.sin(turns), up) * r_along)


class _Cut(Struct, frozen=True):
    """A strand cut at the first stake: how far up its band, mm outwards of the wall, its material, width, thickness."""

    band: WovenBand
    way: float
    out: float
    material: str
    wide: float
    thick: float


def _cuts(basket: Basket, stake: float) -> Iterator[_Cut]:
    """Every strand of every band where it passes the first stake."""
    for band in basket.bands:
        if not band.rounds or not band.materials:
            continue
        wide = band.pitch.value / rows_high(band)
        thick = {key: basket.pattern.materials[key].thickness_mm for rod in band.materials for key in rod}
        for line in strand_lines(band, Lay(stake, wide, band.pitch.value, max(thick.values())), samples=8):
            for lap in range(len(band.rounds) + 1):
                place = lap * band.uprights + 0.5
                if line.at[0] <= place <= line.at[-1]:
                    way = float(np.interp(place, line.at, line.height))
                    out = float(np.interp(place, line.at, line.depth))
                    if way <= band.reached_mm:
                        yield _Cut(band, way, out, line.material, wide, min(thick[line.material], wide))


def _on_wall(profile: Profile, band: WovenBand, way: float) -> tuple[float, float, tuple[float, float]]:
    """Half width, height and outward direction of the section at a way up a band."""
    along = min(band.from_mm + way, profile.along_mm)
    height = profile.height_of(along)
    half = profile.outline_at(height).width_mm / 2
    step = max(profile.height_mm * 0.01, 0.1)
    low, high = max(height - step, 0.0), min(height + step, profile.height_mm)
    lean = (profile.outline_at(high).width_mm - profile.outline_at(low).width_mm) / 2
    rise = high - low
    long = float(np.hypot(lean, rise)) or 1.0
    return half, height, (rise / long, -lean / long)


def _parts(basket: Basket) -> list[tuple[Value, float, float]]:
    """Every part of the section from the ground up with its label, mm above the base."""
    profile = side_of(basket)
    parts = [(part.said, part.low, part.high) for part in reversed(foot_parts(basket))]
    for band in basket.bands:
        low, high = (profile.height_of(min(way, profile.along_mm)) for way in (band.from_mm, band.to_mm))
        parts.append((_band_label(band), low, high))
    return parts + [(part.said, part.low, part.high) for part in (border_part(basket), lid_part(basket)) if part]


def _band_label(band: WovenBand) -> Message:
    if not band.rounds:
        return message("figure-wall.open", name=band_said(band.name))
    return message("figure-wall.rounds", name=band_said(band.name), count=len(band.rounds))


def _words(basket: Basket) -> Message:
    profile = side_of(basket)
    base, rim = basket.base.spec.outline, profile.outline_at(profile.height_mm)
    parts: list[tuple[Value, float, float]] = []
    for band in basket.bands:
        low, high = (profile.height_of(min(way, profile.along_mm)) for way in (band.from_mm, band.to_mm))
        parts.append((band_said(band.name), low, high))
    parts += [(part.said, part.low, part.high) for part in (border_part(basket), lid_part(basket)) if part]
    told = (message("figure-wall.from-to", name=said, low=Length(low), high=Length(high)) for said, low, high in parts)
    below = (
        message("figure-wall.part-deep", name=part.said, deep=Length(part.high - part.low))
        for part in foot_parts(basket)
    )
    return message(
        "figure-wall.shape-words",
        base=across_said("a-base", base.length_mm, base.width_mm),
        rim=across_said("a-rim", rim.length_mm, rim.width_mm),
        high=Length(profile.height_mm),
        along=Length(profile.along_mm),
        parts=Listed(tuple(told)),
        below=Listed(tuple(below)),
    )
