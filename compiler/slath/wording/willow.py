"""What is told of willow as willow is worked: whole rods, butts and tips, joins, tops that are cut off last.

A Scots willow tutorial (grading, slypes, pricking up, tips in the slath), a willow basketmaker's site (wales begun and ended
with tops, butts pieced to butts); that tip joins tip: from memory.
"""

from __future__ import annotations

from slath.messages import Length, Message, Value, message
from slath.messages.values import CUT
from slath.quantities.results import Piece
from slath.units.names import FOOT_MM, INCH_MM
from slath.wording.work import Work

_PRICKED_MM = 3.175  # an eighth of an inch from the base, from the same tutorial
_GRADED_MM = (6 * INCH_MM, FOOT_MM)  # six to twelve inches above the butt


def of_willow(work: Work) -> bool:
    """Whether the stakes are rods of willow, which stay whole until the border is done."""
    return any(work.basket.pattern.materials[stake.material].stock.tapered for stake in work.basket.stakes)


def sorting() -> list[Message]:
    """Rods sorted before one of them is cut."""
    low, high = (Length(value) for value in _GRADED_MM)
    return [
        message("willow.sort-by-length", low=low, high=high),
        message("willow.put-up-in-grades"),
        message("willow.butts-one-way"),
    ]


def chosen(piece: Piece, part: Value, material: Value) -> Message:
    """Rods that are not cut to length: so many, alike, and long enough."""
    return message(
        "willow.choose-rods",
        count=round(piece.count.value),
        part=part,
        material=material,
        spare=piece.spare,
        least=Length(piece.cut_mm.value, CUT),
    )


def pricked() -> Message:
    """How a rod is kinked at the base without breaking it."""
    return message("willow.prick", close=Length(_PRICKED_MM))


def joining_rods() -> Message:
    """Joins in willow, and how a band ends."""
    return message("willow.join-rods")
