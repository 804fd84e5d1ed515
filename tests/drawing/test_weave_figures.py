"""Over and under in the woven figures against an independent simulation of the weave."""

from __future__ import annotations

import random
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace
from tests.basket.written import constructed
from tests.drawing import specs

from slath.basket.construct import construct
from slath.basket.model import Basket, WovenBand
from slath.drawing.base.course import BaseCourse
from slath.drawing.base.weaving import stick_rods, weaving_rods
from slath.drawing.figures import draw
from slath.drawing.options import IN_ENGLISH, Options
from slath.drawing.paint.painter import Painting, paint
from slath.drawing.paint.rods import CLOSE, SMALL
from slath.drawing.paint.wardrobe import described, wardrobe
from slath.drawing.plate.plans import Plan
from slath.drawing.scene import Text, every_item
from slath.drawing.wall import side as side_figure
from slath.language.pattern import Side, SizedPattern, WeaveSpec


def side_of(weave: WeaveSpec, strands: tuple[str, ...], left_out: int = 0) -> Basket:
    """A straight round basket whose side is five rounds of one weave."""
    pattern: SizedPattern = specs.round_basket(left_out)
    assert pattern.side is not None
    side: Side = replace(
        pattern.side,
        rim=None,
        profile="straight",
        belly_mm=0.0,
        height_mm=70.0,
        bands=(specs.band("wall", weave, strands, 5),),
    )
    return construct(replace(pattern, side=side))


def painted_side(basket: Basket) -> tuple[Painting, object, list[float]]:
    """Its unrolled side painted, stakes first."""
    clothes, options = wardrobe(basket), Options()
    bands = side_figure.side_bands(basket)
    wall = side_figure._laid_out(basket, bands, options)
    heights = side_figure._heights(basket, wall)
    wall = replace(wall, head=side_figure._head(bands, wall))
    stakes = list(side_figure._stakes(basket, clothes, wall, heights))
    strands = list(side_figure._strands(basket, clothes, wall, heights))
    return paint([*stakes, *strands], SMALL), wall, heights


WEAVES = [
    (specs.wale(3), 2, 1, 3, 0),
    (specs.wale(4), 3, 1, 4, 1),
    (specs.wale(4, 2), 2, 2, 4, 0),
    (specs.pair(), 1, 1, 2, 0),
    (specs.rand(), 1, 1, 1, 1),
    (specs.rand(2, 1), 2, 1, 1, 0),
    (specs.chase(), 1, 1, 2, 0),
]


@pytest.mark.parametrize(("weave", "before", "behind", "rods", "left_out"), WEAVES)
def test_unrolled_side_lies_over_and_under_as_simulated(
    weave: WeaveSpec, before: int, behind: int, rods: int, left_out: int
) -> None:
    """At random crossings of strand and stake the figure paints in front what a count by hand says goes in front."""
    basket = side_of(weave, ("plain",) * rods, left_out)
    count = basket.working
    painting, wall, _ = painted_side(basket)
    stakes = count + 2
    chosen = random.Random(4)  # noqa: S311 - a fixed choice of crossings
    checked = 0
    for number, rod in enumerate(painting.rods[stakes:], start=stakes):
        index, lap = int(rod.name.split(" ")[2]), int(rod.name.split(" ")[4]) - 1
        mine = painting.cloud.at[painting.cloud.rod == number]
        for place in chosen.sample(range(count), 8):
            travelled = lap * count + place
            last = index + count * 5 - 1
            if not index <= travelled <= min(last, 5 * count - 1):
                continue
            x = wall.x(place + 0.5)  # type: ignore[attr-defined]
            y = float(mine[np.abs(mine[:, 0] - x).argmin(), 1])
            in_front = painting.layer_at(number, float(x), y) > painting.layer_at(place, float(x), y)
            assert in_front == specs.goes_before(before, behind, index, travelled), (rod.name, place)
            checked += 1
    assert checked > 25


def test_colours_move_as_the_remainder_says() -> None:
    """On 37, 38 and 39 stakes three colours step left, right and stand upright (Choate): read off the painted strands."""
    found = {}
    for count, left_out in ((39, 1), (38, 2), (37, 3)):
        basket = side_of(specs.wale(3), ("plain", "rust", "slate"), left_out)
        assert basket.working == count
        painting, wall, _ = painted_side(basket)
        front = [front_colours(painting, wall, count, lap) for lap in (1, 2)]
        shifts = [
            shift for shift in (-1, 0, 1) if all(front[1][p] == front[0][(p - shift) % count] for p in range(6, 30))
        ]
        assert len(shifts) == 1
        found[count] = shifts[0]
    assert found == {39: 0, 38: 1, 37: -1}


def front_colours(painting: Painting, wall: object, count: int, lap: int) -> list[str]:
    """The colour of the float that begins over each stake in one round."""
    colours = [""] * count
    for number, rod in enumerate(painting.rods[count + 2 :], start=count + 2):
        index = int(rod.name.split(" ")[2])
        if int(rod.name.split(" ")[4]) - 1 != lap:
            continue
        mine = painting.cloud.at[painting.cloud.rod == number]
        for place in range(count):
            x = float(wall.x(place + 0.5))  # type: ignore[attr-defined]
            y = float(mine[np.abs(mine[:, 0] - x).argmin(), 1])
            begins = (lap * count + place - index) % 3 == 0
            if begins and painting.layer_at(number, x, y) > painting.layer_at(place, x, y):
                colours[place] = IN_ENGLISH.text(described(rod.dress))
    return colours


