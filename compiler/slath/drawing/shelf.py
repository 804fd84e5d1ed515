"""Figures by name, each drawn when it is first taken from the shelf."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from slath.drawing.scene import Scene


class Shelf(Mapping[str, Scene]):
    """A mapping of figure names to scenes in working order; `drawn` makes one, once."""

    def __init__(self, names: tuple[str, ...], drawn: Callable[[str], Scene]) -> None:
        self._names = dict.fromkeys(names)
        self._drawn = drawn
        self._scenes: dict[str, Scene] = {}

    def __getitem__(self, name: str) -> Scene:
        if name not in self._names:
            raise KeyError(name)
        if name not in self._scenes:
            self._scenes[name] = self._drawn(name)
        return self._scenes[name]

    def __contains__(self, name: object) -> bool:
        return name in self._names

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)
