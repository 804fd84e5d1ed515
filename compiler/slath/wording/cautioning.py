"""Cautions put before the actions they belong to, by what hands do in each step."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from slath.messages import Message, message
from slath.messages.language import slug
from slath.trade.cautions import TradeCaution, cautions
from slath.wording.told import ToldCaution, ToldStage, ToldStep


def with_cautions(stages: Iterable[ToldStage]) -> tuple[ToldStage, ...]:
    """Every stage with its cautions. One about people stands at every step that does what it warns of; one about the work
    before the first such step in full, and in its shorter form in each later stage.
    """
    said: set[str] = set()
    cautioned: list[ToldStage] = []
    for stage in stages:
        here: set[str] = set()
        steps = tuple(_with_cautions(step, said, here) for step in stage.steps)
        said |= here
        cautioned.append(replace(stage, steps=steps))
    return tuple(cautioned)


def _with_cautions(step: ToldStep, said: set[str], here: set[str]) -> ToldStep:
    due = [caution for caution in cautions() if _is_due(caution, step, said, here)]
    here.update(caution.key for caution in due)
    words = tuple(_caution(caution, again=caution.key in said) for caution in due)
    return replace(step, cautions=(*step.cautions, *words))


def _caution(caution: TradeCaution, *, again: bool) -> ToldCaution:
    if caution.kind == "care":
        return ToldCaution("care", said_as(caution, again=again))
    key = slug(caution.key)
    short = "" if caution.panel else message(f"cautions.{key}-short")
    return ToldCaution("safety", said_as(caution), message(f"cautions.{key}-label"), caution.key, short)


def said_as(caution: TradeCaution, *, again: bool = False) -> Message:
    """A caution in full, or in its shorter form."""
    key = slug(caution.key)
    return message(f"cautions.{key}-again") if again else message(f"cautions.{key}")


def _is_due(caution: TradeCaution, step: ToldStep, said: set[str], here: set[str]) -> bool:
    if caution.kind == "care" and (caution.key in here or (caution.key in said and not caution.again)):
        return False
    return caution.applies(step.operations, step.stocks)
