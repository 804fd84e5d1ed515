"""Borders written the way a handbook prints them, for tests."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from slath.basket.border_over import Over, endless
from slath.basket.border_path import Leg
from slath.language.pattern import Border, BorderPass, Move, MoveWay


def moves(words: str) -> tuple[Move, ...]:
    """``behind 2, out`` as moves."""
    found = []
    for item in words.split(","):
        way, _, count = item.strip().partition(" ")
        found.append(Move(cast("MoveWay", way), int(count or 0)))
    return tuple(found)


def border(*passes: str, laid_first: int = 0) -> Border:
    """A border of these passes, the first with so many stakes laid down before one moves."""
    return Border(
        (),
        tuple(
            BorderPass(("passes", index), moves(words), laid_first=laid_first if index == 0 else 0)
            for index, words in enumerate(passes)
        ),
    )


def lying_over(legs: Sequence[Leg]) -> tuple[tuple[Over, ...], ...]:
    """For each leg of stake 0: what is worked later in the same pass and lies over it, in the order it is met."""
    rim = endless(tuple(legs))
    return tuple(
        tuple(
            item
            for cell in rim.over(number)
            for item in cell
            if item.later and legs[item.leg].pass_number == leg.pass_number
        )
        for number, leg in enumerate(legs)
    )
