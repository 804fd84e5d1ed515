"""Sheets printed at full size and laid against the work: marking ring, hole ring, spacing strips, scarf gauge.

Each carries a square of 50 mm and one of 2 in, to be measured before the sheet is trusted.
"""

from __future__ import annotations

import math

import numpy as np

from slath.basket.model import Basket, Curve
from slath.drawing.base.board_holes import board_hole, cut_hole
from slath.drawing.base.board_plan import is_numbered, numbered_every
from slath.drawing.handle.figure import scarf_lap, scarfed, thickness
from slath.drawing.options import Options
from slath.drawing.plate.clear import Spot, counted_off, text_spot
from slath.drawing.plate.lettering import POINT_MM, in_lines
from slath.drawing.plate.plans import board_of, curve_points, ring_fits
from slath.drawing.plate.plate import FINE, Plate
from slath.drawing.scene import Scene
from slath.messages import Length, Message, Own, message
from slath.units.names import INCH_MM

SQUARES_MM = (50.0, 2 * INCH_MM)
_TRUST = message("figure-sheets.trust")
_MARGIN = 2.0
_BORDER = 8.0  # mm round a ring, for ticks outside its edge
_STRIP_ROOM = 11.0  # mm of height for one row of a spacing strip


def sheet_names(basket: Basket) -> list[str]:
    """The sheets this basket has."""
    names = [_ring(basket)] if ring_fits(basket) and _ring(basket) else []
    if basket.stakes:
        names.append("sheet-spacing")
    if any(scarfed(worked) for worked in basket.handles):
        names.append("sheet-scarf-gauge")
    return names


def _ring(basket: Basket) -> str:
    """The ring by which the base is marked or checked; empty for a base that has neither holes nor a slath."""
    if basket.base.holes:
        return "sheet-hole-ring"
    return "sheet-marking-ring" if basket.base.sticks and basket.base.slath is not None else ""


def draw_sheet(basket: Basket, name: str, options: Options) -> Scene:
    """The sheet called `name`."""
    if name == "sheet-spacing":
        return _spacing_sheet(basket, options)
    if name == "sheet-scarf-gauge":
        return _scarf_sheet(basket, options)
    return _ring_sheet(basket, name, options)


def _squares(plate: Plate, x: float, y: float) -> dict[str, object]:
    """Both test squares side by side from (x, y) up; returns where they lie on the page."""
    placed: dict[str, object] = {}
    em = plate.em
    told = (message("figure-sheets.square-mm"), message("figure-sheets.square-inches"))
    for side, words, key in zip(SQUARES_MM, told, ("square_50_mm", "square_2_in"), strict=True):
        plate.area([(x, y), (x + side, y), (x + side, y + side), (x, y + side)], None, plate.ink, 0.3)
        plate.text(x + side / 2, y + side / 2 + 0.7 * em, plate.say(words), bold=True)
        plate.text(x + side / 2, y + side / 2 - 0.7 * em, plate.say(message("figure-sheets.measure-me")))
        left = plate.width - x - side if plate.options.mirrored else x
        placed[key] = (round(left, 3), round(plate.height - y - side, 3), side, side)
        x += side + 3.0
    return placed


_SQUARES_WIDE = math.fsum(SQUARES_MM) + 3.0


def _heading(plate: Plate, title: Message, basket: Basket) -> None:
    em = plate.em
    heading = message("figure-sheets.heading", title=title, size=Own(basket.size))
    plate.text(_MARGIN, plate.height - 1.0 * em, plate.say(heading), "start", bold=True)
    plate.paragraph(_MARGIN, plate.height - 2.4 * em, plate.say(_TRUST), plate.width - 2 * _MARGIN)


def _heading_high(width: float, options: Options) -> float:
    """Height the heading of a sheet so wide takes, mm."""
    lines = len(in_lines(options.say(_TRUST), width - 2 * _MARGIN, options.text_pt))
    return (2.8 + 1.2 * lines) * options.text_pt * POINT_MM


# ------------------------------------------------------------------------------------------------------------- rings
def _ring_sheet(basket: Basket, name: str, options: Options) -> Scene:
    """The whole base edge with its holes, or with ticks for stick ends and stakes; larger than a page if need be."""
    outline = basket.base.spec.outline
    inside = min(outline.length_mm, outline.width_mm) > _SQUARES_WIDE + 34.0
    below = 0.0 if inside else SQUARES_MM[1] + 4.0
    wide = max(outline.length_mm + 2 * _BORDER, _SQUARES_WIDE)
    high = outline.width_mm + 2 * _BORDER
    plate = Plate(wide + 2 * _MARGIN, high + below + _heading_high(wide + 2 * _MARGIN, options) + 2 * _MARGIN, options)
    middle = plate.width / 2, _MARGIN + below + high / 2
    holes = name == "sheet-hole-ring"
    _edges(plate, basket, middle, below=not holes)
    if holes:
        _holes(plate, basket, middle)
    else:
        _end_marks(plate, basket, middle)
    _axes(plate, (outline.length_mm / 2, outline.width_mm / 2), middle)
    slot = board_hole(basket).is_slot if holes else False
    title = message("figure-sheets.hole-ring", slot=slot) if holes else message("figure-sheets.marking-ring")
    _heading(plate, title, basket)
    squares = (
        _squares(plate, middle[0] - _SQUARES_WIDE / 2, middle[1] - SQUARES_MM[1] / 2)
        if inside
        else _squares(plate, _MARGIN, _MARGIN)
    )
    words = (
        message("figure-sheets.hole-ring-words", slot=slot) if holes else message("figure-sheets.marking-ring-words")
    )
    return plate.scene(
        name, title, words, seen_from=message("views.above" if holes else "views.below"), full_size=True,
        caption=message("captions.at-full-size-print-at", title=title),
        data={**squares, "centre": (round(middle[0], 3), round(plate.height - middle[1], 3))},
    )  # fmt: skip


