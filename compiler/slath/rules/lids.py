"""Lids: whether they fit the rim that the basket is predicted to have."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.lid import best_size, fits
from slath.basket.model import ConstructedLid
from slath.rules.finding import Context, Finding

_WAYS = {"over": "go over the border", "inside": "go inside the border", "resting": "rest on the rim"}


def lid_fits(context: Context) -> Iterator[Finding]:
    """A lid larger than the opening it goes into, or smaller than what it goes over, does not go on."""
    lid = context.basket.lid
    if lid is not None and lid.gap_mm < 0:
        yield _finding(
            context, lid,
            f"A lid of this size does not {_WAYS[lid.spec.fit]}: it is {context.measure(-2 * lid.gap_mm)} out.",
        )  # fmt: skip


def lid_has_room(context: Context) -> Iterator[Finding]:
    """A lid needs its clearance all round, since no two baskets come out alike to the millimetre."""
    lid = context.basket.lid
    if lid is not None and lid.gap_mm >= 0 and not fits(lid):
        yield _finding(
            context, lid,
            f"A lid that is to {_WAYS[lid.spec.fit]} has {context.measure(lid.gap_mm)} all round; "
            f"{context.measure(lid.spec.clearance_mm)} is asked for.",
        )  # fmt: skip


def _finding(context: Context, lid: ConstructedLid, sentence: str) -> Finding:
    outline = lid.basket.rim.outline
    length, width = best_size(lid, outline)
    top = "its rim" if lid.basket.profile else "the lid"
    size = (
        context.measure(length)
        if outline.shape == "circle"
        else f"{context.measure(length)} by {context.measure(width)}"
    )
    return Finding(
        (*lid.spec.path, "fit"), "lid", sentence,
        (f"make {top} {size} over all", "fit it to the first basket woven from these numbers"),
    )  # fmt: skip
