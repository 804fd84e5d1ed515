"""The finished basket: over and under against an independent simulation, where everything stands, and what is in it."""

from __future__ import annotations

import gzip
import random
from collections.abc import Iterable
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace
from shapely.geometry import LineString, Point, Polygon
from tests.basket.written import constructed
from tests.drawing import specs

from slath.basket.construct import construct
from slath.basket.model import Basket
from slath.drawing.figures import draw_figures
from slath.drawing.options import Options
from slath.drawing.paint.painter import Painting, paint
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.scene import Ellipse, Item, every_item
from slath.drawing.scene import Path as Drawn
from slath.drawing.view.body import body, side_surface
from slath.drawing.view.crests import crest_of
from slath.drawing.view.figure import _woven_walls, draw_view
from slath.drawing.view.in_space import Eye, SpaceRod
from slath.drawing.view.lid import set_lid
from slath.drawing.wall.standing import standing_of
from slath.language import read_pattern
from slath.language.pattern import SizedPattern, StakeChange, WeaveSpec
from slath.output.svg import scene_svg
from slath.quantities.measuring import quantities_of
from slath.trade.words import UK
from slath.wording.telling import tell

# As the view is painted, with nothing dropped that is hidden: every crossing can be read.
SEEN = Brush(gap=0.0, edge=0.2, near=0.78, touching=False, shade=False, step=0.55)
ROUNDS = 4
EYE = Eye(azimuth=20.0, elevation=27.0, scale=0.45)

WEAVES = [
    (specs.wale(3), 2, 1, 3, 0),
    (specs.wale(4, 2), 2, 2, 4, 0),
    (specs.pair(), 1, 1, 2, 0),
    (specs.rand(), 1, 1, 1, 1),
    (specs.rand(2, 1), 2, 1, 1, 0),
    (specs.chase(), 1, 1, 2, 0),
]


def with_side(pattern: SizedPattern, **changes: object) -> SizedPattern:
    """The pattern with its side changed."""
    assert pattern.side is not None
    return replace(pattern, side=replace(pattern.side, height_mm=None, **changes))


def basket_of(weave: WeaveSpec, strands: tuple[str, ...], left_out: int = 0) -> Basket:
    """A straight round basket whose side is a few rounds of one weave, without a border."""
    pattern = specs.round_basket(left_out)
    band = specs.band("wall", weave, strands, ROUNDS)
    straight = with_side(pattern, rim=None, profile="straight", belly_mm=0.0, bands=(band,))
    return construct(replace(straight, border=None))


def painted(basket: Basket, eye: Eye = EYE) -> Painting:
    """Its rods as the view paints them."""
    return paint([eye.sees(rod) for rod in body(basket, wardrobe(basket))], SEEN)


def meetings(strand: Rod, stake: Rod) -> list[tuple[float, float, float]]:
    """Where two centre lines cross on the page: x, y, and how far along the strand's points that is."""
    crossing = LineString(strand.points[:, :2]).intersection(LineString(stake.points[:, :2]))
    spots = [crossing] if isinstance(crossing, Point) else list(getattr(crossing, "geoms", []))
    way = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(strand.points[:, :2], axis=0).T))])
    found = []
    for spot in spots:
        if isinstance(spot, Point):
            along = LineString(strand.points[:, :2]).project(spot)
            found.append((spot.x, spot.y, float(np.interp(along, way, np.arange(len(way))))))
    return found