def _edges(plate: Plate, basket: Basket, middle: tuple[float, float], *, below: bool) -> None:
    turn = np.array([1.0, -1.0 if below else 1.0])
    plate.outline(curve_points(basket.base.edge, 720) * turn + np.array(middle), width=0.5)
    if basket.base.hole_line is not None:
        line = curve_points(basket.base.hole_line, 720) * turn + np.array(middle)
        plate.outline(line, width=FINE, dash=(1.4, 0.8))


def _holes(plate: Plate, basket: Basket, middle: tuple[float, float]) -> None:
    _, line = board_of(basket)
    hole = board_hole(basket)
    spacing = line.perimeter / len(basket.base.holes)
    every = numbered_every(spacing, plate.wide("00") + 1.0)
    crosses = []
    for number, u in enumerate(basket.base.holes, start=1):
        (x, y), (nx, ny) = line.point(u), line.normal(u)
        px, py = x + middle[0], y + middle[1]
        cut_hole(plate, (px, py), (nx, ny), (hole.along_mm, hole.across_mm), width=FINE)
        crosses += [[(px - 1.6, py), (px + 1.6, py)], [(px, py - 1.6), (px, py + 1.6)]]
        away = hole.across_mm / 2 + 3.0
        if number == 1:
            plate.disc(px - nx * (away + 1.0), py - ny * (away + 1.0), "1", moved=True)
        elif is_numbered(number, len(basket.base.holes), every):
            plate.text(px - nx * away, py - ny * away, str(number))
    plate.lines(crosses, FINE)


def _end_marks(plate: Plate, basket: Basket, middle: tuple[float, float]) -> None:
    """Ticks across the edge where stick ends come, numbered, and short ones outside where stakes stand."""
    edge = basket.base.edge
    long, short = [], []
    spots: list[Spot] = []
    for end in basket.base.ends:
        (x, y), (nx, ny) = edge.point(end.u), edge.normal(end.u)
        px, py = x + middle[0], middle[1] - y
        long.append([(px - nx * 6.0, py + ny * 6.0), (px + nx * 4.0, py - ny * 4.0)])
        spots.append(text_spot(px - nx * 8.4, py + ny * 8.4, str(end.number), plate.options.text_pt, bold=True))
    for stake in basket.stakes:
        (x, y), (nx, ny) = edge.point(stake.u), edge.normal(stake.u)
        px, py = x + middle[0], middle[1] - y
        short.append([(px, py), (px + nx * 5.0, py - ny * 5.0)])
    for chosen in counted_off(spots):
        plate.text(spots[chosen].x, spots[chosen].y, spots[chosen].words, bold=chosen == 0)
    plate.lines(long, 0.5)
    plate.lines(short, FINE)


def _axes(plate: Plate, half: tuple[float, float], middle: tuple[float, float]) -> None:
    x, y = middle
    axes = [[(x - half[0], y), (x + half[0], y)], [(x, y - half[1]), (x, y + half[1])]]
    plate.lines(axes, FINE, plate.quiet, (3.0, 0.8, 0.6, 0.8))


