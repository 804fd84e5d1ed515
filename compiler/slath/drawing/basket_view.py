"""The finished basket seen a little from above: its own strands, stakes, border and handle, shaded, back to front."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from slath.basket.border_ends import makes
from slath.basket.border_stakes import border_units
from slath.basket.model import Basket, WorkedBorder, WorkedWrap
from slath.drawing.base_course import BaseCourse
from slath.drawing.border_course import BorderCourse, border_course
from slath.drawing.curves import Numbers, catmull_rom, eased, resample, travelled
from slath.drawing.dress import Dress, dress
from slath.drawing.frame_course import frame_strands
from slath.drawing.options import Options
from slath.drawing.plans import curve_points, lies_on_top
from slath.drawing.plate import Plate
from slath.drawing.rods import Brush, Rod
from slath.drawing.scene import Scene
from slath.drawing.side import rows_high, stake_places
from slath.drawing.surface import Surface, flat_surface, round_at, stake_fractions, surface_of
from slath.drawing.tones import lightness, with_lightness
from slath.drawing.wall import Lay, strand_lines, sunk, wedge_after
from slath.drawing.wardrobe import Wardrobe
from slath.language.pattern import Frame

_GROUND = "#e4e0d8"
EDGE_LINE_MM = 0.9  # the line between two turns of a lapping, of the basket's own measure


@dataclass(frozen=True, slots=True)
class View:
    """An orthographic eye: turned `azimuth` round the basket and `elevation` above the table, degrees; page scale."""

    azimuth: float
    elevation: float
    scale: float = 1.0
    x: float = 0.0
    y: float = 0.0

    def page(self, points: Numbers) -> Numbers:
        """Space points (n, 3) as page x, y and depth to the eye."""
        a, e = math.radians(self.azimuth), math.radians(self.elevation)
        across = points[:, 0] * math.cos(a) - points[:, 1] * math.sin(a)
        away = points[:, 0] * math.sin(a) + points[:, 1] * math.cos(a)
        up = points[:, 2]
        return np.column_stack([
            self.x + across * self.scale,
            self.y + (up * math.cos(e) + away * math.sin(e)) * self.scale,
            (up * math.sin(e) - away * math.cos(e)) * self.scale,
        ])  # fmt: skip

    def wall_light(self, normals: Numbers) -> Numbers:
        """Brightness of a wall by its outward normal: light from the upper left front; the inside lies in shade."""
        right, away = self._turned(normals)
        outside = np.clip(0.5 - 0.30 * right - 0.24 * away, 0.12, 1.0)
        inside = 0.24 + 0.18 * right
        return np.asarray(-0.44 + 0.54 * np.where(away > 0.05, inside, outside))

    def rim_light(self, normals: Numbers) -> Numbers:
        """Brightness of a rim: more even, since its rods turn to the light in every direction."""
        right, away = self._turned(normals)
        return np.asarray(-0.44 + 0.54 * np.clip(0.68 - 0.2 * right - 0.14 * away, 0.2, 1.0))

    def _turned(self, normals: Numbers) -> tuple[Numbers, Numbers]:
        a = math.radians(self.azimuth)
        right = normals[:, 0] * math.cos(a) - normals[:, 1] * math.sin(a)
        away = normals[:, 0] * math.sin(a) + normals[:, 1] * math.cos(a)
        return right, away


@dataclass(frozen=True, slots=True)
class _Strand:
    """A rod in space, not yet seen: points (n, 3), real diameter, dress, brightness (n,), shown ends."""

    points: Numbers
    diameter: float
    look: Dress
    light: Numbers
    ends: tuple[bool, bool] = (False, False)
    name: str = ""


def draw_view(basket: Basket, clothes: Wardrobe, options: Options) -> Scene:
    """The finished basket."""
    view = _view(basket)
    strands = list(_all_strands(basket, clothes, view))
    seen = np.vstack([*(view.page(strand.points) for strand in strands), view.page(_shadow(basket))])
    low, high = seen.min(axis=0), seen.max(axis=0)
    margin = 2.0
    scale = min(
        (options.width_mm - 2 * margin - 4.0) / (high[0] - low[0]), min(options.tallest_mm, 125.0) / (high[1] - low[1])
    )
    x = options.width_mm / 2 - scale * (low[0] + high[0]) / 2
    y = margin + 3.0 - scale * low[1]
    view = replace(view, scale=scale, x=x, y=y)
    plate = Plate(options.width_mm, scale * (high[1] - low[1]) + 2 * margin + 3.0, options)
    _ground(plate, basket, view)
    rods = [
        Rod(view.page(strand.points), strand.diameter * scale, strand.look, strand.ends, strand.light, strand.name)
        for strand in strands
    ]
    plate.rods(rods, _brush(min(rod.diameter for rod in rods)), name="basket")
    return plate.scene(
        "view", "The finished basket", _words(basket, options), seen_from="the front and a little above",
        caption="The finished basket, drawn from its own strands.",
    )  # fmt: skip


def _brush(thin: float) -> Brush:
    """The brush for a basket whose thinnest rod is so wide on the page: fine ones take fewer points and no marks."""
    return Brush(
        gap=0.0,
        edge=0.2 if thin < 1.3 else 0.24,
        highlight=thin > 0.7,
        shade=False,
        rings=None if thin > 0.7 else 1e6,
        near=0.78,
        pixel=float(np.clip(0.17 * thin, 0.1, 0.3)),
        touching=False,
        step=0.55 if thin > 0.7 else 0.6,
        tolerance=0.045,
    )


def _view(basket: Basket) -> View:
    outline = basket.base.spec.outline
    longish = outline.length_mm > 1.15 * outline.width_mm
    height = basket.profile.height_mm if basket.profile else 0.0
    flat = height < 0.35 * outline.width_mm
    if basket.profile is None:
        return View(azimuth=20.0, elevation=48.0)
    return View(azimuth=38.0 if longish or basket.handles else 20.0, elevation=34.0 if flat else 27.0)


def _all_strands(basket: Basket, clothes: Wardrobe, view: View) -> Iterator[_Strand]:
    yield from _floor(basket, clothes)
    if not basket.stakes:
        return
    fractions = stake_fractions(basket)
    if basket.profile is None:  # a mat: its stakes lie flat, and turn into the border at its edge
        surface = flat_surface(basket.base.edge)
        yield from _uprights(basket, clothes, view, surface, fractions)
        return
    surface = surface_of(basket.profile)
    yield from _wall(basket, clothes, view, surface, fractions)
    yield from _uprights(basket, clothes, view, surface, fractions)
    for number, _ in enumerate(basket.handles):
        yield from _handle(basket, number, clothes, surface)


# -------------------------------------------------------------------------------------------------------------- floor
def _floor(basket: Basket, clothes: Wardrobe) -> Iterator[_Strand]:
    base = basket.base
    materials = basket.pattern.materials
    if isinstance(base.spec, Frame):
        yield from _frame_floor(basket, clothes)
        return
    if base.slath is None:
        return
    stick = max(materials[item.material].width_mm for item in base.sticks)
    widths = [materials[key].width_mm for band in base.bands for rod in band.materials for key in rod] or [2.5]
    course = BaseCourse(base, stick, sum(widths) / len(widths))
    shade = -0.30 if basket.profile else -0.05
    for item in base.sticks:
        line = course.stick_line(item, -3.0 if basket.profile or basket.border else 4.0)
        lift = (0.6 if lies_on_top(item, base.sticks) else 0.95) * stick  # the maker's side lies below
        points = np.column_stack([line, np.full(len(line), lift)])
        yield _Strand(
            points, 0.95 * stick, clothes.sticks, np.full(len(line), shade), (True, True), f"stick {item.number}"
        )
    for strand in course.strands():
        points = strand.points * np.array([0.97, 0.97, -1.0]) + np.array([0.0, 0.0, 0.6 * stick])
        yield _Strand(
            points, course.strand * 0.98, clothes.weaver(strand.material), np.full(len(points), shade), name="floor"
        )


def _frame_floor(basket: Basket, clothes: Wardrobe) -> Iterator[_Strand]:
    base, materials = basket.base, basket.pattern.materials
    stick = max(materials[item.material].width_mm for item in base.sticks)
    for item in base.sticks:
        lift = (0.2 if item.over else 0.6) * stick
        points = np.array([(*item.start, lift), (*item.finish, lift)])
        yield _Strand(points * np.array([0.98, 0.98, 1.0]), stick, clothes.sticks, np.full(2, -0.25), name="stick")
    for course in frame_strands(base, stick):
        width = materials[course.material].width_mm
        points = course.points * np.array([0.97, 0.97, -1.0]) + np.array([0.0, 0.0, 0.6 * stick])
        yield _Strand(points, width, clothes.weaver(course.material), np.full(len(points), -0.25), name="floor")


def _shadow(basket: Basket) -> Numbers:
    """The outline of the shadow on the table, a little larger than the base and away from the light."""
    edge = curve_points(basket.base.edge, 120)
    large = max(float(np.abs(edge).max()), 1.0)
    grown = edge * (1 + 0.06 + 8.0 / large) + np.array([0.05 * large, -0.02 * large])
    return np.column_stack([grown, np.full(len(grown), -4.0)])


def _ground(plate: Plate, basket: Basket, view: View) -> None:
    """A quiet shadow on the table, and the floor of a board."""
    edge = curve_points(basket.base.edge, 120)
    plate.area(view.page(_shadow(basket)), fill=_GROUND)
    if basket.base.slath is None and not isinstance(basket.base.spec, Frame):
        floor = view.page(np.column_stack([edge, np.zeros(len(edge))]))
        plate.area(floor, fill="#bda579")


# --------------------------------------------------------------------------------------------------------------- wall
def _wall(basket: Basket, clothes: Wardrobe, view: View, surface: Surface, fractions: Numbers) -> Iterator[_Strand]:
    materials = basket.pattern.materials
    stake = _stake_mm(basket)
    wedge = 0.0
    wedges = []
    for band in basket.bands:
        wedges.append(wedge)
        if not (band.spec.weave.twined and len(band.rounds) <= 3):
            wedge = wedge_after(band, band.pitch.value, wedge)
    squeeze = surface.along / (surface.along + 0.5 * wedge)
    for band, below in zip(basket.bands, wedges, strict=True):
        if not band.rounds or not band.materials:
            continue
        pitch = band.pitch.value
        strand = pitch / rows_high(band)
        widths = [materials[key].width_mm for rod in band.materials for key in rod]
        width = min(sum(widths) / len(widths) * 1.1, strand)
        # Two or three rounds of a twined weave are stepped up by hand whatever they are called: they join up level.
        level = band.spec.weave.twined and len(band.rounds) <= 3
        shown = replace(band, spec=replace(band.spec, step_up=True)) if level else band
        thick = max(materials[key].thickness_mm for rod in band.materials for key in rod)
        for line in strand_lines(shown, Lay(stake, width, pitch, thick), below, samples=7):
            places = stake_places(band, line.at) + (band.start - 1 + band.lead)
            low = _sunk(basket, band.index, places)
            points, normals = surface.at(
                round_at(fractions, places), (band.from_mm + line.height - low) * squeeze, line.depth
            )
            yield _Strand(
                points,
                width,
                _seen_whole(clothes.weaver(line.material)),
                view.wall_light(normals),
                name=f"{band.index} rod {line.rod}",
            )


def _sunk(basket: Basket, bands: int, places: Numbers) -> Numbers:
    """How much lower the weaving lies at places over the first `bands`, where rows of packing end short of them."""
    below = basket.bands[:bands]
    return sunk(below, [band.pitch.value for band in below], places)


def _seen_whole(look: Dress) -> Dress:
    """A dress for the whole basket: a line down every strand would be all one saw."""
    return replace(look, marks="none") if look.marks == "centre line" else look


def _stake_mm(basket: Basket) -> float:
    return basket.pattern.materials[basket.stakes[0].material].width_mm


# -------------------------------------------------------------------------------------------------- stakes and border
def _uprights(basket: Basket, clothes: Wardrobe, view: View, surface: Surface, fractions: Numbers) -> Iterator[_Strand]:
    border = basket.border if basket.border and basket.border.closes and basket.border.passes else None
    stake = _stake_mm(basket)
    course = border_course(border.spec) if border else None
    taken = border_units(basket, border)
    in_border = {index for members in taken for index in members}
    for index in range(len(basket.stakes)):
        if index not in in_border:  # a corner post, or an end that goes elsewhere
            low = _sunk(basket, len(basket.bands), np.array([index + 0.5]))
            points, normals, rim = _upright(surface, float(fractions[index]), None, 0, taken, fractions, stake, low)
            wide = basket.pattern.materials[basket.stakes[index].material].width_mm
            yield _Strand(
                points,
                wide * 0.98,
                clothes.upright(index),
                view.wall_light(normals),
                (False, True),
                f"stake {index + 1}",
            )
    for unit, members in enumerate(taken):
        for place, index in enumerate(members):
            middle = fractions[index]
            turned = border is None or (
                makes(border, basket.stakes[index]) and (not border.spec.cut_to_one or place == 0)
            )
            crest = _crest(course, stake, place, len(members)) if course and turned else None
            if crest is not None and border is not None and border.spec.loop_height_mm is not None:
                crest = _loop(border, border.spec.loop_height_mm, stake)
            each = len(fractions) / len(taken)
            along = np.zeros(1) if crest is None else crest[:, 0]
            low = _sunk(basket, len(basket.bands), (unit + 0.5 + along) * each)
            points, normals, rim = _upright(surface, float(middle), crest, unit, taken, fractions, stake, low)
            light = np.where(rim, view.rim_light(normals), view.wall_light(normals))
            look = clothes.sticks if basket.stakes[index].kind == "through" else clothes.upright(index)
            yield _Strand(points, stake * 0.98, look, light, (False, True), f"stake {index + 1}")


def _crest(course: BorderCourse, stake: float, place: int, together: int) -> Numbers:
    """The border part of a stake: stakes along, mm inwards, mm above the weaving; twins lie side by side."""
    line = catmull_rom(course.knots(len(course.legs), trimmed=True)[3:], 5)
    beside = (place - (together - 1) / 2) * 0.7
    return np.column_stack([line[:, 0], line[:, 1] * stake, (line[:, 2] + beside) * stake])


def _loop(border: WorkedBorder, high: float, stake: float) -> Numbers:
    """A loop that stands up over the rim: stakes along, mm inwards, mm above the weaving."""
    turn = np.linspace(0.0, math.pi, 25)
    past = len(border.passes[0].visits)
    along = past * (1 - np.cos(turn)) / 2
    return np.column_stack([along, 1.1 * stake * np.sin(turn), (high - stake) * np.sin(turn)])


def _upright(
    surface: Surface,
    middle: float,
    crest: Numbers | None,
    unit: int,
    taken: list[list[int]],
    fractions: Numbers,
    stake: float,
    low: Numbers,
) -> tuple[Numbers, Numbers, Numbers]:
    """Points, normals and whether each is rim, of one stake from the base to its end; the weaving stands `low` lower there."""
    top = surface.along - (0.4 * stake if crest is not None else -1.5 * stake) - float(low[0])
    ways = np.linspace(min(stake, 0.5 * surface.along), max(top, 0.6 * surface.along), 18)
    up, up_normals = surface.at(np.full(len(ways), middle), ways, np.zeros(len(ways)))
    if crest is None:
        return up, up_normals, np.zeros(len(ways), bool)
    units = np.array([float(np.mean(fractions[members])) for members in taken])
    around = round_at(units, unit + 0.5 + crest[:, 0])
    over, over_normals = surface.at(around, surface.along - low + 0.5 * stake + crest[:, 2], -crest[:, 1])
    rim = np.concatenate([ways > surface.along - 2 * stake, np.ones(len(crest), bool)])
    return np.vstack([up, over]), np.vstack([up_normals, over_normals]), rim


# ------------------------------------------------------------------------------------------------------------- handle
def _handle(basket: Basket, number: int, clothes: Wardrobe, surface: Surface) -> Iterator[_Strand]:
    worked = basket.handles[number]
    material = basket.pattern.materials[worked.spec.material]
    thick = material.thickness_mm
    stake = _stake_mm(basket)
    by_number = {item.number: item.u for item in basket.standing}
    feet = [by_number[place] for place in worked.feet_at if place in by_number]
    if worked.spec.kind == "ring":
        for place in feet:
            line = _hanging_ring(surface, place, worked.curve, stake + thick)
            yield _Strand(line, thick, clothes.wood, np.full(len(line), -0.02), name="handle")
        return
    if len(worked.curve) < 3:
        return
    for one, other in zip(feet[::2], feet[1::2], strict=False):
        line = _bow(surface, one, other, worked.curve, worked.foot_mm.value, stake + thick / 2)
        even = resample(line, 3.0)[0]
        way = travelled(even)
        foot = min(worked.foot_mm.value, 0.4 * way[-1])
        hidden = any(wrap.spec.kind == "lapping" and wrap.spec.strands for wrap in worked.wraps)
        for bare in (way < foot, way > way[-1] - foot) if hidden else (way >= 0,):
            yield _Strand(
                even[bare], thick, clothes.wood, np.full(int(bare.sum()), -0.02), (not hidden, not hidden), "handle"
            )
        if worked.wraps:
            yield from _wrapped(basket, number, clothes, even, thick, foot)


def _hanging_ring(surface: Surface, place: float, curve: Sequence[tuple[float, float]], out: float) -> Numbers:
    """A ring hung on the rim outside, in the plane of the wall."""
    at, ahead = (surface.at(np.array([u]), np.array([surface.along]), out)[0][0] for u in (place, place + 0.005))
    along = (ahead - at) / np.linalg.norm(ahead - at)
    flat = np.array(curve)
    drop = flat[:, 1] - flat[:, 1].max()
    return np.asarray(at + along * flat[:, :1] + np.array([0.0, 0.0, 1.0]) * drop[:, None])


def _bow(
    surface: Surface, one: float, other: float, curve: tuple[tuple[float, float], ...], foot: float, inwards: float
) -> Numbers:
    """The bow's own curve set on the rim between two feet, with its legs down inside the wall."""
    depth = np.linspace(max(surface.along - foot, 0.0), surface.along, 12)
    clear = inwards * eased(depth, surface.along - 22.0, surface.along - 4.0)  # lower down it stands among the weaving
    legs = [surface.at(np.full(len(depth), place), depth, -clear)[0] for place in (one, other)]
    a, b = legs[0][-1], legs[1][-1]
    flat = np.array(curve)
    share = (flat[:, 0] - flat[0, 0]) / (flat[-1, 0] - flat[0, 0])
    arch = a + (b - a) * share[:, None] + np.column_stack([np.zeros(len(flat)), np.zeros(len(flat)), flat[:, 1]])
    return np.vstack([legs[0], arch[1:-1], legs[1][::-1]])


