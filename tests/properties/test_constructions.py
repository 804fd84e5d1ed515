"""Laws that hold of every basket the language can say: on any base, with any weaves, borders, stocks and shapes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from tests.properties.constructions import Text, compiled, patterns, quick, woven
from tests.properties.scaling import check_scaling

from slath.output.listing import list_json, list_schema
from slath.pipeline import Compilation, compile_pattern
from slath.quantities.results import Purchase, Quantities

ROOT = Path(__file__).resolve().parents[2]
SHIPPED = sorted(path for path in (ROOT / "patterns").glob("*.yaml") if "." not in path.stem)
SCHEMA = Draft202012Validator(list_schema())


def only(compilation: Compilation) -> Quantities:
    """The list of a pattern of one size."""
    (size,) = compilation.sizes
    return size.quantities


# ------------------------------------------------------------------------------------------------------------- totals
@quick
@given(patterns())
def test_totals_are_the_sums_of_their_parts(pattern: Text) -> None:
    """Pieces, strands, purchases and heights are what they are made of, and a piece is never cut short of its parts."""
    compilation = woven(pattern)
    found = only(compilation)
    for piece in found.pieces:
        assert piece.needed_mm.value == pytest.approx(sum(part.value for part in piece.parts)), piece.part
        assert piece.cut_mm.value >= piece.needed_mm.value - 1e-6, piece.part
        assert piece.count.value == int(piece.count.value) > 0
    for run in found.strands:
        assert run.length_mm.value == pytest.approx(run.woven_mm.value + run.ends_mm.value + run.laps_mm.value)
        assert run.joins.value + run.rods == run.pieces.value
        assert run.pieces.value * run.piece_mm.value >= run.length_mm.value - 1e-6
    for row in found.purchase:
        assert row.length_mm.value == pytest.approx(_taken(row, found))
    sides = sum(row.along.value for row in found.bands if row.part == "side")
    assert found.finished.along.value == pytest.approx(sides, rel=1e-5, abs=1e-3)


def _taken(row: Purchase, found: Quantities) -> float:
    pieces = [item for item in found.pieces if item.material == row.material]
    cut = sum((item.count.value + item.spare) * item.cut_mm.value for item in pieces)
    return cut + sum(run.length_mm.value + run.spare_mm.value for run in found.strands if run.material == row.material)


@quick
@given(patterns())
def test_stakes_are_the_sum_they_are_counted_from(pattern: Text) -> None:
    """The inputs of the count sentence, each times what its formula says, come to the stakes that stand."""
    compilation = woven(pattern)
    (size,) = compilation.sizes
    stakes = size.quantities.stakes
    assert stakes.value == len(size.basket.stakes)
    if "×" in stakes.formula or " + " in stakes.formula:
        named = {item.name: item.value for item in stakes.inputs}
        total = 0.0
        for sign, term in _terms(stakes.formula):
            times, _, name = term.rpartition(" × ")
            total += sign * float(times or 1) * named[name]
        assert total == stakes.value


def _terms(formula: str) -> list[tuple[int, str]]:
    added, *taken = formula.split(" - ")
    return [(1, term) for term in added.split(" + ")] + [(-1, term) for term in taken]


@quick
@given(patterns())
def test_what_is_bought_covers_what_is_taken(pattern: Text) -> None:
    """Packs hold at least the length, rods at least the pieces: nobody runs out who buys by the list."""
    compilation = woven(pattern)
    (size,) = compilation.sizes
    for row in size.quantities.purchase:
        stock = size.sized.materials[row.material].stock
        if row.surplus_mm is not None:
            assert row.surplus_mm.value >= -1e-6
        if row.rods is not None and stock.length_class_mm is not None:
            assert row.rods.value == int(row.rods.value)
            assert row.rods.value * stock.length_class_mm >= _taken(row, size.quantities) - 1e-6
        if row.packs and row.mass_g is not None:
            held = sum(pack.count * (pack.each_g or 0.0) for pack in row.packs)
            assert held >= row.mass_g.value - 1e-6


@quick
@given(patterns())
def test_no_number_claims_more_than_its_inputs(pattern: Text) -> None:
    """Every amount rests on no more than the weakest of the amounts it was worked out from."""
    for amount in only(compiled(pattern)).amounts():
        for item in amount.inputs:
            assert amount.basis >= item.basis, (amount.name, item.name)


# ------------------------------------------------------------------------------------------------------------ scaling
@quick
@given(patterns(), st.sampled_from([0.5, 2.0]))
def test_scaling_every_length_scales_every_length(pattern: Text, factor: float) -> None:
    """With every length scaled (basket, stocks, settings), counts and whole rounds stay and every length scales.

    The factor is a power of two, so that a height halfway between two whole rounds stays halfway.
    """
    (size,) = woven(pattern).sizes
    check_scaling(size.sized, factor)


@quick
@given(patterns())
def test_whole_rounds_miss_a_height_by_half_a_round_at_most(pattern: Text) -> None:
    """Lengths of the basket alone do not scale its rounds: they are whole, the nearest to the height, and at least one."""
    for row in only(woven(pattern)).bands:
        assert row.rounds.value == int(row.rounds.value) >= 1
        if row.asked_mm is not None and row.rounds.value > 1:
            assert row.left_over_mm is not None
            assert abs(row.left_over_mm) <= row.pitch.value / 2 + 1e-9
        assert row.along.value == pytest.approx(row.rounds.value * row.pitch.value)


# ---------------------------------------------------------------------------------------------------------- direction
@quick
@given(patterns())
def test_working_the_other_way_mirrors_the_basket(pattern: Text) -> None:
    """Right to left takes the very same list, and its colours step to the other side; strokes turned under change neither."""
    right, left = (woven({**pattern, "working_direction": way}) for way in ("left to right", "right to left"))
    assert [amount.value for amount in only(right).amounts()] == [amount.value for amount in only(left).amounts()]
    turned = json.loads(json.dumps(pattern))
    for band in turned["side"]["bands"]:
        band["reversed"] = "yes"
    other = woven(turned)
    for one, two, back in zip(only(right).bands, only(other).bands, only(left).bands, strict=True):
        assert two.rounds.value == one.rounds.value
        assert two.steps == one.steps
        assert back.steps == (None if one.steps is None else -one.steps)
    assert [run.length_mm.value for run in only(right).strands] == [run.length_mm.value for run in only(other).strands]


# --------------------------------------------------------------------------------------------------------- more rounds
@quick
@given(patterns(by_rounds=True), st.integers(1, 5), st.data())
def test_more_rounds_never_need_less(pattern: Text, more: int, data: st.DataObject) -> None:
    """A band of more rounds takes more of its strands, the basket more in all, and no stake is cut shorter."""
    before = woven(pattern)
    raised = json.loads(json.dumps(pattern))
    bands = raised["side"]["bands"]
    index = data.draw(st.integers(0, len(bands) - 1))
    bands[index]["rounds"] += more
    after = woven(raised)
    first, second = only(before), only(after)
    assert sum(run.woven_mm.value for run in second.strands) > sum(run.woven_mm.value for run in first.strands)
    for one, two in zip(first.strands, second.strands, strict=True):
        if (one.part, one.index) == ("side", index):
            assert two.woven_mm.value > one.woven_mm.value * (1 + 1e-9)
    for cut, longer in zip(first.pieces, second.pieces, strict=True):
        assert longer.cut_mm.value >= cut.cut_mm.value - 1e-6 or cut.part == "bye-stakes", cut.part


@quick
@given(patterns(by_rounds=True, straight=True), st.integers(1, 5))
def test_more_rounds_on_an_upright_side_need_no_less_of_anything(pattern: Text, more: int) -> None:
    """Where the side stands upright the other bands are as they were, so no material at all is needed less."""
    before = only(woven(pattern))
    raised = json.loads(json.dumps(pattern))
    raised["side"]["bands"][-1]["rounds"] += more
    after = only(woven(raised))
    for one, two in zip(before.purchase, after.purchase, strict=True):
        assert two.length_mm.value >= one.length_mm.value - 1e-6, one.material


# ----------------------------------------------------------------------------------------------------------- the list
@quick
@given(patterns())
def test_list_of_any_basket_fits_its_schema(pattern: Text) -> None:
    """What `slath list --format json` writes is what the shipped schema says, whatever the basket; and the same twice."""
    compilation = compiled(pattern)
    found = [size.quantities for size in compilation.sizes]
    text = list_json(compilation.pattern, found, compilation.notes)
    SCHEMA.validate(json.loads(text))
    assert text == list_json(compilation.pattern, found, compilation.notes)


@pytest.mark.parametrize("file", SHIPPED, ids=[file.stem for file in SHIPPED])
def test_list_of_every_shipped_pattern_fits_its_schema(file: Path) -> None:
    """The same of the patterns that come with the tool, in every size."""
    compilation = compile_pattern(file)
    text = list_json(compilation.pattern, [size.quantities for size in compilation.sizes], compilation.notes)
    listed = json.loads(text)
    SCHEMA.validate(listed)
    assert [size["size"] for size in listed["sizes"]] == [sized.size for sized in compilation.pattern.sizes]
    broken = {**listed, "sizes": [{**listed["sizes"][0], "stakes": "forty"}]}
    assert not SCHEMA.is_valid(broken)
