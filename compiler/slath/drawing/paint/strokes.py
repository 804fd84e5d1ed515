"""Runs become path records: in each layer paper gap, edge, body, shade, highlight, marks, cut ends, each one path a paint."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

import numpy as np
from msgspec import Struct, field

from slath.drawing.paint.curves import Numbers, chain_keep, point_pairs
from slath.drawing.paint.layers import Flags, Indices, ranges
from slath.drawing.paint.ribbons import Ribbons, lay_ribbons
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.runs import LIGHT_STEPS, Lines, Runs, lines_of
from slath.drawing.paint.tones import Tones, lit
from slath.drawing.scene import Ellipse, Item, Path, Subpath

# Lengths by which strokes overrun a joint; unequal, or what lies below shows there as a hairline across the rod.
_EDGE_OVERRUN, _BODY_OVERRUN, _LIGHT_OVERRUN = 0.10, 0.17, 0.27
_THINNEST = 0.25  # mm, the thinnest stroke that prints everywhere


class _Layer(Struct):
    """The paths of one layer by paint, in the order they are laid on."""

    gaps: list[Subpath] = field(default_factory=list)
    ribbons: Ribbons = field(default_factory=Ribbons)
    strokes: dict[tuple[int, float, str], list[Subpath]] = field(default_factory=dict)
    marks: dict[tuple[float, str, bool], list[Subpath]] = field(default_factory=dict)
    ends: list[Ellipse] = field(default_factory=list)

    def items(self, paper: str) -> Iterator[Item]:
        if self.gaps:
            yield Path(tuple(self.gaps), fill=paper)
        yield from self.ribbons.items()
        for (_, width, colour), lines in sorted(self.strokes.items()):
            yield Path(tuple(lines), stroke=colour, width=width)
        for (width, colour, dots), lines in sorted(self.marks.items()):
            yield Path(tuple(lines), stroke=colour, width=width, cap="round" if dots else "butt")
        yield from self.ends


class _Cut(Struct, frozen=True):
    """Widths and tones of one rod in one light: offsets are along the normal, times how it faces the light."""

    edge: float
    body: float
    shade: float
    highlight: float
    shade_offset: float
    highlight_offset: float


def _cut(rod: Rod, brush: Brush) -> _Cut:
    diameter = rod.diameter
    edge = brush.edge_of(diameter)
    body = max(_THINNEST, diameter - 2 * edge)
    if rod.dress.surface == "flat":
        return _Cut(edge, body, 0.0, 0.0, 0.0, 0.0)
    shade = max(_THINNEST, 0.22 * body) if brush.shade and body > 0.6 else 0.0
    highlight = (
        max(_THINNEST, 0.16 * diameter if diameter > 1.6 else 0.0) if brush.highlight and diameter >= 0.9 else 0.0
    )
    return _Cut(edge, body, shade, highlight, -(diameter / 2 - edge - shade / 2), 0.24 * diameter)


def strokes(runs: Runs, rods: Sequence[Rod], brush: Brush) -> Iterator[Item]:
    """The items of all layers from the back."""
    lines = lines_of(runs)
    cuts = [_cut(rod, brush) for rod in rods]
    keep = chain_keep(lines.at, lines.run, brush.tolerance)
    layers = [_Layer() for _ in range(int(runs.layer.max(initial=-1)) + 1)]
    if brush.gap:
        for run, outline in _gaps(runs, lines, keep, rods, brush):
            layers[runs.layer[run]].gaps.append(outline)
    if any(rod.across is not None for rod in rods):
        lay_ribbons([layer.ribbons for layer in layers], runs, lines, keep, rods, brush)
    _lay_strokes(layers, runs, lines, keep, rods, cuts, brush)
    _lay_marks(layers, runs, lines, keep, rods, brush)
    _lay_ends(layers, runs, lines, rods)
    for layer in layers:
        yield from layer.items(brush.paper)


def _overrun(lines: Lines, runs: Runs, amount: float) -> Numbers:
    """The lines lengthened by `amount` at both ends where the rod goes on."""
    at = lines.at.copy()
    course = np.column_stack([lines.normal[:, 1], -lines.normal[:, 0]])
    opened = lines.start[runs.open_start]
    at[opened] -= course[opened] * amount
    opened = lines.end[runs.open_end] - 1
    at[opened] += course[opened] * amount
    return at


def _lay_strokes(
    layers: list[_Layer], runs: Runs, lines: Lines, keep: Flags, rods: Sequence[Rod], cuts: list[_Cut], brush: Brush
) -> None:
    light = np.array(brush.light) / math.hypot(*brush.light)
    facing = (lines.normal @ light)[:, None] * lines.normal
    shade_by = np.array([cut.shade_offset for cut in cuts])[runs.rod][lines.run][:, None]
    bright_by = np.array([cut.highlight_offset for cut in cuts])[runs.rod][lines.run][:, None]
    light_at = _overrun(lines, runs, _LIGHT_OVERRUN)
    kinds = (
        point_pairs(_overrun(lines, runs, _EDGE_OVERRUN)[keep]),
        point_pairs(_overrun(lines, runs, _BODY_OVERRUN)[keep]),
        point_pairs((light_at + facing * shade_by)[keep]) if brush.shade else (),
        point_pairs((light_at + facing * bright_by)[keep]) if brush.highlight else (),
    )
    placed = _places_kept(keep)
    starts, ends = placed[lines.start].tolist(), placed[lines.end].tolist()
    paints = [_paints(rod.dress.tones, rod.diameter, cut) for rod, cut in zip(rods, cuts, strict=True)]
    for run, (level, rod, step) in enumerate(
        zip(runs.layer.tolist(), runs.rod.tolist(), runs.light.tolist(), strict=True)
    ):
        first, last = starts[run], ends[run]
        if last - first < 2 or rods[rod].across is not None:
            continue
        where = layers[level].strokes
        for paint in paints[rod][step]:
            where.setdefault(paint, []).append(Subpath(kinds[paint[0]][first:last]))


@lru_cache
def _paints(look: Tones, diameter: float, cut: _Cut) -> tuple[tuple[tuple[int, float, str], ...], ...]:
    """For every step of light: (kind, width, colour) of the strokes of a rod, in painting order."""
    widths = (diameter, cut.body, cut.shade, cut.highlight)
    result = []
    for brightness in LIGHT_STEPS.tolist():
        colours = (look.edge, lit(look.body, brightness), lit(look.shade, brightness), lit(look.highlight, brightness))
        strokes_of = zip(range(4), widths, colours, strict=True)
        result.append(tuple((kind, round(width, 3), colour) for kind, width, colour in strokes_of if width > 0))
    return tuple(result)


def _gaps(runs: Runs, lines: Lines, keep: Flags, rods: Sequence[Rod], brush: Brush) -> Iterator[tuple[int, Subpath]]:
    """Outlines of the paper gap: where a run passes over something, tapering to nothing along it and at joints."""
    radius = np.array([rod.diameter / 2 for rod in rods])[runs.rod][lines.run]
    wide = lines.covers.copy()
    total = lines.along[lines.end - 1][lines.run]
    taper = np.minimum(2.6 * radius, 0.45 * total) + 1e-6
    wide = np.where(runs.open_start[lines.run], np.minimum(wide, lines.along / taper), wide)
    wide = np.where(runs.open_end[lines.run], np.minimum(wide, (total - lines.along) / taper), wide)
    half = (radius - 0.1 + (brush.gap + 0.1) * np.clip(wide, 0, 1))[:, None]
    at = lines.at.copy()
    course = np.column_stack([lines.normal[:, 1], -lines.normal[:, 0]])
    for ends, opened, way in ((lines.start, runs.open_start, -1), (lines.end - 1, runs.open_end, 1)):
        shown = ends[~opened]
        at[shown] += way * course[shown] * brush.gap * wide[shown][:, None]
    left, right = point_pairs(at + lines.normal * half), point_pairs(at - lines.normal * half)
    change = np.abs(np.diff(wide, append=0.0)) + np.abs(np.diff(wide, prepend=0.0)) > 0.05
    for run, points in _stretches(lines, wide > 0.02, keep | change):
        yield run, Subpath((*(left[i] for i in points), *(right[i] for i in reversed(points))), closed=True)


def _stretches(lines: Lines, marked: Flags, keep: Flags) -> Iterable[tuple[int, list[int]]]:
    """Unbroken stretches of marked points within one run, as the indices to keep of each."""
    joined = marked[1:] & marked[:-1] & (lines.run[1:] == lines.run[:-1])
    begins = np.nonzero(marked & ~np.concatenate([[False], joined]))[0].tolist()
    stops = np.nonzero(marked & ~np.concatenate([joined, [False]]))[0].tolist()
    kept = keep.tolist()
    for begin, stop in zip(begins, stops, strict=True):
        if stop > begin:
            inner = [i for i in range(begin + 1, stop) if kept[i]]
            yield int(lines.run[begin]), [begin, *inner, stop]


def _lay_marks(layers: list[_Layer], runs: Runs, lines: Lines, keep: Flags, rods: Sequence[Rod], brush: Brush) -> None:
    kinds = np.array([_MARKS[_marks_of(rod)] for rod in rods])[runs.rod]
    if (kinds == _MARKS["centre line"]).any():
        _centre_lines(layers, runs, lines, keep, rods, np.nonzero(kinds == _MARKS["centre line"])[0])
    if (kinds > _MARKS["centre line"]).any():
        _spaced_marks(layers, runs, rods, np.nonzero(kinds > _MARKS["centre line"])[0], brush)


_MARKS = {"none": 0, "braid": 0, "centre line": 1, "rings": 2, "dots": 3, "plait": 4}


def _marks_of(rod: Rod) -> str:
    """The marks of a rod: its material's own, else the crossings of a plait."""
    look = rod.dress
    return "plait" if look.surface == "plait" and look.marks == "none" else look.marks


