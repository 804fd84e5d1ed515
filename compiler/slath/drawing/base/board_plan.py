"""A drilled board to scale: holes on their line, numbered, with the measures to mark them out by."""

from __future__ import annotations

import math

import numpy as np

from slath.basket.model import Basket
from slath.drawing.base.board_holes import board_hole, cut_hole, holes_said
from slath.drawing.options import Options
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.clear import counted_off, disc_spot, text_spot
from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width
from slath.drawing.plate.plans import Plan, board_of, curve_points, fitting_ratio, ring_fits
from slath.drawing.plate.plate import Plate
from slath.drawing.scene import Scene
from slath.messages import Length, Listed, Message, message


def numbered_every(spacing: float, needed: float) -> int:
    """Every how many places can carry a number `needed` mm wide when they stand `spacing` mm apart: 1, 2, 5 or 10."""
    return next((every for every in (1, 2, 5, 10) if every * spacing >= needed), 20)


def is_numbered(number: int, count: int, every: int) -> bool:
    """Whether a place of a ring of `count` carries its number: the first, and every so many that keep clear of it."""
    return number == 1 or (number % every == 0 and count + 1 - number >= every)


def draw_board(basket: Basket, clothes: Wardrobe, options: Options) -> Scene:
    """Plan of a board from above: outline, hole line, holes with their numbers, and measures."""
    base, (spec, line) = basket.base, board_of(basket)
    em = options.text_pt * POINT_MM
    outline = spec.outline
    ratio = fitting_ratio(outline.length_mm, outline.width_mm, options.width_mm - 9.0 * em, options.tallest_mm)
    tall = outline.width_mm / ratio
    foot = (4.6 + 1.2 * len(_told_below(basket, options, 1 / ratio))) * em
    plate = Plate(options.width_mm, tall + foot + 5.0 * em, options)
    plan = Plan(plate.width / 2 + 0.8 * em, foot + tall / 2, ratio, below=False)
    plate.outline(plan.at(curve_points(base.edge)), width=0.45, fill=clothes.wood.tones.highlight)
    plate.outline(plan.at(curve_points(line)), width=0.3, dash=(1.4, 0.8))
    hole = board_hole(basket)
    size = max(hole.along_mm * plan.scale, 0.7), max(hole.across_mm * plan.scale, 0.7)
    spots, away = [], spec.inset_mm * plan.scale + 0.95 * em
    for number, u in enumerate(base.holes, start=1):
        (x, y), (nx, ny) = plan.one(line.point(u)), line.normal(u)
        cut_hole(plate, (x, y), (nx, ny), size, plate.ink if number == 1 else plate.paper)
        place = x + nx * away, y + ny * away
        spots.append(
            disc_spot(*place, "1", options.text_pt) if number == 1 else text_spot(*place, str(number), options.text_pt)
        )
    for chosen in counted_off(spots):
        spot = spots[chosen]
        if chosen == 0:
            plate.disc(spot.x, spot.y, "1", moved=True)
        else:
            plate.text(spot.x, spot.y, spot.words)
    _measures(plate, plan, basket)
    _way(plate, plan, basket)
    return plate.scene(
        "base-plan",
        message("figure-base.board-title", slot=hole.is_slot),
        _words(basket, options),
        seen_from=plan.view,
        caption=message(
            "captions.the-board-seen-from-above", scale=plan.scale_said, ring=ring_fits(basket), slot=hole.is_slot
        ),
        data={"scale": plan.scale, "holes": len(base.holes)},
    )


def _measures(plate: Plate, plan: Plan, basket: Basket) -> None:
    spec, _ = board_of(basket)
    em, outline = plate.em, spec.outline
    low = plan.y - outline.width_mm * plan.scale / 2 - 2.0 * em
    left, right = plan.x - outline.length_mm * plan.scale / 2, plan.x + outline.length_mm * plan.scale / 2
    long = message("figure-base.board-long", length=Length(outline.length_mm), across=outline.shape == "circle")
    plate.dimension((left, low), (right, low), plate.say(long), above=False)
    if outline.shape != "circle":
        x = left - 2.4 * em
        y0, y1 = plan.y - outline.width_mm * plan.scale / 2, plan.y + outline.width_mm * plan.scale / 2
        plate.dimension((x, y0), (x, y1), plate.options.measure(outline.width_mm), above=True)
    below = _told_below(basket, plate.options, plan.scale)
    for row, words in enumerate(reversed(below)):
        plate.text(plate.width / 2, (0.9 + 1.2 * row) * em, words)
    if not below:
        for row, line in enumerate(_told(basket)):
            plate.text(plan.x, plan.y + (1.5 - row) * 1.25 * em, plate.say(line), halo=False)
    seen = message("figure.seen-from", view=plan.view)
    plate.text(0.4, plate.height - 0.8 * em, plate.say(seen), "start", italic=True)
    plate.text(
        plate.width - 0.4, plate.height - 0.8 * em, plate.options.say(plan.scale_said), "end", colour=plate.quiet
    )


def _told(basket: Basket) -> tuple[Message, ...]:
    """What is drilled and where, line by line."""
    spec, _ = board_of(basket)
    return (
        holes_said(basket),
        message("figure-base.holes-apart", apart=Length(basket.base.hole_spacing_mm or 0.0)),
        message("figure-base.inset", inset=Length(spec.inset_mm)),
        message("figure-base.thick", thick=Length(spec.thickness_mm)),
    )


def _told_below(basket: Basket, options: Options, scale: float) -> list[str]:
    """The same in lines below a board that has no room for it inside its line of holes; none where it has."""
    outline, em = basket.base.spec.outline, options.text_pt * POINT_MM
    lines, (spec, _) = _told(basket), board_of(basket)
    widest = max(word_width(options.say(line), options.text_pt) for line in lines)
    inset = 2 * spec.inset_mm * scale + 3.5 * em
    if outline.width_mm * scale > inset + 5.2 * em and outline.length_mm * scale > inset + widest:
        return []
    told = options.say(message("figure-base.told", lines=Listed(lines)))
    return in_lines(told, options.width_mm - 0.8, options.text_pt)


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


def _words(basket: Basket, options: Options) -> Message:
    base, (spec, _) = basket.base, board_of(basket)
    round_board = spec.outline.shape == "circle"
    size = message(
        "figure.by",
        length=Length(spec.outline.length_mm),
        width=None if round_board else Length(spec.outline.width_mm),
    )
    return message(
        "figure-base.board-words",
        size=size,
        thick=Length(spec.thickness_mm),
        holes=holes_said(basket),
        apart=Length(base.hole_spacing_mm or 0.0),
        inset=Length(spec.inset_mm),
        way=message("views.clockwise" if options.mirrored else "views.anticlockwise"),
    )
