"""Whether a figure drawn for little room can still be read: all its lettering inside it, and no label over another."""

from __future__ import annotations

import math
from itertools import combinations

from slath.drawing.plate.lettering import CAP_HEIGHT, POINT_MM, word_width
from slath.drawing.scene import Scene, Text, every_item

EDGE = 0.6  # mm a label may stick out; page margins take it
OVERLAP = 0.45  # mm two labels may overlap: letters have room around them

Box = tuple[float, float, float, float]  # left, top, right, bottom


def can_be_read(scene: Scene) -> bool:
    """Whether every label of ``scene`` lies inside it and clear of the others."""
    boxes = [
        _box(item) for item in every_item(scene.items, strands=False) if isinstance(item, Text) and item.words.strip()
    ]
    inside = all(
        left >= -EDGE and top >= -EDGE and right <= scene.width + EDGE and bottom <= scene.height + EDGE
        for left, top, right, bottom in boxes
    )
    return inside and not any(_over(one, other) for one, other in combinations(boxes, 2))


def _box(label: Text) -> Box:
    """The upright rectangle around a label in scene millimetres."""
    width = word_width(label.words, label.size_pt, bold=label.bold)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    turn = math.radians(label.turn)
    corners = [
        (x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn))
        for x in (left, left + width)
        for y in (0.0, -CAP_HEIGHT * label.size_pt * POINT_MM)
    ]
    xs, ys = [label.x + x for x, _ in corners], [label.y + y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _over(one: Box, other: Box) -> bool:
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > OVERLAP and down > OVERLAP
