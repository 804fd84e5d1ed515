"""Signs that stop the eye: a mark for each caution about people, white on a dark square, and the octagon of a count.

They are our own and stand beside words that say what they mean: none is a sign of a standard. Each is drawn in a square
of ten.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import cache

from slath.drawing.options import Options
from slath.drawing.scene import Ellipse, Item, Path, Point, Scene, Subpath

SIDE = 10.0
_CORNER = 1.6
_PAPER, _INK = "#ffffff", Options().ink
_LINE = 0.9


def _line(*points: Point, width: float = _LINE, closed: bool = False) -> Path:
    return Path((Subpath(points, closed),), stroke=_PAPER, width=width, cap="round")


def _area(*points: Point, colour: str = _PAPER) -> Path:
    return Path((Subpath(points, closed=True),), fill=colour)


def _dot(x: float, y: float, radius: float, colour: str = _PAPER) -> Ellipse:
    return Ellipse(x, y, radius, radius, fill=colour)


def _drop(x: float, y: float, size: float) -> Path:
    """A drop whose point is at (x, y)."""
    points = ((x, y), (x + 0.2 * size, y + 0.6 * size), (x + 0.75 * size, y + 0.9 * size), (x + 0.75 * size, y + 1.45 * size),
              (x + 0.75 * size, y + 2.4 * size), (x - 0.75 * size, y + 2.4 * size), (x - 0.75 * size, y + 1.45 * size),
              (x - 0.75 * size, y + 0.9 * size), (x - 0.2 * size, y + 0.6 * size), (x, y))  # fmt: skip
    return Path((Subpath(points, closed=True, curve=True),), fill=_PAPER)


def _bang() -> Sequence[Item]:
    return _area((4.3, 1.8), (5.7, 1.8), (5.4, 6.2), (4.6, 6.2)), _dot(5.0, 7.7, 0.75)


def _bodkin() -> Sequence[Item]:
    """A spike with its knob."""
    return _area((3.3, 5.3), (4.7, 6.7), (8.6, 1.4)), _dot(3.0, 7.0, 1.35)


def _knife() -> Sequence[Item]:
    """A blade and its handle, slanting."""
    return _area((4.4, 5.6), (8.4, 1.6), (8.2, 3.6), (5.4, 6.6)), _line((4.3, 6.4), (2.2, 8.4), width=1.7)


def _cutters() -> Sequence[Item]:
    """A stick cut through, its end flying."""
    return (
        _line((1.8, 7.2), (4.6, 5.0), width=1.3), _line((6.4, 3.9), (8.3, 2.4), width=1.3),
        _line((5.6, 2.4), (5.3, 1.6), width=0.6), _line((7.2, 5.6), (8.0, 6.0), width=0.6),
        _line((4.6, 3.2), (6.8, 6.4), width=0.5),
    )  # fmt: skip


def _eye() -> Sequence[Item]:
    """An eye."""
    upper = ((1.4, 5.0), (3.2, 2.2), (6.8, 2.2), (8.6, 5.0), (6.8, 7.8), (3.2, 7.8), (1.4, 5.0))
    return (
        Path((Subpath(upper, closed=True, curve=True),), fill=_PAPER),
        _dot(5.0, 5.0, 1.5, _INK),
        _dot(5.5, 4.5, 0.45),
    )


def _water() -> Sequence[Item]:
    waves = [[(1.6 + step * 0.4, level + 0.45 * math.sin(step * 0.9)) for step in range(18)] for level in (6.6, 8.1)]
    return _drop(5.0, 1.4, 1.5), *(_line(*wave, width=0.6) for wave in waves)


def _dye() -> Sequence[Item]:
    return _drop(4.4, 1.5, 2.0), _dot(7.6, 3.0, 0.5), _dot(8.1, 5.2, 0.5), _dot(7.5, 7.4, 0.5)


def _flame() -> Sequence[Item]:
    outer = ((5.2, 1.2), (5.4, 3.2), (8.0, 4.2), (7.6, 6.6), (7.3, 8.4), (5.9, 8.8), (5.0, 8.8), (3.8, 8.8), (2.5, 8.2),
             (2.4, 6.5), (2.3, 4.9), (3.6, 4.6), (3.7, 3.1), (4.4, 3.3), (4.6, 4.0), (4.6, 4.4), (5.2, 3.6), (5.4, 2.3), (5.2, 1.2))  # fmt: skip
    inner = ((5.0, 5.6), (5.9, 6.4), (6.2, 7.8), (5.0, 8.2), (3.8, 7.8), (4.2, 6.4), (5.0, 5.6))
    return Path((Subpath(outer, closed=True, curve=True),), fill=_PAPER), Path(
        (Subpath(inner, closed=True, curve=True),), fill=_INK
    )


def _dust() -> Sequence[Item]:
    """A drill bit and what flies from it."""
    turns = [_line((3.3, 4.6 + 1.1 * place), (5.3, 4.0 + 1.1 * place), width=0.6) for place in range(4)]
    return (
        _line((2.6, 1.8), (6.0, 1.8), width=1.3), _line((4.3, 2.0), (4.3, 8.4), width=0.8), *turns,
        _dot(7.0, 6.0, 0.4), _dot(8.2, 7.2, 0.4), _dot(7.2, 8.2, 0.4),
    )  # fmt: skip


def _mould() -> Sequence[Item]:
    return _dot(3.4, 3.6, 1.3), _dot(6.6, 3.0, 0.8), _dot(6.9, 6.4, 1.5), _dot(3.6, 7.2, 0.9)


_MARKS: dict[str, Callable[[], Sequence[Item]]] = {
    "local rules": _bang, "pierce": _bodkin, "bodkin": _bodkin, "knife": _knife, "prick": _knife, "ends fly": _cutters,
    "rods spring": _eye, "bow springs": _eye, "wet floor": _water, "hot water": _water, "dye": _dye, "dust": _dust, "mould": _mould,
    "flame": _flame, "oily rags": _flame, "wire": _cutters,
}  # fmt: skip


@cache
def caution_mark(key: str) -> Scene:
    """The mark of a caution by its key in the table of cautions; of one of the designer's own, an exclamation mark."""
    near, far, mild = 0.0, SIDE, 0.45 * _CORNER
    corners: list[Point] = [(near, _CORNER)]
    for first, second, after in (
        ((near, mild), (mild, near), (_CORNER, near)),
        ((far - mild, near), (far, mild), (far, _CORNER)),
        ((far, far - mild), (far - mild, far), (far - _CORNER, far)),
        ((mild, far), (near, far - mild), (near, far - _CORNER)),
    ):
        before = corners[-1]
        start = {
            (_CORNER, near): (near, _CORNER), (far, _CORNER): (far - _CORNER, near),
            (far - _CORNER, far): (far, far - _CORNER), (near, far - _CORNER): (_CORNER, far),
        }[after]  # fmt: skip
        if start != before:
            corners += [before, start, start]
        corners += [first, second, after]
    corners += [corners[-1], corners[0], corners[0]]
    ground = Path((Subpath(tuple(corners), closed=True, curve=True),), fill=_INK)
    return Scene(f"mark-{key}", key, "Caution", SIDE, SIDE, (ground, *_MARKS.get(key, _bang)()))


@cache
def octagon(ink: str) -> Scene:
    """An octagon standing on a side."""
    turns = [math.pi / 8 + place * math.pi / 4 for place in range(8)]
    reach = SIDE / 2 / math.cos(math.pi / 8)
    points = tuple((SIDE / 2 + reach * math.cos(turn), SIDE / 2 + reach * math.sin(turn)) for turn in turns)
    return Scene("octagon", "Stop", "Stop", SIDE, SIDE, (_area(*points, colour=ink),))


@cache
def ring(ink: str, *, filled: bool) -> Scene:
    """A ring to fill in, or one that is filled."""
    shape = Ellipse(SIDE / 2, SIDE / 2, 4.1, 4.1, fill=ink if filled else None, stroke=ink, width=1.3)
    return Scene("ring", "Ring", "Ring", SIDE, SIDE, (shape,))
