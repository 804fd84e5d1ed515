"""The weave model against brute-force weaving and published counts."""

from __future__ import annotations

from itertools import pairwise
from math import gcd

import pytest

from slath.basket.weave import colour_step, face_at, follows, holds, rod_on_face, seen_step
from slath.language.pattern import Stroke, WeaveSpec


def rand(before: int, behind: int) -> WeaveSpec:
    """One strand, before and behind."""
    return WeaveSpec("rand", (Stroke(before, behind),), 1, 1, twined=False, label=f"over {before} under {behind}")


def wale(rods: int) -> WeaveSpec:
    """A k-rod wale: before k-1, behind 1."""
    return WeaveSpec("wale", (Stroke(rods - 1, 1),), rods, 1, twined=True, label=f"{rods}-rod wale")


PAIR = WeaveSpec("pair", (Stroke(1, 1),), 2, 1, twined=True, label="pairing")
CHASE = WeaveSpec("chase", (Stroke(1, 1),), 2, 1, twined=False, label="chase")


def woven_by_hand(uprights: int, before: int, behind: int) -> bool:
    """Lay one strand stake by stake, as a hand does, until the pattern must repeat; held if no stake saw one face."""
    seen: list[set[str]] = [set() for _ in range(uprights)]
    upright, left, face = 0, before, "before"
    for _ in range(uprights * (before + behind)):
        seen[upright].add(face)
        upright = (upright + 1) % uprights
        left -= 1
        if left == 0:
            face = "behind" if face == "before" else "before"
            left = behind if face == "behind" else before
    return all(len(faces) == 2 for faces in seen)


def test_one_strand_holds_exactly_when_weaving_it_does() -> None:
    """For all counts to 200 and strokes to 6: the model, laying a strand by hand, and gcd(S, a+b) ≤ min(a, b) agree."""
    checked = 0
    for before in range(1, 7):
        for behind in range(1, 7):
            for uprights in range(3, 201):
                expected = woven_by_hand(uprights, before, behind)
                assert holds(rand(before, behind), uprights) is expected
                assert (gcd(uprights, before + behind) <= min(before, behind)) is expected
                checked += 1
    assert checked == 36 * 198


@pytest.mark.parametrize(
    ("before", "behind", "uprights"),
    [(1, 1, 17), (1, 1, 31), (2, 1, 20), (2, 1, 16), (2, 1, 26), (3, 2, 31)],
)
def test_published_counts_hold(before: int, behind: int, uprights: int) -> None:
    """Gill, Practical Basketry, 1916: randing on 17 and 31, over 2 under 1 on 20, 16 and 26, over 3 under 2 on 31."""
    assert holds(rand(before, behind), uprights)


@pytest.mark.parametrize("uprights", [18, 40, 62])
def test_randing_needs_an_odd_count(uprights: int) -> None:
    """Plain randing on an even count leaves every stake with one face; stated by White, Gill and Turner alike."""
    assert not holds(rand(1, 1), uprights)


@pytest.mark.parametrize(("uprights", "step"), [(37, -1), (38, 1), (39, 0), (32, 1), (40, -1), (42, 0)])
def test_three_colours_step_as_published(uprights: int, step: int) -> None:
    """Choate (spirals): three rods in three colours lean left on 37, right on 38, stand upright on 39."""
    assert colour_step(wale(3), (("a",), ("b",), ("c",)), uprights) == step
    assert seen_step(step, leftwards=True) == -step


def test_thirty_two_stakes_make_a_spiral() -> None:
    """On 32 stakes a three-rod wale in three colours spirals (common practice, no source)."""
    assert colour_step(wale(3), (("a",), ("b",), ("c",)), 32) not in (0, None)


def test_two_colours_stripe_on_even_and_alternate_on_odd() -> None:
    """Turner, The Basket Maker, 1909: pairing in two colours stripes on an even count, alternates on an odd one."""
    two = (("natural",), ("brown",))
    assert colour_step(PAIR, two, 20) == 0
    assert abs(colour_step(PAIR, two, 21) or 0) == 1
    assert colour_step(PAIR, (("natural",), ("natural",)), 20) is None


@pytest.mark.parametrize("rods", [3, 4, 5, 6])
@pytest.mark.parametrize("uprights", [13, 31, 32, 40])
def test_colours_come_from_laying_each_rod(rods: int, uprights: int) -> None:
    """Walking each rod on its own, the one that starts its float over an upright is the one the formula names, and one
    rod alone is behind each upright in each round.
    """
    spec = wale(rods)
    for travelled in range(uprights * 3):
        starting = [rod for rod in range(rods) if (travelled - rod) % rods == 0]
        assert starting == [rod_on_face(spec, uprights, travelled % uprights, travelled // uprights)]
        behind = [rod for rod in range(rods) if face_at(spec, rod, travelled) == "behind"]
        assert len(behind) == 1


def test_chasing_alternates_on_even_counts_only() -> None:
    """Blanchard, The Basketry Book, 1914: two weavers always on an even number of stakes."""
    for uprights in range(4, 101):
        rows = [[face_at(CHASE, rod, p + r * uprights) for p in range(uprights)] for r in range(3) for rod in (0, 1)]
        alternates = all(low != high for lower, upper in pairwise(rows) for low, high in zip(lower, upper, strict=True))
        assert follows(CHASE, uprights) is alternates is (uprights % 2 == 0)


@pytest.mark.parametrize("uprights", range(5, 41))
@pytest.mark.parametrize(("before", "behind"), [(1, 1), (2, 1), (2, 2), (3, 2)])
@pytest.mark.parametrize("shift", [1, 2])
def test_shifted_course_against_weaving_it(uprights: int, before: int, behind: int, shift: int) -> None:
    """A strand that stays on its face for `shift` stakes more once a round holds as weaving it stake by stake says."""
    cycle = ["before"] * before + ["behind"] * behind
    seen: list[set[str]] = [set() for _ in range(uprights)]
    phase = 0
    for _ in range(before + behind):
        for upright in range(uprights):
            seen[upright].add(cycle[phase % len(cycle)])
            phase += 1
        phase -= shift
    assert holds(rand(before, behind), uprights, shift) == all(len(faces) == 2 for faces in seen)
