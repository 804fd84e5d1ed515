"""Strands that are painted when they are first looked at."""

from __future__ import annotations

import pickle
from collections.abc import Sequence

import pytest

from slath.drawing.scene import Ellipse, Group, Item, Path, Subpath, Text, Unpainted, every_item

STRAND = Path((Subpath(((0.0, 0.0), (1.0, 1.0))),), stroke="#000000")
END = Ellipse(1.0, 1.0, 0.5, 0.5, fill="#ffffff")


@pytest.fixture
def painted() -> list[int]:
    """How often something was painted."""
    return []


@pytest.fixture
def strands(painted: list[int]) -> Unpainted:
    """Two items that note when they are painted."""

    def paint() -> tuple[Item, ...]:
        painted.append(1)
        return STRAND, END

    return Unpainted(paint)


def test_words_are_found_without_painting(strands: Unpainted, painted: list[int]) -> None:
    """Lettering is looked for in figures that are never printed; strands have none."""
    label = Text(0.0, 0.0, "stake 1")
    assert list(every_item([Group(strands), label], strands=False)) == [label]
    assert not painted
    assert list(every_item([Group(strands), label])) == [STRAND, END, label]


def test_strands_are_painted_once(strands: Unpainted, painted: list[int]) -> None:
    """However often and in whatever way they are looked at; they are equal to what was painted, and kept as that."""
    assert (len(strands), strands[0], strands[1:], list(strands)) == (2, STRAND, (END,), [STRAND, END])
    assert strands == (STRAND, END)
    assert pickle.loads(pickle.dumps(Group(strands))) == Group((STRAND, END))  # noqa: S301 - our own
    assert painted == [1]


def test_what_is_made_of_strands_is_made_once(strands: Unpainted) -> None:
    """A back end's work on a figure that is kept from one build to the next."""
    calls = []

    def count(items: Sequence[Item]) -> int:
        calls.append(items)
        return len(items)

    assert (strands.once(count), strands.once(count)) == (2, 2)
    assert len(calls) == 1
