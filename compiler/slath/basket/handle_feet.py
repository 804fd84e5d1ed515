"""Where the feet of handles go down: stakes facing each other across the rim, counted from the stakes of the base."""

from __future__ import annotations

from collections.abc import Sequence
from typing import assert_never

from msgspec.structs import replace

from slath.basket.model import CannotConstruct, Stake
from slath.language.pattern import Handle
from slath.messages.told import kept

_SIDE_SPACES = 4  # stakes between the feet of a side handle where no span is given, estimated


def feet_of(spec: Handle, stakes: Sequence[Stake], rim_mm: float) -> tuple[int, ...]:
    """Stake numbers of all feet: handle by handle, the left foot first. `rim_mm` is the rim's perimeter.

    Bows stand on stakes that face each other; on an odd number none do, and the nearest are taken (see `facing_miss`).
    Two bows of one set stand side by side; side handles, rings and ears of one set are shared out round the rim.
    """
    standing = [stake for stake in stakes if stake.kind != "bye-stake"]
    if not standing:
        raise CannotConstruct(
            "handle-no-stake", spec.path, "handle", kept("refusals.there-are-no-stakes-for"),
            (kept("refusals.give-the-basket-stakes"),),
        )  # fmt: skip
    if spec.at:
        return _given(spec, standing)
    start = 0.25 if spec.direction == "across" else 0.0
    match spec.family:
        case "side" | "drop":
            return _side_feet(spec, standing, start, rim_mm)
        case "ring" | "ears":
            return tuple(standing[_nearest(standing, start + index / spec.count)].number for index in range(spec.count))
        case "bow":
            return _bow_feet(spec, standing, start)
        case "swinging":  # one pair of ears for all its bows
            return _bow_feet(replace(spec, count=1), standing, start)
        case unknown:
            assert_never(unknown)


def _given(spec: Handle, standing: Sequence[Stake]) -> tuple[int, ...]:
    numbers = {stake.number for stake in standing}
    for number in spec.at:
        if number not in numbers:
            raise CannotConstruct(
                "handle-no-stake", (*spec.path, "at"), "handle",
                kept("refusals.there-is-no-stake-for", number=number, numbers=max(numbers)),
                (kept("refusals.choose-stakes-from-1-to", numbers=max(numbers)),),
            )  # fmt: skip
    feet = spec.at
    if len(feet) == 1 and spec.family not in ("ring", "ears"):
        place = [stake.number for stake in standing].index(feet[0])
        feet = (feet[0], standing[(place + len(standing) // 2) % len(standing)].number)
    return feet


def _bow_feet(spec: Handle, standing: Sequence[Stake], start: float) -> tuple[int, ...]:
    count = len(standing)
    first = _nearest(standing, start)
    feet: list[int] = []
    for index in range(spec.count):
        shift = index - (spec.count - 1) // 2  # bows of one set stand a stake apart, and parallel
        feet.append(standing[(first + shift) % count].number)
        feet.append(standing[(first + count // 2 - shift) % count].number)
    return tuple(feet)


def _side_feet(spec: Handle, standing: Sequence[Stake], start: float, rim_mm: float) -> tuple[int, ...]:
    count = len(standing)
    spaces = _SIDE_SPACES if spec.span_mm is None else max(1, round(spec.span_mm * count / rim_mm))
    feet: list[int] = []
    for index in range(spec.count):
        left = _nearest(standing, start + index / spec.count - spaces / 2 / count)
        feet += [standing[left].number, standing[(left + spaces) % count].number]
    return tuple(feet)


def _nearest(standing: Sequence[Stake], u: float) -> int:
    """The index of the stake nearest to a place round the rim; the lower of two as near."""

    def away(index: int) -> tuple[float, int]:
        apart = (standing[index].u - u) % 1.0
        return round(min(apart, 1 - apart), 9), index

    return min(range(len(standing)), key=away)


def facing_miss(left: int, right: int, count: int) -> float:
    """By how many stakes two feet miss facing each other on `count` stakes: 0 when they do, ½ at best on an odd count.

    Rule printed for handles on single stakes: always an even number of stakes (Blanchard, The Basketry Book, 1914).
    """
    return abs((right - left) % count - count / 2)


def places_from_base(feet: Sequence[int], stakes: Sequence[Stake]) -> tuple[tuple[int, int | None], ...]:
    """Each foot's stake and the stick end at which it is set, so that its place can be counted from the base."""
    ends = {stake.number: stake.end for stake in stakes}
    return tuple((number, ends[number]) for number in feet)
