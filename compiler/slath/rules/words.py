"""The designer's own words: counts typed by hand must agree with the counts worked out."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from slath.basket.model import WovenBand
from slath.language.pattern import StageWords
from slath.language.places import Path
from slath.messages.told import several, told, word
from slath.rules.finding import Context, Finding
from slath.units.counting import NUMBERS

_PLACEHOLDER = re.compile(r"\{[^{}]*\}")
_COUNT = re.compile(
    r"(?P<lead>\b\w+\s+)?(?<![\w/.-])(?P<number>\d{1,4}|" + "|".join(sorted(NUMBERS, key=len, reverse=True)) + r")\s+"
    r"(?:whole |full |base |side |stick )?(?P<noun>stakes?|rounds?|sticks?|ends?|holes?)\b",
    re.IGNORECASE,
)
# "after 10 rounds", "the first 3 stakes": part of a count, which may be any number up to it.
_PART_OF = frozenset(
    {"after", "first", "last", "next", "another", "every", "about", "past", "other", "these", "those", "remaining"}
)
_FEWEST_UPRIGHTS = 7  # "behind 2 stakes" is a stroke; nobody strokes past seven


class _Typed(Struct, frozen=True):
    """A count as it was typed, and where."""

    path: Path
    number: int
    noun: str
    replaces: bool  # stands in words that take the place of the tool's own


def typed_counts_agree(context: Context) -> Iterator[Finding]:
    """A number typed into a step that differs from the one worked out is the worst slip a booklet can carry."""
    for words in context.pattern.stages:
        typed = list(_typed(words))
        for count in typed:
            right = _right_counts(context, words.stage, count.noun)
            if not right or _agrees(count, typed, right):
                continue
            right_one = several((str(number) for number in sorted(right)), "or")
            noun = count.noun if count.number == 1 else f"{count.noun}s"
            yield Finding(
                count.path,
                words.stage,
                told(
                    "The words say {count_number} {noun}; there are {right}.",
                    count_number=count.number,
                    noun=word(noun),
                    right=right_one,
                ),
                (
                    told(
                        "write {placeholder} and let the tool put the number in",
                        placeholder=_placeholder(context, words.stage, count.noun),
                    ),
                    told("write {right}", right=right_one),
                ),
            )


def _typed(words: StageWords) -> Iterator[_Typed]:
    for key, texts in (("replace", words.replace), ("notes", words.notes), ("care", words.care)):
        for index, text in enumerate(texts):
            for found in _COUNT.finditer(_PLACEHOLDER.sub("", text)):
                if (found["lead"] or "").strip().casefold() in _PART_OF:
                    continue
                written = found["number"].casefold()
                number = int(written) if written.isdigit() else NUMBERS[written]
                noun = found["noun"].casefold().removesuffix("s")
                yield _Typed((*words.path, key, index), number, noun, key == "replace")


def _agrees(count: _Typed, typed: list[_Typed], right: frozenset[int]) -> bool:
    """Whether a typed count is right: by itself, or as a share of rounds that come to it; a remark may name fewer."""
    if count.number in right:
        return True
    if count.noun != "round":
        return count.number < _FEWEST_UPRIGHTS
    if not count.replaces:
        return count.number < max(right)
    return sum(other.number for other in typed if other.noun == "round" and other.replaces) in right


def _right_counts(context: Context, stage: str, noun: str) -> frozenset[int]:
    """The counts a typed number may be; none where nothing can be said."""
    basket, base = context.basket, context.basket.base
    if noun == "round":
        return frozenset(len(band.rounds) for band in _bands_of(context, stage))
    if noun == "stake":
        standing = {len(basket.stakes), basket.working, basket.rim_uprights} - {0}
        return frozenset(standing | {band.uprights for band in basket.bands})
    if noun == "stick":
        return frozenset({len(base.cut_sticks), *_kinds(context)} - {0})
    if noun == "end":
        return frozenset({len(base.ends), *(band.uprights for band in base.bands)} - {0})
    return frozenset({len(base.holes)} - {0})


def _kinds(context: Context) -> set[int]:
    kinds = [stick.kind for stick in context.basket.base.cut_sticks]
    return {kinds.count(kind) for kind in kinds}


def _bands_of(context: Context, stage: str) -> list[WovenBand]:
    """The bands a stage is about: the one it is named for, those of its part, or none if it is about no band."""
    named = [band for band in context.bands if band.name.casefold() == stage.casefold()]
    return named or [band for band in context.bands if band.part == stage.casefold()]


def _placeholder(context: Context, stage: str, noun: str) -> str:
    if noun == "round":
        return f"{{band.{_bands_of(context, stage)[0].name}.rounds}}"
    return f"{{{noun}s}}"
