"""Pieces laid into lengths as they are sold: which pieces are cut from which length, in as few lengths as can be.

The one place where cutting is planned: what a basket is bought for, what a class is, and what is cut from what is in
hand all come from `nest`. Fewest lengths is the cutting-stock problem; it is solved by laying the longest piece where
it leaves least, then by a search for fewer lengths that stops after a fixed number of trials, and where the bound is not
met by the prices of the pieces (`nesting_relaxed`); the same pieces always give the same plan.
"""

from __future__ import annotations

import math
from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Iterator, Sequence

from msgspec import Struct

from slath.quantities.nesting_relaxed import laid_by_prices

_HAIR = 1e-9  # share of a length that binary arithmetic may leave over
_TRIALS = 6_000  # fillings looked at in search of fewer lengths
_SEARCHED = 60  # pieces beyond which the search starts from the lengths that are worst filled


class Cut(Struct, frozen=True):
    """One length as sold (or in hand), and the pieces cut from it, longest first; mm."""

    length_mm: float
    pieces_mm: tuple[float, ...]

    @property
    def left_mm(self) -> float:
        """What is left of it."""
        return max(self.length_mm - math.fsum(self.pieces_mm), 0.0)


class Nesting(Struct, frozen=True):
    """How pieces are cut: from lengths in hand, from lengths to buy, and the pieces no length holds (mm)."""

    from_hand: tuple[Cut, ...]
    to_buy: tuple[Cut, ...]
    too_long_mm: tuple[float, ...]

    @property
    def left_mm(self) -> float:
        """What is left of all the lengths that are cut."""
        return math.fsum(cut.left_mm for cut in (*self.from_hand, *self.to_buy))


def nest(pieces_mm: Sequence[float], length_mm: float, in_hand_mm: Sequence[float] = ()) -> Nesting:
    """Cut `pieces_mm` from the lengths `in_hand_mm` and, for the rest, from as few new lengths of `length_mm` as can be.

    The lengths in hand are filled one after another, each as full as it can be, the longest first. A piece longer than
    every length is in `too_long_mm`: it cannot be cut in one. Pieces of no length are left out. ValueError if
    `length_mm` is not positive.
    """
    if not length_mm > 0:
        raise ValueError(f"pieces cannot be cut from lengths of {length_mm} mm")
    left = Counter(piece for piece in pieces_mm if piece > 0)
    from_hand: list[Cut] = []
    for hand in sorted((found for found in in_hand_mm if found > 0), reverse=True):
        pieces = _fullest(left, hand)
        if pieces:
            left -= Counter(pieces)
            from_hand.append(Cut(hand, pieces))
    too_long = tuple(
        sorted((piece for piece in left.elements() if not _fits(piece, length_mm, length_mm)), reverse=True)
    )
    left -= Counter(too_long)
    rest = sorted(left.elements(), reverse=True)
    to_buy = _fewer(_best_fit(rest, length_mm), length_mm)
    if len(to_buy) > fewest_lengths(rest, length_mm):
        by_prices = _fewer(laid_by_prices(left, length_mm), length_mm)
        to_buy = min(to_buy, by_prices, key=len)  # of two as good the first
    return Nesting(tuple(from_hand), tuple(Cut(length_mm, pieces) for pieces in to_buy), too_long)


def fewest_lengths(pieces_mm: Sequence[float], length_mm: float) -> int:
    """A number of lengths below which the pieces cannot be cut: by their total, and by those too long to share a length.

    After Martello and Toth, *Knapsack Problems* (1990), 8.3: for any part k of a length, pieces longer than the length
    less k stand alone, those over half share no length with each other, and the rest, down to k, fill what is left.
    """
    pieces = [piece for piece in pieces_mm if piece > 0]
    half, slack = length_mm / 2, _HAIR * length_mm
    most = math.ceil(math.fsum(pieces) / length_mm - _HAIR)
    for part in {piece for piece in pieces if piece <= half} | {0.0}:
        alone = [piece for piece in pieces if piece > length_mm - part + slack]
        large = [piece for piece in pieces if half + slack < piece <= length_mm - part + slack]
        small = math.fsum(piece for piece in pieces if part <= piece <= half + slack)
        over = small - (len(large) * length_mm - math.fsum(large))
        most = max(most, len(alone) + len(large) + max(0, math.ceil(over / length_mm - _HAIR)))
    return most


