"""The side unrolled: every strand of every round as it lies, with its colours, letters and marks."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Basket, WovenBand
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.dress import faint
from slath.drawing.paint.layers import Flags
from slath.drawing.paint.rods import SMALL, Rod
from slath.drawing.paint.wardrobe import Wardrobe, described
from slath.drawing.plate.clear import Spot, all_clear, text_spot
from slath.drawing.plate.key import Entry, draw_key, key_height, material_entries, stake_entries
from slath.drawing.plate.lettering import POINT_MM, in_lines
from slath.drawing.plate.letters import rod_letters
from slath.drawing.plate.plans import spread
from slath.drawing.plate.plate import Plate, disc_radius
from slath.drawing.scene import Scene
from slath.drawing.wall.side_stakes import crosses_after, open_height, stake_ways
from slath.drawing.wall.strands import Lay, strand_lines, sunk, wedge_after
from slath.messages import Listed, Message, Own, Value, message
from slath.wording.band_names import band_said
from slath.wording.strokes import weave_name

_LEAST_SPACING = 2.0  # mm between stakes, or strands under a millimetre would have to be drawn
_OVERLAP = 0.13  # mm by which rows share their dark edges
_BROADEST = 2.4  # times the width of the finest strand: broader ones are drawn no broader
_AGAIN = 2  # stakes repeated, faint, after the last


class _Wall(Struct, frozen=True):
    """Where things lie on the page: stakes from `left`, `spacing` apart, `shown` of them; strand width `strand`.

    `head` is how far stakes stand out above the height of the weaving; `broad` how many times as wide as the finest
    weaving the strands of each band are shown.
    """

    left: float
    foot: float
    spacing: float
    shown: int
    strand: float
    whole: bool
    head: float = 3.4
    broad: tuple[float, ...] = ()

    def row(self, band: WovenBand) -> float:
        """Height from one strand of a band to the next; they share their dark edges."""
        return (self.strand - _OVERLAP) * self.broad[band.index]

    @property
    def stake(self) -> float:
        """Stake width on the page."""
        return min(0.9, 0.42 * self.spacing)

    def x(self, stakes: Numbers | float) -> Numbers:
        """Page x of a place counted in stakes from the left of stake 1."""
        return np.asarray(self.left + np.asarray(stakes, float) * self.spacing)


def rows_high(band: WovenBand) -> float:
    """Strand widths one round of a band takes in height."""
    weave = band.spec.weave
    if weave.twined:
        most = max(max(stroke.before, stroke.behind) for stroke in weave.strokes)
        return max(2.0, float(most)) * weave.as_one
    return float((1 if weave.kind == "french rand" else weave.rods) * weave.as_one)


def side_bands(basket: Basket) -> list[WovenBand]:
    """The woven bands of the side, without open spaces."""
    return [band for band in basket.bands if band.rounds and band.materials]


def stake_places(band: WovenBand, uprights: Numbers) -> Numbers:
    """Places counted in working uprights of a band, as places counted in stakes."""
    edges = np.concatenate([[0.0], np.cumsum(band.group_sizes)]) if band.group_sizes else np.arange(band.uprights + 1.0)
    turns = np.floor(uprights / band.uprights)
    within = uprights - turns * band.uprights
    return np.asarray(np.interp(within, np.arange(len(edges)), edges) + turns * edges[-1])


def draw_side(basket: Basket, clothes: Wardrobe, options: Options) -> Scene:
    """The whole side, unrolled and seen from outside."""
    bands = side_bands(basket)
    wall = _laid_out(basket, bands, options)
    heights = _heights(basket, wall)
    woven = material_entries(bands, clothes)
    entries = [*woven, *stake_entries(clothes, woven)]
    wall = replace(wall, foot=_foot_height(basket, entries, options, heights))
    wall = replace(wall, head=_head(bands, wall))
    plate = Plate(
        options.width_mm, wall.foot + heights[-1] + wall.head + 4.2 * options.text_pt * POINT_MM - 1.4, options
    )
    rods = [*_stakes(basket, clothes, wall, heights), *_strands(basket, clothes, wall, heights)]
    last = wall.shown + (_AGAIN if wall.whole else 0)
    clip = (wall.left - 0.1, 0.0, last * wall.spacing + 0.2, plate.height)
    plate.rods(rods, replace(SMALL, pixel=0.18, step=0.6, tolerance=0.035), clip, name="wall")
    _numbers(plate, basket, wall, heights)
    _starts(plate, bands, clothes, wall)
    _lean(plate, basket, wall, heights)
    _key(plate, basket, entries, wall.foot - 2.4 - 2.8 * plate.em, heights)
    return plate.scene(
        "side",
        message("figure-wall.side-title", last=None if wall.whole else _stake_numbers(basket, wall.shown)[-1]),
        _words(basket, clothes),
        seen_from=message("views.outside"),
        caption=message("captions.the-side-cut-at-the"),
        data={"lean": [(band.name, band.steps) for band in bands]},
    )


def _laid_out(basket: Basket, bands: list[WovenBand], options: Options) -> _Wall:
    em = options.text_pt * POINT_MM
    left, right = 3.1 * em, 3.0 * em
    room = options.width_mm - left - right
    count = basket.working
    stakes = sum(bands[0].group_sizes) if bands and bands[0].group_sizes else count
    spacing = room / (stakes + _AGAIN)
    whole = spacing >= _LEAST_SPACING
    shown = stakes if whole else int(room / _LEAST_SPACING)
    spacing = room / (shown + (_AGAIN if whole else 0))
    broad = _broad(basket, min(_BROADEST, max(1.0, 0.85 * min(spacing, 4.5))))
    rows = math.fsum(len(band.rounds) * rows_high(band) * broad[band.index] for band in bands) + 2.0
    strand = float(np.clip(options.tallest_mm / rows + _OVERLAP, 0.82, min(1.25, 0.55 * spacing + 0.35)))
    return _Wall(left, 5.6 * em, min(spacing, 4.5), shown, strand, whole, broad=broad)


def _broad(basket: Basket, most: float) -> tuple[float, ...]:
    """How many times as wide as the finest weaving the strands of each band are, but `most`: for flat and plaited ones to show."""
    materials = basket.pattern.materials
    wide = [
        math.fsum(materials[key].width_mm for rod in band.materials for key in rod)
        / sum(len(rod) for rod in band.materials)
        if band.materials
        else 0.0
        for band in basket.bands
    ]
    finest = min((each for each in wide if each), default=1.0)
    return tuple(min(max(each / finest, 1.0), most) for each in wide)


def _heights(basket: Basket, wall: _Wall) -> list[float]:
    """Page height of the lower edge of each band above the foot of the wall, and of the top."""
    heights = [0.0]
    for band in basket.bands:
        tall = len(band.rounds) * rows_high(band) * wall.row(band) if band.rounds else open_height(basket, band)
        heights.append(heights[-1] + tall)
    return heights


def _head(bands: list[WovenBand], wall: _Wall) -> float:
    """Room above the height of the weaving: a spiral ends a whole round higher than it began."""
    last = bands[-1]
    return 3.4 if last.spec.step_up else max(3.4, rows_high(last) * wall.row(last) + 1.6)


def _stakes(basket: Basket, clothes: Wardrobe, wall: _Wall, heights: list[float]) -> Iterator[Rod]:
    ghost = faint(clothes.stakes)
    ends = wall.foot - 2.4, wall.foot + heights[-1] + wall.head
    levels = [wall.foot + height for height in heights]
    shown = wall.shown + (_AGAIN if wall.whole else 0)
    for place, way in enumerate(stake_ways(basket, shown, levels, ends, wall.stake)):
        points = np.column_stack([wall.x(way[:, 0]), way[:, 1:]])
        look = clothes.upright(place) if place < wall.shown else ghost
        yield Rod(points, wall.stake, look, (False, True), name=f"stake {place + 1}")


def _strands(basket: Basket, clothes: Wardrobe, wall: _Wall, heights: list[float]) -> Iterator[Rod]:
    wedge = 0.0
    for band, foot in zip(basket.bands, heights, strict=False):
        if not band.rounds or not band.materials:
            continue
        pitch = rows_high(band) * wall.row(band)
        lay = Lay(wall.stake, wall.row(band), pitch)
        for line in strand_lines(band, lay, wedge):
            look = clothes.weaver(line.material)
            places = stake_places(band, line.at) + (band.start - 1 + band.lead)
            around = sum(band.group_sizes) if band.group_sizes else band.uprights
            below = basket.bands[: band.index]
            pitches = [rows_high(other) * wall.row(other) for other in below]
            height = line.height - sunk(below, pitches, places)
            for number in range(int(places[0] // around), int(places[-1] // around) + 1):
                part = _stretch(places - number * around, wall)
                if part.sum() > 2:
                    points = np.column_stack(
                        [wall.x(places[part] - number * around), wall.foot + foot + height[part], line.depth[part]]
                    )
                    yield Rod(
                        points, wall.row(band) + _OVERLAP, look, name=f"{band.index} rod {line.rod} round {number + 1}"
                    )
        wedge = wedge_after(band, pitch, wedge)


def _stretch(places: Numbers, wall: _Wall) -> Flags:
    last = wall.shown + (_AGAIN if wall.whole else 0)
    return np.asarray((places >= -0.8) & (places <= last + 0.6))


def _numbers(plate: Plate, basket: Basket, wall: _Wall, heights: list[float]) -> None:
    em, size = plate.em, plate.options.text_pt
    y = wall.foot - 2.4 - 1.7 * em
    numbers = _stake_numbers(basket, wall.shown)
    stakes = [(numbers.index(number) + numbers.count(number) / 2, number) for number in dict.fromkeys(numbers)]
    wanted = [(place, str(number)) for place, number in stakes if number == 1 or number % 5 == 0]
    first, again = stakes[0][0], wall.shown + stakes[0][0]
    if wall.whole:
        wanted.append((again, "1"))
    placed: list[Spot] = []
    for place, words in sorted(wanted, key=lambda stake: (stake[0] not in (first, again), stake[1][-1] != "0")):
        spot = text_spot(float(wall.x(place)), y, words, size, bold=place == first)
        if all(spot.clear_of(other) for other in placed):
            plate.text(spot.x, y, words, bold=place == first, colour="" if place < wall.shown else plate.quiet)
            placed.append(spot)
    top = wall.foot + heights[-1] + wall.head - 0.2
    plate.text(0.3, top, plate.say(message("figure.round")), "start", colour=plate.quiet)
    _rounds(plate, basket, wall, heights, top)
    _band_names(plate, basket, wall, heights)


def _stake_numbers(basket: Basket, shown: int) -> list[int]:
    """The number of every stake shown at its place from the left; a bye-stake has that of the stake it stands beside."""
    return [basket.stakes[place].number if place < len(basket.stakes) else place + 1 for place in range(shown)]


def _rounds(plate: Plate, basket: Basket, wall: _Wall, heights: list[float], top: float) -> None:
    """Numbers of rounds beside the wall: the last and the first of each band, then every fifth, where there is room."""
    em = plate.em
    wanted: list[tuple[int, float, str]] = []
    for band, foot, head in zip(basket.bands, heights, heights[1:], strict=False):
        rows = len(band.rounds)
        step = (head - foot) / max(rows, 1)
        for number in range(1, rows + 1):
            rank = 0 if number == rows else 1 if number == 1 else 2 if number % 10 == 0 else 3
            if rank < 3 or number % 5 == 0:
                wanted.append((rank, wall.foot + foot + (number - 0.5) * step, str(number)))
    taken = [top]
    for _, y, words in sorted(wanted):
        if all(abs(y - other) >= 0.86 * em for other in taken):
            plate.text(wall.left - 0.5 * em, y, words, "end")
            taken.append(y)


def _band_names(plate: Plate, basket: Basket, wall: _Wall, heights: list[float]) -> None:
    """The bands' names beside them, turned; numbers where a name is longer than its band is high."""
    em, fits = plate.em, _names_fit(plate, basket, heights)
    x = float(wall.x(wall.shown + (_AGAIN if wall.whole else 0))) + 0.7 * em
    spans = [(wall.foot + foot, wall.foot + head) for foot, head in pairwise(heights)]
    middles = [(foot + head) / 2 for foot, head in spans]
    plate.lines([[(x, foot + 0.3), (x, head - 0.3)] for foot, head in spans], 0.5)
    if fits:
        for band, middle in zip(basket.bands, middles, strict=False):
            plate.text(x + em, middle, _name(band, plate.options), turn=90)
        return
    radius = disc_radius(str(len(middles)), plate.options.text_pt)
    for number, (middle, y) in enumerate(zip(middles, spread(middles, 2 * radius + 0.15 * em), strict=True), start=1):
        place = x + radius + 0.5 * em
        if abs(y - middle) > 0.1:
            plate.line([(x, middle), (place, y)], 0.25)
        plate.disc(place, y, str(number))


