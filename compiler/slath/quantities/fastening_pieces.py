"""Hinges, fastenings and knobs of a lid, and fittings: each as long as the way it takes, by geometry."""

from __future__ import annotations

import math

from msgspec.structs import replace

from slath.basket.gathering import bundle_mm, gathered_of
from slath.basket.handle_curve import girth_mm
from slath.basket.model import Basket, ConstructedLid
from slath.language.pattern import Edge, Fastening, Fitting, Hinge, Knob, Material, SizedPattern
from slath.language.places import Path
from slath.quantities.borders import stake_mm, thickest
from slath.quantities.cutting import chosen_or_setting, piece_of, wound_on
from slath.quantities.results import Piece
from slath.units import Amount, Basis, worked

# Share of a wound ball that is strand and not air: parallel rods fill 0.91 at the closest, crossing turns rather less.
# Estimated.
_WOUND = 0.6


def fitting_pieces(pattern: SizedPattern) -> tuple[Piece, ...]:
    """Every fitting in the order listed: of the length the designer gives, or as long as its loop or ball takes."""
    return tuple(_fitting(fitting, pattern) for fitting in pattern.fittings)


def binding_pieces(basket: Basket) -> tuple[Piece, ...]:
    """What binds stakes that are drawn together at the top: so many turns round the bundle, its tails, and the loop."""
    spec = gathered_of(basket)
    if spec is None:
        return ()
    pattern, path = basket.pattern, spec.path
    material = pattern.materials[spec.tied]
    across = Amount("across the bundle", bundle_mm(basket), "mm", Basis.ESTIMATED, path=path)
    thick = Amount("strand thickness", material.thickness_mm, "mm", material.stock.basis, material.stock.source)
    turns = Amount("turns", spec.turns, "count", Basis.GIVEN, path=(*path, "turns"))
    length = math.pi * (across.value + thick.value) * turns.value
    formula = "turns × pi × (across the bundle + strand)"
    parts = [worked("round the stakes", length, "mm", formula, turns, across, thick, path=path), tails(pattern)]
    if spec.loop_mm is not None:
        loop = Amount("loop", spec.loop_mm, "mm", Basis.GIVEN, path=(*path, "loop"))
        parts.append(worked("loop to hang it by", 2 * loop.value, "mm", "2 × its length", loop, path=path))
    count = Amount("top binding", 1, "count", Basis.COUNTED, path=path)
    return (wound_on(piece_of("top binding", spec.tied, count, tuple(parts), pattern, path=path), pattern),)


def lid_fastening_pieces(basket: Basket, lid: ConstructedLid) -> tuple[Piece, ...]:
    """What a lid is hinged, fastened and lifted with."""
    spec, pattern = lid.spec, basket.pattern
    pieces: list[Piece] = []
    if spec.hinge is not None and not spec.hinge.in_one:
        pieces.append(_hinge(spec.hinge, basket, lid))
    if spec.fastening is not None:
        pieces += _fastening(spec.fastening, basket, lid)
    if spec.knob is not None:
        pieces.append(_knob("lid knob", spec.knob, 1, pattern))
    return tuple(pieces)


def with_hinge(piece: Piece, basket: Basket, lid: ConstructedLid) -> Piece:
    """A piece of the lid as it is cut where some of its ends are worked round the basket's rim as the hinge."""
    hinge = lid.spec.hinge
    if hinge is None or not hinge.in_one or not _turns_up(piece):
        return piece
    own = replace(_round_rims(hinge, basket, lid), name="hinge")
    parts = (*piece.parts, own)
    return piece_of(
        piece.part, piece.material, piece.count, parts, basket.pattern,
        path=piece.path, spare=piece.spare, given_mm=piece.given_mm,
    )  # fmt: skip


def _turns_up(piece: Piece) -> bool:
    return piece.part == "stakes" or "through sticks" in piece.part


def _fitting(fitting: Fitting, pattern: SizedPattern) -> Piece:
    path = fitting.path
    count = Amount(fitting.part, fitting.count, "count", Basis.GIVEN, path=(*path, "count"))
    if fitting.links > 1:
        links = Amount("links of each", fitting.links, "count", Basis.GIVEN, path=(*path, "links"))
        count = worked(
            fitting.part, fitting.count * fitting.links, "count", "chains × links of each", count, links, path=path
        )
    if fitting.plaited > 1:
        each = Amount("lengths of each", fitting.plaited, "count", Basis.GIVEN, path=(*path, "plaited"))
        count = worked(
            fitting.part, fitting.count * fitting.plaited, "count", "pieces × lengths of each", count, each, path=path
        )
    if fitting.length_mm is not None:
        length = Amount("length", fitting.length_mm, "mm", Basis.GIVEN, path=(*path, "length"))
        parts: tuple[Amount, ...] = (length,)
    elif fitting.ball_mm is not None:
        parts = _ball(fitting.ball_mm, pattern.materials[fitting.material], pattern, (*path, "ball"))
    else:
        across = Amount("across the loop", fitting.across_mm or 0.0, "mm", Basis.GIVEN, path=(*path, "across"))
        parts = (worked("round the loop", math.pi * across.value, "mm", "pi × across", across), tails(pattern))
    made = piece_of(fitting.part, fitting.material, count, parts, pattern, path=path, given_mm=fitting.length_mm)
    return wound_on(made, pattern) if fitting.ball_mm is not None else made


# ------------------------------------------------------------------------------------------------------- hinge, loop
def _hinge(hinge: Hinge, basket: Basket, lid: ConstructedLid) -> Piece:
    number = hinge.count
    part = "hinge lashings" if number > 1 else "hinge lashing"
    count = Amount(part, number, "count", Basis.GIVEN, path=(*hinge.path, "count"))
    parts = (_round_rims(hinge, basket, lid), tails(basket.pattern))
    given = hinge.length_mm
    path = (*hinge.path, "length") if given is not None else hinge.path
    return piece_of(part, hinge.material, count, parts, basket.pattern, path=path, given_mm=given)


