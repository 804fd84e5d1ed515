"""YAML events turned into a tree of nodes, with a budget: time and memory stay in proportion to what is kept."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NoReturn

import yaml

from slath.language.source import place_at
from slath.language.syntax import syntax_note
from slath.notes import Note, PatternFaultError, Place, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from slath.language.source import Source

GREATEST_NODES = 20_000  # a long pattern has some five hundred
GREATEST_DEPTH = 40
_TOO_DEEP = re.compile(r"(?:[\[{]\s*){%d}" % (GREATEST_DEPTH + 1))


@dataclass(slots=True)
class Node:
    """One value as written: the event it began with, and its pairs or items."""

    event: yaml.NodeEvent
    pairs: list[tuple[Node, Node]] = field(default_factory=list)
    items: list[Node] = field(default_factory=list)


def compose(source: Source) -> Node:
    """The tree of the one document in `source`; PatternFaultError where it is not YAML, or is no mapping."""
    composer = _Composer(source)
    deep = _TOO_DEEP.search(source.text)
    if deep is not None:  # the parser looks ahead through brackets before it tells of the first
        refuse("nested-too-deep", place_at(source.file, source.text, deep.start()), f"More than {GREATEST_DEPTH} brackets are opened one inside another here.", "close the brackets opened before")
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    try:
        return composer.document(iter(yaml.parse(source.text, Loader=loader)))
    except yaml.MarkedYAMLError as error:
        raise PatternFaultError((syntax_note(source, error),)) from None


def place_of(source: Source, mark: yaml.Mark) -> Place:
    """A parser's mark as a place, counted from 1."""
    return Place(source.file, mark.line + 1, mark.column + 1)


def refuse(code: str, place: Place, sentence: str, remedy: str) -> NoReturn:
    """Give up on the whole file with one note."""
    raise PatternFaultError((Note(code, Severity.ERROR, place, sentence, remedies=(remedy,)),))


class _Composer:
    def __init__(self, source: Source) -> None:
        self.source = source
        self.anchors: dict[str, Node] = {}
        self.unfinished: list[str] = []
        self.count = 0

    def document(self, events: Iterator[yaml.Event]) -> Node:
        first = next((event for event in events if isinstance(event, yaml.NodeEvent)), None)
        if first is None:
            refuse("empty-file", Place(self.source.file, 1, 1), "The file holds only remarks.", "start from a written pattern: slath new")
        node = self.node(first, events, 0)
        next(events)
        for extra in events:
            if isinstance(extra, yaml.DocumentStartEvent):
                refuse("second-document", self.place(extra), "A second document starts here (---); a file holds one pattern.", "move it to a file of its own")
        if not isinstance(node.event, yaml.MappingStartEvent):
            kind = "a list" if isinstance(node.event, yaml.SequenceStartEvent) else "one piece of text"
            refuse("not-a-pattern", self.place(node.event), f"The file is {kind}; a pattern is a set of keys such as title: and base:.", "start from a written pattern: slath new")
        return node

    def node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        self.count += 1
        if self.count > GREATEST_NODES:
            refuse("file-too-large", self.place(event), f"The file holds more than {GREATEST_NODES} values.", "leave out what does not belong to the pattern")
        if depth > GREATEST_DEPTH:
            refuse("nested-too-deep", self.place(event), f"Values stand more than {GREATEST_DEPTH} deep inside one another here.", "close the brackets opened before")
        if isinstance(event, yaml.AliasEvent):
            return self.alias(event)
        if event.tag is not None:
            refuse("tag-refused", self.place(event), f"The tag {event.tag} has no meaning in a pattern.", "take it out and write the plain value")
        node = Node(event)
        if event.anchor:
            self.anchors[event.anchor] = node
            self.unfinished.append(event.anchor)
        self.fill(node, events, depth)
        if event.anchor:
            self.unfinished.pop()
        return node

    def fill(self, node: Node, events: Iterator[yaml.Event], depth: int) -> None:
        if isinstance(node.event, yaml.SequenceStartEvent):
            for event in events:
                if isinstance(event, yaml.SequenceEndEvent):
                    return
                node.items.append(self.node(event, events, depth + 1))
        elif isinstance(node.event, yaml.MappingStartEvent):
            for event in events:
                if isinstance(event, yaml.MappingEndEvent):
                    return
                key = self.node(event, events, depth + 1)
                node.pairs.append((key, self.node(next(events), events, depth + 1)))

    def alias(self, event: yaml.AliasEvent) -> Node:
        name = event.anchor
        if name in self.unfinished:
            refuse("alias-broken", self.place(event), f"*{name} stands inside what it repeats.", f"write the values out in place of *{name}")
        if name not in self.anchors:
            refuse("alias-broken", self.place(event), f"*{name} repeats something that is written nowhere above.", f"write the values out in place of *{name}")
        return self.anchors[name]

    def place(self, event: yaml.Event) -> Place:
        return place_of(self.source, event.start_mark)
