"""Parts made by themselves in the list: their pieces and strands, so many times, and what joins them, by geometry."""

from __future__ import annotations

import math
from collections.abc import Iterable

from msgspec.structs import replace

from slath.basket.made_parts import base_thickness_mm, joined_to
from slath.basket.model import Basket, ConstructedPart, MadeApart
from slath.quantities.cutting import piece_of
from slath.quantities.fastening_pieces import girth_of_edge, round_both, tails
from slath.quantities.results import Piece, StrandRun
from slath.units import Amount, Basis, worked

# What pieces are called that join a part, one and several.
_CALLED = {
    "tied": ("binding", "bindings"),
    "hinged": ("hinge lashing", "hinge lashings"),
    "laced": ("lacing", "lacing"),
    "hung": ("hanging cord", "hanging cords"),
    "on a stem": ("stem", "stems"),
}


def part_pieces(basket: Basket, part: ConstructedPart, own: Iterable[Piece]) -> tuple[Piece, ...]:
    """The pieces of every one of a part, longer by what is pushed in, and then what joins it."""
    spec = part.spec
    made = [_of_part(_pushed(piece, basket, part), part) for piece in own]
    joining = _joining(basket, part)
    if joining is not None:
        made.append(_of_part(joining, part))
    return tuple(replace(piece, of=spec.name) for piece in made)


def times(run: StrandRun, one: MadeApart) -> StrandRun:
    """The strands of a band of what is made more than once, for all of it."""
    if one.count == 1:
        return run
    number = Amount(f"number of {one.name}", one.count, "count", Basis.GIVEN)

    def all_of(amount: Amount) -> Amount:
        formula = f"{amount.name} of one × number of them"
        return worked(amount.name, amount.value * one.count, amount.unit, formula, amount, number, path=amount.path)

    return replace(
        run,
        rods=run.rods * one.count, woven_mm=all_of(run.woven_mm), ends_mm=all_of(run.ends_mm), joins=all_of(run.joins),
        laps_mm=all_of(run.laps_mm), pieces=all_of(run.pieces), length_mm=all_of(run.length_mm),
        spare_mm=all_of(run.spare_mm),
    )  # fmt: skip


def _of_part(piece: Piece, part: ConstructedPart) -> Piece:
    """A piece of a part under its name, as many as all of them take."""
    spec = part.spec
    count = piece.count
    if spec.count > 1:
        number = Amount(f"number of {spec.name}", spec.count, "count", Basis.GIVEN, path=(*spec.path, "count"))
        formula = "of one × number of them"
        count = worked(count.name, count.value * spec.count, "count", formula, count, number, path=count.path)
    return replace(piece, part=f"{spec.name}: {piece.part}", count=count)


def _pushed(piece: Piece, basket: Basket, part: ConstructedPart) -> Piece:
    """A piece of a part whose ends are pushed in beside the stakes of what it is joined to."""
    join = part.spec.join
    ends = _free_ends(piece, part.basket)
    if join.way != "pushed in" or not ends:
        return piece
    depth = basket.pattern.settings["stake_depth"]
    if join.depth_mm is not None:
        depth = Amount("depth pushed in", join.depth_mm, "mm", Basis.GIVEN, path=(*join.path, "depth"))
    name = "pushed in (both ends)" if ends > 1 else "pushed in"
    extra = worked(name, ends * depth.value, "mm", f"{ends} × depth", depth, path=join.path)
    return piece_of(
        piece.part, piece.material, piece.count, (*piece.parts, extra), basket.pattern,
        path=piece.path, spare=piece.spare, given_mm=piece.given_mm,
    )  # fmt: skip


def _free_ends(piece: Piece, made: Basket) -> int:
    """Ends of a piece that stand out of a finished part: of stakes one; of sticks both, where no stakes are set in."""
    if made.border is not None:
        return 0
    if made.stakes and piece.part == "stakes":
        return 1
    if "half stick" in piece.part:
        return 1
    own_stakes = made.pattern.stakes is not None
    sticks = "through sticks" in piece.part or piece.part in {"lengthwise sticks", "crosswise sticks", "base sticks"}
    return 2 if sticks and not own_stakes else 0


def _joining(basket: Basket, part: ConstructedPart) -> Piece | None:
    """What binds, laces, hangs or carries one of a part; None where nothing is cut for it."""
    join = part.spec.join
    if join.way not in _CALLED:
        return None
    one, several = _CALLED[join.way]
    number = join.places if join.way != "laced" else 1
    name = several if number > 1 else one
    basis = Basis.GIVEN if join.way != "laced" else Basis.COUNTED
    count = Amount(name, number, "count", basis, path=(*join.path, "places"))
    given = join.length_mm
    path = (*join.path, "length") if given is not None else join.path
    parts = {"on a stem": _stem, "hung": _cord, "laced": _lacing}.get(join.way, _binding)(basket, part)
    return piece_of(name, join.material, count, parts, basket.pattern, path=path, given_mm=given)


def _edges(basket: Basket, part: ConstructedPart) -> tuple[Amount, Amount]:
    join = part.spec.join
    other = girth_of_edge(f"girth of the {join.on}", joined_to(basket, part), join.on)
    return other, girth_of_edge(f"girth of the edge of the {part.spec.name}", part.basket, join.by)


def _binding(basket: Basket, part: ConstructedPart) -> tuple[Amount, ...]:
    join = part.spec.join
    turns = basket.pattern.settings["hinge_turns"]
    if join.turns is not None:
        turns = Amount("turns", join.turns, "count", Basis.GIVEN, path=(*join.path, "turns"))
    return round_both(turns, *_edges(basket, part), path=join.path), tails(basket.pattern)


def _lacing(basket: Basket, part: ConstructedPart) -> tuple[Amount, ...]:
    """Over both edges once in every space of the part, each turn led on by one space."""
    edge, own = part.edge, part.basket
    spaces = max(own.rim_uprights if part.spec.join.by == "rim" else len(own.base.ends) or own.working, 1)
    count = Amount("spaces of the edge", spaces, "count", Basis.COUNTED)
    once = round_both(Amount("turn", 1, "count", Basis.COUNTED), *_edges(basket, part), path=part.spec.join.path)
    space = worked("from space to space", edge.perimeter / spaces, "mm", "edge ÷ spaces",
                   Amount("edge", edge.perimeter, "mm", Basis.COUNTED), count)  # fmt: skip
    length = spaces * math.hypot(once.value, space.value)
    formula = "spaces × root of (round both edges² + from space to space²)"
    laced = worked("over both edges all round", length, "mm", formula, count, once, space, path=part.spec.join.path)
    return laced, tails(basket.pattern)


def _cord(basket: Basket, part: ConstructedPart) -> tuple[Amount, ...]:
    """From edge to edge, and once round each where it is tied."""
    other, own = _edges(basket, part)
    tied = worked(
        "round both edges", other.value + own.value, "mm", "girth of the one + girth of the other", other, own
    )
    return _rise(part), tied, tails(basket.pattern)


def _stem(basket: Basket, part: ConstructedPart) -> tuple[Amount, ...]:
    """The clear height, and through the base below and the base above."""
    below, above = joined_to(basket, part), part.basket
    thick = [
        Amount(name, base_thickness_mm(made), "mm", Basis.COUNTED)
        for name, made in (("through the lower base", below), ("through the upper base", above))
    ]
    return (_rise(part), *(amount for amount in thick if amount.value > 0))


def _rise(part: ConstructedPart) -> Amount:
    join = part.spec.join
    return Amount("clear height", join.rise_mm or 0.0, "mm", Basis.GIVEN, path=(*join.path, "rise"))
