"""Sides: slope lengths and heights against closed forms and quadrature."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import ellipe

from slath.basket.outline import curve_of
from slath.basket.profile import profile_by_bands, profile_by_way, profile_of
from slath.language.pattern import Outline, ProfilePoint, Side


def side(rim: Outline, profile: str = "straight", belly: float = 0.0, points: tuple[ProfilePoint, ...] = ()) -> Side:
    """A side without bands."""
    return Side(("side",), None, rim, profile, belly, points, ())  # type: ignore[arg-type]


def circle(size: float) -> Outline:
    """A circle of a diameter."""
    return Outline("circle", size, size)


lengths = st.floats(40, 400)


@given(base=lengths, rim=lengths, height=lengths)
def test_straight_round_side_is_the_slope_of_a_cone(base: float, rim: float, height: float) -> None:
    """A stake of a cone is the hypotenuse of its height and half the difference of the diameters, everywhere alike."""
    profile = profile_of(side(circle(rim)), circle(base), height)
    slope = math.hypot(height, (rim - base) / 2)
    assert profile.along_mm == pytest.approx(slope)
    assert profile.slope_mm(0.37, height) == pytest.approx(slope)
    assert profile.height_of(slope / 3) == pytest.approx(height / 3)
    assert profile.outline_at(height / 2).length_mm == pytest.approx((base + rim) / 2)


def test_belly_follows_its_sine() -> None:
    """A belly of 20 mm on a straight-sided cylinder: ∫ √(1 + (bπ/h cos πt)²) by quadrature."""
    height, swell = 150.0, 20.0
    profile = profile_of(side(circle(180), "belly", swell), circle(180), height)
    exact, _ = quad(lambda h: math.hypot(1, swell * math.pi / height * math.cos(math.pi * h / height)), 0, height)
    assert profile.along_mm == pytest.approx(exact, abs=0.1)
    assert profile.outline_at(height / 2).length_mm == pytest.approx(180 + 2 * swell)


def test_bowl_is_a_quarter_ellipse() -> None:
    """The stake of a bowl is a quarter of an ellipse: a E(1 − b²/a²) with a ≥ b (Abramowitz and Stegun 17.3.3)."""
    height, out = 60.0, 90.0
    profile = profile_of(side(circle(100 + 2 * out), "bowl"), circle(100), height)
    assert profile.along_mm == pytest.approx(out * ellipe(1 - (height / out) ** 2), rel=5e-4)


def test_oval_slope_differs_from_stake_to_stake() -> None:
    """Where the rim leans out more along than across, end stakes are longer; each is the distance of its own points."""
    base, rim, height = Outline("ellipse", 280, 180), Outline("ellipse", 400, 220), 130.0
    profile = profile_of(side(rim), base, height)
    for u in (0.0, 0.1, 0.25, 0.6):
        (x0, y0), (x1, y1) = curve_of(base).point(u), curve_of(rim).point(u)
        assert profile.slope_mm(u, height) == pytest.approx(math.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2 + height**2))
    assert profile.slope_mm(0.0, height) > profile.slope_mm(0.25, height)
    assert profile.slope_mm(0.25, height) < profile.along_mm < profile.slope_mm(0.0, height)


@pytest.mark.parametrize("shape", ["straight", "belly", "bowl"])
def test_side_can_be_built_to_the_way_woven(shape: str) -> None:
    """The profile found for a way up the side has that way, and none is found for a rim out of reach."""
    spec = side(circle(240), shape, 15.0)
    found = profile_by_way(spec, circle(180), 140.0)
    assert found is not None
    assert found.along_mm == pytest.approx(140.0, abs=1e-3)
    assert profile_by_way(side(circle(600)), circle(180), 140.0) is None


def test_points_are_joined_straight() -> None:
    """A given profile runs straight from point to point, and stretches with the height asked for."""
    points = (ProfilePoint(50, circle(160)), ProfilePoint(100, circle(120)))
    profile = profile_of(side(circle(120), "points", points=points), circle(120), 200.0)
    assert profile.height_mm == 200.0
    assert profile.along_mm == pytest.approx(2 * math.hypot(100, 20))


def test_bands_that_end_at_a_size_shape_the_side() -> None:
    """A band 50 mm up the side that ends 30 mm further out stands 40 mm high (3, 4, 5)."""
    profile = profile_by_bands(circle(100), [(50.0, circle(160)), (40.0, None)])
    assert profile is not None
    assert profile.height_mm == pytest.approx(80.0)
    assert profile.outline_at(80.0).length_mm == pytest.approx(160)
    assert profile_by_bands(circle(100), [(20.0, circle(160))]) is None