def _wrapped(
    basket: Basket, number: int, clothes: Wardrobe, line: Numbers, thick: float, foot: float
) -> Iterator[_Strand]:
    """What is wound round the bow between its feet: lapping as a covering, rope strand by strand."""
    for wrap in basket.handles[number].wraps:
        if not wrap.spec.strands:
            continue
        if wrap.spec.kind == "lapping":
            yield from _lapped(basket, wrap, clothes, line, thick, foot)
            continue
        keys = wrap.spec.strands
        width = basket.pattern.materials[keys[0]].width_mm
        lay = wrap.spec.lay_mm or max(
            math.pi * (thick + width) / math.tan(math.radians(max(wrap.angle_degrees, 5.0))), 2 * width
        )
        spread = wrap.spec.cover == "full" and not wrap.spec.listed
        total = max(len(keys), min(round(wrap.strands.value), 24)) if spread else len(keys)
        for strand in range(total):
            shift = strand / total if spread else strand * width * 1.2 / lay
            around, inside = _helix(line, (thick + width) / 2, lay, shift, foot)
            look = clothes.weavers.get(keys[strand % len(keys)]) or clothes.others[keys[strand % len(keys)]]
            yield _Strand(around, width, replace(look, marks="none"), np.full(inside, 0.0), name="wrap")


