"""Windings longer than their material comes are wound of several lengths, and none of these is longer than it comes."""

from __future__ import annotations

from pathlib import Path

from tests.basket.written import constructed
from tests.wording.small_baskets import told_of

from slath.quantities.measuring import quantities_of

BASKET = """  bow: {stock: us round reed 10}
  raffia: {stock: raffia}
base: {kind: round slath, diameter: 6 in, pierced: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 3 in, bands: [{weave: pairing, strands: plain, to: top}]}
border: {passes: [[behind 1, out], [before 2, in]]}
handle: {kind: bow, material: bow, rise: 6 in, wraps: {kind: lapping, strands: raffia}}
fittings:
  - {part: knob, material: raffia, ball: 1 in}
  - {part: chain, material: plain, count: 3, across: 1 1/2 in, links: 7, note: It hangs in the border.}
"""


def test_a_long_winding_is_cut_in_lengths_that_can_be_had(tmp_path: Path) -> None:
    """Each new length has an end more to be wound in; together they are no shorter than the winding in one."""
    basket = constructed(tmp_path, BASKET)
    usual = basket.pattern.materials["raffia"].stock.usual_length_mm
    assert usual is not None
    (wrap,) = basket.handles[0].wraps
    pieces = {piece.part: piece for piece in quantities_of(basket).pieces}
    lapping = pieces["lapping strands"]
    assert wrap.strand_mm.value > usual
    for piece in (lapping, pieces["knob"]):
        assert piece.lengths > 1
        assert piece.cut_mm.value <= usual
        assert piece.count.value == piece.lengths
    tail = basket.pattern.settings.mm("wrap_tail")
    wound = lapping.lengths * lapping.cut_mm.value
    assert wound >= wrap.strand_mm.value + (lapping.lengths - 1) * tail - 1e-6


def test_the_next_length_and_the_links_are_told(tmp_path: Path) -> None:
    """How a winding goes on, how a chain is made, and what the designer says of it; rings of every chain are cut."""
    said = told_of(tmp_path, BASKET)
    assert [each for each in said if each.startswith("When it runs out, take the next of the")]
    assert [each for each in said if each.startswith("For each chain bend a length") and "until seven hang" in each]
    assert "It hangs in the border." in said
    basket = constructed(tmp_path, BASKET)
    (chain,) = [piece for piece in quantities_of(basket).pieces if piece.part == "chain"]
    assert chain.count.value == 21
