"""Values by size: a set of keys that are size names stands for one value a size, wherever a value is expected."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from slath.language.spelling import nearest
from slath.notes import Note, Severity

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from slath.language.document import Document
    from slath.language.pattern import Path

ONE_SIZE = "one size"
_MAY_LACK = frozenset({("woven",)})


def is_by_size(value: Any, sizes: Collection[str]) -> bool:
    """Whether `value` is a set of keys with a size name among them."""
    return isinstance(value, dict) and any(key in sizes for key in value)


def size_names(document: Document) -> tuple[str, ...]:
    """The sizes of a pattern as it names them; one size where it names none or names them wrongly."""
    given = document.data.get("sizes")
    if not isinstance(given, list):
        return (ONE_SIZE,)
    names = [document.raw.get(("sizes", index), item) for index, item in enumerate(given)]
    return tuple(dict.fromkeys(str(name) for name in names if isinstance(name, str | int | float) and str(name))) or (
        ONE_SIZE,
    )


def check_sizes(document: Document, sizes: tuple[str, ...], keys: Collection[str]) -> tuple[list[Note], set[Path]]:
    """Notes on sizes named like a key of the language, on values for no size, and on sizes without a value."""
    notes: list[Note] = []
    faulty: set[Path] = set()
    for index, size in enumerate(sizes):
        if size in keys and ("sizes", index) in document.places:
            place = document.places[("sizes", index)][1]
            notes.append(
                Note(
                    "size-name-taken",
                    Severity.ERROR,
                    place,
                    f"A size cannot be called {size}: it is a key of the language.",
                    remedies=(f"call it “size {size}”",),
                )
            )
    for path, value in _by_size_values(document.data, (), sizes):
        for key in value:
            if key not in sizes:
                near = nearest(key, sizes)
                place = document.places[(*path, key)][0]
                notes.append(
                    Note(
                        "unknown-size",
                        Severity.ERROR,
                        place,
                        f"There is no size “{key}”.",
                        remedies=(f"write {near or ', '.join(sizes)}",),
                    )
                )
        lacking = [size for size in sizes if size not in value]
        if lacking and path not in _MAY_LACK and len(set(value) & set(sizes)) + len(lacking) > len(value):
            place = (
                document.places[path][0] if path in document.places else document.places[(*path, next(iter(value)))][0]
            )
            notes.append(
                Note(
                    "size-without-value",
                    Severity.ERROR,
                    place,
                    f"{path[-1] if path else 'The file'} has no value for {' and '.join(lacking)}.",
                    remedies=(f"add {lacking[0]}: and its value",),
                )
            )
            faulty.add(path)
    return notes, faulty


def _by_size_values(value: Any, path: Path, sizes: tuple[str, ...]) -> Iterator[tuple[Path, dict[str, Any]]]:
    if isinstance(value, dict):
        if is_by_size(value, sizes):
            yield path, value
        for key, inner in value.items():
            yield from _by_size_values(inner, (*path, key), sizes)
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _by_size_values(inner, (*path, index), sizes)
