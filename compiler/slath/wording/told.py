"""What the wording hands on: stages of steps, before figures and pages are chosen."""

from __future__ import annotations

from dataclasses import dataclass, field

from slath.booklet.blocks import Caution, CountBox, Words

STAGES = (
    "prepare", "base", "base check", "stakes", "pricking up", "upsett", "side", "border", "foot", "handle", "lid",
    "finish",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class ToldStep:
    """One step in words. `figures` are the keys of the figures that belong to it; `operations` are what hands do in it.

    `stops` are counts to make before the step is begun, `counts` what can be checked when it is done.
    `rounds` asks for that many boxes to tick off, `key` names the step for references and for the bench cards.
    """

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


@dataclass(frozen=True, slots=True)
class ToldStage:
    """One stage of the work: its key (one of STAGES), title, opening words and steps.

    `pictures` are the designer's own, as (file, alternative text); `chosen_figures` their choice of figures, None to
    leave it to the steps.
    """

    key: str
    title: Words
    lead: Words
    steps: tuple[ToldStep, ...]
    pictures: tuple[tuple[str, str], ...] = ()
    chosen_figures: tuple[str, ...] | None = None
