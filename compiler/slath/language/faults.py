"""What is said of each kind of schema fault, by the keyword that failed and never by the validator's own words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from msgspec import Struct

from slath.language.other_work import of_other_work, other_work
from slath.language.places import Path
from slath.language.schemas import schema
from slath.language.spelling import nearest, or_list, shortened

# How entries of lists, and things under names of the designer's own, are called in a sentence.
_NAMED = frozenset({"materials", "measures", "stocks"})
_ENTRIES = {
    "materials": "material", "measures": "measure", "stocks": "stock", "bands": "band", "weaving": "base band",
    "strands": "strand", "handles": "handle", "fittings": "fitting", "wraps": "wrap", "passes": "pass", "moves": "move", "sizes": "size",
    "gauge": "gauge", "accept": "acceptance", "steps": "stage", "packs": "pack", "pictures": "picture", "figure": "cell",
    "groups": "group", "profile": "profile point", "bye_stakes": "bye-stakes", "at": "place", "withheld": "section",
}  # fmt: skip


_KINDS = {
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "object": "a set of keys",
    "array": "a list",
    "boolean": "yes or no",
    "null": "nothing",
}


class Fault(Struct, frozen=True):
    """A schema keyword that failed: what it `wanted`, the `value` it met, and the schema part it stands in.

    `of_name`: the value is a key that may not be called so.
    """

    keyword: str
    wanted: Any
    value: Any
    schema: dict[str, Any]
    path: Path
    of_name: bool

    @property
    def name(self) -> str:
        """What stands at its path, in a word or two: “height”, “strand 2”, “material rust”."""
        if not self.path:
            return "the file"
        last, holder = self.path[-1], str(self.path[-2]) if len(self.path) > 1 else ""
        if isinstance(last, int):
            return f"{_ENTRIES.get(holder, f'{holder} entry'.replace('_', ' ').strip())} {last + 1}"
        return f"{_ENTRIES[holder]} {last}" if holder in _NAMED else last

    @property
    def owner(self) -> str:
        """What holds the key at fault, to begin a sentence: “The file”, “Base”, “Band 3”, “Material rust”."""
        return self.name[0].upper() + self.name[1:]


class Finding(NamedTuple):
    """One thing to say: code, the path it concerns, sentence, remedies, and whether it is told at the key."""

    code: str
    path: Path
    sentence: str
    remedies: tuple[str, ...] = ()
    at_key: bool = False


Findings = Iterator[Finding]


def told(fault: Fault) -> Findings:
    """What a fault is told as; a keyword nobody thought of is told by what it wants."""
    if fault.value is None:
        remedy = "write it after the colon, or take the key out"
        yield Finding("no-value", fault.path, f"{fault.name} has no value.", (remedy,), at_key=True)
    else:
        yield from _TELLERS.get(fault.keyword, _wrong_form)(fault)


def unknown_keys(fault: Fault) -> dict[str, str]:
    """Unknown keys a fault is about, each with the known key it seems to stand for."""
    if fault.keyword != "additionalProperties":
        return {}
    known = fault.schema.get("properties", {})
    return {key: near for key in fault.value if key not in known and (near := nearest(key, known))}


def _wrong_kind(fault: Fault) -> Findings:
    value, kinds = fault.value, _types(fault)
    sentence = f"{fault.name} must be {_wanted(fault)}, not {_kind_of(value)}."
    if isinstance(value, dict):
        remedy = (
            "put it in a list: [{…}]"
            if "array" in kinds
            else "for one value a size, use the names under sizes: as keys"
        )
        yield Finding("wrong-kind", fault.path, sentence, (remedy,), at_key=True)
    else:
        example = fault.schema.get("x-example")
        yield Finding("wrong-kind", fault.path, sentence, (f"write it as {example}",) if example else ())


def _unknown_choice(fault: Fault) -> Findings:
    work = other_work(str(fault.value)) if fault.schema.get("x-kinds-of-work") else ""
    if work:
        sentence, remedy = of_other_work(work)
        yield Finding(
            "other-work", fault.path, f"{fault.name} cannot be “{_shown(fault.value)}”. {sentence}", (remedy,)
        )
        return
    choices = [str(choice) for choice in fault.wanted if not isinstance(choice, bool | int)]
    near = nearest(str(fault.value), choices)
    said = fault.schema.get("x-say", {}).get(str(fault.value).casefold())  # other words of the trade for the same thing
    remedy = said or (f"write {near}" if near else f"choose {or_list(choices)}")
    yield Finding("unknown-choice", fault.path, f"{fault.name} cannot be “{_shown(fault.value)}”.", (remedy,))


def _version(fault: Fault) -> Findings:
    yield Finding(
        "language-version",
        fault.path,
        f"{fault.name} is “{_shown(fault.value)}”; this slath reads version {fault.wanted}.",
        (f"write slath: {fault.wanted}",),
    )


def _missing(fault: Fault) -> Findings:
    for key in fault.wanted:  # one error comes for each missing key, and all tell of all: doubles are dropped
        if key not in fault.value:
            what = fault.schema.get("properties", {}).get(key, {}).get("description", "")
            remedies = (f"add {key}: {what[:1].lower()}{what[1:].rstrip('.')}",) if what else ()
            yield Finding("missing-key", (*fault.path, key), f"{fault.owner} has no {key}.", remedies, True)


def _missing_partner(fault: Fault) -> Findings:
    for key, partners in fault.wanted.items():
        for partner in partners if key in fault.value else ():
            if partner not in fault.value:
                yield Finding(
                    "missing-key",
                    (*fault.path, partner),
                    f"{fault.owner} has {key} without {partner}.",
                    (f"add {partner}",),
                    True,
                )


def _unknown_key(fault: Fault) -> Findings:
    known = fault.schema.get("properties", {})
    for key, value in fault.value.items():
        if key not in known:
            near = nearest(key, known)
            elsewhere = _homes(key) if near is None else ()
            remedy = f"write {near}" if near else f"its keys are {_some(known)}"
            remedies = (f"write {key} {or_list(elsewhere)}", remedy) if elsewhere else (remedy,)
            if value is None and " " in str(key):
                remedies = ("put the words in quotes: in braces a comma ends a value", *remedies)
            yield Finding("unknown-key", (*fault.path, key), f"{fault.owner} has no key “{key}”.", remedies, True)


# Parts of the language where a key that stands in the wrong part may belong.
_HOMES = {
    "round_slath": "under base", "oval_slath": "under base", "board": "under base", "frame": "under base", "stakes": "under stakes",
    "bye_stakes": "under bye_stakes", "side": "under side", "woven_band": "in a band", "border": "under border",
    "border_pass": "in a pass of a border", "handle": "under handle", "ears": "under ears", "lid": "under lid", "material": "in a material",
    "stock": "in a stock", "pack": "in a pack", "fitting": "in fittings", "gauge": "in a gauge", "change_details": "in a change of the stakes",
}  # fmt: skip
_MOST_HOMES = 2  # a key of many parts is no sign of where it was meant


def _homes(key: str) -> tuple[str, ...]:
    """Where in a pattern a key of the language belongs; nothing where it is no key, or one of many parts."""
    whole = schema("pattern")
    found = ["beside title, at the left edge"] if key in whole["properties"] else []
    found += [home for part, home in _HOMES.items() if key in whole["$defs"][part].get("properties", {})]
    homes = tuple(dict.fromkeys(found))
    return homes if len(homes) <= _MOST_HOMES else ()


def _bad_name(fault: Fault) -> Findings:
    key = str(fault.value)
    choices = fault.schema.get("x-names", ())
    if choices:
        near = nearest(key, choices)
        yield Finding(
            "unknown-key",
            (*fault.path, key),
            f"{fault.owner} has no key “{key}”.",
            (f"write {near}" if near else f"its keys are {_some(choices)}",),
            True,
        )
    else:
        yield Finding(
            "name-form",
            (*fault.path, key),
            f"“{key}” cannot be a name here.",
            ("use lower-case letters, digits and underscores, a letter first",),
            True,
        )


def _out_of_range(fault: Fault) -> Findings:
    limit = {"minimum": "at least", "maximum": "at most", "exclusiveMinimum": "more than"}[fault.keyword]
    hint = fault.schema.get("x-hint")
    sentence = f"{fault.name} is {_shown(fault.value)}; it must be {limit} {fault.wanted}."
    yield Finding("number-out-of-range", fault.path, sentence, (hint,) if hint else ())


def _too_few(fault: Fault) -> Findings:
    yield Finding(
        "too-few-given", fault.path, f"{fault.name} is empty.", (f"write {_wanted(fault)}, or leave {fault.name} out",)
    )


def _too_many(fault: Fault) -> Findings:
    yield Finding(
        "too-many-given", fault.path, f"{fault.name} holds {len(fault.value)} entries; it can hold {fault.wanted}."
    )


def _twice(fault: Fault) -> Findings:
    yield Finding("given-twice", fault.path, f"{fault.name} names one thing twice.", ("keep one of the two",))


def _wrong_form(fault: Fault) -> Findings:
    if fault.of_name:
        yield from _bad_name(fault)
        return
    hint = fault.schema.get("x-hint")
    sentence = f"{fault.name} is “{_shown(fault.value)}”; it must be {_wanted(fault)}."
    yield Finding("wrong-form", fault.path, sentence, (hint,) if hint else ())


def _choose_one(fault: Fault) -> Findings:
    if not isinstance(fault.value, dict):
        return  # told as a value of the wrong kind
    keys = [branch["required"][0] for branch in fault.wanted]
    given = [key for key in keys if key in fault.value]
    if given:
        yield Finding(
            "choose-one",
            (*fault.path, given[1]),
            f"{fault.owner} has {' and '.join(given)}; only one of {or_list(keys)} can hold.",
            (f"keep one of {or_list(given)}",),
            True,
        )
    else:
        yield Finding(
            "missing-key",
            (*fault.path, keys[0]),
            f"{fault.owner} has none of {or_list(keys)}.",
            (f"add {or_list(keys)}",),
            True,
        )


def _choose_some(fault: Fault) -> Findings:
    choices = [" and ".join(branch["required"]) for branch in fault.wanted]
    yield Finding(
        "missing-key",
        (*fault.path, fault.wanted[0]["required"][0]),
        f"{fault.owner} needs {or_list(choices)}.",
        (),
        True,
    )


def _not_by_size(fault: Fault) -> Findings:
    yield Finding(
        "same-for-all-sizes", fault.path, f"{fault.name} is the same for every size.", ("write one value",), True
    )


_TELLERS: dict[str, Callable[[Fault], Findings]] = {
    "type": _wrong_kind,
    "enum": _unknown_choice,
    "const": _version,
    "required": _missing,
    "dependentRequired": _missing_partner,
    "additionalProperties": _unknown_key,
    "minimum": _out_of_range,
    "maximum": _out_of_range,
    "exclusiveMinimum": _out_of_range,
    "minItems": _too_few,
    "minProperties": _too_few,
    "minLength": _too_few,
    "maxItems": _too_many,
    "maxProperties": _too_many,
    "uniqueItems": _twice,
    "pattern": _wrong_form,
    "oneOf": _choose_one,
    "anyOf": _choose_some,
    "x-one-for-all-sizes": _not_by_size,
}


def _types(fault: Fault) -> list[str]:
    value = fault.wanted
    return [value] if isinstance(value, str) else list(value)


def _some(names: Iterable[str]) -> str:
    """A list in words, cut short where nobody would read on."""
    listed = list(names)
    return or_list(listed) if len(listed) <= 8 else f"{', '.join(listed[:8])} and {len(listed) - 8} more"


def _wanted(fault: Fault) -> str:
    wants = fault.schema.get("x-wants")
    if wants:
        return str(wants)
    kinds = fault.schema.get("type", "string")
    return or_list(_KINDS[kind] for kind in ([kinds] if isinstance(kinds, str) else kinds))


def _kind_of(value: Any) -> str:
    if isinstance(value, bool):
        return "yes or no"
    if isinstance(value, dict):
        return "a set of keys"
    return "a list" if isinstance(value, list) else f"“{_shown(value)}”"


def _shown(value: Any) -> str:
    return shortened(str(value))