def painted_base(pattern: SizedPattern) -> tuple[Painting, BaseCourse, Plan, int]:
    """The woven base of a pattern painted at full size, sticks first."""
    basket = construct(pattern)
    course = BaseCourse(basket.base, 5.0, 2.75)
    plan = Plan(100.0, 100.0, 1.0, below=True)
    clothes = wardrobe(basket)
    sticks = stick_rods(plan, course, clothes, 4.0)
    weaving = weaving_rods(plan, course, clothes)
    return paint([*sticks, *weaving], replace(CLOSE, gap=0.2)), course, plan, len(sticks)


@pytest.mark.parametrize("name", ["round_basket", "oval_basket"])
def test_woven_base_lies_over_and_under_as_simulated(name: str) -> None:
    """Past single stick ends each strand of the base alternates faces: every strand, at random ends of the last band."""
    pattern = getattr(specs, name)()
    painting, course, plan, sticks = painted_base(pattern)
    band: WovenBand = course.bands[-1]
    count, pitch = band.uprights, band.pitch.value
    passed_before = sum(item.uprights * len(item.rounds) for item in course.bands[:-1])
    assert passed_before % 2 == 0  # so the first end of the last band is met as if weaving began there
    chosen = random.Random(11)  # noqa: S311 - a fixed choice of ends
    checked = 0
    ends = course.base.ends
    rod_of_stick = {rod.name: number for number, rod in enumerate(painting.rods)}
    for number in range(sticks, len(painting.rods)):
        rod = int(painting.rods[number].name.split(" ")[1])
        for travelled in sorted(chosen.sample(range(count, count * (len(band.rounds) - 1)), 40)):
            end = ends[travelled % count]
            row = (rod + 0.5) / 2 if band.spec.weave.kind == "chase" else 0.5
            way = band.from_mm + pitch * (travelled / count + row)
            x, y = plan.at(course.end_at(end.number - 1, np.array([way])))[0].tolist()
            stick = rod_of_stick[f"stick {end.stick}"]
            in_front = painting.layer_at(number, x, y) > painting.layer_at(stick, x, y)
            assert in_front == ((travelled - rod) % 2 == 0), (rod, travelled, end.number)
            checked += 1
    assert checked == 80


ROUND = """
base: {kind: round slath, diameter: 6 in, pierced: 4, threaded: 4, material: sticks,
  weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side:
  height: 4 in
  bands:
    - {weave: three-rod wale, strands: plain, rounds: 2}
    %s
    - {weave: pairing, strands: plain, to: top}
"""
CROSSED = ROUND % "- {open: 1 in}\n    - cross_stakes: {count: %d}"
SHORT = ROUND % "- {weave: packing, strands: plain, rounds: 4, short_rows: {over: %s, shorter: 1}}"


@pytest.mark.parametrize("count", [1, 2])
def test_stakes_that_cross_change_places_in_the_side(count: int, tmp_path: Path) -> None:
    """By hand: of each 2 or 4 neighbours the first half ends as far to the right as the second ends to the left of its own
    place, and passes in front of it.
    """
    painting, wall, _ = painted_side(constructed(tmp_path, CROSSED % count))
    stakes = [rod for rod in painting.rods if rod.name.startswith("stake")][:32]
    spacing = wall.spacing  # type: ignore[attr-defined]
    for place, rod in enumerate(stakes):
        leads = place // count % 2 == 0
        moved = float(rod.points[-1, 0] - rod.points[0, 0]) / spacing
        assert moved == pytest.approx(count if leads else -count)
    x, y = float(stakes[0].points[[0, -1], 0].mean()), float(stakes[0].points[2, 1])
    assert painting.layer_at(0, x, y) > painting.layer_at(count, x, y)


@pytest.mark.parametrize("over", ["6 to 15", "3 to 18"])
def test_short_rows_begin_before_their_first_stake_and_alternate(over: str, tmp_path: Path) -> None:
    """As the steps tell them: laid in behind the stake on the left, before the first, and on the other face row by row."""
    first, last = (int(number) for number in over.split(" to "))
    basket = constructed(tmp_path, SHORT % over)
    painting, _, _ = painted_side(basket)
    packed = [number for number, rod in enumerate(painting.rods) if rod.name.startswith("1 rod")]
    assert len(packed) == 4
    seen = 0
    for place, number in enumerate(packed):
        for stake in range(first + (place + 1) // 2, last - place // 2 + 1):
            x = float(painting.rods[stake - 1].points[0, 0])
            line = painting.rods[number].points
            y = float(np.interp(x, line[:, 0], line[:, 1]))
            seen += 1
            in_front = painting.layer_at(number, x, y) > painting.layer_at(stake - 1, x, y)
            assert in_front == ((stake - first + place) % 2 == 0), (place, stake)
    assert seen > 20
    words = {item.words for item in every_item(draw("stroke-packing", basket).items) if isinstance(item, Text)}
    assert f"before {first}, behind {first + 1}" in words
    assert f"Turn round {last}, weave back on top" in words
