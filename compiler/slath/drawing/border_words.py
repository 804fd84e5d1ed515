"""What each stake of a border does, in words for the notes and texts of its figures."""

from __future__ import annotations

from collections.abc import Sequence

from slath.basket.border_ways import StakeWay
from slath.drawing.options import Options


def loose_words(loose: Sequence[int], stakes: str, options: Options) -> str:
    """The stakes to leave loose: "stake 1", "stakes 1 and 2"."""
    if len(loose) == 1:
        return f"{options.term('stake')} {loose[0]}"
    return f"{stakes} {listed(list(loose))}"


def runs(way: StakeWay, legs: Sequence[object]) -> list[tuple[str, list[int], list[int]]]:
    """Stakes passed in one go on one face: face, their numbers, their places from the stake."""
    offsets = [visit.offset for leg in legs for visit in leg.visits]  # type: ignore[attr-defined]
    runs: list[tuple[str, list[int], list[int]]] = []
    passes = list(way.passes)
    for (number, face), offset in zip(passes, offsets[-len(passes) :] if passes else [], strict=True):
        if runs and runs[-1][0] == face:
            runs[-1][1].append(number)
            runs[-1][2].append(offset)
        else:
            runs.append((face, [number], [offset]))
    return runs


def turn_words(way: StakeWay) -> str:
    """One turn of one stake: "3 goes behind 4 and 5 and out between 5 and 6"."""
    runs: list[tuple[str, list[int]]] = []
    for number, face in way.passes:
        if runs and runs[-1][0] == face:
            runs[-1][1].append(number)
        else:
            runs.append((face, [number]))
    past = ", ".join(f"{face} {listed(numbers)}" for face, numbers in runs)
    edge = "over the top and " if way.over_edge else ""
    return (
        f"Stake {way.stake} goes {edge}{past}, {ending_words(way)}"
        if past
        else f"Stake {way.stake} goes {edge}{ending_words(way)}"
    )


def ending_words(way: StakeWay) -> str:
    """How a turn ends and where: "out between 3 and 4"."""
    a, b = way.ends_between
    loop = f", under loop {way.through_loop}" if way.through_loop else ""
    if way.ending == "out":
        return f"out between {a} and {b}{loop}"
    if way.ending == "in":
        return f"in between {a} and {b}{loop}"
    if way.ending == "down":
        return f"down beside {a}"  # the last one passed: Gill (1916), open borders
    return f"rests on {way.rests_on}"


def under_words(way: StakeWay) -> str:
    """What a stake is threaded under: "under loops 1 and 2", "behind the end of 1"."""
    loops = [under.stake for under in way.under if under.what == "loop"]
    ends = [under.stake for under in way.under if under.what != "loop"]
    said = []
    if loops:
        said.append(f"under loop{'s' if len(loops) > 1 else ''} {listed(loops)}")
    if ends:
        said.append(f"behind the end{'s' if len(ends) > 1 else ''} of {listed(ends)}")
    return " and ".join(said) or "as before"


def listed(numbers: Sequence[int]) -> str:
    """Numbers as they are read: "1", "1 and 2", "1, 2 and 3"; four or more in a row as "1 to 4"."""
    words = [str(number) for number in numbers]
    if len(words) > 3:
        return f"{words[0]} to {words[-1]}"
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
