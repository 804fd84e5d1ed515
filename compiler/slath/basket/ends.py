"""Stick ends round the base edge: their order, the groups they are opened in, and where they come to the edge."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from slath.basket.model import EndKind

# What the pattern calls ends of a kind. Sticks laid side by side are pairs to the maker, were they three.
_NAMES: dict[EndKind, str] = {"crosswise single": "crosswise singles", "crosswise group": "crosswise pairs"}


class Arm(Struct, frozen=True):
    """Stick ends that leave the slath on one side, in working order: (stick number, kind, laid group) each."""

    ends: tuple[tuple[int, EndKind, int], ...]


def parted(count: int, size: int) -> tuple[int, ...]:
    """`count` ends of one arm opened into groups of `size`; an odd remainder stays in the middle of the arm.

    Five opened in twos are two, one and two; common practice, no source.
    """
    if size >= count:
        return (count,) if count else ()
    whole, rest = divmod(count, size)
    groups = [size] * whole
    if rest:
        groups.insert((whole + 1) // 2, rest)
    return tuple(groups)


def half_apart(arms: Sequence[Arm], *, apart: bool) -> tuple[Arm, ...]:
    """The arms; with the half stick `apart`, its end leaves the slath as an arm of its own, and is a group by itself."""
    if not apart:
        return tuple(arms)
    first, *others = arms
    rest = tuple(end for end in first.ends if end[1] != "half stick")
    half = tuple(end for end in first.ends if end[1] == "half stick")
    return (Arm(rest), Arm(half), *others)


def groups_round(arms: tuple[Arm, ...], opened: int | str, as_one: Sequence[int] = ()) -> tuple[int, ...]:
    """Sizes of the groups of ends round the base when opened as asked: "grouped" as laid, or `opened` at a time. Where
    ends stand alone, each end of `as_one` is in one group with the next.
    """
    sizes = _groups_of(arms, opened)
    for number in sorted(as_one, reverse=True):
        last = 0
        for place, size in enumerate(sizes):
            last += size
            if last == number and place + 1 < len(sizes) and size == sizes[place + 1] == 1:
                sizes[place : place + 2] = [size + sizes[place + 1]]
                break
    return tuple(sizes)


def _groups_of(arms: tuple[Arm, ...], opened: int | str) -> list[int]:
    sizes: list[int] = []
    for arm in arms:
        if opened == "grouped":
            laid = [group for _, _, group in arm.ends]
            sizes += [laid.count(group) for group in dict.fromkeys(laid)]
        else:
            sizes += parted(len(arm.ends), int(opened))
    return sizes


def stakes_at(arms: tuple[Arm, ...], per_end: int, exceptions: Mapping[str, int]) -> list[int]:
    """Stakes at each end in working order. An exception names a kind of end, "crosswise", or an end's number."""
    kinds = [kind for arm in arms for _, kind, _ in arm.ends]
    return [stakes_at_end(kind, number, per_end, exceptions) for number, kind in enumerate(kinds, start=1)]


def stakes_at_end(kind: EndKind, number: int, per_end: int, exceptions: Mapping[str, int]) -> int:
    """Stakes at one end. The later and narrower name wins: a kind over the default, a number over a kind."""
    count = exceptions.get(kind.split(" ", maxsplit=1)[0], per_end)
    count = exceptions.get(_NAMES.get(kind, kind), count)
    return exceptions.get(str(number), count)