def _names_fit(plate: Plate, basket: Basket, heights: list[float]) -> bool:
    spans = zip(basket.bands, heights, heights[1:], strict=False)
    return all(plate.wide(_name(band, plate.options)) < head - foot for band, foot, head in spans)


def _name(band: WovenBand, options: Options) -> str:
    """The name of a band, to stand beside it."""
    return options.say(message("figure-wall.band", name=band_said(band.name)))


def _starts(plate: Plate, bands: list[WovenBand], clothes: Wardrobe, wall: _Wall) -> None:
    """The letters of the strands where the lowest band starts, if they stand clear of one another there."""
    if not bands or bands[0].spec.weave.rods > 8:
        return
    y = wall.foot - 2.4 - 0.55 * plate.em
    spots = [
        text_spot(
            float(wall.x(float(stake_places(bands[0], np.array([rod + 0.12]))[0]))),
            y,
            letter,
            plate.options.text_pt,
            bold=True,
        )
        for rod, letter in enumerate(rod_letters(bands[0], clothes))
    ]
    if all_clear(spots):
        for spot in spots:
            plate.text(spot.x, spot.y, spot.words, bold=True)


def _lean(plate: Plate, basket: Basket, wall: _Wall, heights: list[float]) -> None:
    em = plate.em
    top = wall.foot + heights[-1] + wall.head + 1.3 * em
    begins, ends = wall.left + plate.work_arrow(wall.left, top) + em, plate.width
    if wall.whole:
        x = float(wall.x(wall.shown))
        plate.line([(x, wall.foot - 2.6), (x, wall.foot + heights[-1] + wall.head + 0.6)], 0.3, dash=(1.0, 0.7))
        stepped = any(band.spec.step_up for band in side_bands(basket))
        start = plate.say(message("figure.step-up" if stepped else "figure.start"))
        edge = float(wall.x(wall.shown + _AGAIN))
        plate.text(edge, top, start, "end", bold=True)
        ends = edge - plate.wide(start, bold=True) - 0.8 * em
    leaning = _leaning(basket)
    words = plate.say(leaning) if leaning else ""
    if words and begins + plate.wide(words) < ends:
        plate.text(begins, top, words, "start")


