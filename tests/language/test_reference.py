"""The language reference beside the patterns: every example is read, and every key of the schema has one."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema.validators import Draft202012Validator, extend
from PIL import Image
from tests.language.fragments import notes_of, whole

from slath.language import read_pattern
from slath.language.document import read_document
from slath.language.schemas import schema
from slath.language.source import Source
from slath.language.weaves import find_weave
from slath.trade import default_settings, find_stock

REFERENCE = Path(__file__).parents[2] / "patterns" / "README.md"
FEWEST_EXAMPLES = 25


def _reference() -> str:
    return REFERENCE.read_text("utf-8")


def _examples() -> list[str]:
    return re.findall(r"^```yaml\n(.*?)^```", _reference(), re.MULTILINE | re.DOTALL)


def _patterns() -> list[str]:
    return [example for example in _examples() if not example.startswith("slath: 1\nname:")]


def _workshops() -> list[str]:
    return [example for example in _examples() if example.startswith("slath: 1\nname:")]


def test_reference_holds_examples() -> None:
    """The reference has its examples, so that the tests over them look at something."""
    assert len(_patterns()) >= FEWEST_EXAMPLES
    assert len(_workshops()) == 1


@pytest.mark.parametrize("example", _patterns())
def test_example_is_read(example: str, tmp_path: Path) -> None:
    """Every example of the reference is read without an error or a warning."""
    Image.new("L", (2, 2)).save(tmp_path / "upsett.png")  # the picture one of them names
    assert notes_of(example, tmp_path) == ()


def test_workshop_example_is_read(tmp_path: Path) -> None:
    """The workshop file of the reference is read beside a pattern, and its stock can be used there."""
    (tmp_path / "shop.yaml").write_text(_workshops()[0], "utf-8")
    file = tmp_path / "trial.yaml"
    file.write_text(
        whole("workshop_file: shop.yaml\nmaterials: {sticks: {stock: weir willow}, stakes: {stock: willow 5 ft}}"),
        "utf-8",
    )
    pattern = read_pattern(file)
    assert pattern.workshop == "Otter Weir"
    assert pattern.sizes[0].materials["sticks"].stock.butt_mm == 8


def test_every_key_has_an_example() -> None:
    """Every key of the pattern schema is used in an example of the reference, at the place the schema gives it."""
    seen: set[tuple[str, str]] = {("pattern", "workshop_file")}  # shown by the workshop example
    parts = {id(part["properties"]): title for title, part in _with_properties(schema("pattern"))}

    def properties(validator: Any, value: Any, instance: Any, inner: Any) -> Iterator[Any]:
        if isinstance(instance, dict):
            seen.update((parts[id(value)], key) for key in instance if key in value and id(value) in parts)
        yield from Draft202012Validator.VALIDATORS["properties"](validator, value, instance, inner) or ()

    validator = extend(  # type: ignore[no-untyped-call]
        Draft202012Validator, {"properties": properties}
    )(schema("pattern"))
    for example in _patterns():
        list(validator.iter_errors(read_document(Source("example", whole(example))).data))
    expected = {(title, key) for title, part in _with_properties(schema("pattern")) for key in part["properties"]}
    assert len(expected) > 200
    assert expected - seen == set()


def test_every_workshop_key_has_an_example() -> None:
    """The workshop file of the reference uses every key that a workshop file has."""
    assert set(read_document(Source("example", _workshops()[0])).data) == set(schema("workshop")["properties"])


def test_every_setting_is_listed() -> None:
    """The reference names every setting there is, and no other."""
    listed = re.search(r"They are: (.*?)\. `slath proof`", _reference(), re.DOTALL)
    assert listed is not None
    assert set(re.findall(r"`(\w+)`", listed.group(1))) == set(default_settings())


def test_every_stock_shown_is_known() -> None:
    """Every stock the reference shows by name is found by it."""
    paragraph = re.search(r"Stocks the tool knows: (.*?)\n\n", _reference(), re.DOTALL)
    assert paragraph is not None
    names = [" ".join(name.split()) for name in re.findall(r"`([^`]+)`", paragraph.group(1)) if not name[0].isdigit()]
    assert len(names) > 8
    assert [name for name in names if find_stock(name) is None] == []


def test_every_weave_shown_is_known() -> None:
    """Every weave the reference shows by name, and every longer cycle in its remarks, is one the tool knows."""
    table = re.search(r"\| write \| it is \|\n\|---\|---\|\n(.*?)\n\n", _reference(), re.DOTALL)
    assert table is not None
    names = re.findall(r"`([^`]+)`", table.group(1))
    assert len(names) > 20
    for name in names:
        assert find_weave(name).weave.rods >= 1


def test_every_choice_is_named() -> None:
    """Every word a key may take is written in the reference."""
    text = _reference()
    choices = {
        choice
        for _, part in _with_properties(schema("pattern"))
        for inner in part["properties"].values()
        for choice in inner.get("enum", ())
        if isinstance(choice, str)
    }
    assert len(choices) > 40
    assert {choice for choice in choices if choice not in text} == set()


def _with_properties(body: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every part of a schema that lists properties, under the name of the part it stands in."""
    yield "pattern", body
    for title, part in body["$defs"].items():
        yield from _inside(title, part)


def _inside(title: str, part: Any) -> Iterator[tuple[str, dict[str, Any]]]:
    if not isinstance(part, dict):
        return
    properties = part.get("properties")
    if isinstance(properties, dict) and "$ref" not in part:
        yield title, part
        for key, inner in properties.items():
            yield from _inside(f"{title}.{key}", inner)
    if isinstance(part.get("then"), dict):
        yield from _inside(title, part["then"])
