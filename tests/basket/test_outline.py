"""Outlines by arc length against closed forms, scipy's elliptic integral and shapely."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe

from slath.basket.outline import between, curve_between, curve_of, ellipse_perimeter, grown, turned_over
from slath.language.pattern import Outline

sizes = st.floats(20, 1500)


@given(length=sizes, share=st.floats(0.05, 1.0))
def test_ellipse_perimeter_is_the_complete_elliptic_integral(length: float, share: float) -> None:
    """Perimeter = 4 a E(m), m = 1 − b²/a² (scipy.special.ellipe, after Abramowitz and Stegun 17.3.3)."""
    a, b = length / 2, length * share / 2
    assert ellipse_perimeter(length, length * share) == pytest.approx(4 * a * ellipe(1 - (b / a) ** 2), rel=1e-12)


SHAPES = [
    Outline("circle", 228.6, 228.6),
    Outline("ellipse", 279.4, 177.8),
    Outline("ellipse", 508.0, 90.0),
    Outline("stadium", 300.0, 120.0),
    Outline("rounded rectangle", 305.0, 254.0, 40.0),
    Outline("rectangle", 228.6, 152.4),
    Outline("half round", 254.0, 127.0),
    Outline("half round", 330.0, 200.0),
]


@pytest.mark.parametrize("outline", SHAPES, ids=lambda item: item.shape)
def test_points_lie_at_even_arc_lengths_round_the_outline(outline: Outline) -> None:
    """A ring of many points has the outline's perimeter, and neighbours are one share of it apart (shapely lengths)."""
    curve, count = curve_of(outline), 4000
    ring = shapely.LinearRing([curve.point(index / count) for index in range(count)])
    assert ring.length == pytest.approx(curve.perimeter, rel=2e-4)
    assert ring.is_ccw
    steps = [math.dist(curve.point(i / count), curve.point((i + 1) / count)) for i in range(count)]
    middle = sorted(steps)[count // 2]
    assert middle == pytest.approx(curve.perimeter / count, rel=1e-3)
    left, bottom, right, top = ring.bounds
    assert right - left == pytest.approx(outline.length_mm, rel=1e-4)
    assert top - bottom == pytest.approx(outline.width_mm, rel=1e-4)


@pytest.mark.parametrize("outline", SHAPES, ids=lambda item: item.shape)
def test_normals_point_straight_out(outline: Outline) -> None:
    """The normal is square to the run of the outline and leads away from its middle."""
    curve = curve_of(outline)
    for index in range(57):
        u = (index + 0.37) / 57
        (x0, y0), (x1, y1) = curve.point(u - 1e-5), curve.point(u + 1e-5)
        nx, ny = curve.normal(u)
        assert math.hypot(nx, ny) == pytest.approx(1)
        assert abs((x1 - x0) * nx + (y1 - y0) * ny) < 1e-6
        x, y = curve.point(u)
        assert x * nx + y * ny > 0


def test_half_round_is_a_straight_back_and_half_an_ellipse() -> None:
    """The back is as long as the whole, the front half the perimeter of an ellipse twice as wide (scipy's integral)."""
    length, width = 330.0, 200.0
    curve = curve_of(Outline("half round", length, width))
    a, b = max(length / 2, width), min(length / 2, width)
    front = 2 * a * ellipe(1 - (b / a) ** 2)
    assert curve.perimeter == pytest.approx(length + front, rel=1e-9)
    assert curve.point(0.0)[1] == pytest.approx(
        0.0, abs=1e-6
    )  # half-way down the right flank, as others begin at the right
    on_the_back = sum(abs(curve.point(index / 3000)[1] - width / 2) < 1e-9 for index in range(3000))
    assert on_the_back / 3000 == pytest.approx(length / curve.perimeter, abs=1e-3)
    over = turned_over(curve)
    assert shapely.LinearRing([over.point(index / 500) for index in range(500)]).is_ccw
    assert over.point(0.75)[1] == pytest.approx(-width / 2)  # the back lies towards the maker now
    assert curve.point(0.25)[1] == pytest.approx(width / 2)


def test_rounded_rectangle_matches_shapely_buffer() -> None:
    """A rounded rectangle is a smaller rectangle buffered by its corner radius (shapely)."""
    inner = shapely.box(-100, -60, 100, 60).buffer(30, quad_segs=512)
    assert curve_of(Outline("rounded rectangle", 260, 180, 30)).perimeter == pytest.approx(inner.length, rel=1e-5)


def test_outlines_of_one_family_mix_by_size() -> None:
    """Half-way between a circle and an ellipse is the ellipse of mean sizes."""
    middle = between(Outline("circle", 100, 100), Outline("ellipse", 200, 120), 0.5)
    assert middle == Outline("ellipse", 150, 110)
    assert grown(middle, -10) == Outline("ellipse", 130, 90)


def test_outlines_of_two_families_blend_stake_by_stake() -> None:
    """A rectangle turning into an ellipse lies point by point between the two and keeps even spacing."""
    first, second = Outline("rectangle", 200, 100), Outline("ellipse", 240, 140)
    blend = curve_between(first, second, 0.5)
    ring = shapely.LinearRing([blend.point(index / 720) for index in range(720)])
    left, bottom, right, top = ring.bounds
    assert (right - left, top - bottom) == pytest.approx((220, 120), rel=0.01)
    assert blend.perimeter == pytest.approx(ring.length, rel=1e-3)
    count = 90
    steps = [math.dist(blend.point(i / count), blend.point((i + 1) / count)) for i in range(count)]
    assert max(steps) == pytest.approx(blend.perimeter / count, rel=0.01)
