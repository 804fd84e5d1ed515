"""What baskets cost, reckoned again here from the list and the prices, with pencil and paper's steps."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from slath.cli.commands import slath
from slath.editions import editions_of
from slath.pipeline import compile_pattern
from slath.selling.costs import SizeCosts, costs_of
from slath.work import BuildOptions

PATTERN = """slath: 1
title: Trial tray
edition: "1"
dated: 2026-01-01
sizes: [small, large]
materials:
  sticks: {stock: us round reed 8}
  stakes: {stock: {kind: round reed, diameter: 3 mm, mass_per_length: 5 g per m, packs: [{title: bundle, length: 100 m, price: 20, currency: GBP, priced_on: 2026-01-01}]}}
  weaver: {stock: {kind: round reed, diameter: 2.5 mm, mass_per_length: 4 g per m, packs: [{title: coil, length: 50 m, price: 8, currency: EUR}]}}
base:
  kind: round slath
  diameter: {small: 14 cm, large: 18 cm}
  pierced: 4
  threaded: 4
  material: sticks
  weaving: [{weave: pairing, strands: weaver, to: edge}]
stakes: {material: stakes, per_end: 2}
side: {height: 8 cm, rim: {diameter: 22 cm}, bands: [{weave: three-rod wale, strands: weaver, to: top}]}
border: {passes: [[behind 1, out], [before 2, behind 1]]}
money: {currency: GBP, hours: {small: 3, large: 4 1/2}, rate: 12.5, fees: [{what: card, amount: 0.8}, {what: stall, amount: 2}], mark_up: 25}
"""


@pytest.fixture
def pattern(tmp_path: Path) -> Path:
    """A tray in two sizes whose materials are priced in two currencies, and one in none."""
    path = tmp_path / "tray.yaml"
    path.write_text(PATTERN, "utf-8")
    return path


def _by_size(path: Path) -> dict[str, SizeCosts]:
    return {costs.size: costs for costs in costs_of(compile_pattern(path))}


def test_costs_come_to_what_a_pencil_makes_of_them(pattern: Path) -> None:
    """Material by the metre and by the pack, hours, fees and mark-up, each reckoned again from the list."""
    compilation = compile_pattern(pattern)
    assert not compilation.at_fault
    for size, hours in (("small", 3.0), ("large", 4.5)):
        costs = _by_size(pattern)[size]
        (quantities,) = [each.quantities for each in compilation.sizes if each.name == size]
        metres = {row.material: row.length_mm.value / 1000 for row in quantities.purchase}
        stakes = metres["stakes"] / 100 * 20
        weaver = metres["weaver"] / 50 * 8
        work = hours * 12.5
        assert costs.total(costs.by_use) == pytest.approx({"GBP": stakes, "EUR": weaver})
        assert costs.total(costs.by_pack) == pytest.approx(
            {"GBP": 20.0, "EUR": 8.0 * (2 if metres["weaver"] > 50 else 1)}
        )
        assert costs.total(costs.work) == pytest.approx({"GBP": work + 2.8})
        assert costs.kit == pytest.approx({"GBP": (stakes + 2.8) * 1.25, "EUR": weaver * 1.25})
        assert costs.basket == pytest.approx({"GBP": (stakes + work + 2.8) * 1.25, "EUR": weaver * 1.25})


def test_what_is_not_known_is_said(pattern: Path) -> None:
    """A material without a price is in no sum and named; a price without a day is named."""
    costs = _by_size(pattern)["small"]
    assert [title for title in costs.unpriced if "8" in title] == list(costs.unpriced)
    assert len(costs.unpriced) == 1
    assert len(costs.undated) == 1
    done = CliRunner().invoke(slath, ["cost", str(pattern)])
    assert done.exit_code == 0
    assert "different currencies are not added up" in done.output
    data = json.loads(CliRunner().invoke(slath, ["cost", str(pattern), "--format", "json"]).stdout)
    assert [size["size"] for size in data["sizes"]] == ["small", "large"]


def test_no_booklet_tells_a_cost(pattern: Path) -> None:
    """Neither hours nor rate nor price stand in what a buyer or a student gets."""
    compilation = compile_pattern(pattern)
    made = dict(editions_of(compilation, BuildOptions(editions=("text", "web page")), lambda _: None))
    assert made
    for data in made.values():
        text = data.decode()
        for said in ("GBP", "EUR", "stall", "hours at"):
            assert said not in text
