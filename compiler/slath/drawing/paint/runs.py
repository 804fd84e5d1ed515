"""Runs: stretches of one rod painted in one go, their joints hidden under what is painted later."""

from __future__ import annotations

import numpy as np
from msgspec import Struct

from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.layers import Cloud, Crossings, Flags, Indices, bounds, ranges

LIGHT_STEPS = np.array([-0.44, -0.39, -0.34, -0.29, -0.24, -0.19, -0.14, -0.09, -0.04, 0.0, 0.05, 0.10])

_LAP_STEPS = 3  # points by which a run is painted again over the run below it, so that no cut shows at a joint


class Runs(Struct, frozen=True):
    """m runs over the n points of a cloud: `first` and `last` point, `layer`, `light` step, and how each end is made.

    `open_start`, `open_end`: the rod goes on there in another run (or out of sight). `covers` (n,) from 0 to 1: how
    much each point lies over something, fading along the rod, for the width of the paper gap.
    """

    cloud: Cloud
    first: Indices
    last: Indices
    layer: Indices
    light: Indices
    rod: Indices
    open_start: Flags
    open_end: Flags
    covers: Numbers


def runs_of(cloud: Cloud, layer: Indices, light: Indices, found: Crossings) -> Runs:
    """Cut the rods where layer or light changes, and lap the later-painted run over the earlier at each joint."""
    count = len(layer)
    linked = cloud.joined
    cut = ~(linked & (layer[1:] == layer[:-1]) & (light[1:] == light[:-1]))
    first = np.concatenate([[0], np.nonzero(cut)[0] + 1])
    last = np.concatenate([np.nonzero(cut)[0], [count - 1]])
    _, touched = bounds(layer, (found.under, found.over), count)
    run_layer, run_light = layer[first], light[first]
    first = _lapped(first, run_layer, layer, touched, linked, -1)
    last = _lapped(last, run_layer, layer, touched, linked, 1)
    return Runs(
        cloud, first, last, run_layer, run_light, cloud.rod[first],
        cloud.index[first] > 0, cloud.index[last] < cloud.last[last], _fading(found, linked, count),
    )  # fmt: skip


def _lapped(end: Indices, run_layer: Indices, layer: Indices, touched: Indices, linked: Flags, way: int) -> Indices:
    """Move run ends outwards over lower runs of the same rod while nothing painted between is touched."""
    end = end.copy()
    going = np.ones(len(end), bool)
    for _ in range(_LAP_STEPS):
        target = np.clip(end + way, 0, len(layer) - 1)
        bridge = np.minimum(end, target)
        going &= (target != end) & linked[np.minimum(bridge, len(linked) - 1)]
        going &= (layer[target] < run_layer) & (touched[target] > run_layer)
        end = np.where(going, target, end)
    return end


def _fading(found: Crossings, linked: Flags, count: int) -> Numbers:
    """1 at points that lie over another rod, falling to 0 over the next three points along their own."""
    covers = np.zeros(count)
    covers[found.ordered[1]] = 1.0
    for _ in range(3):
        grown = covers.copy()
        grown[1:] = np.maximum(grown[1:], np.where(linked, covers[:-1] - 0.3, 0.0))
        grown[:-1] = np.maximum(grown[:-1], np.where(linked, covers[1:] - 0.3, 0.0))
        covers = grown
    return covers


class Lines(Struct, frozen=True):
    """The centre lines of all runs end to end: `at` (k, 2), unit `normal` (k, 2), `run` (k,) and the span of each run."""

    at: Numbers
    normal: Numbers
    run: Indices
    start: Indices
    end: Indices
    covers: Numbers
    along: Numbers


def lines_of(runs: Runs) -> Lines:
    """Centre lines from half-way joint to half-way joint, with normals and the distance along each."""
    linked = np.concatenate([[False], runs.cloud.joined, [False]])
    before, after = linked[runs.first], linked[runs.last + 1]
    count = runs.last - runs.first + 1 + before + after
    point = ranges(runs.first - before, count)
    end = np.cumsum(count)
    start = end - count
    partner = point.copy()
    partner[start[before]] += 1
    partner[end[after] - 1] -= 1
    at = (runs.cloud.at[point, :2] + runs.cloud.at[partner, :2]) / 2
    covers = (runs.covers[point] + runs.covers[partner]) / 2
    run = np.repeat(np.arange(len(count)), count)
    ahead = np.minimum(np.arange(len(at)) + 1, end[run] - 1)
    behind = np.maximum(np.arange(len(at)) - 1, start[run])
    course = at[ahead] - at[behind]
    course /= np.hypot(course[:, 0], course[:, 1])[:, None] + 1e-12
    step = np.hypot(*(at - at[behind]).T)
    along = np.cumsum(step)
    along -= along[start][run]
    return Lines(at, np.column_stack([-course[:, 1], course[:, 0]]), run, start, end, covers, along)
