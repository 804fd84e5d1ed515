"""Uprights to cut: stakes in their four parts, bye-stakes, and stakes added part-way up."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.model import Basket, Stake, WorkedBorder
from slath.basket.stakes import stake_depth
from slath.language.pattern import Board, ByeStakes, Frame, LaidIn, Plait, ReadyMade, StakeChange, Stakes
from slath.quantities.counts import stakes_amount
from slath.quantities.cutting import chosen_or_setting, piece_of, spare_count
from slath.quantities.ends import Ends, crossings, up_the_side
from slath.quantities.results import Piece
from slath.quantities.stick_pieces import at_both_ends, ring_piece
from slath.quantities.uprights import bye_stakes_of
from slath.units import Amount, Basis, worked

_LEAST_HOLD_MM = 10.0  # less weaving than this holds no bye-stake; estimated


def stake_pieces(basket: Basket, ends: Ends) -> tuple[Piece, ...]:
    """Stakes, bye-stakes, added stakes, and those of the foot; `ends` is what the borders take of them."""
    pieces: list[Piece] = []
    spec = basket.pattern.stakes
    inserted = [stake for stake in basket.stakes if stake.kind == "stake"]
    if spec is not None and inserted:
        pieces += _stakes(basket, spec, inserted, ends)
    pieces += _corner_posts(basket)
    for bye in basket.pattern.bye_stakes:
        pieces += _bye_stakes(basket, bye, ends)
    before = basket.working
    for index, change, after in basket.changes:
        if change.action == "add":
            pieces.append(_added(basket, index, change, after - before, ends))
        before = after
    if ends.border and basket.border is not None and basket.border.spec.plait is not None:
        pieces += _plait_pieces(basket, basket.border.spec.plait, ends.border)
    if basket.border is not None and basket.border.spec.laid_in is not None:
        pieces.append(_laid_in(basket, basket.border, basket.border.spec.laid_in))
    if basket.border is not None and basket.border.spec.ring:
        pieces.append(_rim_ring(basket, basket.border))
    if ends.foot_of == "of its own" and basket.foot is not None:
        pieces.append(_foot_stakes(basket, basket.foot, ends))
    return tuple(pieces)


def upright_of(pieces: Sequence[Piece]) -> Piece | None:
    """The piece whose end is cut off after the border: stakes set in, or sticks that become stakes if all are alike."""
    stakes = [piece for piece in pieces if piece.part == "stakes"]
    through = [piece for piece in pieces if "through sticks" in piece.part and not piece.of]
    return stakes[0] if stakes else through[0] if len(through) == 1 else None


def _plait_pieces(basket: Basket, plait: Plait, above: tuple[Amount, ...]) -> list[Piece]:
    """Lengths laid beside each of the first groups to begin a plait; the groups give up their own as it goes round."""
    if not plait.added or not basket.stakes:
        return []
    formula = "pieces added to a group × groups they are added to"
    number = plait.added * plait.over
    count = Amount("added border pieces", number, "count", Basis.GIVEN, formula=formula, path=plait.path)
    material = basket.stakes[0].material
    return [piece_of("added border pieces", material, count, above, basket.pattern, path=plait.path)]


def _laid_in(basket: Basket, border: WorkedBorder, spec: LaidIn) -> Piece:
    """Short stakes laid into a roll: as far as an end goes over, a space to begin and to end in, and the tail."""
    pattern, path = basket.pattern, spec.path
    spacing = Amount("spacing at the border", border.spacing_mm, "mm", Basis.COUNTED, path=path)
    over = len(border.passes[-1].visits) if border.passes else 1
    way = worked("over the ends and a space beyond on either side", (over + 2) * spacing.value, "mm",
                 f"{over + 2} × spacing at the border", spacing, path=path)  # fmt: skip
    count = Amount("stakes laid in", border.count // spec.every, "count", Basis.COUNTED, path=path)
    given = spec.length_mm
    return piece_of(
        "stakes laid in", spec.material, count, (way, pattern.settings["border_tail"]), pattern,
        path=(*path, "length") if given is not None else path, spare=spare_count(pattern, "spare_stakes"), given_mm=given,
    )  # fmt: skip


def _stakes(basket: Basket, spec: Stakes, inserted: Sequence[Stake], ends: Ends) -> list[Piece]:
    """Stakes set in, one piece for each material: depth + way up the side + border + trim; on a board there is no point
    to trim.
    """
    pattern = basket.pattern
    on_board = isinstance(pattern.base, Board)
    trim = () if on_board else (replace(pattern.settings["stake_trim"], name="trim"),)
    parts = (
        *_seat(basket, spec, ends.below_board),
        up_the_side(basket),
        *crossings(basket),
        *ends.above(inserted),
        *trim,
    )
    if spec.pieces_each == 2:
        middle = _over_the_ring(basket, spec) if spec.doubled else _under_the_board(basket, spec)
        parts = (*(at_both_ends(part) for part in parts), middle)
    return [
        piece_of(
            "stakes",
            material,
            _stakes_of(basket, spec, inserted, material),
            parts,
            pattern,
            path=(*spec.path, "length") if spec.length_mm is not None else spec.path,
            spare=spare_count(pattern, "spare_stakes"),
            given_mm=spec.length_mm,
        )
        for material in dict.fromkeys(stake.material for stake in inserted)
    ]


def _stakes_of(basket: Basket, spec: Stakes, inserted: Sequence[Stake], material: str) -> Amount:
    """How many stakes of one material are cut."""
    count = stakes_amount(basket)
    mine = sum(stake.material == material for stake in inserted)
    if spec.in_turn:
        title = basket.pattern.materials[material].title
        formula = f"every stake of {title}, taken in turn"
        count = Amount(
            f"stakes of {title}", mine, "count", Basis.COUNTED, formula=formula, path=(*spec.path, "in_turn")
        )
    elif mine != len(basket.stakes):
        count = Amount("stakes set in", mine, "count", Basis.COUNTED, path=spec.path)
    if spec.pieces_each == 2:
        formula = (
            "stakes ÷ 2, each length doubled" if spec.doubled else "holes ÷ 2, each stake down one and up the next"
        )
        count = worked(count.name, math.ceil(count.value / 2), "count", formula, count, path=spec.path)
    return count


def _over_the_ring(basket: Basket, spec: Stakes) -> Amount:
    """What a doubled length takes over the ring between its halves: half of the girth of both, edge over edge."""
    materials, base = basket.pattern.materials, basket.pattern.base
    stake = Amount("stake thickness", materials[spec.material].thickness_mm, "mm", Basis.GIVEN)
    ring = materials[base.ring].thickness_mm if isinstance(base, ReadyMade) and base.ring else 0.0
    thick = Amount("ring thickness", ring, "mm", Basis.GIVEN, path=spec.path)
    value = math.pi * (thick.value + stake.value) / 2
    return worked("over the ring", value, "mm", "pi × (ring + stake) ÷ 2", thick, stake, path=spec.path)


def _rim_ring(basket: Basket, border: WorkedBorder) -> Piece:
    """The ring over which the ends of a border are bent."""
    return ring_piece("rim ring", border.spec.ring, basket.rim.perimeter, basket.pattern, (*border.spec.path, "ring"))


def _under_the_board(basket: Basket, spec: Stakes) -> Amount:
    """What a stake that goes through two holes has below the board: from one hole to the next."""
    return Amount("from hole to hole", basket.base.hole_spacing_mm or 0.0, "mm", Basis.COUNTED, path=spec.path)


def _seat(basket: Basket, spec: Stakes, below: tuple[Amount, ...]) -> tuple[Amount, ...]:
    """What a stake needs below the side: its depth in the base, or the board's thickness and its foot below it."""
    pattern, base = basket.pattern, basket.pattern.base
    path = (*spec.path, "depth")
    if spec.doubled:
        return ()
    if not isinstance(base, Board):
        return (stake_depth(basket.base, pattern),)
    through = spec.depth_mm if spec.depth_mm is not None else base.thickness_mm
    board = Amount("through the board", through, "mm", Basis.GIVEN, path=path)
    if spec.below_mm:
        return (Amount("below the board", spec.below_mm, "mm", Basis.GIVEN, path=(*spec.path, "below")), board)
    return (*below, board)


