"""YAML text as plain data, with the place of every key and value.

Plain words keep the meaning a reader expects (YAML 1.2's core schema, its rarer spellings left out): ``no``, ``on``,
``12:30``, ``2026-03-01`` and ``1_000`` are text here, not a truth, a sum of seconds, a date or a thousand.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import yaml

from slath.language.composing import GREATEST_NODES, Node, compose, place_of, refuse
from slath.notes import Note, Place, Severity

if TYPE_CHECKING:
    from slath.language.pattern import Path
    from slath.language.source import Source

GREATEST_NUMBER = 1e9
_INTEGER = re.compile(r"[-+]?[0-9]+\Z")
_DECIMAL = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?\Z")
_NO_NUMBER = re.compile(r"[-+]?\.(?:inf|Inf|INF)\Z|\.(?:nan|NaN|NAN)\Z")
_WORDS = {"true": True, "True": True, "false": False, "False": False}
_NOTHING = frozenset({"", "~", "null", "Null", "NULL"})


@dataclass(slots=True)
class Document:
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
        self.source = document.source
        self.count = 0

    def value(self, node: Node, path: Path) -> Any:
        self.count += 1
        if self.count > GREATEST_NODES:  # only repeated aliases can bring it here
            refuse("alias-broken", self.place(node), "Aliases repeat one another until nobody could read the result.", "write the values out in place of the aliases")
        if isinstance(node.event, yaml.MappingStartEvent):
            return self.mapping(node, path)
        if isinstance(node.event, yaml.SequenceStartEvent):
            for index, item in enumerate(node.items):
                place = self.place(item)
                self.document.places[(*path, index)] = (place, place)
            return [self.value(item, (*path, index)) for index, item in enumerate(node.items)]
        return self.scalar(node, path)

    def mapping(self, node: Node, path: Path) -> dict[str, Any]:
        data: dict[str, Any] = {}
        for index, (key_node, value_node) in enumerate(node.pairs):
            if index and self.is_comma_number(node.pairs[index - 1], key_node, value_node):
                self.comma_number(node.pairs[index - 1], key_node, path)
                continue
            key = self.key(key_node)
            if key is None:
                continue
            inner = (*path, key)
            if key in data:
                first = self.document.places[inner][0]
                self.note("duplicate-key", self.place(key_node), f"“{key}” is given twice here.", "keep one of the two", ((first, "first given here"),))
                continue
            self.document.places[inner] = (self.place(key_node), self.place(value_node))
            data[key] = self.value(value_node, inner)
        return data

    def is_comma_number(self, before: tuple[Node, Node], key: Node, value: Node) -> bool:
        """Whether ``{a: 11,5 in}`` was meant as one number: the comma has made “5 in” a key without a value."""
        texts = [node.event.value for node in (before[1], key, value) if isinstance(node.event, yaml.ScalarEvent)]
        close = before[1].event.end_mark.index + 1 == key.event.start_mark.index
        return close and len(texts) == 3 and texts[0][-1:].isdigit() and texts[1][:1].isdigit() and not texts[2]

    def comma_number(self, before: tuple[Node, Node], key: Node, path: Path) -> None:
        whole, part = before[1].event.value, key.event.value
        self.document.faulty.add((*path, before[0].event.value))
        self.note("decimal-comma", self.place(before[1]), f"{whole},{part} is written with a comma.", f"write {whole}.{part}")

    def key(self, node: Node) -> str | None:
        event = node.event
        if not isinstance(event, yaml.ScalarEvent):
            self.note("key-not-a-word", self.place(node), "A key must be a word; a list or a set of keys stands in its place.", "write a word, a colon, and the value after it")
            return None
        if not event.value.strip():
            self.note("key-not-a-word", self.place(node), "A key is missing before the colon.", "write the key's name before the colon")
            return None
        if event.value == "<<" and not event.style:
            self.note("key-not-a-word", self.place(node), "<< (merging) is not part of the language: a reader cannot see what it brings in.", "write the keys out here")
            return None
        return event.value

    def scalar(self, node: Node, path: Path) -> Any:
        event = node.event
        text = event.value
        if event.style:
            if event.style in {'"', "'"} and self.is_plainly_quoted(event):
                self.document.inside[path] = 1
            return text
        if text in _NOTHING:
            return None
        if text in _WORDS:
            return _WORDS[text]
        if event.start_mark.line == event.end_mark.line:
            self.document.inside[path] = 0
        if _NO_NUMBER.match(text):
            self.document.faulty.add(path)
            self.note("number-out-of-reach", self.place(node), f"{text} is not a number a basket can have.", "write a plain number")
            return None
        return self.number(node, text, path) if _DECIMAL.match(text) else text

    def number(self, node: Node, text: str, path: Path) -> int | float | None:
        self.document.raw[path] = text
        value = float(text)
        if abs(value) > GREATEST_NUMBER:
            self.document.faulty.add(path)
            self.note("number-out-of-reach", self.place(node), f"{text[:24]} is beyond any basket.", "write the number you can count or measure")
            return None
        return int(text) if _INTEGER.match(text) else value

    def is_plainly_quoted(self, event: yaml.ScalarEvent) -> bool:
        start, end = event.start_mark, event.end_mark
        return bool(start.line == end.line and end.column - start.column == len(event.value) + 2)

    def place(self, node: Node) -> Place:
        return place_of(self.source, node.event.start_mark)

    def note(self, code: str, place: Place, sentence: str, remedy: str, related: tuple[tuple[Place, str], ...] = ()) -> None:
        self.document.notes.append(Note(code, Severity.ERROR, place, sentence, remedies=(remedy,), related=related))
