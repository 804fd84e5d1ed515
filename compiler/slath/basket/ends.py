"""Stick ends round the base edge: their order, the groups they are opened in, and where they come to the edge."""

from __future__ import annotations

from dataclasses import dataclass

from slath.basket.model import EndKind


@dataclass(frozen=True, slots=True)
class Arm:
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


def groups_round(arms: tuple[Arm, ...], opened: int | str) -> tuple[int, ...]:
    """Sizes of the groups of ends round the base when opened as asked: "grouped" as laid, or `opened` at a time."""
    sizes: list[int] = []
    for arm in arms:
        if opened == "grouped":
            laid = [group for _, _, group in arm.ends]
            sizes += [laid.count(group) for group in dict.fromkeys(laid)]
        else:
            sizes += parted(len(arm.ends), int(opened))
    return tuple(sizes)


def stakes_at(arms: tuple[Arm, ...], per_end: int, exceptions: dict[str, int]) -> list[int]:
    """Stakes at each end in working order. An exception names a kind of end, "crosswise", or an end's number.

    The later and narrower name wins: a kind over the default, a number over a kind.
    """
    counts: list[int] = []
    number = 0
    for arm in arms:
        for _, kind, _ in arm.ends:
            number += 1
            count = exceptions.get(kind.split(" ", maxsplit=1)[0], per_end)
            count = exceptions.get(f"{kind}s", exceptions.get(kind, count))
            counts.append(exceptions.get(str(number), count))
    return counts
