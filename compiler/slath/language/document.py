"""YAML text as plain data, with the place of every key and value.

Plain words keep the meaning a reader expects (YAML 1.2's core schema, its rarer spellings left out): ``no``, ``on``,
``12:30``, ``2026-03-01`` and ``1_000`` are text here, not a truth, a sum of seconds, a date or a thousand.
"""

from __future__ import annotations

import re
from typing import Any

from msgspec import Struct, field

from slath.language.composing import GREATEST_NODES, Node, compose, refuse
from slath.language.places import Path
from slath.language.source import Source
from slath.messages.told import Spoken, told
from slath.notes import Note, Place, Severity

GREATEST_NUMBER = 1e9
LONGEST_NUMBER = 24
_INTEGER = re.compile(r"[-+]?[0-9]+\Z")
_DECIMAL = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?\Z")
_NO_NUMBER = re.compile(r"[-+]?\.(?:inf|Inf|INF)\Z|\.(?:nan|NaN|NAN)\Z")
_WORDS = {"true": True, "True": True, "false": False, "False": False}
_NOTHING = frozenset({"", "~", "null", "Null", "NULL"})


class Document(Struct):
    """Data of one file. `raw` keeps a number's own spelling; `inside` says how far into a value its text begins."""

    source: Source
    data: dict[str, Any] = field(default_factory=dict)
    places: dict[Path, tuple[Place, Place]] = field(default_factory=dict)
    raw: dict[Path, str] = field(default_factory=dict)
    inside: dict[Path, int] = field(default_factory=dict)
    notes: list[Note] = field(default_factory=list)
    faulty: set[Path] = field(default_factory=set)


def read_document(source: Source) -> Document:
    """The data of `source`; PatternFaultError where the text is not YAML or is no mapping of keys."""
    document = Document(source)
    document.data = _Walker(document).mapping(compose(source), ())
    return document


class _Walker:
    def __init__(self, document: Document) -> None:
        self.document = document
        self.count = 0

    def value(self, node: Node, path: Path) -> Any:
        self.count += 1
        if self.count > GREATEST_NODES:  # only repeated aliases can bring it here
            sentence = told("Aliases repeat one another until nobody could read the result.")
            refuse("alias-broken", node.place, sentence, told("write the values out in place of the aliases"))
        if node.kind == "mapping":
            return self.mapping(node, path)
        if node.kind == "list":
            for index, item in enumerate(node.items):
                self.document.places[(*path, index)] = (item.place, item.place)
            return [self.value(item, (*path, index)) for index, item in enumerate(node.items)]
        return self.scalar(node, path)

    def mapping(self, node: Node, path: Path) -> dict[str, Any]:
        data: dict[str, Any] = {}
        for index, (key_node, value_node) in enumerate(node.pairs):
            if index and _is_comma_number(node.pairs[index - 1][1], key_node, value_node):
                self.comma_number(node.pairs[index - 1], key_node, path)
                continue
            key = self.key(key_node)
            if key is None:
                continue
            inner = (*path, key)
            if key in data:
                related = ((self.document.places[inner][0], told("first given here")),)
                self.note(
                    "duplicate-key",
                    key_node.place,
                    told("“{key}” is given twice here.", key=key),
                    told("keep one of the two"),
                    related,
                )
                continue
            self.document.places[inner] = (key_node.place, value_node.place)
            data[key] = self.value(value_node, inner)
        return data

    def comma_number(self, before: tuple[Node, Node], key: Node, path: Path) -> None:
        whole = before[1].text.split()[-1]
        number = f"{whole},{key.text}"
        self.document.faulty.add((*path, before[0].text))
        remedy = told("write {whole}.{text}", whole=whole, text=key.text)
        self.note("decimal-comma", before[1].place, told("{number} is written with a comma.", number=number), remedy)

    def key(self, node: Node) -> str | None:
        slip = _key_slip(node)
        if slip is not None:
            self.note("key-not-a-word", node.place, *slip)
        return node.text if slip is None else None

    def scalar(self, node: Node, path: Path) -> Any:
        text = node.text
        if node.inset is not None:
            self.document.inside[path] = node.inset
        if node.quoted:
            return text
        if text in _NOTHING:
            return None
        if text in _WORDS:
            return _WORDS[text]
        if _NO_NUMBER.match(text):
            self.no_number(node, path, told("{text} is not a number a basket can have.", text=text))
            return None
        return self.number(node, path) if _DECIMAL.match(text) else text

    def number(self, node: Node, path: Path) -> int | float | None:
        text = node.text
        self.document.raw[path] = text
        if len(text) > LONGEST_NUMBER or abs(float(text)) > GREATEST_NUMBER:
            self.no_number(node, path, told("{text} is beyond any basket.", text=text[:LONGEST_NUMBER]))
            return None
        return int(text) if _INTEGER.match(text) else float(text)

    def no_number(self, node: Node, path: Path, sentence: Spoken) -> None:
        self.document.faulty.add(path)
        self.note("number-out-of-reach", node.place, sentence, told("write the number you can count or measure"))

    def note(
        self, code: str, place: Place, sentence: Spoken, remedy: Spoken, related: tuple[tuple[Place, Spoken], ...] = ()
    ) -> None:
        self.document.notes.append(Note(code, Severity.ERROR, place, sentence, remedies=(remedy,), related=related))


def _is_comma_number(before: Node, key: Node, value: Node) -> bool:
    """Whether ``{a: 11,5 in}`` was meant as one number: the comma has made “5 in” a key without a value."""
    adjoining = before.span[1] + 1 == key.span[0]
    return (
        adjoining
        and before.text[-1:].isdigit()
        and key.text[:1].isdigit()
        and value.kind == "scalar"
        and not value.text
    )


def _key_slip(node: Node) -> tuple[Spoken, Spoken] | None:
    """Why `node` cannot be a key, and what to write in its place; None for a word."""
    if node.kind != "scalar":
        return told("A list or a set of keys stands where a key must be."), told(
            "write a word, a colon, and the value after it"
        )
    if not node.text.strip():
        return told("A key is missing before the colon."), told("write the key's name before the colon")
    if node.text == "<<" and not node.quoted:
        return told("<< (merging) is not part of the language: nobody sees what it brings in."), told(
            "write the keys out here"
        )
    return None
