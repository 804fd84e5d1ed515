"""Over and under: which points of which rods cover which, what is hidden, and in how few layers all can be painted."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from slath.drawing.paint.curves import Numbers

Indices = NDArray[np.intp]
Flags = NDArray[np.bool_]

_AT_ONCE = 30_000  # pairs
_SAME_ROD_STEPS = 8  # points of one rod nearer than this along it are one piece of rod, not a crossing


class Cloud(Struct, frozen=True):
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
    thickest_first = np.argsort(-cloud.radius, kind="stable")
    at, radius = cloud.at[thickest_first], cloud.radius[thickest_first]
    origin = at[:, :2].min(axis=0) - 2 * radius[0]
    cells = ((at[:, :2] - origin) / pixel).astype(np.intp)
    width, height = (int(cells[:, axis].max()) + int(2 * radius[0] / pixel) + 3 for axis in (0, 1))
    depth = np.full(width * height, -np.inf)
    place, height_of, slack = cells[:, 1] * width + cells[:, 0], at[:, 2].copy(), radius * 0.25
    stamps = _stamps(radius, pixel, width)
    for count, shift in stamps:
        np.maximum.at(depth, place[:count] + shift, height_of[:count])
    hidden = np.arange(len(at))
    for count, shift in stamps:
        asked = hidden[: np.searchsorted(hidden, count)]
        shown = height_of[asked] >= depth[place[asked] + shift] - slack[asked]
        if shown.any():
            hidden = np.concatenate([asked[~shown], hidden[len(asked) :]])
    seen = np.ones(len(at), bool)
    seen[thickest_first[hidden]] = False
    joined = cloud.joined
    wider = seen.copy()
    wider[1:] |= seen[:-1] & joined
    wider[:-1] |= seen[1:] & joined
    return wider


def _stamps(radius: Numbers, pixel: float, width: int) -> list[tuple[int, int]]:
    """Pixels of a disc from its middle outwards: how many points, thickest first, reach so far, and the way there."""
    reach = range(-int(radius[0] / pixel) - 1, int(radius[0] / pixel) + 2)
    shifts = sorted((down * down + across * across, down * width + across) for down in reach for across in reach)
    limits = -((radius * 0.92) ** 2)
    counts = np.searchsorted(limits, [-(far * pixel * pixel) for far, _ in shifts]).tolist()
    return [(count, shift) for count, (_, shift) in zip(counts, shifts, strict=True) if count]


class Crossings(Struct, frozen=True):
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
    """Pairs (one of `asking`, one of `asked`), each pair once, found in a grid of square cells.

    Cells side by side in a row of the grid have numbers that follow each other, so a row of three is one stretch of
    the points in the order of their cells.
    """
    at, radius = cloud.at, cloud.radius
    grid = np.floor((at[:, :2] - at[:, :2].min(axis=0)) / cell).astype(np.intp) + 1
    columns = int(grid[:, 0].max()) + 2
    key = grid[:, 1] * columns + grid[:, 0]
    itself = asking is asked
    asked = asked[np.argsort(key[asked], kind="stable")]
    asking = asked if itself else asking
    keys, own = key[asked], key[asking]
    stretches = [(np.searchsorted(keys, own + way - 1, "left"), np.searchsorted(keys, own + way + 1, "right"))
                 for way in ((columns,) if itself else (-columns, 0, columns))]  # fmt: skip
    if itself:
        stretches.append((np.arange(len(keys)) + 1, np.searchsorted(keys, own + 1, "right")))
    pairs = []
    there, size = at[asked, :2].T.copy(), radius[asked]
    for first, stop in stretches:
        for part in _in_parts(stop - first):
            count = (stop - first)[part]
            found, mine = ranges(first[part], count), np.repeat(asking[part], count)
            across, up = (at[mine, axis] - there[axis, found] for axis in (0, 1))
            reach = wide * (radius[mine] + size[found])
            good = np.nonzero(across**2 + up**2 < reach**2)[0]
            pairs.append((mine[good], asked[found[good]]))
    one, other = (np.concatenate([pair[side] for pair in pairs]) for side in (0, 1))
    good = np.abs(at[one, 2] - at[other, 2]) > depth * (radius[one] + radius[other]) / 2
    good &= (cloud.rod[one] != cloud.rod[other]) | (np.abs(cloud.index[one] - cloud.index[other]) >= _SAME_ROD_STEPS)
    return one[good], other[good]


def _in_parts(count: Indices) -> Iterator[slice]:
    """Stretches of points that ask for about `_AT_ONCE` others together, so that what is worked out stays near at hand."""
    ends = np.cumsum(count)
    cuts = np.searchsorted(ends, np.arange(_AT_ONCE, ends[-1], _AT_ONCE)) if len(ends) else ()
    bounds = [*dict.fromkeys((0, *map(int, cuts), len(count)))]
    yield from map(slice, bounds, bounds[1:])


class Layering(Struct, frozen=True):
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
    marks = np.empty(count, np.intp)
    step, released = 0, 0
    frontier = np.nonzero(waiting == 0)[0]
    while True:
        while len(frontier):
            level[frontier], placed[frontier] = step, True
            edges = ranges(start[frontier], start[frontier + 1] - start[frontier])
            hit = targets[edges]
            np.subtract.at(waiting, hit, 1)
            np.subtract.at(firmly, hit[firm[edges]], 1)
            frontier = _each_once(hit[(waiting[hit] <= 0) & ~placed[hit]], marks)
            step += 1
        left = np.nonzero(~placed)[0]
        if not len(left):
            return level, released
        loose = left[firmly[left] <= 0]
        released += not len(loose)
        left = loose if len(loose) else left
        frontier = left[[int(depth[left].argmin())]]


def _each_once(numbers: Indices, marks: Indices) -> Indices:
    """The numbers without repetition, in any order; `marks` has a place for each to be written over."""
    turn = np.arange(len(numbers))
    marks[numbers] = turn
    return np.asarray(numbers[marks[numbers] == turn])


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
        np.subtract.at(waiting, targets[ranges(start[now], start[now + 1] - start[now])], 1)
    return layer


def bounds(layer: Indices, pairs: tuple[Indices, Indices], count: int) -> tuple[Indices, Indices]:
    """(highest layer below, lowest layer above) of every point among the (under, over) pairs; -1 and a large number."""
    under, over = pairs
    below, above = np.full(count, -1), np.full(count, 1 << 30)
    np.maximum.at(below, over, layer[under])
    np.minimum.at(above, under, layer[over])
    return below, above
