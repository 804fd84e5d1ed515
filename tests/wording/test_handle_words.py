"""What is wound round a handle, and how pieces are called, in words."""

from __future__ import annotations

from pathlib import Path

from tests.wording.small_baskets import told_of

BASKET = """
base: {kind: round slath, diameter: 6 in, pierced: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 5 in, bands: [{weave: three-rod wale, strands: plain, to: top}]}
border: {kind: plain, rods: 3}
"""


def test_a_spaced_wrap_leaves_the_bow_bare(tmp_path: Path) -> None:
    """One strand wound apart is one strand with its gap, and nothing is said of a second group or of no gap."""
    handle = "handle: {kind: bow, material: sticks, rise: 7 in, wraps: {kind: rope, strands: plain, cover: spaced, gap: 2 1/2 in}}\n"
    said = told_of(tmp_path, BASKET + handle)
    assert "Leave 2 1/2 in (64 mm) of the bow bare between one turn and the next." in said
    assert "Push its end into the weaving beside one leg." in said
    assert not any("without a gap" in sentence or "second group" in sentence for sentence in said)


def test_pieces_are_counted_in_their_number(tmp_path: Path) -> None:
    """Two of a designer's own piece are its plural, one its singular, in the tally of what was cut."""
    fittings = "fittings: [{part: hinge, material: plain, count: 2, length: 9 in}, {part: loop, material: plain, length: 6 in}]\n"
    handle = "handles: {kind: side, material: sticks, count: 2, rise: 3 in, span: 4 in, wraps: {kind: lapping, strands: plain}}\n"
    said = "\n".join(told_of(tmp_path, BASKET + fittings + handle))
    assert "Put each hinge of No. 4 round reed" in said
    assert "Put the loop of No. 4 round reed" in said
    assert "2 hinges" in said.split("You have ")[1]
    assert "1 loop" in said.split("You have ")[1]


def test_ears_are_bored_and_called_ears(tmp_path: Path) -> None:
    """An ear holds the handle by a hole, which is bored before it is set in; nothing calls it a leg or a foot."""
    said = told_of(tmp_path, BASKET + "handle: {kind: ears, material: sticks, count: 2, rise: 2 in}\n")
    (bored,) = (number for number, sentence in enumerate(said) if sentence.startswith("Bore a hole"))
    (pushed,) = (number for number, sentence in enumerate(said) if sentence.startswith("Push an ear"))
    assert bored < pushed
    assert "Cut a notch across its face, 2 in (51 mm) below the top of its head: the border will lie in it." in said
    assert "Clamp the wood before you drill or saw it, and do not breathe the dust." in said
    assert not any("each leg" in sentence or "both feet" in sentence for sentence in said)
