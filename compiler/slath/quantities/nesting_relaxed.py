"""Many pieces of few lengths: ways of filling a length, found by the prices the pieces have where parts of lengths could be
bought, and then taken whole.

After Gilmore and Gomory, "A Linear Programming Approach to the Cutting-Stock Problem", *Operations Research* 9 (1961): of
all fillings only those are looked at that the prices make worth their length. The relaxed plan is taken down to whole
lengths, and what remains is planned anew, until nothing does; it seldom takes more than one length over the fewest.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

_SAME = 1e-9
_ROUNDS = 200  # fillings brought in at the most, before the prices are taken as they are
_LOOKED_AT = 20_000  # steps of one search for the dearest filling

Filling = tuple[int, ...]  # how many of each kind
Matrix = list[list[float]]


def laid_by_prices(pieces: Counter[float], length_mm: float) -> list[tuple[float, ...]]:
    """All the pieces, none longer than `length_mm`, laid into lengths; each length's pieces the longest first."""
    kinds = sorted(pieces, reverse=True)
    left = [pieces[kind] for kind in kinds]
    filled: list[tuple[float, ...]] = []
    while any(left):
        now = [index for index, count in enumerate(left) if count]
        sizes, counts = [kinds[index] for index in now], [left[index] for index in now]
        for filling, times in _whole(sizes, counts, length_mm):
            cut = tuple(size for size, number in zip(sizes, filling, strict=True) for _ in range(number))
            filled += [cut] * times
            for index, number in zip(now, filling, strict=True):
                left[index] -= number * times
    return filled


def _whole(sizes: Sequence[float], counts: Sequence[int], length_mm: float) -> list[tuple[Filling, int]]:
    """The fillings of the relaxed plan that are used at least once, so often as they are; else the one used most, filled
    up with what there still is.
    """
    basis, used, prices = _relaxed(sizes, counts, length_mm)
    whole: list[tuple[Filling, int]] = []
    left = list(counts)
    for filling, share in sorted(zip(basis, used, strict=True), key=lambda each: (-each[1], each[0])):
        times = min([math.floor(share + 1e-6), *(left[i] // n for i, n in enumerate(filling) if n)])
        if times > 0:
            whole.append((filling, times))
            left = [have - times * number for have, number in zip(left, filling, strict=True)]
    if whole:
        return whole
    most = max(range(len(basis)), key=lambda index: (used[index], basis[index]))
    begun = [min(number, have) for number, have in zip(basis[most], counts, strict=True)]
    room = length_mm - math.fsum(size * number for size, number in zip(sizes, begun, strict=True))
    still = [have - number for have, number in zip(counts, begun, strict=True)]
    more = _dearest(sizes, [price + size * _SAME for price, size in zip(prices, sizes, strict=True)], still, room)
    return [(tuple(a + b for a, b in zip(begun, more, strict=True)), 1)]


def _relaxed(
    sizes: Sequence[float], counts: Sequence[int], length_mm: float
) -> tuple[list[Filling], list[float], list[float]]:
    """Fillings, how often each is used if parts of a length could be bought, and the price of each kind then."""
    kinds = len(sizes)
    basis = [
        tuple(min(math.floor(length_mm / size * (1 + _SAME)), counts[i]) if i == k else 0 for i in range(kinds))
        for k, size in enumerate(sizes)
    ]
    prices = [0.0] * kinds
    for _ in range(_ROUNDS):
        matrix: Matrix = [[float(filling[i]) for filling in basis] for i in range(kinds)]
        turned: Matrix = [[float(number) for number in filling] for filling in basis]
        prices = _solved(turned, [1.0] * kinds)
        filling = _dearest(sizes, prices, counts, length_mm)
        if math.fsum(price * number for price, number in zip(prices, filling, strict=True)) <= 1 + 1e-7:
            break
        used = _solved(matrix, [float(count) for count in counts])
        entering = _solved(matrix, [float(number) for number in filling])
        ratios = [
            (use / enters, index)
            for index, (use, enters) in enumerate(zip(used, entering, strict=True))
            if enters > 1e-9
        ]
        if not ratios:
            break
        basis[min(ratios)[1]] = filling
    used = _solved([[float(filling[i]) for filling in basis] for i in range(kinds)], [float(count) for count in counts])
    return basis, used, prices


def _solved(matrix: Matrix, right: Sequence[float]) -> list[float]:
    """The solution of a system of equations, by elimination with the greatest pivot of each column."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    count = len(rows)
    for column in range(count):
        pivot = max(range(column, count), key=lambda row: abs(rows[row][column]))
        rows[column], rows[pivot] = rows[pivot], rows[column]
        lead = rows[column][column]
        for row in range(count):
            share = rows[row][column] / lead if row != column else 0.0
            if share:
                rows[row] = [a - share * b for a, b in zip(rows[row], rows[column], strict=True)]
    return [rows[index][count] / rows[index][index] for index in range(count)]


def _dearest(sizes: Sequence[float], prices: Sequence[float], counts: Sequence[int], room: float) -> Filling:
    """The filling of a room whose pieces are worth most together, as far as a bounded search sees."""
    order = sorted(
        (index for index in range(len(sizes)) if prices[index] > 0 and counts[index]),
        key=lambda index: (-prices[index] / sizes[index], index),
    )
    best, best_worth, steps = [0] * len(order), 0.0, 0
    taken = [0] * len(order)

    def search(place: int, left: float, worth: float) -> None:
        nonlocal best, best_worth, steps
        steps += 1
        if worth > best_worth + 1e-12:
            best, best_worth = taken.copy(), worth
        if place == len(order) or steps > _LOOKED_AT:
            return
        index = order[place]
        if (
            worth + left * prices[index] / sizes[index] <= best_worth + 1e-12
        ):  # the others are worth less for their length
            return
        for number in range(min(counts[index], math.floor(left / sizes[index] + _SAME)), -1, -1):
            taken[place] = number
            search(place + 1, max(left - number * sizes[index], 0.0), worth + number * prices[index])
        taken[place] = 0

    search(0, room, 0.0)
    filling = [0] * len(sizes)
    for place, index in enumerate(order):
        filling[index] = best[place]
    return tuple(filling)
