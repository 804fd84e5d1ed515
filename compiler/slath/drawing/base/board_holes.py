"""The holes and slots of a board as plans and full-size sheets draw them."""

from __future__ import annotations

import math

from slath.basket.board_holes import Hole, hole_of
from slath.basket.model import Basket
from slath.drawing.plate.plans import board_of
from slath.drawing.plate.plate import Plate
from slath.messages import Length, Message, message

_CORNER_STEPS = 6  # lines to a quarter of a slot's round end


def board_hole(basket: Basket) -> Hole:
    """A hole of the board; where nothing says what stands in it, as wide as the clearance of the settings."""
    spec, _ = board_of(basket)
    room = basket.pattern.settings.mm("hole_clearance")
    return hole_of(spec, basket.pattern) or Hole(room, room)


def cut_hole(
    plate: Plate, at: tuple[float, float], outward: tuple[float, float], size: tuple[float, float],
    fill: str | None = None, width: float = 0.25,
) -> None:  # fmt: skip
    """Draw a hole centred on the page point `at`; `size` is along the line and across it, page mm, and `outward` the
    way off the line.
    """
    along, across = size
    if along <= across:
        plate.circle(*at, along / 2, fill=fill, width=width)
        return
    radius, half = across / 2, (along - across) / 2
    turn = math.atan2(outward[1], outward[0]) + math.pi / 2
    points = []
    for end in (1.0, -1.0):
        for step in range(2 * _CORNER_STEPS + 1):
            round_end = turn + (0.0 if end > 0 else math.pi) + (step / (2 * _CORNER_STEPS) - 0.5) * math.pi
            points.append((
                at[0] + end * half * math.cos(turn) + radius * math.cos(round_end),
                at[1] + end * half * math.sin(turn) + radius * math.sin(round_end),
            ))  # fmt: skip
    plate.area(points, fill, plate.ink, width)


def holes_said(basket: Basket) -> Message:
    """How many holes there are, and their size: ``40 holes, 11/64 in (4.1 mm) wide``; of a slot how long it is as well."""
    hole = board_hole(basket)
    size = message(
        "figure-base.hole-size", slot=hole.is_slot, along=Length(hole.along_mm), across=Length(hole.across_mm)
    )
    return message("figure-base.holes", count=len(basket.base.holes), slot=hole.is_slot, size=size)
