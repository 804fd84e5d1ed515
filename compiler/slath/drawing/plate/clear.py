"""Which labels of a row or a ring can stand without covering one another, and where one more finds room."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from msgspec import Struct

from slath.drawing.plate.lettering import CAP_HEIGHT, POINT_MM, word_width
from slath.drawing.plate.plate import disc_radius

_EVERY = (1, 2, 5, 10, 20)


class Spot(Struct, frozen=True):
    """Where a label would stand, centred on (x, y), with half its width and half its height, all mm."""

    x: float
    y: float
    words: str
    wide: float
    high: float

    def clear_of(self, other: Spot) -> bool:
        """Whether the two stand apart."""
        return abs(self.x - other.x) >= self.wide + other.wide or abs(self.y - other.y) >= self.high + other.high


def text_spot(x: float, y: float, words: str, size_pt: float, *, bold: bool = False) -> Spot:
    """A spot for plain figures or words."""
    em = size_pt * POINT_MM
    return Spot(x, y, words, word_width(words, size_pt, bold=bold) / 2 + 0.12 * em, CAP_HEIGHT / 2 * em + 0.1 * em)


def disc_spot(x: float, y: float, letter: str, size_pt: float) -> Spot:
    """A spot for a letter or a number on a disc."""
    radius = disc_radius(letter, size_pt) + 0.05 * size_pt * POINT_MM
    return Spot(x, y, letter, radius, radius)


def all_clear(spots: Sequence[Spot]) -> bool:
    """Whether every two stand apart."""
    return all(one.clear_of(other) for place, one in enumerate(spots) for other in spots[place + 1 :])


def counted_off(spots: Sequence[Spot]) -> list[int]:
    """Indices of the numbers to print of a row counted from 1: all, or every 2nd, 5th, 10th or 20th that has room, and 1."""
    kept: list[int] = []
    for every in _EVERY:
        kept = [0] if spots else []
        wanted = [place for place in range(1, len(spots)) if (place + 1) % every == 0]
        room = [place for place in wanted if spots[place].clear_of(spots[0])]
        if all_clear([spots[place] for place in room]) and (every > 1 or len(room) == len(wanted)):
            return kept + room
    return kept


def first_clear(choices: Iterable[Spot], taken: Sequence[Spot]) -> Spot:
    """The first of the places to choose from that stands clear of all taken; the first of all if none does."""
    places = list(choices)
    return next((spot for spot in places if all(spot.clear_of(other) for other in taken)), places[0])


def around(x: float, y: float, towards: float, far: Sequence[float]) -> list[tuple[float, float]]:
    """Places round (x, y): at each distance, first the way `towards` (radians), then turned more and more to either side."""
    turns = (0.0, 0.6, -0.6, 1.2, -1.2, 1.9, -1.9, 2.6, -2.6)
    return [
        (x + reach * math.cos(towards + turn), y + reach * math.sin(towards + turn)) for reach in far for turn in turns
    ]
