"""Figures kept from one build to the next, for as long as basket, list and options stay as they were."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from slath.basket.model import Basket
from slath.drawing.options import Options
from slath.drawing.scene import Scene
from slath.quantities.results import Quantities


class _Kept(Struct, frozen=True):
    """A figure with everything it was drawn from."""

    name: str
    options: Options
    basket: Basket
    quantities: Quantities
    scene: Scene


class KeptFigures:
    """What the build before this one drew, and what this one has drawn so far."""

    def __init__(self) -> None:
        self._before: list[_Kept] = []
        self._now: list[_Kept] = []

    def begin(self) -> None:
        """A new build begins; figures that the last one did not use are let go."""
        self._before, self._now = self._now, []

    def scene(
        self,
        name: str,
        basket: Basket,
        quantities: Quantities,
        options: Options,
        draw: Callable[[], Scene],
    ) -> Scene:
        """The figure as it was drawn before, or drawn now if anything it shows may have changed."""
        for kept in (*self._now, *self._before):
            if kept.name == name and (kept.options, kept.basket, kept.quantities) == (options, basket, quantities):
                if not any(kept is one for one in self._now):
                    self._now.append(kept)
                return kept.scene
        scene = draw()
        self._now.append(_Kept(name, options, basket, quantities, scene))
        return scene
