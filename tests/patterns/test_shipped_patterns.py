"""The patterns that come with slath: they build, they could be woven, and they teach the language."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from slath.language.pattern import Board, OvalSlath, RoundSlath
from slath.notes import Severity
from slath.pipeline import Compilation, CompiledSize, compile_pattern
from slath.quantities.results import Piece

FOLDER = Path(__file__).resolve().parents[2] / "patterns"
FILES = sorted(file for file in FOLDER.glob("*.yaml") if "." not in file.stem)
NAMES = [file.stem for file in FILES]
# The only warnings a shipped pattern may leave standing: nobody has woven it, so nothing has been measured either.
UNWOVEN = {"size-not-woven", "pitch-estimated"}


@cache
def compiled(name: str) -> Compilation:
    """A shipped pattern, compiled once."""
    return compile_pattern(FOLDER / f"{name}.yaml")


def each_size() -> list[tuple[str, int]]:
    """Every pattern with the index of each of its three sizes."""
    return [(name, index) for name in NAMES for index in range(3)]


def size_of(name: str, index: int) -> CompiledSize:
    """One size of a pattern."""
    return compiled(name).sizes[index]


def test_there_are_enough() -> None:
    """At least five patterns ship, and the folder really holds them."""
    assert len(NAMES) >= 7
    assert "weir-field" in NAMES


@pytest.mark.parametrize("name", NAMES)
def test_no_errors_and_every_warning_has_its_reason(name: str) -> None:
    """A shipped pattern compiles without error; what it leaves standing is that nobody has woven it, said with a reason."""
    notes = compiled(name).notes
    assert [note.code for note in notes if note.severity is Severity.ERROR] == []
    standing = [note for note in notes if note.severity is Severity.WARNING]
    assert {note.code for note in standing} <= UNWOVEN
    assert all(note.accepted for note in standing), [note.sentence for note in standing if not note.accepted]


@pytest.mark.parametrize("name", NAMES)
def test_three_sizes_that_grow(name: str) -> None:
    """Three sizes, smallest first: base, rim, height, stake length, material and mass grow from each to the next."""
    sizes = compiled(name).sizes
    assert len(sizes) == 3
    for smaller, larger in pairwise(sizes):
        one, other = smaller.quantities, larger.quantities
        assert one.finished.base_length.value < other.finished.base_length.value
        assert one.finished.rim_length.value < other.finished.rim_length.value
        if smaller.basket.profile:
            assert one.finished.height.value < other.finished.height.value
        assert sum(run.length_mm.value for run in one.strands) < sum(run.length_mm.value for run in other.strands)
        one_piece, other_piece = stick_or_stake(smaller), stick_or_stake(larger)
        assert one_piece.needed_mm.value < other_piece.needed_mm.value
        assert one_piece.cut_mm.value <= other_piece.cut_mm.value  # cut to half inches or centimetres: two may be alike
        assert one.stakes.value <= other.stakes.value
        if one.finished.mass_g and other.finished.mass_g:
            assert one.finished.mass_g.value < other.finished.mass_g.value


def stick_or_stake(size: CompiledSize) -> Piece:
    """The stakes, or the sticks that turn up."""
    return next(piece for piece in size.quantities.pieces if piece.part in {"stakes", "through sticks"})


@pytest.mark.parametrize(("name", "index"), each_size())
def test_border_allowance_grows_with_the_rim(name: str, index: int) -> None:
    """What stands above the weaving is worked out at the rim of its own size: more spacing, more stake."""
    if index == 2:
        pytest.skip("the largest has none to be compared with")
    smaller, larger = size_of(name, index), size_of(name, index + 1)
    assert smaller.quantities.border is not None
    assert larger.quantities.border is not None
    wider = larger.basket.rim_spacing_mm - smaller.basket.rim_spacing_mm
    more = larger.quantities.border.needed_mm.value - smaller.quantities.border.needed_mm.value
    assert (more > 0) == (wider > 0)


@pytest.mark.parametrize(("name", "index"), each_size())
def test_every_band_holds(name: str, index: int) -> None:
    """Every weave holds on the count it is worked on, at every opening of the base and up the side."""
    basket = size_of(name, index).basket
    lid = basket.lid
    bands = (*basket.base.bands, *basket.bands, *((*lid.base.bands, *lid.bands) if lid else ()))
    assert bands
    assert all(band.interlocks for band in bands), [band.name for band in bands if not band.interlocks]
    for border in (basket.border, basket.foot):
        assert border is None or border.closes


@pytest.mark.parametrize(("name", "index"), each_size())
def test_could_be_woven(name: str, index: int) -> None:
    """Stakes stand at distances published baskets have: 0.5 to 1 in, willow 1 to 2 in (Gill 1916 and others)."""
    size = size_of(name, index)
    willow = size.sized.materials[size.basket.stakes[0].material].stock.kind == "willow"
    low, high = (25.4, 50.8) if willow else (12.7, 25.4)
    assert low <= size.basket.base_spacing_mm <= high
    assert size.basket.rim_spacing_mm <= 1.25 * high


def test_they_exercise_different_things() -> None:
    """Between them: a pierced oval, a round slath, a board, through sticks with a half stick, willow, a lid and a mat."""
    sizes = [size_of(name, 0) for name in NAMES]
    bases = [size.sized.base for size in sizes]
    assert any(isinstance(base, OvalSlath) and base.pierced == "crosswise" for base in bases)
    assert any(isinstance(base, RoundSlath) and (base.pierced, base.threaded) == (5, 5) for base in bases)
    assert any(isinstance(base, Board) for base in bases)
    assert any(isinstance(base, RoundSlath) and base.become_stakes and base.half_stick for base in bases)
    assert any(material.stock.kind == "willow" for size in sizes for material in size.sized.materials.values())
    assert any(size.sized.foot for size in sizes)
    assert any(size.sized.handles for size in sizes)
    assert any(size.sized.lid for size in sizes)
    assert any(size.sized.side is None for size in sizes)
    weaves = {band.spec.weave.kind for size in sizes for band in (*size.basket.base.bands, *size.basket.bands)}
    assert {"rand", "chase", "pair", "wale", "french rand"} <= weaves
    assert {len(border.passes) for size in sizes if (border := size.sized.border)} >= {1, 2}


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_commented_for_a_designer(file: Path) -> None:
    """A shipped pattern explains itself: one line in ten at least is a remark or carries one, and it says what is invented."""
    lines = [line for line in file.read_text(encoding="utf-8").splitlines() if line.strip()]
    remarks = [line for line in lines if re.search(r"(^|\s)#(\s|$)", line)]
    assert len(remarks) >= len(lines) / 10
    assert any("invented" in line for line in remarks)


@pytest.mark.parametrize("name", NAMES)
def test_colours_are_told_apart(name: str) -> None:
    """Colours that lie side by side differ by 25 in CIE lightness, and every dyed strand has a letter and marks of its own."""
    materials = size_of(name, 0).sized.materials.values()
    dyed = [material for material in materials if material.dye]
    assert all(material.letter and material.marks != "none" for material in dyed)
    assert not {"colours-too-alike", "marks-alike"} & {note.code for note in compiled(name).notes}


def test_prices_are_marked_invented() -> None:
    """Every price in the workshop file names a seller that is said to be invented, and its day."""
    text = (FOLDER / "otter-weir.workshop.yaml").read_text(encoding="utf-8")
    priced = [line for line in text.splitlines() if "price:" in line]
    assert len(priced) >= 5
    assert all("(invented)" in line and "priced_on:" in line for line in priced)
