"""The filled-in test-weave form as it is read: every key, the day alone, rods of willow, and figures that contradict."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import cast

import pytest
from tests.language.fragments import codes_of, notes_of, read, read_one

from slath.language.pattern import WovenSize


def near(value: float) -> float:
    """A length that is equal but for the last digits of a float."""
    return cast("float", pytest.approx(value))


def woven(entry: str, folder: Path) -> WovenSize:
    """The entry of the only size."""
    found = read_one(f"sizes: [one]\nwoven: {{one: {entry}}}\n", folder).woven
    assert found is not None
    return found


def test_every_key_of_the_form_is_read(tmp_path: Path) -> None:
    """Measures come in as millimetres and grams, under the names the designer gave bands and materials."""
    entry = (
        "{on: 2026-03-01, by: Marsh, time: 5 hours, note: tight, height: 5 in, base_length: 9 in, base_width: 6 in, "
        "rim_length: 10 in, rim_width: 7 in, mass: 250 g, stake_cut: 16 in, stake_left: 0, rounds: {wall: 20}, "
        "band_heights: {wall: 4 in}, used: {plain: 40 ft}, left_over: {plain: 6 in}}"
    )
    assert woven(entry, tmp_path) == WovenSize(
        path=("woven", "one"), on=date(2026, 3, 1), by="Marsh", time="5 hours", note="tight", height_mm=127.0,
        base_length_mm=near(228.6), base_width_mm=near(152.4), rim_length_mm=254.0,
        rim_width_mm=near(177.8), mass_g=250.0, stake_cut_mm=near(406.4), stake_left_mm=0.0,
        rounds={"wall": 20}, band_heights_mm={"wall": near(101.6)}, used={"plain": near(12192.0)},
        left_over={"plain": near(152.4)},
    )  # fmt: skip


def test_a_diameter_is_length_and_width(tmp_path: Path) -> None:
    """A round rim or base is measured once."""
    found = woven("{on: 2026-03-01, base_diameter: 8 in, rim_diameter: 10 in}", tmp_path)
    assert found.base_length_mm == found.base_width_mm == near(203.2)
    assert found.rim_length_mm == found.rim_width_mm == 254.0


def test_the_day_alone_measures_nothing(tmp_path: Path) -> None:
    """A size that was woven on a day, and no more is known."""
    assert woven("2026-03-01", tmp_path) == WovenSize(("woven", "one"), date(2026, 3, 1))


def test_willow_is_begun_with_and_left_over_in_whole_rods(tmp_path: Path) -> None:
    """Rods are counted; a length of them means nothing."""
    materials = "materials:\n  sticks: {stock: us round reed 8}\n  stakes: {stock: us round reed 5}\n  rods: {stock: buff willow 3 ft}\n"
    sizes = f"{materials}sizes: [one]\n"
    sized = read(
        f"{sizes}woven: {{one: {{on: 2026-03-01, used: {{rods: 40}}, left_over: {{rods: 6}}}}}}\n", tmp_path
    ).sizes[0]
    assert sized.woven is not None
    assert (sized.woven.used, sized.woven.left_over) == ({"rods": 40}, {"rods": 6})
    lengths = notes_of(f"{sizes}woven: {{one: {{on: 2026-03-01, used: {{rods: 40 ft}}}}}}\n", tmp_path)
    assert [note.code for note in lengths] == ["wrong-dimension"]


@pytest.mark.parametrize(
    ("entry", "code"),
    [
        ("used: {plain: 3 ft}, left_over: {plain: 4 ft}", "number-out-of-range"),
        ("left_over: {plain: 4 ft}", "missing-key"),
        ("used: {plian: 3 ft}", "unknown-material"),
        ("mass: 0 g", "number-out-of-range"),
        ("height: 0", "length-out-of-range"),
        ("hieght: 5 in", "unknown-key"),
    ],
)
def test_figures_that_cannot_be_are_refused_where_they_stand(entry: str, code: str, tmp_path: Path) -> None:
    """More left over than begun with, a material of no such name, a basket that weighs nothing."""
    notes = notes_of(f"sizes: [one]\nwoven: {{one: {{on: 2026-03-01, {entry}}}}}\n", tmp_path)
    assert [note.code for note in notes] == [code]
    assert notes[0].place.line == 2
    assert notes[0].remedies


def test_pattern_gauge_stands_over_the_workshops(tmp_path: Path) -> None:
    """Of two gauges of one weave the later in the list holds: the workshop's is read first, the pattern's own after it."""
    (tmp_path / "shop.yaml").write_text(
        "slath: 1\ngauge: [{weave: pairing, strand: us round reed 4, rounds: 10, over: 60 mm}]\n", "utf-8"
    )
    fragment = "workshop_file: shop.yaml\ngauge: [{weave: pairing, strand: plain, rounds: 10, over: 55 mm}]\n"
    assert [entry.over_mm for entry in read_one(fragment, tmp_path).gauge] == [near(60.0), near(55.0)]
    assert codes_of(fragment, tmp_path) == []
