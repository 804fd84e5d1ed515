"""Lengths: whether what is cut covers its parts, the stock is long enough, and stakes have depth to go into."""

from __future__ import annotations

import math
from collections.abc import Iterator

from slath.basket.stakes import room_to_slath, stake_depth
from slath.language.pattern import Board, Border
from slath.language.places import Path
from slath.messages import Message
from slath.messages.names import named
from slath.messages.told import Figure, saying, several, told, word
from slath.quantities.cutting import cut_length
from slath.quantities.joins import working_length
from slath.quantities.results import Piece
from slath.rules.finding import Context, Finding, surely_less
from slath.units import Amount
from slath.units.printing import both_long

_HAIR_MM = 0.5  # a length as written in sixteenths of an inch against one worked out
# Share of a length by which bends and packed rows, both estimated, may be out: published baskets were made of sticks this
# much shorter than is worked out here (Gill 1916, models 5 and 66).
_UNSURE = 0.02
# Cut off when the work is done: published base sticks have nought to an inch of it (Gill 1916), and may have none.
_TRIMMED = ("trim", "extra")
_HELD = "hand hold"
# More over than this, and than this share of what is needed, is no allowance for the hand any more. Estimated.
_MUCH_OVER_MM, _MUCH_OVER = 76.2, 0.35


def pieces_cover_parts(context: Context) -> Iterator[Finding]:
    """A length the designer fixed must cover what the piece is made up of, or it cannot be worked at all."""
    for piece in _given(context):
        if _surely_short(context, piece):
            yield _short(context, piece, told("it cannot be worked"))


def pieces_reach(context: Context) -> Iterator[Finding]:
    """A length that covers its parts only if what is estimated of them comes out shorter; or a foot below a board so."""
    for piece in _given(context):
        if not _can_be_worked(context, piece) and not _surely_short(context, piece):
            estimated = [part.name for part in piece.parts if surely_less(part) and not _spared_mm(context, part, 0.0)]
            yield _short(
                context,
                piece,
                told(
                    "it does not reach, unless what is estimated comes out shorter ({estimated})",
                    estimated=several(map(_share, estimated)),
                ),
            )
    yield from _foot_short(context, surely=False)


def pieces_leave_hold(context: Context) -> Iterator[Finding]:
    """A piece that covers its parts but little more leaves the hand nothing to pull the last moves with."""
    for piece in _given(context):
        if _missing_mm(context, piece, held=0.5) > _HAIR_MM and _can_be_worked(context, piece):
            yield _short(context, piece, told("there is too little to hold at the last moves"))


def pieces_not_far_too_long(context: Context) -> Iterator[Finding]:
    """A piece cut far longer than its parts leaves a rest, and what becomes of it is the designer's to say."""
    for piece in _given(context):
        over = (piece.given_mm or 0.0) - piece.needed_mm.value
        if over <= max(_MUCH_OVER_MM, _MUCH_OVER * piece.needed_mm.value):
            continue
        yield Finding(
            piece.path,
            piece.part,
            told(
                "Cut {value} long, each has {over} more than the {needed} it is worked out to take, and nothing says what becomes of it.",
                value=context.measure(piece.given_mm or 0.0),
                over=context.measure(over),
                needed=context.measure(piece.needed_mm.value),
            ),
            (
                told(
                    "cut them {cut_length}",
                    cut_length=context.at_least(cut_length(piece.part, piece.needed_mm, context.sized).value),
                ),
                told("tell in the steps what the rest is for: to hold, legs, or to be trimmed"),
            ),
        )


def _given(context: Context) -> list[Piece]:
    """The basket's pieces whose length the designer fixed; a lid's are its own context's."""
    return [piece for piece in context.quantities.pieces if piece.given_mm is not None and not piece.of]


