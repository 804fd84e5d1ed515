"""Swinging handles against common practice, closed forms and a simulation of how a bow clears the wall."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import pytest
from scipy import optimize

from slath.pipeline import CompiledSize, compile_pattern

INCH = 25.4
BASKET = """slath: 1
title: Ferry trial
materials:
  sticks: {stock: us round reed 8}
  stakes: {stock: us round reed 5}
  plain: {stock: us round reed 4}
  bow: {stock: us round reed 10}
  wire: {stock: {kind: wire, diameter: 0.8 mm, usual_length: 20 m, source: measured}}
  ash: {stock: {kind: wood, width: 1 1/2 in, thickness: 3/8 in, usual_length: 3 ft, source: measured}}
base: {kind: round slath, diameter: 9 in, pierced: 4, threaded: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 6 in, rim: {diameter: 11 in}, bands: [{name: upsett, weave: three-rod wale, strands: plain, to: top}]}
border: {passes: [[behind 2, out], [before 3, in]]}
"""
HANDLE = """handle:
  kind: swinging
  material: bow
  count: BOWS
  length: 34 in
  scarf: 7 in
  ears: {material: ash, length: 3 1/2 in}
  bind: {material: wire}
  wraps: {kind: rope, strands: plain, group: 3}
"""


def made(folder: Path, handle: str = HANDLE, bows: int = 2) -> CompiledSize:
    """The one size of a basket with such a handle."""
    file = folder / "trial.yaml"
    file.write_text(BASKET + handle.replace("BOWS", str(bows)), "utf-8")
    (size,) = compile_pattern(file).sizes
    return size


def pieces(size: CompiledSize) -> dict[str, tuple[int, float]]:
    """Count and cut length in inches of every piece by its part."""
    return {piece.part: (round(piece.count.value), piece.cut_mm.value / INCH) for piece in size.quantities.pieces}


def test_check_values_of_the_trade(tmp_path: Path) -> None:
    """An ear of about 1 1/2 by 3 1/2 in; a bow of No. 10 round reed cut 34 in with scarfs of 7 in, wrapped in groups of
    three strands of No. 4 round reed, takes twelve to fourteen strands, each the handle's length plus about 3 in: common
    practice, no source.
    """
    size = made(tmp_path, bows=1)
    listed = pieces(size)
    (handle,) = size.basket.handles
    assert listed["ears"] == pytest.approx((2, 3.5))
    assert handle.ear is not None
    assert handle.ear.width.value == pytest.approx(1.5 * INCH)
    assert listed["bow"] == pytest.approx((1, 34.0))
    count, long = listed["rope strands"]
    assert 12 <= count <= 14
    assert count % 3 == 0
    assert long == pytest.approx(handle.bow_mm.value / INCH + 3, abs=0.75)
    assert handle.bow_mm.value == pytest.approx(20 * INCH, rel=1e-4)


def test_two_bows_double_what_each_takes(tmp_path: Path) -> None:
    """Two bows hang in one pair of ears, each in a hole of its own; bindings stand at two places of each of four ends."""
    one, two = (pieces(made(tmp_path, bows=bows)) for bows in (1, 2))
    assert one["ears"] == two["ears"]
    assert two["bows"][0] == 2 * one["bow"][0]
    assert two["rope strands"][0] == 2 * one["rope strands"][0]
    assert (one["bindings"][0], two["bindings"][0]) == (4, 8)


@pytest.mark.parametrize(("holes", "bows", "through"), [(1, 1, 1), (2, 2, 1), (1, 2, 2)])
def test_a_hole_is_as_wide_as_what_goes_through_it(holes: int, bows: int, through: int, tmp_path: Path) -> None:
    """Two bows need two holes or one of twice the width."""
    handle = HANDLE.replace("length: 3 1/2 in}", f"length: 4 1/2 in, holes: {holes}}}")
    (worked,) = made(tmp_path, handle, bows).basket.handles
    assert worked.ear is not None
    assert worked.ear.hole.value == pytest.approx(through * 8.0 + INCH / 16)


def test_length_and_rise_follow_from_each_other(tmp_path: Path) -> None:
    """The rise a fixed length leaves, given as the rise, asks for that length; the drawn arch is as long as the list says."""
    (fixed,) = made(tmp_path).basket.handles
    rise = f"rise: {fixed.rise_mm:.6f} mm"
    (risen,) = made(tmp_path, HANDLE.replace("length: 34 in\n", f"{rise}\n")).basket.handles
    assert risen.piece_mm.value == pytest.approx(34 * INCH, abs=0.01)
    drawn = sum(math.dist(a, b) for a, b in pairwise(fixed.curve))
    assert drawn == pytest.approx(fixed.bow_mm.value, rel=1e-3)
    assert fixed.curve[0][1] == pytest.approx(fixed.ear.hole_up_mm if fixed.ear else 0.0)


@pytest.mark.parametrize("length", [28, 34, 44])
def test_a_bow_laid_down_goes_as_far_as_its_legs_clear_the_wall(length: int, tmp_path: Path) -> None:
    """Brute force: the bow turned about its holes until some point of it would stand inside the wall, an upright cylinder."""
    (handle,) = made(tmp_path, HANDLE.replace("34 in", f"{length} in")).basket.handles
    half = handle.span_mm / 2
    reach = max(z for _, z in handle.curve) - handle.curve[0][1]

    def clear(degrees: float) -> float:
        lean = math.radians(degrees)
        away = [((z - handle.curve[0][1]) * math.sin(lean), x) for x, z in handle.curve if abs(x) < 0.98 * half]
        return min(math.hypot(y, x) - half for y, x in away)

    if reach <= half:
        assert handle.laid_degrees == 90.0
        assert clear(90.0) < 1.0
    else:
        stops = optimize.brentq(clear, 90.0, 179.0)
        assert handle.laid_degrees == pytest.approx(stops, abs=2.0)


def test_ears_stand_before_the_border_and_bows_hang_after_it(tmp_path: Path) -> None:
    """The order of the work, and the cautions it needs: knife, drill, bodkin, a bow that springs, wire ends."""
    from slath.quantities import quantities_of  # noqa: PLC0415
    from slath.trade.words import UK  # noqa: PLC0415
    from slath.wording.speech import plain  # noqa: PLC0415
    from slath.wording.telling import tell  # noqa: PLC0415

    file = tmp_path / "trial.yaml"
    file.write_text(BASKET + HANDLE.replace("BOWS", "2"), "utf-8")
    compilation = compile_pattern(file)
    basket = compilation.sizes[0].basket
    told = tell(compilation.pattern, basket, quantities_of(basket), vocabulary=UK)
    keys = [stage.key for stage in told.stages]
    assert (
        keys.index("side" if "side" in keys else "upsett")
        < keys.index("ears")
        < keys.index("border")
        < keys.index("handle")
    )
    ears, handle = (next(stage for stage in told.stages if stage.key == key) for key in ("ears", "handle"))
    cautions = " ".join(plain(caution.words) for step in (*ears.steps, *handle.steps) for caution in step.cautions)
    for word in ("Cut away from yourself", "drill", "bodkin", "springs back", "Wire ends"):
        assert word in cautions, word
    said = " ".join(plain(words) for step in handle.steps for words in step.actions)
    order = [
        said.index(words)
        for words in ("Shave both ends", "through its hole from the outside", "Bind each end", "Lay the next group")
    ]
    assert order == sorted(order)
