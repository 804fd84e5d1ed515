"""How lids are hung and borders stand in the finished view, against the measures of the list and the pattern."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from tests.basket.written import constructed
from tests.drawing.test_view import BASE, EYE, LID

from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.view.body import body
from slath.drawing.view.in_space import SpaceRod
from slath.drawing.view.lid import set_lid
from slath.drawing.wall.profile_ends import border_part

WIDE_LID = LID.replace("diameter: 6 in", "diameter: 7 in")
HINGE = "  hinge: {material: rust, at: [8, 13], turns: 3}\n"
PEGGED = "  fastening: {kind: loop and peg, material: rust, peg: sticks, at: [25]}\n"


def nearest(one: SpaceRod, others: list[SpaceRod]) -> float:
    """The least distance between centre lines, mm."""
    return min(
        float(np.linalg.norm(one.points[:, None] - other.points[None], axis=2).min()) for other in others
    )  # fmt: skip


def test_the_turns_of_hinges_reach_the_lid(tmp_path: Path) -> None:
    """An overhanging round lid on hinges far apart hangs in the turns of both, not out behind them."""
    shown = set_lid(constructed(tmp_path, BASE + WIDE_LID + HINGE), EYE)
    assert shown is not None
    hinges = [rod for rod in shown.rods if rod.name == "hinge"]
    lid = [rod for rod in shown.rods if rod.name.startswith(("base", "stick"))]
    assert len(hinges) == 2
    for hinge in hinges:
        assert nearest(hinge, lid) < 6.0


def test_a_peg_hangs_in_its_loop(tmp_path: Path) -> None:
    """As long as it is cut, and within the eye of the loop."""
    basket = constructed(tmp_path, BASE + LID + HINGE + PEGGED)
    shown = set_lid(basket, EYE)
    assert shown is not None
    (peg,) = (rod for rod in shown.rods if rod.name == "peg")
    long = float(np.linalg.norm(peg.points[-1] - peg.points[0]))
    assert long == pytest.approx(basket.pattern.settings["peg"].value, abs=0.1)
    assert nearest(peg, [rod for rod in shown.rods if rod.name == "loop"]) < peg.diameter + 6.0


@pytest.mark.parametrize("border", ["kind: rolled, rods: 4", "passes: [[behind 2, out], [before 3, in]]"])
def test_a_laid_border_stands_as_high_as_the_list_has_it(border: str, tmp_path: Path) -> None:
    """Its topmost stake within a quarter of what the section shows and the lid is fitted to."""
    text = BASE.replace("passes: [[behind 1, out], [before 2, in]]", border)
    basket = constructed(tmp_path, text)
    part = border_part(basket)
    assert part is not None
    stakes = [rod for rod in body(basket, wardrobe(basket)) if rod.name.startswith("stake")]
    top = max(float(rod.points[:, 2].max()) + rod.diameter / 2 for rod in stakes)
    assert top - part.low == pytest.approx(part.high - part.low, rel=0.25)
