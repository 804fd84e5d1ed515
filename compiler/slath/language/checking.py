"""A file's data held against its schema: every fault becomes a note, told by its keyword and place."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from typing import TYPE_CHECKING, Any

from slath.language.document import Document
from slath.language.faults import Fault, said_of, unknown_keys
from slath.language.gate import surely_good
from slath.language.places import Path, place_of
from slath.language.schemas import Schema
from slath.language.sizes import is_by_size
from slath.notes import Note, Place, Severity

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError


def check(
    document: Document, schema: Schema, sizes: Collection[str], prefix: Path = ()
) -> tuple[list[Note], set[Path], set[Path]]:
    """Notes on every place where the data is not as `schema` says, the paths whose values cannot be used, and those that seem
    to be there under a misspelt key.
    """
    if surely_good(document.data, schema, sizes):
        return [], set(), set()
    notes: dict[tuple[str, Place, str], Note] = {}  # one value may break two rules that say the same of it
    faulty: set[Path] = set()
    faults = [_fault(error) for error in _validator(schema, sizes).iter_errors(document.data)]
    faults.sort(key=lambda fault: [str(part) for part in fault.path])
    mistaken = {(*fault.path, near) for fault in faults for near in unknown_keys(fault).values()}
    for fault in faults:
        for finding in said_of(fault):
            if finding.code != "unknown-key":
                faulty.add((*prefix, *finding.path))
            if finding.path in document.faulty or (finding.code == "missing-key" and finding.path in mistaken):
                continue  # told already
            place = place_of(document.places, document.source.file, finding.path, at_key=finding.at_key)
            note = Note(finding.code, Severity.ERROR, place, finding.sentence, remedies=finding.remedies)
            told_before = notes.get((note.code, note.place, note.sentence))
            if told_before is None or not told_before.remedies:
                notes[note.code, note.place, note.sentence] = note
    return list(notes.values()), faulty, {(*prefix, *path) for path in mistaken}


def _fault(error: ValidationError) -> Fault:
    schema = error.schema if isinstance(error.schema, dict) else {}
    names = "propertyNames" in error.absolute_schema_path
    return Fault(str(error.validator), error.validator_value, error.instance, schema, tuple(error.absolute_path), names)


def _validator(schema: Schema, sizes: Collection[str]) -> Any:
    # A twelfth of a second that `slath --help` and reading a schema for an editor do not need.
    from jsonschema.validators import Draft202012Validator, extend  # noqa: PLC0415

    keywords = {name: _for_each_size(rule, sizes) for name, rule in Draft202012Validator.VALIDATORS.items()}
    keywords["x-one-for-all-sizes"] = _one_for_all(sizes)
    return extend(  # type: ignore[no-untyped-call]
        Draft202012Validator, keywords
    )(schema)


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
        from jsonschema.exceptions import ValidationError  # noqa: PLC0415 - as above

        if is_by_size(instance, sizes):
            yield ValidationError("same for all sizes")

    return checked
