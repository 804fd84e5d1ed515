"""Ways of building that makers use, each written as a small pattern: it is read, worked out, told and drawn as meant."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from slath.drawing.figures import draw_figures
from slath.drawing.wardrobe import wardrobe
from slath.editions import BuildOptions, editions_of
from slath.pipeline import Compilation, CompiledSize, compile_pattern
from slath.quantities.results import Piece

FOLDER = Path(__file__).resolve().parents[1] / "corpus" / "good" / "constructions"
NAMES = [file.stem for file in sorted(FOLDER.glob("*.yaml"))]
# Nobody has woven these, and nothing has been measured for them.
UNWOVEN = {"size-not-woven", "pitch-estimated"}
INCH = 25.4


@cache
def compiled(name: str) -> Compilation:
    """One of the patterns, compiled once."""
    return compile_pattern(FOLDER / f"{name}.yaml")


def only(name: str) -> CompiledSize:
    """The one size of a pattern."""
    (size,) = compiled(name).sizes
    return size


def pieces(name: str, part: str) -> list[Piece]:
    """The pieces listed under the name of a part."""
    return [piece for piece in only(name).quantities.pieces if piece.part == part]


@cache
def text(name: str) -> str:
    """The booklet as text, each paragraph on one line."""
    (set_text,) = (
        content for _, content in editions_of(compiled(name), BuildOptions(editions=("text",)), lambda _: None)
    )
    return " ".join(set_text.decode().split())


@pytest.mark.parametrize("name", NAMES)
def test_pattern_calls_for_no_note(name: str) -> None:
    """Each is a pattern that could be woven as it is written."""
    assert {note.code for note in compiled(name).notes} <= UNWOVEN


@pytest.mark.parametrize("name", NAMES)
def test_booklet_and_figures_are_made(name: str) -> None:
    """Each is told in words without a mark of the template left standing, and every figure of it is drawn with strokes."""
    assert "{" not in text(name)
    size = only(name)
    scenes = draw_figures(size.basket, size.quantities)
    assert len(scenes) > 2
    assert all(scene.items for scene in scenes.values())


# ---------------------------------------------------------------------------------------------------------- stakes
def test_stakes_of_two_colours_in_turn() -> None:
    """32 stakes in two colours are 16 of each, cut alike; odd numbers are of the first colour, and so in the drawing."""
    assert [(piece.material, piece.count.value) for piece in pieces("stakes-in-turn", "stakes")] == [
        ("stakes", 16),
        ("rust", 16),
    ]
    assert len({piece.cut_mm.value for piece in pieces("stakes-in-turn", "stakes")}) == 1
    assert [(piece.material, piece.count.value) for piece in pieces("stakes-in-turn", "bye-stakes")] == [
        ("rust", 16),
        ("stakes", 16),
    ]
    stakes = only("stakes-in-turn").basket.stakes
    assert all(stake.material == ("stakes" if stake.number % 2 else "rust") for stake in stakes)
    assert "Take them in turn, all the way round: one natural T, then one rust" in text("stakes-in-turn")
    clothes = wardrobe(only("stakes-in-turn").basket)
    assert [clothes.upright(index).letter for index in range(3)] == ["T", "R", "T"]
    assert clothes.upright(1).tones.body == only("stakes-in-turn").sized.materials["rust"].colour
