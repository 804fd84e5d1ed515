"""What each stake of a border does, in words for the notes and texts of its figures."""

from __future__ import annotations

from itertools import groupby

from slath.basket.border_ways import StakeWay
from slath.units.counting import in_spans


def runs(way: StakeWay) -> list[tuple[str, list[int]]]:
    """Stakes passed in one go on one face: the face and their numbers."""
    return [
        (face, [number for number, _ in passed]) for face, passed in groupby(way.passes, key=lambda passed: passed[1])
    ]


def way_words(way: StakeWay) -> str:
    """Where one turn goes: "behind 4 and 5, out between 5 and 6"."""
    told = [passed_words(way, face, numbers) for face, numbers in runs(way)]
    edge = ["over the top"] if way.over_edge else []
    return ", ".join([*edge, *told, ending_words(way)])


def passed_words(way: StakeWay, face: str, numbers: list[int]) -> str:
    """What is passed in one go: "behind 4 and 5"; in a roll "over the ends of 4 and 5"."""
    if way.ending == "rolled":
        return f"over the end{'s' if len(numbers) > 1 else ''} of {in_spans(way.over_ends)}"
    return f"{face} {in_spans(numbers)}"


def turn_words(way: StakeWay, one: str = "stake") -> str:
    """One turn of one stake: "stake 3 goes behind 4 and 5, out between 5 and 6"."""
    whose = "" if way.sets_out is None else "the end of "
    return f"{whose}{one} {way.stake} goes {way_words(way)}"


def ending_words(way: StakeWay) -> str:
    """How a turn ends and where: "out between 3 and 4"."""
    a, b = way.ends_between
    loop = f", under loop {way.through_loop}" if way.through_loop else ""
    if way.ending == "out":
        return f"out between {a} and {b}{loop}"
    if way.ending == "in":
        return f"{'through' if way.from_inside else 'in'} between {a} and {b}{loop}"
    if way.ending == "down":
        return f"down beside {a}"  # the last one passed: Gill (1916), open borders
    if way.ending == "rolled":
        return f"down between {a} and {b}"
    return f"rests on {way.rests_on}"


def under_words(way: StakeWay) -> str:
    """What a stake is threaded under: "under loops 1 and 2", "under the end of 1"."""
    loops = [under.stake for under in way.under if under.what == "loop"]
    ends = [under.stake for under in way.under if under.what != "loop"]
    said = []
    if loops:
        said.append(f"under loop{'s' if len(loops) > 1 else ''} {in_spans(loops)}")
    if ends:
        said.append(f"under the end{'s' if len(ends) > 1 else ''} of {in_spans(ends)}")
    return " and ".join(said) or "as before"


def sentence(words: str) -> str:
    """A clause as a sentence."""
    return f"{words[0].upper()}{words[1:]}."