def _lapped(
    basket: Basket, wrap: WorkedWrap, clothes: Wardrobe, line: Numbers, thick: float, foot: float
) -> Iterator[_Strand]:
    """Flat material wound edge to edge: the bow that much thicker, and the line of every edge across it."""
    key = wrap.spec.strands[0]
    material = basket.pattern.materials[key]
    look = clothes.weavers.get(key) or clothes.others[key]
    covered = thick + 2 * material.thickness_mm
    way = travelled(line)
    inside = (way > foot * 0.85) & (way < way[-1] - foot * 0.85)
    yield _Strand(line[inside], covered, replace(look, marks="none"), np.zeros(int(inside.sum())), name="wrap")
    edge = with_lightness(look.tones.body, lightness(look.tones.body) - 45)
    around, points = _helix(line, covered / 2, material.width_mm, 0.0, foot)
    yield _Strand(around, EDGE_LINE_MM, dress(edge), np.zeros(points), name="wrap")


def _helix(line: Numbers, radius: float, lay: float, shift: float, foot: float) -> tuple[Numbers, int]:
    """Points of a strand wound round the bow at a lay, from foot to foot, and how many they are."""
    fine = resample(line, min(1.4, lay / 16))[0]
    way = travelled(fine)
    inside = (way > foot * 0.85) & (way < way[-1] - foot * 0.85)
    along = np.gradient(fine, axis=0)
    along /= np.linalg.norm(along, axis=1)[:, None]
    level = np.cross(along, np.array([0.0, 0.0, 1.0]))
    level = np.where(np.linalg.norm(level, axis=1)[:, None] > 0.05, level, level.mean(axis=0))
    level /= np.linalg.norm(level, axis=1)[:, None]
    upright = np.cross(along, level)
    phase = 2 * math.pi * (way / lay + shift)
    around = fine + radius * (level * np.cos(phase)[:, None] + upright * np.sin(phase)[:, None])
    return around[inside], int(inside.sum())


# -------------------------------------------------------------------------------------------------------------- words
def _words(basket: Basket, options: Options) -> str:
    outline = basket.base.spec.outline
    kind = {"circle": "round", "ellipse": "oval", "stadium": "long round-ended"}.get(outline.shape, "rectangular")
    bands = [band.spec.weave.label for band in basket.bands if band.rounds]
    listed = ", then ".join(dict.fromkeys(bands))
    said = [f"A{'n' if kind == 'oval' else ''} {kind} basket with {len(basket.stakes)} {options.term('stakes')}"]
    if listed:
        said.append(f"woven in {listed}")
    if basket.border:
        said.append("with a turned-down border" if basket.border.closes else "with its border to come")
    if basket.handles:
        said.append(f"and a {basket.handles[0].spec.kind} handle")
    return ", ".join(said) + "."