def _leaning(basket: Basket) -> Message | None:
    """What the count does to the colours; where it does not do the same in every band, in the largest, by its name."""
    coloured = [band for band in basket.bands if band.steps is not None]
    said = list(dict.fromkeys(lean_said(band) for band in coloured))
    if len(said) < 2:
        return said[0] if said else None
    largest = max(coloured, key=lambda band: len(band.rounds))
    return message("figure-wall.of-largest", name=band_said(largest.name), lean=lean_said(largest))


def lean_said(band: WovenBand) -> Message:
    """What the count does to the colours of a band."""
    weave, steps = band.spec.weave, band.steps or 0
    if weave.kind == "french rand":
        counted = message("figure-wall.rod-goes-on", cycle=weave.cycle)
    else:
        counted = message(
            "figure-wall.count-leaves", count=band.uprights, rods=weave.rods, over=band.uprights % weave.rods
        )
    if steps == 0:
        return message("figure-wall.upright", sum=counted, colours=len(set(band.materials)))
    return message("figure-wall.further", sum=counted, steps=abs(steps), onward=steps > 0)


def _named(basket: Basket, options: Options) -> str:
    """The bands by number, for where their names do not fit beside them."""
    named = (
        message("figure-wall.numbered-band", number=number, name=band_said(band.name))
        for number, band in enumerate(basket.bands, start=1)
    )
    return options.say(message("figure-wall.bands", bands=Listed(tuple(named))))