def _short(context: Context, piece: Piece, so: str) -> Finding:
    enough = cut_length(piece.part, piece.needed_mm, context.sized)
    parts = [
        told("{part} {length}", part=_share(part.name), length=context.measure(part.value)) for part in piece.parts
    ]
    given = piece.given_mm or 0.0
    return Finding(
        piece.path,
        piece.part,
        told(
            "Cut {given} long, each is {needed} short: {so}. It takes {needed2}: {parts}.",
            given=context.measure(given),
            needed=context.measure(piece.needed_mm.value - given),
            so=so,
            needed2=context.measure(piece.needed_mm.value),
            parts=several(parts),
        ),
        (
            told("cut them {enough}", enough=context.at_least(enough.value)),
            told("leave the length out: it is worked out for every size"),
        ),
    )


def _surely_short(context: Context, piece: Piece) -> bool:
    """Whether a length falls short even where everything estimated comes out as far below as it ever did."""
    less = math.fsum(surely_less(part) for part in piece.parts)
    return not _can_be_worked(context, piece) and _missing_mm(context, piece, held=0.0) - less > _HAIR_MM


def _share(name: str) -> str:
    """What a share of a piece is called."""
    called = named("shares", name)
    return saying(called) if isinstance(called, Message) else called.text


def _can_be_worked(context: Context, piece: Piece) -> bool:
    return _missing_mm(context, piece, held=0.0) <= max(_HAIR_MM, _UNSURE * piece.needed_mm.value)


def _missing_mm(context: Context, piece: Piece, *, held: float) -> float:
    """What the given length lacks, with a share `held` of the hand hold, and of the tails its ends are trimmed from."""
    spared = math.fsum(_spared_mm(context, part, held) for part in piece.parts)
    return piece.needed_mm.value - spared - (piece.given_mm or 0.0)


def _spared_mm(context: Context, part: Amount, held: float) -> float:
    """What of a part can be done without: what is trimmed, and a share of what is held and of a border's tails."""
    if part.name.startswith(_TRIMMED):
        return part.value
    if _HELD in part.name:
        return part.value * (1 - held)
    if "border" not in part.name:
        return 0.0
    ends = 2 if part.name.endswith("(both ends)") else 1
    border = context.sized.foot if "foot" in part.name else context.sized.border
    return ends * _tail_mm(context, border) * (1 - held) if border is not None else 0.0


def _tail_mm(context: Context, border: Border) -> float:
    """The tail of an end that rests on a stake; nothing where it goes down into the weave, or for a length you fix."""
    sinks = bool(border.passes) and any(move.way == "down" for move in border.passes[-1].moves)
    if sinks or border.plait is not None or border.allowance_mm is not None:
        return 0.0
    return border.tail_mm if border.tail_mm is not None else context.setting("border_tail")


def stock_long_enough(context: Context) -> Iterator[Finding]:
    """No piece can be cut longer than its stock comes."""
    for piece in context.quantities.pieces:
        if piece.of or piece.material not in context.sized.materials:
            continue  # told of the lid itself; a board may be of no material that is listed
        stock = context.material(piece.material).stock
        longest = stock.length_class_mm or stock.usual_length_mm
        need = (
            piece.cut_mm.value
            if piece.given_mm is not None
            else piece.cut_mm.value - math.fsum(map(surely_less, piece.parts))
        )
        if longest is None or stock.kind == "wood" or need <= longest + _HAIR_MM:
            continue
        yield Finding(
            piece.path,
            piece.part,
            told(
                "{part:capital} of {need} cannot be cut from {stock}, which comes {longest} long; they are {need2} too long.",
                part=word(piece.part),
                need=context.measure(need),
                stock=stock.name,
                longest=context.measure(longest),
                need2=context.measure(need - longest),
            ),
            (
                told("use a longer class of rod")
                if stock.tapered
                else told("use a stock that comes longer (usual_length)"),
                told("make the part {need} shorter", need=context.at_least(need - longest)),
            ),
        )


