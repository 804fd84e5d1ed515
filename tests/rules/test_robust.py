"""Whatever counts, sizes and weaves a file puts together, the rules answer with notes and never break."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from slath.notes import PatternFaultError
from slath.pipeline import compile_pattern

WEAVES = st.sampled_from(
    [
        "randing", "chasing", "pairing", "three-rod wale", "five-rod wale", "slewing with 3", "before 3 behind 2",
        "french randing", "fitching", "packing", "three-rod arrow", "pairing chain",
    ]
)  # fmt: skip
STOCKS = st.sampled_from(
    [
        "us round reed 2",
        "us round reed 5",
        "us round reed 8",
        "uk centre cane 8",
        "brown willow 5 ft",
        "us flat reed 1/2 in",
    ]
)
BASES = st.sampled_from(
    [
        "{kind: round slath, diameter: SIZE, pierced: COUNT, threaded: COUNT, half_stick: yes, material: a, weaving: [BAND]}",
        "{kind: round slath, diameter: SIZE, sticks: COUNT, material: a, become_stakes: yes, weaving: [BAND]}",
        "{kind: oval slath, length: SIZE, width: SIZE / 2, lengthwise: {sticks: COUNT}, crosswise: {groups: [2, 1, 2]}, material: a, weaving: [BAND]}",
        "{kind: frame, length: SIZE, width: SIZE / 2, lengthwise: {sticks: COUNT}, crosswise: {sticks: 5}, material: a}",
        "{kind: board, diameter: SIZE, holes: {count: COUNT, diameter: 3 mm}}",
        "{kind: ready made, diameter: SIZE, ends: COUNT}",
    ]
)
BORDERS = st.sampled_from(
    [
        "{kind: plain, rods: 3, behind: 1}", "{kind: open, past: 2}", "{kind: trac, moves: [behind 2, before 1, behind 3, out]}",
        "{kind: plait, group: 3, added: 3}", "{passes: [[behind 2, out], [before 3, in]], worked: in twos, allowance: 2 in}",
    ]
)  # fmt: skip
MORE = st.sampled_from(
    [
        "", "handle: {kind: bow, material: b, rise: 5 in}\n", "handle: {kind: ring, material: b, diameter: 2 in, at: [1]}\n",
        "bye_stakes: {material: b, after: wall}\n", "foot: {passes: [[behind 1, out]]}\n",
        "lid: {base: {kind: round slath, diameter: SIZE, sticks: 8, material: a, weaving: [BAND]}, fit: over}\n",
        "steps: [{stage: wall, replace: ['Weave 7 rounds over 12 stakes with 3 sticks at 40 ends in 9 holes.']}]\n",
    ]
)  # fmt: skip


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.data(), st.integers(1, 40), st.floats(0.5, 40), st.floats(0.1, 60), st.integers(1, 3), st.sampled_from(["", "looks: steps left, "])
)  # fmt: skip
def test_rules_never_break(
    tmp_path_factory: pytest.TempPathFactory,
    data: st.DataObject,
    count: int,
    size: float,
    height: float,
    per_end: int,
    looks: str,
) -> None:
    """Every file, however absurd its counts, comes back as a list of notes with places in the file."""
    band = f"{{weave: {data.draw(WEAVES)}, strands: b, to: edge}}"
    text = (
        f"slath: 1\ntitle: Anything\nmaterials:\n  a: {{stock: {data.draw(STOCKS)}}}\n  b: {{stock: {data.draw(STOCKS)}}}\n"
        f"base: {data.draw(BASES)}\n"
        f"stakes: {{material: b, per_end: {per_end}}}\n"
        f"side: {{height: {height:.3f} in, rim: {{diameter: {size * 1.2:.3f} in}}, bands: [\n"
        f"  {{name: low, weave: {data.draw(WEAVES)}, strands: [a, b], {looks}rounds: 4}},\n"
        f"  {{name: wall, weave: {data.draw(WEAVES)}, strands: b, to: top}}]}}\n"
        f"border: {data.draw(BORDERS)}\n{data.draw(MORE)}"
    )
    text = text.replace("COUNT", str(count)).replace("BAND", band).replace("SIZE", f"{size:.3f} in")
    file: Path = tmp_path_factory.mktemp("any") / "any.yaml"
    file.write_text(text, encoding="utf-8")
    try:
        notes = compile_pattern(file).notes
    except PatternFaultError as fault:
        notes = fault.notes
    assert notes
    lines = text.count("\n") + 1
    assert all(1 <= note.place.line <= lines for note in notes)
