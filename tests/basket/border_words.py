"""Borders written the way a handbook prints them, for tests."""

from __future__ import annotations

from typing import cast

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
