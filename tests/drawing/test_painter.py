"""The rod painter: what lies nearer is painted later, wherever two rods meet, and the same every time."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from shapely.geometry import LineString

from slath.drawing.paint import layers
from slath.drawing.paint.dress import dress
from slath.drawing.paint.layers import Cloud, crossings
from slath.drawing.paint.painter import Painting, paint
from slath.drawing.paint.rods import CLOSE, SMALL, Brush, Rod
from slath.drawing.scene import Ellipse, Path

LOOK = dress("#cf8a62", "rings")


def scattered(seed: int, count: int = 24) -> list[Rod]:
    """Straight rods thrown on the page, each at a depth of its own."""
    rng = np.random.default_rng(seed)
    rods = []
    for depth in rng.permutation(count).tolist():
        middle, turn = rng.uniform(15, 85, 2), rng.uniform(0, np.pi)
        reach = np.array([np.cos(turn), np.sin(turn)]) * rng.uniform(15, 45)
        line = np.array([[*(middle - reach), 3.0 * depth], [*(middle + reach), 3.0 * depth]])
        rods.append(Rod(line, float(rng.uniform(1.2, 3.4)), LOOK, (True, True), name=str(depth)))
    return rods


def in_sight(painting: Painting, rod: int, x: float, y: float) -> bool:
    """Whether the rod is painted at (x, y); hidden stretches are not."""
    mine = painting.cloud.at[painting.cloud.rod == rod, :2]
    return bool(len(mine)) and float(np.hypot(*(mine - [x, y]).T).min()) < 0.5 * painting.rods[rod].diameter


def wrong_meetings(painting: Painting) -> tuple[int, int]:
    """(crossings looked at, crossings painted the wrong way round), by where the centre lines truly cross."""
    seen = wrong = 0
    lines = [LineString(rod.points[:, :2]) for rod in painting.rods]
    for one, other in itertools.combinations(range(len(lines)), 2):
        spot = lines[one].intersection(lines[other])
        if spot.is_empty or not all(in_sight(painting, rod, spot.x, spot.y) for rod in (one, other)):
            continue
        above = painting.rods[one].points[0, 2] > painting.rods[other].points[0, 2]
        later = painting.layer_at(one, spot.x, spot.y) > painting.layer_at(other, spot.x, spot.y)
        seen += 1
        wrong += above != later
    return seen, wrong


@pytest.mark.parametrize("brush", [CLOSE, SMALL, Brush(pixel=0.15)])
@pytest.mark.parametrize("seed", range(6))
def test_nearer_is_painted_later_at_every_crossing(seed: int, brush: Brush) -> None:
    """Every crossing of scattered rods is painted in the order of their depths."""
    seen, wrong = wrong_meetings(paint(scattered(seed), brush))
    assert seen > 20
    assert wrong == 0


def test_the_check_can_fail() -> None:
    """Rods whose depths are turned over after painting are found to be wrong."""
    painting = paint(scattered(1))
    turned = [Rod(rod.points * np.array([1, 1, -1]), rod.diameter, rod.dress) for rod in painting.rods]
    seen, wrong = wrong_meetings(Painting(painting.items, painting.cloud, painting.layer, turned))
    assert wrong == seen > 0


def test_a_rod_weaves_over_and_under() -> None:
    """A rod that changes depth along its way lies over one and under the next: three layers at most for plain weaving."""
    way = np.linspace(0, 60, 300)
    strand = Rod(np.column_stack([way, np.full(300, 30.0), 3 * np.cos(way * np.pi / 10)]), 2.4, LOOK)
    stakes = [Rod(np.array([[10.0 * n, 10.0, 0.0], [10.0 * n, 50.0, 0.0]]), 3.0, LOOK) for n in range(1, 6)]
    painting = paint([strand, *stakes])
    faces = [painting.layer_at(0, 10.0 * n, 30) > painting.layer_at(n, 10.0 * n, 30) for n in range(1, 6)]
    assert faces == [False, True, False, True, False]
    assert painting.layer.max() <= 2


def test_rods_lying_in_a_ring_are_painted_and_counted() -> None:
    """Three rods each over the next cannot all be right as wholes, but each meeting is, since a rod is cut into runs."""
    corners = [(20.0, 20.0), (60.0, 24.0), (38.0, 60.0)]
    rods = []
    for n in range(3):
        (x0, y0), (x1, y1) = corners[n], corners[(n + 1) % 3]
        a, b = np.array([x0, y0]), np.array([x1, y1])
        start, end = a - (b - a) * 0.3, b + (b - a) * 0.3
        rods.append(Rod(np.column_stack([np.linspace(start, end, 60), np.linspace(4, -4, 60)]), 3.0, LOOK))
    painting = paint(rods)
    for n in range(3):
        x, y = corners[(n + 1) % 3]
        assert painting.layer_at((n + 1) % 3, x, y) > painting.layer_at(n, x, y)
    assert painting.released == 0


def test_painting_is_the_same_every_time() -> None:
    """Two paintings of the same rods are equal, item for item."""
    assert paint(scattered(5)).items == paint(scattered(5)).items


@pytest.mark.parametrize("diameter", [0.4, 0.75, 1.0, 1.6, 3.2])
def test_no_stroke_is_too_thin_to_print(diameter: float) -> None:
    """Every stroke is a quarter of a millimetre or more, whatever the rod."""
    for marks in ("none", "rings", "centre line", "dots"):
        rod = Rod(np.array([[5.0, 5.0, 0.0], [60.0, 25.0, 0.0]]), diameter, dress("#2c4452", marks), (True, True))
        for brush in (CLOSE, SMALL):
            widths = [
                item.width for item in paint([rod], brush).items if isinstance(item, Path | Ellipse) and item.stroke
            ]
            assert widths
            assert min(widths) >= 0.25 - 1e-9


def test_hidden_points_are_dropped_and_nothing_seen_is() -> None:
    """A rod wholly behind a wall of rods is dropped; the wall stays whole."""
    wall = [Rod(np.array([[0.0, 1.0 * n, 10.0], [40.0, 1.0 * n, 10.0]]), 1.2, LOOK) for n in range(20)]
    hidden = Rod(np.array([[10.0, 5.0, 0.0], [30.0, 14.0, 0.0]]), 1.0, LOOK)
    painting = paint([*wall, hidden], Brush(gap=0.0, pixel=0.15))
    assert (painting.cloud.rod == 20).sum() == 0
    assert len(set(painting.cloud.rod.tolist())) == 20


@pytest.mark.parametrize("at_once", [1, 7, 400, 10**9])
def test_pairs_are_those_of_every_point_with_every_other(at_once: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """However few are looked at at once; checked against all pairs there are, by the definition alone."""
    monkeypatch.setattr(layers, "_AT_ONCE", at_once)
    draw = np.random.default_rng(7)
    count = 150
    at = draw.uniform((0, 0, 0), (12, 9, 3), (count, 3))
    radius = np.where(np.arange(count) % 5 == 0, 1.4, 0.6)
    number = np.arange(count)
    found = crossings(Cloud(at, radius, number, np.zeros(count, int), np.zeros(count, int)), 0.9, 0.5)
    expected = set()
    for one, other in itertools.combinations(range(count), 2):
        together = radius[one] + radius[other]
        near = np.hypot(*(at[one, :2] - at[other, :2])) < together
        if near and abs(at[one, 2] - at[other, 2]) > 0.5 * together / 2:
            expected.add((one, other) if at[one, 2] > at[other, 2] else (other, one))
    pairs = list(zip(found.over.tolist(), found.under.tolist(), strict=True))
    assert len(pairs) == len(set(pairs)) > 100
    assert set(pairs) == expected
