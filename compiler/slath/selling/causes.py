"""Why a number changed: each change of the file is taken back alone, and what then stands as it stood was moved by it."""

from __future__ import annotations

import copy
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import yaml
from msgspec import Struct

from slath.language.document import Document, read_document
from slath.language.places import Path as DataPath
from slath.language.source import read_source
from slath.notes import PatternFaultError
from slath.output.facts import Fact, Key, facts_of
from slath.output.kept import KeptEdition
from slath.pipeline import compile_pattern

MOST_TRIED = 40  # changes of a file taken back one by one: each is a whole working out
LONGEST_VALUE = 60  # letters of a value as it is told
_GONE = object()
Facts = dict[tuple[str, "Key"], "Fact"]


class Cause(Struct, frozen=True):
    """One change of a file: where it stands now, what stood there and what stands there. Line 0: it is gone."""

    file: str
    line: int
    key: str
    before: str
    after: str


class _Change(Struct, frozen=True):
    """A value that differs, in the pattern (`shared` False) or its workshop file; `_GONE` on the side that lacks it."""

    shared: bool
    path: DataPath
    before: Any
    after: Any


def causes_between(old: KeptEdition, new: KeptEdition) -> dict[tuple[str, Key], tuple[Cause, ...]]:
    """For every number of every size, the changes of the files that it goes back with when they alone are taken back.

    Numbers that no single change moves have several causes together, or slath itself reckons differently; they are
    left out.
    """
    with tempfile.TemporaryDirectory(prefix="slath-") as name:
        folder = Path(name)
        was, now = _documents(old, folder), _documents(new, folder)
        changes = list(_changes(was, now))[:MOST_TRIED]
        present = _worked_out(folder, now, new)
        found: dict[tuple[str, Key], list[Cause]] = {}
        for change in changes:
            moved = _worked_out(folder, _taken_back(now, change), new)
            cause = _cause(change, was, now, new)
            for key in present.keys() | moved.keys():
                one, other = present.get(key), moved.get(key)
                if one is None or other is None or not one.agrees(other):
                    found.setdefault(key, []).append(cause)
    return {key: tuple(causes) for key, causes in found.items()}


def _documents(edition: KeptEdition, folder: Path) -> tuple[Document, Document | None]:
    pattern = _document(folder / edition.file, edition.pattern_text)
    shared = _document(folder / edition.workshop_file, edition.workshop_text) if edition.workshop_file else None
    return pattern, shared


def _document(path: Path, text: str) -> Document:
    path.write_text(text, "utf-8")
    return read_document(read_source(path))


def _changes(was: tuple[Document, Document | None], now: tuple[Document, Document | None]) -> Iterator[_Change]:
    for shared, (old, new) in enumerate(zip(was, now, strict=True)):
        yield from _differences(bool(shared), old.data if old else {}, new.data if new else {}, ())


def _differences(shared: bool, old: Any, new: Any, path: DataPath) -> Iterator[_Change]:
    if isinstance(old, dict) and isinstance(new, dict):
        for key in dict.fromkeys([*new, *old]):
            yield from _differences(shared, old.get(key, _GONE), new.get(key, _GONE), (*path, key))
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for index, (one, other) in enumerate(zip(old, new, strict=True)):
            yield from _differences(shared, one, other, (*path, index))
    elif old is _GONE or new is _GONE or old != new:
        yield _Change(shared, path, old, new)


def _taken_back(now: tuple[Document, Document | None], change: _Change) -> tuple[Any, Any]:
    """The data of both files as they are, but for one change."""
    data = [copy.deepcopy(document.data) if document else {} for document in now]
    place: Any = data[change.shared]
    for part in change.path[:-1]:
        place = place[part]
    last = change.path[-1]
    if change.before is _GONE:
        del place[last]
    else:
        place[last] = change.before
    return data[0], data[1]


def _worked_out(folder: Path, files: tuple[Any, Any], edition: KeptEdition) -> Facts:
    """The numbers of these data, all of them in mm; none where nothing can be worked out."""
    data = [file.data if isinstance(file, Document) else file for file in files]
    pattern = folder / edition.file
    pattern.write_text(_as_text(data[0]), "utf-8")
    shared = folder / edition.workshop_file if edition.workshop_file else None
    if shared:
        shared.write_text(_as_text(data[1]), "utf-8")
    try:
        sizes = compile_pattern(pattern, shared).sizes
    except PatternFaultError:
        return {}
    return {(size.name, fact.key): fact for size in sizes for fact in facts_of(size.quantities, "mm")}


def _as_text(data: Mapping[str, Any]) -> str:
    text: str = yaml.safe_dump(dict(data), sort_keys=False, allow_unicode=True, width=1000)
    return text


def _cause(
    change: _Change, was: tuple[Document, Document | None], now: tuple[Document, Document | None], new: KeptEdition
) -> Cause:
    document, earlier = now[change.shared], was[change.shared]
    line = document.places[change.path][1].line if document and change.path in document.places else 0
    return Cause(
        file=new.workshop_file if change.shared else new.file,
        line=line,
        key=_key_words(change.path),
        before=_told(change.before, earlier, change.path),
        after=_told(change.after, document, change.path),
    )


def _key_words(path: DataPath) -> str:
    """``side: bands: 2: rounds``, lists counted from 1."""
    return ": ".join(str(part + 1) if isinstance(part, int) else str(part) for part in path)


def _told(value: Any, document: Document | None, path: DataPath) -> str:
    """A value as its file writes it; nothing for one that is not there."""
    if value is _GONE:
        return ""
    if document and path in document.raw:
        return document.raw[path]
    if isinstance(value, str):
        text = value
    else:
        text = yaml.safe_dump(value, sort_keys=False, default_flow_style=True, allow_unicode=True, width=10_000)
        text = text.removesuffix("...\n").strip()
    return text if len(text) <= LONGEST_VALUE else text[: LONGEST_VALUE - 1] + "…"