def _bye_stakes(basket: Basket, bye: ByeStakes, ends: Ends) -> list[Piece]:
    """One set of bye-stakes, a piece for each material."""
    pattern = basket.pattern
    start = next((band.to_mm for band in basket.bands if band.name == bye.after_band), 0.0)
    depth = chosen_or_setting(
        "into the weaving", bye.depth_mm, pattern, setting="bye_stake_depth", path=(*bye.path, "depth")
    )
    if bye.depth_mm is None and _LEAST_HOLD_MM <= start < depth.value:
        depth = worked(depth.name, start, "mm", "all that is woven when they go in", depth, path=bye.path)
    shares = Counter(bye_stakes_of(bye, basket))
    return [
        piece_of(
            "bye-stakes",
            material,
            Amount("bye-stakes", share, "count", Basis.COUNTED, path=bye.path),
            (depth, _from(basket, start), *_taken(basket, ends, "bye-stakes")),
            pattern,
            path=(*bye.path, "length") if bye.length_mm is not None else bye.path,
            spare=spare_count(pattern, "spare_stakes"),
            given_mm=bye.length_mm,
        )
        for material, share in shares.items()
    ]


def _corner_posts(basket: Basket) -> list[Piece]:
    """Posts at the corners of a frame: through the base, up the side, and cut off level with the border."""
    base = basket.pattern.base
    number = sum(stake.kind == "post" for stake in basket.stakes)
    if not isinstance(base, Frame) or base.corner_posts is None or not number:
        return []
    posts, pattern = base.corner_posts, basket.pattern
    thick = Amount("through the base", pattern.materials[base.material].thickness_mm * 2, "mm", Basis.COUNTED)
    above = replace(pattern.settings["border_tail"], name="beside the border")
    trim = replace(pattern.settings["stick_trim"], name="trim")
    count = Amount("corner posts", number, "count", Basis.COUNTED, path=posts.path)
    given = posts.length_mm
    path = (*posts.path, "length") if given is not None else posts.path
    parts = (thick, up_the_side(basket), above, trim)
    return [piece_of("corner posts", posts.material, count, parts, pattern, path=path, given_mm=given)]


