"""Parts made by themselves: their pieces and what joins them, against arithmetic done here by other means."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from tests.plan.proving import verdict

from slath.drawing.figures import draw_figures
from slath.editions import editions_of
from slath.pipeline import CompiledSize, compile_pattern
from slath.plan.planner import plan_of
from slath.quantities.results import Piece
from slath.work import BuildOptions

GOOD = Path(__file__).resolve().parents[1] / "corpus" / "good"
TIERS = GOOD / "constructions" / "tiers-on-a-stem.yaml"
BOX = GOOD / "constructions" / "partitions-and-half-lids.yaml"
FOOT = GOOD / "constructions" / "foot-laced-on.yaml"
SHADE = GOOD / "rules" / "stakes-do-not-double.yaml"
POCKET = GOOD / "constructions" / "wall-pocket.yaml"
INCH = 25.4


def _only(file: Path) -> CompiledSize:
    (size,) = compile_pattern(file).sizes
    return size


def _piece(size: CompiledSize, part: str) -> Piece:
    (found,) = [piece for piece in size.quantities.pieces if piece.part == part]
    return found


def test_stem_is_as_long_as_the_clear_height_and_both_boards() -> None:
    """8 in clear between two boards of 6 mm, cut up to the half inch."""
    stem = _piece(_only(TIERS), "upper tier: stem")
    assert stem.needed_mm.value == pytest.approx(8 * INCH + 2 * 6)
    assert stem.cut_mm.value == pytest.approx(8.5 * INCH)


def test_a_stand_is_as_high_as_what_it_is_made_of() -> None:
    """From the table: foot and board of the lower tray, 8 in clear, the upper board, its weaving and its border."""
    size = _only(TIERS)
    (part,) = size.basket.parts
    below = size.quantities.finished.height.value - _woven_and_bordered(size)
    profile = part.basket.profile
    assert profile is not None
    reached = below + 8 * INCH + 6 + profile.height_mm
    found = size.quantities.finished.height_with_parts
    assert found is not None
    assert reached < found.value < reached + 10  # a border of No. 4 stakes is no higher


def _woven_and_bordered(size: CompiledSize) -> float:
    parts = size.quantities.finished.height.inputs
    return math.fsum(
        part.value for part in parts if part.name in {"weaving, standing", "height of the border", "border"}
    )


def test_a_part_has_its_own_counts() -> None:
    """The upper tier has the 29 stakes of its own board, in the list and in its own basket."""
    size = _only(TIERS)
    assert _piece(size, "upper tier: stakes").count.value == 29
    assert [len(part.basket.stakes) for part in size.basket.parts] == [29]
    assert len(size.basket.stakes) == 41


def test_parts_made_twice_take_twice() -> None:
    """Two partitions of seven sticks, longer by both ends pushed in an inch; two half lids with two hinges each."""
    size = _only(BOX)
    sticks = _piece(size, "partition: lengthwise sticks")
    assert sticks.count.value == 14
    pushed = [part for part in sticks.parts if part.name.startswith("pushed in")]
    assert [part.value for part in pushed] == [pytest.approx(2 * INCH)]
    assert _piece(size, "half lid: hinge lashings").count.value == 4
    runs = [run for run in size.quantities.strands if run.part == "partition"]
    rows = next(band for part in size.basket.parts for band in part.basket.base.bands if part.spec.name == "partition")
    # Twice at least as long as the bare rows of one are wide.
    assert math.fsum(run.woven_mm.value for run in runs) > 2 * len(rows.rounds) * 6 * INCH


def test_lacing_goes_over_both_edges_in_every_space() -> None:
    """As many turns as spaces, none shorter than half the girth of both edges and one space on."""
    size = _only(FOOT)
    (part,) = size.basket.parts
    lacing = _piece(size, "stand: lacing")
    once = next(one for one in lacing.parts[0].inputs if one.name == "round both rims")
    spaces = part.basket.rim_uprights
    step = part.edge.perimeter / spaces
    turns = math.fsum(math.hypot(once.value, step) for _ in range(spaces))
    assert lacing.parts[0].value == pytest.approx(turns)


def test_lengths_doubled_over_a_ring_make_two_stakes_each() -> None:
    """24 stakes are 12 lengths, each twice what one stake takes and half round ring and stake between."""
    size = _only(SHADE)
    stakes = _piece(size, "stakes")
    assert stakes.count.value == 12
    over = next(part for part in stakes.parts if part.name == "over the ring")
    assert over.value == pytest.approx(math.pi * (3.0 + 2.25) / 2)
    ring = _piece(size, "base ring")
    assert ring.needed_mm.value == pytest.approx(math.pi * 4 * INCH + INCH)


@pytest.mark.parametrize("file", [TIERS, BOX, FOOT, SHADE, POCKET], ids=lambda file: file.stem)
def test_the_student_makes_it(file: Path) -> None:
    """Doing only what the acts say makes the basket and each of its parts, with every piece used as it is listed."""
    size = _only(file)
    assert verdict(plan_of(size.basket, size.quantities), size.basket, size.quantities) == ""


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_part_is_told_in_a_stage_of_its_own(language: str) -> None:
    """The text tells each part under its name, and its figures are there by the name of the part."""
    compiled = compile_pattern(BOX)
    made = editions_of(compiled, BuildOptions(editions=("text",), language=language), lambda _: None)
    text = next(data for _, data in made).decode()
    assert re.search(r"^\d+\. Partition$", text, re.MULTILINE)
    assert re.search(r"^\d+\. Half lid$", text, re.MULTILINE)
    names = list(draw_figures(compiled.sizes[0].basket, compiled.sizes[0].quantities))
    assert {"part-1-base-plan", "part-2-base-plan"} <= set(names)
