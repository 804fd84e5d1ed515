"""The weave model: where each rod of a weave passes before and behind, whether it holds, and how its colours move.

A rod `i` (0-based, leftmost first) starts one space further right than rod `i - 1`. Count uprights passed since rod 0
set out: at global position g = p + r·S (upright p of round r, both from 0, S uprights) rod i stands at phase
(g - i) mod cycle of its strokes. Everything else follows from this one line.
"""

from __future__ import annotations

from functools import lru_cache
from math import gcd
from typing import Literal

from slath.language.pattern import Stroke, WeaveSpec

Face = Literal["before", "behind"]


@lru_cache(maxsize=256)
def faces_of(strokes: tuple[Stroke, ...]) -> tuple[Face, ...]:
    """The faces of one whole cycle, one for each upright travelled."""
    faces: list[Face] = []
    for stroke in strokes:
        faces.extend("before" for _ in range(stroke.before))
        faces.extend("behind" for _ in range(stroke.behind))
    return tuple(faces)


def face_at(weave: WeaveSpec, rod: int, travelled: int) -> Face:
    """The face on which `rod` passes the upright at global position `travelled`."""
    faces = faces_of(weave.strokes)
    return faces[(travelled - rod) % len(faces)]


def rod_on_face(weave: WeaveSpec, uprights: int, upright: int, round_index: int) -> int:
    """The rod whose stroke begins over `upright` (0-based) in a round: (p + r·S) mod k."""
    return (upright + round_index * uprights) % weave.rods


def holds(weave: WeaveSpec, uprights: int, shift: int = 0) -> bool:
    """Whether every upright comes to be passed both before and behind, so that the weaving holds it.

    A course that is shifted once a round, by passing `shift` uprights more on one face, is at the end of a round as far
    in its strokes as it would be after as many uprights fewer.

    Round after round, a rod meets one upright at phases that are a step of S apart, so at all phases that agree modulo
    gcd(S, cycle). For one rod going before a, behind b this is gcd(S, a + b) ≤ min(a, b).
    """
    if weave.kind in {"french rand", "packing", "open", "fitch", "figure"}:
        return True  # each upright is taken up on its own, or by hand
    faces = faces_of(weave.strokes)
    cycle = len(faces)
    if weave.twined:
        return uprights > weave.rods
    step = gcd(uprights - shift, cycle)
    rods = range(weave.rods)
    return all(
        {faces[(start + turn * step - rod) % cycle] for rod in rods for turn in range(cycle // step)}
        == {"before", "behind"}
        for start in range(step)
    )


def follows(weave: WeaveSpec, uprights: int) -> bool:
    """Whether two chasing rods keep alternating: the row that comes next never repeats the face of the row below it.

    For before 1, behind 1 this asks for an even number of uprights. True for every weave that is not a chase.
    """
    if weave.kind != "chase":
        return True
    return (uprights + weave.rods - 1) % weave.cycle != 0


def colour_step(weave: WeaveSpec, materials: tuple[tuple[str, ...], ...], uprights: int) -> int | None:
    """Uprights by which colours move in each round: positive on, the way the work runs, negative back, 0 upright.

    Seen from outside on is right; where the work runs right to left, on is left (`seen_step`). None for one colour, and
    where the rods do not follow one another round.

    The rod over upright p in round r is (p + r·S) mod k, so the colours of a round are those of the round below, moved
    S mod k back (the shorter way round is given). Whether a stroke lies over the other strands or under them (`reversed`)
    changes nothing: each strand passes the same uprights. In a French rand every rod goes on by one stroke in each
    round, whatever the count.
    """
    if weave.one_by_one or not (weave.twined or weave.kind in {"chase", "french rand"}):
        return None
    period = colour_period(materials)
    if period <= 1:
        return None
    back = -weave.cycle % period if weave.kind == "french rand" else uprights % period
    return -back if back <= period - back else period - back


def seen_step(step: int | None, *, leftwards: bool) -> int | None:
    """A step as it looks from outside, positive right: work that runs `leftwards` mirrors it."""
    return -step if step and leftwards else step


def step_words(step: int | None, period: int) -> str:
    """What colours that move so look like: upright stripes, alternating, steps right or left; nothing for one colour."""
    if step is None:
        return ""
    if step == 0:
        return "upright stripes"
    if 2 * abs(step) == period:
        return "alternating"
    return "steps right" if step > 0 else "steps left"


def colour_period(materials: tuple[tuple[str, ...], ...]) -> int:
    """The shortest cycle of colours among the rods; 1 if they are all alike.

    Rods fewer than go round carry a cycle that closes on them; the rods of a French rand, one for each upright, may
    break it where the round closes, and are then as many as they are.
    """
    rods = len(materials)
    for period in range(1, rods + 1):
        if rods % period == 0 and all(materials[rod] == materials[rod % period] for rod in range(rods)):
            return period
    return rods
