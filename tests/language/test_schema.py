"""The schemas: valid by the standard's own meta-schema, complete for an editor, and at one with the reader."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema.validators import Draft202012Validator

from slath.language import SCHEMA_NAMES, published_schema
from slath.language.document import read_document
from slath.language.schemas import schema
from slath.language.source import read_source

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
