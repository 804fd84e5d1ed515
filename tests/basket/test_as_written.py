"""What a designer fixes is kept to: lengths, holes, places of bye-stakes, sizes reached by a base."""

from __future__ import annotations

from pathlib import Path

import pytest

from slath.pipeline import CompiledSize, compile_pattern

INCH = 25.4  # exact: NIST SP 811 (2008), B.8
WEAVING = "    - {name: base, weave: pairing, strands: weaver, to: edge}"
PATTERN = """slath: 1
title: Trial
materials:
  sticks: {{stock: us round reed 8}}
  stakes: {{stock: us round reed 5}}
  weaver: {{stock: us round reed 3}}
  board: {{stock: plywood 6 mm}}
  bow: {{stock: us round reed 10}}
base:
  kind: round slath
  diameter: 8 in
  pierced: 5
  threaded: 5
  material: sticks
  weaving:
{weaving}
stakes: {{material: stakes, per_end: 2}}
side:
  height: {height}
  bands:
    - {{name: wall, weave: pairing, strands: weaver, to: top}}
border:
  passes:
    - [behind 1, out]
    - [before 2, in]
{rest}
"""


def compiled(folder: Path, rest: str = "", *, weaving: str = WEAVING, height: str = "5 in") -> CompiledSize:
    """The trial basket with more keys below it."""
    file = folder / "trial.yaml"
    file.write_text(PATTERN.format(weaving=weaving, rest=rest, height=height), encoding="utf-8")
    return compile_pattern(file).sizes[0]


@pytest.mark.parametrize("length", [24, 30, 40])
def test_handle_rises_as_its_length_allows(length: int, tmp_path: Path) -> None:
    """Bow, feet and trim of a handle cut to a fixed length come to that length: its rise is what they leave."""
    handle = compiled(tmp_path, f"handle: {{kind: bow, material: bow, length: {length} in}}").basket.handles[0]
    assert handle.piece_mm.value == pytest.approx(length * INCH, abs=0.01)
    assert handle.rise_mm > 0


def test_feet_stop_at_the_base(tmp_path: Path) -> None:
    """Feet go 4 in down unless the side is lower: then as far as the base, and no deeper."""
    rest = "handle: {kind: bow, material: bow}"
    high, low = compiled(tmp_path, rest), compiled(tmp_path, rest, height="2 in")
    assert high.basket.handles[0].foot_mm.value == pytest.approx(4 * INCH)
    assert low.basket.profile is not None
    assert low.basket.handles[0].foot_mm.value == pytest.approx(low.basket.profile.height_mm)


def test_band_reaches_its_size(tmp_path: Path) -> None:
    """A base band with a size stops where the base measures that across, within half a round each side."""
    weaving = f"    - {{name: inner, weave: pairing, strands: weaver, size: 5 in, worked: in twos}}\n{WEAVING}"
    basket = compiled(tmp_path, weaving=weaving).basket
    inner = basket.base.bands[0]
    assert basket.base.slath is not None
    across = basket.base.slath.width_mm + 2 * inner.to_mm
    assert across == pytest.approx(5 * INCH, abs=inner.pitch.value)


def test_grouped_sticks_of_a_cross_are_its_arms(tmp_path: Path) -> None:
    """5 through 5 bound as it lies has four arms of five ends; parted, its 20 ends stand singly."""
    weaving = f"    - {{name: binding, weave: pairing, strands: weaver, rounds: 2, worked: grouped}}\n{WEAVING}"
    bands = compiled(tmp_path, weaving=weaving).basket.base.bands
    assert bands[0].group_sizes == (5, 5, 5, 5)
    assert bands[1].group_sizes == (1,) * 20


def test_bye_stakes_stand_where_they_are_put(tmp_path: Path) -> None:
    """Bye-stakes beside chosen stakes stand there and nowhere else, and as many are cut."""
    size = compiled(tmp_path, "bye_stakes: {material: stakes, beside: [1, 2, 21]}")
    kinds = [stake.kind for stake in size.basket.stakes]
    assert [index for index, kind in enumerate(kinds) if kind == "bye-stake"] == [1, 3, 23]
    assert [piece.count.value for piece in size.quantities.pieces if piece.part == "bye-stakes"] == [3]


