"""What a class handout must not tell: sections the licence withholds, and whatever elsewhere would give them away."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from slath.booklet.blocks import Words
from slath.booklet.content_steps import Course, SizeContent
from slath.drawing.scene import Scene
from slath.drawing.shelf import Shelf
from slath.messages import Secrecy, Voice
from slath.wording.speech import plain
from slath.wording.told import SpokenStep

CUT_LIST: Secrecy = "cut list"
MATERIALS: Secrecy = "materials"
FIGURES = "figures"

_MEASURE = re.compile(r"\d (?:in|ft|mm|cm|m)\b")
_NUMBERS = r"\d[\d /.]*(?:, \d[\d /.]*)*(?: or \d[\d /.]*)?"  # of one size, or of several: 19, 20 1/2 or 21
_LENGTH = rf"{_NUMBERS} (?:in|mm|ft|m)(?: \([^)]*\))?"  # 19 in (483 mm), 19 or 21 in (483 or 533 mm)
_LENGTH_OF_EACH = re.compile(rf",(?: each)? {_LENGTH} long")
_CUT_TO = re.compile(r" ?Cut the [^.]*(?:\.\d[^.]*)* long\.")  # a sentence in the words of a figure
_PARTS = re.compile(r"handle-\d+-parts$")
_READY_CUT = "Your pieces come ready cut."


def speaking(voice: Voice, withheld: Collection[str]) -> Voice:
    """The voice that keeps what is withheld to itself."""
    kept: tuple[Secrecy, ...] = (CUT_LIST, MATERIALS)
    return replace(voice, withheld=frozenset(name for name in kept if name in withheld))


def spared(course: Course, withheld: Collection[str]) -> Course:
    """The course of work without the sentences and drawings that give away what is `withheld`."""
    return replace(
        course,
        stages=tuple(
            replace(stage, steps=tuple(_spared_step(step, withheld) for step in stage.steps)) for stage in course.stages
        ),
        sizes=tuple(_spared_size(size, withheld) for size in course.sizes),
    )


def _spared_step(step: SpokenStep, withheld: Collection[str]) -> SpokenStep:
    if MATERIALS in withheld and step.key == "dye":
        return replace(step, actions=tuple(words for words in step.actions if not _MEASURE.search(plain(words))))
    if CUT_LIST not in withheld:
        return step
    if step.key == "cut":
        kept = tuple(words for words in step.actions if not _MEASURE.search(plain(words)))
        return replace(step, actions=(_READY_CUT, *kept), notes=())  # the notes say how lengths are made up
    if "wrap" in step.key:
        return replace(step, actions=tuple(_without_length(words) for words in step.actions))
    return step


def _without_length(words: Words) -> Words:
    if isinstance(words, tuple):
        return tuple(_LENGTH_OF_EACH.sub("", piece) if isinstance(piece, str) else piece for piece in words)
    return _LENGTH_OF_EACH.sub("", words) if isinstance(words, str) else words


def _spared_size(size: SizeContent, withheld: Collection[str]) -> SizeContent:
    """The size with fewer figures, and those with fewer words."""
    if FIGURES in withheld:
        return replace(size, figures={})
    if CUT_LIST not in withheld:
        return size

    def silent(scene: Scene) -> Scene:
        return replace(scene, words=_LENGTH_OF_EACH.sub("", _CUT_TO.sub("", scene.words)))

    def at(name: str, width: float, tallest: float) -> Scene | None:
        scene = size.at(name, width, tallest) if size.at else None
        return silent(scene) if scene else None

    names = tuple(name for name in size.figures if not _PARTS.search(name))
    return replace(size, figures=Shelf(names, lambda name: silent(size.figures[name])), at=at if size.at else None)
