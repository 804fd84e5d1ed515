"""Opening and weaving a slath, one figure a stage: the base as it stands when a band is done."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np

from slath.basket.model import Basket, WovenBand
from slath.drawing.base_course import BaseCourse
from slath.drawing.base_plan import stick_rods as flat_sticks
from slath.drawing.curves import Numbers
from slath.drawing.frame_course import frame_strands
from slath.drawing.key import draw_key, rod_entries
from slath.drawing.lettering import POINT_MM
from slath.drawing.options import Options
from slath.drawing.plans import Plan, lies_on_top
from slath.drawing.plate import Plate
from slath.drawing.rods import SMALL, Brush, Rod
from slath.drawing.scene import Scene
from slath.drawing.stroke import rod_letters
from slath.drawing.wardrobe import Wardrobe
from slath.language.pattern import Frame
from slath.units.counting import counted


def stage_names(basket: Basket) -> list[str]:
    """Figure names of the base bands in order: openings while ends are grouped, then weavings."""
    if basket.base.slath is None and not isinstance(basket.base.spec, Frame):
        return []
    names, openings, used = [], 0, set()
    for band in basket.base.bands:
        if max(band.group_sizes, default=1) > 1:
            openings += 1
            names.append(f"base-opening-{openings}")
            continue
        slug = "-".join("".join(sign if sign.isalnum() else " " for sign in band.name.lower()).split())
        name = f"base-weaving-{slug}"
        while name in used:
            name += "-again"
        used.add(name)
        names.append(name)
    return names


def draw_stage(basket: Basket, index: int, clothes: Wardrobe, options: Options) -> Scene:
    """The base when its band `index` is done."""
    if isinstance(basket.base.spec, Frame):
        return _draw_frame(basket, index, clothes, options)
    band = basket.base.bands[index]
    sizes = _sizes(basket)
    course = BaseCourse(basket.base, *sizes, upto=index)
    last = index == len(basket.base.bands) - 1
    plan, plate, box = _plate(course, band, options, whole=last)
    weaving = weaving_rods(plan, course, clothes)
    sticks = stick_rods(plan, course, clothes, 4.0)
    plate.rods([*sticks, *weaving], _brush(sizes[1] * plan.scale), box, name="base")
    _end_numbers(plate, plan, course, band, box)
    _letters(plate, plan, course, band, clothes)
    grouped = max(band.group_sizes) > 1
    _captions(plate, plan, band, clothes, _grouping(band) if grouped else "single sticks")
    names = stage_names(basket)
    return plate.scene(
        names[index],
        _title(band),
        _words(basket, index, clothes, options),
        seen_from=plan.seen_from,
        caption=f"{_title(band)}, seen from {plan.seen_from}; work runs {plan.way_round(options)}.",
        data={"band": band.name, "rounds": len(band.rounds)},
    )


def _draw_frame(basket: Basket, index: int, clothes: Wardrobe, options: Options) -> Scene:
    """A frame woven from one end as far as the end of band `index`."""
    base, band = basket.base, basket.base.bands[index]
    em, outline = options.text_pt * POINT_MM, basket.base.spec.outline
    head, foot = 2.6 * em, 5.6 * em
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
    _captions(plate, plan, band, clothes, "from side to side")
    rows = len(band.rounds)
    words = (
        f"Seen from below: {rows} rows of {band.spec.weave.label} across the lengthwise {options.term('sticks')}, turning back at "
        "the outer ones, from one end of the frame to the other."
    )
    return plate.scene(
        stage_names(basket)[index], f"The base: {band.name}", words, seen_from="below",
        caption=f"The frame woven from side to side, {rows} rows.", data={"band": band.name, "rounds": rows},
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
    return max(sticks, default=4.0), (sum(strands) / len(strands) if strands else 2.5)


def _plate(
    course: BaseCourse, band: WovenBand, options: Options, *, whole: bool
) -> tuple[Plan, Plate, tuple[float, float, float, float]]:
    """The plan at a scale that shows the weaving of this stage, and the window it is seen through."""
    em = options.text_pt * POINT_MM
    reach = course.room + 5.0 if whole else min(course.room + 5.0, band.to_mm * 1.15 + 0.18 * course.core + 16.0)
    half_wide = course.core + reach
    half_long = half_wide + course.spine
    room_x, head, foot = options.width_mm - 2.4 * em, 2.6 * em, 5.6 * em
    ratio = max(2 * half_long / room_x, 2 * half_wide / (options.tallest_mm - head - foot))
    wide, tall = 2 * half_long / ratio, 2 * half_wide / ratio
    plate = Plate(options.width_mm, tall + head + foot, options)
    plan = Plan(options.width_mm / 2, foot + tall / 2, ratio, below=True)
    return plan, plate, (plan.x - wide / 2, foot, wide, tall)


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
    rods = []
    for strand in course.strands():
        flat = plan.at(strand.points[:, :2])
        height = strand.points[:, 2] * plan.scale * 1.25
        points = np.column_stack([flat, height])
        rods.append(Rod(points, 0.96 * course.strand * plan.scale, clothes.weaver(strand.material), (True, True),
                        name=f"rod {strand.rod}"))  # fmt: skip
    return rods


def _end_numbers(
    plate: Plate, plan: Plan, course: BaseCourse, band: WovenBand, box: tuple[float, float, float, float]
) -> None:
    """Numbers of the stick ends where they leave the window or the base; of a whole group where they lie too close."""
    spots = [
        _last_in(box, plan.at(course.end_line(index, 4.0)), 0.8 * plate.em) for index in range(len(course.base.ends))
    ]
    first = 0
    for size in band.group_sizes:
        members = [
            (number + 1, spot)
            for number, spot in enumerate(spots[first : first + size], start=first)
            if spot is not None
        ]
        first += size
        if not members:
            continue
        apart = min((math.dist(one, other) for (_, one), (_, other) in pairwise(members)), default=99.0)
        if apart >= 1.3 * plate.em or len(members) == 1:
            for number, (x, y) in members:
                plate.disc(x, y, str(number), moved=number == 1)
            continue
        x = sum(spot[0] for _, spot in members) / len(members)
        y = sum(spot[1] for _, spot in members) / len(members)
        plate.label(x, y, f"{members[0][0]}–{members[-1][0]}", moved=members[0][0] == 1)


def _last_in(box: tuple[float, float, float, float], line: Numbers, margin: float) -> tuple[float, float] | None:
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


def _letters(plate: Plate, plan: Plan, course: BaseCourse, band: WovenBand, clothes: Wardrobe) -> None:
    letters = rod_letters(band, clothes)
    for strand in course.strands():
        if strand.bands[0] == 0 and strand.rod < len(letters):
            spot = _beside(plan.at(strand.points[:4, :2]), plan, 1.1 * plate.em)
            plate.disc(spot[0], spot[1], letters[strand.rod])


def _beside(line: Numbers, plan: Plan, far: float) -> tuple[float, float]:
    """A place a little towards the middle of the plan from the start of a line."""
    start = line[0]
    inwards = np.array([plan.x, plan.y]) - start
    reach = math.hypot(*inwards) or 1.0
    spot = start + inwards / reach * far
    return float(spot[0]), float(spot[1])


def _title(band: WovenBand) -> str:
    sizes = sorted(set(band.group_sizes))
    if sizes[-1] == 1:
        return f"The base: {band.name}, single sticks"
    return f"The base: {band.name}, {_grouping(band)}"


def _grouping(band: WovenBand) -> str:
    """How the ends are taken: "in twos and ones"."""
    names = {1: "ones", 2: "twos", 3: "threes", 4: "fours", 5: "fives", 6: "sixes"}
    sizes = sorted(set(band.group_sizes), reverse=True)
    words = [names.get(size, f"groups of {size}") for size in sizes]
    return "in " + " and ".join(words)


def _captions(plate: Plate, plan: Plan, band: WovenBand, clothes: Wardrobe, taken: str) -> None:
    """What was woven, `taken` how, above the key; the viewing side and the way work runs at the top."""
    em = plate.em
    plate.text(0.4, plate.height - 0.9 * em, f"seen from {plan.seen_from}", "start", italic=True)
    rounds = len(band.rounds)
    row = "row" if taken == "from side to side" else "round"
    said = f"{rounds} {row}{'s' if rounds != 1 else ''} of {band.spec.weave.label}, {taken}"
    plate.for_reading().text(0.4, 3.9 * em, said, "start", bold=True)
    draw_key(plate, rod_entries(band, rod_letters(band, clothes), clothes), 2.6 * em)
    if row == "round":
        share = np.linspace(0, 1, 12)
        sweep = np.column_stack([plate.width - 15.0 + 11.5 * share, plate.height - 1.0 - 3.0 * share**2])
        plate.arrow(sweep, 0.5)
        plate.text(plate.width - 16.0, plate.height - 0.9 * em, "work", "end")


def _words(basket: Basket, index: int, clothes: Wardrobe, options: Options) -> str:
    band = basket.base.bands[index]
    letters = rod_letters(band, clothes)
    sticks = options.term("sticks")
    start = (
        ""
        if index
        else f" Strand {letters[0]} starts behind the last group and goes before the first."
        if len(letters) == 1
        else (
            f" Strands {' and '.join(letters[:2])} start in neighbouring spaces; {letters[0]} goes before the first group."
        )
    )
    groups = ", ".join(str(size) for size in band.group_sizes)
    taken = (
        f"{sticks} taken {groups} round the base"
        if max(band.group_sizes) > 1
        else f"over and under every single end, {band.uprights} in all"
    )
    turn = options.clockwise
    return (
        f"Seen from below, working {turn}: {counted(len(band.rounds), 'round', 'rounds', figures=True)} of {band.spec.weave.label}, {taken}.{start} "
        f"The weaving now reaches {options.measure(basket.base.slath.width_mm + 2 * band.to_mm if basket.base.slath else 0.0)} across."
    )