def test_side_of_a_board_rises_from_its_holes(tmp_path: Path) -> None:
    """The first round of a tray lies on the line of holes, not on the edge: π × (board - 2 × inset) long."""
    size = board(tmp_path, "holes: {count: 32, inset: 1/2 in}", "{material: stakes}")
    lowest = size.basket.bands[0].rounds[0]
    assert lowest.perimeter_mm == pytest.approx(3.14159265 * 9 * INCH, rel=1e-6)


def test_stake_through_two_holes(tmp_path: Path) -> None:
    """A stake down one hole and up the next stands twice: half as many, twice as long and the way between the holes."""
    one = board(tmp_path, "holes: {count: 32, inset: 1/2 in}", "{material: stakes}")
    two = board(tmp_path, "holes: {count: 32, inset: 1/2 in}", "{material: stakes, holes_each: 2}")
    single = next(piece for piece in one.quantities.pieces if piece.part == "stakes")
    double = next(piece for piece in two.quantities.pieces if piece.part == "stakes")
    assert len(one.basket.stakes) == len(two.basket.stakes) == 32
    assert (single.count.value, double.count.value) == (32, 16)
    between = 3.14159265 * 9 * INCH / 32
    assert double.needed_mm.value == pytest.approx(2 * single.needed_mm.value + between)


def board(folder: Path, holes: str, stakes: str) -> CompiledSize:
    """A tray on a round board of 10 in."""
    text = PATTERN.format(weaving=WEAVING, rest="", height="2 in")
    start, stop = text.index("base:"), text.index("side:")
    base = f"base: {{kind: board, shape: circle, diameter: 10 in, material: board, {holes}}}\nstakes: {stakes}\n"
    file = folder / "tray.yaml"
    file.write_text(text[:start] + base + text[stop:], encoding="utf-8")
    return compile_pattern(file).sizes[0]


def test_lid_carries_a_handle(tmp_path: Path) -> None:
    """A ring on a lid is listed with the lid: π × (ring - reed), a lap of a third of that at most (it does not lap the
    whole way), and an inch of trim; and so is the loop it hangs by.
    """
    lid = """lid:
  base: {kind: round slath, diameter: 9 in, pierced: 5, threaded: 5, material: sticks, weaving: [{weave: pairing, strands: weaver, to: edge}]}
  stakes: {material: stakes, per_end: 1}
  handle: {kind: ring, material: weaver, diameter: 2 in}"""
    size = compiled(tmp_path, lid)
    ring = next(piece for piece in size.quantities.pieces if piece.part == "lid ring handle")
    round_mm = 3.14159265 * (2 * INCH - size.sized.materials["weaver"].thickness_mm)
    assert ring.needed_mm.value == pytest.approx(round_mm + min(round_mm / 3, 6 * INCH) + INCH)
    assert [piece.count.value for piece in size.quantities.pieces if piece.part == "lid loop"] == [1]


def test_turned_down_stakes_make_the_foot(tmp_path: Path) -> None:
    """Where a border goes down outside and a foot follows below a woven base, the stakes are longer by what the foot takes."""
    border = "border: {passes: [{moves: [behind 1, down], depth: 4 in}]}"
    foot = "foot: {passes: [[behind 1, before 1, in]]}"
    plain, footed = (turned(tmp_path, border, more) for more in ("", foot))
    assert footed.quantities.foot is not None
    lengths = [next(piece for piece in size.quantities.pieces if piece.part == "stakes") for size in (plain, footed)]
    assert lengths[1].needed_mm.value - lengths[0].needed_mm.value == pytest.approx(
        footed.quantities.foot.needed_mm.value
    )


def turned(folder: Path, border: str, foot: str) -> CompiledSize:
    """The trial basket with another border, and perhaps a foot."""
    text = PATTERN.format(weaving=WEAVING, rest=foot, height="4 in")
    start = text.index("border:")
    stop = text.index("    - [before 2, in]\n") + len("    - [before 2, in]\n")
    file = folder / "turned.yaml"
    file.write_text(text[:start] + border + "\n" + text[stop:], encoding="utf-8")
    return compile_pattern(file).sizes[0]