def wrong_crossings(painting: Painting, count: int, weave: tuple[int, int], seed: int = 3) -> tuple[int, int]:
    """(crossings of strand and stake looked at, painted otherwise than counted by hand), in front and at the back."""
    before, behind = weave
    stakes = {
        int(rod.name.split()[1]) - 1: index for index, rod in enumerate(painting.rods) if rod.name.startswith("stake")
    }
    chosen = random.Random(seed)  # noqa: S311 - a fixed choice of crossings
    seen = wrong = 0
    for number, rod in enumerate(painting.rods):
        if not rod.name.startswith("side"):
            continue
        index = int(rod.name.split()[3])
        first, last = index - 0.85, index + count * ROUNDS - 0.15  # uprights travelled at its two ends
        for place in chosen.sample(range(count), 12):
            for x, y, at in meetings(rod, painting.rods[stakes[place]]):
                travelled = round(first + at / (len(rod.points) - 1) * (last - first) - 0.5)
                over = lies_over(painting, number, stakes[place], (x, y), at / (len(rod.points) - 1))
                if travelled % count != place or travelled < index or over is None:
                    continue
                towards = float(painting.rods[stakes[place]].points[:, 2].mean() - rod.points[:, 2].mean())
                if abs(towards) < 12.0:  # seen from its side a stake has no front
                    continue
                # The side towards the eye shows its outside, the far side its inside.
                near = towards > 0
                seen += 1
                wrong += over != (specs.goes_before(before, behind, index, travelled) == near)
    return seen, wrong


def lies_over(painting: Painting, one: int, other: int, spot: tuple[float, float], share: float) -> bool | None:
    """Whether a rod, at `share` of its points, is painted over another; None where they do not meet."""
    cloud, layers = painting.cloud, []
    line = painting.rods[one].points
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    along = float(np.interp(share * (len(way) - 1), np.arange(len(way)), way)) / way[-1]
    for rod, here in ((one, along), (other, None)):
        mine = np.nonzero(cloud.rod == rod)[0]
        if here is not None:  # of a rod that comes by once a round, this round alone
            mine = mine[np.abs(cloud.index[mine] - here * cloud.last[mine]) < 4]
        far = np.hypot(*(cloud.at[mine, :2] - spot).T)
        if float(far.min()) < 0.35 * painting.rods[rod].diameter:
            layers.append(int(painting.layer[mine[int(far.argmin())]]))
    return layers[0] > layers[1] if len(layers) == 2 and layers[0] != layers[1] else None


@pytest.mark.parametrize(("weave", "before", "behind", "rods", "left_out"), WEAVES)
def test_the_finished_side_lies_over_and_under_as_simulated(
    weave: WeaveSpec, before: int, behind: int, rods: int, left_out: int
) -> None:
    """At random crossings the view paints in front what a count by hand says goes in front, outside and inside."""
    basket = basket_of(weave, ("plain",) * rods, left_out)
    seen, wrong = wrong_crossings(painted(basket), basket.working, (before, behind))
    assert seen > 20
    assert wrong == 0


def test_the_check_of_crossings_can_fail() -> None:
    """Painted with strands inside out, most crossings are found to be wrong."""
    basket = basket_of(specs.rand(), ("plain",), 1)
    seen, wrong = wrong_crossings(painted(basket), basket.working, (1, 1))
    _, other = wrong_crossings(painted(basket), basket.working, (2, 1))
    assert wrong == 0 < other < seen


# ------------------------------------------------------------------------------------------------------- where they stand
def changed_basket(*changes: StakeChange, groups: int = 1) -> Basket:
    """A basket of 40 stakes with an open space, changes, and a wale above it."""
    pattern = specs.round_basket()
    bands = (
        specs.band("wall", specs.pair(), ("plain",), 6),
        *changes,
        specs.band("top", specs.wale(3), ("plain",), 3),
    )
    assert pattern.stakes is not None
    return construct(with_side(replace(pattern, stakes=replace(pattern.stakes, worked_as=groups)), bands=bands))


def change(action: str, count: int = 1, **more: object) -> StakeChange:
    """A change of the stakes."""
    return StakeChange(specs.AT, action, count, **more)  # type: ignore[arg-type]


def test_crossed_stakes_change_places() -> None:
    """After crossing each over the next, stakes 1 and 2 stand in one another's places, and so on round."""
    standing = standing_of(changed_basket(change("cross")))
    before, after = (standing.places(level, 0.005) for level in (0, 1))
    for one in range(0, 40, 2):
        assert after[one] == pytest.approx(before[one + 1])
        assert after[one + 1] == pytest.approx(before[one])


