"""Where on a border figure something can be pointed at: on the stake meant, and in sight."""

from __future__ import annotations

import numpy as np

from slath.drawing.border.rods import Seen, seen
from slath.drawing.border.stretch import LIFT, Stretch, Window
from slath.drawing.paint.rods import Rod


def _on_page(stretch: Stretch, window: Window, stake: int, place: float) -> tuple[float, float]:
    """Where a stake lies on the page at a place counted from its own, after all it has done."""
    lift = LIFT if stretch.is_loose(stake) else 0.0
    line = stretch.course.line(stretch.done(stake), lift, lifted=stretch.earlier)
    chosen = line[[int(np.abs(line[:, 0] - place).argmin())]]
    page = window.place(chosen, float(stake))[0]
    return float(page[0]), float(page[1])


def spot_on(
    sight: Seen, stretch: Stretch, window: Window, stake: int, place: float, reach: float
) -> tuple[float, float]:
    """What is in sight of a stake nearest to a place on its way, no further off than `reach` stakes."""
    x, y = _on_page(stretch, window, stake, place)
    far = reach * window.spacing
    return sight.nearest(x, y, x - far, x + far)


def end_spot(sight: Seen, stretch: Stretch, window: Window, stake: int) -> tuple[float, float]:
    """In the space a stake ends in, or as near to it as its end shows."""
    leg = stretch.mine[-1]
    beyond = 0.25 if leg.ending == "down" else 0.75
    return spot_on(sight, stretch, window, stake, leg.ends + beyond, 0.8)


def loop_spot(stretch: Stretch, window: Window, rods: list[Rod], stake: int) -> tuple[float, float]:
    """On the loop a stake makes in this pass: its bend, or in a later pass where it is about to leave the face it is on."""
    place = stretch.mine[-1].ends - 0.35 if stretch.earlier else 0.45
    return spot_on(seen(rods, stake, window.sides), stretch, window, stake, place, 0.7)
