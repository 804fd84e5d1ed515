"""What is said of each kind of schema fault, by the keyword that failed and never by the validator's own words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from msgspec import Struct

from slath.language.other_work import of_other_work, other_work
from slath.language.places import Path
from slath.language.schemas import schema
from slath.language.spelling import nearest, or_list, shortened
from slath.messages.told import Spoken, Told, several, told, word

# How entries of lists, and things under names of the designer's own, are called in a sentence.
_NAMED = frozenset({"materials", "measures", "stocks"})
_ENTRIES = {
    "materials": "material",
    "measures": "measure",
    "stocks": "stock",
    "bands": "band",
    "weaving": "base band",
    "strands": "strand",
    "handles": "handle",
    "fittings": "fitting",
    "wraps": "wrap",
    "passes": "pass",
    "moves": "move",
    "sizes": "size",
    "gauge": "gauge",
    "accept": "acceptance",
    "steps": "stage",
    "packs": "pack",
    "pictures": "picture",
    "figure": "cell",
    "groups": "group",
    "profile": "profile point",
    "bye_stakes": "bye-stakes",
    "at": "place",
    "withheld": "section",
}


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
            return told("the file")
        last, holder = self.path[-1], str(self.path[-2]) if len(self.path) > 1 else ""
        if isinstance(last, int):
            if holder not in _ENTRIES:
                return told("entry {number} of {list}", number=last + 1, list=holder)
            return told("{entry} {number}", entry=word(_ENTRIES[holder]), number=last + 1)
        return told("{entry} {name}", entry=word(_ENTRIES[holder]), name=last) if holder in _NAMED else last

    @property
    def owner(self) -> str:
        """What holds the key at fault, to begin a sentence: “The file”, “Base”, “Band 3”, “Material rust”."""
        name = self.name
        return name.begun() if isinstance(name, Told) else name[0].upper() + name[1:]


class Finding(NamedTuple):
    """One thing to say: code, the path it concerns, sentence, remedies, and whether it is told at the key."""

    code: str
    path: Path
    sentence: Told
    remedies: tuple[Spoken, ...] = ()
    at_key: bool = False


Findings = Iterator[Finding]


def said_of(fault: Fault) -> Findings:
    """What a fault is told as; a keyword nobody thought of is told by what it wants."""
    if fault.value is None:
        remedy = told("write it after the colon, or take the key out")
        yield Finding("no-value", fault.path, told("{fault} has no value.", fault=fault.name), (remedy,), at_key=True)
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
    sentence = told(
        "{fault} must be {wanted}, not {kind_of}.", fault=fault.name, wanted=_wanted(fault), kind_of=_kind_of(value)
    )
    if isinstance(value, dict):
        remedy = (
            told("put it in a list: [{{…}}]")
            if "array" in kinds
            else told("for one value a size, use the names under sizes: as keys")
        )
        yield Finding("wrong-kind", fault.path, sentence, (remedy,), at_key=True)
    else:
        example = fault.schema.get("x-example")
        yield Finding(
            "wrong-kind", fault.path, sentence, (told("write it as {example}", example=example),) if example else ()
        )


def _unknown_choice(fault: Fault) -> Findings:
    work = other_work(str(fault.value)) if fault.schema.get("x-kinds-of-work") else ""
    if work:
        sentence, remedy = of_other_work(work)
        yield Finding(
            "other-work",
            fault.path,
            told(
                "{fault} cannot be “{shown}”. {sentence}",
                fault=fault.name,
                shown=_shown(fault.value),
                sentence=sentence,
            ),
            (remedy,),
        )
        return
    choices = [str(choice) for choice in fault.wanted if not isinstance(choice, bool | int)]
    near = nearest(str(fault.value), choices)
    said = fault.schema.get("x-say", {}).get(str(fault.value).casefold())  # other words of the trade for the same thing
    remedy = (
        word(said)
        if said
        else (told("write {near}", near=near) if near else told("choose {choices}", choices=or_list(choices)))
    )
    yield Finding(
        "unknown-choice",
        fault.path,
        told("{fault} cannot be “{shown}”.", fault=fault.name, shown=_shown(fault.value)),
        (remedy,),
    )


def _version(fault: Fault) -> Findings:
    yield Finding(
        "language-version",
        fault.path,
        told(
            "{fault} is “{shown}”; this slath reads version {wanted}.",
            fault=fault.name,
            shown=_shown(fault.value),
            wanted=fault.wanted,
        ),
        (told("write slath: {wanted}", wanted=fault.wanted),),
    )


def _missing(fault: Fault) -> Findings:
    for key in fault.wanted:  # one error comes for each missing key, and all tell of all: doubles are dropped
        if key not in fault.value:
            what = fault.schema.get("properties", {}).get(key, {}).get("description", "")
            remedies = (
                (told("add {key}: {what}", key=key, what=word(f"{what[:1].lower()}{what[1:].rstrip('.')}")),)
                if what
                else ()
            )
            yield Finding(
                "missing-key",
                (*fault.path, key),
                told("{owner} has no {key}.", owner=fault.owner, key=key),
                remedies,
                True,
            )


def _missing_partner(fault: Fault) -> Findings:
    for key, partners in fault.wanted.items():
        for partner in partners if key in fault.value else ():
            if partner not in fault.value:
                yield Finding(
                    "missing-key",
                    (*fault.path, partner),
                    told("{owner} has {key} without {partner}.", owner=fault.owner, key=key, partner=partner),
                    (told("add {partner}", partner=partner),),
                    True,
                )


def _unknown_key(fault: Fault) -> Findings:
    known = fault.schema.get("properties", {})
    for key, value in fault.value.items():
        if key not in known:
            near = nearest(key, known)
            elsewhere = _homes(key) if near is None else ()
            remedy = told("write {near}", near=near) if near else told("its keys are {some}", some=_some(known))
            remedies = (
                (told("write {key} {elsewhere}", key=key, elsewhere=or_list(elsewhere)), remedy)
                if elsewhere
                else (remedy,)
            )
            if value is None and " " in str(key):
                remedies = (told("put the words in quotes: in braces a comma ends a value"), *remedies)
            yield Finding(
                "unknown-key",
                (*fault.path, key),
                told("{owner} has no key “{key}”.", owner=fault.owner, key=key),
                remedies,
                True,
            )


# Parts of the language where a key that stands in the wrong part may belong.
_HOMES = {
    "round_slath": "under base",
    "oval_slath": "under base",
    "board": "under base",
    "frame": "under base",
    "stakes": "under stakes",
    "bye_stakes": "under bye_stakes",
    "side": "under side",
    "woven_band": "in a band",
    "border": "under border",
    "border_pass": "in a pass of a border",
    "handle": "under handle",
    "ears": "under ears",
    "lid": "under lid",
    "material": "in a material",
    "stock": "in a stock",
    "pack": "in a pack",
    "fitting": "in fittings",
    "gauge": "in a gauge",
    "change_details": "in a change of the stakes",
}
_MOST_HOMES = 2  # a key of many parts is no sign of where it was meant


def _homes(key: str) -> tuple[Spoken, ...]:
    """Where in a pattern a key of the language belongs; nothing where it is no key, or one of many parts."""
    whole = schema("pattern")
    found = [told("beside title, at the left edge")] if key in whole["properties"] else []
    found += [word(home) for part, home in _HOMES.items() if key in whole["$defs"][part].get("properties", {})]
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
            told("{owner} has no key “{key}”.", owner=fault.owner, key=key),
            (told("write {near}", near=near) if near else told("its keys are {some}", some=_some(choices)),),
            True,
        )
    else:
        yield Finding(
            "name-form",
            (*fault.path, key),
            told("“{key}” cannot be a name here.", key=key),
            (told("use lower-case letters, digits and underscores, a letter first"),),
            True,
        )


def _out_of_range(fault: Fault) -> Findings:
    limit = {"minimum": told("at least"), "maximum": told("at most"), "exclusiveMinimum": told("more than")}[
        fault.keyword
    ]
    hint = fault.schema.get("x-hint")
    sentence = told(
        "{fault} is {shown}; it must be {limit} {wanted}.",
        fault=fault.name,
        shown=_shown(fault.value),
        limit=limit,
        wanted=fault.wanted,
    )
    yield Finding("number-out-of-range", fault.path, sentence, (word(hint),) if hint else ())


def _too_few(fault: Fault) -> Findings:
    yield Finding(
        "too-few-given",
        fault.path,
        told("{fault} is empty.", fault=fault.name),
        (told("write {wanted}, or leave {fault} out", wanted=_wanted(fault), fault=fault.name),),
    )


def _too_many(fault: Fault) -> Findings:
    yield Finding(
        "too-many-given",
        fault.path,
        told(
            "{fault} holds {count} entries; it can hold {wanted}.",
            fault=fault.name,
            count=len(fault.value),
            wanted=fault.wanted,
        ),
    )


def _twice(fault: Fault) -> Findings:
    yield Finding(
        "given-twice",
        fault.path,
        told("{fault} names one thing twice.", fault=fault.name),
        (told("keep one of the two"),),
    )


def _wrong_form(fault: Fault) -> Findings:
    if fault.of_name:
        yield from _bad_name(fault)
        return
    hint = fault.schema.get("x-hint")
    sentence = told(
        "{fault} is “{shown}”; it must be {wanted}.", fault=fault.name, shown=_shown(fault.value), wanted=_wanted(fault)
    )
    yield Finding("wrong-form", fault.path, sentence, (word(hint),) if hint else ())


def _choose_one(fault: Fault) -> Findings:
    if not isinstance(fault.value, dict):
        return  # told as a value of the wrong kind
    keys = [branch["required"][0] for branch in fault.wanted]
    given = [key for key in keys if key in fault.value]
    if given:
        yield Finding(
            "choose-one",
            (*fault.path, given[1]),
            told(
                "{owner} has {given}; only one of {keys} can hold.",
                owner=fault.owner,
                given=several(given),
                keys=or_list(keys),
            ),
            (told("keep one of {given}", given=or_list(given)),),
            True,
        )
    else:
        yield Finding(
            "missing-key",
            (*fault.path, keys[0]),
            told("{owner} has none of {keys}.", owner=fault.owner, keys=or_list(keys)),
            (told("add {keys}", keys=or_list(keys)),),
            True,
        )


def _choose_some(fault: Fault) -> Findings:
    choices = [" and ".join(branch["required"]) for branch in fault.wanted]
    yield Finding(
        "missing-key",
        (*fault.path, fault.wanted[0]["required"][0]),
        told("{owner} needs {choices}.", owner=fault.owner, choices=or_list(choices)),
        (),
        True,
    )


def _not_by_size(fault: Fault) -> Findings:
    yield Finding(
        "same-for-all-sizes",
        fault.path,
        told("{fault} is the same for every size.", fault=fault.name),
        (told("write one value"),),
        True,
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
    return (
        or_list(listed)
        if len(listed) <= 8
        else told("{listed} and {count} more", listed=", ".join(listed[:8]), count=len(listed) - 8)
    )


def _wanted(fault: Fault) -> Spoken:
    wants = fault.schema.get("x-wants")
    if wants:
        return word(str(wants))
    kinds = fault.schema.get("type", "string")
    return or_list(word(_KINDS[kind]) for kind in ([kinds] if isinstance(kinds, str) else kinds))


def _kind_of(value: Any) -> str:
    if isinstance(value, bool):
        return told("yes or no")
    if isinstance(value, dict):
        return told("a set of keys")
    return "a list" if isinstance(value, list) else f"“{_shown(value)}”"


def _shown(value: Any) -> str:
    return shortened(str(value))
