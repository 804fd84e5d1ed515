"""The colour a dye is drawn in, by its everyday name."""

from __future__ import annotations

from functools import cache
from typing import cast

from slath.trade.tables import read_table


def drawn_colour(dye: str) -> str | None:
    """The colour as ``#rrggbb`` for a dye's name, by its last word where the whole is not known; None for no colour's name."""
    words = dye.casefold().replace("-", " ").split()
    known = _table()
    return known.get(" ".join(words)) or (known.get(words[-1]) if words else None)


def known_dyes() -> tuple[str, ...]:
    """Every dye with a colour of its own, in the order of the table."""
    return tuple(_table())


@cache
def _table() -> dict[str, str]:
    return cast("dict[str, str]", read_table("dyes"))
