"""Sheets printed at full size and laid against the work: marking ring, hole ring, spacing strips, scarf gauge.

Each carries a square of 50 mm and one of 2 in, to be measured before the sheet is trusted.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from slath.basket.model import Basket, Curve
from slath.drawing.board_plan import hole_mm, numbered_every
from slath.drawing.curves import Numbers
from slath.drawing.handle_parts import scarf_lap, thickness
from slath.drawing.lettering import POINT_MM
from slath.drawing.options import Options
from slath.drawing.plans import curve_points
from slath.drawing.plate import FINE, Plate
from slath.drawing.scene import Scene
from slath.language.pattern import Board
from slath.units.printing import INCH_MM

SQUARES_MM = (50.0, 2 * INCH_MM)
_MARGIN = 2.0
_STRIP_ROOM = 11.0  # mm of height for one row of a spacing strip


@dataclass(frozen=True, slots=True)
class _Cut:
    """The part of a ring that goes on a sheet: whole, the upper half, or the upper right quarter."""

    name: str
    low_x: float
    low_y: float
    high_x: float
    high_y: float

    @property
    def size(self) -> tuple[float, float]:
        """Width and height, mm."""
        return self.high_x - self.low_x, self.high_y - self.low_y


def sheet_names(basket: Basket, options: Options) -> list[str]:
    """The sheets this basket has, that fit the paper."""
    names = []
    ring = _ring_cut(basket, options)
    if ring and basket.base.holes:
        names.append("sheet-hole-ring")
    elif ring and basket.base.sticks:
        names.append("sheet-marking-ring")
    if basket.stakes:
        names.append("sheet-spacing")
    if any(worked.spec.pieces > 1 and worked.spec.kind in {"two-piece", "bow", "ring"} for worked in basket.handles):
        names.append("sheet-scarf-gauge")
    return names


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
    for side, words, key in zip(SQUARES_MM, ("50 mm", "2 in"), ("square_50_mm", "square_2_in"), strict=True):
        plate.area([(x, y), (x + side, y), (x + side, y + side), (x, y + side)], None, plate.ink, 0.3)
        plate.text(x + side / 2, y + side / 2 + 0.7 * em, words, bold=True)
        plate.text(x + side / 2, y + side / 2 - 0.7 * em, "measure me")
        left = plate.width - x - side if plate.options.mirrored else x
        placed[key] = (round(left, 3), round(plate.height - y - side, 3), side, side)
        x += side + 3.0
    return placed


_SQUARES_WIDE = sum(SQUARES_MM) + 3.0


def _heading(plate: Plate, title: str, basket: Basket) -> None:
    em = plate.em
    plate.text(_MARGIN, plate.height - 1.0 * em, f"{title}, size {basket.size}", "start", bold=True)
    plate.text(_MARGIN, plate.height - 2.4 * em, "Print at 100 %, not fitted to the page; measure a square before use.", "start")


# ------------------------------------------------------------------------------------------------------------- rings
def _ring_cut(basket: Basket, options: Options) -> _Cut | None:
    """How much of the base edge fits on one sheet below its heading; None if not even a quarter does."""
    outline = basket.base.spec.outline
    half_x, half_y = outline.length_mm / 2, outline.width_mm / 2
    room_x = options.sheet_mm[0] - 2 * _MARGIN
    room_y = options.sheet_mm[1] - 5 * options.text_pt * POINT_MM - 2 * _MARGIN
    inside = min(2 * half_x, 2 * half_y) > _SQUARES_WIDE + 34.0
    spare = SQUARES_MM[1] + 4.0
    edge = 8.0
    cuts = (
        _Cut("whole ring", -half_x - edge, -half_y - edge, half_x + edge, half_y + edge),
        _Cut("half ring", -half_x - edge, -edge, half_x + edge, half_y + edge),
        _Cut("quarter ring", -edge, -edge, half_x + edge, half_y + edge),
    )
    for cut in cuts:
        wide, high = cut.size
        needed = high if inside and cut.name == "whole ring" else high + spare
        if max(wide, _SQUARES_WIDE) <= room_x and needed <= room_y:
            return cut
    return None


def _ring_sheet(basket: Basket, name: str, options: Options) -> Scene:
    cut = _ring_cut(basket, options)
    assert cut is not None
    base = basket.base
    em = options.text_pt * POINT_MM
    wide, high = cut.size
    outline = base.spec.outline
    inside = cut.name == "whole ring" and min(outline.length_mm, outline.width_mm) > _SQUARES_WIDE + 34.0
    below = 0.0 if inside else SQUARES_MM[1] + 4.0
    plate = Plate(max(wide, _SQUARES_WIDE) + 2 * _MARGIN, high + below + 4.0 * em + 2 * _MARGIN, options)
    x = plate.width / 2 - (cut.low_x + cut.high_x) / 2
    y = _MARGIN + below - cut.low_y
    holes = name == "sheet-hole-ring"
    # A hole ring lies on the board and is read from above; a marking ring lies under a base seen from below.
    turn = 1.0 if holes else -1.0
    _edges(plate, basket, cut, (x, y), turn)
    if holes:
        _holes(plate, basket, cut, (x, y))
    else:
        _end_marks(plate, basket, cut, (x, y))
    _axes(plate, cut, (x, y))
    title = "Hole ring" if holes else "Marking ring"
    _heading(plate, f"{title} ({cut.name})" if cut.name != "whole ring" else title, basket)
    squares = _squares(plate, x - _SQUARES_WIDE / 2, y - SQUARES_MM[1] / 2) if inside else _squares(plate, _MARGIN, _MARGIN)
    rest = {"whole ring": "", "half ring": " Turn it round for the other half.", "quarter ring": " Turn it over on its axes for the other quarters."}[cut.name]
    words = (
        f"A {cut.name} at full size. {'Prick through every hole centre; ' if holes else 'Lay the woven base on it; '}"
        f"{'the first hole is marked 1.' if holes else 'ticks show where each stick end should come.'}{rest}"
    )
    return plate.scene(
        name, title, words, seen_from="above" if holes else "below", full_size=True,
        caption=f"{title} at full size. Print at 100 %.{rest}",
        data={**squares, "centre": (round(x, 3), round(plate.height - y, 3)), "part": cut.name},
    )  # fmt: skip


def _kept(cut: _Cut, points: Numbers) -> Numbers:
    """The stretch of a closed line inside the cut, as one open line (or the closed line itself)."""
    inside = (points[:, 0] >= cut.low_x) & (points[:, 0] <= cut.high_x) & (points[:, 1] >= cut.low_y) & (points[:, 1] <= cut.high_y)
    if inside.all():
        return np.vstack([points, points[:1]])
    start = int(np.nonzero(inside & ~np.roll(inside, 1))[0][0])
    turned = np.roll(points, -start, axis=0)
    return np.asarray(turned[np.roll(inside, -start)])


def _edges(plate: Plate, basket: Basket, cut: _Cut, at: tuple[float, float], turn: float) -> None:
    base = basket.base
    line = curve_points(base.edge, 720) * np.array([1.0, turn])
    plate.line(_kept(cut, line) + np.array(at), 0.5)
    if base.hole_line is not None:
        line = curve_points(base.hole_line, 720) * np.array([1.0, turn])
        plate.line(_kept(cut, line) + np.array(at), FINE, dash=(1.4, 0.8))


def _in_cut(cut: _Cut, x: float, y: float) -> bool:
    return cut.low_x <= x <= cut.high_x and cut.low_y <= y <= cut.high_y


def _holes(plate: Plate, basket: Basket, cut: _Cut, at: tuple[float, float]) -> None:
    line, spec = basket.base.hole_line, basket.base.spec
    assert line is not None
    assert isinstance(spec, Board)
    radius = hole_mm(basket) / 2
    spacing = line.perimeter / len(basket.base.holes)
    every = numbered_every(spacing, plate.wide("00") + 1.0)
    crosses = []
    for number, u in enumerate(basket.base.holes, start=1):
        x, y = line.point(u)
        if not _in_cut(cut, x, y):
            continue
        px, py = x + at[0], y + at[1]
        plate.circle(px, py, radius, width=FINE)
        crosses += [[(px - 1.6, py), (px + 1.6, py)], [(px, py - 1.6), (px, py + 1.6)]]
        if number == 1 or number % every == 0:
            nx, ny = line.normal(u)
            away = radius + 3.0
            if number == 1:
                plate.disc(px - nx * (away + 1.0), py - ny * (away + 1.0), "1", moved=True)
            else:
                plate.text(px - nx * away, py - ny * away, str(number))
    plate.lines(crosses, FINE)


def _end_marks(plate: Plate, basket: Basket, cut: _Cut, at: tuple[float, float]) -> None:
    """Ticks across the edge where stick ends come, numbered, and short ones where stakes stand."""
    edge = basket.base.edge
    long, short = [], []
    for end in basket.base.ends:
        (x, y), (nx, ny) = edge.point(end.u), edge.normal(end.u)
        if _in_cut(cut, x, -y):
            px, py = x + at[0], at[1] - y
            long.append([(px - nx * 6.0, py + ny * 6.0), (px + nx * 4.0, py - ny * 4.0)])
            plate.text(px - nx * 8.4, py + ny * 8.4, str(end.number), bold=end.number == 1)
    for stake in basket.stakes:
        (x, y), (nx, ny) = edge.point(stake.u), edge.normal(stake.u)
        if _in_cut(cut, x, -y):
            px, py = x + at[0], at[1] - y
            short.append([(px, py), (px + nx * 5.0, py - ny * 5.0)])
    plate.lines(long, 0.5)
    plate.lines(short, FINE)


def _axes(plate: Plate, cut: _Cut, at: tuple[float, float]) -> None:
    x, y = at
    plate.lines([[(x + cut.low_x, y), (x + cut.high_x, y)], [(x, y + cut.low_y), (x, y + cut.high_y)]], FINE, plate.quiet, (3.0, 0.8, 0.6, 0.8))


# ------------------------------------------------------------------------------------------------------------ strips
def _spacing_sheet(basket: Basket, options: Options) -> Scene:
    """Strips with a tick for every stake, for the base edge and for the rim, in as many rows as they take."""
    em = options.text_pt * POINT_MM
    room = options.sheet_mm[0] - 2 * _MARGIN - 6.0
    line = basket.base.hole_line or basket.base.edge
    strips: list[tuple[str, Curve, int]] = [("base", line, basket.working)]
    if basket.profile:
        strips.append(("rim", basket.rim, basket.rim_uprights))
    rows_room = options.sheet_mm[1] - SQUARES_MM[1] - 8.0 * em - len(strips) * 2.0 * em
    most = max(1, int(rows_room / _STRIP_ROOM / len(strips)))
    rows = [min(most, int(np.ceil(curve.perimeter / room))) for _, curve, _ in strips]
    tall = sum(rows) * _STRIP_ROOM + len(strips) * 2.0 * em
    plate = Plate(options.sheet_mm[0], tall + SQUARES_MM[1] + 8.0 * em, options)
    _heading(plate, "Spacing strips", basket)
    squares = _squares(plate, _MARGIN, _MARGIN)
    y = plate.height - 4.2 * em
    data: dict[str, object] = dict(squares)
    for (name, curve, count), lines in zip(strips, rows, strict=True):
        spacing = curve.perimeter / count
        measure = options.measure
        said = f"{name}: {count} {options.term('stakes')}, {measure(spacing)} apart, {measure(curve.perimeter)} round"
        plate.text(_MARGIN, y, said, "start", bold=True)
        _rows(plate, (y - 1.4 * em, room), spacing, count, lines)
        data[f"{name}_spacing_mm"] = spacing
        y -= 2.0 * em + lines * _STRIP_ROOM
    return plate.scene(
        "sheet-spacing", "Spacing strips", _strip_words(basket, options), full_size=True,
        caption="Strips with a tick for every stake, at full size. Print at 100 %.", data=data,
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
        ticks = [[(left + (n - first) * spacing, level), (left + (n - first) * spacing, level + 3.2)] for n in range(first, last + 1)]
        plate.lines(ticks, 0.3)
        for n in range(first, last + 1):
            number = n % count + 1
            if n in (first, last) or (number % every == 0 and min(n - first, last - n) * spacing > 1.2 * em):
                plate.text(left + (n - first) * spacing, level - 0.8 * em, str(number), bold=number == 1)
        if last >= count:
            break
        first = last


def _strip_words(basket: Basket, options: Options) -> str:
    measure = options.measure
    line = basket.base.hole_line or basket.base.edge
    said = f"At the base {basket.working} {options.term('stakes')} stand {measure(line.perimeter / basket.working)} apart"
    if basket.profile and basket.rim_uprights:
        said += f"; at the rim {basket.rim_uprights} stand {measure(basket.rim_spacing_mm)} apart"
    return f"{said}. Cut the strips out, lay them along the edge, and even the {options.term('stakes')} out to the ticks."


# ------------------------------------------------------------------------------------------------------- scarf gauge
def _scarf_sheet(basket: Basket, options: Options) -> Scene:
    """The taper of a scarf at full size, to hold the shaved piece against."""
    worked = next(item for item in basket.handles if item.spec.pieces > 1)
    em, measure = options.text_pt * POINT_MM, options.measure
    lap, thick = scarf_lap(basket, worked), thickness(basket, worked)
    room = options.sheet_mm[0] - 2 * _MARGIN - 12.0
    shown = min(lap, room)
    thin = max(0.8, thick * 0.1)
    plate = Plate(options.sheet_mm[0], SQUARES_MM[1] + thick + 13.0 * em, options)
    _heading(plate, "Scarf gauge", basket)
    squares = _squares(plate, _MARGIN, _MARGIN)
    left, foot = _MARGIN, _MARGIN + SQUARES_MM[1] + 4.0 * em
    depth = thin + (thick - thin) * shown / lap
    shape = [(left, foot), (left + shown, foot), (left + shown + 10.0, foot), (left + shown + 10.0, foot + depth), (left + shown, foot + depth), (left, foot + thin)]
    plate.area(shape, "#efe4c8", plate.ink, 0.3)
    words = f"lap {measure(lap)}" if shown == lap else f"the first {measure(shown)} of the lap of {measure(lap)}"
    plate.dimension((left, foot - 0.6 * em), (left + shown, foot - 0.6 * em), words, above=False)
    plate.text(left, foot + thick + 1.6 * em, f"{measure(thick)} thick, shaved to {measure(thin)}", "start")
    return plate.scene(
        "sheet-scarf-gauge", "Scarf gauge", f"Shave each piece from its full {measure(thick)} to {measure(thin)} over {measure(lap)}.",
        full_size=True, caption="The taper of the scarf at full size. Print at 100 %.", data={**squares, "lap_mm": lap},
    )  # fmt: skip
