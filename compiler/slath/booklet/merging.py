"""Several sizes told as one: a sentence that says the same in every size stands once, with its numbers size by size.

A number that differs is given for every size, always in the order of the sizes, with its unit once: "Weave 14 rounds" and
"Weave 20 rounds" become "Weave 14 or 20 rounds", and lengths "9, 11 or 13 in (229, 279 or 330 mm)". Sentences that differ in more than their numbers stand one after another, each under the
name of its size.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeVar

from slath.booklet.blocks import Piece, Strong, Words, pieces_of
from slath.messages import Message, Voice, merged_messages, sentence_case
from slath.messages.merging import shape
from slath.units.counting import listed
from slath.wording.told import InWords, Telling, ToldStage, ToldStep, in_words

# A measure in both units, a measure, a count in figures, or a count in words, whichever comes first.
_UNIT = r"(?:in(?! all\b)|ft|mm|cm|m|oz|lb|g|kg)\b"  # "40 in all" is a count
_FIGURE = r"\d+(?:[.,]\d+)?(?: \d+/\d+|/\d+)?"
_MEASURE = rf"{_FIGURE} {_UNIT}(?: {_FIGURE} {_UNIT})?"
_NUMBER_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_COUNT_WORDS = rf"\b(?:{'|'.join(_NUMBER_WORDS)})\b"
_ORDINAL = r"\d+(?:st|nd|rd|th)\b"
_VALUE = re.compile(rf"(?:under )?{_MEASURE} \({_MEASURE}\)|{_MEASURE}|{_ORDINAL}|{_FIGURE}|{_COUNT_WORDS}")
_IN_BOTH = re.compile(r"(.+) \((.+)\)")
_WITH_UNIT = re.compile(rf"({_FIGURE}) ({_UNIT})")

Key = TypeVar("Key")
Sized = tuple[str, Words]  # the size's name, and what is said of it


def merged_stages(sizes: Sequence[tuple[str, tuple[ToldStage, ...]]], voice: Voice) -> tuple[ToldStage, ...]:
    """The stages of several sizes as one course of work, in the order of the first size that has each."""
    keys = _in_order([[stage.key for stage in stages] for _, stages in sizes])
    merged = []
    for key in keys:
        found = [(name, stage) for name, stages in sizes for stage in stages if stage.key == key]
        merged.append(_stage(found, [name for name, _ in sizes], voice))
    return tuple(merged)


def merged_words(said: Sequence[Sized], names: Sequence[str]) -> tuple[Words, ...]:
    """One sentence of all sizes: a single sentence if only its numbers differ, else one for each group of sizes.

    `names` are all sizes there are; sizes that do not say it are left out by name.
    """
    alike: dict[tuple[Piece, ...], list[str]] = {}
    for name, words in said:
        alike.setdefault(pieces_of(words), []).append(name)
    if len(alike) == 1:
        words = next(iter(alike))
        return (_named(words, [name for name, _ in said], names),)
    skeletons = {_skeleton(words) for words in alike}
    if len(skeletons) == 1:
        joined = _joined([pieces_of(words) for _, words in said])
        return (_named(joined, [name for name, _ in said], names),)
    return tuple(_named(words, group, names) for words, group in alike.items())


def _stage(found: Sequence[tuple[str, ToldStage]], names: Sequence[str], voice: Voice) -> ToldStage:
    first = found[0][1]
    keys = _in_order([[step.key for step in stage.steps] for _, stage in found])
    steps = []
    for key in keys:
        same = [(name, step) for name, stage in found for step in stage.steps if step.key == key]
        steps.append(_step(same, names, voice))
    leads: tuple[Telling, ...] = ()
    if first.lead:
        leads = _merged_lists([(name, (stage.lead,)) for name, stage in found if stage.lead], names, voice)
    lead = leads[0] if len(leads) == 1 else InWords(_run_on([in_words(one, voice) for one in leads]))
    return replace(first, lead=lead, steps=tuple(steps))


def _step(found: Sequence[tuple[str, ToldStep]], names: Sequence[str], voice: Voice) -> ToldStep:
    first = found[0][1]

    def sentences(of: Callable[[ToldStep], tuple[Telling, ...]]) -> tuple[Telling, ...]:
        return _merged_lists([(name, of(step)) for name, step in found], names, voice)

    actions = sentences(lambda step: step.actions)
    return replace(
        first,
        actions=actions,
        shown=first.shown if len(actions) == len(first.actions) else (),
        mends=sentences(lambda step: step.mends),
        sources=sentences(lambda step: step.sources),
        notes=sentences(lambda step: step.notes),
        stops=sentences(lambda step: step.stops),
        counts=sentences(lambda step: step.counts),
        cautions=tuple(dict.fromkeys(caution for _, step in found for caution in step.cautions)),
        figures=tuple(dict.fromkeys(figure for _, step in found for figure in step.figures)),
        rounds=first.rounds if len({step.rounds for _, step in found}) == 1 else 0,
    )


def _merged_lists(
    lists: Sequence[tuple[str, tuple[Telling, ...]]], names: Sequence[str], voice: Voice
) -> tuple[Telling, ...]:
    """Lists of sentences of the sizes, matched sentence by sentence on all but their values, in working order."""
    by_size = [(name, [(_key(told, voice), told) for told in said]) for name, said in lists]
    if len({tuple(key for key, _ in said) for _, said in by_size}) == 1:
        columns = zip(*(said for _, said in by_size), strict=True)
        return tuple(
            told
            for column in columns
            for told in _merged([(name, one[1]) for (name, _), one in zip(by_size, column, strict=True)], names, voice)
        )
    merged: list[Telling] = []
    for key in _in_order([_numbered([key for key, _ in said]) for _, said in by_size]):
        same = []
        for name, said in by_size:
            keys = _numbered([key for key, _ in said])
            if key in keys:
                same.append((name, said[keys.index(key)][1]))
        merged += _merged(same, names, voice)
    return tuple(merged)


def _key(told: Telling, voice: Voice) -> object:
    """What sentences of two sizes must have in common to be one."""
    return shape(told) if isinstance(told, Message) else _skeleton(pieces_of(in_words(told, voice)))


def _merged(told: Sequence[tuple[str, Telling]], names: Sequence[str], voice: Voice) -> tuple[Telling, ...]:
    """One sentence of all sizes, before there are words if all of them are messages."""
    messages = [(name, one) for name, one in told if isinstance(one, Message)]
    if len(messages) == len(told):
        return merged_messages(messages, names)
    return tuple(InWords(words) for words in merged_words([(name, in_words(one, voice)) for name, one in told], names))


def _numbered(skeletons: Sequence[object]) -> list[tuple[object, int]]:
    """Each skeleton with how often it has stood before it, so that a sentence said twice stays two."""
    return [(skeleton, list(skeletons[:place]).count(skeleton)) for place, skeleton in enumerate(skeletons)]


def _in_order(lists: Sequence[Sequence[Key]]) -> list[Key]:
    """Every key once: each list keeps its own order, and a key of a later list stands after what it follows there."""
    order: list[Key] = []
    for keys in lists:
        place = 0
        for key in keys:
            if key in order:
                place = order.index(key) + 1
            else:
                order.insert(place, key)
                place += 1
    return order


def _skeleton(words: tuple[Piece, ...]) -> tuple[object, ...]:
    """What is left of a sentence when its numbers are taken out."""
    return tuple(tuple(_VALUE.split(piece)) if isinstance(piece, str) else piece for piece in words)


def _joined(said: Sequence[tuple[Piece, ...]]) -> tuple[Piece, ...]:
    """Sentences of one skeleton as one: every number that differs is given size by size."""
    joined: list[Piece] = []
    for place, piece in enumerate(said[0]):
        if not isinstance(piece, str):
            joined.append(piece)
            continue
        gaps = _VALUE.split(piece)
        values = [_VALUE.findall(str(words[place])) for words in said]
        parts = [gaps[0]]
        for index, gap in enumerate(gaps[1:]):
            parts += [_by_size([found[index] for found in values]), gap]
        joined.append("".join(parts))
    return tuple(joined)


def _by_size(values: Sequence[str]) -> str:
    """One number of each size, in their order: ``14, 18 or 20``, or the bare value where all sizes have the same; counts
    all in figures where one of them is too great for words, and each unit of a measure once, after its numbers.
    """
    if len(set(values)) == 1:
        return values[0]
    in_both = [_IN_BOTH.fullmatch(value) for value in values]
    if all(in_both):
        first, second = (_by_size([found[side] for found in in_both if found]) for side in (1, 2))
        return f"{first} ({second})"
    with_unit = [found for found in map(_WITH_UNIT.fullmatch, values) if found]
    if len(with_unit) == len(values) and len({found[2] for found in with_unit}) == 1:
        return f"{_row([found[1] for found in with_unit])} {with_unit[0][2]}"
    figures = {word: str(count) for count, word in enumerate(_NUMBER_WORDS, start=1)}
    if any(value not in figures for value in values):
        values = [figures.get(value, value) for value in values]
    return _row(values)


def _row(values: Sequence[str]) -> str:
    return f"{', '.join(values[:-1])} or {values[-1]}"


def _named(words: tuple[Piece, ...], said_by: Sequence[str], names: Sequence[str]) -> Words:
    """A sentence under the names of the sizes it is for, unless it is for all of them."""
    if len(said_by) == len(names):
        return words[0] if len(words) == 1 and isinstance(words[0], str) else words
    return (Strong(f"{sentence_case(listed(list(said_by)))}: "), *words)


def _run_on(sentences: Sequence[Words]) -> Words:
    pieces: list[Piece] = []
    if not sentences:
        return ""
    for words in sentences:
        if pieces:
            pieces.append(" ")
        pieces += pieces_of(words)
    return pieces[0] if len(pieces) == 1 and isinstance(pieces[0], str) else tuple(pieces)
