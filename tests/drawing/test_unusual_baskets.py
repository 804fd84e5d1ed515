"""Figures of baskets out of the common: sticks that share a line, odd shares of stakes, flat and plaited weavers, a lid."""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from slath.drawing.figures import draw, figure_names_of
from slath.drawing.paint.dress import dress
from slath.drawing.paint.painter import paint
from slath.drawing.paint.rods import Rod
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.scene import Path as Line
from slath.drawing.scene import Scene
from slath.pipeline import CompiledSize, compile_pattern

TESTS = Path(__file__).parents[1]


@cache
def size_of(path: str) -> CompiledSize:
    """The first size of a pattern file."""
    return compile_pattern(TESTS.parent / path).sizes[0]


def figure(path: str, name: str) -> Scene:
    """One figure of a pattern file."""
    size = size_of(path)
    return draw(name, size.basket, size.quantities)


# White's oval has half sticks in line with one another; Gill's 66 is a frame, his 40 and 51 are of straw plait and on a board.
@pytest.mark.parametrize("basket", ["white-oval-english", "gill-66", "gill-40", "gill-51"])
def test_plans_of_published_baskets_are_drawn(basket: str) -> None:
    """Base plan and staking plan, whatever the base."""
    path = f"tests/handbook/baskets/{basket}.yaml"
    names = figure_names_of(size_of(path).basket)
    for name in ("base-plan", "staking-plan"):
        if name in names:
            assert len(figure(path, name).items) > 5


def test_odd_shares_of_stakes_are_told_at_their_ends() -> None:
    """31 stakes on 16 ends: all but one end take two; 34 on 16, as printed by Gill (11), two ends opposite each other take three.

    The count is as printed; that the two over stand opposite each other is common practice, no source.
    """
    assert "each side of every stick end but 16" in figure("patterns/toll-house.yaml", "staking-plan").words
    assert "At stick end 16 push in one only." in figure("patterns/toll-house.yaml", "staking-plan").words
    gill = figure("tests/handbook/baskets/gill-11.yaml", "staking-plan").words
    assert "each side of every stick end but 8 and 16" in gill
    assert "At stick ends 8 and 16 push in three each." in gill
    ends = Counter(stake.end for stake in size_of("tests/handbook/baskets/gill-11.yaml").basket.stakes)
    assert [ends[end] for end in range(1, 17)] == [2] * 7 + [3] + [2] * 7 + [3]


def test_the_base_plan_tells_no_sticks_of_the_lid() -> None:
    """The lid's sticks are on the list, and not on the plan of the base."""
    pieces = {piece.part for piece in size_of("patterns/toll-house.yaml").quantities.pieces}
    assert "lid sticks" in pieces
    words = figure("patterns/toll-house.yaml", "base-plan").words
    assert "Cut the base sticks" in words
    assert "lid" not in words


def test_plait_flat_and_round_material_look_different() -> None:
    """A plait bears the corners of its crossings, flat material neither light nor shade, and round material both."""
    line = np.array([[5.0, 5.0, 0.0], [45.0, 5.0, 0.0]])
    strokes = {}
    for surface in ("round", "flat", "plait"):
        items = paint([Rod(line, 3.0, dress("#d9b45b", surface=surface))]).items
        strokes[surface] = [item for item in items if isinstance(item, Line) and item.stroke]
    assert len(strokes["flat"]) == 2  # edge and body
    assert len(strokes["round"]) == 4
    assert len(strokes["plait"]) == 5
    assert all(len(mark.points) == 3 for mark in strokes["plait"][-1].subpaths)
    weavers = wardrobe(size_of("tests/handbook/baskets/gill-40.yaml").basket).weavers
    assert {look.surface for look in weavers.values()} == {"round", "plait"}


def test_broad_weaving_is_shown_broader_than_fine() -> None:
    """In the unrolled side a row of half-inch plait stands higher than the finest row, and no row is drawn finer than it."""
    lines = [
        item.width
        for group in figure("tests/handbook/baskets/gill-40.yaml", "side").items
        for item in getattr(group, "items", ())
        if isinstance(item, Line) and item.stroke
    ]
    assert max(lines) > 1.5 * 1.25
