"""Laws of any weave and any border, against rods and stakes laid one by one as hands lay them."""

from __future__ import annotations

from collections import Counter
from itertools import product

from hypothesis import given
from hypothesis import strategies as st
from sympy.combinatorics import Permutation
from tests.basket.border_words import border
from tests.properties.constructions import quick

from slath.basket.border import work_border
from slath.basket.weave import colour_step, face_at, seen_step
from slath.language.pattern import Stroke, WeaveSpec

ROUNDS = 4


@st.composite
def weaves(draw: st.DrawFn) -> WeaveSpec:
    """Any weave of rods that work in turn: randing of any strokes, chasing, pairing, waling of three to six rods."""
    kind = draw(st.sampled_from(["rand", "chase", "pair", "wale"]))
    if kind == "rand":
        strokes = draw(st.lists(st.builds(Stroke, st.integers(1, 4), st.integers(1, 4)), min_size=1, max_size=3))
        return WeaveSpec("rand", tuple(strokes), 1, 1, twined=False, label="any")
    if kind == "wale":
        rods = draw(st.integers(3, 6))
        return WeaveSpec("wale", (Stroke(rods - 1, 1),), rods, 1, twined=True, label="any")
    return WeaveSpec("pair" if kind == "pair" else "chase", (Stroke(1, 1),), 2, 1, twined=kind == "pair", label="any")


def laid_by_hand(weave: WeaveSpec, uprights: int, rounds: int) -> dict[tuple[int, int], list[tuple[int, str]]]:
    """Rods begun in neighbouring spaces, the one furthest back always next: (upright, round) → who passed, on which face.

    A rod's own first round begins where the rod begins, so what a rod does before upright 0 comes round again is its
    round 0. The strokes are walked one by one; nothing is known of phases.
    """
    stands = list(range(weave.rods))  # the next upright of each rod, counted on without end
    turns = [0] * weave.rods
    passed: dict[tuple[int, int], list[tuple[int, str]]] = {}
    while min(stands) < uprights * rounds + weave.rods:
        rod = min(range(weave.rods), key=lambda one: (stands[one], one))
        stroke = weave.strokes[turns[rod] % len(weave.strokes)]
        turns[rod] += 1
        for face, count in (("before", stroke.before), ("behind", stroke.behind)):
            for _ in range(count):
                upright = stands[rod]
                passed.setdefault((upright % uprights, upright // uprights), []).append((rod, face))
                stands[rod] += 1
    return passed


@quick
@given(weaves(), st.integers(8, 60))
def test_every_rod_of_a_round_passes_every_upright_once(weave: WeaveSpec, uprights: int) -> None:
    """After the first round, in which later rods are begun, every upright is passed by every rod once in each round,
    on the face the model says.
    """
    passed = laid_by_hand(weave, uprights, ROUNDS)
    for upright, number in product(range(uprights), range(1, ROUNDS)):
        met = passed[upright, number]
        assert sorted(rod for rod, _ in met) == list(range(weave.rods))
        for rod, face in met:
            assert face_at(weave, rod, upright + number * uprights) == face


@quick
@given(weaves(), st.integers(8, 60))
def test_a_mirror_turns_the_work_about(weave: WeaveSpec, uprights: int) -> None:
    """Working the other way round and looking from the other side of a mirror are one: colours step as far, the other way."""
    colours = tuple((f"colour {rod}",) for rod in range(weave.rods))
    right = colour_step(weave, colours, uprights)
    left = seen_step(right, leftwards=True)
    assert (right is None and left is None) or (right is not None and left == -right)
    # Brute force: the colour over an upright in one round is found again `step` uprights on in the next.
    if right is None or weave.rods < 2:
        return
    over = {
        place: next(rod for rod in range(weave.rods) if (place - rod) % weave.rods == 0)
        for place in range(uprights * 3)
    }
    for upright in range(weave.rods, uprights - weave.rods):
        assert over[upright + right + uprights] == over[upright]


@st.composite
def border_words(draw: st.DrawFn) -> tuple[tuple[str, ...], int]:
    """A border of one or two passes in words, and how many stakes are laid first."""
    first = f"behind {draw(st.integers(1, 4))}, {draw(st.sampled_from(['out', 'down']))}"
    if first.endswith("down"):
        return (first,), 0
    second = f"before {draw(st.integers(1, 5))}, {draw(st.sampled_from(['in', 'behind 1', 'down']))}"
    return (first, second), 0


@quick
@given(border_words(), st.integers(16, 64))
def test_stakes_of_a_border_go_to_spaces_one_to_one(words: tuple[tuple[str, ...], int], count: int) -> None:
    """No two ends of a closed border come to lie in one space and none is left empty: the way round is a permutation."""
    passes, laid = words
    made = work_border(border(*passes, laid_first=laid), count, 17.5)
    assert made.closes, made.why_not
    for worked in made.passes:
        spaces = [int(stake + worked.ends_at) % count for stake in range(count)]
        assert Counter(spaces) == Counter(range(count))
        turned = Permutation(spaces)  # sympy refuses what is no permutation
        shift = spaces[0]
        assert turned == Permutation([(stake + shift) % count for stake in range(count)])
        assert turned ** turned.order() == Permutation(list(range(count)))


@quick
@given(border_words(), st.integers(16, 64))
def test_stakes_lying_at_a_place_are_the_reach(words: tuple[tuple[str, ...], int], count: int) -> None:
    """Counted stake by stake, as many stakes lie past each upright as each stake passes others."""
    passes, laid = words
    made = work_border(border(*passes, laid_first=laid), count, 17.5)
    lying = Counter(
        (stake + visit.offset) % count for stake in range(count) for one in made.passes for visit in one.visits
    )
    assert set(lying.values()) == {made.reach}
    assert len(lying) == count