# ------------------------------------------------------------------------------------------------------------ strips
def _spacing_sheet(basket: Basket, options: Options) -> Scene:
    """Strips with a tick for every stake, for the base edge and for the rim, in as many rows as they take."""
    em = options.text_pt * POINT_MM
    room = options.sheet_mm[0] - 2 * _MARGIN - 6.0
    line = basket.base.hole_line or basket.base.edge
    strips: list[tuple[str, Curve, int]] = [("base", line, basket.working)]
    if basket.profile:
        strips.append(("rim", basket.rim, basket.rim_uprights))
    head = _heading_high(options.sheet_mm[0], options)
    rows_room = options.sheet_mm[1] - SQUARES_MM[1] - head - 4.0 * em - len(strips) * 2.0 * em
    most = max(1, int(rows_room / _STRIP_ROOM / len(strips)))
    rows = [min(most, int(np.ceil(curve.perimeter / room))) for _, curve, _ in strips]
    told = [
        options.say(
            message(
                f"figure-sheets.strip-{name}",
                count=count,
                apart=Length(curve.perimeter / count),
                round=Length(curve.perimeter),
            )
        )
        for name, curve, count in strips
    ]
    lines_told = [in_lines(said, options.sheet_mm[0] - 2 * _MARGIN, options.text_pt, bold=True) for said in told]
    tall = sum(rows) * _STRIP_ROOM + math.fsum(0.8 + 1.2 * len(lines) for lines in lines_told) * em
    plate = Plate(options.sheet_mm[0], tall + SQUARES_MM[1] + head + 4.0 * em, options)
    _heading(plate, message("figure-sheets.spacing-strips"), basket)
    squares = _squares(plate, _MARGIN, _MARGIN)
    y = plate.height - head - 0.2 * em
    data: dict[str, object] = dict(squares)
    for (name, curve, count), lines, said in zip(strips, rows, told, strict=True):
        spacing = curve.perimeter / count
        y -= plate.paragraph(_MARGIN, y, said, options.sheet_mm[0] - 2 * _MARGIN, bold=True)
        _rows(plate, (y - 0.2 * em, room), spacing, count, lines)
        data[f"{name}_spacing_mm"] = spacing
        y -= 0.8 * em + lines * _STRIP_ROOM
    return plate.scene(
        "sheet-spacing", message("figure-sheets.spacing-strips"), _strip_words(basket), full_size=True,
        seen_from=message("views.outside"), caption=message("captions.strips-with-a-tick-for"), data=data,
    )  # fmt: skip


def _rows(plate: Plate, place: tuple[float, float], spacing: float, count: int, lines: int) -> None:
    """A strip cut into rows; each row takes up where the one above ended, at the tick numbered alike."""
    (y, room), em = place, plate.em
    each = max(1, int(room / spacing))
    every = numbered_every(spacing, plate.wide(str(count)) + 0.6)
    first, left = 0, _MARGIN + 3.0
    for row in range(lines):
        last = min(first + each, count)
        level = y - row * _STRIP_ROOM - 3.0
        plate.line([(left, level), (left + (last - first) * spacing, level)], 0.4)
        ticks = [
            [(left + (n - first) * spacing, level), (left + (n - first) * spacing, level + 3.2)]
            for n in range(first, last + 1)
        ]
        plate.lines(ticks, 0.3)
        for n in range(first, last + 1):
            number = n % count + 1
            if n in (first, last) or (number % every == 0 and min(n - first, last - n) * spacing > 1.2 * em):
                plate.text(left + (n - first) * spacing, level - 0.8 * em, str(number), bold=number == 1)
        if last >= count:
            break
        first = last


def _strip_words(basket: Basket) -> Message:
    line = basket.base.hole_line or basket.base.edge
    rim = basket.rim_uprights if basket.profile and basket.rim_uprights else None
    return message(
        "figure-sheets.strips-words",
        count=basket.working,
        apart=Length(line.perimeter / basket.working),
        rim=rim,
        rim_apart=Length(basket.rim_spacing_mm) if rim else None,
    )


# ------------------------------------------------------------------------------------------------------- scarf gauge
def _scarf_sheet(basket: Basket, options: Options) -> Scene:
    """The taper of a scarf at full size, to hold the shaved piece against."""
    worked = next(item for item in basket.handles if scarfed(item))
    em, gauge = options.text_pt * POINT_MM, message("figure-sheets.scarf-gauge")
    lap, thick = scarf_lap(basket, worked), thickness(basket, worked)
    room = options.sheet_mm[0] - 2 * _MARGIN - 12.0
    shown = min(lap, room)
    thin = max(0.8, thick * 0.1)
    plate = Plate(
        options.sheet_mm[0], SQUARES_MM[1] + thick + 9.0 * em + _heading_high(options.sheet_mm[0], options), options
    )
    _heading(plate, gauge, basket)
    squares = _squares(plate, _MARGIN, _MARGIN)
    left, foot = _MARGIN, _MARGIN + SQUARES_MM[1] + 4.0 * em
    depth = thin + (thick - thin) * shown / lap
    shape = [
        (left, foot),
        (left + shown, foot),
        (left + shown + 10.0, foot),
        (left + shown + 10.0, foot + depth),
        (left + shown, foot + depth),
        (left, foot + thin),
    ]
    plate.area(shape, "#efe4c8", plate.ink, 0.3)
    words = message("figure-sheets.lap", lap=Length(lap), shown=None if shown == lap else Length(shown))
    plate.dimension((left, foot - 0.6 * em), (left + shown, foot - 0.6 * em), plate.say(words), above=False)
    shaved = message("figure-sheets.scarf-thick", thick=Length(thick), thin=Length(thin))
    plate.text(left, foot + thick + 1.6 * em, plate.say(shaved), "start")
    return plate.scene(
        "sheet-scarf-gauge", gauge,
        message("figure-sheets.scarf-words", thick=Length(thick), thin=Length(thin), lap=Length(lap)), full_size=True,
        seen_from=message("figure-handle.from-the-side"), caption=message("captions.the-taper-of-the-scarf"),
        data={**squares, "lap_mm": lap},
    )  # fmt: skip
