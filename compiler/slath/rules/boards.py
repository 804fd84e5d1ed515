"""Drilled boards: holes for the stakes, wide enough, far enough apart, and one for each."""

from __future__ import annotations

import math
from collections.abc import Iterator

from slath.basket.board_holes import hole_of
from slath.language.pattern import Board
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
        (*board.path, "holes", "diameter"), "base",
        f"The holes are {context.measure(board.hole_diameter_mm)} wide; the stakes ({stake.stock.name}) are "
        f"{context.measure(stake.width_mm)} thick and do not go in.",
        (f"drill {context.at_least(drill)}", f"use stakes of at most {context.at_most(board.hole_diameter_mm)}{finer}"),
    )  # fmt: skip


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
        (*board.path, "holes"), "base",
        f"Stakes {context.measure(stake.width_mm)} wide and {context.measure(stake.thickness_mm)} thick stand loose in "
        f"round holes of {context.measure(hole.along_mm)}.",
        ("cut slots in place of holes (slots: yes)", "use round stakes"),
    )  # fmt: skip


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
        left = f"leave {context.measure(between)} of wood between them" if between > 0 else "run into one another"
        yield Finding(
            (*board.path, "holes"), "base",
            f"{count} {hole.name}s of {context.measure(hole.along_mm)} {left}: the board breaks along the line.",
            (f"cut at most {most} {hole.name}s", "use finer stakes", "use a larger board"),
        )  # fmt: skip
    elif board.inset_mm - hole.across_mm / 2 < _LEAST_WOOD_MM:
        least = hole.across_mm / 2 + _LEAST_WOOD_MM
        reach = board.inset_mm - hole.across_mm / 2
        left = f"leave {context.measure(reach)} of wood to" if reach > 0 else "reach over"
        yield Finding(
            (*board.path, "holes", "inset"), "base",
            f"The {hole.name}s {left} the edge of the board and break out.",
            (f"set them at least {context.at_least(least)} in from the edge",),
        )  # fmt: skip


def holes_match_stakes(context: Context) -> Iterator[Finding]:
    """Every hole takes one stake."""
    board, stakes = context.sized.base, context.sized.stakes
    if not isinstance(board, Board) or stakes is None or stakes.count is None:
        return
    holes, each = len(context.basket.base.holes), stakes.holes_each
    if holes != stakes.count * each:
        so_many = "one" if each == 1 else "two"
        yield Finding(
            (*stakes.path, "count"), "stakes",
            f"{stakes.count} stakes are asked for; the board has {holes} holes, {so_many} for each stake.",
            (f"drill {stakes.count * each} holes", f"set {holes // each} stakes"),
            (((*board.path, "holes"), "the holes"),),
        )  # fmt: skip


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
        (*board.path, "holes", "spacing"), "base",
        f"{board.holes} holes on a line {context.measure(base.hole_line.perimeter)} round stand {context.measure(apart)} "
        f"apart; {context.measure(said)} is written.",
        (f"drill {fitting} holes", f"write a spacing of {context.measure(apart)}", "leave one of the two out"),
    )  # fmt: skip


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
    sold = " by ".join(context.measure(measure) for measure in (strip, long) if measure < math.inf)
    yield Finding(
        board.path, "base",
        f"The board is {context.across(board.outline)}; {stock.name} is sold {sold}.",
        ("glue the board up of several pieces, and accept this", "make the board smaller", "describe a wider stock"),
    )  # fmt: skip
