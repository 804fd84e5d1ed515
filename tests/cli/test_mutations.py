"""Patterns changed at random: whatever comes of it is notes, lists and figures, never an error of ours."""

from __future__ import annotations

import shutil
from pathlib import Path
from random import Random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.cli.mutations import PATTERNS, mutated, slipped

from slath.editions import editions_of
from slath.notes import PatternFaultError
from slath.pipeline import Compilation, compile_pattern, counts_of, listing_text, proof_of
from slath.work import BuildOptions

QUIET = settings(
    deadline=None, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
patterns = st.sampled_from(PATTERNS)
randoms = st.randoms(use_true_random=False)
changes = st.integers(1, 3)


def compiled(text: str, folder: Path) -> Compilation | None:
    """The pattern compiled; None if it is at fault, and then something says so at a place."""
    shutil.copy(PATTERNS[0].with_name("otter-weir.workshop.yaml"), folder)
    file = folder / "changed.yaml"
    file.write_text(text, "utf-8")
    compilation = None
    try:
        compilation = compile_pattern(file)
    except PatternFaultError as fault:
        notes = fault.notes
    else:
        notes = compilation.notes
        if compilation.sizes:
            assert counts_of(compilation, None, None, "mm")
    assert compilation or any(note.stops for note in notes)
    assert all(note.place.line and note.sentence for note in notes)
    return compilation if compilation and not compilation.at_fault else None


@settings(QUIET, max_examples=60)
@given(pattern=patterns, random=randoms, count=changes)
def test_any_change_ends_in_notes_or_numbers(pattern: Path, random: Random, count: int, tmp_path: Path) -> None:
    """Keys deleted, doubled, renamed or given anything at all, and text garbled: notes with places, or a list and proof."""
    compilation = compiled(mutated(pattern, random, count), tmp_path)
    if compilation:
        assert listing_text(compilation, "json", "mm")
        assert proof_of(compilation)


@settings(QUIET, max_examples=60)
@given(pattern=patterns, random=randoms, count=changes)
def test_any_slip_ends_in_notes_or_numbers(pattern: Path, random: Random, count: int, tmp_path: Path) -> None:
    """Numbers changed and values taken from other patterns: notes with places, or every form of the list, and a proof."""
    compilation = compiled(slipped(pattern, random, count), tmp_path)
    if compilation:
        for form in ("table", "csv", "json"):
            assert listing_text(compilation, form, "inches")
        assert proof_of(compilation)


@settings(QUIET, max_examples=2)
@given(pattern=patterns, random=randoms, count=changes)
def test_what_passes_the_check_can_be_made(pattern: Path, random: Random, count: int, tmp_path: Path) -> None:
    """Where a changed pattern has no error, every figure of it can be drawn and its booklet written."""
    compilation = compiled(slipped(pattern, random, count), tmp_path)
    if compilation:
        made = dict(editions_of(compilation, BuildOptions(("figures", "text", "booklet")), lambda _text: None))
        assert any(name.endswith(".svg") for name in made)
        assert made["changed-booklet.txt"]
