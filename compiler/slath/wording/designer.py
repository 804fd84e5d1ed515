"""The designer's own words: put in place of a stage or beside it, their references bound, their typed lengths checked."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from difflib import get_close_matches

from msgspec.structs import replace

from slath.language.pattern import Pattern, StageWords
from slath.messages import Message, message
from slath.messages.told import told
from slath.notes import Note, Severity
from slath.trade.cautions import cautions
from slath.units import Amount
from slath.wording.figure_names import APART
from slath.wording.references import amounts_by_name, bound, nearest_references, parts_of
from slath.wording.told import STAGES, ToldCaution, ToldStage, ToldStep
from slath.wording.typed_numbers import disagreements
from slath.wording.work import Work

OFF_STAGE = ("cover", "back")  # where a photograph may stand that belongs to no stage
# Figures of how a thing is worked, which go where the designer's own words take the place of ours.
_METHOD = re.compile(APART + r"(stroke-|step-up|(foot-)?border-|base-opening-|base-weaving-|handle-\d+-)")
# Other names a designer may call a stage by.
_ALSO = {
    "preparing": "prepare", "cutting": "prepare", "soaking": "prepare", "slath": "base", "sticks": "base", "board": "base",
    "staking": "stakes", "prick up": "pricking up", "set-up": "upsett", "sides": "side", "foot border": "foot",
    "handles": "handle", "finishing": "finish",
}  # fmt: skip


def with_designers_words(stages: tuple[ToldStage, ...], pattern: Pattern, work: Work) -> tuple[ToldStage, ...]:
    """Every stage with what the designer says of it; unknown references stay as they are typed (see `notes_on_words`)."""
    amounts = amounts_by_name(work)
    for words in pattern.stages:
        stages = tuple(_applied(stage, words, work, amounts) for stage in stages)
    return tuple(_with_photographs(stage, pattern) for stage in stages)


def _with_photographs(stage: ToldStage, pattern: Pattern) -> ToldStage:
    """The stage with the photographs that are to stand in it."""
    own = tuple((photograph.file, photograph.shows) for photograph in pattern.photographs if photograph.at == stage.key)
    return replace(stage, pictures=(*stage.pictures, *own)) if own else stage


def _applied(stage: ToldStage, words: StageWords, work: Work, amounts: Mapping[str, Amount]) -> ToldStage:
    if _stage_key(words.stage) == stage.key:
        return _to_stage(stage, words, work, amounts)
    places = [place for place, step in enumerate(stage.steps) if _is_band(step, words.stage, work)]
    if not places:
        return stage
    steps = list(stage.steps)
    steps[places[0]] = _to_step(steps[places[0]], words, work, amounts)
    return replace(stage, steps=tuple(steps), pictures=(*stage.pictures, *words.pictures))


def _stage_key(name: str) -> str:
    lowered = name.strip().casefold()
    return _ALSO.get(lowered, lowered)


def _is_band(step: ToldStep, name: str, work: Work) -> bool:
    """Whether a step is the weaving of the band so named."""
    wanted = name.strip().casefold()
    side = {f"band {band.index + 1}": band.name for band in work.basket.bands}
    base = {f"base {band.index + 1}": band.name for band in work.basket.base.bands}
    foot = {f"foot band {band.index + 1}": band.name for band in work.basket.foot_bands}
    return (side | base | foot).get(step.key, "").casefold() == wanted


def _to_stage(stage: ToldStage, words: StageWords, work: Work, amounts: Mapping[str, Amount]) -> ToldStage:
    steps = list(stage.steps)
    if words.replace and steps:
        steps = [_as_one(stage, steps)]
    if steps:
        first = _to_step(steps[0], replace(words, notes=()), work, amounts)
        steps[0] = first
        steps[-1] = _to_step(steps[-1], replace(words, replace=(), safety=(), care=()), work, amounts)
    return replace(stage, steps=tuple(steps), pictures=(*stage.pictures, *words.pictures), chosen_figures=words.figures)


def _as_one(stage: ToldStage, steps: list[ToldStep]) -> ToldStep:
    """The steps of a stage as one, whose actions are to be replaced; its checks and dangers stay, and plans of the thing
    itself; figures of how the words before had it worked would contradict the new ones, and go.
    """
    return ToldStep(
        key=steps[0].key,
        title=stage.title,
        actions=(),
        stops=tuple(stop for step in steps for stop in step.stops),
        counts=tuple(count for step in steps for count in step.counts),
        figures=tuple(figure for step in steps for figure in step.figures if not _METHOD.match(figure)),
        operations=frozenset().union(*(step.operations for step in steps)),
        stocks=frozenset().union(*(step.stocks for step in steps)),
        rounds=sum(step.rounds for step in steps),
    )


def _to_step(step: ToldStep, words: StageWords, work: Work, amounts: Mapping[str, Amount]) -> ToldStep:
    def said(text: str) -> Message:
        return message("voice.own", parts=parts_of(text, amounts, work))

    own = [ToldCaution("safety", said(text)) for text in words.safety] + [
        ToldCaution("care", said(text)) for text in words.care
    ]
    return replace(
        step,
        actions=tuple(said(text) for text in words.replace) or step.actions,
        figures=tuple(name for name in step.figures if not (words.replace and _METHOD.match(name))),
        notes=(*step.notes, *(said(text) for text in words.notes)),
        cautions=(*step.cautions, *own),
        operations=step.operations | _mentioned(" ".join((*words.replace, *words.notes))),
    )


def _mentioned(text: str) -> frozenset[str]:
    """Operations the designer's words speak of, so that the trade's cautions stand before them."""
    spoken = f" {' '.join(re.findall(r'[a-z]+', text.casefold()))} "
    return frozenset(
        operation
        for caution in cautions()
        if any(f" {word} " in spoken for word in caution.mentions)
        for operation in caution.operations
    )


# ------------------------------------------------------------------------------------------------------------- checks
def notes_on_words(pattern: Pattern, work: Work, stages: tuple[ToldStage, ...]) -> tuple[Note, ...]:
    """Errors in the designer's words for one size: stages there are not, references that mean nothing, wrong lengths."""
    amounts = amounts_by_name(work)
    notes: list[Note] = []
    for words in pattern.stages:
        notes += _unknown_stage(words, pattern, work, stages)
        for key, texts in (
            ("replace", words.replace), ("notes", words.notes), ("safety", words.safety), ("care", words.care),
        ):  # fmt: skip
            for place, text in enumerate(texts):
                notes += _text_notes(text, words, (key, place), pattern, work, amounts)
    notes += _photographs_without_a_stage(pattern, work, stages)
    return tuple(notes)


