"""All figures of one basket: their names in a fixed order, and each one drawn when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import partial

from slath.basket.model import Basket
from slath.drawing.every import ALL_FIGURES, For, Wanted
from slath.drawing.options import Options
from slath.drawing.scene import Scene
from slath.messages import Own, message
from slath.quantities.results import Quantities
from slath.wording.figure_names import apart_figure
from slath.wording.speech import own_words

Draw = Callable[[], Scene]

_FIGURES: tuple[For, ...] = ("cover", "steps")
_SHEETS: tuple[For, ...] = ("full size",)


def figure_names_of(
    basket: Basket, quantities: Quantities | None = None, options: Options | None = None
) -> tuple[str, ...]:
    """The names of all figures and full-size sheets of a basket in working order, without drawing any."""
    return tuple(_makers(basket, quantities, options or Options(), (*_FIGURES, *_SHEETS)))


def draw(name: str, basket: Basket, quantities: Quantities | None = None, options: Options | None = None) -> Scene:
    """One figure or sheet by name. KeyError, with the names there are, if the basket has no such figure."""
    makers = _makers(basket, quantities, options or Options(), (*_FIGURES, *_SHEETS))
    if name not in makers:
        raise KeyError(f"no figure {name!r}; there are {', '.join(makers)}")
    return makers[name]()


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
    return Figures(_makers(basket, quantities, options or Options(), _FIGURES))


def draw_sheets(
    basket: Basket, quantities: Quantities | None = None, options: Options | None = None
) -> dict[str, Scene]:
    """Every full-size sheet of a basket by name; a sheet may be larger than the paper."""
    makers = _makers(basket, quantities, options or Options(), _SHEETS)
    return {name: make() for name, make in makers.items()}


def _makers(basket: Basket, quantities: Quantities | None, options: Options, whom: tuple[For, ...]) -> dict[str, Draw]:
    """The figures of a basket and then of what is made apart from it, those of them that are for `whom`, sheets last."""
    wanted = Wanted(basket, quantities, options)
    found: dict[str, Draw] = {}
    for kind in ALL_FIGURES:
        if kind.whom in whom and kind.whom not in _SHEETS:
            found |= {name: partial(kind.draw, wanted, name) for name in kind.names(basket)}
    for place, one in enumerate(basket.apart if "steps" in whom else ()):
        own = Wanted(one.basket, quantities, options, apart=True)
        for kind in ALL_FIGURES:
            for name in kind.names(own.basket) if kind.of_apart else ():
                called = apart_figure(name, basket, place)
                if called not in found:
                    found[called] = partial(_of_apart, called, one.name, partial(kind.draw, own, name), options)
    for kind in ALL_FIGURES:
        if kind.whom in whom and kind.whom in _SHEETS:
            found |= {name: partial(kind.draw, wanted, name) for name in kind.names(basket)}
    return found


def _of_apart(name: str, of: str, drawn: Draw, options: Options) -> Scene:
    """A figure of the lid or of a part made by itself, said to be one."""
    scene = drawn()
    whose = message("figure.the-lid") if of == "lid" else own_words(of)
    return replace(
        scene,
        name=name,
        title=options.say(message("figure.made-apart", whose=whose, said=Own(scene.title))),
        words=options.say(message("figure.made-apart-words", whose=whose, said=Own(scene.words))),
        caption=options.say(message("figure.made-apart", whose=whose, said=Own(scene.caption or scene.title))),
    )
