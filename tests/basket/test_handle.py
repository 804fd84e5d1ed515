"""Handles against closed forms, reference integrals, published handles and common practice."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, special
from tests.quantities.records import material, reed, settings, sized

from slath.basket.handle import work_handle
from slath.basket.handle_curve import bow_of, girth_mm, twisted_mm
from slath.basket.handle_feet import facing_miss, places_from_base
from slath.basket.handle_wrap import lay_edge_to_edge, strands_to_cover
from slath.basket.model import CannotConstruct, Stake, WorkedHandle
from slath.basket.outline import curve_of
from slath.language.pattern import Handle, Outline, SizedPattern, Wrap
from slath.units import Basis

INCH = 25.4
MATERIALS = {
    "core": material("core", reed("12", 9.6)),
    "thick core": material("thick core", reed("12", 12.0)),
    "fine core": material("fine core", reed("8", 5.6)),
    "four": material("four", reed("4", 2.75)),
    "five": material("five", reed("5", 3.25)),
    "six": material("six", reed("6", 4.25)),
}
PATTERN: SizedPattern = sized(materials=MATERIALS)
RIM = curve_of(Outline("circle", 254.0, 254.0))


def stakes(count: int) -> tuple[Stake, ...]:
    """So many stakes evenly round the base, two to an end."""
    return tuple(Stake(n + 1, n / count, n // 2 + 1, "stake", "stakes", n + 1) for n in range(count))


def made(standing: int = 40, **spec: object) -> WorkedHandle:
    """A handle on a 10 in round rim with so many stakes standing."""
    values: dict[str, object] = {"path": ("handle",), "kind": "bow", "material": "core", **spec}
    return work_handle(Handle(**values), RIM, 100.0, stakes(standing), PATTERN)  # type: ignore[arg-type]


# ------------------------------------------------------------------------------------------------------------- curves
@given(st.floats(50, 600), st.floats(20, 600))
def test_half_ellipse_against_the_elliptic_integral(span: float, top: float) -> None:
    """The bow of a half ellipse is half its perimeter: 2 a E(e²), E the complete elliptic integral (scipy.special)."""
    a, b = max(span / 2, top), min(span / 2, top)
    expected = 2 * a * special.ellipe(1 - (b / a) ** 2)
    found = bow_of(Handle((), "bow", "core"), span, top, 9.6)
    assert found.length_mm == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("shape", ["half ellipse", "half circle", "square shoulders"])
def test_drawn_curve_is_as_long_as_told(shape: str) -> None:
    """The points handed to the drawing measure the length the list prints, and stand on the rim at both feet."""
    found = bow_of(Handle((), "bow", "core", shape=shape), 220.0, 180.0, 9.6)  # type: ignore[arg-type]
    drawn = sum(math.dist(a, b) for a, b in pairwise(found.points))
    assert drawn == pytest.approx(found.length_mm, rel=1e-3)
    assert found.points[0] == pytest.approx((-110.0, 0.0))
    assert found.points[-1] == pytest.approx((110.0, 0.0))
    assert max(z for _, z in found.points) == pytest.approx(180.0)


def test_half_circle_too_low_for_its_span_is_refused() -> None:
    """A half circle 220 mm across stands 110 mm high and can rise no less."""
    with pytest.raises(CannotConstruct, match="handle-too-low"):
        bow_of(Handle(("handle",), "bow", "core", shape="half circle"), 220.0, 80.0, 9.6)


@given(st.integers(2, 5), st.floats(2, 6), st.floats(15, 60))
def test_twisted_rod_against_quadrature(rods: int, rod: float, lay: float) -> None:
    """A rod of a twist is a helix: the integral of its speed along the handle, numerically."""
    radius = rod / (2 * math.sin(math.pi / rods))

    def speed(x: float) -> float:
        turn = 2 * math.pi / lay
        return math.hypot(1.0, math.hypot(radius * turn * math.sin(turn * x), radius * turn * math.cos(turn * x)))

    expected = integrate.quad(speed, 0.0, 400.0, limit=200)[0]
    assert twisted_mm(400.0, rods, rod, lay) == pytest.approx(expected, rel=1e-6)


def test_girth_of_bundles() -> None:
    """A cord round one rod is π d, round two (π + 2) d, round three in a triangle (π + 3) d, round seven (π + 6) d."""
    assert [girth_mm(rods, 2.0) / 2.0 - math.pi for rods in (1, 2, 3, 7)] == pytest.approx([0, 2, 3, 6])


# --------------------------------------------------------------------------------------------------------------- feet
def test_feet_face_each_other_on_an_even_count() -> None:
    """On 40 stakes the feet stand 20 apart; across, they stand nearest the middle of the long sides."""
    across, along = made(), made(direction="along")
    assert across.feet_at == (11, 31)
    assert along.feet_at == (1, 21)
    assert facing_miss(across.feet_at[0], across.feet_at[1], 40) == 0
    assert across.span_mm == pytest.approx(254.0)


def test_odd_count_has_no_facing_stakes() -> None:
    """Baskets with handles are made on an even number of stakes (Blanchard 1914): on 39 the best miss half a stake."""
    first, second = made(39).feet_at
    assert facing_miss(first, second, 39) == 0.5
    assert min(facing_miss(1, other, 39) for other in range(2, 40)) == 0.5


def test_places_are_counted_from_the_base() -> None:
    """Each foot is told with the stick end its stake is set at."""
    assert places_from_base(made().feet_at, stakes(40)) == ((11, 6), (31, 16))


def test_two_bows_stand_side_by_side() -> None:
    """Two bows of one set go down at neighbouring stakes and run parallel: both pairs add up to the same."""
    one, across_one, two, across_two = made(count=2).feet_at
    assert abs(one - two) == 1
    assert (one + across_one) % 40 == (two + across_two) % 40


def test_side_handles_are_shared_out() -> None:
    """Two side handles 3 in between the ends (Gill 1916, Model 10) stand opposite, each on its own two stakes."""
    left = made(40, kind="side", count=2, span_mm=3 * INCH, direction="along")
    spaces = round(3 * INCH / (RIM.perimeter / 40))
    first, second, third, fourth = left.feet_at
    assert (second - first) % 40 == spaces
    assert (third - first) % 40 == 20
    assert (fourth - second) % 40 == 20


def test_a_place_that_is_not_there_is_refused() -> None:
    """A foot cannot go down beside stake 41 of 40."""
    with pytest.raises(CannotConstruct, match="handle-no-stake"):
        made(at=(1, 41))


def test_one_place_given_is_faced() -> None:
    """With one foot given, the other goes to the stake that faces it."""
    assert made(at=(3,)).feet_at == (3, 23)


# ------------------------------------------------------------------------------------------------------------- pieces
@pytest.mark.parametrize("kind", ["bow", "twisted", "two-piece", "braided", "drop", "side"])
def test_pieces_are_the_sum_of_their_parts(kind: str) -> None:
    """What is cut is what the parts add up to, each a length of its own."""
    found = made(kind=kind, rise_mm=150.0)
    assert found.piece_mm.value == pytest.approx(sum(part.value for part in found.piece_mm.inputs))
    assert all(part.unit == "mm" and part.value > 0 for part in found.piece_mm.inputs)


def test_bow_piece_is_bow_and_two_feet() -> None:
    """Bow + two feet + trim."""
    found = made(rise_mm=150.0, feet_mm=100.0)
    assert found.piece_mm.value == pytest.approx(found.bow_mm.value + 200.0 + settings().mm("handle_trim"))


def test_two_pieces_lap_once() -> None:
    """Two scarfed pieces together are the bow, one lap, two feet and what is trimmed off each."""
    found = made(kind="two-piece", rise_mm=150.0, feet_mm=100.0, lap_mm=120.0)
    assert found.spec.pieces == 2
    together = 2 * (found.piece_mm.value - settings().mm("handle_trim"))
    assert together == pytest.approx(found.bow_mm.value + 120.0 + 200.0)


def test_braided_handle_of_a_published_basket() -> None:
    """Gill 1916, Model 26: three pieces 40 in long make a braid of 24 in; what is over goes down in two feet."""
    along = 24 * INCH
    found = made(
        kind="braided", material="four", span_mm=along / math.pi * 2, shape="half circle", rise_mm=along / math.pi - 1.4
    )
    plaited = found.piece_mm.inputs[0].value / found.bow_mm.value * along
    assert 30 * INCH < plaited < 36 * INCH
    assert found.spec.pieces == 3


def test_ring_goes_round_with_a_lap() -> None:
    """A ring 2 in over all of 4.25 mm reed measures π times its middle diameter round."""
    found = made(kind="ring", material="six", diameter_mm=2 * INCH, lap_mm=30.0)
    assert found.bow_mm.value == pytest.approx(math.pi * (2 * INCH - 4.25))
    assert found.piece_mm.value == pytest.approx(found.bow_mm.value + 30.0 + settings().mm("handle_trim"))


def test_ring_needs_a_size() -> None:
    """A ring with no diameter cannot be made."""
    with pytest.raises(CannotConstruct, match="ring-size"):
        made(kind="ring")


def test_ears_reach_to_the_base() -> None:
    """An ear goes down beside its stake to the base, 100 mm here, unless told otherwise."""
    found = made(kind="ears", count=2, rise_mm=30.0)
    assert found.foot_mm.value == 100.0
    first, second = found.feet_at
    assert facing_miss(first, second, 40) == 0


# -------------------------------------------------------------------------------------------------------------- wraps
def roped(core: str, lay_mm: float) -> WorkedHandle:
    """A bow roped in No. 4 reed."""
    wrap = Wrap(("handle", "wraps", 0), "rope", ("four",), lay_mm=lay_mm)
    return made(material=core, rise_mm=150.0, wraps=(wrap,))


@pytest.mark.parametrize("core", ["core", "thick core"])
@pytest.mark.parametrize("lay_in", [2.25, 2.5, 2.75])
def test_rope_of_number_four_takes_twelve_to_fourteen(core: str, lay_in: float) -> None:
    """With two to three inches between strands a rope wrap takes 12 to 14 strands of No. 4 (common practice, no source)."""
    assert 12 <= roped(core, lay_in * INCH).wraps[0].strands.value <= 14


@given(st.floats(40, 100))
def test_rope_strands_cover_the_handle(lay: float) -> None:
    """Unrolled, the strands side by side fill the strip: n d / cos α is the way round, to half a strand."""
    found = roped("core", lay).wraps[0]
    angle = math.radians(found.angle_degrees)
    assert math.tan(angle) == pytest.approx(math.pi * (9.6 + 2.75) / lay)
    assert found.strands.value * 2.75 / math.cos(angle) == pytest.approx(
        found.girth_mm, abs=0.5 * 2.75 / math.cos(angle) + 1e-9
    )


def test_listed_rope_strands_are_wound_as_listed() -> None:
    """Strands listed one by one are so many, and what would cover the handle is still known."""
    wrap = Wrap(("handle", "wraps", 0), "rope", ("four", "four", "five"), lay_mm=64.0, listed=True)
    found = made(rise_mm=150.0, wraps=(wrap,)).wraps[0]
    counted = roped("core", 64.0).wraps[0].strands.value
    assert found.strands.value == 3
    assert found.strands.basis is Basis.GIVEN
    assert strands_to_cover(roped("core", 64.0).wraps[0], 2.75) == counted > 3


def test_rope_strand_against_quadrature() -> None:
    """A strand is as long as the helix it lies on, integrated along the handle, and two tails."""
    handle = roped("core", 64.0)
    wrap = handle.wraps[0]
    radius = (9.6 + 2.75) / 2

    def speed(x: float) -> float:
        turn = 2 * math.pi / 64.0
        return math.sqrt(1 + (radius * turn * math.sin(turn * x)) ** 2 + (radius * turn * math.cos(turn * x)) ** 2)

    helix = integrate.quad(speed, 0.0, handle.bow_mm.value, limit=200)[0]
    assert wrap.strand_mm.value == pytest.approx(helix + 2 * settings().mm("wrap_tail"), rel=1e-6)


def test_lapping_is_length_over_width_times_girth() -> None:
    """A flat wrap edge to edge takes bow / width × girth, whatever its slant (area of the strip)."""
    wrap = Wrap(("handle", "wraps", 0), "lapping", ("five",))
    handle = made(rise_mm=150.0, wraps=(wrap,))
    found = handle.wraps[0]
    on_handle = found.strand_mm.value - 2 * settings().mm("wrap_tail")
    assert on_handle == pytest.approx(handle.bow_mm.value * found.girth_mm / 3.25, rel=1e-9)


@given(st.integers(1, 4), st.floats(0.0, 40.0))
def test_spaced_wrap_leaves_its_gap(strands: int, gap: float) -> None:
    """Along the handle, one lay holds every strand's own width and as many gaps."""
    girth = 40.0
    lay = lay_edge_to_edge(strands, 3.25, girth, gap, Wrap((), "lapping", ("five",)))
    sine = girth / math.hypot(girth, lay)
    assert lay == pytest.approx(strands * (gap + 3.25 / sine), rel=1e-9)


