"""Variants: the pattern with parts of its own in place of the file's, laid over the data before anything is read.

A variant names what is other in it. Materials, measures and settings are taken key by key, so that a colourway says no more
than its dyes; every other part is taken whole. Whoever lays a colourway over a pattern from elsewhere, such as a class file,
uses `overlaid` too.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from slath.language.document import Document
from slath.language.keys import by_hand, declare, refer, text, texts
from slath.language.places import Path
from slath.language.spelling import nearest
from slath.messages.told import told
from slath.notes import Note, Severity

KEY = "variants"
BY_KEY = frozenset({"materials", "measures", "settings"})
LEFT_OUT, WORDS = "leave_out", "called"
_OWN_KEYS = frozenset({LEFT_OUT, WORDS})


class Variant(Struct, frozen=True):
    """A variant by its name, what it is in the designer's words, and the keys of the pattern that are other in it."""

    name: str
    words: str
    differs: frozenset[str]


_WHOLE = {"type": "object"}
_WHOLE_OR_LISTED = {"type": ["object", "array"]}


declare(
    "variant",
    "What is other in one variant.",
    example="{called: without a handle, leave_out: [handle]}",
    also={
        "called": text("What it is, in your words; left out: its name.", once=True),
        "leave_out": texts("Parts of the pattern that it lacks.", once=True),
        "measures": by_hand({"type": "object", "additionalProperties": refer("measure")}, "Measures of its own."),
        "materials": by_hand(_WHOLE, "Materials of its own, or other keys of those there are: a dye, a colour."),
        "settings": by_hand(_WHOLE, "Settings of its own."),
        "base": by_hand(_WHOLE, "Its base."),
        "stakes": by_hand(_WHOLE, "Its stakes."),
        "bye_stakes": by_hand(_WHOLE_OR_LISTED, "Its bye-stakes."),
        "side": by_hand(_WHOLE, "Its side."),
        "border": by_hand(_WHOLE, "Its border."),
        "foot": by_hand(_WHOLE, "Its foot."),
        "handle": by_hand(_WHOLE, "Its handle."),
        "handles": by_hand(_WHOLE_OR_LISTED, "Its handles."),
        "lid": by_hand(_WHOLE, "Its lid."),
        "parts": by_hand(_WHOLE_OR_LISTED, "Its parts made by themselves."),
        "fittings": by_hand(_WHOLE_OR_LISTED, "Its fittings."),
        "steps": by_hand(_WHOLE_OR_LISTED, "Your own words for its stages."),
        "woven": by_hand({**_WHOLE, "x-sizes-may-lack": True}, "Its sizes somebody has woven."),
        "accept": by_hand(_WHOLE_OR_LISTED, "Warnings you overrule in it."),
        "subtitle": text("Its line under the title.", once=True),
        "about": text("A paragraph about it.", once=True),
        "skill": text("Who can make it.", once=True),
        "time": text("How long it takes, in words.", once=True),
    },
)


class NoSuchVariantError(ValueError):
    """A variant was asked for that the pattern does not have; `known` are those it has."""

    def __init__(self, name: str, known: tuple[str, ...]) -> None:
        near = nearest(name, known)
        meant = (
            told("; did you mean {near}?", near=near)
            if near
            else told("; choose from {join}", join=", ".join(known))
            if known
            else ""
        )
        super().__init__(told("the pattern has no variant {name}{meant}", name=name, meant=meant))
        self.known = known


def variants_of(document: Document) -> tuple[Variant, ...]:
    """The variants of a pattern in its own order, the first the one meant where none is named; none where it has none."""
    given = document.data.get(KEY)
    if not isinstance(given, dict):
        return ()
    return tuple(
        Variant(str(name), str(own.get(WORDS) or ""), _differs(own))
        for name, own in given.items()
        if isinstance(own, dict)
    )


def _differs(own: Mapping[str, Any]) -> frozenset[str]:
    return frozenset(key for key in own if key not in _OWN_KEYS) | frozenset(_left_out(own).values())


