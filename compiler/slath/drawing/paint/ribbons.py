"""Flat strands: painted as ribbons as wide as they are seen, an edge along either side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct, field

from slath.drawing.paint.curves import Numbers, point_pairs, resample
from slath.drawing.paint.layers import Flags, Indices
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.runs import LIGHT_STEPS, Lines, Runs
from slath.drawing.paint.tones import lit
from slath.drawing.scene import Item, Path, Subpath

_OVERRUN = 0.06  # mm by which a face runs on under the next at a joint
_GRAIN = 0.30  # share of half the width at which a line shows the fibres of the face
_WIDE = 2.4  # mm of width below which there is no room for such a line
_STRAYS = 0.12  # mm by which an edge may lie off where its centre line would have it
_LEAST = 0.25  # mm, the thinnest stroke that prints everywhere


class Ribbons(Struct):
    """The flat strands of one layer by paint: faces first, then the grain on them, then their edges."""

    faces: dict[str, list[Subpath]] = field(default_factory=dict)
    grain: dict[str, list[Subpath]] = field(default_factory=dict)
    edges: dict[tuple[float, str], list[Subpath]] = field(default_factory=dict)

    def items(self) -> Iterator[Item]:
        """The paths in painting order."""
        for colour, areas in sorted(self.faces.items()):
            yield Path(tuple(areas), fill=colour)
        for colour, lines in sorted(self.grain.items()):
            yield Path(tuple(lines), stroke=colour, width=_LEAST)
        for (width, colour), lines in sorted(self.edges.items()):
            yield Path(tuple(lines), stroke=colour, width=width)


def lay_ribbons(
    layers: Sequence[Ribbons], runs: Runs, lines: Lines, keep: Flags, rods: Sequence[Rod], brush: Brush
) -> None:
    """Lay the runs of all flat strands into their layers."""
    ways = {number: _ways(rod, brush) for number, rod in enumerate(rods) if rod.across is not None}
    linked = np.concatenate([[False], runs.cloud.joined, [False]])
    for run, (level, number, step) in enumerate(
        zip(runs.layer.tolist(), runs.rod.tolist(), runs.light.tolist(), strict=True)
    ):
        if number not in ways:
            continue
        first, last = int(lines.start[run]), int(lines.end[run])
        index = runs.cloud.index[runs.first[run] : runs.last[run] + 1]
        index = np.concatenate(
            [index[:1]] * bool(linked[runs.first[run]]) + [index] + [index[-1:]] * bool(linked[runs.last[run] + 1])
        )
        chosen = np.nonzero(keep[first:last])[0]
        if len(chosen) < 2 or len(index) != last - first:
            continue
        half = ways[number][np.minimum(index, len(ways[number]) - 1)]
        if _tapers(half, chosen):
            chosen = np.arange(len(half))
        middle = _lengthened(lines.at[first:last], runs, run)
        light = float(LIGHT_STEPS[step])
        _lay(layers[level], rods[number], light, (middle[chosen], half[chosen]), brush)
        _face(layers[level], rods[number], light, (middle, half, index), chosen)


def _ways(rod: Rod, brush: Brush) -> Numbers:
    """From the centre line to the edge, at the even steps the rod is painted in."""
    across = rod.across if rod.across is not None else np.zeros((len(rod.points), 2))
    even = resample(rod.points, brush.step * rod.diameter, across[:, 0], across[:, 1])
    return np.column_stack([even[1], even[2]]) * rod.diameter / 2


def _tapers(half: Numbers, chosen: Indices) -> bool:
    """Whether the way to the edge changes otherwise than evenly between the points chosen for the centre line."""
    even = np.column_stack([np.interp(np.arange(len(half)), chosen, half[chosen, axis]) for axis in (0, 1)])
    return bool(np.abs(half - even).max() > _STRAYS)


def _lengthened(at: Numbers, runs: Runs, run: int) -> Numbers:
    """The centre line run on a little at both ends where the strand goes on."""
    line = at.copy()
    for end, inner, opened in ((0, 1, runs.open_start[run]), (-1, -2, runs.open_end[run])):
        way = line[end] - line[inner]
        if opened:
            line[end] += way / (float(np.hypot(*way)) + 1e-9) * _OVERRUN
    return line


def _lay(layer: Ribbons, rod: Rod, light: float, line: tuple[Numbers, Numbers], brush: Brush) -> None:
    middle, half = line
    one, other = point_pairs(middle + half), point_pairs(middle - half)
    look, edge = rod.dress.tones, brush.edge_of(rod.diameter)
    layer.edges.setdefault((round(max(_LEAST, edge), 3), look.edge), []).extend([Subpath(one), Subpath(other)])
    layer.faces.setdefault(lit(look.body, light), []).append(Subpath((*one, *reversed(other)), closed=True))


def _face(layer: Ribbons, rod: Rod, light: float, line: tuple[Numbers, Numbers, Indices], chosen: Indices) -> None:
    """What shows on the face: the plies of a braid, or the fibres of a wide strip."""
    middle, half, index = line
    if rod.dress.marks == "braid":
        colour = lit(rod.dress.tones.shade, light - 0.2)
        for point in np.unique(index, return_index=True)[1].tolist()[:-1]:  # plies meet in the middle
            chevron = np.array([middle[point] + half[point], middle[point + 1], middle[point] - half[point]])
            layer.grain.setdefault(colour, []).append(Subpath(point_pairs(chevron)))
    elif rod.diameter >= _WIDE:
        for share in (_GRAIN, -_GRAIN):
            line_at = point_pairs((middle + share * half)[chosen])
            layer.grain.setdefault(lit(rod.dress.tones.shade, light), []).append(Subpath(line_at))
