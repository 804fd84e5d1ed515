"""The designer's own words: counts typed by hand must agree with the counts worked out."""

from __future__ import annotations

import re
from collections.abc import Iterator

from slath.basket.model import WovenBand
from slath.language.pattern import StageWords
from slath.rules.finding import Context, Finding
from slath.units.counting import listed

_PLACEHOLDER = re.compile(r"\{[^{}]*\}")
_COUNT = re.compile(
    r"(?P<lead>\b\w+\s+)?(?<![\d/.])\b(?P<number>\d{1,4})\s+(?:whole |full |base |side |stick )?"
    r"(?P<noun>stakes?|rounds?|sticks?|ends?|holes?)\b",
    re.IGNORECASE,
)
# "after 10 rounds", "the first 3 stakes": part of a count, which may be any number up to it.
_PART_OF = frozenset(
    {"after", "first", "last", "next", "another", "every", "about", "past", "other", "these", "those", "remaining"}
)
_FEWEST_UPRIGHTS = 7  # "behind 2 stakes" is a stroke; nobody strokes past seven


def typed_counts_agree(context: Context) -> Iterator[Finding]:
    """A number typed into a step that differs from the one worked out is the worst slip a booklet can carry."""
    for words in context.pattern.stages:
        for key, texts in (("replace", words.replace), ("notes", words.notes), ("care", words.care)):
            for index, text in enumerate(texts):
                yield from _disagreeing(context, words, key, index, text)


def _disagreeing(context: Context, words: StageWords, key: str, index: int, text: str) -> Iterator[Finding]:
    for found in _COUNT.finditer(_PLACEHOLDER.sub("", text)):
        if (found["lead"] or "").strip().casefold() in _PART_OF:
            continue
        noun, number = found["noun"].casefold().removesuffix("s"), int(found["number"])
        right = _right_counts(context, words.stage, noun)
        if not right or number in right or (noun != "round" and number < _FEWEST_UPRIGHTS):
            continue
        said = listed([str(count) for count in sorted(right)], "or")
        yield Finding(
            (*words.path, key, index), words.stage,
            f"The words say {number} {found['noun']}; there are {said}.",
            (f"write {_placeholder(context, words.stage, noun)} and let the tool put the number in", f"write {said}"),
        )  # fmt: skip


def _right_counts(context: Context, stage: str, noun: str) -> frozenset[int]:
    """The counts a typed number may be."""
    basket, base = context.basket, context.basket.base
    if noun == "round":
        return frozenset(len(band.rounds) for band in _bands_of(context, stage))
    if noun == "stake":
        standing = {len(basket.stakes), basket.working, basket.rim_uprights} - {0}
        return frozenset(standing | {band.uprights for band in basket.bands})
    if noun == "stick":
        return frozenset({len(base.sticks), *_kinds(context)} - {0})
    if noun == "end":
        return frozenset({len(base.ends), *(band.uprights for band in base.bands)} - {0})
    return frozenset({len(base.holes)} - {0})


def _kinds(context: Context) -> set[int]:
    kinds = [stick.kind for stick in context.basket.base.sticks]
    return {kinds.count(kind) for kind in kinds}


def _bands_of(context: Context, stage: str) -> list[WovenBand]:
    """The bands a stage is about: the one it is named for, those of its part, or none if it is about no band."""
    named = [band for band in context.bands if band.name.casefold() == stage.casefold()]
    return named or [band for band in context.bands if band.part == stage.casefold()]


def _placeholder(context: Context, stage: str, noun: str) -> str:
    if noun == "round":
        bands = _bands_of(context, stage)
        return f"{{band.{bands[0].name}.rounds}}" if bands else "{rounds}"
    return f"{{{noun}s}}"
