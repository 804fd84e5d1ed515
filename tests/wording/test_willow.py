"""Willow told as willow is worked: the facts of a Scots willow tutorial and a basketmaker's site; else from memory."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from slath.editions import EDITIONS
from slath.pipeline import Compilation, compile_pattern
from slath.work import BuildOptions, Work

PATTERN = Path(__file__).resolve().parents[2] / "patterns" / "osier-eyot.yaml"


@cache
def compiled() -> Compilation:
    """The shipped basket of whole rods."""
    return compile_pattern(PATTERN)


@cache
def text() -> str:
    """Its booklet as text, each paragraph on one line."""
    ((_, told),) = EDITIONS["text"].make(Work(compiled(), BuildOptions()), EDITIONS["text"])
    return " ".join(told.decode().split())


def test_stakes_are_whole_rods_and_sticks_are_cut_from_butts() -> None:
    """Stakes stay full length until the border is worked; reed alone is cut before."""
    for size in compiled().sizes:
        pieces = {piece.part: piece for piece in size.quantities.pieces}
        assert pieces["stakes"].whole
        assert not pieces["base sticks"].whole
        assert pieces["stakes"].needed_mm.value < 6 * 304.8
    assert "left whole, " in text()
    assert "Leave them whole: what the border does not use is cut off when it is done" in text()


def test_a_small_round_basket_takes_what_makers_count() -> None:
    """Six sticks, 24 stakes, 24 weavers for one set of English randing: one rod a stake (the same tutorial)."""
    small = compiled().sizes[0].quantities
    (siding,) = [run for run in small.strands if run.band == "siding"]
    assert siding.pieces.value == small.stakes.value == 24
    assert small.sets_of_rods("side", siding.index) == 1


def test_bands_that_are_joined_begin_and_end_with_tips() -> None:
    """Tops first and last, butts pieced to butts: of each strand an even number of rods."""
    for size in compiled().sizes:
        for run in size.quantities.strands:
            each = run.pieces.value / run.rods
            assert run.band == "siding" or each == 1 or each % 2 == 0


def test_no_rod_is_folded() -> None:
    """Folding one strand is the habit of cane; in willow two tips are laid into the slath."""
    assert "fold" not in text()
    assert "Push the tips of both, side by side, into the split of the slit sticks" in text()


def test_the_order_of_the_work() -> None:
    """Butts in, pricked with a knife, tops tied until the border, trimmed after it, and the tops wound round the handle."""
    order = [
        "Cut the butt of each stake to a slype",
        "turn the blade a quarter round",
        "Leave them tied until the border",
        "short of its own butt",
        "Untie the tops",
        "Put the longest of the tops you cut off aside",
        "Take the tops that were cut off",
    ]
    places = [text().index(words) for words in order]
    assert places == sorted(places)
    assert "Untie the string" not in text()


def test_tops_are_listed_and_not_bought() -> None:
    """The rope is on the list, and the rods bought are the stakes alone, spare ones included."""
    for size in compiled().sizes:
        (rope,) = [piece for piece in size.quantities.pieces if piece.offcut]
        assert rope.cut_mm.value < 6 * 304.8 - 600
        (stakes,) = [row for row in size.quantities.purchase if row.material == "stakes"]
        assert stakes.rods is not None
        assert stakes.rods.value == 26
