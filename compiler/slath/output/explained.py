"""One word explained: a note's code, a key of the language, a weave, or a word of the trade, each with an example."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from importlib import resources
from typing import Any

import yaml
from msgspec import Struct
from msgspec.structs import replace

from slath.basket.weave import follows, holds
from slath.language.keys import DECLARED, properties_of
from slath.language.pattern import WeaveSpec
from slath.language.schemas import schema
from slath.language.spelling import nearest
from slath.language.weaves import UnknownWeaveError, find_weave
from slath.messages import Voice, plain
from slath.notes.catalogue import CATALOGUE
from slath.trade.words import US, concepts

WIDTH = 88
COUNTS = range(20, 33)  # uprights a weave is tried on, to say which suit it


class UnknownWordError(LookupError):
    """A word that is none of ours; the message offers the nearest."""


class Explained(Struct, frozen=True):
    """What a word is, as paragraphs, and an example as it stands in a file (empty for words of the trade)."""

    kind: str
    name: str
    says: tuple[str, ...]
    example: str = ""


def explain(word: str) -> tuple[Explained, ...]:
    """Everything a word means here: it may be a key, a weave and a word of the trade at once.

    UnknownWordError for a word that is nothing here.
    """
    wanted = " ".join(word.split()).casefold()
    found = (*_codes(wanted), *_keys(wanted), *_weaves(wanted), *_words(wanted))
    if not found:
        near = nearest(wanted, [*CATALOGUE, *_all_keys(), *(key.casefold() for key in concepts())])
        raise UnknownWordError(f"nothing here is called {word}" + (f"; did you mean {near}?" if near else ""))
    return found


def explained_text(found: tuple[Explained, ...]) -> str:
    """As text for a terminal."""
    parts = []
    for each in found:
        lines = [f"{each.name} ({each.kind})"]
        for paragraph in each.says:
            lines += textwrap.wrap(paragraph, WIDTH, initial_indent="  ", subsequent_indent="  ")
        if each.example:
            lines += ["  For example:", *(f"    {line}" for line in each.example.splitlines())]
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


# ------------------------------------------------------------------------------------------------------------- notes
def examples_of_notes() -> dict[str, str]:
    """A line of a pattern for which each note is given, by its code."""
    text = (resources.files("slath.notes") / "examples.yaml").read_text("utf-8")
    found: dict[str, str] = yaml.safe_load(text)
    return found


def _codes(word: str) -> Iterator[Explained]:
    entry = CATALOGUE.get(word)
    if entry is not None:
        title = entry.title[:1].upper() + entry.title[1:]
        yield Explained("a note", word, (f"{title}. {entry.explanation}",), examples_of_notes().get(word, ""))


# -------------------------------------------------------------------------------------------------------------- keys
def _keys(word: str) -> Iterator[Explained]:
    """The key in every part of the language that has it; parts that say the same of it are told together."""
    told: dict[tuple[str, str], list[str]] = {}
    for part, key, inner in _parts():
        if key.casefold() == word or key.casefold().replace("_", " ") == word:
            says = inner.get("description") or _referred(inner).get("description", "")
            example = inner.get("x-example") or _referred(inner).get("x-example", "")
            choices = inner.get("enum") or _referred(inner).get("enum")
            if choices:
                says = f"{says} One of: {', '.join(str(choice) for choice in choices)}."
            told.setdefault((says.strip(), f"{key}: {example}" if example else ""), []).append(part)
    for (says, example), parts in told.items():
        named = ", ".join(dict.fromkeys(parts))
        yield Explained(f"a key of {named}", word, (says,) if says else (), example)


def _parts() -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Every key of the language: the part it belongs to, its name, what the schema says of it."""
    for part in ("pattern", *(name for name, said in DECLARED.items() if not said.hidden)):
        for key, inner in properties_of(part).items():
            yield "the pattern" if part == "pattern" else part.replace("_", " "), key, inner


def _referred(inner: dict[str, Any]) -> dict[str, Any]:
    reference = inner.get("$ref", "")
    found: dict[str, Any] = schema("pattern")["$defs"].get(reference.rpartition("/")[2], {})
    return found


def _all_keys() -> list[str]:
    return [key for _, key, _ in _parts()]


# ------------------------------------------------------------------------------------------------------------ weaves
def _weaves(word: str) -> Iterator[Explained]:
    try:
        named = find_weave(word)
    except UnknownWeaveError:
        return
    weave = named.weave
    rods = f"{weave.rods} strand{'s' if weave.rods > 1 else ''}"
    strokes = "; then ".join(f"in front of {stroke.before}, behind {stroke.behind}" for stroke in weave.strokes)
    says = [f"Worked with {rods}: {strokes}." if strokes else f"Worked with {rods}."]
    says.append(_suits(weave))
    yield Explained("a weave", weave.label, tuple(says), f"{{weave: {word}, strands: weaver, to: top}}")


def _suits(weave: WeaveSpec) -> str:
    good = [count for count in COUNTS if holds(weave, count) and follows(weave, count)]
    if len(good) == len(COUNTS):
        return "It suits any number of uprights."
    if not good:
        return f"It suits none of {COUNTS.start} to {COUNTS.stop - 1} uprights without a change of stroke."
    return f"Of {COUNTS.start} to {COUNTS.stop - 1} uprights it suits {', '.join(map(str, good))}."


# ------------------------------------------------------------------------------------------------------------- words
def _words(word: str) -> Iterator[Explained]:
    british = Voice({})
    american = replace(british, vocabulary=US)
    for key, concept in concepts().items():
        forms = {form.casefold() for both in concept.forms.values() for form in both}
        if word not in forms and word != key.casefold():
            continue
        name, meaning, _ = british.glossary_entry(concept.explained_by)
        other = american.glossary_entry(concept.explained_by)[0]
        said = plain(meaning)
        if other != name:
            said = f"{said} American books say {other}."
        yield Explained("a word of the trade", name, (said[:1].upper() + said[1:],))
