"""The strand over the stakes, against quadrature, Peirce's own equations and approximation, and its limits."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, optimize

from slath.language.pattern import Stroke, WeaveSpec
from slath.quantities.crossing import (
    StakesTooCloseError,
    UprightSection,
    closest_mm,
    crossing_mm,
    cycle_mm,
    face_changes,
    jammed_mm,
    jammed_take_up,
    take_up,
)

ROUND_5 = UprightSection(3.25, 3.25)
REED_4 = 2.75


def weave(*strokes: tuple[int, int], rods: int = 1, twined: bool = False) -> WeaveSpec:
    """Build a weave of the given strokes."""
    return WeaveSpec("rand", tuple(Stroke(*stroke) for stroke in strokes), rods, 1, twined, "test weave")


def path_by_quadrature(spacing: float, swing: float) -> float:
    """Length of the drawn path, arc, straight, arc, by numerical quadrature of √(1 + y'²)."""
    angle = math.asin(swing / spacing)
    radius = swing / 2
    first, last = radius * math.sin(angle), spacing - radius * math.sin(angle)

    def height(x: float) -> float:
        if x <= first:
            return math.sqrt(radius**2 - x**2)
        if x >= last:
            return -math.sqrt(radius**2 - (spacing - x) ** 2)
        return radius * math.cos(angle) - math.tan(angle) * (x - first)

    assert height(0) - height(spacing) == pytest.approx(swing), "the path goes from one face to the other"
    assert height(first - 1e-9) == pytest.approx(height(first + 1e-9), abs=1e-6), "arc and straight piece meet"

    def slope(x: float) -> float:
        if x <= first:
            return -x / math.sqrt(radius**2 - x**2)
        if x >= last:
            return -(spacing - x) / math.sqrt(radius**2 - (spacing - x) ** 2)
        return -math.tan(angle)

    pieces = ((0.0, first), (first, last), (last, spacing))
    return float(sum(integrate.quad(lambda x: math.hypot(1.0, slope(x)), *piece)[0] for piece in pieces))


@pytest.mark.parametrize("spacing", [6.5, 8.0, 12.0, 17.5, 25.0, 50.0])
def test_crossing_equals_the_quadrature_of_its_path(spacing: float) -> None:
    """The crossing is the length of two arcs and the straight piece between them, integrated numerically."""
    assert crossing_mm(spacing, ROUND_5, REED_4) == pytest.approx(path_by_quadrature(spacing, 6.0), rel=1e-9)


@pytest.mark.parametrize("spacing", [6.1, 7.0, 12.0, 40.0])
def test_crossing_solves_peirces_equations(spacing: float) -> None:
    """Root-finding on Peirce's two equations (J. Textile Inst. 28, 1937) gives the same length as the closed form."""
    swing = 6.0

    def misfit(angle: float) -> float:
        straight = (swing - swing * (1 - math.cos(angle))) / math.sin(angle)
        return straight * math.cos(angle) + swing * math.sin(angle) - spacing

    angle = optimize.brentq(misfit, 1e-6, math.pi / 2, xtol=1e-14)
    straight = swing * math.cos(angle) / math.sin(angle)
    assert crossing_mm(spacing, ROUND_5, REED_4) == pytest.approx(straight + swing * angle, rel=1e-9)


@pytest.mark.parametrize("spacing", [8.0, 10.0, 12.0, 15.0, 20.0, 30.0])
def test_crimp_agrees_with_peirces_approximation(spacing: float) -> None:
    """Peirce 1937 gives h ≈ 4/3 · p · √c for crimp height h, spacing p and crimp c; it is good to 6 in a hundred."""
    crimp = crossing_mm(spacing, ROUND_5, REED_4) / spacing - 1
    assert 4 / 3 * spacing * math.sqrt(crimp) == pytest.approx(6.0, rel=0.06)


def test_crimp_of_wide_spacing_vanishes_as_the_square() -> None:
    """Far apart stakes take (S/s)²/2 more than the distance: the first term of the closed form's series."""
    for spacing in (200.0, 1000.0):
        extra = crossing_mm(spacing, ROUND_5, REED_4) / spacing - 1
        assert extra == pytest.approx((6.0 / spacing) ** 2 / 2, rel=1e-3)


def test_crossing_near_the_jam_is_a_quarter_turn_each_side() -> None:
    """As stakes close up to D + d the crossing becomes (D + d)·π/2, and at D + d or less it is refused."""
    assert crossing_mm(6.0 + 1e-9, ROUND_5, REED_4) == pytest.approx(6.0 * math.pi / 2, rel=1e-4)
    assert jammed_mm(ROUND_5, REED_4) == pytest.approx(6.0 * math.pi / 2)
    for spacing in (6.0, 5.0, 0.0):
        with pytest.raises(StakesTooCloseError) as fault:
            crossing_mm(spacing, ROUND_5, REED_4)
        assert fault.value.needed_mm == pytest.approx(6.0)


def test_strand_lies_straight_along_a_pair_of_stakes() -> None:
    """Two stakes worked as one are twice as wide: one stake's width is covered straight, the rest as for one stake."""
    pair = UprightSection(6.5, 3.25)
    assert pair.flat_mm == pytest.approx(3.25)
    single = crossing_mm(20.0 - 3.25, ROUND_5, REED_4)
    assert crossing_mm(20.0, pair, REED_4) == pytest.approx(3.25 + single)
    assert closest_mm(pair, REED_4) == pytest.approx(6.5 + 2.75)


def test_thickness_counts_for_crimp_and_width_does_not() -> None:
    """A flat weaver crimps by its thickness: half-inch flat reed 1.2 mm thick bends less than No. 4 round reed."""
    assert crossing_mm(20.0, ROUND_5, 1.2) < crossing_mm(20.0, ROUND_5, REED_4)


@pytest.mark.parametrize(
    ("strokes", "changes"),
    [
        (((1, 1),), 2),
        (((2, 1),), 2),
        (((3, 2),), 2),
        (((2, 1), (1, 1)), 4),
        (((1, 0), (0, 1)), 2),
        (((2, 0), (1, 1)), 2),
        (((1, 0),), 0),
    ],
)
def test_face_changes_are_counted_round_the_cycle(strokes: tuple[tuple[int, int], ...], changes: int) -> None:
    """A strand changes face twice a stroke, and not at all between strokes that stay on one face."""
    assert face_changes(weave(*strokes)) == changes


def test_cycle_of_a_wale_is_two_crossings_and_one_straight() -> None:
    """Before two, behind one: of the three spaces two are crossings and one is passed on the outside."""
    wale = weave((2, 1), rods=3, twined=True)
    crossing = crossing_mm(18.0, ROUND_5, REED_4)
    assert cycle_mm(wale, 18.0, ROUND_5, REED_4) == pytest.approx(2 * crossing + 18.0)
    assert take_up(wale, 18.0, ROUND_5, REED_4) == pytest.approx((2 * crossing + 18.0) / 54.0)


def test_jammed_take_up_bounds_randing_at_half_pi() -> None:
    """No weave takes more than randing with the stakes touching the strand: π/2 of the distance."""
    assert jammed_take_up(weave((1, 1))) == pytest.approx(math.pi / 2)
    assert jammed_take_up(weave((2, 1))) == pytest.approx((1 + math.pi) / 3)


@given(
    st.floats(0.5, 10),
    st.floats(0.5, 10),
    st.floats(1.01, 50),
    st.integers(1, 6),
    st.integers(1, 6),
    st.floats(0.1, 10),
)
def test_take_up_is_a_shape_and_not_a_size(
    stake: float, strand: float, apart: float, before: int, behind: int, factor: float
) -> None:
    """Take-up lies between 1 and its jammed value, falls as stakes part, and does not change when all is scaled."""
    kind = weave((before, behind))
    upright = UprightSection(stake, stake)
    spacing = (stake + strand) * apart
    found = take_up(kind, spacing, upright, strand)
    assert 1.0 < found <= jammed_take_up(kind) + 1e-9
    assert take_up(kind, spacing * 1.1, upright, strand) < found
    larger = UprightSection(stake * factor, stake * factor)
    assert take_up(kind, spacing * factor, larger, strand * factor) == pytest.approx(found, rel=1e-9)
