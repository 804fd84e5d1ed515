"""The height of a round: by weave, by gauge, by the designer, and as handbooks print it."""

from __future__ import annotations

from datetime import date

import pytest
from msgspec.structs import replace
from tests.quantities.records import (
    CHASE,
    FOUR_WALE,
    FRENCH,
    MATERIALS,
    PAIR,
    RAND,
    SLEW,
    WALE,
    band,
    material,
    reed,
    settings,
    sized,
)

from slath.basket.pitch import passes_at, pitch_of, rows_high
from slath.language.pattern import Extent, Gauge, Stroke, WeaveSpec
from slath.units import Amount, Basis


@pytest.mark.parametrize(
    ("weave", "rows"),
    [
        (RAND, 1),
        (PAIR, 2),
        (CHASE, 2),
        (SLEW, 3),
        (WALE, 2),
        (FOUR_WALE, 3),
        (WeaveSpec("wale", (Stroke(2, 2),), 4, 1, True, "four-rod wale, before 2, behind 2"), 2),
        (WeaveSpec("wale", (Stroke(3, 2),), 5, 1, True, "five-rod wale"), 3),
        (WeaveSpec("rand", (Stroke(2, 1),), 1, 1, False, "before 2, behind 1"), 1),
        (WeaveSpec("wale", (Stroke(2, 1),), 3, 2, True, "double wale"), 4),
    ],
)
def test_rows_of_a_round_are_the_strands_on_the_busier_face(weave: WeaveSpec, rows: float) -> None:
    """A wale of k rods lies k - 1 deep outside; twined strands never less than 2, each randed row once (common practice)."""
    assert rows_high(weave, 32) == pytest.approx(rows)


def test_french_rand_passes_each_upright_twice() -> None:
    """One stroke of every rod covers two uprights each, so each upright is passed once before and once behind."""
    assert passes_at(FRENCH, 24) == 2
    assert rows_high(FRENCH, 24) == 2


def test_doubled_row_of_number_two_is_as_printed() -> None:
    """Gill 1916: a doubled row of No. 2 takes 0.15 in; two strands of 1.75 mm packed come within 3 in a hundred."""
    doubled = WeaveSpec("slew", (Stroke(1, 1),), 1, 2, False, "two-rod slewing")
    assert pitch_of(band(doubled, ("fine",)), sized(), 21).value == pytest.approx(0.15 * 25.4, rel=0.03)


def test_row_of_number_four_wale_is_as_printed() -> None:
    """Gill 1916 lists three-rod wale rows of No. 4 at 0.25 in; two strands of 2.75 mm come to that."""
    assert pitch_of(band(WALE, ("plain",)), sized(), 32).value == pytest.approx(0.25 * 25.4, rel=0.005)


def test_thirty_two_rows_of_number_two_fit_their_mat() -> None:
    """Gill 1916, mat of 5 3/4 in: 32 rows of No. 2 randing lie inside its radius, so a row is at most 0.090 in high."""
    assert pitch_of(band(RAND, ("fine",)), sized(), 13).value <= 2.875 * 25.4 / 32


def test_estimated_pitch_says_so_and_shows_its_working() -> None:
    """A pitch worked out from the packing factor is estimated, and its inputs multiply to it."""
    pitch = pitch_of(band(WALE, ("plain", "rust", "slate")), sized(), 32)
    assert pitch.basis is Basis.ESTIMATED
    product = 1.0
    for item in pitch.inputs:
        product *= item.value
    assert pitch.value == pytest.approx(product)
    assert [item.name for item in pitch.inputs] == ["strands over one another", "strand width", "pitch factor wale"]


def test_set_packing_factor_still_rests_on_the_reed() -> None:
    """With the factor set by the maker the pitch is as sure as the diameter of the reed, which is from memory."""
    pitch = pitch_of(band(RAND, ("plain",)), sized(settings=settings(pitch_factor=1.2)), 21)
    assert pitch.value == pytest.approx(2.75 * 1.2)
    assert pitch.basis is Basis.MEMORY


def test_width_counts_for_pitch_and_thickness_does_not() -> None:
    """A flat weaver half an inch wide stands half an inch high a row however thin it is."""
    flat = replace(reed("1/2 flat", 12.7), thickness_mm=1.2)
    pattern = sized(materials={**MATERIALS, "flat": material("flat", flat)})
    assert pitch_of(band(RAND, ("flat",)), pattern, 21).value == pytest.approx(12.7 * 1.08)


def test_unlike_strands_add_their_own_widths() -> None:
    """A chase of one fine and one heavier strand rises by the two widths together."""
    pitch = pitch_of(band(CHASE, ("plain", "fine")), sized(), 20)
    assert pitch.value == pytest.approx((2.75 + 1.75) * 1.08)


MEASURED = Gauge(("gauge", 0), "Three-rod  wale", "plain", 13, 76.2, None, None, "M.", date(2026, 3, 1))


def test_measured_rounds_replace_the_estimate() -> None:
    """13 rounds over 3 in, measured with the same reed in any colour, are the pitch, and the basis is measured."""
    pitch = pitch_of(band(WALE, ("rust", "slate", "plain")), sized(gauge=(MEASURED,)), 32)
    assert pitch.value == pytest.approx(76.2 / 13)
    assert pitch.basis is Basis.MEASURED
    assert "by M. on 2026-03-01" in pitch.source
    assert pitch.path == ("gauge", 0)


@pytest.mark.parametrize("strand", ["us round reed 4", "US round reed No. 4", "rust", ""])
def test_measured_strand_may_be_named_as_a_stock(strand: str) -> None:
    """A workshop's gauge names the stock, not a pattern's material; without a name it speaks for every reed."""
    entry = replace(MEASURED, strand=strand)
    assert pitch_of(band(WALE, ("plain",)), sized(gauge=(entry,)), 32).basis is Basis.MEASURED


@pytest.mark.parametrize(
    "spec", [band(FOUR_WALE, ("plain",)), band(WALE, ("fine",)), band(WALE, ("plain", "plain", "fine"))]
)
def test_measured_rounds_of_other_weave_or_reed_are_not_taken(spec: object) -> None:
    """A gauge speaks only for its own weave worked with its own reed throughout."""
    assert pitch_of(spec, sized(gauge=(MEASURED,)), 32).basis is Basis.ESTIMATED  # type: ignore[arg-type]


def test_last_measurement_counts() -> None:
    """Of two measurements of one weave the later in the file is used."""
    later = replace(MEASURED, path=("gauge", 1), rounds=12)
    assert pitch_of(band(WALE, ("plain",)), sized(gauge=(MEASURED, later)), 32).value == pytest.approx(76.2 / 12)


def test_given_pitch_comes_before_all() -> None:
    """The designer's own pitch wins over a measurement."""
    own = band(WALE, ("plain",), pitch=Amount("pitch", 7.0, "mm", Basis.GIVEN))
    pitch = pitch_of(own, sized(gauge=(MEASURED,)), 32)
    assert (pitch.value, pitch.basis) == (7.0, Basis.GIVEN)
    assert pitch.path == ("side", "bands", 0, "pitch")


def test_open_space_is_as_high_as_given() -> None:
    """A space left open has no strands; its one round is the height given."""
    space = band(WeaveSpec("open", (), 0, 0, False, "open space"), (), extent=Extent(height_mm=38.1))
    assert pitch_of(space, sized(), 32).value == 38.1
