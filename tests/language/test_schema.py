"""The schemas: valid by the standard's own meta-schema, complete for an editor, and at one with the reader."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema.validators import Draft202012Validator

from slath.language import SCHEMA_NAMES, published_schema
from slath.language.checking import check
from slath.language.document import read_document
from slath.language.in_languages import words_in
from slath.language.schemas import schema
from slath.language.sizes import size_names
from slath.language.source import read_source
from slath.notes import PatternFaultError
from slath.pipeline import schema_text

ROOT = Path(__file__).parents[2]
PATTERNS = ROOT / "patterns"
FILES = ROOT / "compiler" / "slath" / "language" / "schema"
FILES_OF_PATTERNS = [
    file
    for folder in (PATTERNS, ROOT / "tests" / "corpus", ROOT / "tests" / "handbook")
    for file in sorted(folder.rglob("*.yaml"))
    if "." not in file.stem
]
SLIPS: tuple[Any, ...] = ([[]], {})
SHIPPED = sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml"))


@pytest.mark.parametrize("name", SCHEMA_NAMES)
def test_schema_is_valid_by_the_standard(name: str) -> None:
    """Both forms of a schema hold by the JSON Schema 2020-12 meta-schema."""
    Draft202012Validator.check_schema(schema(name))
    Draft202012Validator.check_schema(published_schema(name))


@pytest.mark.parametrize("name", SCHEMA_NAMES)
def test_every_key_is_described(name: str) -> None:
    """Every key an editor can complete has words to show beside it, its own or its part's."""
    body = schema(name)
    bare = [key for key, part in _properties(body) if not _description(part, body) and "const" not in part]
    assert len(list(_properties(body))) > 10
    assert bare == []


@pytest.mark.parametrize("name", SCHEMA_NAMES)
def test_published_schema_stands_alone(name: str) -> None:
    """The printed schema holds every part it refers to, and nothing that is only ours."""
    text = json.dumps(published_schema(name))
    parts = published_schema(name)["$defs"]
    assert all(f"#/$defs/{part}" in text for part in parts)
    assert set(_references(published_schema(name))) == set(parts)
    assert '"x-' not in text


def test_unknown_schema_is_a_key_error() -> None:
    """A schema that is not there is the caller's slip."""
    with pytest.raises(KeyError):
        published_schema("basket")


def test_published_schema_takes_values_by_size() -> None:
    """An editor with the printed schema accepts one value for each size, and still refuses an unknown key."""
    validator = Draft202012Validator(published_schema("pattern"))
    good: dict[str, Any] = {
        "slath": 1, "title": "x", "sizes": ["small", "large"], "materials": {"a": {"stock": "us round reed 4"}},
        "base": {"kind": "round slath", "diameter": {"small": "5 in", "large": "6 in"}, "pierced": 4, "material": "a"},
    }  # fmt: skip
    assert validator.is_valid(good)
    assert not validator.is_valid({**good, "titel": "x"})
    assert not validator.is_valid({**good, "base": {**good["base"], "diametre": "5 in"}})


@pytest.mark.parametrize("file", SHIPPED, ids=lambda file: file.stem)
def test_shipped_file_holds_by_the_published_schema(file: Path) -> None:
    """Every shipped pattern and workshop file is good by the schema that editors are given."""
    name = file.stem.rpartition(".")[2] if "." in file.stem else "pattern"
    data = read_document(read_source(file)).data
    assert [error.message for error in Draft202012Validator(published_schema(name)).iter_errors(data)] == []


@pytest.mark.parametrize("name", ["pattern", "workshop"])
def test_published_file_is_as_declared(name: str) -> None:
    """The file that editors are pointed at is what the declared keys make; `slath schema NAME` writes it anew."""
    written = (FILES / f"{name}.json").read_text("utf-8")
    assert written == schema_text(name), f"slath schema {name} > {FILES / name}.json"


def test_published_schema_accepts_what_the_reader_accepts() -> None:
    """Of every pattern there is, good or bad, the published schema says what the reader says of its form."""
    validator = Draft202012Validator(published_schema("pattern"))
    seen = {True: 0, False: 0}
    for file in FILES_OF_PATTERNS:
        try:
            document = words_in(read_document(read_source(file)))
        except PatternFaultError:
            continue
        notes, _, _ = check(document, schema("pattern"), size_names(document))
        assert validator.is_valid(document.data) == (not notes), f"{file}: {notes}"
        seen[not notes] += 1
    assert seen[True] > 200
    assert seen[False] > 5


@pytest.mark.parametrize(
    "place",
    [("base", "length"), ("side", "bands", 0, "strands"), ("border", "passes"), ("handle", "rise"), ("materials", "sticks", "dye"),
     ("handle", "wraps", 0, "lay")],
)  # fmt: skip
def test_one_slip_is_marked_where_it_stands(place: tuple[str | int, ...]) -> None:
    """A wrong value or an unknown key is one error at its own place, however deep, not one of everything round it."""
    validator = Draft202012Validator(published_schema("pattern"))
    for slip in SLIPS:
        data = read_document(read_source(PATTERNS / "weir-field.yaml")).data
        _put(data, place, slip)
        errors = list(validator.iter_errors(data))
        assert errors
        assert all(tuple(error.absolute_path)[: len(place)] == place for error in errors), errors
    data = read_document(read_source(PATTERNS / "weir-field.yaml")).data
    _put(data, (*place[:-1], "colur"), "red")
    assert [tuple(error.absolute_path) for error in validator.iter_errors(data)] == [place[:-1]]


def test_names_are_there_to_complete() -> None:
    """An editor offers weaves, stocks and dyes by name where each is written."""
    parts = published_schema("pattern")["$defs"]
    weave = parts["woven_band"]["properties"]["weave"]["else"]["examples"]
    assert {"pairing", "three-rod wale"} <= set(weave)
    material = parts["material"]["properties"]
    assert "us round reed 4" in material["stock"]["else"]["examples"]
    assert "rust" in material["dye"]["else"]["examples"]


def _put(data: Any, place: tuple[str | int, ...], value: Any) -> None:
    for key in place[:-1]:
        data = data[key]
    data[place[-1]] = value


def _properties(part: Any) -> Iterator[tuple[str, dict[str, Any]]]:
    if isinstance(part, list):
        for item in part:
            yield from _properties(item)
    elif isinstance(part, dict):
        if isinstance(part.get("properties"), dict):
            yield from part["properties"].items()
        for value in part.values():
            yield from _properties(value)


def _description(part: dict[str, Any], body: dict[str, Any]) -> str:
    if "description" in part:
        return str(part["description"])
    reference = part.get("$ref", "").removeprefix("#/$defs/")
    return str(body["$defs"].get(reference, {}).get("description", ""))


def _references(part: Any) -> Iterator[str]:
    if isinstance(part, list):
        for item in part:
            yield from _references(item)
    elif isinstance(part, dict):
        if isinstance(part.get("$ref"), str):
            yield part["$ref"].removeprefix("#/$defs/")
        for value in part.values():
            yield from _references(value)
