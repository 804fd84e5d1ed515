"""The rod painter: centre lines in depth become paths that lie over and under as the strands do.

Nothing else in the drawings decides what lies on top.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from slath.drawing.paint.curves import Numbers, resample
from slath.drawing.paint.layers import Cloud, Indices, crossings, in_sight, layering
from slath.drawing.paint.rods import CLOSE, Brush, Rod
from slath.drawing.paint.runs import LIGHT_STEPS, runs_of
from slath.drawing.paint.strokes import strokes
from slath.drawing.scene import Item

_FLAT_HIDES = 0.4  # share of its width by which a flat rod is taken to hide what lies behind it


class Painting(Struct, frozen=True):
    """What the painter made, with what a test needs to read over and under off it.

    `cloud` holds the n points in sight, `layer` (n,) the layer each was painted in, counted from the back; `released`
    counts the orders that could not be kept because rods lay over each other in a ring.
    """

    items: tuple[Item, ...]
    cloud: Cloud
    layer: Indices
    rods: Sequence[Rod] = ()
    released: int = 0

    def layer_at(self, rod: int, x: float, y: float) -> int:
        """The layer in which rod number `rod` was painted nearest to (x, y)."""
        mine = np.nonzero(self.cloud.rod == rod)[0]
        far = (self.cloud.at[mine, 0] - x) ** 2 + (self.cloud.at[mine, 1] - y) ** 2
        return int(self.layer[mine[int(far.argmin())]])


def paint(rods: Sequence[Rod], brush: Brush = CLOSE) -> Painting:
    """Paint rods back to front. Deterministic; the order of `rods` decides only what no depth decides."""
    cloud, brightness = _cloud(rods, brush.step)
    light = _light_steps(brightness)
    if brush.pixel:
        seen = in_sight(_hiding(cloud, rods), brush.pixel)
        cloud, light = cloud.only(seen), light[seen]
    touching = 1 + 1.2 * brush.gap / float(2 * np.median(cloud.radius))
    found = crossings(cloud, brush.near, brush.depth, wide=touching if brush.touching else brush.near)
    layers = layering(cloud, found)
    runs = runs_of(cloud, layers.layer, light, found)
    return Painting(tuple(strokes(runs, rods, brush)), cloud, layers.layer, rods, layers.released)


def _hiding(cloud: Cloud, rods: Sequence[Rod]) -> Cloud:
    """The cloud with flat rods no wider than they surely are from every side: seen edge on, they hide little."""
    share = np.array([1.0 if rod.across is None else _FLAT_HIDES for rod in rods])
    return replace(cloud, radius=cloud.radius * share[cloud.rod])


def _cloud(rods: Sequence[Rod], step: float) -> tuple[Cloud, Numbers]:
    """All rods in even steps of `step` diameters, and the brightness of every point."""
    lines, lights = [], []
    for rod in rods:
        if rod.brightness is None:
            (line,) = resample(rod.points, step * rod.diameter)
            lights.append(np.zeros(len(line)))
        else:
            line, light = resample(rod.points, step * rod.diameter, rod.brightness)
            lights.append(light)
        lines.append(line)
    counts = np.array([len(line) for line in lines])
    cloud = Cloud(
        at=np.vstack(lines),
        radius=np.repeat([rod.diameter / 2 for rod in rods], counts),
        rod=np.repeat(np.arange(len(rods)), counts),
        index=np.concatenate([np.arange(count) for count in counts]),
        last=np.repeat(counts - 1, counts),
    )
    return cloud, np.concatenate(lights)


def _light_steps(brightness: Numbers) -> Indices:
    """The nearest of the few brightness steps by which paths are merged."""
    return np.searchsorted((LIGHT_STEPS[1:] + LIGHT_STEPS[:-1]) / 2, brightness)
