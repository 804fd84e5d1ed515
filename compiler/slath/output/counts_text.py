"""Stake counts as text: which suit, what each does to the colours and the spacing, and the change that gets there."""

from __future__ import annotations

from collections.abc import Sequence

from slath.basket.count_search import Colours, CountTried, own_count
from slath.basket.model import Basket
from slath.units import printing
from slath.units.printing import First

REACH = 8  # counts looked at on either side of the basket's own, unless a range is asked for


def counts_text(basket: Basket, tried: Sequence[CountTried], first: First = "inches") -> str:
    """A table of the counts of one size that can be woven, then those that cannot, with why."""
    own = own_count(basket)
    lines = [f"{basket.size}: {own} {'stakes' if basket.stakes else 'stick ends'} now"]
    rows = [_row(item, own, first) for item in tried if item.suits]
    lines += _aligned([["stakes", "spacing at base, rim", "colours", "how to get there"], *rows])
    refused = [item for item in tried if not item.suits]
    if refused:
        lines += ["", "  cannot be woven:"]
        lines += [f"  {item.stakes}  {_why(item)}" for item in refused]
    return "\n".join(lines) + "\n"


def _row(item: CountTried, own: int, first: First) -> list[str]:
    spacing = f"{printing.both(item.base_spacing_mm, first)}, {printing.both(item.rim_spacing_mm, first)}"
    how = "as it is" if item.stakes == own else "; ".join(item.changes)
    less_good = "; ".join(objection.reason for objection in item.objections if not objection.stops)
    return [str(item.stakes), spacing, colours_text(item.colours), f"{how} (but {less_good})" if less_good else how]


def colours_text(colours: Sequence[Colours]) -> str:
    """What a count does to the colours of each band of more than one colour."""
    return "; ".join(f"{item.band}: {steps_text(item)}" for item in colours) or "–"


def steps_text(colours: Colours) -> str:
    """A colour step in words: upright, alternating, or so many stakes left or right each round."""
    if colours.looks in {"upright stripes", "alternating"}:
        return colours.looks
    way = "right" if colours.steps > 0 else "left"
    count = abs(colours.steps)
    return f"each round {count} {'stake' if count == 1 else 'stakes'} further {way}"


def _why(item: CountTried) -> str:
    return "; ".join(
        f"{found.part}: {found.reason}" if found.part else found.reason for found in item.objections if found.stops
    )


def _aligned(rows: Sequence[Sequence[str]]) -> list[str]:
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]) - 1)]
    return [
        "  " + "  ".join([*(cell.ljust(width) for cell, width in zip(row, widths, strict=False)), row[-1]]).rstrip()
        for row in rows
    ]
