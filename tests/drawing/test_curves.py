"""Curves through knots, even steps and thinning, against scipy and shapely."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator
from shapely.geometry import LineString, Point

from slath.drawing.paint.curves import (
    beside,
    catmull_rom,
    eased,
    monotone,
    resample,
    settled,
    spline,
    thinned,
    travelled,
)


def test_monotone_agrees_with_scipy_between_inner_knots() -> None:
    """Inside, the monotone cubic is the one scipy calls PCHIP (Fritsch and Butland's harmonic slopes)."""
    knots = np.array([0.0, 0.5, 1.2, 2.0, 2.4, 3.5, 4.0])
    values = np.array([0.0, 1.0, 1.0, -2.0, -1.0, 0.5, 0.6])
    at = np.linspace(knots[1], knots[-2], 200)
    assert np.allclose(monotone(knots, values, at), PchipInterpolator(knots, values)(at), atol=1e-12)


def test_monotone_never_overshoots() -> None:
    """A strand's depth stays between the two faces of its stakes."""
    rng = np.random.default_rng(7)
    values = rng.choice([-1.0, 1.0], 40)
    at = np.linspace(0, 39, 2000)
    line = monotone(np.arange(40.0), values, at)
    assert line.min() >= -1.0 - 1e-12
    assert line.max() <= 1.0 + 1e-12


def test_spline_and_catmull_rom_pass_through_their_knots() -> None:
    """Both curves meet every knot."""
    knots = np.array([[0.0, 0.0, 1.0], [2.0, 1.0, 0.0], [3.0, 4.0, 2.0], [6.0, 4.5, 2.0]])
    at = np.array([0.0, 1.0, 2.5, 4.0])
    assert np.allclose(spline(at, knots, at), knots)
    assert np.allclose(catmull_rom(knots, 10)[::10], knots)


def test_resample_gives_equal_steps_and_keeps_what_lies_beside() -> None:
    """Points come in equal steps along the line, with values read at the same places."""
    line = np.array([[0.0, 0.0, 0.0], [3.0, 4.0, 0.0], [3.0, 14.0, 0.0]])
    even, light = resample(line, 0.5, np.array([0.0, 5.0, 15.0]))
    steps = np.diff(travelled(even))
    assert np.allclose(steps, steps[0], atol=0.01)
    assert np.allclose(light, travelled(even), atol=0.05)


def test_settled_keeps_both_ends() -> None:
    """Evening a line does not move its ends."""
    rng = np.random.default_rng(3)
    line = np.column_stack([np.arange(60.0), rng.normal(0, 1, 60), np.zeros(60)])
    even = settled(line, 7)
    assert np.array_equal(even[[0, -1]], line[[0, -1]])
    assert np.abs(np.diff(even[:, 1], 2)).sum() < 0.3 * np.abs(np.diff(line[:, 1], 2)).sum()


@pytest.mark.parametrize("tolerance", [0.01, 0.03])
def test_thinned_line_strays_no_further_than_asked(tolerance: float) -> None:
    """Chords stay within about the tolerance of the curve (half as much again at changes of curvature), with fewer points."""
    turn = np.linspace(0, 4 * np.pi, 900)
    line = np.column_stack([turn * 4, 6 * np.sin(turn)])
    thin = thinned(line, tolerance)
    chords = LineString(thin)
    assert len(thin) < len(line) / 4
    assert max(chords.distance(Point(*point)) for point in line) < 1.5 * tolerance


def test_eased_and_beside() -> None:
    """An eased step goes from 0 to 1; a line beside a straight one is parallel, to its left."""
    assert eased([0.0, 1.0, 2.0, 3.0], 1.0, 2.0).tolist() == [0.0, 0.0, 1.0, 1.0]
    line = np.column_stack([np.arange(5.0), np.zeros(5)])
    assert np.allclose(beside(line, 2.0)[:, 1], 2.0)
