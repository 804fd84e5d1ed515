"""Figures of baskets on bases made otherwise: there is nothing to lay out, and all else is drawn."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.basket.written import constructed

from slath.drawing.figures import draw_figures
from slath.quantities.measuring import quantities_of

REST = """
side: {height: 2 in, bands: [{weave: pairing, strands: plain, rounds: 2}, {weave: randing, strands: plain, to: top}]}
border: {kind: trac, moves: [behind 1, before 1, in]}
foot: {kind: trac, moves: [behind 1, before 1, in]}
"""


@pytest.mark.parametrize(
    ("base", "stakes"), [("", "count: 13, depth: 0"), (", ends: 8", "per_end: 2, leave_out: 1, depth: 1/2 in")]
)
def test_every_figure_that_has_something_to_show_is_drawn(tmp_path: Path, base: str, stakes: str) -> None:
    """A ring on a mould, and a pot on a bought bottom: no base plan, and no figure is empty."""
    text = f"base: {{kind: ready made, diameter: 3 in, made_of: a tube{base}}}\nstakes: {{material: stakes, {stakes}}}\n{REST}"
    basket = constructed(tmp_path, text)
    figures = draw_figures(basket, quantities_of(basket))
    assert "base-plan" not in figures
    assert {"view", "staking-plan", "side", "profile", "foot-border-1-start"} <= set(figures)
    for name in figures:
        assert figures[name].items, name
