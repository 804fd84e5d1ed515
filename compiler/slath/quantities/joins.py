"""From woven length to strands on the bench: ends, working pieces, laps and spare."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.model import WovenBand
from slath.language.pattern import Material, SizedPattern
from slath.quantities.cutting import cut_length
from slath.quantities.results import StrandRun
from slath.units import Amount, Basis, LengthToCut, worked

_HAIR = 1e-9


def pieces_for(strand_mm: float, working_mm: float, lap_mm: float) -> int:
    """Pieces of a working length that make one strand, each after the first lapping the one before.

    The lap must be shorter than the working length. With no working length a strand is not parted.
    """
    if strand_mm <= 0:
        return 0
    if working_mm <= 0 or strand_mm <= working_mm * (1 + _HAIR):
        return 1
    return 1 + math.ceil((strand_mm - working_mm) / (working_mm - lap_mm) - _HAIR)


def lap_of(working: Amount, pattern: SizedPattern) -> Amount:
    """How far two pieces lie side by side at a join: the maker's lap, never more than half of a piece."""
    lap = pattern.settings["join_lap"]
    if working.value <= 0 or lap.value <= working.value / 2:
        return lap
    return worked(lap.name, working.value / 2, "mm", "half a piece, which is less than the lap", working, lap)


def working_length(band: WovenBand, material: Material, pattern: SizedPattern) -> Amount:
    """The length strands are prepared in: the band's own, a rod's, or the maker's usual one if the stock is as long."""
    spec, stock = band.spec, material.stock
    if spec.working_length_mm is not None:
        return Amount("working length", spec.working_length_mm, "mm", Basis.GIVEN, path=(*spec.path, "working_length"))
    if stock.length_class_mm is not None:
        return Amount("length of a rod", stock.length_class_mm, "mm", stock.length_basis, stock.length_source)
    usual = pattern.settings["working_length"]
    if stock.usual_length_mm is not None and stock.usual_length_mm < usual.value:
        return Amount("usual length of the stock", stock.usual_length_mm, "mm", stock.length_basis, stock.length_source)
    return replace(usual, name="working length")


def _in_hand(course: Sequence[WovenBand], number: int) -> int:
    """Pieces the designer says are used up, of this material's share of the strands; nought where the rounds decide."""
    band = course[0]
    used, strands = band.spec.extent.used, sum(len(rod) for rod in band.materials)
    return round(used * number / strands) if used is not None and len(course) == 1 and strands else 0


def joined(course: Sequence[WovenBand], key: str, woven: Amount, pattern: SizedPattern) -> StrandRun:
    """The strands of material `key` that together weave `woven`, all of one length, with what joining them takes.

    `course` is a band, or the bands that go on with the same strands. Each strand starts and finishes with half a lap
    behind a stake.
    """
    band = course[0]
    material, path = pattern.materials[key], band.spec.path
    label = f"{material.title}, {band.spec.written_as}"
    number = sum(rod.count(key) for rod in band.materials)
    strands = Amount(f"strands, {label}", number, "count", Basis.COUNTED)
    working = working_length(band, material, pattern)
    lap = lap_of(working, pattern)

    def sum_up(name: str, value: float, formula: str, *inputs: Amount) -> Amount:
        return worked(f"{name}, {label}", value, "mm", formula, *inputs, path=path)

    def count(name: str, value: float, formula: str, *inputs: Amount) -> Amount:
        return worked(f"{name}, {label}", value, "count", formula, *inputs, path=path)

    started = number if woven.value > 0 else 0
    ends = sum_up("ends", started * lap.value, "strands × one lap, half to start and half to finish", strands, lap)
    one = sum_up("one strand", (woven.value + ends.value) / number, "(woven + ends) ÷ strands", woven, ends, strands)
    each = pieces_for(one.value, working.value, lap.value)
    formula = "strands × pieces of the working length that make one strand"
    if each > 1 and each % 2 and band.tapers and band.spec.weave.twined:
        each += 1
        formula = f"{formula}, an even number: rods begin and end with tips, and join butt to butt"
    pieces = count("pieces", number * each, formula, strands, working, lap, one)
    in_hand = _in_hand(course, number)
    if in_hand:
        pieces = Amount(f"pieces, {label}", in_hand, "count", Basis.GIVEN, path=(*path, "until_used"))
        each = max(each, math.ceil(in_hand / number))
    joins = count("joins", max(pieces.value - number, 0), "pieces - strands", pieces, strands)
    laps = sum_up("laps", joins.value * lap.value, "joins × lap", joins, lap)
    length = sum_up("length", woven.value + ends.value + laps.value, "woven + ends + laps", woven, ends, laps)
    if in_hand:
        length = sum_up("length", in_hand * working.value, "pieces × working length", pieces, working)
    share = pattern.settings["spare_strands"]
    return StrandRun(
        band=band.spec.written_as,
        part=band.part,
        index=band.index,
        material=key,
        rods=number,
        rounds=sum(len(part.rounds) for part in course),
        woven_mm=woven,
        ends_mm=ends,
        joins=joins,
        laps_mm=laps,
        pieces=pieces,
        piece_mm=replace(working, value=LengthToCut(working.value)) if each > 1 else cut_length(label, one, pattern),
        length_mm=length,
        spare_mm=sum_up("spare", length.value * share.value, "length × spare share", length, share),
    )
