"""Two vocabularies of the trade, UK and US: one term a concept, its forms, and what it means in plain words.

Sentences name concepts by their UK form in square brackets, such as ``Push a [stake] down beside each [stick end].``
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Any, Literal

from msgspec import Struct

from slath.trade.tables import read_table

VocabularyName = Literal["UK", "US"]


class Concept(Struct, frozen=True):
    """One thing of the trade. `forms` holds, for each vocabulary, (one, many) of a thing or (do, doing, done) of a verb.

    `explained_by` is the concept whose glossary entry explains it (itself, unless it is a verb); `means` is that entry,
    with bracketed concepts.
    """

    key: str
    forms: Mapping[str, tuple[str, ...]]
    explained_by: str
    means: str


class Use(Struct, frozen=True):
    """A concept as used in a sentence: its key and the form to print."""

    key: str
    printed: str


class Vocabulary(Struct, frozen=True, dict=True):
    """One vocabulary, chosen once for a booklet."""

    name: VocabularyName

    def use(self, written: str) -> Use:
        """The concept named by a UK form, in this vocabulary; a capital is kept. KeyError if there is no such form."""
        lowered = written if written in _forms() else written[0].lower() + written[1:]
        key, place = _forms()[lowered]
        printed = concepts()[key].forms[self.name][place]
        return Use(key, printed if lowered == written else printed[0].upper() + printed[1:])

    def term(self, key: str) -> str:
        """The term for one concept, in the singular or the plain verb."""
        return concepts()[key].forms[self.name][0]

    def spelled(self, text: str) -> str:
        """Everyday words in this country's spelling; `text` is written in British spelling."""
        if self.name == "UK":
            return text
        return _british().sub(lambda found: _american(found[0]), text)


UK = Vocabulary("UK")
US = Vocabulary("US")


@cache
def concepts() -> Mapping[str, Concept]:
    """Every concept by its key, in the order of the word list."""
    return MappingProxyType({key: _concept(key, row) for key, row in read_table("words").items()})


def _concept(key: str, row: Mapping[str, Any]) -> Concept:
    forms = {"UK": _inflected(row["uk"]), "US": _inflected(row["us"])}
    return Concept(key, MappingProxyType(forms), row.get("see", key), row.get("means", ""))


def _inflected(forms: str | list[str]) -> tuple[str, ...]:
    return (forms, f"{forms}s") if isinstance(forms, str) else tuple(forms)


@cache
def _forms() -> Mapping[str, tuple[str, int]]:
    """UK form → concept and place of the form. A noun has a form before a verb; a verb is also named by its key."""
    found: dict[str, tuple[str, int]] = {key: (key, 0) for key in concepts()}
    for key, concept in concepts().items():
        for place, form in enumerate(concept.forms["UK"]):
            found.setdefault(form, (key, place))
    return MappingProxyType(found)


@cache
def _spelling() -> Mapping[str, str]:
    table: dict[str, str] = read_table("spelling")
    return MappingProxyType(table)


@cache
def _british() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(_spelling())})\b", re.IGNORECASE)


def _american(word: str) -> str:
    spelled = _spelling()[word.lower()]
    return spelled[0].upper() + spelled[1:] if word[0].isupper() else spelled