def _left_out(own: Mapping[str, Any]) -> dict[Path, str]:
    """The keys left out, by where each is named; nothing for what is no key at all, which the schema refuses."""
    left = own.get(LEFT_OUT)
    listed = (
        {(LEFT_OUT, index): key for index, key in enumerate(left)} if isinstance(left, list) else {(LEFT_OUT,): left}
    )
    return {path: key for path, key in listed.items() if isinstance(key, str)}


def as_variant(document: Document, name: str = "") -> Document:
    """The document as one variant has it, or the first where none is named. NoSuchVariantError for one it does not have.

    What a variant leaves out or has of its own is noted where nothing stands in its way.
    """
    known = tuple(variant.name for variant in variants_of(document))
    if name and name not in known:
        raise NoSuchVariantError(name, known)
    if not known:
        return document
    name = name or known[0]
    return overlaid(document, document.data[KEY][name], (KEY, name), document)


def overlaid(document: Document, own: Mapping[str, Any], path: Path, source: Document) -> Document:
    """The document with the values `own` in place of its own, every value at its place in `source`, where it stands at
    `path`. Neither document is changed.
    """
    made = replace(
        document, data=dict(document.data), places=dict(document.places), raw=dict(document.raw), inside=dict(document.inside),
        notes=list(document.notes), faulty=set(document.faulty),
    )  # fmt: skip
    for at, key in _left_out(own).items():
        if key not in made.data:
            _note_nothing_left(made, source, (*path, *at), key)
        _drop(made, (key,))
    for key, value in own.items():
        if key in _OWN_KEYS:
            continue
        if key in BY_KEY and isinstance(value, dict) and isinstance(made.data.get(key), dict):
            made.data[key] = dict(made.data[key])
            for name, inner in value.items():
                _lay(made, (key, name), inner, (*path, key, name), source)
        else:
            _lay(made, (key,), value, (*path, key), source)
    return made


def _lay(made: Document, to: Path, value: Any, at: Path, source: Document) -> None:
    """One value at `at` of the source put in the place `to`; of a material that is there, only the keys it names."""
    holder: Any = made.data
    for key in to[:-1]:
        holder = holder[key]
    old = holder.get(to[-1])
    if len(to) > 1 and isinstance(old, dict) and isinstance(value, dict):
        holder[to[-1]] = dict(old)
        for key, inner in value.items():
            _lay(made, (*to, key), inner, (*at, key), source)
        return
    _drop(made, to)
    holder[to[-1]] = value
    for table, given in ((made.places, source.places), (made.raw, source.raw), (made.inside, source.inside)):
        moved = {(*to, *path[len(at) :]): found for path, found in given.items() if path[: len(at)] == at}
        table.update(moved)  # type: ignore[arg-type]
    made.faulty |= {(*to, *path[len(at) :]) for path in source.faulty if path[: len(at)] == at}


def _drop(made: Document, path: Path) -> None:
    """A value taken out, with all that is known of its places."""
    holder: Any = made.data
    for key in path[:-1]:
        holder = holder.get(key) if isinstance(holder, dict) else None
    if isinstance(holder, dict):
        holder.pop(path[-1], None)
    for table in (made.places, made.raw, made.inside):
        for known in [known for known in table if known[: len(path)] == path]:
            del table[known]
    made.faulty -= {known for known in made.faulty if known[: len(path)] == path}


def _note_nothing_left(made: Document, source: Document, at: Path, key: str) -> None:
    place = source.places.get(at) or source.places[at[:-1]]
    near = nearest(key, made.data)
    remedies = (told("write {near}", near=near),) if near else (told("take it out"),)
    sentence = told("The variant leaves {key} out, but the pattern has none.", key=key)
    made.notes.append(Note("variant-changes-nothing", Severity.WARNING, place[1], sentence, remedies=remedies))


def words_in(data: Any) -> frozenset[str]:
    """Every name in some data: what any variant may use, so that it is not called unused in another."""
    if isinstance(data, dict):
        return frozenset(text for key, value in data.items() for text in words_in(value) | {str(key)})
    if isinstance(data, list):
        return frozenset(text for value in data for text in words_in(value))
    return frozenset({str(data), *re.findall(r"[A-Za-z_]\w*", str(data))})
