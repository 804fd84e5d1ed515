"""Opening and weaving a slath, one figure a stage: the base as it stands when a band is done."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
from msgspec.structs import replace

from slath.basket.model import Basket, WovenBand
from slath.drawing.base.course import BaseCourse
from slath.drawing.base.frame_course import frame_strands
from slath.drawing.base.plan import stick_rods as flat_sticks
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers, travelled
from slath.drawing.paint.rods import SMALL, Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.clear import Spot, all_clear, around, counted_off, disc_spot, first_clear
from slath.drawing.plate.key import Entry, draw_key, key_height, rod_entries
from slath.drawing.plate.lettering import POINT_MM, word_width
from slath.drawing.plate.letters import rod_letters
from slath.drawing.plate.plans import Plan, lies_on_top
from slath.drawing.plate.plate import Plate
from slath.drawing.scene import Scene
from slath.language.pattern import Frame
from slath.messages import Length, Listed, Message, Own, message
from slath.wording.band_names import band_said
from slath.wording.figure_names import base_band_names
from slath.wording.strokes import weave_name

Box = tuple[float, float, float, float]  # x, y, width and height of a window, page mm

_NAMED = 6  # ends to a group that have a word of their own
_HEAD = 2.6  # ems above the plan for the viewing side and the way of work


def stage_names(basket: Basket) -> list[str]:
    """Figure names of the base bands in order: openings while ends are grouped, then weavings."""
    if basket.base.slath is None and not isinstance(basket.base.spec, Frame):
        return []
    return base_band_names(basket.base)


def draw_stage(basket: Basket, index: int, clothes: Wardrobe, options: Options) -> Scene:
    """The base when its band `index` is done."""
    if isinstance(basket.base.spec, Frame):
        return _draw_frame(basket, index, clothes, options)
    band = basket.base.bands[index]
    sizes = _sizes(basket)
    course = BaseCourse(basket.base, *sizes, upto=index)
    last = index == len(basket.base.bands) - 1
    entries = rod_entries(band, rod_letters(band, clothes), clothes)
    plan, plate, box, beyond = _plate(course, band, options, _foot(entries, options), whole=last)
    weaving = weaving_rods(plan, course, clothes)
    sticks = stick_rods(plan, course, clothes, beyond)
    plate.rods([*sticks, *weaving], _brush(sizes[1] * plan.scale), box, name="base")
    taken = _end_numbers(plate, plan, course, band, (box, beyond))
    _letters(plate, plan, course, (index, rod_letters(band, clothes)), taken)
    _captions(plate, plan, band, entries, frame=False)
    names = stage_names(basket)
    title = message("figure-base.stage-title", name=band_said(band.name), taken=_taken(band))
    way = plan.way_round(options)
    return plate.scene(
        names[index],
        title,
        _words(basket, index, clothes),
        seen_from=plan.view,
        caption=message("captions.seen-from-work-runs", title=title, view=plan.view, way=way),
        data={"band": band.name, "rounds": len(band.rounds)},
    )


def _draw_frame(basket: Basket, index: int, clothes: Wardrobe, options: Options) -> Scene:
    """A frame woven from one end as far as the end of band `index`."""
    base, band = basket.base, basket.base.bands[index]
    em, outline = options.text_pt * POINT_MM, basket.base.spec.outline
    entries = rod_entries(band, rod_letters(band, clothes), clothes)
    head, foot = _HEAD * em, _foot(entries, options)
    ratio = max(
        outline.length_mm / (options.width_mm - 4.0), outline.width_mm / (options.tallest_mm - head - foot - 4.0)
    )
    tall = outline.width_mm / ratio + 4.0
    plate = Plate(options.width_mm, tall + head + foot, options)
    plan = Plan(plate.width / 2, foot + tall / 2, ratio, below=True)
    stick, strand = _sizes(basket)
    rods = flat_sticks(plan, base.sticks, stick, clothes)
    for course in frame_strands(base, stick):
        if course.bands[0] <= index:
            points = np.column_stack([plan.at(course.points[:, :2]), course.points[:, 2] * plan.scale])
            rods.append(Rod(points, strand * plan.scale, clothes.weaver(course.material), (True, True), name="row"))
    thin = strand * plan.scale
    plate.rods(rods, _brush(thin), name="frame")
    _captions(plate, plan, band, entries, frame=True)
    rows = len(band.rounds)
    return plate.scene(
        stage_names(basket)[index], message("figure-base.frame-title", name=band_said(band.name)),
        message("figure-base.frame-words", count=rows, weave=weave_name(band.spec.weave)),
        seen_from=plan.view, caption=message("captions.the-frame-woven-from-side", rows=rows), data={"band": band.name, "rounds": rows},
    )  # fmt: skip


def _brush(thin: float) -> Brush:
    """The brush for a plan whose strands are so wide on the page."""
    if thin > 1.6:
        return Brush(gap=0.18, edge=0.25)
    if thin > 1.15:
        return Brush(gap=0.14, edge=0.22, step=0.5, tolerance=0.03, pixel=0.16, shade=False)
    return replace(SMALL, tolerance=0.03, pixel=0.16)


def _sizes(basket: Basket) -> tuple[float, float]:
    """Widths of sticks and of the base weavers, mm."""
    materials = basket.pattern.materials
    sticks = [materials[stick.material].width_mm for stick in basket.base.sticks]
    strands = [materials[key].width_mm for band in basket.base.bands for rod in band.materials for key in rod]
    return max(sticks, default=4.0), (math.fsum(strands) / len(strands) if strands else 2.5)


def _foot(entries: Sequence[Entry], options: Options) -> float:
    """Room below the plan for what was woven and the key."""
    return 2.6 * options.text_pt * POINT_MM + key_height(entries, options)


def _plate(
    course: BaseCourse, band: WovenBand, options: Options, foot: float, *, whole: bool
) -> tuple[Plan, Plate, Box, float]:
    """The plan at a scale that shows the weaving of this stage, the window it is seen through, and how far beyond the
    edge (or, negative, short of it) sticks are drawn.
    """
    em = options.text_pt * POINT_MM
    reach = course.room + 5.0 if whole else min(course.room + 5.0, band.to_mm * 1.15 + 0.18 * course.core + 16.0)
    half_wide = course.core + reach
    half_long = half_wide + course.spine
    room_x, head = options.width_mm - 2.4 * em, _HEAD * em
    ratio = max(2 * half_long / room_x, 2 * half_wide / options.tallest_mm)
    wide, tall = 2 * half_long / ratio, 2 * half_wide / ratio
    plate = Plate(options.width_mm, tall + head + foot, options)
    plan = Plan(options.width_mm / 2, foot + tall / 2, ratio, below=True)
    return plan, plate, (plan.x - wide / 2, foot, wide, tall), reach - course.room - 1.0


def stick_rods(plan: Plan, course: BaseCourse, clothes: Wardrobe, beyond: float) -> list[Rod]:
    """Sticks bent from the slath to their places at the edge."""
    rods = []
    for stick in course.base.sticks:
        on_top = lies_on_top(stick, course.base.sticks)
        line = plan.at(course.stick_line(stick, beyond))
        lift = 0.35 * course.stick * plan.scale if on_top else 0.0
        height = np.full(len(line), lift)
        points = np.column_stack([line, height])
        rods.append(
            Rod(points, 0.95 * course.stick * plan.scale, clothes.sticks, (True, True), name=f"stick {stick.number}")
        )
    return rods


def weaving_rods(plan: Plan, course: BaseCourse, clothes: Wardrobe) -> list[Rod]:
    """Strands of the base as rods; seen from below, what lies before the sticks is nearest."""
    rods: list[Rod] = []
    for strand in course.strands():
        flat = plan.at(strand.points[:, :2])
        height = strand.points[:, 2] * plan.scale * 1.25
        points = np.column_stack([flat, height])
        if strand.folded and strand.rod:  # the other half of the length drawn before
            rods[-1] = replace(rods[-1], points=np.vstack([rods[-1].points[::-1], points[1:]]))
            continue
        rods.append(Rod(points, 0.96 * course.strand * plan.scale, clothes.weaver(strand.material), (True, True),
                        name=f"rod {strand.rod}"))  # fmt: skip
    return rods


def _end_numbers(
    plate: Plate, plan: Plan, course: BaseCourse, band: WovenBand, window: tuple[Box, float]
) -> list[Spot]:
    """Numbers of the stick ends where they leave the window or the base; of whole groups, or counted off, where they lie
    too close. Returns the room they take.
    """
    size = plate.options.text_pt
    box, beyond = window
    ends = [
        _last_in(box, plan.at(course.end_line(index, beyond)), 0.8 * plate.em) for index in range(len(course.base.ends))
    ]
    singly = [disc_spot(*spot, str(number), size) for number, spot in enumerate(ends, start=1) if spot is not None]
    if all_clear(singly):
        for spot in singly:
            plate.disc(spot.x, spot.y, spot.words, moved=spot.words == "1")
        return singly
    grouped = list(_of_groups(ends, band.group_sizes, size))
    if max(band.group_sizes) > 1 and all_clear(grouped):
        for spot in grouped:
            plate.label(spot.x, spot.y, spot.words, moved=spot is grouped[0])
        return grouped
    chosen = grouped if max(band.group_sizes) > 1 else singly
    chosen = [chosen[place] for place in counted_off(chosen)]
    for spot in chosen:
        plate.label(spot.x, spot.y, spot.words, moved=spot is chosen[0])
    return chosen


def _of_groups(ends: Sequence[tuple[float, float] | None], sizes: Sequence[int], size_pt: float) -> Iterator[Spot]:
    """One spot for each group, with its first and last number."""
    first, em = 0, size_pt * POINT_MM
    for size in sizes:
        seen = [(first + place + 1, spot) for place, spot in enumerate(ends[first : first + size]) if spot is not None]
        first += size
        if seen:
            x = math.fsum(spot[0] for _, spot in seen) / len(seen)
            y = math.fsum(spot[1] for _, spot in seen) / len(seen)
            words = f"{seen[0][0]}–{seen[-1][0]}" if len(seen) > 1 else str(seen[0][0])
            half = word_width(words, size_pt, bold=True) / 2 + 0.7 * em
            yield Spot(x, y, words, half, 0.7 * em)


def _last_in(box: Box, line: Numbers, margin: float) -> tuple[float, float] | None:
    """The last point of a line inside the window, if any is."""
    x, y, wide, tall = box
    inside = (
        (line[:, 0] > x + margin)
        & (line[:, 0] < x + wide - margin)
        & (line[:, 1] > y + margin)
        & (line[:, 1] < y + tall - margin)
    )
    if not inside.any():
        return None
    spot = line[int(np.nonzero(inside)[0][-1])]
    return float(spot[0]), float(spot[1])


def _letters(
    plate: Plate, plan: Plan, course: BaseCourse, lettered: tuple[int, list[str]], taken: Sequence[Spot]
) -> None:
    """The letters of the rods of one band, each near the start of its strands, towards the middle if there is room."""
    (band, letters), em, placed = lettered, plate.em, list(taken)
    strands = course.strands()
    woven = np.vstack([plan.at(strand.points[:, :2]) for strand in strands])
    for strand in strands:
        if strand.bands[0] <= band <= strand.bands[1] and strand.rod < len(letters) and strand.leads:
            line = plan.at(strand.points[:, :2])
            x, y = line[int(np.searchsorted(travelled(line), (1.0 + 1.2 * strand.rod * strand.folded) * em))].tolist()
            inwards = math.atan2(plan.y - y, plan.x - x)
            places = around(x, y, inwards, (1.3 * em, 1.9 * em, 2.6 * em, 3.4 * em))
            spots = [disc_spot(*place, letters[strand.rod], plate.options.text_pt) for place in places]
            bare = [spot for spot in spots if _off(spot, woven) > spot.wide + 0.4 * course.strand * plan.scale]
            spot = first_clear([*bare, *spots], placed)
            plate.line([(x, y), (spot.x, spot.y)], 0.3)
            plate.disc(spot.x, spot.y, spot.words)
            placed.append(spot)


def _off(spot: Spot, line: Numbers) -> float:
    """How far the middle of a spot lies from the nearest point of a line."""
    return float(np.hypot(line[:, 0] - spot.x, line[:, 1] - spot.y).min())


def _taken(band: WovenBand) -> Message:
    """How the ends are taken: "single sticks", "in twos and ones"."""
    sizes = sorted(set(band.group_sizes), reverse=True)
    if sizes[0] == 1:
        return message("figure-base.singly")
    named = [message(f"figure-base.group-{size if size <= _NAMED else 'of'}", count=size) for size in sizes]
    return message("figure-base.in-groups", sizes=Listed(tuple(named)))


def _captions(plate: Plate, plan: Plan, band: WovenBand, entries: Sequence[Entry], *, frame: bool) -> None:
    """What was woven, and how its ends were taken, above the key; the viewing side and the way work runs at the top."""
    em = plate.em
    plate.text(
        0.4, plate.height - 0.9 * em, plate.say(message("figure.seen-from", view=plan.view)), "start", italic=True
    )
    woven = message(
        "figure-base.woven",
        count=len(band.rounds),
        rows=frame,
        weave=weave_name(band.spec.weave),
        taken=message("figure-base.side-to-side") if frame else _taken(band),
    )
    key = key_height(entries, plate.options)
    plate.for_reading().text(0.4, key + 1.2 * em, plate.say(woven), "start", bold=True)
    draw_key(plate, entries, key)
    if not frame:
        share = np.linspace(0, 1, 12)
        sweep = np.column_stack([plate.width - 15.0 + 11.5 * share, plate.height - 1.0 - 3.0 * share**2])
        plate.arrow(sweep, 0.5)
        plate.text(plate.width - 16.0, plate.height - 0.9 * em, plate.say(message("figure.work")), "end")


def _words(basket: Basket, index: int, clothes: Wardrobe) -> Message:
    band, slath = basket.base.bands[index], basket.base.slath
    if max(band.group_sizes) > 1:
        taken = message("figure-base.taken-in-groups", sizes=Listed(band.group_sizes))
    else:
        taken = message("figure-base.taken-singly", count=band.uprights)
    return message(
        "figure-base.stage-words",
        count=len(band.rounds),
        weave=weave_name(band.spec.weave),
        taken=taken,
        begins=None if index else _begins(band, rod_letters(band, clothes)),
        across=Length(slath.width_mm + 2 * band.to_mm if slath else 0.0),
    )


def _begins(band: WovenBand, letters: list[str]) -> Message:
    """Where the strands of the first band of a base start."""
    if len(letters) == 1:
        return message("figure-base.begins-one", letter=Own(letters[0]))
    first, second = Own(letters[0]), Own(letters[1])
    if band.begins_folded:
        return message("figure-base.begins-folded", first=first, second=second)
    return message("figure-base.begins", letters=Listed((first, second)), first=first)
