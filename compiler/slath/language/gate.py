"""A quick look whether data holds by its schema, for the usual case that it does.

Loading jsonschema was measured at a third of what `slath check` takes; a file without faults does not need it. The look is
one-sided: whatever it does not know or does not like is left to jsonschema, which alone says what is wrong. A test holds
that nothing passes here that jsonschema would refuse.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sized
from typing import Any

from msgspec import Struct

from slath.language.sizes import is_by_size

Schema = dict[str, Any]
_SAYS_NOTHING = frozenset({"$schema", "$id", "$defs", "title", "description", "default", "then", "else"})


def surely_good(data: Any, schema: Schema, sizes: Collection[str]) -> bool:
    """Whether `data` holds by `schema`, a value for each of `sizes` allowed; False where that is not certain."""
    return _Gate(schema["$defs"], sizes).holds(data, schema)


class _Gate(Struct, frozen=True):
    parts: Schema
    sizes: Collection[str]

    def holds(self, value: Any, part: Schema) -> bool:
        if not is_by_size(value, self.sizes) or "x-sizes-may-lack" in part:
            return self.holds_plainly(value, part)
        if "x-one-for-all-sizes" in part:
            return False
        return all(self.holds_plainly(inner, part) for size, inner in value.items() if size in self.sizes)

    def holds_plainly(self, value: Any, part: Schema) -> bool:
        for keyword, wanted in part.items():
            if keyword in _SAYS_NOTHING or keyword.startswith("x-"):
                continue
            rule = _RULES.get(keyword)
            if rule is None or not rule(self, value, wanted, part):
                return False
        return True


def _typed(_gate: _Gate, value: Any, wanted: Any, _part: Schema) -> bool:
    kinds = [wanted] if isinstance(wanted, str) else wanted
    return any(type(value) in _TYPES[kind] for kind in kinds)


def _keys(gate: _Gate, value: Any, wanted: Schema, _part: Schema) -> bool:
    return not isinstance(value, dict) or all(
        gate.holds(value[key], part) for key, part in wanted.items() if key in value
    )


def _other_keys(gate: _Gate, value: Any, wanted: Any, part: Schema) -> bool:
    if not isinstance(value, dict):
        return True
    others = [inner for key, inner in value.items() if key not in part.get("properties", ())]
    return all(gate.holds(inner, wanted) for inner in others) if isinstance(wanted, dict) else not others


def _key_names(gate: _Gate, value: Any, wanted: Schema, _part: Schema) -> bool:
    return not isinstance(value, dict) or all(gate.holds(key, wanted) for key in value)


def _partners(_gate: _Gate, value: Any, wanted: Schema, _part: Schema) -> bool:
    return not isinstance(value, dict) or all(
        other in value for key, others in wanted.items() if key in value for other in others
    )


def _condition(gate: _Gate, value: Any, wanted: Schema, part: Schema) -> bool:
    branch = part.get("then" if gate.holds(value, wanted) else "else")
    return branch is None or gate.holds(value, branch)


def _compared(value: Any, holds: Callable[[float], bool]) -> bool:
    return type(value) not in _TYPES["number"] or holds(value)


def _sized(value: Any, kind: type[Sized], holds: Callable[[int], bool]) -> bool:
    return not isinstance(value, kind) or holds(len(value))


_TYPES: dict[str, tuple[type, ...]] = {
    "string": (str,),
    "number": (int, float),
    "integer": (int,),
    "boolean": (bool,),
    "object": (dict,),
    "array": (list,),
}
_RULES: dict[str, Callable[[_Gate, Any, Any, Schema], bool]] = {
    "$ref": lambda gate, value, wanted, _: gate.holds(value, gate.parts[wanted.removeprefix("#/$defs/")]),
    "type": _typed,
    "enum": lambda _gate, value, wanted, _: any(type(value) is type(choice) and value == choice for choice in wanted),
    "const": lambda _gate, value, wanted, _: type(value) is type(wanted) and value == wanted,
    "required": lambda _gate, value, wanted, _: not isinstance(value, dict) or all(key in value for key in wanted),
    "properties": _keys,
    "additionalProperties": _other_keys,
    "propertyNames": _key_names,
    "dependentRequired": _partners,
    "items": lambda gate, value, wanted, _: (
        not isinstance(value, list) or all(gate.holds(item, wanted) for item in value)
    ),
    "uniqueItems": lambda _gate, value, _wanted, _: (
        not isinstance(value, list) or len(set(map(str, value))) == len(value)
    ),
    "minItems": lambda _gate, value, wanted, _: _sized(value, list, lambda length: length >= wanted),
    "maxItems": lambda _gate, value, wanted, _: _sized(value, list, lambda length: length <= wanted),
    "minProperties": lambda _gate, value, wanted, _: _sized(value, dict, lambda length: length >= wanted),
    "maxProperties": lambda _gate, value, wanted, _: _sized(value, dict, lambda length: length <= wanted),
    "minLength": lambda _gate, value, wanted, _: _sized(value, str, lambda length: length >= wanted),
    "pattern": lambda _gate, value, wanted, _: not isinstance(value, str) or re.search(wanted, value) is not None,
    "minimum": lambda _gate, value, wanted, _: _compared(value, lambda number: number >= wanted),
    "maximum": lambda _gate, value, wanted, _: _compared(value, lambda number: number <= wanted),
    "exclusiveMinimum": lambda _gate, value, wanted, _: _compared(value, lambda number: number > wanted),
    "allOf": lambda gate, value, wanted, _: all(gate.holds(value, part) for part in wanted),
    "anyOf": lambda gate, value, wanted, _: any(gate.holds(value, part) for part in wanted),
    "oneOf": lambda gate, value, wanted, _: sum(gate.holds(value, part) for part in wanted) == 1,
    "if": _condition,
}
