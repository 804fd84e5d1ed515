"""The JSON Schemas of the language: read from their files, joined with their parts, and printed for editors."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any, cast

from slath.language.spelling import nearest

Schema = dict[str, Any]
SCHEMA_NAMES = ("pattern", "workshop", "class")
_WITHOUT_SIZES = frozenset({"class"})  # its values are never sets of size names
_FILES = Path(__file__).parent / "schema"


@cache
def schema(name: str) -> Schema:
    """The schema `name` as notes are made from it: every value stands for one size."""
    body: Schema = json.loads(_text(name))
    return {**body, "$defs": _parts()}


def published_schema(name: str) -> Schema:
    """The schema `name` as editors use it: a value may also be a set of size names, one value each.

    KeyError if there is no such schema.
    """
    if name not in SCHEMA_NAMES:
        raise KeyError(name)
    inner = schema(name)
    if name in _WITHOUT_SIZES:
        parts = {"$defs": _needed_parts(inner)} if _references(inner) else {}
        return cast("Schema", _plain({key: value for key, value in inner.items() if key != "$defs"} | parts))
    published = {key: value for key, value in inner.items() if key != "$defs"}
    published["properties"] = {key: _by_size(part) for key, part in inner["properties"].items()}
    published["$defs"] = {key: _open_up(part) for key, part in _needed_parts(inner).items()}
    return published


def is_key(word: str) -> bool:
    """Whether a word is a key of the language: no size may be called so."""
    # Most names of sizes stand nowhere in the files, which are then not walked.
    return any(f'"{word}"' in _text(name) for name in ("pattern", "workshop", "parts")) and word in _known_keys()


@cache
def _known_keys() -> frozenset[str]:
    return frozenset(_keys_in(schema("pattern")) | _keys_in(schema("workshop")))


def nearest_key(word: str, part: Schema) -> str | None:
    """The key of `part` whose spelling comes nearest to `word`."""
    return nearest(word, part.get("properties", {}))


@cache
def _text(name: str) -> str:
    return (_FILES / f"{name}.json").read_text("utf-8")


@cache
def _parts() -> Schema:
    parts: Schema = json.loads(_text("parts"))
    return parts


def _by_size(part: Schema) -> Schema:
    """`part`, or one `part` for each size."""
    opened = _open_up(part)
    if part.get("x-one-for-all-sizes") or part.get("x-sizes-may-lack") or "const" in part:
        return {key: value for key, value in opened.items() if not key.startswith("x-")}
    words = {key: opened.pop(key) for key in ("description", "default") if key in opened}
    choices = [opened, {"type": "object", "minProperties": 1, "additionalProperties": opened}]
    return {**words, "anyOf": choices}


def _open_up(part: Any) -> Any:
    if isinstance(part, list):
        return [_open_up(item) for item in part]
    if not isinstance(part, dict):
        return part
    opened: Schema = {}
    for key, value in part.items():
        if key == "properties":
            opened[key] = {name: _by_size(inner) for name, inner in value.items()}
        elif key in {"items", "additionalProperties"} and isinstance(value, dict):
            opened[key] = _by_size(value)
        elif not key.startswith("x-"):
            opened[key] = _open_up(value)
    return opened


def _plain(part: Any) -> Any:
    """The same without what only our own notes read."""
    if isinstance(part, list):
        return [_plain(item) for item in part]
    if not isinstance(part, dict):
        return part
    return {key: _plain(value) for key, value in part.items() if not key.startswith("x-")}


def _needed_parts(inner: Schema) -> Schema:
    """The parts a schema refers to, straight or through others, in the order of the parts file."""
    needed: dict[str, None] = {}
    waiting = [{key: value for key, value in inner.items() if key != "$defs"}]
    while waiting:
        for name in _references(waiting.pop()):
            if name not in needed:
                needed[name] = None
                waiting.append(_parts()[name])
    return {name: part for name, part in _parts().items() if name in needed}


def _references(part: Any) -> list[str]:
    if isinstance(part, list):
        return [name for item in part for name in _references(item)]
    if not isinstance(part, dict):
        return []
    own = [part["$ref"].removeprefix("#/$defs/")] if isinstance(part.get("$ref"), str) else []
    return own + [name for value in part.values() for name in _references(value)]


def _keys_in(part: Any) -> set[str]:
    if isinstance(part, list):
        return {key for item in part for key in _keys_in(item)}
    if not isinstance(part, dict):
        return set()
    own = set(part["properties"]) if isinstance(part.get("properties"), dict) else set()
    return own | {key for value in part.values() for key in _keys_in(value)}
