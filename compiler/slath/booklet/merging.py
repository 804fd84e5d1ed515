"""Several sizes told as one course of work: a message that says the same in every size stands once, with the values that
differ size by size, "Weave 14 or 20 rounds"; messages that differ in more stand one after another, each under the name of
its size. Values are merged before there are words (`slath.messages.merging`).
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import TypeVar

from msgspec.structs import replace

from slath.booklet.blocks import Piece, Words, pieces_of
from slath.messages import Message, Voice, merged_messages
from slath.messages.merging import shape
from slath.wording.told import InWords, Telling, ToldStage, ToldStep, in_words

Key = TypeVar("Key", bound=Hashable)


def merged_stages(sizes: Sequence[tuple[str, tuple[ToldStage, ...]]], voice: Voice) -> tuple[ToldStage, ...]:
    """The stages of several sizes as one course of work, in the order of the first size that has each."""
    keys = _in_order([[stage.key for stage in stages] for _, stages in sizes])
    merged = []
    for key in keys:
        found = [(name, stage) for name, stages in sizes for stage in stages if stage.key == key]
        merged.append(_stage(found, [name for name, _ in sizes], voice))
    return tuple(merged)


def _stage(found: Sequence[tuple[str, ToldStage]], names: Sequence[str], voice: Voice) -> ToldStage:
    first = found[0][1]
    keys = _in_order([[step.key for step in stage.steps] for _, stage in found])
    steps = []
    for key in keys:
        same = [(name, step) for name, stage in found for step in stage.steps if step.key == key]
        steps.append(_step(same, names))
    leads: tuple[Telling, ...] = ()
    if first.lead:
        leads = _merged_lists([(name, (stage.lead,)) for name, stage in found if stage.lead], names)
    lead = leads[0] if len(leads) == 1 else InWords(_run_on([in_words(one, voice) for one in leads]))
    return replace(first, lead=lead, steps=tuple(steps))


def _step(found: Sequence[tuple[str, ToldStep]], names: Sequence[str]) -> ToldStep:
    first = found[0][1]

    def sentences(of: Callable[[ToldStep], tuple[Telling, ...]]) -> tuple[Telling, ...]:
        return _merged_lists([(name, of(step)) for name, step in found], names)

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


def _merged_lists(lists: Sequence[tuple[str, tuple[Telling, ...]]], names: Sequence[str]) -> tuple[Telling, ...]:
    """Lists of sentences of the sizes, matched sentence by sentence on all but their values, in working order."""
    by_size = [(name, [(_key(told), told) for told in said]) for name, said in lists]
    if len({tuple(key for key, _ in said) for _, said in by_size}) == 1:
        columns = zip(*(said for _, said in by_size), strict=True)
        return tuple(
            told
            for column in columns
            for told in _merged([(name, one[1]) for (name, _), one in zip(by_size, column, strict=True)], names)
        )
    merged: list[Telling] = []
    for key in _in_order([_numbered([key for key, _ in said]) for _, said in by_size]):
        same = []
        for name, said in by_size:
            keys = _numbered([key for key, _ in said])
            if key in keys:
                same.append((name, said[keys.index(key)][1]))
        merged += _merged(same, names)
    return tuple(merged)


def _key(told: Telling) -> Hashable:
    """What sentences of two sizes must have in common to be one."""
    return shape(told) if isinstance(told, Message) else told


def _merged(told: Sequence[tuple[str, Telling]], names: Sequence[str]) -> tuple[Telling, ...]:
    """One sentence of all sizes, before there are words; what is no message is the same in all that say it."""
    messages = [(name, one) for name, one in told if isinstance(one, Message)]
    if len(messages) == len(told):
        return merged_messages(messages, names)
    return tuple(dict.fromkeys(one for _, one in told))


def _numbered(skeletons: Sequence[object]) -> list[tuple[object, int]]:
    """Each skeleton with how often it has stood before it, so that a sentence said twice stays two."""
    return [(skeleton, list(skeletons[:place]).count(skeleton)) for place, skeleton in enumerate(skeletons)]


def _in_order(lists: Sequence[Sequence[Key]]) -> list[Key]:
    """Every key once: each list keeps its own order, and a key of a later list stands after what it follows there, and
    after what only earlier ones have at that place.
    """
    order: list[Key] = []
    for keys in lists:
        place, own = 0, set(keys)
        for key in keys:
            if key in order:
                place = order.index(key) + 1
            else:
                while place < len(order) and order[place] not in own:
                    place += 1
                order.insert(place, key)
                place += 1
    return order


def _run_on(sentences: Sequence[Words]) -> Words:
    pieces: list[Piece] = []
    if not sentences:
        return ""
    for words in sentences:
        if pieces:
            pieces.append(" ")
        pieces += pieces_of(words)
    return pieces[0] if len(pieces) == 1 and isinstance(pieces[0], str) else tuple(pieces)