def test_stakes_taken_together_anew_stand_with_their_neighbours() -> None:
    """Worked in twos and taken together anew from stake 2, each stake stands beside a stake of the next group."""
    standing = standing_of(changed_basket(change("regroup", 2, first=2), groups=2))
    assert [[slot.stake for slot in group] for group in standing.levels[0][:2]] == [[0, 1], [2, 3]]
    assert [[slot.stake for slot in group] for group in standing.levels[1][:2]] == [[1, 2], [3, 4]]
    places = standing.places(1, 0.005)
    assert places[2] - places[1] == pytest.approx(0.005)
    assert (places[0] - places[39]) % 1.0 == pytest.approx(0.005)


def test_added_stakes_stand_between_and_dropped_ones_end() -> None:
    """One added beside every stake doubles the uprights and spaces them evenly; dropped ones stand nowhere above."""
    more = standing_of(changed_basket(change("add", 0)))
    assert len(more.added) == 40
    assert np.allclose(np.diff(more.fractions(1)), 1 / 80)
    less = standing_of(changed_basket(change("drop", 20)))
    assert len(less.places(1, 0.005)) == 20
    rods = {
        rod.name: rod for rod in body(changed_basket(change("drop", 20)), wardrobe(construct(specs.round_basket())))
    }
    heights = sorted(float(rods[f"stake {number}"].points[:, 2].max()) for number in range(1, 41))
    assert heights[19] < 0.8 * heights[20]


def test_strands_go_once_round_whatever_the_count() -> None:
    """Over uprights that were added, a round is still one turn round the basket."""
    basket = changed_basket(change("add", 0))
    clothes = wardrobe(basket)
    for rod in body(basket, clothes):
        if rod.name.startswith("side 1 rod 0"):
            turned = np.unwrap(np.arctan2(rod.points[:, 1], rod.points[:, 0]))
            assert (turned[-1] - turned[0]) / (2 * np.pi) == pytest.approx(3.0, abs=0.05)


@pytest.mark.parametrize(
    "border",
    [
        "kind: rope",
        "kind: plait, group: 1, added: 4, over: 1",
        "kind: plait, group: 1, added: 1, over: 1",
        "kind: rolled, rods: 4",
        "kind: open, past: 2",
        "passes: [[behind 2, out], [before 3, in]]",
        "kind: trac, moves: [behind 1, before 2, behind 1, out]",
    ],
)
def test_a_border_passes_every_stake_on_the_face_that_is_simulated(tmp_path: Path, border: str) -> None:
    """At every stake that a stake of the border passes, its line lies inside where it goes behind, outside where before."""
    basket = constructed(
        tmp_path, BASE.replace("border: {passes: [[behind 1, out], [before 2, in]]}", f"border: {{{border}}}")
    )
    assert basket.border is not None
    visits = [visit for worked in basket.border.passes for visit in worked.visits]
    line = crest_of(basket.border, 3.0)(0, 1)
    assert len(visits) > 1
    for visit in visits:
        inwards = float(np.interp(visit.offset, line[:, 0], line[:, 1]))
        assert (inwards > 0) == (visit.face == "behind"), visit


# ------------------------------------------------------------------------------------------------------------ lids, feet
BASE = """
base:
  kind: round slath
  diameter: 6 in
  sticks: 8
  material: sticks
  weaving: [{weave: pairing, strands: plain, rounds: 2, worked: grouped}, {weave: pairing, strands: plain, to: edge}]
stakes: {material: stakes, per_end: 2, leave_out: 1, depth: 1 in}
side: {height: 4 in, bands: [{weave: pairing, strands: plain, to: top}]}
border: {passes: [[behind 1, out], [before 2, in]]}
"""
LID = """
lid:
  base:
    kind: round slath
    diameter: 6 in
    sticks: 8
    material: sticks
    weaving: [{weave: pairing, strands: plain, rounds: 2, worked: grouped}, {weave: pairing, strands: plain, to: edge}]
  fit: resting
  knob: {material: plain, across: 1 in}
"""
HUNG = (
    "  hinge: {material: rust, at: [8, 11], turns: 3}\n  fastening: {kind: loop and knob, material: rust, at: [25]}\n"
)


