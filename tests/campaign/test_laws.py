"""What must not change when a pattern is written otherwise: its keys in another order, its names others, its units others."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from tests.cli.mutations import PATTERNS

from slath.pipeline import compile_pattern, listing_text
from slath.units.reading import scan_quantity

Change = Callable[[str], str]


def reordered(text: str) -> str:
    """Every set of keys in the order of the alphabet, backwards; sets whose order means something are left."""
    return str(yaml.safe_dump(_backwards(yaml.safe_load(text), ""), sort_keys=False, allow_unicode=True, width=10**9))


def _backwards(value: Any, name: str) -> Any:
    if isinstance(value, list):
        return [_backwards(item, name) for item in value]
    if not isinstance(value, dict):
        return value
    keys = value if name in {"materials", "variants", "measures", "packs"} else sorted(value, reverse=True)
    return {key: _backwards(value[key], key) for key in keys}


def renamed(text: str) -> str:
    """Every measure called otherwise, wherever it is used."""
    for name in yaml.safe_load(text).get("measures", {}):
        text = re.sub(
            rf"(?<![\w.])(?<!^){name}(?![\w:])|(?<=^  ){name}(?=:)", f"{name}_renamed", text, flags=re.MULTILINE
        )
    return text


def in_millimetres(text: str) -> str:
    """Every plain measure in inches written in millimetres."""

    def turned(found: re.Match[str]) -> str:
        scan = scan_quantity(found.group(), 0)
        assert scan is not None
        return f"{scan.quantity.value!r} mm"

    return re.sub(r"(?<![\w/.])(?<!reed )\d+(?: \d+/\d+|/\d+|\.\d+)? in\b(?=[,}\n ]*(?:[,}\n#]))", turned, text)


def numbers(text: str, folder: Path, name: str) -> list[tuple[str, str, float]]:
    """Every number of the list that is worked out, by its size and place."""
    file = folder / f"{name}.yaml"
    units = "" if re.search("^units:", text, re.MULTILINE) else "units: inches\n"  # by which lengths to cut are rounded
    file.write_text(f"{text}\n{units}", "utf-8")
    listed = json.loads(listing_text(compile_pattern(file), "json", "mm"))
    return [(size["size"], path, value) for size in listed["sizes"] for path, value in _values(size, "")]


def _values(value: Any, path: str) -> list[tuple[str, float]]:
    if isinstance(value, bool | str) or value is None:
        return []
    if isinstance(value, int | float):
        return [(path, float(value))]
    items = value.items() if isinstance(value, dict) else enumerate(value)
    return [found for key, inner in items if key != "notes" for found in _values(inner, f"{path}/{key}")]


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A folder with the workshop file the shipped patterns name."""
    for file in PATTERNS[0].parent.glob("*.workshop.yaml"):
        (tmp_path / file.name).write_bytes(file.read_bytes())
    return tmp_path


@pytest.mark.parametrize(
    ("pattern", "change"),
    [
        ("weir-field", reordered), ("mill-tray", reordered), ("toll-house", reordered), ("weir-field", renamed),
        ("mill-tray", renamed), ("weir-field", in_millimetres), ("mill-tray", in_millimetres), ("toll-house", in_millimetres),
    ],
)  # fmt: skip
def test_what_is_written_otherwise_is_the_same_basket(pattern: str, change: Change, shop: Path) -> None:
    """Every number of every size stays, and something was changed indeed."""
    text = PATTERNS[0].with_name(f"{pattern}.yaml").read_text("utf-8")
    other = change(text)
    assert other != text
    before, after = numbers(text, shop, "before"), numbers(other, shop, "after")
    assert len(before) > 100
    assert [(size, path) for size, path, _ in before] == [(size, path) for size, path, _ in after]
    for (size, path, one), (_, _, two) in zip(before, after, strict=True):
        assert two == pytest.approx(one, rel=1e-6), (size, path)