def _centre_lines(
    layers: list[_Layer], runs: Runs, lines: Lines, keep: Flags, rods: Sequence[Rod], which: Indices
) -> None:
    at = point_pairs(_overrun(lines, runs, _LIGHT_OVERRUN)[keep])
    places = _places_kept(keep)
    for run in which.tolist():
        rod = rods[runs.rod[run]]
        first, last = int(places[lines.start[run]]), int(places[lines.end[run]])
        if rod.diameter < 1.2 or last - first < 2:  # below, the two dark edges leave no room for a printable line
            continue
        key = (round(max(_THINNEST, 0.13 * rod.diameter), 3), rod.dress.tones.mark, False)
        layers[runs.layer[run]].marks.setdefault(key, []).append(Subpath(at[first:last]))


def _places_kept(keep: Flags) -> Indices:
    """Where each point, and the end after the last, stands among those that are kept."""
    return np.concatenate([[0], np.cumsum(keep)])


def _spaced_marks(layers: list[_Layer], runs: Runs, rods: Sequence[Rod], which: Indices, brush: Brush) -> None:
    """Rings round the rods, or dots along them, at places fixed on each rod and so unbroken across joints."""
    cloud = runs.cloud
    count = runs.last[which] - runs.first[which] + 1
    point, run = ranges(runs.first[which], count), np.repeat(which, count)
    paints = [_mark_paint(rod, brush) for rod in rods]
    every = np.array([paint[0] for paint in paints])[cloud.rod[point]]
    marked = (cloud.index[point] % every == every // 2) & (cloud.index[point] < cloud.last[point])
    marked &= (point > 0) & (point < len(cloud.rod) - 1)
    point, run = point[marked], run[marked]
    course = cloud.at[point + 1, :2] - cloud.at[point - 1, :2]
    course /= np.hypot(course[:, 0], course[:, 1])[:, None] + 1e-12
    reach = np.array([paint[1] for paint in paints])[cloud.rod[point]][:, None]
    along = np.array([paint[2][2] for paint in paints])[cloud.rod[point]][:, None]
    across = np.where(along, course * 0.01, np.column_stack([-course[:, 1], course[:, 0]]) * reach)
    ones, others = point_pairs(cloud.at[point, :2] - across), point_pairs(cloud.at[point, :2] + across)
    fronts = point_pairs(cloud.at[point, :2] + course * reach)  # where the two sides of a plait's crossing meet
    plaits = [_marks_of(rod) == "plait" for rod in rods]
    for layer, rod, one, other, front in zip(
        runs.layer[run].tolist(), cloud.rod[point].tolist(), ones, others, fronts, strict=True
    ):
        line = (one, front, other) if plaits[rod] else (one, other)
        layers[layer].marks.setdefault(paints[rod][2], []).append(Subpath(line))


def _mark_paint(rod: Rod, brush: Brush) -> tuple[int, float, tuple[float, str, bool]]:
    """(points between marks, half length of a ring, (width, colour, whether dots)) of a rod."""
    dots = rod.dress.marks == "dots"
    apart = brush.rings or (2.0 if rod.diameter < 1.4 else 1.3) * rod.diameter
    width = max(0.35, 0.30 * rod.diameter) if dots else max(_THINNEST, 0.09 * rod.diameter)
    half = rod.diameter / 2 - brush.edge_of(rod.diameter) * 0.8
    return max(2, round(apart / (brush.step * rod.diameter))), half, (round(width, 3), rod.dress.tones.mark, dots)


def _lay_ends(layers: list[_Layer], runs: Runs, lines: Lines, rods: Sequence[Rod]) -> None:
    """Cut faces, seen a little from the side."""
    for opened, places, shows in (
        (runs.open_start, lines.start, 0),
        (runs.open_end, lines.end - 1, 1),
    ):
        for run in np.nonzero(~opened)[0].tolist():
            rod = rods[runs.rod[run]]
            if not rod.ends[shows] or lines.end[run] - lines.start[run] < 2:
                continue
            x, y = lines.at[places[run]].tolist()
            normal = lines.normal[places[run]]
            look, brightness = rod.dress.tones, float(LIGHT_STEPS[runs.light[run]])
            layers[runs.layer[run]].ends.append(
                Ellipse(
                    round(x, 2),
                    round(y, 2),
                    round(0.16 * rod.diameter, 3),
                    round(rod.diameter / 2 - 0.12, 3),
                    turn=round(math.degrees(math.atan2(-normal[0], normal[1])), 1),
                    fill=lit(look.highlight, brightness),
                    stroke=look.edge,
                    width=0.25,
                )
            )
