"""The glossary of one booklet: exactly the words of the trade it uses, each linked from its first use in a stage."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from slath.booklet.blocks import Definition, Definitions, Piece, Term, Words, pieces_of
from slath.trade.words import concepts
from slath.wording.speech import Voice, anchor_of, plain, sentence_case
from slath.wording.told import SpokenStage, SpokenStep


def words_of_stage(stage: SpokenStage) -> Iterator[Words]:
    """Everything a stage says, in reading order."""
    yield stage.title
    yield stage.lead
    for step in stage.steps:
        yield from words_of_step(step)


def words_of_step(step: SpokenStep) -> Iterator[Words]:
    """Everything a step says, in reading order."""
    yield step.title
    for stop in step.stops:
        yield stop.words
    for caution in step.cautions:
        yield caution.words
    yield from step.actions
    yield from step.notes
    for count in step.counts:
        yield count.words


def terms_used(said: Iterable[Words]) -> tuple[str, ...]:
    """Anchors of the concepts used, each once, in order of first use."""
    found: dict[str, None] = {}
    for words in said:
        for piece in pieces_of(words):
            if isinstance(piece, Term):
                found[piece.anchor] = None
    return tuple(found)


def glossary(said: Iterable[Words], voice: Voice) -> Definitions:
    """Definitions of every concept used, and of those used in defining them, in the order of the alphabet."""
    by_anchor = {anchor_of(key): key for key in concepts()}
    due = [by_anchor[anchor] for anchor in terms_used(said)]
    keys: dict[str, None] = {}
    while due:
        key = concepts()[due.pop(0)].explained_by
        if key not in keys:
            keys[key] = None
            due += voice.glossary_entry(key)[2]
    entries = [_definition(key, voice) for key in keys]
    return Definitions(tuple(sorted(entries, key=lambda entry: plain(entry.name).casefold())))


def _definition(key: str, voice: Voice) -> Definition:
    name, meaning, _ = voice.glossary_entry(key)
    return Definition(sentence_case(name), meaning, anchor_of(key))


def linked_once(stage: SpokenStage) -> SpokenStage:
    """A stage in which only the first use of each concept is a link, so that the page stays quiet."""
    seen: set[str] = set()

    def quiet(words: Words) -> Words:
        return _quiet(words, seen)

    title, lead = _unlinked(stage.title), quiet(stage.lead)
    return replace(stage, title=title, lead=lead, steps=tuple(_quiet_step(step, seen) for step in stage.steps))


def _quiet_step(step: SpokenStep, seen: set[str]) -> SpokenStep:
    return replace(
        step,
        title=_unlinked(step.title),
        stops=tuple(replace(stop, words=_quiet(stop.words, seen)) for stop in step.stops),
        cautions=tuple(replace(caution, words=_quiet(caution.words, seen)) for caution in step.cautions),
        actions=tuple(_quiet(words, seen) for words in step.actions),
        notes=tuple(_quiet(words, seen) for words in step.notes),
        counts=tuple(replace(count, words=_quiet(count.words, seen)) for count in step.counts),
    )


def _quiet(words: Words, seen: set[str]) -> Words:
    """Links already made are turned into plain words; neighbouring plain words are joined."""
    kept: list[Piece] = []
    for piece in pieces_of(words):
        told: Piece = piece
        if isinstance(piece, Term):
            told = plain(piece) if piece.anchor in seen else piece
            seen.add(piece.anchor)
        if isinstance(told, str) and kept and isinstance(kept[-1], str):
            kept[-1] = f"{kept[-1]}{told}"
        else:
            kept.append(told)
    return kept[0] if len(kept) == 1 else tuple(kept)


def _unlinked(words: Words) -> Words:
    everything = {piece.anchor for piece in pieces_of(words) if isinstance(piece, Term)}
    return _quiet(words, everything)
