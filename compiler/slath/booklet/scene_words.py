"""The words of a figure as the booklet it stands in needs them, its labels as well."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from slath.drawing.scene import Group, Item, Scene, Text, Unpainted
from slath.trade.words import UK
from slath.wording.speech import Voice, bracketed

_SCALE = r"(?:(?:scale|Maßstab) 1 : [\d.]*\d|full size|volle Größe)"
CAPTION_SCALE = re.compile(f", {_SCALE}")  # in the caption of a figure drawn to scale


def told_in(scene: Scene, voice: Voice) -> Scene:
    """The same figure with every word of the trade, and every spelling, as `voice` has it; drawings speak UK words."""
    if voice.vocabulary is UK:
        return scene
    return dataclasses.replace(
        scene,
        title=_said(scene.title, voice),
        words=_said(scene.words, voice),
        caption=_said(scene.caption, voice),
        cut_words=_said(scene.cut_words, voice),
        items=tuple(_labelled(scene.items, voice)),
    )


def _labelled(items: Sequence[Item], voice: Voice) -> Sequence[Item]:
    if isinstance(items, Unpainted):  # strands, and no words among them
        return items
    return tuple(_label(item, voice) for item in items)


def _label(item: Item, voice: Voice) -> Item:
    if isinstance(item, Group):
        return replace(item, items=_labelled(item.items, voice))
    return replace(item, words=_said(item.words, voice)) if isinstance(item, Text) else item


def _said(words: str, voice: Voice) -> str:
    return voice.text(bracketed(words)) if words else words


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