def _fits(piece: float, room: float, length_mm: float) -> bool:
    return piece <= room + _HAIR * length_mm


def _best_fit(pieces: Sequence[float], length_mm: float) -> list[tuple[float, ...]]:
    """Each piece, the longest first, into the length where it leaves least."""
    filled: list[list[float]] = []
    rooms: list[tuple[float, int]] = []  # sorted: room left, and the length that has it
    for piece in pieces:
        at = bisect_left(rooms, (piece - _HAIR * length_mm, -1))
        if at == len(rooms):
            filled.append([piece])
            insort(rooms, (length_mm - piece, len(filled) - 1))
        else:
            room, index = rooms.pop(at)
            filled[index].append(piece)
            insort(rooms, (max(room - piece, 0.0), index))
    return [tuple(pieces) for pieces in filled]


def _fewer(filled: list[tuple[float, ...]], length_mm: float) -> list[tuple[float, ...]]:
    """The same pieces in fewer lengths, where a bounded search finds them; the lengths that are full stay as they are."""
    filled = sorted(filled, key=lambda pieces: (-math.fsum(pieces), pieces))
    pieces = [piece for cut in filled for piece in cut]
    if len(filled) <= fewest_lengths(pieces, length_mm):
        return filled
    kept = 0
    while len(pieces) > _SEARCHED and kept < len(filled) - 1:
        pieces = pieces[len(filled[kept]) :]
        kept += 1
    search = _Search(length_mm, len(filled) - kept)
    found = search.within(Counter(pieces), fewest_lengths(pieces, length_mm))
    return filled if found is None else [*filled[:kept], *found]


class _Search:
    """A search, length by length, for a plan of fewer lengths; it gives up after so many fillings."""

    def __init__(self, length_mm: float, now: int) -> None:
        self._length = length_mm
        self._now = now
        self._trials = 0

    def within(self, pieces: Counter[float], least: int) -> list[tuple[float, ...]] | None:
        """A plan of as few lengths as were found, `least` at the fewest; None if there is none below what there is now."""
        for number in range(least, self._now):
            self._trials = 0
            found = self._filled(pieces, number)
            if found is not None:
                return found
        return None

    def _filled(self, left: Counter[float], lengths: int) -> list[tuple[float, ...]] | None:
        """All that is left in so many lengths: the longest piece with each filling that goes with it, the fullest first."""
        if not left:
            return []
        if math.fsum(left.elements()) > lengths * self._length * (1 + _HAIR):
            return None
        longest = max(left)
        for filling in self._fillings(longest, left):
            self._trials += 1
            if self._trials > _TRIALS:
                return None
            rest = self._filled(left - Counter(filling), lengths - 1)
            if rest is not None:
                return [filling, *rest]
        return None

    def _fillings(self, longest: float, left: Counter[float]) -> list[tuple[float, ...]]:
        room = self._length - longest
        others = list(_combinations(left - Counter([longest]), room, self._length))
        return [(longest, *other) for other in sorted(others, key=lambda other: (-math.fsum(other), other))]


def _fullest(left: Counter[float], room: float) -> tuple[float, ...]:
    """The pieces that fill a length best."""
    return max(_combinations(left, room, room), key=lambda pieces: (math.fsum(pieces), pieces), default=())


def _combinations(left: Counter[float], room: float, length_mm: float) -> Iterator[tuple[float, ...]]:
    """Sets of pieces that fit into a room and leave none that would fit besides, at most a fixed number of them."""
    kinds = sorted(left, reverse=True)
    found = 0

    def filled(index: int, room: float, taken: tuple[float, ...]) -> Iterator[tuple[float, ...]]:
        nonlocal found
        if found >= _TRIALS // 10:
            return
        if index == len(kinds):
            found += 1
            yield taken
            return
        kind = kinds[index]
        most = min(left[kind], math.floor(room / kind + _HAIR * length_mm / kind))
        least = most if index == len(kinds) - 1 else 0
        for number in range(most, least - 1, -1):
            yield from filled(index + 1, max(room - number * kind, 0.0), taken + (kind,) * number)

    return filled(0, room, ())
