"""Values made to a schema, and trees of data changed at random places: right in form more often than a slip of the hand."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from typing import Any

from tests.cli.mutations import STRANGE

import slath.booklet.styles
import slath.classes
from slath.language.schemas import schema

Part = dict[str, Any]

WORDS = (
    "x", "a [b] <c>", "</p><b>", "{band.wall.rounds}", "{", "}", "{{x}}", "[x](y)", "&amp;", "]]>", "<!--", "%s %d %(x)s", "$x ${y}",
    "=1+1", " =1", "@x", "\\", "\\n", "a\nb", "a\tb", "é", "½", "“q”", "'", '"', "naïve – 3 × 4", "0", "1e3", "+5", "-", "--", "#1", "~",
    "null", "none", "True", "-inf", "nan", "CON", "a/b", "../a", ".", " ", "a  b", "x" * 300, "w " * 400, "\u00a0", "ſ", "Ĳ",
)  # fmt: skip
LENGTHS = (
    "3 in", "3 3/4 in", "1/4 in", "1/64 in", "40 cm", "0 in", "0", "-1 in", "5 m", "20 m", "1 mm", "0.001 mm", "base", "side", "rim",
    "base * 2", "base / 3", "side - 3 in", "min(base, side)", "round(base, 1/4 in)", "side * 10", "1 ft 6 in", "12", "1e3", "+5",
    "8 in - 2 in", "2 - 3 in", "2 in to 3 in", "2-3 in", "about 3 in", "1/3 in", "999 mm", "0.1 in", "base_length", "side_height",
)  # fmt: skip
NUMBERS = (
    -5,
    -1,
    0,
    1,
    2,
    3,
    4,
    5,
    6,
    7,
    8,
    9,
    12,
    16,
    17,
    24,
    31,
    40,
    48,
    96,
    100,
    499,
    500,
    1999,
    2000,
    2001,
    0.5,
    1.5,
    1e6,
    -0.0,
)


def made(part: Part, parts: Part, random: Random, depth: int = 0) -> Any:
    """A value that holds by a part of a schema more often than not."""
    if random.random() < 0.04 or depth > 6:
        return copy.deepcopy(random.choice(STRANGE))
    if "$ref" in part:
        name = part["$ref"].removeprefix("#/$defs/")
        measured = "length" in name or name in {"measure", "mass"}
        return random.choice(LENGTHS) if measured else made(parts[name], parts, random, depth)
    several = next((part[key] for key in ("anyOf", "oneOf", "allOf") if key in part), None)
    if several and ("type" not in part or random.random() < 0.5):
        return made(random.choice(several), parts, random, depth)
    if "enum" in part or "const" in part:
        return random.choice(part.get("enum", [part.get("const")]))
    kinds = part.get("type", "object" if "properties" in part else "string")
    kind = kinds if isinstance(kinds, str) else random.choice(kinds)
    return _MAKERS.get(kind, _text)(part, parts, random, depth)


def _object(part: Part, parts: Part, random: Random, depth: int) -> Any:
    known = part.get("properties", {})
    wanted = [key for key in part.get("required", ()) if random.random() < 0.97]
    some = random.random() * 0.5
    keys = dict.fromkeys([*wanted, *(key for key in known if random.random() < some)])
    found = {key: made(known.get(key, {}), parts, random, depth + 1) for key in keys}
    others = part.get("additionalProperties")
    if isinstance(others, dict):
        found |= {name: made(others, parts, random, depth + 1) for name in random.sample(_NAMES, random.randint(1, 3))}
    return found


_NAMES = ["a", "b_2", "weaver", "stakes", "base", "side", "rim", "sticks", "waler", "small", "medium", "per", "in", "x"]


def _array(part: Part, parts: Part, random: Random, depth: int) -> Any:
    length = random.choice((0, 1, 1, 2, 2, 3, 3, 4, 6, 12))
    items = part.get("items", {})
    return [made(items if isinstance(items, dict) else {}, parts, random, depth + 1) for _ in range(length)]


def _number(part: Part, _parts: Part, random: Random, _depth: int) -> Any:
    low, high = part.get("minimum", -3), part.get("maximum", 3000)
    return random.choice((random.choice(NUMBERS), low, high, random.randint(int(low), min(int(high), int(low) + 60))))


def _text(part: Part, _parts: Part, random: Random, _depth: int) -> Any:
    if "x-example" in part and random.random() < 0.3:
        return part["x-example"]
    wanted = f"{part.get('x-wants', '')} {part.get('description', '')}"
    if re.search("length|measure|number", wanted) and random.random() < 0.8:
        return random.choice(LENGTHS)
    return random.choice((random.choice(WORDS), random.choice(_NAMES)))


_MAKERS: dict[str, Callable[[Part, Part, Random, int], Any]] = {
    "object": _object, "array": _array, "number": _number, "integer": _number, "string": _text,
    "boolean": lambda _part, _parts, random, _depth: random.random() < 0.5,
}  # fmt: skip


def places(value: Any, part: Part, parts: Part) -> Iterator[tuple[Any, Any, Part]]:
    """Every key or index of a tree with what holds it, and the part of the schema that speaks of it, if one does."""
    part = _resolved(part, parts)
    if isinstance(value, dict):
        known = part.get("properties", {})
        others = part.get("additionalProperties")
        for key, inner in list(value.items()):
            told = known.get(key, others if isinstance(others, dict) else {})
            yield value, key, told
            yield from places(inner, told, parts)
    elif isinstance(value, list):
        items = part.get("items", {})
        for index, inner in enumerate(list(value)):
            yield value, index, items
            yield from places(inner, items, parts)


def _resolved(part: Part, parts: Part) -> Part:
    """A part with its references followed and its branches laid together, as far as keys are concerned."""
    for _ in range(8):
        if "$ref" not in part:
            break
        part = {
            **parts[part["$ref"].removeprefix("#/$defs/")],
            **{key: value for key, value in part.items() if key != "$ref"},
        }
    joined = dict(part)
    for several in ("anyOf", "oneOf", "allOf"):
        for branch in part.get(several, ()):
            inner = _resolved(branch, parts)
            joined["properties"] = {**inner.get("properties", {}), **joined.get("properties", {})}
            joined.setdefault("items", inner.get("items", {}))
            if "additionalProperties" in inner:
                joined.setdefault("additionalProperties", inner["additionalProperties"])
    return joined


def changed(data: Any, whole: Part, random: Random, changes: int) -> Any:
    """The tree with so many changes: values made anew, keys added that the schema knows, entries doubled, moved, left out."""
    data = copy.deepcopy(data)
    parts = whole.get("$defs", {})
    for _ in range(changes):
        found = list(places({"": data}, {"properties": {"": whole}}, parts))
        holder, key, part = random.choice(found)
        chance = random.random()
        if chance < 0.35:
            holder[key] = made(part, parts, random)
        elif chance < 0.75:
            _enrich(holder[key], part, parts, random)
        elif chance < 0.85 and key != "":
            del holder[key]
        elif chance < 0.93 and isinstance(holder, list):
            holder.insert(random.randint(0, len(holder)), copy.deepcopy(holder[key]))
        else:
            other_holder, other_key, _ = random.choice(found)
            holder[key] = copy.deepcopy(other_holder[other_key])
        data = data if not isinstance(holder, dict) or "" not in holder else holder[""]
    return data


def _enrich(value: Any, part: Part, parts: Part, random: Random) -> None:
    """Give a set of keys one that the schema knows for it, or a list another entry."""
    part = _resolved(part, parts)
    if isinstance(value, dict) and part.get("properties"):
        key = random.choice(list(part["properties"]))
        value[key] = made(part["properties"][key], parts, random, 1)
    elif isinstance(value, list):
        value.append(made(part.get("items", {}), parts, random, 1))


def schemas() -> dict[str, Part]:
    """The schemas of the files slath reads, by their names."""
    found = {name: schema(name) for name in ("pattern", "workshop", "class")}
    found["style"] = json.loads((Path(slath.booklet.styles.__file__).parent / "style.schema.json").read_text("utf-8"))
    return found