def test_wrap_wider_than_the_handle_is_refused() -> None:
    """Twelve strands side by side do not fit round a thin handle as one ribbon."""
    with pytest.raises(CannotConstruct, match="wrap-too-wide"):
        lay_edge_to_edge(12, 3.25, 30.0, 0.0, Wrap((), "lapping", ("five",)))


def test_second_wrap_goes_over_the_first() -> None:
    """A wrap over a full wrap goes round a handle thicker by two strands."""
    rope = Wrap(("handle", "wraps", 0), "rope", ("four",), lay_mm=64.0)
    twist = Wrap(("handle", "wraps", 1), "twist", ("five",), turns=5)
    first, second = made(rise_mm=150.0, wraps=(rope, twist)).wraps
    assert second.girth_mm == pytest.approx(first.girth_mm + math.pi * (2.75 + 3.25))
    assert second.turns == pytest.approx(5)


def test_lashing_follows_the_spaces() -> None:
    """Wider spaces take a longer lashing on the same handle: it is a path over the spaces, no multiple of the girth."""
    close, wide = made(40, rise_mm=150.0, lash="four"), made(20, rise_mm=150.0, lash="four")
    assert close.lash_mm is not None
    assert wide.lash_mm is not None
    assert wide.lash_mm.value > close.lash_mm.value
    # Four slant turns, each at least twice the spacing.
    assert close.lash_mm.value > 8 * RIM.perimeter / 40
    assert made(rise_mm=150.0).lash_mm is None