@pytest.fixture
def lidded(tmp_path: Path) -> Basket:
    """A basket with a lid that rests on its rim and has no hinge."""
    return constructed(tmp_path, BASE + LID)


def test_every_step_of_a_lid_finds_its_figures(lidded: Basket, tmp_path: Path) -> None:
    """The lid's steps call for its own plan, stages and stroke by the names they are drawn under, each said to be its."""
    drawn = draw_figures(lidded)
    stages = tell(read_pattern(tmp_path / "basket.yaml"), lidded, quantities_of(lidded), vocabulary=UK).stages
    called = [name for stage in stages if stage.key == "lid" for step in stage.steps for name in step.figures]
    assert {"lid-base-plan", "lid-base-opening-1", "stroke-pairing"} <= set(called)
    assert set(called) <= set(drawn)
    for name in called:
        if name.startswith("lid-"):
            scene = drawn[name]
            assert scene.name == name
            assert scene.caption.startswith("Lid. ")
            assert scene.words.startswith("Of the lid. ")


def test_a_loose_lid_leans_on_the_side_and_stands_on_the_table(lidded: Basket) -> None:
    """It touches the table, lies wholly outside the basket, and near it."""
    lid = set_lid(lidded, EYE)
    assert lid is not None
    points = np.vstack([rod.points for rod in lid.rods])
    assert abs(float(points[:, 2].min())) < 4.0
    assert lidded.profile is not None
    low = points[points[:, 2] < lidded.profile.height_mm]
    far = np.hypot(low[:, 0], low[:, 1])
    radius = lidded.base.spec.outline.width_mm / 2
    assert far.min() > radius
    assert far.min() < radius + 15.0
    assert {"knob"} <= {rod.name for rod in lid.rods}


def test_a_hinged_lid_stands_open_at_its_hinges(tmp_path: Path) -> None:
    """Its lowest edge is at the rim, on the side of the stakes it hangs by, which the eye sees at the back."""
    basket = constructed(tmp_path, BASE + LID + HUNG)
    lid = set_lid(basket, EYE)
    assert lid is not None
    assert basket.profile is not None
    own = [rod for rod in lid.rods if rod.name.startswith("stick")]
    lowest = min((point for rod in own for point in rod.points.tolist()), key=lambda point: point[2])
    assert abs(lowest[2] - basket.profile.height_mm) < 20.0
    surface = side_surface(basket)
    hung = surface.at(np.array([basket.stakes[8].u]), np.array([surface.along]), 0.0)[0][0]
    assert np.hypot(*(np.array(lowest[:2]) - hung[:2])) < 45.0
    assert float(hung @ lid.eye.away) > 0.8 * float(np.linalg.norm(hung[:2]))
    names = [rod.name for rod in lid.rods]
    assert names.count("hinge") == 2
    for rod in lid.rods:
        if rod.name == "hinge":
            middle = rod.points.mean(axis=0)
            turned = np.unwrap(
                np.arctan2(rod.points[:, 2] - middle[2], (rod.points - middle) @ (hung / np.linalg.norm(hung)))
            )
            assert abs(turned[-1] - turned[0]) / (2 * np.pi) == pytest.approx(3.0, abs=0.2)
    assert "loop" in names


def test_a_foot_is_drawn_below_the_base_with_as_many_ends_as_it_has(tmp_path: Path) -> None:
    """Every end of the foot border starts at the base and lies below it, beside its upright."""
    basket = constructed(tmp_path, BASE + "foot: {passes: [[behind 1, out], [before 2, in]]}\n")
    assert basket.foot is not None
    rods = list(body(basket, wardrobe(basket)))
    feet = [rod for rod in rods if rod.name.startswith("foot")]
    assert len(feet) == basket.foot.count == 31
    assert all(float(rod.points[:, 2].max()) < 0.5 for rod in feet)
    assert min(float(rod.points[:, 2].min()) for rod in feet) < -4.0
    stands = sorted(float(np.arctan2(rod.points[0, 1], rod.points[0, 0])) for rod in feet)
    assert np.allclose(np.diff(stands), 2 * np.pi / 31, atol=1e-3)


