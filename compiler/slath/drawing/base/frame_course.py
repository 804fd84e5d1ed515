"""A woven frame as centre lines: rows that cross its sticks from side to side and turn back at each edge."""

from __future__ import annotations

import numpy as np

from slath.basket.model import ConstructedBase, WovenBand
from slath.basket.weave import faces_of
from slath.drawing.base.course import StrandCourse
from slath.drawing.paint.curves import Numbers, monotone

_ROWS_END = 0.6  # of a pitch by which a turning strand stands out beyond the outer sticks


def frame_strands(base: ConstructedBase, stick_mm: float) -> list[StrandCourse]:
    """Every strand of a frame's bands, running across the sticks that lie lengthwise; points (n, 3) as for a slath."""
    sticks = sorted({stick.start[1] for stick in base.sticks if stick.kind == "lengthwise"})
    found: list[StrandCourse] = []
    left = -base.spec.outline.length_mm / 2
    for number, band in enumerate(base.bands):
        strands = band.materials[0] if band.materials else ()
        for place, material in enumerate(strands):
            beside = (place - (len(strands) - 1) / 2) * band.pitch.value / max(len(strands), 1)
            line = _rows(band, sticks, left + band.from_mm + beside, stick_mm)
            if len(line) > 1:
                found.append(StrandCourse(0, material, line, (number, number)))
    return found


def _rows(band: WovenBand, sticks: list[float], start: float, stick_mm: float) -> Numbers:
    pitch, faces = band.pitch.value, faces_of(band.spec.weave.strokes)
    reach = (stick_mm + pitch) / 2
    knots: list[tuple[float, float, float]] = []
    passed = 0
    for row in range(len(band.rounds)):
        x = start + (row + 0.5) * pitch
        way = sticks if row % 2 == 0 else sticks[::-1]
        turn = 1.0 if row % 2 == 0 else -1.0
        for step, y in enumerate(way):
            face = faces[(passed + step) % len(faces)]  # round the outer stick and back: the next row alternates
            knots.append((x, y, reach if face == "before" else -reach))
        passed += len(way)
        knots.append((x + 0.5 * pitch, way[-1] + turn * (stick_mm / 2 + _ROWS_END * pitch), 0.0))
    if not knots:
        return np.zeros((0, 3))
    line = np.array(knots)
    at = np.arange(len(line), dtype=float)
    fine = np.linspace(0.0, at[-1], 6 * len(line))
    return np.column_stack(
        [monotone(at, line[:, 0], fine), monotone(at, line[:, 1], fine), monotone(at, line[:, 2], fine)]
    )
