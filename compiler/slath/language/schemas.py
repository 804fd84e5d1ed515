"""The JSON Schemas of the language: read from their files, joined with their parts, and printed for editors."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path
from typing import Any, cast

import slath.language.pattern  # noqa: F401 - declares the whole language
from slath.language.keys import DECLARED, FORMS, list_schema, part_schema, properties_of

Schema = dict[str, Any]
SCHEMA_NAMES = ("pattern", "workshop", "class")
_WITHOUT_SIZES = frozenset({"class"})  # its values are never sets of size names
_FILES = Path(__file__).parent / "schema"


_STANDARD = "https://json-schema.org/draft/2020-12/schema"
_ABOUT = {
    "pattern": (
        "A slath pattern",
        "One basket pattern in every size. Wherever a value may differ by size, a set of keys that are size names gives one value for each.",
    ),
    "workshop": (
        "A slath workshop file",
        "What a workshop's patterns share: stocks, settings, gauge, packs with prices, and wording of its own.",
    ),
}


@cache
def schema(name: str) -> Schema:
    """The schema `name` as notes are made from it: every value stands for one size."""
    if name in DECLARED:
        title, words = _ABOUT[name]
        body: Schema = {"$schema": _STANDARD, "title": title, "description": words, **part_schema(name)}
    else:
        body = json.loads((_FILES / f"{name}.json").read_text("utf-8"))
    return {**body, "$defs": _parts()}


def published_schema(name: str) -> Schema:
    """The schema `name` as editors use it: a value may also be a set of size names, one value each, and names that are known
    are there to be completed.

    A set of keys is told from a set of sizes by its keys, for no size may be called as one: so a slip is marked where it
    stands, and not the whole block round it. KeyError if there is no such schema.
    """
    if name not in SCHEMA_NAMES:
        raise KeyError(name)
    inner = schema(name)
    body = {key: value for key, value in inner.items() if key != "$defs"}
    value = _plain if name in _WITHOUT_SIZES else _by_size
    parts = {part: _published(own, value) for part, own in _needed_parts(inner).items()}
    return {**_published(body, value), **({"$defs": parts} if parts else {})}


def is_key(word: str) -> bool:
    """Whether a word is a key of the language: no size may be called so."""
    return any(word in properties_of(part) for part in DECLARED)


@cache
def _parts() -> Schema:
    """Every part of the language: forms of single values, then what is declared, each perhaps with its list."""
    parts = dict(FORMS)
    for name, said in DECLARED.items():
        if said.hidden:
            continue
        parts[name] = part_schema(name)
        if said.listed:
            parts[f"{name}_or_list"] = list_schema(name, said.listed)
    return parts


_WORDS = {"#/$defs/text", "#/$defs/texts"}  # which may be given in several languages


def _plain(part: Schema) -> Schema:
    """The schema of one value, where none is given by size."""
    return cast("Schema", _published(part, _plain))


def _by_size(part: Schema) -> Schema:
    """The schema of one value, or of one for each size."""
    plain = cast("Schema", _published(part, _by_size))
    if part.get("x-one-for-all-sizes") and part.get("$ref") in _WORDS:
        told: Schema = {key: plain.pop(key) for key in ("description", "default") if key in plain}
        in_languages: Schema = {"type": "object", "propertyNames": {"pattern": "^[a-z]{2}$"}, "minProperties": 1}
        return {**told, "if": {"type": "object"}, "then": in_languages, "else": plain}
    if part.get("x-one-for-all-sizes") or part.get("x-sizes-may-lack") or "const" in part:
        return plain
    words: Schema = {key: plain.pop(key) for key in ("description", "default") if key in plain}
    by_size: Schema = {"type": "object", "minProperties": 1, "additionalProperties": plain}
    own, named = _own_keys(part), _own_keys(part.get("additionalProperties") or {})
    if not own and not named:
        if _may_be_keys(part):  # values under names of the designer's own: nothing tells them from sizes
            return {**words, "anyOf": [plain, by_size]}
        return {**words, "if": {"type": "object"}, "then": by_size, "else": plain}
    none_of_ours = {"type": "object", "propertyNames": {"not": {"enum": sorted(own or named)}}}
    entries: Schema = none_of_ours if own else {"type": "object", "additionalProperties": none_of_ours}
    return {**words, "if": {**entries, "minProperties": 1}, "then": by_size, "else": plain}


def _own_keys(part: Schema) -> set[str]:
    """The keys a value may have, where it may be a set of keys with names of ours."""
    found = set(part.get("properties", ()))
    if "$ref" in part:
        found |= _own_keys(_referred(part))
    for inner in (*part.get("allOf", ()), *(part[word] for word in ("then", "else") if word in part)):
        found |= _own_keys(inner)
    return found


def _may_be_keys(part: Schema) -> bool:
    return "object" in part.get("type", ()) or ("$ref" in part and _may_be_keys(_referred(part)))


def _referred(part: Schema) -> Schema:
    return cast("Schema", _parts()[part["$ref"].removeprefix("#/$defs/")])


def _published(part: Any, value: Callable[[Schema], Schema]) -> Any:
    """A schema without what only our own notes read; `value` makes the schema of what stands under a key or in a list."""
    if isinstance(part, list):
        return [_published(item, value) for item in part]
    if not isinstance(part, dict):
        return part
    opened: Schema = {}
    for key, inner in part.items():
        if key == "properties":
            opened[key] = {name: value(own) for name, own in inner.items()}
        elif key in {"items", "additionalProperties"} and isinstance(inner, dict):
            opened[key] = value(inner)
        elif key == "x-examples":
            opened["examples"] = list(_EXAMPLES[inner]())
        elif not key.startswith("x-"):
            opened[key] = _published(inner, value)
    return opened


def _stock_names() -> Iterable[str]:
    from slath.trade.stocks import all_stocks  # noqa: PLC0415 - only to print a schema

    return (stock.name for stock in all_stocks())


def _dye_names() -> Iterable[str]:
    from slath.trade.dyes import known_dyes  # noqa: PLC0415 - as above

    return known_dyes()


def _weave_names() -> Iterable[str]:
    from slath.language.weaves import WEAVE_NAMES  # noqa: PLC0415 - as above

    return WEAVE_NAMES


_EXAMPLES: dict[str, Callable[[], Iterable[str]]] = {
    "stocks": _stock_names, "dyes": _dye_names, "weaves": _weave_names,
}  # fmt: skip


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
