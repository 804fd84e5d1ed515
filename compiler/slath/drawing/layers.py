"""Over and under: which points of which rods cover which, what is hidden, and in how few layers all can be painted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from slath.drawing.curves import Numbers

Indices = NDArray[np.intp]
Flags = NDArray[np.bool_]

_SAME_ROD_STEPS = 8  # points of one rod nearer than this along it are one piece of rod, not a crossing


@dataclass(frozen=True, slots=True)
class Cloud:
    """Points of all rods end to end: `at` (n, 3) mm, `radius` (n,), `rod` (n,), `index` and `last` index in its rod."""

    at: Numbers
    radius: Numbers
    rod: Indices
    index: Indices
    last: Indices

    def only(self, kept: Flags) -> Cloud:
        """The points flagged, in the same order."""
        return Cloud(self.at[kept], self.radius[kept], self.rod[kept], self.index[kept], self.last[kept])

    @property
    def joined(self) -> Flags:
        """(n - 1,) whether each point and the next are neighbours on one rod."""
        return np.asarray((self.rod[1:] == self.rod[:-1]) & (self.index[1:] == self.index[:-1] + 1))


def ranges(start: Indices, count: Indices) -> Indices:
    """The numbers start[i] .. start[i] + count[i] - 1 of every i, end to end."""
    total = int(count.sum())
    ends = np.cumsum(count)
    return np.asarray(np.arange(total) + np.repeat(start - (ends - count), count), np.intp)


def in_sight(cloud: Cloud, pixel: float) -> Flags:
    """Points of which some pixel is frontmost, with one neighbour each side; discs stamped in a depth map."""
    at, radius = cloud.at, cloud.radius
    origin = at[:, :2].min(axis=0) - 2 * radius.max()
    cells = ((at[:, :2] - origin) / pixel).astype(np.intp)
    width = int(cells[:, 0].max()) + int(2 * radius.max() / pixel) + 3
    height = int(cells[:, 1].max()) + int(2 * radius.max() / pixel) + 3
    depth = np.full(width * height, -np.inf)
    place = cells[:, 1] * width + cells[:, 0]
    seen = np.zeros(len(at), bool)
    stamps = list(_stamps(radius, pixel, width))
    for chosen, shift in stamps:
        np.maximum.at(depth, place[chosen] + shift, at[chosen, 2])
    for chosen, shift in stamps:
        seen[chosen] |= at[chosen, 2] >= depth[place[chosen] + shift] - radius[chosen] * 0.25
    joined = cloud.joined
    wider = seen.copy()
    wider[1:] |= seen[:-1] & joined
    wider[:-1] |= seen[1:] & joined
    return wider


def _stamps(radius: Numbers, pixel: float, width: int) -> Iterator[tuple[Indices, int]]:
    reach = int(radius.max() / pixel) + 1
    for down in range(-reach, reach + 1):
        for across in range(-reach, reach + 1):
            far = (down * down + across * across) * pixel * pixel
            chosen = np.nonzero(far < (radius * 0.92) ** 2)[0]
            if len(chosen):
                yield chosen, down * width + across


@dataclass(frozen=True, slots=True)
class Crossings:
    """Pairs of points that overlap on the page: `over` lies nearer the eye. `close`: near enough to be a true order."""

    over: Indices
    under: Indices
    close: Flags

    @property
    def ordered(self) -> tuple[Indices, Indices]:
        """(under, over) of the pairs whose order must be kept."""
        return self.under[self.close], self.over[self.close]


def crossings(cloud: Cloud, near: float, depth: float, wide: float = 1.0) -> Crossings:
    """All pairs nearer than `wide` times the sum of radii whose depths differ by more than `depth` of its half.

    Those nearer than `near` (< 1) times the sum are a true order; the rest merely lie side by side.
    """
    thick = cloud.radius > 1.6 * np.median(cloud.radius)
    thin_at, thick_at = np.nonzero(~thick)[0], np.nonzero(thick)[0]
    found = (
        [_near_pairs(cloud, thin_at, thin_at, 2 * cloud.radius[thin_at].max() * wide, wide, depth)]
        if len(thin_at)
        else []
    )
    if len(thick_at):
        cell = 2 * cloud.radius.max() * wide
        found.append(_near_pairs(cloud, thick_at, thick_at, cell, wide, depth))
        found.append(_near_pairs(cloud, thick_at, thin_at, cell, wide, depth))
    one, other = (np.concatenate([pair[side] for pair in found]) for side in (0, 1))
    higher = cloud.at[one, 2] > cloud.at[other, 2]
    over, under = np.where(higher, one, other), np.where(higher, other, one)
    gap = cloud.at[over, :2] - cloud.at[under, :2]
    sums = cloud.radius[over] + cloud.radius[under]
    return Crossings(over, under, (gap**2).sum(axis=1) < (near * sums) ** 2)


def _near_pairs(
    cloud: Cloud, asking: Indices, asked: Indices, cell: float, wide: float, depth: float
) -> tuple[Indices, Indices]:
    """Pairs (one of `asking`, one of `asked`), each pair once, found in a grid of square cells."""
    at = cloud.at
    low = at[:, :2].min(axis=0)
    grid = np.floor((at[:, :2] - low) / cell).astype(np.intp) + 1
    columns = int(grid[:, 0].max()) + 2
    key = grid[:, 1] * columns + grid[:, 0]
    order = asked[np.argsort(key[asked], kind="stable")]
    keys = key[order]
    itself = asking is asked
    offsets = (0, 1, columns - 1, columns, columns + 1) if itself else (
        0, 1, -1, columns - 1, columns, columns + 1, -columns - 1, -columns, -columns + 1,
    )  # fmt: skip
    ones, others = [], []
    for offset in offsets:
        first = np.searchsorted(keys, key[asking] + offset, "left")
        count = np.searchsorted(keys, key[asking] + offset, "right") - first
        one, other = np.repeat(asking, count), order[ranges(first, count)]
        across = at[one] - at[other]
        sums = cloud.radius[one] + cloud.radius[other]
        good = (across[:, 0] ** 2 + across[:, 1] ** 2 < (wide * sums) ** 2) & (np.abs(across[:, 2]) > depth * sums / 2)
        if itself and offset == 0:
            good &= one < other
        one, other = one[good], other[good]
        apart = (cloud.rod[one] != cloud.rod[other]) | (
            np.abs(cloud.index[one] - cloud.index[other]) >= _SAME_ROD_STEPS
        )
        ones.append(one[apart])
        others.append(other[apart])
    return np.concatenate(ones), np.concatenate(others)


@dataclass(frozen=True, slots=True)
class Layering:
    """The layer of every point, counted from the back, and the number of orders that could not be kept (cycles)."""

    layer: Indices
    released: int


def layering(cloud: Cloud, found: Crossings) -> Layering:
    """Layers such that whatever lies nearer is painted later, in as few and as long runs along each rod as may be.

    Rods that merely touch are put in order too wherever the true orders leave room for it.
    """
    earliest, released = _levels(len(cloud.at), found.under, found.over, found.close, cloud.at[:, 2])
    kept = earliest[found.under] < earliest[found.over]
    under, over, close = found.under[kept], found.over[kept], found.close[kept]
    last = int(earliest.max(initial=0))
    latest = last - _levels(len(cloud.at), over, under, close, -cloud.at[:, 2])[0]
    return Layering(_scheduled(cloud.joined, under, over, latest), released)


def _levels(count: int, before: Indices, after: Indices, firm: Flags, depth: Numbers) -> tuple[Indices, int]:
    """Longest path to each node, frontier by frontier.

    Where orders run in a ring, the rearmost node held back by none but loose orders goes first; if there is none, the
    rearmost of all, and that is counted.
    """
    order = np.argsort(before, kind="stable")
    targets, firm = after[order], firm[order]
    start = np.searchsorted(before[order], np.arange(count + 1))
    waiting = np.bincount(after, minlength=count)
    firmly = np.bincount(targets[firm], minlength=count)
    level, placed = np.zeros(count, np.intp), np.zeros(count, bool)
    step, released = 0, 0
    frontier = np.nonzero(waiting == 0)[0]
    while True:
        while len(frontier):
            level[frontier], placed[frontier] = step, True
            edges = ranges(start[frontier], start[frontier + 1] - start[frontier])
            hit = targets[edges]
            waiting -= np.bincount(hit, minlength=count)
            firmly -= np.bincount(hit[firm[edges]], minlength=count)
            frontier = np.unique(hit[(waiting[hit] <= 0) & ~placed[hit]])
            step += 1
        left = np.nonzero(~placed)[0]
        if not len(left):
            return level, released
        loose = left[firmly[left] <= 0]
        released += not len(loose)
        left = loose if len(loose) else left
        frontier = left[[int(depth[left].argmin())]]


def _scheduled(joined: Flags, under: Indices, over: Indices, latest: Indices) -> Indices:
    """Place points layer by layer from the back. A point waits until it is due, then takes its whole free run along.

    Free points overlap nothing unplaced that lies below them, so two free points never overlap: any run may be placed.
    """
    count = len(latest)
    order = np.argsort(under, kind="stable")
    targets, start = over[order], np.searchsorted(under[order], np.arange(count + 1))
    waiting = np.bincount(over, minlength=count)
    layer, placed = np.zeros(count, np.intp), np.zeros(count, bool)
    for step in range(int(latest.max(initial=0)) + 1):
        free = ~placed & (waiting == 0)
        run = np.concatenate([[0], np.cumsum(~(joined & free[1:] & free[:-1]))])
        due = np.zeros(run[-1] + 1, bool)
        due[run[free & (latest == step)]] = True
        now = np.nonzero(free & due[run])[0]
        layer[now], placed[now] = step, True
        hit = targets[ranges(start[now], start[now + 1] - start[now])]
        waiting -= np.bincount(hit, minlength=count)
    return layer


def bounds(layer: Indices, pairs: tuple[Indices, Indices], count: int) -> tuple[Indices, Indices]:
    """(highest layer below, lowest layer above) of every point among the (under, over) pairs; -1 and a large number."""
    under, over = pairs
    below, above = np.full(count, -1), np.full(count, 1 << 30)
    np.maximum.at(below, over, layer[under])
    np.minimum.at(above, under, layer[over])
    return below, above
