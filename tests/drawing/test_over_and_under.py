"""Over and under in side, base and stroke panels against a simulation that follows the weaves as they are printed.

The simulation moves one strand after another, upright by upright, with a list of what lies before it; it knows nothing of
how the figures are made. Weaves as in Okey, "Basket", *Encyclopaedia Britannica*, 11th ed. (randing, slewing, pairing,
waling, fitching) and Gill, *Practical Basketry*, 1916 (packing); French randing from common practice, no source: a rod at
every stake, each making one stroke in turn.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from itertools import cycle, islice

import numpy as np
import pytest
from msgspec.structs import replace
from shapely.geometry import LineString
from tests.drawing import specs
from tests.drawing.test_weave_figures import painted_base, painted_side, side_of

from slath.basket.model import Basket
from slath.drawing.figures import draw
from slath.drawing.paint.painter import Painting, paint
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.scene import Group
from slath.language.pattern import Stroke, WeaveSpec
from slath.wording.figure_names import stroke_names

ROUNDS = 5


def walk(before: int, behind: int) -> Iterator[bool]:
    """Faces of one strand, upright after upright: in front of so many, behind so many, and so on."""
    return cycle([True] * before + [False] * behind)


def slew(before: int = 1, behind: int = 1) -> WeaveSpec:
    """Two strands as one."""
    return WeaveSpec("slew", (Stroke(before, behind),), 1, 2, False, "slewing with two")


def twilled(before: int, behind: int) -> WeaveSpec:
    """Randing before some and behind others."""
    return WeaveSpec("rand", (Stroke(before, behind),), 1, 1, False, f"before {before} behind {behind}")


def fitching() -> WeaveSpec:
    """Two strands with a half twist in each space."""
    return WeaveSpec("fitch", (Stroke(1, 1),), 2, 1, True, "fitching")


# name: weave, before, behind, materials of its strands, stakes left out so that the count suits
WALLS = {
    "slewing": (slew(), 1, 1, ("plain", "rust"), 1),
    "twilled randing": (twilled(2, 2), 2, 2, ("plain",), 1),
    "rib randing": (twilled(2, 1), 2, 1, ("plain",), 0),
    "fitching": (fitching(), 1, 1, ("plain", "rust"), 0),
    "five-rod wale": (specs.wale(5), 4, 1, ("plain",) * 5, 0),
    "six-rod wale": (specs.wale(6), 5, 1, ("plain",) * 6, 0),
    "before 3 behind 2": (specs.wale(5, 3), 3, 2, ("plain",) * 5, 1),
    "double pairing": (replace(specs.pair(), as_one=2), 1, 1, ("plain", "plain", "rust", "rust"), 0),
    "French randing": (specs.french_rand(), 1, 1, ("plain", "moss"), 0),
}


def in_front(painting: Painting, strand: int, upright: int, x: float) -> bool | None:
    """Whether a strand is painted over an upright where it passes it; None where other strands hide it there."""
    mine = painting.cloud.at[painting.cloud.rod == strand]
    near = np.abs(mine[:, 0] - x)
    y = float(mine[near.argmin(), 1])
    if near.min() > 0.5:
        return None
    return painting.layer_at(strand, x, y) > painting.layer_at(upright, x, y)


def checked_wall(basket: Basket, painting: Painting, wall: object, before: int, behind: int) -> tuple[int, int]:
    """(crossings looked at, crossings painted otherwise than the walk of their strand goes), ten at random of each stretch."""
    count, french = basket.working, basket.bands[0].spec.weave.kind == "french rand"
    stakes, chosen = count + 2, random.Random(9)  # noqa: S311 - a fixed choice of crossings
    seen = wrong = 0
    for number, rod in enumerate(painting.rods[stakes:], start=stakes):
        _, _, index, _, lap = rod.name.split(" ")
        strand, start = int(index), (int(lap) - 1) * count
        passes = (before + behind) * ROUNDS if french else count * ROUNDS
        faces = list(islice(walk(before, behind), passes))
        met = [start + place for place in range(count) if 0 <= start + place - strand < passes - 1]
        for travelled in chosen.sample(met, min(10, len(met))):
            place = travelled - start
            painted = in_front(painting, number, place, float(wall.x(place + 0.5)))  # type: ignore[attr-defined]
            if painted is not None:
                seen += 1
                wrong += painted != faces[travelled - strand]
    return seen, wrong


@pytest.mark.parametrize("name", WALLS)
def test_walls_lie_as_their_weave_is_printed(name: str) -> None:
    """Every strand at random stakes, in every weave the other tests of the side leave out."""
    weave, before, behind, strands, left_out = WALLS[name]
    basket = side_of(weave, strands, left_out)
    painting, wall, _ = painted_side(basket)
    seen, wrong = checked_wall(basket, painting, wall, before, behind)
    assert seen >= 40
    assert wrong == 0


def test_a_wall_turned_over_is_found_wrong() -> None:
    """The check can fail: with its layers from the back to the front every crossing is wrong."""
    basket = side_of(specs.wale(3), ("plain",) * 3)
    painting, wall, _ = painted_side(basket)
    turned = Painting(painting.items, painting.cloud, painting.layer.max() - painting.layer, painting.rods)
    seen, wrong = checked_wall(basket, turned, wall, 2, 1)
    assert seen == wrong > 40


@pytest.mark.parametrize("name", ["round_basket", "oval_basket"])
def test_bases_alternate_from_group_to_group_and_then_from_end_to_end(name: str) -> None:
    """Walking along each strand from the slath outwards: over one group, under the next, all ends of a group alike."""
    painting, course, plan, sticks = painted_base(getattr(specs, name)())
    stick_of = {rod.name: number for number, rod in enumerate(painting.rods[:sticks])}
    ends = [LineString(plan.at(course.end_line(index, 4.0))) for index in range(len(course.base.ends))]
    chosen = random.Random(5)  # noqa: S311 - a fixed choice of crossings
    seen = 0
    for number in range(sticks, len(painting.rods)):
        rod = int(painting.rods[number].name.split(" ")[1])
        line = LineString(painting.rods[number].points[:, :2])
        crossed = [(index, line.intersection(end)) for index, end in enumerate(ends)]
        met = [
            (line.project(spot), index, spot.x, spot.y)
            for index, spots in crossed
            for spot in getattr(spots, "geoms", [spots])
            if spot.geom_type == "Point"
        ]
        met.sort()
        wanted, over = [], True
        for band in course.bands:
            groups = list(_groups(band.group_sizes))
            first = rod if band is course.bands[0] else 0
            for step in range(first, band.uprights * len(band.rounds)):
                wanted += [(end, over) for end in groups[step % band.uprights]]
                over = not over
        found = [index for _, index, _, _ in met]
        begins = next(
            at for at in range(4) if found[at : at + 12] == [end for end, _ in wanted[:12]]
        )  # the tail lies before
        met = met[begins : begins + len(wanted) - 6]
        assert [index for _, index, _, _ in met] == [end for end, _ in wanted[: len(met)]]
        for at in sorted(chosen.sample(range(len(met)), 60)):
            _, index, x, y = met[at]
            stick = stick_of[f"stick {course.base.ends[index].stick}"]
            seen += 1
            assert (painting.layer_at(number, x, y) > painting.layer_at(stick, x, y)) == wanted[at][1], (rod, at, index)
    assert seen == 120


def _groups(sizes: tuple[int, ...]) -> Iterator[list[int]]:
    first = 0
    for size in sizes:
        yield list(range(first, first + size))
        first += size


PANELS = {
    "three-rod wale": (specs.wale(3), 2, 1, ("plain", "rust", "slate")),
    "four-rod wale": (specs.wale(4), 3, 1, ("plain",)),
    "pairing": (specs.pair(), 1, 1, ("plain", "rust")),
    "randing": (specs.rand(), 1, 1, ("plain",)),
    "twilled randing": (twilled(2, 2), 2, 2, ("plain",)),
    "chasing": (specs.chase(), 1, 1, ("plain", "moss")),
    "French randing": (specs.french_rand(), 1, 1, ("plain", "moss")),
}


@pytest.mark.parametrize("name", PANELS)
def test_stroke_panels_lie_as_their_weave_is_printed(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """In every panel each strand lies behind the upright of its tail, and then as its strokes so far took it."""
    weave, before, behind, strands = PANELS[name]
    basket = side_of(weave, strands, 1 if name in {"randing", "twilled randing"} else 0)
    (figure,) = stroke_names(basket.bands[0], basket)
    paintings: list[Painting] = []

    def kept(rods: Sequence[Rod], brush: Brush) -> Painting:
        paintings.append(paint(rods, brush))
        return paintings[-1]

    monkeypatch.setattr("slath.drawing.plate.plate.paint", kept)
    scene = draw(figure, basket)
    for item in scene.items:
        if isinstance(item, Group) and item.name == "front":
            assert item.items
    moves = scene.data["moves"]
    assert isinstance(moves, list)
    panels = [
        pair
        for pair in zip(paintings, moves, strict=True)
        if len(strands) > 1 or weave.rods > 1 or pair[1] != moves[-1]
    ]
    seen = 0
    for painting, strokes in panels:
        stakes = {
            int(rod.name.split(" ")[1]): place
            for place, rod in enumerate(painting.rods)
            if rod.name.startswith("stake")
        }
        threads = [place for place, rod in enumerate(painting.rods) if not rod.name.startswith("stake")]
        for rod, (thread, made) in enumerate(zip(threads, strokes, strict=True)):
            faces = [False, *islice(walk(before, behind), made * (before + behind))]
            for upright, face in enumerate(faces, start=rod - 1):
                x = float(painting.rods[stakes[upright]].points[0, 0])
                seen += 1
                assert in_front(painting, thread, stakes[upright], x) == face, (strokes, rod, upright)
    assert seen >= 8
