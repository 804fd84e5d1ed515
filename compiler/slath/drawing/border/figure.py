"""Each pass of a border: how it starts and what stays loose, one stake's whole way, how it finishes and turns on."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from slath.basket.model import Basket
from slath.drawing.border.notes import border_notes
from slath.drawing.border.rods import Seen, seen, stake_rods, wall_rods
from slath.drawing.border.stretch import PHASES, Phase, Stretch, Window
from slath.drawing.border.telling import border_title, border_words
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width
from slath.drawing.plate.note_blocks import LEADING, notes_height, place_notes
from slath.drawing.plate.plate import Plate
from slath.drawing.scene import Scene
from slath.messages import message
from slath.units.colour import lightness

_PHASE: dict[str, Phase] = {phase: phase for phase in PHASES}
_BRUSH = Brush(gap=0.28, edge=0.28, depth=0.05)
_BOARD = 1.6  # diameters of a board's edge that show below a foot border


def border_names(basket: Basket) -> list[str]:
    """Names of the border figures in working order, foot border first."""
    names: list[str] = []
    for border, stem in ((basket.foot, "foot-border"), (basket.border, "border")):
        if border and border.passes and border.closes:
            names += [f"{stem}-{worked.number}-{phase}" for worked in border.passes for phase in PHASES]
    return names


def draw_border(basket: Basket, name: str, clothes: Wardrobe, options: Options) -> Scene:
    """The border figure called `name` (see `border_names`)."""
    foot = name.startswith("foot-")
    number, phase = name.removeprefix("foot-").split("-")[1:]
    border = basket.foot if foot else basket.border
    if border is None:
        raise KeyError(name)
    return _scene(Stretch(basket, border, int(number), _PHASE[phase], clothes, options), name)


def _scene(stretch: Stretch, name: str) -> Scene:
    """The figure with its notes."""
    options, em = stretch.options, stretch.options.text_pt * POINT_MM
    flat = stake_rods(stretch, stretch.window)
    below = list(wall_rods(stretch, stretch.window))
    high = max(float(rod.points[:, 1].max()) for rod in flat) + stretch.window.stake
    low = min(float(rod.points[:, 1].min()) for rod in [*flat, *below]) - 0.6
    told = _seen_from(stretch)
    foot, frame = (3.3 + LEADING * (len(told) - 1)) * em, 1.7 * em
    window = replace(stretch.window, base=foot - low)
    rods = stake_rods(stretch, window)
    notes = border_notes(stretch, window, rods)
    top = foot + (high - low) + 1.2 * em
    plate = Plate(options.width_mm, top + notes_height(notes, options) + frame, options)
    left, right = window.sides
    painted = [*wall_rods(stretch, window), *rods]
    plate.rods(painted, _BRUSH, (left, 0.0, right - left, plate.height), name="border")
    if stretch.border.spec.foot and not below and stretch.basket.base.holes:
        _board(plate, window)
    for stake in stretch.finishers if stretch.phase == "finish" else [stretch.picked]:
        _marked_way(plate, stretch, window, rods, stake, [spot for note in notes for spot in note.spots])
    _numbers(plate, stretch, window, foot)
    _frame(plate, stretch, told)
    place_notes(plate, notes, top)
    side, title = stretch.sides[0], border_title(stretch)
    return plate.scene(
        name, title, border_words(stretch), seen_from=message("figure-border.seen-from", side=side),
        caption=message("figure-border.caption", title=title, side=side),
        data={"pass": stretch.worked.number, "phase": stretch.phase, "loose": stretch.worked.loose},
    )  # fmt: skip


def _numbers(plate: Plate, stretch: Stretch, window: Window, foot: float) -> None:
    """Stake numbers under the stakes; every second one where they would run into each other."""
    stakes = range(window.first, window.last + 1)
    widest = max(plate.wide(str(stretch.number(stake)), bold=True) for stake in stakes)
    step = 1 if widest + 0.4 * plate.em < window.spacing else 2
    for stake in stakes:
        if (stake - stretch.picked) % step == 0:
            plate.text(window.x(stake), foot - 0.9 * plate.em, str(stretch.number(stake)), bold=True)


def _seen_from(stretch: Stretch) -> list[str]:
    """How the work is held and seen, and what its numbers count, in lines beside the name of the near side."""
    side, options, together = stretch.sides[0], stretch.options, None
    if stretch.together == 2:
        together = message("figure-border.of-pairs")
    elif stretch.together > 2:
        together = message("figure-border.of-groups", count=stretch.together)
    held = message("figure-border.held", foot=stretch.border.spec.foot, side=side, together=together)
    near = options.say(message("figure-border.side", side=side))
    room = options.width_mm - 2.0 - word_width(near, options.text_pt) - options.text_pt * POINT_MM
    return in_lines(options.say(held), room, options.text_pt)


def _frame(plate: Plate, stretch: Stretch, told: list[str]) -> None:
    """Which way the work runs, which side is which, and where it is seen from."""
    em, inside = plate.em, stretch.window.inside
    near, far = (plate.say(message("figure-border.side", side=side)) for side in stretch.sides)
    level, long = plate.height - 0.8 * em, 3.2 * em
    plate.arrow([(1.0 + long, level), (1.0, level)] if inside else [(1.0, level), (1.0 + long, level)], 0.5)
    plate.text(1.0 + long + 0.5 * em, level, plate.say(message("figure-border.work-to", back=inside)), "start")
    plate.text(plate.width - 1.0, level, far, "end", italic=True)
    plate.text(plate.width - 1.0, 0.8 * em, near, "end", italic=True)
    for place, line in enumerate(reversed(told)):
        plate.text(1.0, (0.8 + LEADING * place) * em, line, "start", colour=plate.quiet)


def _board(plate: Plate, window: Window) -> None:
    """The edge of the board that the stakes of a foot come through."""
    top = window.base - 1.2 * window.stake
    left, right = window.sides
    low = top - _BOARD * window.stake
    plate.area([(left, low), (right, low), (right, top), (left, top)], "#e3d3b4", plate.quiet)


def _marked_way(
    plate: Plate, stretch: Stretch, window: Window, rods: list[Rod], stake: int, spots: list[tuple[float, float]]
) -> None:
    """Arrow heads on a stake, one on every stretch of its way that is in sight, pointing as it moves, clear of `spots`;
    in later passes its hidden way is dashed as well.
    """
    begins = stretch.mine[0].begins + (0.6 if stretch.earlier else -1.0)
    sight = seen(rods, stake, window.sides)
    if stretch.earlier:
        _hidden_way(plate, window, sight, stake + begins)
    look = next(rod.dress for rod in rods if rod.name == f"stake {stake}")
    colour = plate.paper if lightness(look.tones.body) < 60 else plate.ink
    size = min(0.6 * window.stake, 2.2)
    heads = []
    for part in sight.stretches(2.6 * size):
        place = _clear_place(part, spots, size)
        if window.along(part[[place], 0])[0] - stake >= begins:
            heads.append(_head(part, place, size))
    plate.areas(heads, colour)


def _hidden_way(plate: Plate, window: Window, sight: Seen, begins: float) -> None:
    """The way of a stake from the place it `begins` on where it is worked in under others, dashed through what covers it."""
    left, right = window.sides
    at = sight.line[:, 0]
    begun = window.along(at) >= begins
    for part in sight.covered((at > left) & (at < right) & begun, 1.1 * window.stake):
        plate.line(part[:, :2], 0.9, plate.paper)
        plate.line(part[:, :2], 0.4, dash=(1.1, 0.7))


def _clear_place(part: Numbers, spots: list[tuple[float, float]], size: float) -> int:
    """Where on a stretch a head stands: the middle, or where the spots of the notes leave it most room."""
    middle = len(part) // 2
    if not spots:
        return middle
    apart = np.hypot(part[:, None, 0] - np.array(spots)[:, 0], part[:, None, 1] - np.array(spots)[:, 1]).min(axis=1)
    if apart[middle] > size:
        return middle
    low, high = len(part) // 5, max(len(part) - len(part) // 5, len(part) // 5 + 1)
    return low + int(apart[low:high].argmax())


def _head(part: Numbers, middle: int, size: float) -> Numbers:
    """An arrow head on a stretch."""
    at = part[middle, :2]
    course = part[min(middle + 2, len(part) - 1), :2] - part[max(middle - 2, 0), :2]
    course = course / (np.hypot(*course) + 1e-9)
    side = np.array([-course[1], course[0]])
    tip, tail = at + course * size * 0.6, at - course * size * 0.4
    return np.array([tip, tail + side * size * 0.42, tail - side * size * 0.42])
