"""Outlines of the bundled glyphs as PDF path operators, for halos: painted as paths they are not read as words twice.

Reads the ``loca`` and ``glyf`` tables (OpenType 1.9). Quadratic curves become cubic ones. Font units, y up.
"""

from __future__ import annotations

import struct
from functools import lru_cache
from typing import NamedTuple

from slath.booklet.faces import face

ON_CURVE, X_SHORT, Y_SHORT, REPEAT, X_SAME, Y_SAME = 1, 2, 4, 8, 16, 32
WORDS, OFFSETS, SCALE, MORE, TWO_SCALES, MATRIX = 1, 2, 8, 32, 64, 128


class _Point(NamedTuple):
    x: float
    y: float
    on: bool


Contour = list[_Point]


@lru_cache(maxsize=512)
def outline(name: str, character: str) -> str:
    """The outline of one character of a face as path operators, unpainted; empty for a space."""
    font = face(name).font.face
    glyph = font.charToGlyph.get(ord(character), 0)
    return " ".join(_operators(contour) for contour in _contours(name, glyph) if len(contour) > 1)


@lru_cache(maxsize=16)
def _tables(name: str) -> tuple[bytes, tuple[int, ...]]:
    glyphs, places = (_table(name, tag) for tag in ("glyf", "loca"))
    (long,) = struct.unpack_from(">h", _table(name, "head"), 50)
    if long:
        return glyphs, struct.unpack(f">{len(places) // 4}I", places)
    return glyphs, tuple(2 * place for place in struct.unpack(f">{len(places) // 2}H", places))


def _table(name: str, tag: str) -> bytes:
    return bytes(face(name).font.face.get_table(tag))  # type: ignore[no-untyped-call]


def _contours(name: str, glyph: int) -> list[Contour]:
    glyphs, places = _tables(name)
    data = glyphs[places[glyph] : places[glyph + 1]]
    if not data:
        return []
    (count,) = struct.unpack_from(">h", data)
    return _simple(data, count) if count >= 0 else _composite(name, data)


def _simple(data: bytes, count: int) -> list[Contour]:
    ends = struct.unpack_from(f">{count}H", data, 10)
    (skipped,) = struct.unpack_from(">H", data, 10 + 2 * count)
    at = 12 + 2 * count + skipped
    total = ends[-1] + 1 if ends else 0
    flags: list[int] = []
    while len(flags) < total:
        flag = data[at]
        at += 1
        repeats = 1
        if flag & REPEAT:
            repeats += data[at]
            at += 1
        flags += [flag] * repeats
    xs, at = _coordinates(data, at, flags, X_SHORT, X_SAME)
    ys, _ = _coordinates(data, at, flags, Y_SHORT, Y_SAME)
    points = [_Point(x, y, bool(flag & ON_CURVE)) for x, y, flag in zip(xs, ys, flags, strict=True)]
    starts = [0, *(end + 1 for end in ends)]
    return [points[start : end + 1] for start, end in zip(starts, ends, strict=False)]


def _coordinates(data: bytes, at: int, flags: list[int], short: int, same: int) -> tuple[list[int], int]:
    values, value = [], 0
    for flag in flags:
        if flag & short:
            value += data[at] if flag & same else -data[at]
            at += 1
        elif not flag & same:
            value += struct.unpack_from(">h", data, at)[0]
            at += 2
        values.append(value)
    return values, at


def _composite(name: str, data: bytes) -> list[Contour]:
    out: list[Contour] = []
    at, more = 10, MORE
    while more:
        flags, glyph = struct.unpack_from(">HH", data, at)
        layout = ">hh" if flags & WORDS else ">bb"
        dx, dy = struct.unpack_from(layout, data, at + 4) if flags & OFFSETS else (0, 0)
        at += 4 + struct.calcsize(layout)
        a, b, c, d = 1.0, 0.0, 0.0, 1.0
        count = 4 if flags & MATRIX else 2 if flags & TWO_SCALES else 1 if flags & SCALE else 0
        parts = [part / 16384 for part in struct.unpack_from(f">{count}h", data, at)]  # 2.14 fixed point
        at += 2 * count
        if count == 4:
            a, b, c, d = parts
        elif count:
            a, d = parts[0], parts[-1]
        out.extend(
            [_Point(a * p.x + c * p.y + dx, b * p.x + d * p.y + dy, p.on) for p in contour]
            for contour in _contours(name, glyph)
        )
        more = flags & MORE
    return out


def _operators(contour: Contour) -> str:
    """A closed contour: between two points off the curve lies one on it, half-way."""
    points: Contour = []
    for before, point in zip([contour[-1], *contour], contour, strict=False):
        if not before.on and not point.on:
            points.append(_Point((before.x + point.x) / 2, (before.y + point.y) / 2, on=True))
        points.append(point)
    first = next(index for index, point in enumerate(points) if point.on)
    points = points[first:] + points[: first + 1]
    here = points[0]
    out = [f"{here.x:g} {here.y:g} m"]
    control: _Point | None = None
    for point in points[1:]:
        if not point.on:
            control = point
        elif control is None:
            out.append(f"{point.x:g} {point.y:g} l")
            here = point
        else:
            ax, ay = here.x + 2 / 3 * (control.x - here.x), here.y + 2 / 3 * (control.y - here.y)
            bx, by = point.x + 2 / 3 * (control.x - point.x), point.y + 2 / 3 * (control.y - point.y)
            out.append(f"{ax:.0f} {ay:.0f} {bx:.0f} {by:.0f} {point.x:g} {point.y:g} c")
            here, control = point, None
    return " ".join([*out, "h"])
