"""All figures of one basket: their names in a fixed order, and each one drawn when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from slath.basket.model import Basket, MadeApart, WovenBand
from slath.drawing.base.plan import draw_base_plan
from slath.drawing.base.staking import draw_staking
from slath.drawing.base.weaving import draw_stage, stage_names
from slath.drawing.border.figure import border_names, draw_border
from slath.drawing.handle.figure import draw_handle, handle_names
from slath.drawing.options import Options
from slath.drawing.paint.wardrobe import Wardrobe, wardrobe
from slath.drawing.scene import Scene
from slath.drawing.sheets import draw_sheet, sheet_names
from slath.drawing.strokes.figure import draw_stroke
from slath.drawing.view.figure import draw_view
from slath.drawing.wall.colour_plan import coloured_bands, draw_colour_plan
from slath.drawing.wall.profile_view import draw_profile
from slath.drawing.wall.side import draw_side, side_bands
from slath.drawing.wall.step_up import draw_step_up, stepped_band
from slath.quantities.measuring import quantities_of
from slath.quantities.results import Quantities
from slath.wording.figure_names import apart_figure, stroke_bands
from slath.wording.speech import sentence_case

Draw = Callable[[], Scene]
Listed = Callable[[], Quantities | None]  # a list worked out only for the figures that show something of it


def figure_names_of(
    basket: Basket, quantities: Quantities | None = None, options: Options | None = None
) -> tuple[str, ...]:
    """The names of all figures and full-size sheets of a basket in working order, without drawing any."""
    wanted = options or Options()
    return (*_figures(basket, quantities, wanted), *sheet_names(basket))


def draw(name: str, basket: Basket, quantities: Quantities | None = None, options: Options | None = None) -> Scene:
    """One figure or sheet by name. KeyError, with the names there are, if the basket has no such figure."""
    wanted = options or Options()
    figures = _figures(basket, quantities, wanted)
    if name in figures:
        return figures[name]()
    if name in sheet_names(basket):
        return draw_sheet(basket, name, wanted)
    known = ", ".join(figure_names_of(basket, quantities, wanted))
    raise KeyError(f"this basket has no figure {name!r}; it has {known}")


class Figures(Mapping[str, Scene]):
    """Figures by name in working order, each drawn when it is first asked for and then kept."""

    def __init__(self, makers: Mapping[str, Draw]) -> None:
        self._makers = dict(makers)
        self._drawn: dict[str, Scene] = {}

    def __getitem__(self, name: str) -> Scene:
        if name not in self._drawn:
            self._drawn[name] = self._makers[name]()
        return self._drawn[name]

    def __contains__(self, name: object) -> bool:
        return name in self._makers  # without drawing it

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __len__(self) -> int:
        return len(self._makers)


def draw_figures(basket: Basket, quantities: Quantities | None = None, options: Options | None = None) -> Figures:
    """Every figure of a basket by name, in working order, without the full-size sheets; drawn as they are asked for."""
    return Figures(_figures(basket, quantities, options or Options()))


def draw_sheets(
    basket: Basket, quantities: Quantities | None = None, options: Options | None = None
) -> dict[str, Scene]:
    """Every full-size sheet of a basket by name; a sheet may be larger than the paper."""
    del quantities  # sheets are geometry alone; the list is taken so that all drawing is asked for alike
    return {name: draw_sheet(basket, name, options or Options()) for name in sheet_names(basket)}


def _figures(basket: Basket, quantities: Quantities | None, options: Options) -> dict[str, Draw]:
    clothes = wardrobe(basket)
    found: dict[str, Draw] = {"view": partial(draw_view, basket, clothes, options)}
    found |= _base(basket, lambda: quantities, clothes, options)
    found |= _strokes(basket, lambda: quantities, clothes, options)
    stepped = stepped_band(basket)
    if stepped:
        found["step-up"] = partial(draw_step_up, stepped, clothes, options)
    found |= _upwards(basket, clothes, options)
    for place, one in enumerate(basket.apart):
        for name, each in _apart(one, quantities, options).items():
            called = apart_figure(name, basket, place)
            if called not in found:
                found[called] = partial(_of_apart, called, one.name, each)
    return found


def _apart(one: MadeApart, quantities: Quantities | None, options: Options) -> dict[str, Draw]:
    """The figures of what is made apart, by their names among its own."""
    own, dressed = one.basket, wardrobe(one.basket)

    def listed() -> Quantities | None:
        return quantities_of(own) if quantities is not None else None

    return (
        _base(own, listed, dressed, options) | _strokes(own, listed, dressed, options) | _upwards(own, dressed, options)
    )


def _base(basket: Basket, listed: Listed, clothes: Wardrobe, options: Options) -> dict[str, Draw]:
    """The figures of a base, up to its staking."""
    found: dict[str, Draw] = {}
    if basket.base.sticks or basket.base.holes:  # of a base made otherwise there is nothing to lay out
        found["base-plan"] = lambda: draw_base_plan(basket, clothes, options, listed())
    for index, name in enumerate(stage_names(basket)):
        found[name] = partial(draw_stage, basket, index, clothes, options)
    if basket.stakes:
        found["staking-plan"] = partial(draw_staking, basket, clothes, options)
    return found


def _upwards(basket: Basket, clothes: Wardrobe, options: Options) -> dict[str, Draw]:
    """The figures of side, border and handles."""
    found: dict[str, Draw] = {}
    if basket.profile and side_bands(basket):
        found["side"] = partial(draw_side, basket, clothes, options)
        if coloured_bands(basket):
            found["colour-plan"] = partial(draw_colour_plan, basket, clothes, options)
        found["profile"] = partial(draw_profile, basket, clothes, options)
    for name in border_names(basket):
        found[name] = partial(draw_border, basket, name, clothes, options)
    for name in handle_names(basket):
        found[name] = partial(draw_handle, basket, name, clothes, options)
    return found


def _of_apart(name: str, of: str, drawn: Draw) -> Scene:
    """A figure of the lid or of a part made by itself, said to be one."""
    scene = drawn()
    caption = (scene.caption or scene.title).removeprefix("The basket ")
    caption = caption[:1].upper() + caption[1:]
    head = sentence_case(of)
    return replace(
        scene,
        name=name,
        title=f"{head}. {scene.title}",
        words=f"Of the {of}. {scene.words}",
        caption=f"{head}. {caption}",
    )


def _strokes(basket: Basket, listed: Listed, clothes: Wardrobe, options: Options) -> dict[str, Draw]:
    """One figure for the bands worked alike."""
    return {
        name: partial(_stroke, name, bands, listed, clothes, options) for name, bands in stroke_bands(basket).items()
    }


def _stroke(name: str, bands: Sequence[WovenBand], listed: Listed, clothes: Wardrobe, options: Options) -> Scene:
    """The figure of bands worked alike, drawn on the one that shows its stroke best: on single uprights."""
    best = min(bands, key=lambda band: max(band.group_sizes, default=1))
    quantities = listed()
    renewed = quantities is not None and any(quantities.sets_of_rods(band.part, band.index) > 1 for band in bands)
    single = best.on_sticks and set(best.group_sizes) == {1} != set(bands[0].group_sizes)
    return draw_stroke(best, name, clothes, options, renewed=renewed, single=single)
