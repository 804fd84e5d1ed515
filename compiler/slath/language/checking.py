"""A file's data held against its schema: every fault becomes a note, told by its keyword and place."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from typing import TYPE_CHECKING, Any

from slath.language.sizes import is_by_size
from slath.language.spelling import nearest, or_list
from slath.notes import Note, Place, Severity

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

    from slath.language.document import Document
    from slath.language.pattern import Path
    from slath.language.schemas import Schema

_KINDS = {
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "object": "a set of keys",
    "array": "a list",
    "boolean": "yes or no",
    "null": "nothing",
}
Findings = Iterator[tuple[str, "Path", str, tuple[str, ...], bool]]  # code, path, sentence, remedies, told at the key


def check(document: Document, schema: Schema, sizes: Collection[str], prefix: Path = ()) -> tuple[list[Note], set[Path]]:
    """Notes on every place where the data is not as `schema` says, and the paths whose values cannot be used."""
    notes: list[Note] = []
    faulty: set[Path] = set()
    errors = sorted(_validator(schema, sizes).iter_errors(document.data), key=lambda error: [str(part) for part in error.absolute_path])
    mistaken = {(*error.absolute_path, near) for error in errors if error.validator == "additionalProperties" for near in _meant(error).values()}
    for error in errors:
        for code, path, sentence, remedies, at_key in _findings(error):
            if code != "unknown-key":
                faulty.add((*prefix, *path))
            if path in document.faulty or (code == "missing-key" and path in mistaken):
                continue  # told already
            notes.append(Note(code, Severity.ERROR, _place(document, path, at_key=at_key), sentence, remedies=remedies))
    return list(dict.fromkeys(notes)), faulty


def _place(document: Document, path: Path, *, at_key: bool) -> Place:
    while path:
        if path in document.places:
            return document.places[path][0 if at_key else 1]
        path, at_key = path[:-1], True
    return Place(document.source.file, 1, 1)


def _validator(schema: Schema, sizes: Collection[str]) -> Any:
    from jsonschema.validators import Draft202012Validator, extend

    keywords = {name: _for_each_size(rule, sizes) for name, rule in Draft202012Validator.VALIDATORS.items()}
    keywords["x-one-for-all-sizes"] = _one_for_all(sizes)
    return extend(Draft202012Validator, keywords)(schema)


def _for_each_size(rule: Callable[..., Any], sizes: Collection[str]) -> Callable[..., Iterator[ValidationError]]:
    """The same rule for one value, or for each value of a set of size names."""

    def checked(validator: Any, value: Any, instance: Any, schema: Any) -> Iterator[ValidationError]:
        if not is_by_size(instance, sizes) or "x-sizes-may-lack" in schema:
            yield from rule(validator, value, instance, schema) or ()
            return
        for size, inner in instance.items():
            if size in sizes:
                for error in rule(validator, value, inner, schema) or ():
                    if not error.path:
                        error.instance = inner  # else it would be told of the whole set
                    error.path.appendleft(size)
                    yield error

    return checked


def _one_for_all(sizes: Collection[str]) -> Callable[..., Iterator[ValidationError]]:
    def checked(_validator: Any, _value: Any, instance: Any, _schema: Any) -> Iterator[ValidationError]:
        from jsonschema.exceptions import ValidationError

        if is_by_size(instance, sizes):
            yield ValidationError("same for all sizes")

    return checked


def _findings(error: ValidationError) -> Findings:
    path = tuple(error.absolute_path)
    name = _spoken(path)
    tell = _TELLERS.get(str(error.validator))
    if tell is not None:
        yield from tell(error, path, name)
    else:
        yield "wrong-form", path, f"{name} must be {_wanted(error)}.", (), False


def _wrong_kind(error: ValidationError, path: Path, name: str) -> Findings:
    value = error.instance
    if value is None:
        yield "no-value", path, f"{name} has no value.", (f"write {_wanted(error)} after the colon",), True
    elif isinstance(value, dict) and "object" not in _types(error):
        yield "wrong-kind", path, f"{name} must be {_wanted(error)}, not a set of keys.", ("for one value a size, the keys must be size names",), True
    else:
        yield "wrong-kind", path, f"{name} must be {_wanted(error)}, not {_kind_of(value)}.", (), False


def _unknown_choice(error: ValidationError, path: Path, name: str) -> Findings:
    choices = [str(choice) for choice in error.validator_value if not isinstance(choice, bool | int)]
    near = nearest(str(error.instance), choices)
    remedy = f"write {near}" if near else f"choose {or_list(choices)}"
    yield "unknown-choice", path, f"{name} cannot be “{_shown(error.instance)}”.", (remedy,), False


def _version(error: ValidationError, path: Path, name: str) -> Findings:
    yield "language-version", path, f"{name} is “{_shown(error.instance)}”; this slath reads version {error.validator_value}.", (f"write slath: {error.validator_value}",), False


def _missing(error: ValidationError, path: Path, _name: str) -> Findings:
    for key in error.validator_value:  # one error comes for each missing key, and all tell of all: doubles are dropped
        if key not in error.instance:
            what = error.schema.get("properties", {}).get(key, {}).get("description", "")
            remedies = (f"add {key}: {what[:1].lower()}{what[1:].rstrip('.')}",) if what else ()
            yield "missing-key", (*path, key), f"{_owner(path)} has no {key}.", remedies, True


def _missing_partner(error: ValidationError, path: Path, _name: str) -> Findings:
    for key, partners in error.validator_value.items():
        for partner in partners if key in error.instance else ():
            if partner not in error.instance:
                yield "missing-key", (*path, partner), f"{_owner(path)} has {key} without {partner}.", (f"add {partner}",), True


def _unknown_key(error: ValidationError, path: Path, _name: str) -> Findings:
    known = error.schema.get("properties", {})
    for key in error.instance:
        if key not in known:
            near = nearest(key, known)
            remedy = f"write {near}" if near else f"its keys are {or_list(known)}"
            yield "unknown-key", (*path, key), f"{_owner(path)} has no key “{key}”.", (remedy,), True


def _bad_name(error: ValidationError, path: Path) -> Findings:
    key = str(error.instance)
    choices = error.schema.get("x-names", ())
    if choices:
        near = nearest(key, choices)
        yield "unknown-key", (*path, key), f"{_owner(path)} has no key “{key}”.", (f"write {near}" if near else f"its keys are {or_list(choices)}",), True
    else:
        yield "name-form", (*path, key), f"“{key}” cannot be a name here.", ("use lower-case letters, digits and underscores, a letter first",), True


def _out_of_range(error: ValidationError, path: Path, name: str) -> Findings:
    limit = {"minimum": "at least", "maximum": "at most", "exclusiveMinimum": "more than"}[str(error.validator)]
    yield "number-out-of-range", path, f"{name} is {_shown(error.instance)}; it must be {limit} {error.validator_value}.", (), False


def _too_few(error: ValidationError, path: Path, name: str) -> Findings:
    yield "too-few-given", path, f"{name} is empty.", (f"write {_wanted(error)}, or leave {name} out",), False


def _too_many(error: ValidationError, path: Path, name: str) -> Findings:
    yield "too-many-given", path, f"{name} holds {len(error.instance)} entries; it can hold {error.validator_value}.", (), False


def _twice(_error: ValidationError, path: Path, name: str) -> Findings:
    yield "given-twice", path, f"{name} names one thing twice.", ("keep one of the two",), False


def _wrong_form(error: ValidationError, path: Path, name: str) -> Findings:
    if "propertyNames" in error.absolute_schema_path:
        yield from _bad_name(error, path)
        return
    yield "wrong-form", path, f"{name} is “{_shown(error.instance)}”; it must be {_wanted(error)}.", (), False


def _choose_one(error: ValidationError, path: Path, _name: str) -> Findings:
    keys = [branch["required"][0] for branch in error.validator_value]
    given = [key for key in keys if key in error.instance]
    if given:
        yield "choose-one", (*path, given[1]), f"{_owner(path)} has {' and '.join(given)}; only one of {or_list(keys)} can hold.", (f"keep one of {or_list(given)}",), True
    else:
        yield "missing-key", (*path, keys[0]), f"{_owner(path)} has none of {or_list(keys)}.", (f"add {or_list(keys)}",), True


def _choose_some(error: ValidationError, path: Path, _name: str) -> Findings:
    choices = [" and ".join(branch["required"]) for branch in error.validator_value]
    yield "missing-key", (*path, error.validator_value[0]["required"][0]), f"{_owner(path)} needs {or_list(choices)}.", (), True


def _not_by_size(_error: ValidationError, path: Path, name: str) -> Findings:
    yield "same-for-all-sizes", path, f"{name} is the same for every size.", ("write one value",), True


_TELLERS: dict[str, Callable[[ValidationError, Path, str], Findings]] = {
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


def _meant(error: ValidationError) -> dict[str, str]:
    """Unknown keys of one place, each with the key it seems to stand for."""
    known = error.schema.get("properties", {})
    return {key: near for key in error.instance if key not in known and (near := nearest(key, known))}


def _types(error: ValidationError) -> list[str]:
    value = error.validator_value
    return [value] if isinstance(value, str) else list(value)


def _wanted(error: ValidationError) -> str:
    wants = error.schema.get("x-wants")
    if wants:
        return str(wants)
    kinds = error.schema.get("type", "string")
    return or_list(_KINDS[kind] for kind in ([kinds] if isinstance(kinds, str) else kinds))


def _kind_of(value: Any) -> str:
    if isinstance(value, bool):
        return "yes or no"
    if isinstance(value, dict):
        return "a set of keys"
    return "a list" if isinstance(value, list) else f"“{_shown(value)}”"


def _shown(value: Any) -> str:
    text = str(value)
    return text if len(text) <= 40 else f"{text[:37]}..."


def _spoken(path: Path) -> str:
    """What stands at `path`, in a word or two: “height”, “strand 2”, “material rust”."""
    if not path:
        return "the file"
    last, owner = path[-1], path[-2] if len(path) > 1 else ""
    if isinstance(last, int):
        return f"{_ENTRIES.get(str(owner), f'{owner} entry'.replace('_', ' ').strip())} {last + 1}"
    return f"{_ENTRIES[str(owner)]} {last}" if owner in _NAMED else last


def _owner(path: Path) -> str:
    """What holds the key at fault, to begin a sentence: “The file”, “Base”, “Band 3”, “Material rust”."""
    spoken = _spoken(path)
    return spoken[0].upper() + spoken[1:]


_NAMED = frozenset({"materials", "measures", "stocks"})
_ENTRIES = {
    "materials": "material", "measures": "measure", "stocks": "stock", "bands": "band", "weaving": "base band",
    "strands": "strand", "handles": "handle", "wraps": "wrap", "passes": "pass", "moves": "move", "sizes": "size",
    "gauge": "gauge", "accept": "acceptance", "steps": "stage", "packs": "pack", "pictures": "picture", "figure": "cell",
    "groups": "group", "profile": "profile point", "bye_stakes": "bye-stakes", "at": "place", "withheld": "section",
}  # fmt: skip
