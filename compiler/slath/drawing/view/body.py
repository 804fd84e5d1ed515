"""All of one basket in space, standing on its base: floor, side, uprights with their border, handles, foot."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.model import Basket
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.view.floor import floor
from slath.drawing.view.foot import foot
from slath.drawing.view.handle import handle
from slath.drawing.view.in_space import SpaceRod
from slath.drawing.view.stakes import uprights
from slath.drawing.view.surface import Surface, flat_surface, surface_of
from slath.drawing.view.wall import sinks_of, wall
from slath.drawing.wall.standing import standing_of

_FLOOR_LIGHT, _MAT_LIGHT = -0.30, -0.05


def body(basket: Basket, clothes: Wardrobe, floor_light: float | None = None) -> Iterator[SpaceRod]:
    """Every rod of a basket. `floor_light` lights its base otherwise than as the floor of a basket or a mat."""
    light = floor_light if floor_light is not None else _FLOOR_LIGHT if basket.profile else _MAT_LIGHT
    yield from floor(basket, clothes, light)
    if not basket.stakes:
        return
    surface = side_surface(basket)
    standing = standing_of(basket)
    sinks = sinks_of(basket, standing)
    if basket.profile is not None:
        yield from wall(basket, clothes, surface, standing, sinks)
    yield from uprights(basket, clothes, surface, standing, sinks)
    yield from foot(basket, clothes)
    if basket.profile is not None:
        for worked in basket.handles:
            yield from handle(basket, worked, clothes, surface)


def side_surface(basket: Basket) -> Surface:
    """The side; of a mat its edge, where its stakes lie flat and turn into the border."""
    return surface_of(basket.profile) if basket.profile is not None else flat_surface(basket.base.edge)
