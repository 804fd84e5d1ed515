"""Where an end goes down, in the steps and in the words of the figures, against the books."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.basket.written import constructed
from tests.wording.small_baskets import told_of

from slath.drawing.border.words import ending_said
from slath.drawing.options import IN_ENGLISH
from slath.plan.border_rows import border_rows

MAT = """
base:
  kind: round slath
  diameter: 6 in
  pierced: 4
  half_stick: yes
  material: stakes
  become_stakes: yes
  weaving: [{weave: randing, strands: plain, to: edge}]
"""


@pytest.mark.parametrize(("past", "beside"), [(1, 2), (2, 3)])
def test_an_open_border_goes_down_beside_the_last_one_passed(tmp_path: Path, past: int, beside: int) -> None:
    """Gill, Practical Basketry (1916): open border No. 1 passes behind one and goes down beside that stake; No. 2 behind two."""
    text = MAT + f"border: {{kind: open, past: {past}}}\n"
    said = told_of(tmp_path, text)
    assert any(
        f"down into the weaving beside stake {beside}, " in sentence
        for sentence in said
        if sentence.startswith("Take stake 1 ")
    )
    border = constructed(tmp_path, text).border
    assert border is not None
    ending = ending_said(border_rows(border)[0].turns(1)[0])
    assert IN_ENGLISH.text(ending) == f"down beside {beside}"