def _photographs_without_a_stage(pattern: Pattern, work: Work, stages: tuple[ToldStage, ...]) -> Iterator[Note]:
    keys = [stage.key for stage in stages]
    for photograph in pattern.photographs:
        if photograph.at not in {*OFF_STAGE, *keys}:
            yield Note(
                "unknown-stage", Severity.ERROR, pattern.place((*photograph.path, "at")),
                told("The photograph {file} is for “{at}”, and this basket has no such stage, so it would be printed nowhere.", file=photograph.file, at=photograph.at),
                size=work.basket.size, part=photograph.at,
                remedies=(told("write at: cover or at: back"), told("write at: one of {keys}", keys=", ".join(keys))),
            )  # fmt: skip


def _unknown_stage(words: StageWords, pattern: Pattern, work: Work, stages: tuple[ToldStage, ...]) -> Iterator[Note]:
    keys = [stage.key for stage in stages]
    bands = [band.name for band in work.basket.woven]
    known = {*keys, *(name.casefold() for name in bands)}
    name = _stage_key(words.stage)
    if name in known:
        return
    reason = told("this basket has no such stage") if name in STAGES else told("there is no stage or band of this name")
    nearest = get_close_matches(name, [*keys, *bands], n=2, cutoff=0.5) or keys
    yield Note(
        "unknown-stage", Severity.ERROR, pattern.place((*words.path, "stage")),
        told("Your words are for “{stage}”, and {reason}, so they would be printed nowhere.", stage=words.stage, reason=reason),
        size=work.basket.size, part=words.stage, remedies=tuple(told("write stage: {near}", near=near) for near in nearest),
    )  # fmt: skip


def _text_notes(
    text: str, words: StageWords, at: tuple[str, int], pattern: Pattern, work: Work, amounts: Mapping[str, Amount]
) -> Iterator[Note]:
    place = pattern.place((*words.path, *at))
    for name in bound(text, amounts, work)[1]:
        nearest = nearest_references(name, amounts)
        yield Note(
            "unknown-reference", Severity.ERROR, place,
            told("“{{{name}}}” names no number of this size.", name=name),
            size=work.basket.size, part=words.stage,
            remedies=tuple(told("write {{{near}}}", near=near) for near in nearest) or (told("take the name from slath proof"),),
        )  # fmt: skip
    for wrong in disagreements(text, amounts, work):
        yield Note(
            "typed-measure-disagrees", Severity.ERROR, place,
            told("The words say “{typed}”; nothing in the list of this size measures that.", typed=wrong.typed),
            size=work.basket.size, part=words.stage,
            remedies=(
                told("write {{{wrong}}}, which prints {listed} and follows the list", wrong=wrong.name, listed=wrong.listed),
                told("give it a name under measures: and write that name in braces"),
            ),
        )  # fmt: skip
