"""Stake taken by a border against published allowances, quadrature of the path, and scaling."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from scipy import integrate
from tests.basket.border_words import border
from tests.quantities.records import settings

from slath.basket.border import work_border
from slath.basket.border_length import BorderNeed, along_mm, border_need, crossing_mm, tangent_mm
from slath.basket.border_path import legs_of, plait_turns
from slath.language.pattern import Border, Plait, Settings
from slath.units import Amount, Basis

INCH = 25.4
NO_4 = 2.75  # mm, from memory: the stakes of most of the handbook's small baskets


def need(spec: Border, spacing_mm: float, stake_mm: float = NO_4, habits: Settings | None = None) -> BorderNeed:
    """What one stake needs on 31 uprights."""
    made = work_border(spec, 31, spacing_mm)
    stake = Amount("stake thickness", stake_mm, "mm", Basis.MEMORY)
    spacing = Amount("spacing", spacing_mm, "mm", Basis.COUNTED)
    return border_need(made, stake, spacing, habits or settings())


# Allowances printed for borders in general: Gill 1916, White 1901 (open borders 3 in, and at least 4 in; closed borders
# 6 in). The spacing of the books' round baskets: median 0.69 in over 64 of them.
ALLOWANCES = [
    ("open border 1", ("behind 1, down",), 3.0),
    ("open border 2", ("behind 2, down",), 4.0),
    ("closed border 1", ("behind 1, out", "before 1, behind 1"), 6.0),
    ("closed border 2", ("behind 1, out", "before 2, behind 1"), 6.0),
    ("closed border, before 3", ("behind 1, out", "before 3, behind 1"), 6.0),
]


@pytest.mark.parametrize(("name", "passes", "printed_in"), ALLOWANCES, ids=[row[0] for row in ALLOWANCES])
def test_published_allowances_cover_the_need(name: str, passes: tuple[str, ...], printed_in: float) -> None:
    """At the median spacing the printed allowance is enough by our reckoning, and not more than twice what is needed."""
    assert name
    needed = need(border(*passes), 0.69 * INCH).needed.value / INCH
    assert needed <= printed_in
    assert needed > printed_in / 2


def test_plait_takes_its_published_allowance() -> None:
    """A plaited border takes 13 in at 3/4 in spacing (Gill 1916), and more where the stakes stand further apart."""
    plait = Border((), (), plait=Plait((), group=1, added=4, over=1))
    assert need(plait, 0.75 * INCH).needed.value == pytest.approx(13 * INCH)
    # Gill 1916, Model 50: hole line 41 in round with 45 stakes; 19 in stakes less 2 1/2 in of side leave 16 1/2 in.
    assert 13 * INCH < need(plait, 41 / 45 * INCH).needed.value <= 16.5 * INCH


@pytest.mark.parametrize("spacing_in", [0.45, 0.55, 0.65, 0.75])
def test_a_plait_is_never_short_of_the_book(spacing_in: float) -> None:
    """Stakes nearer together than 3/4 in are left the 13 in of the book all the same (Gill 1916)."""
    plait = Border((), (), plait=Plait((), group=1, added=4, over=1))
    found = need(plait, spacing_in * INCH)
    assert found.needed.value == pytest.approx(13 * INCH)


def test_a_plait_takes_what_its_way_takes_where_that_is_more() -> None:
    """Broad sets of thick stakes far over one another go a longer way than the book's plait, and are cut for it.

    The way of one stake, laid as straight pieces from set to set, is no longer than what is reckoned.
    """
    plait = Plait((), group=3, added=9, over=3)
    spacing, stake = 1.4 * INCH, 5.0
    found = need(Border((), (), plait=plait), spacing, stake)
    itself = next(part for part in found.parts if part.name == "plait")
    assert itself.basis is Basis.ESTIMATED
    turns = plait_turns(plait)
    assert itself.value > turns * (plait.over + 2) * spacing
    assert found.needed.value > 13 * INCH * 1.4 / 0.75


def test_designers_own_figures_are_used_and_told() -> None:
    """Tail, hand hold and depth in the pattern overrule the habits; an allowance is handed back beside the need."""
    spec = replace(border("behind 1, out", "before 2, in"), tail_mm=20.0, hand_hold_mm=100.0, allowance_mm=150.0)
    found = need(spec, 18.0)
    parts = {part.name: part for part in found.parts}
    assert parts["end past the next stake"].value == pytest.approx(9.0 + NO_4 / 2 + 20.0)
    assert parts["hand hold"].value == pytest.approx(100.0 - parts["end past the next stake"].value)
    assert found.given is not None
    assert found.given.value == 150.0
    assert found.given.basis is Basis.GIVEN


@given(st.floats(0.1, 0.95))
def test_crossing_against_quadrature(share: float) -> None:
    """The way from face to face is the arc length of its own curve: arc, tangent line, arc, integrated numerically."""
    spacing = 17.5
    apart = share * spacing
    radius, turn = apart / 2, math.asin(share)
    # y(x): round the first stake (centre 0, 0) from its top, straight, round the second (centre spacing, 0) from below.
    edge = radius * math.sin(turn)

    def slope(x: float) -> float:
        if x <= edge:
            return -x / math.sqrt(radius**2 - x**2)
        if x >= spacing - edge:
            return -(spacing - x) / math.sqrt(radius**2 - (spacing - x) ** 2)
        return -math.tan(turn)

    pieces = [(0.0, edge), (edge, spacing - edge), (spacing - edge, spacing)]
    quadrature = sum(integrate.quad(lambda x: math.hypot(1.0, slope(x)), a, b)[0] for a, b in pieces)
    assert crossing_mm(spacing, apart) == pytest.approx(quadrature, rel=1e-6)
    # The curve does come down from the top of the first to the bottom of the second.
    fallen = sum(integrate.quad(slope, a, b)[0] for a, b in pieces)
    assert fallen == pytest.approx(-apart, rel=1e-6)


def test_jammed_stakes_are_a_quarter_turn_each() -> None:
    """As the stakes close up to where they jam, the crossing tends to a quarter turn round each, without a step."""
    assert crossing_mm(10.0, 9.9999999) == pytest.approx(crossing_mm(10.0, 10.0), rel=1e-3)
    assert tangent_mm(5.0, 4.9999999) == pytest.approx(tangent_mm(5.0, 5.0), rel=1e-3)


def test_reach_times_spacing_is_the_least() -> None:
    """Along the rim a pass can take no less than the spaces it crosses, and with thin stakes it takes just that."""
    thick = sum(along_mm(leg, 18.0, 3.0) for leg in legs_of(border("behind 2, out", "before 3, in")))
    thin = sum(along_mm(leg, 18.0, 1e-6) for leg in legs_of(border("behind 2, out", "before 3, in")))
    assert thin == pytest.approx(5.5 * 18.0, rel=1e-6)
    assert thin < thick < 1.15 * thin


def test_way_of_a_trac_by_hand() -> None:
    """Behind 1, before 1, in, 3 mm stakes 18 mm apart: to the side of the first, across to the other face, half way back.

    The centre lines of a lying stake and the uprights are 3 mm apart on either face, so each crossing is the straight
    and the two arcs that touch circles of 3 mm; over the stakes that lie there it falls one thickness.
    """
    straight, turn = math.sqrt(18**2 - 6**2), math.asin(6 / 18)
    to_first = math.sqrt(18**2 - 3**2) + 3 * math.asin(3 / 18)
    expected = to_first + math.hypot(straight + 6 * turn, 3) + (straight + 6 * turn) / 2
    (leg,) = legs_of(border("behind 1, before 1, in"))
    assert along_mm(leg, 18.0, 3.0) == pytest.approx(expected)


@given(st.floats(0.2, 5.0), st.integers(1, 4), st.integers(1, 4))
def test_scaling_all_lengths_scales_the_need(by: float, behind: int, before: int) -> None:
    """A basket twice the size in every length takes twice the border, and the need is the sum of its parts."""
    spec = border(f"behind {behind}, out", f"before {before}, in")
    lengths = ("border_tail", "border_hand_hold", "bend_allowance", "border_down_depth")
    larger = settings(**{name: settings().mm(name) * by for name in lengths})
    small, large = need(spec, 18.0, 3.0), need(spec, 18.0 * by, 3.0 * by, larger)
    assert large.needed.value == pytest.approx(small.needed.value * by, rel=1e-9)
    assert small.needed.value == pytest.approx(sum(part.value for part in small.parts))


def test_need_grows_with_the_spacing_at_the_rim() -> None:
    """One allowance for all sizes is the mistake this tool is to prevent: wider stakes need more."""
    spec = border("behind 2, out", "before 3, in")
    # Five and a half spaces from the stake to where its end goes in; the rest of the end is within the hand hold.
    assert need(spec, 20.0).needed.value - need(spec, 16.0).needed.value == pytest.approx(4.0 * 5.5, abs=1.0)