def test_a_handle_goes_down_among_the_stakes(tmp_path: Path) -> None:
    """Both legs stand in line with the stakes, beside the stakes they were counted to."""
    basket = constructed(
        tmp_path, BASE + "handle: {kind: bow, material: sticks, rise: 5 in, at: [1, 17], feet: 2 in}\n"
    )
    bow = next(rod for rod in body(basket, wardrobe(basket)) if rod.name == "handle")
    radius = basket.base.spec.outline.width_mm / 2
    for end, number in ((0, 1), (-1, 17)):
        x, y, z = bow.points[end].tolist()
        assert np.hypot(x, y) == pytest.approx(radius, abs=0.5)
        assert z == pytest.approx(side_surface(basket).along - 50.8, abs=1.0)
        away = (np.arctan2(y, x) / (2 * np.pi) - basket.stakes[number - 1].u) % 1.0
        assert 0 < away < 0.5 / 31


# ------------------------------------------------------------------------------------------------------ flat, small enough
def test_a_flat_strand_is_painted_as_wide_as_it_is_seen() -> None:
    """A strip a centimetre wide, tilted to 60 degrees from the page, is 5 mm wide on it; a round rod stays round."""
    line = np.column_stack([np.linspace(5, 60, 40), np.full(40, 20.0), np.zeros(40)])
    across = np.tile([0.0, 0.5], (40, 1))
    flat = Rod(line, 10.0, wardrobe(construct(specs.round_basket())).stakes, across=across)
    faces = [item for item in paint([flat], SEEN).items if isinstance(item, Drawn) and item.fill]
    (area,) = [Polygon(line.points) for item in faces for line in item.subpaths]
    left, low, right, high = area.bounds
    assert high - low == pytest.approx(5.0, abs=0.02)
    assert right - left == pytest.approx(55.0, abs=0.2)


def elements(items: Iterable[Item]) -> int:
    """Paths and ellipses."""
    return sum(isinstance(item, Drawn | Ellipse) for item in every_item(items))


def test_the_view_of_a_large_basket_stays_small_enough_to_print(lidded: Basket) -> None:
    """Forty stakes and thirty rounds: under 8,000 paths and 400 kB compressed; a lid stays under the same."""
    pattern = specs.round_basket()
    bands = (specs.band("wall", specs.wale(3), ("plain", "rust", "slate"), 30),)
    large = construct(with_side(pattern, bands=bands))
    for basket in (large, lidded):
        scene = draw_view(basket, wardrobe(basket), Options())
        assert elements(scene.items) < 8000
        assert len(gzip.compress(scene_svg(scene).encode())) < 400_000


def test_everything_of_the_view_lies_above_the_table(lidded: Basket) -> None:
    """No rod of a basket without a foot goes below the table it stands on."""
    rods: list[SpaceRod] = list(body(lidded, wardrobe(lidded)))
    assert min(float(rod.points[:, 2].min()) for rod in rods) > -0.5


@pytest.mark.parametrize("name", ["wall-pocket", "short-rows", "hand-holds"])
def test_no_shade_stands_above_the_weaving(name: str) -> None:
    """What shows dark between strands is nowhere higher than the strands and stakes beside it, where rows end short too."""
    file = Path(__file__).parents[1] / "corpus" / "good" / "constructions" / f"{name}.yaml"
    (size, *_) = read_pattern(file).sizes
    basket = construct(size)
    worked = np.vstack([rod.points for rod in body(basket, wardrobe(basket))])
    shades = list(_woven_walls(basket))
    assert shades
    for spot in np.vstack(shades):
        beside = np.hypot(worked[:, 0] - spot[0], worked[:, 1] - spot[1]) < 15.0
        assert float(worked[beside][:, 2].max()) > spot[2] - 1.0
