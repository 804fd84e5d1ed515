"""No length to cut is printed shorter than it is: in no unit, by no command, in no edition, in no figure.

Everything printed goes through `slath.units.printing`. What it is given while all outputs of a pattern are made is
listened to: a length that is to be cut must be rounded up, and never to the nearest.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from slath.editions import editions_of
from slath.pipeline import Compilation, compile_pattern, listing_text
from slath.units import printing
from slath.work import BuildOptions

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"
# A step no other measure of a basket comes to by chance, so that a length that meets one is that length.
STEP_MM = 7.3137
# The form of a test weave predicts what will be taken, which no one cuts by.
EDITIONS = ("text", "web page", "figures", "list", "bench cards")


def compiled(folder: Path, name: str, size: str) -> Compilation:
    """A shipped pattern whose lengths come to odd measures."""
    text = (PATTERNS / f"{name}.yaml").read_text(encoding="utf-8")
    assert "\nsettings:" not in text
    text = text.replace("workshop_file: otter-weir.workshop.yaml", "")
    file = folder / f"{name}.yaml"
    file.write_text(f"{text}\nsettings: {{cut_step: {STEP_MM} mm, cut_step_inches: {STEP_MM} mm}}\n", encoding="utf-8")
    return compile_pattern(file, sizes=[size])


def to_cut(compilation: Compilation) -> Iterator[float]:
    """Every length to cut on the list that no step prints exactly."""
    for size in compilation.sizes:
        lengths = [piece.cut_mm.value for piece in size.quantities.pieces]
        lengths += [run.piece_mm.value for run in size.quantities.strands if run.joins.value == 0]
        yield from (length for length in lengths if abs(length / STEP_MM - round(length / STEP_MM)) < 1e-6)


@pytest.mark.parametrize(("name", "size"), [("weir-field", "medium"), ("mill-tray", ""), ("toll-house", "")])
@pytest.mark.parametrize("units", ["inches", "mm"])
def test_no_output_rounds_a_length_to_cut_down(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, size: str, units: printing.First
) -> None:
    """Booklet as text and as a page, figures with their words, cards, forms and lists of a pattern, in both units."""
    size = size or compile_pattern(PATTERNS / f"{name}.yaml").sizes[0].name
    compilation = compiled(tmp_path, name, size)
    lengths = list(to_cut(compilation))
    assert len(lengths) >= 3
    short: list[tuple[float, float]] = []
    up: set[float] = set()
    nearest, upward = printing.steps_nearest, printing.steps_up

    def listen(value: float, step: float) -> int:
        steps = nearest(value, step)
        if steps * step < value - 1e-6 and any(abs(value - length) < 1e-6 for length in lengths):
            short.append((value, step))
        return steps

    def heard_up(value: float, step: float) -> int:
        up.update(length for length in lengths if abs(value - length) < 1e-6)
        return upward(value, step)

    monkeypatch.setattr(printing, "steps_nearest", listen)
    monkeypatch.setattr(printing, "steps_up", heard_up)
    made = dict(editions_of(compilation, BuildOptions(editions=EDITIONS, units=units), lambda _: None))
    assert any(file.endswith(".txt") for file in made)
    listing_text(compilation, "table", units)
    assert short == []
    assert up == set(lengths), "every length was printed, or the test heard nothing"


@pytest.mark.parametrize("name", ["weir-field", "withy-bed"])
def test_data_holds_lengths_that_reach(tmp_path: Path, name: str) -> None:
    """JSON and CSV give tenths of a millimetre, and none of a length to cut is lost."""
    size = compile_pattern(PATTERNS / f"{name}.yaml").sizes[0].name
    compilation = compiled(tmp_path, name, size)
    quantities = compilation.sizes[0].quantities
    (listed,) = json.loads(listing_text(compilation, "json", "inches"))["sizes"]
    rows = list(csv.DictReader(io.StringIO(listing_text(compilation, "csv", "inches"), newline="")))
    cut = [row for row in rows if row["list"] == "cut"]
    for piece, entry, row in zip(quantities.pieces, listed["pieces"], cut, strict=True):
        for told in (entry["length_mm"], float(row["length_mm"])):
            assert piece.cut_mm.value - 1e-9 <= told < piece.cut_mm.value + 0.1 + 1e-9
    woven = [row for row in rows if row["list"] == "weave"]
    for run, entry, row in zip(quantities.strands, listed["strands"], woven, strict=True):
        for told in (entry["piece_mm"], float(row["piece_mm"])):
            assert run.piece_mm.value - 1e-9 <= told < run.piece_mm.value + 0.1 + 1e-9
