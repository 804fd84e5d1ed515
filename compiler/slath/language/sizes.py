"""Values by size: a set of keys that are size names stands for one value a size, wherever a value is expected."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from typing import Any

from slath.fonts.letters import lacking
from slath.language.document import Document
from slath.language.places import Path
from slath.language.spelling import letters_lacking, nearest
from slath.messages.told import told
from slath.notes import Note, Place, Severity

ONE_SIZE = "one size"
_MAY_LACK = "woven"  # of the pattern, or of a variant


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


def check_sizes(
    document: Document, sizes: tuple[str, ...], is_key: Callable[[str], bool]
) -> tuple[list[Note], set[Path]]:
    """Notes on sizes named like a key of the language, on values for no size, and on sizes without a value."""
    notes = [*_taken_names(document, sizes, is_key), *_names_without_letters(document, sizes)]
    faulty: set[Path] = set()
    for path, value in _by_size_values(document.data, (), sizes):
        notes += _unknown_sizes(document, path, value, sizes)
        if path and path[-1] == _MAY_LACK and (len(path) == 1 or path[0] == "variants"):
            continue
        misspelt = {nearest(key, sizes) for key in value if key not in sizes}
        lacking = [size for size in sizes if size not in value and size not in misspelt]
        if lacking:
            faulty.add(path)
            place = _key_place(document, path, value)
            sentence = told(
                "{value} has no value for {join}.", value=path[-1] if path else "The file", join=" and ".join(lacking)
            )
            notes.append(
                _error("size-without-value", place, sentence, told("add {lacking}: and its value", lacking=lacking[0]))
            )
    return notes, faulty


def _names_without_letters(document: Document, sizes: tuple[str, ...]) -> Iterator[Note]:
    for index, size in enumerate(sizes):
        missing = lacking(size)
        if missing and ("sizes", index) in document.places:
            yield _error("letter-not-in-fonts", document.places["sizes", index][1], *letters_lacking(missing))


def _taken_names(document: Document, sizes: tuple[str, ...], is_key: Callable[[str], bool]) -> Iterator[Note]:
    for index, size in enumerate(sizes):
        path: Path = ("sizes", index)
        if path in document.places and is_key(size):
            sentence = told("A size cannot be called {size}: it is a key of the language.", size=size)
            yield _error(
                "size-name-taken", document.places[path][1], sentence, told("call it “size {size}”", size=size)
            )


def _unknown_sizes(document: Document, path: Path, value: dict[str, Any], sizes: tuple[str, ...]) -> Iterator[Note]:
    for key in value:
        if key not in sizes:
            remedy = told("write {value}", value=nearest(key, sizes) or ", ".join(sizes))
            yield _error(
                "unknown-size", document.places[(*path, key)][0], told("There is no size “{key}”.", key=key), remedy
            )


def _key_place(document: Document, path: Path, value: dict[str, Any]) -> Place:
    return document.places[path][0] if path in document.places else document.places[(*path, next(iter(value)))][0]


def _error(code: str, place: Place, sentence: str, remedy: str) -> Note:
    return Note(code, Severity.ERROR, place, sentence, remedies=(remedy,))


def _by_size_values(value: Any, path: Path, sizes: tuple[str, ...]) -> Iterator[tuple[Path, dict[str, Any]]]:
    if isinstance(value, dict):
        if is_by_size(value, sizes):
            yield path, value
        for key, inner in value.items():
            yield from _by_size_values(inner, (*path, key), sizes)
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _by_size_values(inner, (*path, index), sizes)