def material_goes_round(context: Context) -> Iterator[Finding]:
    """What the maker has of a material, and what is missing of it."""
    for bought in context.quantities.purchase:
        if bought.have_mm is None or bought.buy_mm.value <= _HAIR_MM:
            continue
        have, need = bought.have_mm.value, bought.length_mm.value
        yield Finding(
            (*context.material(bought.material).path, "have"),
            "materials",
            told(
                "{bought} does not go round: there are {have} of it, and {need} are needed; the list buys the rest.",
                bought=bought.title,
                have=Figure(both_long(have, context.first)),
                need=Figure(both_long(need, context.first, up=True)),
            ),
            (
                told("have {have} of it", have=Figure(both_long(have + bought.buy_mm.value, context.first, up=True))),
                told("use it in fewer rounds"),
            ),
        )


def strands_longer_than_laps(context: Context) -> Iterator[Finding]:
    """Each new strand laps the one before; pieces no longer than the lap would never get on."""
    lap = context.sized.settings["join_lap"]
    seen: set[Path] = set()
    for band in context.basket.all_woven:
        for key in dict.fromkeys(band.spec.strands):
            working = working_length(band, context.material(key), context.sized)
            path = working.path or context.material(key).path
            if working.value > lap.value + _HAIR_MM or path in seen:
                continue
            seen.add(path)
            yield Finding(
                path,
                band.name,
                told(
                    "{material} is worked in lengths of {working}, and at each join two lie side by side over {lap}; nothing would be gained by a new one.",
                    material=context.material(key).title,
                    working=context.measure(working.value),
                    lap=context.measure(lap.value),
                ),
                (
                    told("work in lengths of more than {lap} (working_length)", lap=context.measure(2 * lap.value)),
                    told("make the lap shorter (settings, join_lap)"),
                ),
                related=((lap.path, told("the lap")),) if lap.path else (),
            )


def stakes_stop_at_slath(context: Context) -> Iterator[Finding]:
    """A stake goes into the base beside its stick no deeper than to the slath, where there is no room for it."""
    stakes, room = context.sized.stakes, room_to_slath(context.basket.base)
    if stakes is None or room is None:
        return
    depth = stake_depth(context.basket.base, context.sized).value
    if depth <= room + _HAIR_MM:
        return
    yield Finding(
        (*stakes.path, "depth"),
        "stakes",
        told(
            "Stakes are set {depth} deep, but from the edge to the slath there are only {room}.",
            depth=context.measure(depth),
            room=context.measure(room),
        ),
        (
            told("set them {room} deep or less (depth)", room=context.at_most(room)),
            told("make the base larger"),
            told("use finer sticks"),
        ),
    )


def foot_has_stake(context: Context) -> Iterator[Finding]:
    """A foot border is worked with what the stakes leave standing below the board."""
    yield from _foot_short(context, surely=True)


def _foot_short(context: Context, *, surely: bool) -> Iterator[Finding]:
    """Too little below a board: `surely`, or only if the foot border takes what is estimated of it."""
    stakes, foot = context.sized.stakes, context.quantities.foot
    if stakes is None or foot is None or not isinstance(context.sized.base, Board) or not stakes.below_mm:
        return
    woven = math.fsum(band.reached_mm for band in context.basket.foot_bands)
    need = foot.needed_mm.value + woven
    spare = math.fsum(part.value for part in foot.parts if _HELD in part.name)
    spare += _tail_mm(context, context.sized.foot) if context.sized.foot else 0.0
    short, less = need - spare - stakes.below_mm, math.fsum(surely_less(part) for part in foot.parts)
    if short <= _HAIR_MM or (short - less > _HAIR_MM) != surely:
        return
    yield Finding(
        (*stakes.path, "below"),
        told("foot border"),
        told(
            "{below} of stake stands below the board; the foot border takes {need}{surely?|, as far as is worked out; that rests on estimates}.",
            below=context.measure(stakes.below_mm),
            need=context.measure(need),
            surely=surely,
        ),
        (told("leave {need} below", need=context.at_least(need)), told("choose a foot border of fewer moves")),
    )
