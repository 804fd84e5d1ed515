"""Parts made by themselves in the view of the finished basket: where they are joined, or beside it on the table."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct

from slath.basket.made_parts import base_thickness_mm, inside_of
from slath.basket.model import Basket, ConstructedPart
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.view.body import body
from slath.drawing.view.floor import board_mm, has_plate, outline
from slath.drawing.view.in_space import OVER, Eye, Placement, SpaceRod

_APART = 0.22  # of a part's own breadth left free between it and what it stands beside
_FORWARD = 0.35  # of that towards the eye for each step to the right, so that nothing hides what stands behind it
_STRAIGHT = np.eye(3)


class SetPart(Struct, frozen=True):
    """One of a part where it is shown: its rods, the upper and the lower outline of a board it stands on, its shadow.

    `below` is painted before the basket, all else after it; `within`: its rods belong among those of the basket.
    """

    basket: Basket
    rods: list[SpaceRod]
    plates: list[Numbers]
    shadow: Numbers | None
    below: bool = False
    within: bool = False


def set_parts(basket: Basket, eye: Eye, ground: float) -> list[SetPart]:
    """Every part of a basket where it is shown; what is not drawn in its place stands beside the basket."""
    placed: list[SetPart] = []
    reach = _reach(list(body(basket, wardrobe(basket))), eye)
    levels: dict[str, float] = {"": 0.0}
    for part in basket.parts:
        own = list(body(part.basket, wardrobe(part.basket)))
        join = part.spec.join
        if join.way == "on a stem":
            level = levels.get(join.to, 0.0) + (join.rise_mm or 0.0) + base_thickness_mm(part.basket)
            levels[part.spec.name] = level
            placed.append(_at(part, own, Placement(_STRAIGHT, np.array([0.0, 0.0, level]))))
            placed[-1].rods.extend(_stems(basket, part, level))
        elif join.way in {"tied", "laced", "resting"} and join.on == "base" and not join.to:
            placed += _beneath(basket, part, own)
        elif join.way == "pushed in" and part.basket.profile is None:
            placed += [_at(part, own, place, within=True) for place in _upright(basket, part)]
        else:
            reach = _beside(part, own, eye, reach, ground, placed)
    return placed


def _at(part: ConstructedPart, own: list[SpaceRod], place: Placement, **how: bool) -> SetPart:
    made = part.basket
    plates = [place.points(outline(made, level)) for level in (0.0, -board_mm(made))] if has_plate(made) else []
    return SetPart(made, list(place.rods(own)), plates, None, **how)


def _reach(rods: list[SpaceRod], eye: Eye) -> float:
    return max(float((rod.points @ eye.right).max()) for rod in rods) if rods else 0.0


def _stems(basket: Basket, part: ConstructedPart, level: float) -> Iterator[SpaceRod]:
    """The stems from the base below up to the part, spread along its length where there are several."""
    join = part.spec.join
    thick = basket.pattern.materials[join.material].thickness_mm
    look = wardrobe(basket).of(join.material)
    spread = 0.5 * part.basket.base.edge.outline.length_mm
    for number in range(join.places):
        aside = spread * ((number + 0.5) / join.places - 0.5)
        line = np.array([[aside, 0.0, height] for height in np.linspace(level - (join.rise_mm or 0.0), level, 12)])
        yield SpaceRod(line, thick, look, ends=(True, True), name="stem")


def _beneath(basket: Basket, part: ConstructedPart, own: list[SpaceRod]) -> Iterator[SetPart]:
    """Under the base: on its own base with its rim up, or turned over with its base up."""
    turned = OVER if part.spec.join.by == "base" else Placement(_STRAIGHT, np.zeros(3))
    rods = list(turned.rods(own))
    top = max((float(rod.points[:, 2].max()) for rod in rods), default=0.0)
    shift = np.array([0.0, 0.0, -top - board_mm(basket)])
    yield _at(part, own, Placement(turned.turn, shift), below=True)


def _upright(basket: Basket, part: ConstructedPart) -> Iterator[Placement]:
    """A flat part standing across the inside, or along it: the way whose opening is nearest to one of its measures."""
    shape = part.basket.base.edge.outline
    long, wide = inside_of(basket)
    ways = [
        (abs(room - size), across, size is shape.length_mm)
        for across, room in ((True, wide), (False, long))
        for size in (shape.length_mm, shape.width_mm)
    ]
    _, across, lengthwise = min(ways, key=lambda way: way[0])
    high = shape.width_mm if lengthwise else shape.length_mm
    level = np.array([0.0, 1.0, 0.0]) if across else np.array([1.0, 0.0, 0.0])
    up = np.array([0.0, 0.0, 1.0])
    first, second = (level, up) if lengthwise else (up, level)
    turn = np.column_stack([first, second, np.cross(first, second)])
    aside = np.array([1.0, 0.0, 0.0]) if across else np.array([0.0, 1.0, 0.0])
    room = long if across else wide
    for number in range(part.spec.count):
        yield Placement(turn, aside * room * ((number + 1) / (part.spec.count + 1) - 0.5) + up * high / 2)


def _beside(
    part: ConstructedPart, own: list[SpaceRod], eye: Eye, reach: float, ground: float, placed: list[SetPart]
) -> float:
    """Each on the table to the right of what stands there already, a little nearer to the eye; how far they reach now."""
    low = min((float(rod.points[:, 2].min()) - rod.diameter / 2 for rod in own), default=0.0)
    low = min(low, -board_mm(part.basket))
    half = _reach(own, eye)
    for _ in range(part.spec.count):
        middle = reach + 2 * _APART * half + half
        spot = eye.right * middle - eye.away * _FORWARD * half + np.array([0.0, 0.0, ground - low])
        one = _at(part, own, Placement(_STRAIGHT, spot))
        edge = outline(part.basket, ground, grown=6.0)
        edge[:, :2] += spot[:2]
        placed.append(SetPart(one.basket, one.rods, one.plates, edge))
        reach = middle + half
    return reach
