"""Numbers and path data as SVG writes them: hundredths of a millimetre, in as few letters as may be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, chain
from typing import Any

import numpy as np
from numpy.typing import NDArray

from slath.drawing.scene import Subpath

_FAR = 2000  # hundredths up to which steps from point to point are kept ready written; few are longer


def number(value: float) -> str:
    """A length in mm to the hundredth, finer than any screen or printer shows, as in the PDF: ``.5`` for 0.50."""
    return _written(round(value * 100))


def path_data(paths: Sequence[Sequence[Subpath]]) -> Iterator[str]:
    """The ``d`` of each path. Every point is told from the one before (SVG 2, 9.3), which takes half the letters. All are
    taken together, which is several times as fast as one by one.
    """
    lines = [subpath.points for subpaths in paths for subpath in subpaths]
    given = chain.from_iterable(chain.from_iterable(lines))
    at = np.rint(np.fromiter(given, float).reshape(-1, 2) * 100).astype(np.intp)
    steps = np.diff(at, axis=0, prepend=0)
    words = np.empty(2 * len(at), object)
    words[::2], words[1::2] = _steps(steps[:, 0], "l"), _steps(steps[:, 1], " ")
    told = words.tolist()
    starts = list(accumulate(map(len, lines), initial=0))
    places = zip(starts, starts[1:], at[starts[:-1]].tolist(), strict=False)
    for subpaths in paths:
        out: list[str] = []
        for subpath, (start, end, (x, y)) in zip(subpaths, places, strict=False):
            out.append(f"M{_written(x)} {_written(y)}")
            out += _curves(at[start:end].tolist()) if subpath.curve else told[2 * start + 2 : 2 * end]
            if subpath.closed:
                out.append("z")
        yield "".join(out)


def _curves(points: list[list[int]]) -> list[str]:
    """Control points and end of every curve, told from where it begins."""
    out = []
    for begin in range(0, len(points) - 3, 3):
        x, y = points[begin]
        steps = points[begin + 1 : begin + 4]
        out.append("c" + " ".join(f"{_written(u - x)} {_written(v - y)}" for u, v in steps))
    return out


def _steps(steps: NDArray[np.intp], before: str) -> NDArray[Any]:
    """Steps in hundredths as they are written, each with what stands before it."""
    words = _ready(before).take(steps + _FAR, mode="clip")
    for place in np.nonzero(np.abs(steps) > _FAR)[0].tolist():
        words[place] = before + _written(int(steps[place]))
    return words


@lru_cache
def _ready(before: str) -> NDArray[Any]:
    """All short steps as they are written, from the longest back to the longest forth."""
    return np.array([before + _written(step) for step in range(-_FAR, _FAR + 1)], object)


@lru_cache(maxsize=65536)
def _written(hundredths: int) -> str:
    """A number as short as SVG lets it be."""
    text = f"{abs(hundredths) / 100:.2f}".rstrip("0").rstrip(".")
    return ("-" if hundredths < 0 else "") + (text.removeprefix("0") or "0")