def _added(basket: Basket, index: int, change: StakeChange, number: int, ends: Ends) -> Piece:
    pattern = basket.pattern
    start = basket.bands[index].from_mm if index < len(basket.bands) else basket.bands[-1].to_mm
    depth = replace(pattern.settings["bye_stake_depth"], name="into the weaving")
    material = change.material or basket.stakes[0].material
    return piece_of(
        "added stakes",
        material,
        Amount("added stakes", number, "count", Basis.COUNTED, path=change.path),
        (depth, _from(basket, start), *_taken(basket, ends, "stakes")),
        pattern,
        path=(*change.path, "length") if change.length_mm is not None else change.path,
        spare=spare_count(pattern, "spare_stakes"),
        given_mm=change.length_mm,
    )


def _from(basket: Basket, start_mm: float) -> Amount:
    rest = up_the_side(basket, start_mm)
    return rest if start_mm <= 0 else replace(rest, name="up the rest of the side")


def _taken(basket: Basket, ends: Ends, kind: str) -> tuple[Amount, ...]:
    """What the border takes; nothing where one of each group is cut off at the top."""
    border = basket.pattern.border
    return () if border is not None and border.cut_to_one else ends.of_later(kind)


def _foot_stakes(basket: Basket, foot: WorkedBorder, ends: Ends) -> Piece:
    """Short stakes that stand below a woven base, one pushed up beside each upright: they make the foot alone."""
    pattern, spec = basket.pattern, foot.spec.stakes
    path = spec.path if spec is not None else foot.spec.path
    depth = chosen_or_setting(
        "up beside the stakes",
        spec.depth_mm if spec else None,
        pattern,
        setting="bye_stake_depth",
        path=(*path, "depth"),
    )
    together = max(foot.spec.groups, 1)
    formula = "uprights" if together == 1 else "uprights × stakes worked as one"
    given = spec.length_mm if spec is not None else None
    return piece_of(
        "foot stakes",
        (spec.material if spec else "") or basket.stakes[0].material,
        Amount("foot stakes", foot.count * together, "count", Basis.COUNTED, formula=formula, path=path),
        (depth, *ends.foot),
        pattern,
        path=(*path, "length") if given is not None else path,
        spare=spare_count(pattern, "spare_stakes"),
        given_mm=given,
    )
