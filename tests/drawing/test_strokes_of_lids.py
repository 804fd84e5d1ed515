"""The first strokes of a lid: its base is worked over sticks, flat before one; its side over stakes, from outside."""

from __future__ import annotations

from pathlib import Path

from tests.basket.written import constructed

from slath.drawing.figures import draw_figures
from slath.drawing.scene import Text, every_item

BOX = """
base: {kind: round slath, diameter: 6 in, pierced: 4, threaded: 4, material: sticks,
  weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 3 in, bands: [{weave: three-rod wale, strands: plain, to: top}]}
border: {passes: [[behind 1, out]]}
lid:
  base: {kind: round slath, diameter: 7 in, pierced: 4, threaded: 4, material: sticks,
    weaving: [{weave: pairing, strands: rust, to: edge}]}
  stakes: {material: stakes, per_end: 2}
  side: {height: 1 in, bands: [{weave: pairing, strands: rust, to: top}]}
  border: {passes: [[behind 1, out]]}
"""


def test_the_base_of_a_lid_is_told_by_its_sticks_and_its_side_by_its_stakes(tmp_path: Path) -> None:
    """Worked alike with the same strands, they are two figures all the same."""
    figures = draw_figures(constructed(tmp_path, BOX))
    scenes = [figures[name] for name in figures if name.startswith("lid-stroke")]
    assert len(scenes) == 2
    for scene, upright, sides in zip(
        scenes, ("stick end", "stake"), ({"away from you", "towards you"}, {"inside", "outside"}), strict=True
    ):
        assert f"round {upright} 1" in scene.words
        assert sides <= {item.words for item in every_item(scene.items) if isinstance(item, Text)}
