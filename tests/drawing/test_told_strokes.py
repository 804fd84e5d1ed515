"""What the figures of first strokes tell by the place they are worked at, and by the list: lids, and new sets of rods."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.basket.written import constructed

from slath.drawing.figures import draw_figures
from slath.drawing.scene import Scene, Text, every_item
from slath.quantities.measuring import quantities_of

BOX = """
base: {kind: round slath, diameter: 6 in, pierced: 4, threaded: 4, material: sticks,
  weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 3 in, bands: [{weave: three-rod wale, strands: plain, to: top}]}
border: {passes: [[behind 1, out]]}
lid:
  base: {kind: round slath, diameter: 7 in, pierced: 4, threaded: 4, material: sticks,
    weaving: [{weave: pairing, strands: rust, to: edge}]}
  stakes: {material: stakes, per_end: 2}
  side: {height: 1 in, bands: [{weave: pairing, strands: rust, to: top}]}
  border: {passes: [[behind 1, out]]}
"""


def test_the_base_of_a_lid_is_told_by_its_sticks_and_its_side_by_its_stakes(tmp_path: Path) -> None:
    """Worked alike with the same strands, they are two figures all the same."""
    figures = draw_figures(constructed(tmp_path, BOX))
    scenes = [figures[name] for name in figures if name.startswith("lid-stroke")]
    assert len(scenes) == 2
    for scene, upright, sides in zip(
        scenes, ("stick end", "stake"), ({"away from you", "towards you"}, {"inside", "outside"}), strict=True
    ):
        assert f"round {upright} 1" in scene.words
        assert ("over 1, under 2" if upright == "stick end" else "before 1, behind 2") in scene.words
        assert sides <= {item.words for item in every_item(scene.items) if isinstance(item, Text)}


TWOS = """
base: {kind: round slath, diameter: 6 in, pierced: 4, threaded: 4, material: sticks, weaving: [
  {weave: pairing, strands: rust, rounds: 2, worked: grouped}, {weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 3 in, bands: [{weave: pairing, strands: [plain, slate], worked: in twos, to: top}]}
"""


def test_numbers_are_said_to_be_of_groups_where_they_are(tmp_path: Path) -> None:
    """Four arms of the cross, and sixteen pairs of stakes: not the sticks and stakes of the plans."""
    figures = draw_figures(constructed(tmp_path, TWOS))
    told = {name: (figures[name].words, _said(figures[name])) for name in figures if name.startswith("stroke")}
    assert len(told) == 3
    arms, pairs = told["stroke-pairing"], told["stroke-pairing-band-1"]
    if "pair 1" in arms[0]:
        arms, pairs = pairs, arms
    assert "Start: one strand folded round group 1" in arms[1]
    assert "round group 1" in arms[0]
    assert {"1", "2", "3", "4"} <= arms[1]
    assert "5" not in arms[1]
    assert "Start: two neighbouring spaces between pairs" in pairs[1]
    assert "16" in pairs[1]
    assert "32" not in pairs[1]


FRENCH = """
  short: {stock: buff willow 3 ft}
base: {kind: round slath, diameter: 6 in, pierced: 3, threaded: 3, material: sticks,
  weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: %s, bands: [{weave: french rand, strands: short, to: top}]}
border: {passes: [[behind 1, out]]}
"""


def _said(scene: Scene) -> set[str]:
    return {item.words for item in every_item(scene.items) if isinstance(item, Text)}


@pytest.mark.parametrize(("height", "sets"), [("1 in", 1), ("9 in", 2)])
def test_a_new_set_of_rods_is_shown_where_one_is_not_enough(height: str, sets: int, tmp_path: Path) -> None:
    """Twenty-four rods are prepared for an inch; for nine there are as many again, and the last panel begins anew."""
    basket = constructed(tmp_path, FRENCH % height)
    listed = quantities_of(basket)
    rods = sum(run.pieces.value for run in listed.strands if run.part == "side")
    assert rods // basket.working >= sets
    assert (rods == basket.working) == (sets == 1)
    scene = draw_figures(basket, listed)["stroke-french-randing"]
    new = [words for words in _said(scene) if words.startswith("New set")]
    assert len(new) == sets - 1
    assert ("new set begins" in scene.words) == (sets > 1)
    letters = [item.words for item in every_item(scene.items) if isinstance(item, Text)]
    assert sum(bool(re.fullmatch(r"[A-Z]\d", words)) for words in letters) >= 16  # four panels, each with its four rods
