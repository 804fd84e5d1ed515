"""Bye-stakes stand beside stakes."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.language.fragments import read_one

from slath.basket.construct import construct
from slath.basket.model import CannotConstruct


def test_bye_stakes_need_stakes(tmp_path: Path) -> None:
    """A base that sets no stakes cannot have bye-stakes: it is refused in words, at the bye-stakes."""
    sized = replace(read_one("bye_stakes: {material: stakes, beside: [1, 2]}", tmp_path), stakes=None)
    with pytest.raises(CannotConstruct) as caught:
        construct(sized)
    assert (caught.value.code, caught.value.path) == ("no-stakes", ("bye_stakes",))
