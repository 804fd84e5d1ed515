"""The quick look before jsonschema: it may leave a good file to jsonschema, but never lets a faulty one by."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema.validators import Draft202012Validator

from slath.language.document import read_document
from slath.language.gate import surely_good
from slath.language.in_languages import words_in
from slath.language.schemas import schema
from slath.language.source import read_source
from slath.notes import PatternFaultError

PATTERNS = [file for file in sorted((Path(__file__).parents[2] / "patterns").glob("*.yaml")) if "." not in file.stem]
BAD = sorted((Path(__file__).parents[1] / "corpus" / "bad" / "language").glob("*.yaml"))


def _refused(data: Any) -> bool:
    return not Draft202012Validator(schema("pattern")).is_valid(data)


@pytest.mark.parametrize("file", PATTERNS, ids=lambda file: file.stem)
def test_shipped_patterns_pass_at_a_look(file: Path) -> None:
    """Every shipped pattern passes the quick look, so that checking it never loads jsonschema."""
    data = words_in(read_document(read_source(file))).data  # the words of one language, as they are checked
    assert surely_good(data, schema("pattern"), [str(size) for size in data.get("sizes", [])])


def test_every_keyword_is_known() -> None:
    """The quick look knows every keyword the schemas use: none sends every file to jsonschema unnoticed."""
    smallest: dict[str, Any] = {"slath": 1, "title": "x", "materials": {"a": {"stock": "us round reed 4"}}}
    data = {**smallest, "base": {"kind": "ready made", "diameter": "6 in"}}
    assert surely_good(data, schema("pattern"), [])
    assert not surely_good(smallest, schema("pattern"), [])


_VALUES = st.sampled_from(
    [
        "",
        "yes",
        "no",
        "3 in",
        "x",
        "round slath",
        "#ffffff",
        0,
        1,
        -1,
        2.5,
        True,
        None,
        [],
        {},
        [1],
        ["a", "a"],
        {"kind": "bow"},
        {"a": 1},
    ]
)


@st.composite
def _changed(draw: st.DrawFn) -> dict[str, Any]:
    """A shipped pattern, one size of it, with some values and keys put in the wrong place."""
    data: dict[str, Any] = read_document(read_source(draw(st.sampled_from(PATTERNS)))).data
    data = _one_size(data, [str(size) for size in data.get("sizes", [])])
    for _ in range(draw(st.integers(0, 2))):
        spots = list(_spots(data))
        holder, key = draw(st.sampled_from(spots))
        action = draw(st.sampled_from(["change", "drop", "rename"]))
        if action == "change" or isinstance(holder, list):
            holder[key] = deepcopy(draw(_VALUES))
        elif action == "drop":
            del holder[key]
        else:
            holder[draw(st.sampled_from(["name", "rounds", "height", "kind", "material", "x"]))] = holder.pop(key)
    return data


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(_changed())
def test_what_passes_here_passes_there(data: dict[str, Any]) -> None:
    """Data that passes the quick look is valid by jsonschema; and nearly all that is valid passes."""
    if surely_good(data, schema("pattern"), []):
        assert not _refused(data)
    else:
        assert _refused(data)


@pytest.mark.parametrize("file", BAD, ids=lambda file: file.stem)
def test_faulty_corpus_does_not_pass(file: Path) -> None:
    """No file of the corpus that jsonschema refuses passes the quick look."""
    try:
        document = read_document(read_source(file))
    except PatternFaultError:
        return  # no data at all
    if _refused(document.data):
        assert not surely_good(document.data, schema("pattern"), [])


def _one_size(value: Any, sizes: list[str]) -> Any:
    if isinstance(value, dict):
        if sizes and set(value) <= set(sizes) and value:
            return _one_size(next(iter(value.values())), sizes)
        return {key: _one_size(inner, sizes) for key, inner in value.items()}
    return [_one_size(inner, sizes) for inner in value] if isinstance(value, list) else value


def _spots(value: Any) -> Iterator[tuple[Any, Any]]:
    for key, inner in value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ():
        yield value, key
        yield from _spots(inner)
