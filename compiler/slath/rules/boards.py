"""Drilled boards: holes for the stakes, wide enough, far enough apart, and one for each."""

from __future__ import annotations

import math
from collections.abc import Iterator

from slath.basket.board_holes import hole_of
from slath.language.pattern import Board
from slath.messages.told import several, told, word
from slath.rules.finding import Context, Finding
from slath.rules.stock_choice import stock_at_most

_SPACING_MISS = 0.05  # share by which a spacing said in round figures may miss what the count gives
_FLAT = 1.5  # times as wide as thick, a stake is flat; common practice, no source
_LEAST_WOOD_MM = 2.0  # common practice, no source: less wood than this between holes breaks out in drilling


def holes_take_stakes(context: Context) -> Iterator[Finding]:
    """A stake thicker than its hole does not go in."""
    board, stakes = context.sized.base, context.sized.stakes
    if not isinstance(board, Board) or board.hole_diameter_mm is None or board.slots or stakes is None:
        return
    stake = max((context.material(key) for key in stakes.materials), key=lambda material: material.width_mm)
    if board.hole_diameter_mm >= stake.width_mm:
        return
    finer = stock_at_most(stake.stock, board.hole_diameter_mm)
    drill = stake.width_mm + context.setting("hole_clearance")
    yield Finding(
        (*board.path, "holes", "diameter"),
        "base",
        told(
            "The holes are {hole_diameter} wide; the stakes ({stake_stock}) are {width} thick and do not go in.",
            hole_diameter=context.measure(board.hole_diameter_mm),
            stake_stock=stake.stock.name,
            width=context.measure(stake.width_mm),
        ),
        (
            told("drill {drill}", drill=context.at_least(drill)),
            told(
                "use stakes of at most {hole_diameter}{finer}",
                hole_diameter=context.at_most(board.hole_diameter_mm),
                finer=finer,
            ),
        ),
    )


def holes_suit_flat_stakes(context: Context) -> Iterator[Finding]:
    """A flat stake stands loose in a round hole as wide as it."""
    board, stakes = context.sized.base, context.sized.stakes
    hole = hole_of(board, context.sized) if isinstance(board, Board) and stakes is not None else None
    if hole is None or hole.is_slot or stakes is None:
        return
    stake = max((context.material(key) for key in stakes.materials), key=lambda material: material.width_mm)
    if stake.width_mm < _FLAT * stake.thickness_mm:
        return
    yield Finding(
        (*board.path, "holes"),
        "base",
        told(
            "Stakes {width} wide and {thickness} thick stand loose in round holes of {along}.",
            width=context.measure(stake.width_mm),
            thickness=context.measure(stake.thickness_mm),
            along=context.measure(hole.along_mm),
        ),
        (told("cut slots in place of holes (slots: yes)"), told("use round stakes")),
    )


def holes_leave_wood(context: Context) -> Iterator[Finding]:
    """Between neighbouring holes, and between a hole and the edge, some wood must stand."""
    board, base = context.sized.base, context.basket.base
    if not isinstance(board, Board) or base.hole_line is None or not base.holes:
        return
    hole = hole_of(board, context.sized)
    if hole is None:
        return
    line, count = base.hole_line.perimeter, len(base.holes)
    between = line / count - hole.along_mm
    if between < _LEAST_WOOD_MM:
        most = math.floor(line / (hole.along_mm + _LEAST_WOOD_MM))
        left = (
            told("leave {between} of wood between them", between=context.measure(between))
            if between > 0
            else told("run into one another")
        )
        yield Finding(
            (*board.path, "holes"),
            "base",
            told(
                "{count} {hole} of {along} {left}: the board breaks along the line.",
                count=count,
                hole=word(f"{hole.name}s"),
                along=context.measure(hole.along_mm),
                left=left,
            ),
            (
                told("cut at most {most} {hole}", most=most, hole=word(f"{hole.name}s")),
                told("use finer stakes"),
                told("use a larger board"),
            ),
        )
    elif board.inset_mm - hole.across_mm / 2 < _LEAST_WOOD_MM:
        least = hole.across_mm / 2 + _LEAST_WOOD_MM
        reach = board.inset_mm - hole.across_mm / 2
        left = told("leave {reach} of wood to", reach=context.measure(reach)) if reach > 0 else told("reach over")
        yield Finding(
            (*board.path, "holes", "inset"),
            "base",
            told("The {hole} {left} the edge of the board and break out.", hole=word(f"{hole.name}s"), left=left),
            (told("set them at least {least} in from the edge", least=context.at_least(least)),),
        )


def holes_match_stakes(context: Context) -> Iterator[Finding]:
    """Every hole takes one stake."""
    board, stakes = context.sized.base, context.sized.stakes
    if not isinstance(board, Board) or stakes is None or stakes.count is None:
        return
    holes, each = len(context.basket.base.holes), stakes.holes_each
    if holes != stakes.count * each:
        yield Finding(
            (*stakes.path, "count"),
            "stakes",
            told(
                "{count} stakes are asked for; the board has {holes} holes, {each:words} for each stake.",
                count=stakes.count,
                holes=holes,
                each=each,
            ),
            (told("drill {count} holes", count=stakes.count * each), told("set {holes} stakes", holes=holes // each)),
            (((*board.path, "holes"), told("the holes")),),
        )


def holes_spaced_as_said(context: Context) -> Iterator[Finding]:
    """A board's count of holes and their spacing, both written, must be one and the same thing."""
    board, base = context.sized.base, context.basket.base
    if not isinstance(board, Board) or board.holes is None or board.hole_spacing_mm is None or base.hole_line is None:
        return
    apart, said = base.hole_spacing_mm or 0.0, board.hole_spacing_mm
    if abs(apart - said) <= _SPACING_MISS * said:
        return
    fitting = round(base.hole_line.perimeter / said)
    yield Finding(
        (*board.path, "holes", "spacing"),
        "base",
        told(
            "{holes} holes on a line {perimeter} round stand {apart} apart; {found} is written.",
            holes=board.holes,
            perimeter=context.measure(base.hole_line.perimeter),
            apart=context.measure(apart),
            found=context.measure(said),
        ),
        (
            told("drill {fitting} holes", fitting=fitting),
            told("write a spacing of {apart}", apart=context.measure(apart)),
            told("leave one of the two out"),
        ),
    )


def board_fits_sheet(context: Context) -> Iterator[Finding]:
    """A board is sawn from wood as it is sold: no wider than the strip, and no longer than its usual length."""
    board = context.sized.base
    if not isinstance(board, Board) or not board.material:
        return
    stock = context.material(board.material).stock
    strip = stock.width_mm if stock.width_mm > stock.thickness_mm else math.inf
    long = stock.usual_length_mm or math.inf
    wide, length = sorted((board.outline.width_mm, board.outline.length_mm))
    narrow, across = sorted((strip, long))
    if wide <= narrow and length <= across:
        return
    sold = several((context.measure(measure) for measure in (strip, long) if measure < math.inf), told(" by "))
    yield Finding(
        board.path,
        "base",
        told(
            "The board is {outline}; {stock} is sold {sold}.",
            outline=context.across(board.outline),
            stock=stock.name,
            sold=sold,
        ),
        (
            told("glue the board up of several pieces, and accept this"),
            told("make the board smaller"),
            told("describe a wider stock"),
        ),
    )
