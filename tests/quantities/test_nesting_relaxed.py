"""Cutting plans of many pieces of few lengths, as a class has them, against the exact optimum of an integer programme."""

from __future__ import annotations

import random
from collections import Counter

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from slath.quantities.nesting import nest
from slath.quantities.nesting_relaxed import laid_by_prices

INCH = 25.4  # exact: NIST SP 811 (2008), B.8
SOLD = (1829.0, 2438.4, 3048.0, 3300.0, 3657.6, 4000.0, 4876.8)
COUNTS = (1, 2, 4, 7, 12, 24, 38, 60, 90, 152, 266)
MOST_FILLINGS = 20_000


def fillings(kinds: list[float], counts: list[int], length: float) -> list[list[int]]:
    """Every way to fill a length, by how many of each kind."""
    found: list[list[int]] = []

    def fill(index: int, room: float, taken: list[int]) -> None:
        most = min(counts[index], int(room / kinds[index] + 1e-9))
        if index == len(kinds) - 1:
            found.append([*taken, most])
            return
        for number in range(most, -1, -1):
            fill(index + 1, room - number * kinds[index], [*taken, number])

    fill(0, length, [])
    return found


def fewest(pieces: list[float], length: float) -> int | None:
    """Fewest lengths by an integer programme over all fillings (HiGHS, through scipy); None where they are too many."""
    counted = Counter(pieces)
    kinds = sorted(counted, reverse=True)
    counts = [counted[kind] for kind in kinds]
    ways = np.array(fillings(kinds, counts, length)).T
    if ways.shape[1] > MOST_FILLINGS:
        return None
    found = milp(
        np.ones(ways.shape[1]), constraints=LinearConstraint(ways, lb=counts), bounds=Bounds(0, np.inf),
        integrality=np.ones(ways.shape[1], dtype=np.int64), options={"time_limit": 5.0},
    )  # fmt: skip
    return round(found.fun) if found.status == 0 else None


def cases(number: int) -> list[tuple[list[float], float]]:
    """Sticks and stakes of up to six lengths in quarter inches, for one to some thirty people."""
    draw = random.Random(2027)  # noqa: S311 - the same draw every time
    made = []
    for _ in range(number):
        pieces = [
            size
            for _ in range(draw.randint(1, 6))
            for size in [round(draw.uniform(4, 34) * 4) / 4 * INCH] * draw.choice(COUNTS)
        ]
        made.append((pieces, draw.choice(SOLD)))
    return made


def test_at_most_one_length_over_the_optimum_in_95_of_100() -> None:
    """Nothing missing, nothing twice, and at most one length more than the fewest there can be, nearly always."""
    over: Counter[int] = Counter()
    for pieces, length in cases(40):
        plan = nest(pieces, length)
        assert Counter(piece for cut in plan.to_buy for piece in cut.pieces_mm) == Counter(pieces)
        assert all(sum(cut.pieces_mm) <= length * (1 + 1e-8) for cut in plan.to_buy)
        best = fewest(pieces, length)
        if best is not None:
            over[max(len(plan.to_buy) - best, 0)] += 1
    assert sum(over.values()) >= 35
    assert over[0] + over[1] >= 0.95 * sum(over.values())


def test_prices_find_what_best_fit_misses_by_27() -> None:
    """Three lengths by the hundred: best fit takes 295 rods of 72 in, 268 are enough."""
    pieces = Counter({793.75: 266, 311.15: 266, 685.8: 266, 768.35: 4, 266.7: 2})
    laid = laid_by_prices(pieces, 1829.0)
    assert Counter(piece for cut in laid for piece in cut) == pieces
    assert len(laid) == fewest(list(pieces.elements()), 1829.0) == 268


@pytest.mark.parametrize(
    ("pieces", "lengths"), [(Counter({500.0: 1}), 1), (Counter({500.0: 7}), 4), (Counter({1000.0: 2, 1.0: 5}), 3)]
)
def test_few_pieces_are_laid_as_well(pieces: Counter[float], lengths: int) -> None:
    """One kind, one piece, a piece as long as the length."""
    laid = laid_by_prices(pieces, 1000.0)
    assert Counter(piece for cut in laid for piece in cut) == pieces
    assert len(laid) == lengths
