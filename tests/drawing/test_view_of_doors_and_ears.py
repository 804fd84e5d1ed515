"""The finished view of what a reader must find in it: a doorway, carved ears, a closed bottom; and the numbers of the side."""

from __future__ import annotations

import math
import re
from pathlib import Path as FilePath

import numpy as np
import pytest
from tests.basket.written import constructed

from slath.drawing.figures import draw_figures
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.scene import Group, Path, Text, every_item
from slath.drawing.view.body import body
from slath.drawing.view.figure import eye_of

ROUND = """
base: {kind: round slath, diameter: 10 in, pierced: 4, threaded: 4, material: sticks,
  weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
"""
DOOR = """
side:
  height: 4 in
  bands:
    - {weave: three-rod wale, strands: plain, rounds: 2}
    - {weave: packing, strands: plain, rounds: 12, short_rows: {over: %s, leaves_open: yes}}
    - {weave: pairing, strands: plain, to: top}
"""
BOARD = """
  flat: {stock: us flat reed 5/8 in}
base: {kind: board, shape: circle, diameter: 8 in, thickness: 6 mm, holes: {count: 21}}
stakes: {material: stakes, below: 3 in}
side: {height: 4 in, bands: [{weave: randing, strands: flat, to: top}]}
"""


@pytest.mark.parametrize("over", ["6 to 31", "1 to 20", "3 to 25"])
def test_a_doorway_is_turned_to_the_reader(over: str, tmp_path: FilePath) -> None:
    """The middle of the bare stakes looks within thirty degrees of the eye, wherever round the basket they are."""
    first, last = (int(number) for number in over.split(" to "))
    basket = constructed(tmp_path, ROUND + DOOR % over)
    bare = [stake for stake in basket.stakes if not first <= stake.number <= last]
    at = [2 * math.pi * stake.u for stake in bare]  # on a circle, anticlockwise from the +x end
    middle = np.array([sum(map(math.cos, at)), sum(map(math.sin, at)), 0.0])
    towards = -eye_of(basket).away @ middle / np.linalg.norm(middle)
    assert towards > math.cos(math.radians(30))


def test_an_ear_is_a_lug_broad_at_its_head_and_pointed_at_its_foot(tmp_path: FilePath) -> None:
    """As figure `handle-1` shows it, and as high above the rim as the pattern says."""
    side = "side: {height: 6 in, bands: [{weave: pairing, strands: plain, to: top}]}\n"
    handle = "handles: [{kind: ears, material: sticks, count: 2, rise: 3 in}]\n"
    basket = constructed(tmp_path, ROUND + side + handle)
    ears = [rod for rod in body(basket, wardrobe(basket)) if rod.name == "ear"]
    assert len(ears) == 2
    thick = basket.pattern.materials["sticks"].thickness_mm
    for ear in ears:
        assert ear.across is not None
        broad = np.linalg.norm(ear.across, axis=1) * ear.diameter
        head = ear.points[:, 2] > basket.profile.height_mm  # type: ignore[union-attr]
        assert broad[head].max() > 2 * thick
        assert broad[0] < thick
        assert ear.points[:, 2].max() - basket.profile.height_mm == pytest.approx(76.2, abs=0.5)  # type: ignore[union-attr]


def test_an_ear_is_shown_in_its_place_and_by_its_faces(tmp_path: FilePath) -> None:
    """Two figures that differ, each with how far it stands up and how far it goes down, by hand: 3 in, and 5 in as told."""
    side = "side: {height: 6 in, bands: [{weave: pairing, strands: plain, to: top}]}\n"
    handle = "handles: [{kind: ears, material: sticks, count: 2, rise: 3 in, feet: 5 in, at: [3, 19]}]\n"
    figures = draw_figures(constructed(tmp_path, ROUND + side + handle))
    told = {}
    for name in ("handle-1", "handle-1-parts"):
        words = " ".join(item.words for item in every_item(figures[name].items) if isinstance(item, Text))
        assert "3 in (76 mm)" in words
        assert "5 in (127 mm)" in words
        told[name] = words
    assert re.search(r"\b3$|\b3 scale", told["handle-1"])  # the number of its stake
    assert "notch" in told["handle-1-parts"]
    assert "face" in told["handle-1-parts"]
    assert told["handle-1"] != told["handle-1-parts"]


@pytest.mark.parametrize(
    ("handle", "measures"),
    [
        (
            "kind: drop, material: sticks, rise: 2 in, span: 4 in, feet: 3 in, at: [9, 15]",
            {"span 4 in", "drop 2 in", "3 in"},
        ),
        ("kind: ring, material: sticks, diameter: 3 in, at: [12]", {"3 in (76 mm) over all"}),
    ],
)
def test_what_hangs_is_shown_hanging_from_the_border(handle: str, measures: set[str], tmp_path: FilePath) -> None:
    """Nothing of it goes down into the side: every point lies below the border it hangs from, with its stakes over it."""
    side = "side: {height: 6 in, bands: [{weave: pairing, strands: plain, to: top}]}\n"
    scene = draw_figures(constructed(tmp_path, f"{ROUND}{side}handles: [{{{handle}}}]\n"))["handle-1"]
    assert "hangs outside by" in scene.words
    assert "feet" not in scene.words
    texts = [item for item in every_item(scene.items) if isinstance(item, Text)]
    said = " ".join(item.words for item in texts)
    assert all(measure in said for measure in measures)
    (hung,) = (item for item in scene.items if isinstance(item, Group) and item.name in {"drop", "ring"})
    heights = [
        y for path in every_item(hung.items) if isinstance(path, Path) for line in path.subpaths for _, y in line.points
    ]
    stakes = [item for item in texts if item.words.startswith("stake")]
    assert stakes
    assert all(item.y < min(heights) + 1.0 for item in stakes)


def test_broad_weaving_closes_the_bottom_of_the_side(tmp_path: FilePath) -> None:
    """All round the basket the lowest round of broad strips reaches as low as the stakes do."""
    basket = constructed(tmp_path, BOARD)
    rods = list(body(basket, wardrobe(basket)))
    lowest_stake = min(rod.points[:, 2].min() for rod in rods if rod.name.startswith("stake"))
    (strand,) = (rod for rod in rods if rod.name.startswith("side 0"))
    assert strand.across is not None
    low = strand.points[:, 2] - np.linalg.norm(strand.across, axis=1) * strand.diameter / 2
    angle = np.degrees(np.arctan2(strand.points[:, 1], strand.points[:, 0])) // 15
    for part in range(-12, 12):
        assert low[angle == part].min() < lowest_stake + 0.5


def test_stakes_with_bye_stakes_keep_their_numbers_in_the_side(tmp_path: FilePath) -> None:
    """A bye-stake has no number of its own: the steps count the stakes."""
    bye = "bye_stakes: {material: stakes, depth: 1 in}\n"
    side = "side: {height: 3 in, bands: [{weave: pairing, strands: plain, to: top}]}\n"
    base = ROUND.replace("per_end: 2", "per_end: 1")
    scene = draw_figures(constructed(tmp_path, base + bye + side))["side"]
    texts = [item for item in every_item(scene.items) if isinstance(item, Text)]
    numbers = {item.words for item in texts if item.words.isdigit()}
    assert {"1", "5", "10", "15"} <= numbers  # sixteen stick ends, a stake and a bye-stake to each
    assert not {"20", "25", "30"} & numbers