def _key(plate: Plate, basket: Basket, entries: list[Entry], top: float, heights: list[float]) -> None:
    draw_key(plate, entries, top)
    if not _names_fit(plate, basket, heights):
        below = top - key_height(entries, plate.options) - 0.5 * plate.em
        plate.for_reading().paragraph(0.4, below, _named(basket, plate.options), plate.width - 0.8)


def _foot_height(basket: Basket, entries: list[Entry], options: Options, heights: list[float]) -> float:
    """Room below the wall: stake ends and numbers, the key, and the names of bands where they do not fit beside them."""
    em = options.text_pt * POINT_MM
    names = 0.0
    if not _names_fit(Plate(options.width_mm, 10.0, options), basket, heights):
        names = (0.4 + 1.2 * len(in_lines(_named(basket, options), options.width_mm - 0.8, options.text_pt))) * em
    return 2.4 + 3.0 * em + key_height(entries, options) + names


def _words(basket: Basket, clothes: Wardrobe) -> Message:
    said = [message("figure-wall.side-words", count=basket.working)]
    for band in basket.bands:
        if not band.rounds:
            many = crosses_after(basket, band.index)
            said.append(message("figure-wall.left-open", name=band_said(band.name), many=many))
            continue
        said.append(
            message(
                "figure-wall.woven",
                name=band_said(band.name),
                count=len(band.rounds),
                weave=weave_name(band.spec.weave),
                strands=_strands_said(band, clothes),
                lean=lean_said(band) if band.steps is not None else None,
            )
        )
    return message("figure.sentences", all=Listed(tuple(said)))


def _strands_said(band: WovenBand, clothes: Wardrobe) -> Value:
    """The strands of a band by letter and name; one name where all have the same."""
    letters = rod_letters(band, clothes)
    names = [described(clothes.weaver(strands[0])) for strands in band.materials[: len(letters)]]
    if len(set(names)) > 1:
        lettered = (
            message("figure-wall.lettered", letter=Own(letter), strand=name)
            for letter, name in zip(letters, names, strict=True)
        )
        return message("figure-wall.strands", strands=Listed(tuple(lettered)))
    return message("figure-wall.all-of", strand=names[0]) if len(names) > 1 else names[0]
