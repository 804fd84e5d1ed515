"""Strands that run on, bands that stop at what is in hand, and sizes that follow from the bands."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.basket.written import constructed

from slath.basket.courses import runs_on
from slath.basket.model import Basket
from slath.basket.strand_lies import lying
from slath.quantities.measuring import quantities_of

PATTERN = """
base: {{kind: round slath, {size}pierced: 5, threaded: 4, material: sticks, weaving: [{base}]}}
stakes: {{material: stakes, per_end: 2, leave_out: 1, length: 24 in}}
side: {{{height}bands: [{bands}]}}
border: {{kind: closed}}
"""
WALE = "{weave: three-rod wale, strands: plain, rounds: 2}"


def basket(folder: Path, bands: str, base: str = "{weave: pairing, strands: plain, to: edge}", **given: str) -> Basket:
    """Thirty-five stakes and these bands."""
    words = {"size": "diameter: 7 in, ", "height": "", **given}
    return constructed(folder, PATTERN.format(bands=bands, base=base, **words))


@pytest.mark.parametrize(
    ("second", "on"),
    [
        ("{weave: randing, strands: rust, rounds: 5}", True),
        ("{weave: randing, strands: rust, rounds: 5, goes_on: no}", False),
        ("{weave: randing, strands: plain, rounds: 5}", False),
        ("{weave: before 2 behind 1, strands: rust, rounds: 5}", False),
        ("{weave: before 2 behind 1, strands: rust, rounds: 5, goes_on: yes}", True),
        ("{weave: randing, strands: rust, rounds: 5, worked: in twos}", False),
    ],
)
def test_strands_run_on_where_only_the_shape_changes_or_as_told(second: str, on: bool, tmp_path: Path) -> None:
    """A strand is not cut because the side takes another slope; another course goes on with it only as the designer says."""
    first = "{weave: randing, strands: rust, rounds: 4, ends_at: {diameter: 7 1/4 in}}"
    made = basket(tmp_path, f"{WALE}, {first}, {second}")
    assert runs_on(made, made.bands[2]) is on


def test_a_strand_that_runs_on_has_one_beginning_and_one_end(tmp_path: Path) -> None:
    """The list is that of one band of nine rounds: one start, one finish, one join fewer than of two bands."""
    split = "{weave: randing, strands: rust, rounds: 4}, {weave: randing, strands: rust, rounds: 5}"
    whole = "{weave: randing, strands: rust, rounds: 9}"
    runs = {}
    for name, bands in (("split", split), ("whole", whole)):
        runs[name] = [
            run for run in quantities_of(basket(tmp_path, f"{WALE}, {bands}")).strands if run.material == "rust"
        ]
    (split_run,), (whole_run,) = runs["split"], runs["whole"]
    assert split_run.length_mm.value == pytest.approx(whole_run.length_mm.value)
    assert (split_run.pieces.value, split_run.rounds) == (whole_run.pieces.value, 9)


@pytest.mark.parametrize("used", range(1, 12))
def test_rounds_follow_from_the_strands_in_hand(used: int, tmp_path: Path) -> None:
    """As many whole rounds as so many pieces weave, and not one more; all of them are on the list."""
    made = basket(tmp_path, f"{WALE}, {{weave: pairing, strands: rust, until_used: {used}}}")
    (run,) = [run for run in quantities_of(made).strands if run.material == "rust"]
    rounds = len(made.bands[1].rounds)
    assert run.pieces.value == used
    needed = run.woven_mm.value + used * 76.2  # a lap at every join and for the ends of each strand
    assert rounds == 1 or needed <= used * run.piece_mm.value * 1.02
    assert needed * (rounds + 1) / rounds > used * run.piece_mm.value * 0.98


def test_side_goes_on_until_so_much_stake_is_left(tmp_path: Path) -> None:
    """24 in stakes, 2 in in the base, 12 in left standing: 10 in up the side, to within a round."""
    made = basket(tmp_path, f"{WALE}, {{weave: randing, strands: plain, leaves: 12 in}}")
    assert made.profile is not None
    assert made.profile.along_mm == pytest.approx(10 * 25.4, abs=made.bands[1].pitch.value)


def test_base_is_as_wide_as_its_rounds_make_it(tmp_path: Path) -> None:
    """No size given: the slath, and on either side the rounds at their pitch."""
    bands = "{weave: pairing, strands: plain, rounds: 4, worked: grouped}, {weave: pairing, strands: plain, rounds: 9}"
    made = basket(tmp_path, WALE, bands, size="")
    assert made.base.slath is not None
    rounds = sum(band.reached_mm for band in made.base.bands)
    assert made.base.edge.outline.width_mm == pytest.approx(made.base.slath.width_mm + 2 * rounds)
    assert made.base.reached_mm == pytest.approx(made.base.edge.outline.width_mm)


def test_flat_strands_lie_as_they_are_laid(tmp_path: Path) -> None:
    """Folded it is half as wide and twice as thick; twisted it is round, with the same section and some air; never wider."""
    plain = basket(tmp_path, WALE).pattern.materials["plain"]
    flat = replace(plain, stock=replace(plain.stock, width_mm=6.0, thickness_mm=0.5))
    assert lying(flat, "flat") == (6.0, 0.5)
    assert lying(flat, "folded") == (3.0, 1.0)
    across, thick = lying(flat, "twisted")
    assert across == thick
    assert math.pi * across**2 / 4 == pytest.approx(3.0 * 1.1**2)


def test_ends_go_down_through_the_bands_named(tmp_path: Path) -> None:
    """Down to the lower edge of the lowest of them, however the rounds come out."""
    text = PATTERN.format(
        bands=f"{WALE}, {{name: wall, weave: randing, strands: rust, rounds: 6}}, {{name: top, weave: three-rod wale, strands: plain, rounds: 2}}",
        base="{weave: pairing, strands: plain, to: edge}",
        size="diameter: 7 in, ",
        height="",
    ).replace(
        "{kind: closed}", "{passes: [[behind 1, out], {moves: [before 1, behind 1, down], through: [top, wall]}]}"
    )
    made = constructed(tmp_path, text)
    assert made.border is not None
    assert made.border.passes[1].spec.depth_mm == pytest.approx(made.bands[1].reached_mm + made.bands[2].reached_mm)
