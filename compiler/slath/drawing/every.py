"""Every kind of figure there is, one row each, in working order: what it is called, whom it is for, and who draws it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from msgspec import Struct

from slath.basket.model import Basket, WovenBand
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
from slath.plan.bands import begins_in_split
from slath.quantities.measuring import quantities_of
from slath.quantities.results import Quantities
from slath.wording.figure_names import stroke_bands

Room = Literal["", "strip", "whole"]
For = Literal["cover", "steps", "full size"]


class Wanted(Struct, frozen=True):
    """What figures are drawn from: a basket or what is made apart from it, the list of the whole, and how they are wanted."""

    basket: Basket
    listed: Quantities | None
    options: Options
    apart: bool = False

    @property
    def clothes(self) -> Wardrobe:
        """The dresses of its materials."""
        return wardrobe(self.basket)

    @property
    def quantities(self) -> Quantities | None:
        """The list; of what is made apart its own."""
        return quantities_of(self.basket) if self.apart and self.listed is not None else self.listed


class FigureKind(Struct, frozen=True):
    """One kind of figure. `names` are those a basket has of it, each beginning with one of `stems`, and `draw` makes one.

    `room`: first strokes stand in a row across the page, what has numbers round its edge takes all of it. `by_count`: how
    the names end of those whose numbers are worked by, needed for every size of another count. `one_for_all`: drawn once
    although some of what it shows is that of the size drawn. `said_beside`: what the names hold of those that tell no more
    than what stands beside them. `of_apart`: what is made apart has its own.
    """

    stems: tuple[str, ...]
    whom: For
    names: Callable[[Basket], Sequence[str]]
    draw: Callable[[Wanted, str], Scene]
    room: Room = ""
    by_count: tuple[str, ...] = ()
    one_for_all: bool = False
    said_beside: tuple[str, ...] = ()
    of_apart: bool = True

    def numbered(self, name: str) -> bool:
        """Whether a figure of this kind is worked by its numbers."""
        return name.endswith(self.by_count)

    def repeats(self, name: str) -> bool:
        """Whether a figure of this kind tells no more than what stands beside it."""
        return any(part in name for part in self.said_beside)


def _base_plans(basket: Basket) -> tuple[str, ...]:
    """None of a base made otherwise: there is nothing to lay out."""
    return ("base-plan",) if basket.base.sticks or basket.base.holes else ()


def _stages(stem: str) -> Callable[[Basket], Sequence[str]]:
    return lambda basket: [name for name in stage_names(basket) if name.startswith(stem)]


def _stage(wanted: Wanted, name: str) -> Scene:
    return draw_stage(wanted.basket, stage_names(wanted.basket).index(name), wanted.clothes, wanted.options)


def _stroke(wanted: Wanted, name: str) -> Scene:
    """The figure of bands worked alike, drawn on the one that shows its stroke best: on single uprights."""
    bands, quantities = stroke_bands(wanted.basket)[name], wanted.quantities
    best = min(bands, key=lambda band: max(band.group_sizes, default=1))
    renewed = quantities is not None and any(quantities.sets_of_rods(band.part, band.index) > 1 for band in bands)
    single = best.on_sticks and set(best.group_sizes) == {1} != set(bands[0].group_sizes)
    in_split = best.on_sticks and any(begins_in_split(wanted.basket.base, band) for band in bands)
    return draw_stroke(best, name, wanted.clothes, wanted.options, renewed=renewed, single=single, in_split=in_split)


def _step_up(wanted: Wanted, _: str) -> Scene:
    return draw_step_up(_stepped(wanted.basket)[0], wanted.clothes, wanted.options)


def _stepped(basket: Basket) -> list[WovenBand]:
    band = stepped_band(basket)
    return [band] if band else []


def _upright(basket: Basket) -> bool:
    """Whether there is a woven side to be shown."""
    return basket.profile is not None and bool(side_bands(basket))


ALL_FIGURES: tuple[FigureKind, ...] = (
    FigureKind(
        ("view",), "cover", lambda _: ("view",),
        lambda wanted, _: draw_view(wanted.basket, wanted.clothes, wanted.options), of_apart=False,
    ),
    FigureKind(
        ("base-plan",), "steps", _base_plans,
        lambda wanted, _: draw_base_plan(wanted.basket, wanted.clothes, wanted.options, wanted.quantities),
        one_for_all=True,
    ),
    FigureKind(("base-opening-",), "steps", _stages("base-opening-"), _stage),
    FigureKind(("base-weaving-",), "steps", _stages("base-weaving-"), _stage, one_for_all=True),
    FigureKind(
        ("staking-plan",), "steps", lambda basket: ("staking-plan",) if basket.stakes else (),
        lambda wanted, _: draw_staking(wanted.basket, wanted.clothes, wanted.options),
        room="whole", by_count=("staking-plan",),
    ),
    FigureKind(("stroke-",), "steps", lambda basket: tuple(stroke_bands(basket)), _stroke, room="strip"),
    FigureKind(
        ("step-up",), "steps", lambda basket: ("step-up",) if _stepped(basket) else (), _step_up, of_apart=False
    ),
    FigureKind(
        ("side",), "steps", lambda basket: ("side",) if _upright(basket) else (),
        lambda wanted, _: draw_side(wanted.basket, wanted.clothes, wanted.options),
        room="whole", one_for_all=True,
    ),
    FigureKind(
        ("colour-plan",), "steps",
        lambda basket: ("colour-plan",) if _upright(basket) and coloured_bands(basket) else (),
        lambda wanted, _: draw_colour_plan(wanted.basket, wanted.clothes, wanted.options),
    ),
    FigureKind(
        ("profile",), "steps", lambda basket: ("profile",) if _upright(basket) else (),
        lambda wanted, _: draw_profile(wanted.basket, wanted.clothes, wanted.options),
        one_for_all=True,
    ),
    FigureKind(
        ("border-", "foot-border-"), "steps", border_names,
        lambda wanted, name: draw_border(wanted.basket, name, wanted.clothes, wanted.options),
        by_count=("-finish",), one_for_all=True,
    ),
    FigureKind(
        ("handle-",), "steps", handle_names,
        lambda wanted, name: draw_handle(wanted.basket, name, wanted.clothes, wanted.options),
        one_for_all=True, said_beside=("-parts", "-wrap-"),
    ),
    FigureKind(
        ("sheet-",), "full size", sheet_names,
        lambda wanted, name: draw_sheet(wanted.basket, name, wanted.options), of_apart=False,
    ),
)  # fmt: skip


def kind_of(name: str) -> FigureKind:
    """The kind a figure is of, by its name, of what is made apart as well. KeyError for none."""
    first, _, rest = name.partition("-")
    own = {"lid": rest, "part": rest.partition("-")[2]}.get(first, name)
    for kind in ALL_FIGURES:
        if own.startswith(kind.stems):
            return kind
    raise KeyError(name)
