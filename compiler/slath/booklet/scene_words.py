"""The words of a figure in the vocabulary of the booklet it stands in, its labels as well."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from slath.drawing.scene import Group, Item, Scene, Text, Unpainted
from slath.trade.words import UK
from slath.wording.speech import Voice, bracketed


def told_in(scene: Scene, voice: Voice) -> Scene:
    """The same figure with every word of the trade, and every spelling, as `voice` has it; drawings speak UK words."""
    if voice.vocabulary is UK:
        return scene
    return replace(
        scene,
        title=_said(scene.title, voice),
        words=_said(scene.words, voice),
        caption=_said(scene.caption, voice),
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
