"""What stands above and below the sides in a section: the border, the foot, and the lid in its place."""

from __future__ import annotations

import numpy as np
from msgspec import Struct

from slath.basket.model import Basket, ConstructedLid, WorkedBorder
from slath.drawing.paint.curves import Numbers
from slath.messages import Value, message
from slath.quantities.borders import border_height, stake_mm
from slath.wording.band_names import band_said

_INSIDE, _OUTSIDE = 1.5, 1.8  # stake thicknesses a border reaches either way of its uprights; as lids are fitted to it
LEGS, FOOT_BORDER = message("figure-wall.part-legs"), message("figure-wall.part-foot-border")
_ROUND = 7  # lines to a quarter of a round corner


class Part(Struct, frozen=True):
    """A part of the section by itself: what it is called, and the heights (mm above the base) from and to."""

    said: Value
    low: float
    high: float


def base_mm(basket: Basket) -> float:
    """How thick the base is, mm: its board, or its thickest stick."""
    thickness = getattr(basket.base.spec, "thickness_mm", None)
    if thickness is not None:
        return float(thickness)
    materials = basket.pattern.materials
    return max((materials[stick.material].width_mm for stick in basket.base.sticks), default=4.0)


def foot_parts(basket: Basket) -> list[Part]:
    """Weaving and border below the base, downwards; none where there is no foot."""
    parts: list[Part] = []
    level = -base_mm(basket)
    for band in basket.foot_bands:
        parts.append(Part(band_said(band.name), level - band.reached_mm, level))
        level -= band.reached_mm
    if basket.foot is not None and basket.foot.passes:
        parts.append(Part(FOOT_BORDER, level - border_mm(basket, basket.foot), level))
    legs = basket.border.passes[-1].spec.legs_mm if basket.border is not None and basket.border.passes else None
    if legs is not None and not parts:
        parts.append(Part(LEGS, level - legs, level))
    return parts


def border_part(basket: Basket) -> Part | None:
    """The border on the sides."""
    if basket.profile is None or basket.border is None or not basket.border.passes:
        return None
    high = basket.profile.height_mm
    return Part(message("figure-wall.part-border"), high, high + border_high(basket))


def border_high(basket: Basket) -> float:
    """How high the border at the rim stands over the weaving, mm; 0 without one."""
    border = basket.border
    return border_mm(basket, border) if border is not None and border.passes else 0.0


def border_mm(basket: Basket, border: WorkedBorder) -> float:
    """How high a border stands, as the list has it."""
    return border_height(border, stake_mm(basket), "border").value


def lid_level(basket: Basket, lid: ConstructedLid) -> float:
    """Height above the base of the face the lid's own base turns to the basket: lids lie upside down of how they are worked."""
    border = border_part(basket)
    top = border.high if border else basket.profile.height_mm if basket.profile else 0.0
    if lid.spec.fit == "inside":
        return top - base_mm(lid.basket)
    return top + (_lid_side_mm(lid) if lid.spec.fit == "resting" else 0.0)


def lid_part(basket: Basket) -> Part | None:
    """The base of the lid with its dome, as it lies on the rim, over it or inside it."""
    lid = basket.lid
    if lid is None or basket.profile is None:
        return None
    level = lid_level(basket, lid)
    dome = getattr(lid.basket.base.spec, "crown_mm", 0.0)
    return Part(message("figure-wall.part-lid"), level, level + base_mm(lid.basket) + dome)


def _lid_side_mm(lid: ConstructedLid) -> float:
    border = border_part(lid.basket)
    return border.high if border else lid.basket.profile.height_mm if lid.basket.profile else 0.0


def border_face(border: WorkedBorder, part: Part, half: float, stake: float) -> Numbers:
    """A border cut across at the right wall, (half width, height): a rounded block from its inner to its outer face. One
    that stands in loops is cut through a loop, which is a stake's width.
    """
    left, right = (-0.5, 0.5) if border.spec.loop_height_mm is not None else (-_INSIDE, _OUTSIDE)
    x0, x1, y0, y1 = half + left * stake, half + right * stake, part.low, part.high
    radius = min((x1 - x0) / 2, (y1 - y0) / 2, stake)
    corners = (
        (x1 - radius, y1 - radius, 0),
        (x0 + radius, y1 - radius, 1),
        (x0 + radius, y0 + radius, 2),
        (x1 - radius, y0 + radius, 3),
    )
    points = []
    for x, y, quarter in corners:
        turns = (quarter + np.linspace(0.0, 1.0, _ROUND)) * np.pi / 2
        points.append(np.column_stack([x + radius * np.cos(turns), y + radius * np.sin(turns)]))
    return np.vstack(points)
