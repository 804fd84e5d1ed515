"""All figures of one basket: their names in a fixed order, and each one drawn when it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from slath.basket.model import Basket
from slath.drawing.base_plan import draw_base_plan
from slath.drawing.base_weaving import draw_stage, stage_names
from slath.drawing.basket_view import draw_view
from slath.drawing.border import border_names, draw_border
from slath.drawing.colour_plan import coloured_bands, draw_colour_plan
from slath.drawing.handle_parts import draw_handle, handle_names
from slath.drawing.options import Options
from slath.drawing.profile_view import draw_profile
from slath.drawing.scene import Scene
from slath.drawing.sheets import draw_sheet, sheet_names
from slath.drawing.side import draw_side, side_bands
from slath.drawing.staking import draw_staking
from slath.drawing.stroke import draw_stroke, stroke_name
from slath.drawing.wardrobe import Wardrobe, wardrobe

Draw = Callable[[], Scene]


def figure_names(basket: Basket, options: Options | None = None) -> tuple[str, ...]:
    """The names of all figures of a basket in the order they are worked by, without drawing any."""
    return tuple(_figures(basket, options or Options()))


def draw(name: str, basket: Basket, options: Options | None = None) -> Scene:
    """One figure by name. KeyError, with the names there are, if the basket has no such figure."""
    figures = _figures(basket, options or Options())
    if name not in figures:
        raise KeyError(f"this basket has no figure {name!r}; it has {', '.join(figures)}")
    return figures[name]()


def draw_figures(basket: Basket, options: Options | None = None) -> dict[str, Scene]:
    """Every figure of a basket by name, in working order."""
    return {name: make() for name, make in _figures(basket, options or Options()).items()}


def _figures(basket: Basket, options: Options) -> dict[str, Draw]:
    clothes = wardrobe(basket)
    found: dict[str, Draw] = {"view": partial(draw_view, basket, clothes, options)}
    found["base-plan"] = partial(draw_base_plan, basket, clothes, options)
    for index, name in enumerate(stage_names(basket)):
        found[name] = partial(draw_stage, basket, index, clothes, options)
    if basket.stakes:
        found["staking"] = partial(draw_staking, basket, clothes, options)
    found |= _strokes(basket, clothes, options)
    if basket.profile and side_bands(basket):
        found["side"] = partial(draw_side, basket, clothes, options)
        if coloured_bands(basket):
            found["colour-plan"] = partial(draw_colour_plan, basket, clothes, options)
        found["profile"] = partial(draw_profile, basket, clothes, options)
    for name in border_names(basket):
        found[name] = partial(draw_border, basket, name, clothes, options)
    for name in handle_names(basket):
        found[name] = partial(draw_handle, basket, name, clothes, options)
    for name in sheet_names(basket, options):
        found[name] = partial(draw_sheet, basket, name, options)
    return found


def _strokes(basket: Basket, clothes: Wardrobe, options: Options) -> dict[str, Draw]:
    """One figure for every distinct weave, on the band that first uses it; side bands say it best, so they come first."""
    found: dict[str, Draw] = {}
    for band in (*side_bands(basket), *(band for band in basket.base.bands if band.materials)):
        found.setdefault(stroke_name(band), partial(draw_stroke, basket, band, clothes, options))
    return found
