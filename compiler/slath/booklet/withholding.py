"""What a class handout must not tell: sections the licence withholds, and whatever elsewhere would give them away."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Sequence

from msgspec.structs import replace

from slath.booklet.content_steps import Course, SizeContent
from slath.drawing.scene import CUT_LABELS, Group, Item, Scene, Unpainted
from slath.drawing.shelf import Shelf
from slath.messages import Secrecy, Voice

CUT_LIST: Secrecy = "cut list"
MATERIALS: Secrecy = "materials"
FIGURES = "figures"


def speaking(voice: Voice, withheld: Collection[str]) -> Voice:
    """The voice that keeps what is withheld to itself."""
    kept: tuple[Secrecy, ...] = (CUT_LIST, MATERIALS)
    return replace(voice, withheld=frozenset(name for name in kept if name in withheld))


def spared(course: Course, withheld: Collection[str]) -> Course:
    """The course of work without the drawings that give away what is `withheld`; its sentences know their secrets."""
    return replace(
        course,
        sizes=tuple(_spared_size(size, withheld) for size in course.sizes),
    )


def _spared_size(size: SizeContent, withheld: Collection[str]) -> SizeContent:
    """The size with fewer figures, and those with fewer words."""
    if FIGURES in withheld:
        return replace(size, figures={})
    if CUT_LIST not in withheld:
        return size

    def silent(scene: Scene) -> Scene:
        words = scene.words.removesuffix(scene.cut_words)
        return dataclasses.replace(scene, words=words, cut_words="", items=_without_cut_labels(scene.items))

    def at(name: str, width: float, tallest: float) -> Scene | None:
        scene = size.at(name, width, tallest) if size.at else None
        return silent(scene) if scene else None

    names = tuple(name for name in size.figures if not name.endswith("-parts"))
    return replace(size, figures=Shelf(names, lambda name: silent(size.figures[name])), at=at if size.at else None)


def _without_cut_labels(items: Sequence[Item]) -> tuple[Item, ...]:
    """The items but for the groups that tell lengths of the cut list."""
    kept: list[Item] = []
    for item in items:
        if not isinstance(item, Group):
            kept.append(item)
        elif item.name != CUT_LABELS:
            kept.append(
                item if isinstance(item.items, Unpainted) else replace(item, items=_without_cut_labels(item.items))
            )
    return tuple(kept)
