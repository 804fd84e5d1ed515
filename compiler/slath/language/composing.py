"""YAML events turned into a tree of nodes, with a budget: time and memory stay in proportion to what is kept."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Literal, NoReturn

import yaml
from msgspec import Struct, field
from msgspec.structs import replace

from slath.language.source import Source, place_at
from slath.language.syntax import syntax_note
from slath.messages.told import Spoken, told
from slath.notes import Note, PatternFaultError, Place, Severity

GREATEST_NODES = 10_000  # a long pattern has some five hundred
GREATEST_DEPTH = 40
_TOO_DEEP = re.compile(rf"(?:[\[{{]\s*){{{GREATEST_DEPTH + 1}}}")


class Node(Struct):
    """One value as written. `span` is its characters from first to last in the text; `text` is what a scalar says.

    `inset` is how far into the value its text begins on the line: 1 after a plain quotation mark, None where escapes or
    line breaks make columns of the text no columns of the file.
    """

    kind: Literal["scalar", "list", "mapping"]
    place: Place
    span: tuple[int, int]
    text: str = ""
    quoted: bool = False
    inset: int | None = None
    pairs: list[tuple[Node, Node]] = field(default_factory=list)
    items: list[Node] = field(default_factory=list)


def compose(source: Source) -> Node:
    """The tree of the one document in `source`; PatternFaultError where it is not YAML, or is no mapping."""
    deep = _TOO_DEEP.search(source.text)
    if deep is not None:  # the parser looks ahead through brackets before it tells of the first
        _refuse_depth(place_at(source.file, source.text, deep.start()))
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    try:
        return _Composer(source).document(iter(yaml.parse(source.text, Loader=loader)))
    except yaml.MarkedYAMLError as error:
        raise PatternFaultError((syntax_note(source, error),)) from None


def refuse(code: str, place: Place, sentence: Spoken, remedy: Spoken) -> NoReturn:
    """Give up on the whole file with one note."""
    raise PatternFaultError((Note(code, Severity.ERROR, place, sentence, remedies=(remedy,)),))


def _refuse_depth(place: Place) -> NoReturn:
    sentence = told(
        "Values stand more than {greatest_depth} deep inside one another here.", greatest_depth=GREATEST_DEPTH
    )
    refuse("nested-too-deep", place, sentence, told("close the brackets opened before"))


class _Composer:
    def __init__(self, source: Source) -> None:
        self.source = source
        self.anchors: dict[str, Node] = {}
        self.unfinished: list[str] = []
        self.count = 0

    def document(self, events: Iterator[yaml.Event]) -> Node:
        start = told("start from a written pattern: slath new")
        first = next((event for event in events if isinstance(event, yaml.NodeEvent)), None)
        if first is None:
            refuse("empty-file", Place(self.source.file, 1, 1), told("The file holds only remarks."), start)
        node = self.node(first, events, 0)
        next(events)
        for extra in events:
            if isinstance(extra, yaml.DocumentStartEvent):
                sentence = told("A second document starts here (---); a file holds one pattern.")
                refuse("second-document", self.place(extra), sentence, told("move it to a file of its own"))
        if node.kind != "mapping":
            what = told("a list") if node.kind == "list" else told("one piece of text")
            sentence = told("The file is {what}; a pattern is a set of keys such as title: and base:.", what=what)
            refuse("not-a-pattern", node.place, sentence, start)
        return node

    def node(self, event: yaml.Event, events: Iterator[yaml.Event], depth: int) -> Node:
        self.count += 1
        if self.count > GREATEST_NODES:
            sentence = told("The file holds more than {greatest_nodes} values.", greatest_nodes=GREATEST_NODES)
            refuse("file-too-large", self.place(event), sentence, told("leave out what does not belong to the pattern"))
        if depth > GREATEST_DEPTH:
            _refuse_depth(self.place(event))
        if isinstance(event, yaml.AliasEvent):
            return self.alias(event)
        if not isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent):
            raise TypeError(event)  # the parser's own grammar leaves no other event here
        if event.tag is not None:
            sentence = told("The tag {tag} has no meaning in a pattern.", tag=event.tag)
            refuse("tag-refused", self.place(event), sentence, told("take it out and write the plain value"))
        node = self.begun(event)
        if event.anchor:
            self.anchors[event.anchor] = node
            self.unfinished.append(event.anchor)
        self.fill(node, events, depth)
        if event.anchor:
            self.unfinished.pop()
        return node

    def begun(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> Node:
        start, end = event.start_mark, event.end_mark
        span = (start.index, end.index) if start and end else (0, 0)
        if not isinstance(event, yaml.ScalarEvent):
            return Node("list" if isinstance(event, yaml.SequenceStartEvent) else "mapping", self.place(event), span)
        one_line = bool(start and end and start.line == end.line)
        marks = 2 if event.style in {'"', "'"} else 0
        plain = one_line and span[1] - span[0] == len(event.value) + marks
        return Node("scalar", self.place(event), span, event.value, bool(event.style), marks // 2 if plain else None)

    def fill(self, node: Node, events: Iterator[yaml.Event], depth: int) -> None:
        if node.kind == "list":
            for event in events:
                if isinstance(event, yaml.SequenceEndEvent):
                    return
                node.items.append(self.node(event, events, depth + 1))
        elif node.kind == "mapping":
            for event in events:
                if isinstance(event, yaml.MappingEndEvent):
                    return
                key = self.node(event, events, depth + 1)
                node.pairs.append((key, self.node(next(events), events, depth + 1)))

    def alias(self, event: yaml.AliasEvent) -> Node:
        name = str(event.anchor)
        why = ""
        if name in self.unfinished:
            why = told("stands inside what it repeats")
        elif name not in self.anchors:
            why = told("repeats something that is written nowhere above")
        if why:
            refuse(
                "alias-broken",
                self.place(event),
                told("*{name} {why}.", name=name, why=why),
                told("write the values out in place of *{name}", name=name),
            )
        return replace(self.anchors[name], place=self.place(event))

    def place(self, event: yaml.Event) -> Place:
        mark = event.start_mark
        return Place(self.source.file, mark.line + 1, mark.column + 1) if mark else Place(self.source.file, 1, 1)
