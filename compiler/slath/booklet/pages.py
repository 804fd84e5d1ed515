"""Strips into columns and pages: the set of breaks that costs least over the whole run, never one page at a time."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from slath.booklet.blocks import ContentError
from slath.booklet.strips import Strip, gap, total_height

if TYPE_CHECKING:
    from collections.abc import Sequence

TOLERANCE = 0.01  # points
WHITE = 1e4  # a column left wholly empty at its foot would cost this, a third empty a ninth of it
OPEN_WHITE = 600.0  # the same before a part, where white is no fault but is better shared out
COLUMN_PRICE = 500.0  # each column costs this, so parts share one where they can
LOW = 0.58  # a part that opens lower than this share of the column is dear, unless all of it fits below
LOW_PRICE = 2500.0
LONELY = 0.12  # a last column filled less than this is dear
LONELY_PRICE = 900.0


@dataclass(frozen=True, slots=True)
class Placed:
    """A strip and how far its top lies below the top of its column."""

    strip: Strip
    top: float


@dataclass(frozen=True, slots=True)
class Filled:
    """One column: what stands in it, and whether it must open a page or a right-hand page."""

    placed: tuple[Placed, ...]
    starts: str


def columns(strips: Sequence[Strip], height: float) -> list[Filled]:
    """Break strips into columns of ``height`` points."""
    out: list[Filled] = []
    for run in _runs(strips):
        breaks = _best_breaks(run, height)
        for start, end in pairwise(breaks):
            out.append(Filled(tuple(_set(run[start:end], height)), run[start].starts if start == 0 else ""))
    return out


def _runs(strips: Sequence[Strip]) -> list[list[Strip]]:
    """Cut where a new column is asked for."""
    runs: list[list[Strip]] = []
    for strip in strips:
        if strip.starts or not runs:
            runs.append([])
        runs[-1].append(strip)
    return runs


def _best_breaks(run: Sequence[Strip], height: float) -> list[int]:
    """Indices at which columns begin, and the end of the run."""
    count = len(run)
    rest = _rest_of_parts(run)
    price = [0.0] + [float("inf")] * count
    before = [0] * (count + 1)
    for start in range(count):
        if price[start] == float("inf"):
            continue
        head = run[start].repeat
        used = head.height if head else 0.0
        low = 0.0
        for end in range(start + 1, count + 1):
            strip = run[end - 1]
            used += strip.height + (gap(run[end - 2], strip) if end - 1 > start else 0.0)
            if used > height + TOLERANCE:
                if end == start + 1:
                    raise ContentError(
                        f"something {strip.height:.0f} points high does not fit a column of {height:.0f} points"
                    )
                break
            if strip.opens and end - 1 > start and LOW * height < used and used + rest[end - 1] > height:
                low += LOW_PRICE
            cost = price[start] + COLUMN_PRICE + low
            if end == count:
                cost += LONELY_PRICE if used < LONELY * height and start else 0.0
            else:
                cost += run[end].cost + (OPEN_WHITE if run[end].opens else WHITE) * (1 - used / height) ** 2
            if cost < price[end]:
                price[end], before[end] = cost, start
    breaks = [count]
    while breaks[-1]:
        breaks.append(before[breaks[-1]])
    return breaks[::-1]


def _rest_of_parts(run: Sequence[Strip]) -> list[float]:
    """For every strip that opens a part, the height of what follows it up to the next part; 0 for the others."""
    openings = [number for number, strip in enumerate(run) if strip.opens]
    rest = [0.0] * len(run)
    for number, following in pairwise([*openings, len(run)]):
        rest[number] = total_height(run[number:following]) - run[number].height
    return rest


def _set(run: Sequence[Strip], height: float) -> list[Placed]:
    """Set the strips of one column under one another; what fills takes the height left."""
    head = run[0].repeat
    strips = [head, *run] if head else list(run)
    placed: list[Placed] = []
    y = 0.0
    for number, strip in enumerate(strips):
        if number and not (number == 1 and strips[0] is head):
            y += gap(strips[number - 1], strip)
        if strip.fills:
            after = strips[number:]
            rest = height - y - total_height(after) + strip.height
            strip.marks = strip.fills(rest)
            placed.append(Placed(strip, y))
            y += rest
        else:
            placed.append(Placed(strip, y))
            y += strip.height
    return placed
