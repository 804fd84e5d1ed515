"""A drilled board to scale: holes on their line, numbered, with the measures to mark them out by."""

from __future__ import annotations

import math

import numpy as np

from slath.basket.model import Basket
from slath.drawing.board_holes import board_hole, cut_hole, hole_words
from slath.drawing.options import Options
from slath.drawing.plans import Plan, board_of, curve_points, fitting_ratio
from slath.drawing.plate import Plate
from slath.drawing.scene import Scene
from slath.drawing.wardrobe import Wardrobe


def numbered_every(spacing: float, needed: float) -> int:
    """Every how many places can carry a number `needed` mm wide when they stand `spacing` mm apart: 1, 2, 5 or 10."""
    return next((every for every in (1, 2, 5, 10) if every * spacing >= needed), 20)


def is_numbered(number: int, count: int, every: int) -> bool:
    """Whether a place of a ring of `count` carries its number: the first, and every so many that keep clear of it."""
    return number == 1 or (number % every == 0 and count + 1 - number >= every)


def draw_board(basket: Basket, clothes: Wardrobe, options: Options) -> Scene:
    """Plan of a board from above: outline, hole line, holes with their numbers, and measures."""
    base, (spec, line) = basket.base, board_of(basket)
    em = options.text_pt * 25.4 / 72
    outline = spec.outline
    ratio = fitting_ratio(outline.length_mm, outline.width_mm, options.width_mm - 9.0 * em, options.tallest_mm)
    tall = outline.width_mm / ratio
    plate = Plate(options.width_mm, tall + 11.5 * em, options)
    plan = Plan(plate.width / 2 + 0.8 * em, 6.5 * em + tall / 2, ratio, below=False)
    plate.outline(plan.at(curve_points(base.edge)), width=0.45, fill=clothes.wood.tones.highlight)
    plate.outline(plan.at(curve_points(line)), width=0.3, dash=(1.4, 0.8))
    hole = board_hole(basket)
    size = max(hole.along_mm * plan.scale, 0.7), max(hole.across_mm * plan.scale, 0.7)
    spacing = line.perimeter / len(base.holes) * plan.scale
    every = numbered_every(spacing, plate.wide(str(len(base.holes))) + 0.35 * em)
    for number, u in enumerate(base.holes, start=1):
        x, y = plan.one(line.point(u))
        cut_hole(plate, (x, y), line.normal(u), size, plate.ink if number == 1 else plate.paper)
        if is_numbered(number, len(base.holes), every):
            nx, ny = line.normal(u)
            away = spec.inset_mm * plan.scale + 0.95 * em
            if number == 1:
                plate.disc(x + nx * away, y + ny * away, "1", moved=True)
            else:
                plate.text(x + nx * away, y + ny * away, str(number))
    _measures(plate, plan, basket)
    _way(plate, plan, basket)
    return plate.scene(
        "base-plan",
        "The board, slotted" if hole.is_slot else "The board, drilled",
        _words(basket, options),
        seen_from="above",
        caption=f"The board seen from above, {plan.scale_words}. Print the {hole.name} ring at full size to mark it by.",
        data={"scale": plan.scale, "holes": len(base.holes)},
    )


def _measures(plate: Plate, plan: Plan, basket: Basket) -> None:
    spec, _ = board_of(basket)
    em, measure, outline = plate.em, plate.options.measure, spec.outline
    low = plan.y - outline.width_mm * plan.scale / 2 - 2.0 * em
    left, right = plan.x - outline.length_mm * plan.scale / 2, plan.x + outline.length_mm * plan.scale / 2
    across = " across" if outline.shape == "circle" else ""
    plate.dimension((left, low), (right, low), f"board {measure(outline.length_mm)}{across}", above=False)
    if outline.shape != "circle":
        x = left - 2.4 * em
        y0, y1 = plan.y - outline.width_mm * plan.scale / 2, plan.y + outline.width_mm * plan.scale / 2
        plate.dimension((x, y0), (x, y1), measure(outline.width_mm), above=True)
    count, spacing, hole = len(basket.base.holes), basket.base.hole_spacing_mm or 0.0, board_hole(basket)
    lines = [
        f"{count} {hole.name}s, {hole_words(hole, plate.options)}",
        f"{measure(spacing)} apart along the line",
        f"line {measure(spec.inset_mm)} in from the edge",
        f"board {measure(spec.thickness_mm)} thick",
    ]
    if outline.width_mm * plan.scale > 6.5 * em and outline.length_mm * plan.scale > 14 * em:
        for row, words in enumerate(lines):
            plate.text(plan.x, plan.y + (1.5 - row) * 1.25 * em, words, halo=False)
    else:
        plate.text(plate.width / 2, 2.2 * em, ", ".join(lines[:2]))
        plate.text(plate.width / 2, 1.0 * em, ", ".join(lines[2:]))
    plate.text(0.4, plate.height - 0.8 * em, "seen from above", "start", italic=True)
    plate.text(plate.width - 0.4, plate.height - 0.8 * em, plan.scale_words, "end", colour=plate.quiet)


def _way(plate: Plate, plan: Plan, basket: Basket) -> None:
    """An arrow inside the hole line from hole 1 the way the numbers run."""
    _, line = board_of(basket)
    count = max(len(basket.base.holes), 1)
    reach = (0.4 / count, 3.2 / count)
    points = []
    for u in np.linspace(*reach, 12).tolist():
        (x, y), (nx, ny) = plan.one(line.point(u)), line.normal(u)
        inward = 1.1 * plate.em
        points.append((x - nx * inward, y - ny * inward))
    if math.dist(points[0], points[-1]) > 3:
        plate.arrow(points, 0.4)


def _words(basket: Basket, options: Options) -> str:
    base, (spec, _) = basket.base, board_of(basket)
    measure, outline, hole = options.measure, spec.outline, board_hole(basket)
    size = (
        measure(outline.length_mm)
        if outline.shape == "circle"
        else f"{measure(outline.length_mm)} by {measure(outline.width_mm)}"
    )
    return (
        f"A board {size}, {measure(spec.thickness_mm)} thick, seen from above. {len(base.holes)} {hole.name}s, "
        f"{hole_words(hole, options)}, stand {measure(base.hole_spacing_mm or 0.0)} apart on a line {measure(spec.inset_mm)} in "
        f"from the edge, numbered {options.anticlockwise} from the {options.right} end."
    )
