"""The panel of a stroke that shows where a short row turns: round its last stake, and back on top of itself."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from slath.basket.model import WovenBand
from slath.drawing.paint.curves import Numbers, monotone
from slath.drawing.strokes.panel import Panel

_BACK = 3  # stakes passed on the way back, or one less: the last of them behind, so that the end hangs outside
_ROUND = 0.42  # of a space by which the bend stands past its stake
_HANG, _TIP = 0.95, 0.62  # spaces by which the end hangs down, and out beside its space


def turned_at(band: WovenBand) -> int:
    """The stake round which the first row of packing turns; 0 for other weaving."""
    cells = band.spec.cells
    return cells[0].stakes[1] if band.spec.weave.kind == "packing" and cells else 0


def draw_turn(panel: Panel, last: int) -> None:
    """A row that comes to its last stake, turns round it, and goes back meeting every stake on its other face."""
    grid, band = panel.grid, panel.band
    turn = grid.last - 1  # where the last stake stands
    shown = replace(band, start=last - turn)
    own = Panel(panel.plate, shown, panel.clothes, panel.letters, grid, panel.left, panel.top, above=panel.above)
    before = [(last - turn + place - band.start) % 2 == 0 for place in range(grid.first, turn + 1)]
    along, height, depth = _way(own, before, turn)
    front = np.column_stack([along, height + own.row, depth])
    own.show(front, np.column_stack([along, own.section - depth, height]))


def _way(panel: Panel, before: list[bool], turn: int) -> tuple[Numbers, Numbers, Numbers]:
    """Along the page, height over the row and depth of the strand, from the left of the panel to its hanging end."""
    grid = panel.grid
    reach, step = (grid.stake + grid.strand) / 2, 1.06 * grid.strand
    knots = [(grid.first - 0.05, 0.0, 0.0)]
    for place, face in enumerate(before, start=grid.first):
        knots += [(place + 0.5, 0.0, reach if face else -reach), (place + 1.0, 0.0, 0.0)]
    knots[-1] = (turn + 0.5 + _ROUND, step / 2, 0.0)
    back = before[::-1][:_BACK]
    back = back if back[-1] else back[:-1]  # it goes behind what the row went before
    for gone, face in enumerate(back):
        place = turn - gone
        knots += [(place + 0.5, step, -reach if face else reach), (float(place), step, 0.0)]
    space = knots[-1][0]
    drop = _HANG * grid.spacing
    knots[-1] = (space, step, 0.9 * grid.strand)
    knots += [(space - 0.32, step - 0.3 * drop, 2.1 * grid.strand), (space - _TIP, step - drop, 2.7 * grid.strand)]
    at = np.array(knots)
    way = np.arange(len(at), dtype=float)
    fine = np.linspace(0.0, way[-1], 14 * len(at))
    along = np.array([panel.x(place) for place in monotone(way, at[:, 0], fine).tolist()])
    return along, monotone(way, at[:, 1], fine), monotone(way, at[:, 2], fine)
