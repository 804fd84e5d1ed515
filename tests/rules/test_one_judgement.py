"""What `counts` says of a basket's own count is what `check` says of it; and a remedy that makes an odd slath holds."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.language.fragments import whole

from slath.basket.count_search import try_count
from slath.pipeline import compile_pattern
from slath.rules.recount import stakes_of

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
FILES = sorted(CORPUS.glob("*/rules/*.yaml"))
# Notes that say a count cannot be woven; that stakes stand too close rests on their thickness besides.
OF_COUNTS = {
    "weave-does-not-hold",
    "too-few-for-rods",
    "stakes-do-not-fill-groups",
    "band-does-not-fill-groups",
    "border-meets-itself",
    "border-does-not-fill-groups",
}


@pytest.mark.parametrize("file", FILES, ids=[f"{file.parts[-3]} {file.stem}" for file in FILES])
def test_counts_and_check_judge_alike(file: Path) -> None:
    """The count a basket has is refused by both or by neither."""
    compilation = compile_pattern(file)
    for made in compilation.sizes:
        if not stakes_of(made.basket):
            continue
        size = made.sized.size
        told = {note.code for note in compilation.notes if note.code in OF_COUNTS and size in (note.size or size)}
        told -= {note.code for note in compilation.notes if note.part.startswith("lid")}
        assert bool(told) == (not try_count(made.basket, stakes_of(made.basket)).suits)


HALF = """base:
  kind: round slath
  diameter: 6 in
  pierced: 4
  half_stick: yes
  material: sticks
  weaving:
    - {weave: randing, strands: plain, rounds: 3, worked: grouped}
    - {weave: randing, strands: plain, to: edge}
stakes: {material: stakes, per_end: 1}
"""


def test_a_half_stick_of_its_own_makes_groups_odd(tmp_path: Path) -> None:
    """Four arms are an even count for one strand; with the half stick as a fifth group randing holds from the first row."""
    file = tmp_path / "basket.yaml"
    file.write_text(whole(HALF), encoding="utf-8")
    (note,) = [note for note in compile_pattern(file).notes if note.code == "weave-does-not-hold"]
    assert any("half_stick_apart: yes" in remedy and "5 groups" in remedy for remedy in note.remedies)
    file.write_text(
        whole(HALF.replace("half_stick: yes", "half_stick: yes\n  half_stick_apart: yes")), encoding="utf-8"
    )
    assert not [note for note in compile_pattern(file).notes if note.stops]
