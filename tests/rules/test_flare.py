"""How far stakes spread, from the base and from a neck."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.rules.written import changed, notes_of


@pytest.mark.parametrize(("neck", "told"), [("7 in", False), ("4 in", True)])
def test_a_flare_is_measured_from_the_neck(tmp_path: Path, neck: str, told: bool) -> None:
    """From a base of 8 in to a rim of 9 in stakes spread by an eighth; from a neck of 4 in to twice and more."""
    profile = f"profile: [{{height: 2 1/2 in, diameter: {neck}}}, {{height: 5 in, diameter: 9 in}}]"
    notes = notes_of(tmp_path, changed(("rim: {diameter: 9 in}", profile)), "flare-too-strong")
    assert bool(notes) == told
    if told:
        assert "where the side is narrowest" in notes[0].sentence
        assert notes[0].remedies[1] == "add stakes above the neck (add_stakes)"


@pytest.mark.parametrize(("swell", "told"), [("1/2 in", False), ("6 in", True)])
def test_a_belly_spreads_the_stakes_though_its_rim_does_not(tmp_path: Path, swell: str, told: bool) -> None:
    """From 8 in to 8 in again stakes stand as at first at the rim; half-way up, 12 in wider, they stand twice as far."""
    belly = f"rim: {{diameter: 8 in}}\n  profile: belly\n  swell: {swell}"
    notes = notes_of(tmp_path, changed(("rim: {diameter: 9 in}", belly)), "flare-too-strong")
    assert bool(notes) == told
    if told:
        assert "where the side is widest" in notes[0].sentence
        of_sizes = notes[0].remedies[0].split("; ")  # 12 in wider is another place for each base
        assert [remedy.partition(": ")[0] for remedy in of_sizes] == ["small", "medium", "large"]
        assert all(remedy.partition(": ")[2].startswith("bring the widest place in to ") for remedy in of_sizes)
