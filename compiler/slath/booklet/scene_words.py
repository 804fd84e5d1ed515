"""A figure without its scale, which is true on paper alone."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from slath.drawing.scene import Group, Item, Scene, Text, Unpainted

_SCALE = r"(?:(?:scale|Maßstab) 1 : [\d.,]*\d|full size|volle Größe)"
CAPTION_SCALE = re.compile(f", {_SCALE}")  # in the caption of a figure drawn to scale


def without_scale(scene: Scene) -> Scene:
    """The same figure saying nothing of its scale, which is true on paper alone."""
    return dataclasses.replace(
        scene, caption=CAPTION_SCALE.sub("", scene.caption), items=tuple(_not_of_scale(scene.items))
    )


def _not_of_scale(items: Sequence[Item]) -> Iterator[Item]:
    for item in items:
        if isinstance(item, Group) and not isinstance(item.items, Unpainted):
            yield replace(item, items=tuple(_not_of_scale(item.items)))
        elif not (isinstance(item, Text) and re.fullmatch(_SCALE, item.words)):
            yield item
