"""What the wording hands on: stages of steps, before figures and pages are chosen.

Told stages hold messages, so that sizes can be merged and secrets kept before there are words; `spoken` turns them into
words that can be set.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from msgspec import Struct, field

from slath.booklet.blocks import Caution, CountBox, Shows, Words, pieces_of
from slath.messages import Message, OfSizes, Voice, message, plain

STAGES = (
    "prepare", "base", "base check", "stakes", "pricking up", "upsett", "side", "ears", "border", "foot", "handle",
    "lid", "finish",
)  # fmt: skip


class InWords(Struct, frozen=True):
    """Something that is in words already."""

    words: Words


Clause = Message | str | None  # a sentence or a part of one that may have nothing to say
Telling = str | Message | OfSizes | InWords  # a str is a sentence without a key: marked English


class ToldCaution(Struct, frozen=True):
    """A caution and its kind; one about people has a mark, a label and short words for its steps (see `TradeCaution`)."""

    kind: Literal["safety", "care"]
    words: Telling
    label: Telling = ""
    mark: str = ""
    short: Telling = ""


Phase = tuple[int, str, Telling]  # the action from which on a figure shows what is told, its name, a heading


class ToldStep(Struct, frozen=True):
    """One step told. `figures` are the keys of the figures that belong to it; `operations` are what hands do in it.

    `stops` are counts to make before the step is begun, `counts` what can be checked when it is done.
    `mends` say what can have gone wrong and what to do about it, a sentence each; `sources` what the step rests on.
    `rounds` asks for that many boxes to tick off, `key` names the step for references and for the bench cards. `shown`
    says from which action on which figure shows what is told.
    """

    key: str
    title: Telling
    actions: tuple[Telling, ...]
    notes: tuple[Telling, ...] = ()
    stops: tuple[Telling, ...] = ()
    counts: tuple[Telling, ...] = ()
    cautions: tuple[ToldCaution, ...] = ()
    figures: tuple[str, ...] = ()
    operations: frozenset[str] = field(default_factory=frozenset)
    stocks: frozenset[str] = field(default_factory=frozenset)
    rounds: int = 0
    mends: tuple[Telling, ...] = ()
    sources: tuple[Telling, ...] = ()
    shown: tuple[Phase, ...] = ()


class ToldStage(Struct, frozen=True):
    """One stage of the work: its key (one of STAGES), title, opening words and steps.

    `pictures` are the designer's own, as (file, alternative text); `chosen_figures` their choice of figures, None to
    leave it to the steps.
    """

    key: str
    title: Telling
    lead: Telling
    steps: tuple[ToldStep, ...]
    pictures: tuple[tuple[str, str], ...] = ()
    chosen_figures: tuple[str, ...] | None = None
    choice: Telling = ""  # what else could be made here


class SpokenStep(Struct, frozen=True):
    """One step in words (see `ToldStep`)."""

    key: str
    title: Words
    actions: tuple[Words, ...]
    notes: tuple[Words, ...] = ()
    stops: tuple[CountBox, ...] = ()
    counts: tuple[CountBox, ...] = ()
    cautions: tuple[Caution, ...] = ()
    figures: tuple[str, ...] = ()
    operations: frozenset[str] = field(default_factory=frozenset)
    stocks: frozenset[str] = field(default_factory=frozenset)
    rounds: int = 0
    mends: tuple[Words, ...] = ()
    sources: tuple[Words, ...] = ()


class SpokenStage(Struct, frozen=True):
    """One stage in words (see `ToldStage`)."""

    key: str
    title: Words
    lead: Words
    steps: tuple[SpokenStep, ...]
    pictures: tuple[tuple[str, str], ...] = ()
    chosen_figures: tuple[str, ...] | None = None


def spoken(stage: ToldStage, voice: Voice) -> SpokenStage:
    """A stage as a voice says it; sentences that say nothing in this voice are left out."""
    steps = tuple(_step(step, voice) for step in stage.steps)
    title, lead, choice = (in_words(told, voice) for told in (stage.title, stage.lead, stage.choice))
    if choice:
        lead = (*pieces_of(lead), " ", *pieces_of(choice)) if lead else choice
    return SpokenStage(stage.key, title, lead, steps, stage.pictures, stage.chosen_figures)


def in_words(told: Telling, voice: Voice) -> Words:
    """Something told, in words."""
    return told.words if isinstance(told, InWords) else voice.say(told)


def _step(step: ToldStep, voice: Voice) -> SpokenStep:
    def said(told: Iterable[Telling]) -> tuple[Words, ...]:
        return tuple(words for words in (in_words(one, voice) for one in told) if words != "")

    stop, check = (voice.text(message(f"booklet.{label}")) for label in ("stop-and-count", "check"))
    return SpokenStep(
        key=step.key,
        title=in_words(step.title, voice),
        actions=_actions(step, voice),
        notes=said(step.notes),
        stops=tuple(CountBox(words, stop) for words in said(step.stops)),
        counts=tuple(CountBox(words, check, check=True) for words in said(step.counts)),
        cautions=tuple(_caution(caution, voice) for caution in step.cautions),
        figures=step.figures,
        operations=step.operations,
        stocks=step.stocks,
        rounds=step.rounds,
        mends=said(step.mends),
        sources=said(step.sources),
    )


def _actions(step: ToldStep, voice: Voice) -> tuple[Words, ...]:
    """The actions in words, those from which on a figure shows them marked."""
    shown = {place: Shows(figure, in_words(head, voice)) for place, figure, head in step.shown}
    said = [(place, in_words(told, voice)) for place, told in enumerate(step.actions)]
    return tuple((shown[place], *pieces_of(words)) if place in shown else words for place, words in said if words != "")


def _caution(caution: ToldCaution, voice: Voice) -> Caution:
    words, short = in_words(caution.words, voice), in_words(caution.short, voice) if caution.short else ""
    opens = caution.label or message("booklet.take-care" if caution.kind == "care" else "booklet.caution")
    return Caution(caution.kind, words, plain(in_words(opens, voice)), caution.mark, short)
