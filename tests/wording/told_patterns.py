"""Shipped patterns told in every size, shared by the tests of the wording."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from slath.basket.construct import construct
from slath.basket.model import Basket
from slath.language import read_pattern
from slath.language.pattern import Pattern
from slath.quantities.measuring import quantities_of
from slath.quantities.results import Quantities
from slath.trade.words import UK, US
from slath.wording.glossary import words_of_stage
from slath.wording.speech import plain
from slath.wording.telling import Told, tell

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"
NAMES = tuple(path.stem for path in sorted(PATTERNS.glob("*.yaml")) if "." not in path.stem)
SIZED = tuple((name, size) for name in NAMES for size in range(3))


@cache
def made(name: str, size: int) -> tuple[Pattern, Basket, Quantities]:
    """One size of one shipped pattern, constructed and measured."""
    pattern = read_pattern(PATTERNS / f"{name}.yaml")
    basket = construct(pattern.sizes[size])
    return pattern, basket, quantities_of(basket)


@cache
def told(name: str, size: int, vocabulary: str = "UK", first: str = "inches", *, left_handed: bool = False) -> Told:
    """One size told."""
    pattern, basket, quantities = made(name, size)
    words = {"UK": UK, "US": US}[vocabulary]
    unit = "mm" if first == "mm" else "inches"
    return tell(pattern, basket, quantities, vocabulary=words, first=unit, left_handed=left_handed)  # type: ignore[arg-type]


def sentences(telling: Told) -> list[str]:
    """Everything the stages say, in reading order."""
    return [plain(words) for stage in telling.stages for words in words_of_stage(stage)]


def whole_text(telling: Told) -> str:
    """Everything the stages, tools and glossary say, as one text."""
    said = sentences(telling)
    said += [plain(words) for tool in telling.tools for words in tool]
    said += [f"{plain(entry.name)}. {plain(entry.meaning)}" for entry in telling.glossary.entries]
    return "\n".join([*said, plain(telling.skill)])


def words_in(text: str) -> set[str]:
    """The single words of a text, lower case."""
    return set(re.findall(r"[a-z]+(?:-[a-z]+)*", text.lower()))