def _round_rims(hinge: Hinge, basket: Basket, lid: ConstructedLid) -> Amount:
    """Loosely round the rim and the edge of the lid side by side, so many times: a belt round two bundles of rods.

    A belt round two circles that touch is half of either circumference and twice the way between their centres.
    """
    rim, edge = girth_of_edge("girth of the rim", basket), girth_of_edge("girth of the lid's edge", lid.basket)
    turns = basket.pattern.settings["hinge_turns"]
    if hinge.turns is not None:
        turns = Amount("turns", hinge.turns, "count", Basis.GIVEN, path=(*hinge.path, "turns"))
    return round_both(turns, rim, edge, path=hinge.path)


def round_both(turns: Amount, one: Amount, other: Amount, *, path: Path) -> Amount:
    """So many turns round two edges that lie side by side, as a belt goes, from the girths of both."""
    value = turns.value * (one.value + other.value) * (0.5 + 1 / math.pi)
    formula = f"turns × ({one.name} + {other.name}) × (1/2 + 1/pi)"
    return worked("round both rims", value, "mm", formula, turns, one, other, path=path)


def girth_of_edge(name: str, basket: Basket, edge: Edge = "rim") -> Amount:
    """Round the stakes of a border that lie at one place (or one stake or stick, where there is no border), and the row
    of weaving next to it. At the edge of a base below a side the sticks and stakes lie there.
    """
    materials = basket.pattern.materials
    stake = stake_mm(basket)
    if not basket.stakes:
        stake = thickest("stick thickness", [materials[stick.material] for stick in basket.base.sticks])
    border = basket.border if edge == "rim" or basket.profile is None else basket.foot
    rods = max(border.thickness, 1) if border is not None else 1
    lying = Amount("stakes lying at one place", rods, "count", Basis.ESTIMATED)
    above = basket.bands if edge == "rim" else ()
    last = [band for band in (*basket.base.bands, *above) if band.materials][-1:]
    weavers = [materials[key] for band in last for rod in band.materials for key in rod]
    row = thickest("weaver thickness", weavers)
    formula = "round the stakes lying at one place, and 2 × a weaver"
    return worked(name, girth_mm(rods, stake.value) + 2 * row.value, "mm", formula, lying, stake, row)


def tails(pattern: SizedPattern) -> Amount:
    """The two ends of a lashing, left to be tucked away."""
    tail = pattern.settings["lashing_tail"]
    return worked("tails", 2 * tail.value, "mm", "2 × tail", tail)


def _fastening(fastening: Fastening, basket: Basket, lid: ConstructedLid) -> list[Piece]:
    """A loop that hangs from the lid's edge over the rim, and the knob or the peg that holds it."""
    pattern, path = basket.pattern, fastening.path
    knob = chosen_or_setting("across the knob", fastening.across_mm, pattern, setting="knob", path=(*path, "across"))
    rim, edge = girth_of_edge("girth of the rim", basket), girth_of_edge("girth of the lid's edge", lid.basket)
    drop = worked("from the lid's edge past the rim", (rim.value + edge.value) / math.pi, "mm",
                  "(girth of the rim + girth of the lid's edge) ÷ pi", rim, edge)  # fmt: skip
    down = worked("down and up again", 2 * drop.value, "mm", "2 × from the lid's edge past the rim", drop)
    round_it = worked("round the knob", math.pi * knob.value / 2, "mm", "half of pi × across the knob", knob)
    count = Amount("fastening loops", fastening.count, "count", Basis.GIVEN, path=path)
    loop = piece_of(
        "fastening loops" if fastening.count > 1 else "fastening loop",
        fastening.material, count, (down, round_it, tails(pattern)), pattern, path=path,
    )  # fmt: skip
    if fastening.kind == "loop and peg":
        length = replace(pattern.settings["peg"], name="peg")
        number = replace(count, name="fastening pegs")
        name = "fastening pegs" if fastening.count > 1 else "fastening peg"
        return [loop, piece_of(name, fastening.peg or fastening.material, number, (length,), pattern, path=path)]
    name = "fastening knobs" if fastening.count > 1 else "fastening knob"
    own = Knob((*path, "across"), fastening.material, knob.value)
    return [loop, _knob(name, own, fastening.count, pattern)]


# ------------------------------------------------------------------------------------------------------------- knobs
def _knob(part: str, knob: Knob, number: int, pattern: SizedPattern) -> Piece:
    across = knob.across_mm if knob.across_mm is not None else pattern.settings.mm("knob")
    count = Amount(part, number, "count", Basis.GIVEN, path=knob.path)
    parts = _ball(across, pattern.materials[knob.material], pattern, knob.path)
    return wound_on(piece_of(part, knob.material, count, parts, pattern, path=knob.path), pattern)


def _ball(across_mm: float, strand: Material, pattern: SizedPattern, path: Path) -> tuple[Amount, ...]:
    """One strand wound to a ball: its volume is that of the ball, less the air between the turns."""
    across = Amount("across the ball", across_mm, "mm", Basis.GIVEN, path=path)
    thick = Amount("strand thickness", strand.thickness_mm, "mm", strand.stock.basis, strand.stock.source)
    length = _WOUND * 2 * across_mm**3 / (3 * strand.width_mm * strand.thickness_mm)
    formula = f"{_WOUND:g} × volume of the ball ÷ section of the strand"
    wound = worked("wound to a ball", length, "mm", formula, across, thick, basis=Basis.ESTIMATED, path=path)
    return (wound, tails(pattern))
