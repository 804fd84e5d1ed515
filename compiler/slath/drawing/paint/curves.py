"""Smooth curves through the knots a weave gives: interpolation, even steps, directions, thinning. Millimetres."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Numbers = NDArray[np.float64]


def monotone(knots: ArrayLike, values: ArrayLike, at: ArrayLike) -> Numbers:
    """Cubic through (knots, values) that never overshoots, read at `at`; constant beyond the ends.

    `knots` rise strictly. Slopes are the weighted harmonic means of Fritsch and Butland (SIAM J. Sci. Stat. Comput. 5,
    1984), zero at the two ends, so that a strand comes to rest on its last stake.
    """
    x, y = np.asarray(knots, float), np.asarray(values, float)
    step = np.diff(x)
    rise = np.diff(y) / step
    slope = np.zeros_like(y)
    before, after = rise[:-1], rise[1:]
    same_way = before * after > 0
    w1, w2 = 2 * step[1:] + step[:-1], step[1:] + 2 * step[:-1]
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = (w1 + w2) / (w1 / before + w2 / after)
    slope[1:-1] = np.where(same_way, mean, 0.0)
    return hermite(x, y, slope, np.clip(np.asarray(at, float), x[0], x[-1]))


def hermite(knots: Numbers, values: Numbers, slopes: Numbers, at: Numbers) -> Numbers:
    """Cubic with the given values and slopes at the knots; values may be one number or a row (n, m) a knot."""
    i = np.clip(np.searchsorted(knots, at, side="right") - 1, 0, len(knots) - 2)
    step = knots[i + 1] - knots[i]
    t = (at - knots[i]) / step
    if values.ndim > 1:
        t, step = t[:, None], step[:, None]
    rest = 1 - t
    return np.asarray(
        (1 + 2 * t) * rest**2 * values[i]
        + t * rest**2 * step * slopes[i]
        + t * t * (3 - 2 * t) * values[i + 1]
        - t * t * rest * step * slopes[i + 1]
    )


def spline(knots: ArrayLike, values: ArrayLike, at: ArrayLike) -> Numbers:
    """Cubic through rows of values at uneven knots, slopes from the parabola of three neighbours; may overshoot."""
    x, y = np.asarray(knots, float), np.asarray(values, float)
    step = np.diff(x)
    wide = step[:, None] if y.ndim > 1 else step
    rise = np.diff(y, axis=0) / wide
    slope = np.empty_like(y)
    slope[1:-1] = (rise[:-1] * wide[1:] + rise[1:] * wide[:-1]) / (wide[1:] + wide[:-1])
    slope[0], slope[-1] = rise[0], rise[-1]
    return hermite(x, y, slope, np.asarray(at, float))


def catmull_rom(knots: ArrayLike, steps: int = 10) -> Numbers:
    """The uniform Catmull-Rom curve through knots (n, m), `steps` points to a span, last knot included."""
    k = np.asarray(knots, float)
    if len(k) < 3:
        return k
    p = np.vstack([2 * k[0] - k[1], k, 2 * k[-1] - k[-2]])
    a, b, c, d = (p[i : len(p) - 3 + i, None, :] for i in range(4))
    t = np.linspace(0, 1, steps, endpoint=False)[None, :, None]
    spans = 0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3)
    return np.vstack([spans.reshape(-1, k.shape[1]), k[-1:]])


def travelled(points: Numbers) -> Numbers:
    """Length along a line of points (n, m) from its start to each point."""
    steps = points[1:] - points[:-1]
    along = np.zeros(len(points))
    np.cumsum(np.sqrt((steps**2).sum(axis=1)), out=along[1:])
    return along


def resample(points: ArrayLike, step: float, *beside: Numbers) -> list[Numbers]:
    """The line in equal steps of about `step`, and every row of values `beside` it read at the same places."""
    line = np.asarray(points, float)
    length = travelled(line)
    count = max(2, int(np.ceil(length[-1] / step)) + 1)
    at = np.arange(count) * (length[-1] / (count - 1))
    at[-1] = length[-1]
    even = np.empty((count, line.shape[1]))
    for axis in range(line.shape[1]):
        even[:, axis] = np.interp(at, length, line[:, axis])
    return [even, *(np.interp(at, length, values) for values in beside)]


def settled(points: Numbers, window: int, times: int = 2) -> Numbers:
    """The line with x and y evened by a moving mean over `window` (odd) points; both ends are kept."""
    line = points.copy()
    half, kernel = window // 2, np.ones(window) / window
    if len(line) <= 2 * window:
        return line
    for _ in range(times):
        for axis in (0, 1):
            padded = np.concatenate([np.repeat(line[0, axis], half), line[:, axis], np.repeat(line[-1, axis], half)])
            line[half:-half, axis] = np.convolve(padded, kernel, "valid")[half:-half]
    return line


def eased(at: ArrayLike, start: float, end: float) -> Numbers:
    """Goes from 0 at `start` to 1 at `end` with no corner."""
    t = np.clip((np.asarray(at, float) - start) / (end - start), 0.0, 1.0)
    return np.asarray(t * t * (3 - 2 * t))


def left_normals(points: Numbers) -> Numbers:
    """Unit normals of a line in the page, to the left of its course where y points up."""
    along = np.gradient(points[:, :2], axis=0)
    along /= np.hypot(along[:, 0], along[:, 1])[:, None] + 1e-12
    return np.column_stack([-along[:, 1], along[:, 0]])


def beside(points: Numbers, offset: ArrayLike) -> Numbers:
    """The line moved sideways by `offset` (one value, or one a point), to its left where positive."""
    return np.asarray(points[:, :2] + left_normals(points) * np.reshape(np.asarray(offset, float), (-1, 1)))


def chain_keep(points: Numbers, chain: NDArray[np.intp], tolerance: float) -> NDArray[np.bool_]:
    """Which points to keep so that chords stray about `tolerance` from the curve.

    `points` (n, 2) hold many lines end to end; `chain` (n,) numbers the line each belongs to. A chord over a curve of
    curvature k strays k·h²/8, so points are kept at a density of sqrt(k / (8·tolerance)).
    """
    n = len(points)
    keep = np.ones(n, bool)
    if n < 3:
        return keep
    step = np.diff(points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1]) + 1e-9
    cross = step[:-1, 0] * step[1:, 1] - step[:-1, 1] * step[1:, 0]
    dot = step[:-1, 0] * step[1:, 0] + step[:-1, 1] * step[1:, 1]
    turn = np.abs(np.arctan2(cross, dot))
    middle = (length[:-1] + length[1:]) / 2
    density = np.zeros(n)
    density[1:-1] = np.sqrt(turn / middle / (8 * tolerance)) * middle + 0.02
    count = np.floor(np.cumsum(density))
    keep[1:] = count[1:] > count[:-1]
    first = np.concatenate([[True], chain[1:] != chain[:-1]])
    keep |= first | np.concatenate([first[1:], [True]])
    keep[1:-1] |= turn > 0.6  # a corner stays a corner
    return keep


def thinned(points: Numbers, tolerance: float = 0.012) -> Numbers:
    """One line (n, 2 or more) without the points that a chord serves as well."""
    return np.asarray(points[chain_keep(points[:, :2], np.zeros(len(points), np.intp), tolerance)])


def point_pairs(points: Numbers) -> tuple[tuple[float, float], ...]:
    """Points (n, 2) in hundredths of a millimetre as records hold them."""
    return tuple(zip(*np.round(points, 2).T.tolist(), strict=True))
