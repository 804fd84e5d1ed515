"""A board marked out and drilled or slotted, and the stakes set in it."""

from __future__ import annotations

import math

from slath.basket.board_holes import Hole, hole_of
from slath.language.pattern import Board, Stakes
from slath.messages import Length, message
from slath.wording.figure_names import BASE_PLAN, STAKING_PLAN
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.work import Work


def board_stage(work: Work, spec: Board) -> ToldStage:
    """The board, marked and cut for its stakes."""
    hole = hole_of(spec, work.basket.pattern)
    slot = bool(hole and hole.is_slot)
    cut = _slots(hole) if hole and hole.is_slot else _holes(hole)
    lead = message("board.the-stakes-stand-in-s", slot=slot)
    steps = [_marks(work, spec, hole), _cut(work, spec, cut, slot=slot)]
    return work.stage("base", message("board.the-board"), lead, steps)


def _marks(work: Work, spec: Board, hole: Hole | None) -> ToldStep:
    base = work.basket.base
    count = len(base.holes)
    spacing = Length(base.hole_spacing_mm) if base.hole_spacing_mm else None
    actions = [
        message("board.draw-a-line-in-from", inset=Length(spec.inset_mm)),
        message("board.lay-a-strip-of-paper"),
        message("board.divide-the-strip-into-equal", count=count, spacing=spacing),
        message("board.lay-it-back-on-the"),
        message("board.draw-a-slot-at-every", along=Length(hole.along_mm)) if hole and hole.is_slot else None,
    ]
    return work.step(
        "mark",
        message("board.mark-the-s", slot=bool(hole and hole.is_slot)),
        actions,
        counts=[message("board.marks-and-as-many-spaces", count=count)],
        figures=(BASE_PLAN,),
        does=("measure", "mark"),
    )


def _holes(hole: Hole | None) -> list[Clause]:
    if hole is None:
        return [message("board.drill-a-hole-that-takes")]
    return [message("board.drill-a-hole-at-every", across=Length(hole.across_mm))]


def _slots(hole: Hole) -> list[Clause]:
    return [
        message("board.drill-two-holes-inside-every", across=Length(hole.across_mm)),
        message("board.saw-or-file-away-the"),
    ]


def _cut(work: Work, spec: Board, cut: list[Clause], *, slot: bool) -> ToldStep:
    return work.step(
        "drill",
        message("board.cut-the-slots") if slot else message("board.drill"),
        [
            message("board.try-a-stake-in-a", slot=slot),
            message("board.drill-from-the-good-face"),
            *cut,
            message("board.rub-the-edge-and-the", slot=slot),
        ],
        does=("drill", "sand", *(("slot",) if slot else ())),
        materials=(spec.material,) if spec.material else (),
    )


# ------------------------------------------------------------------------------------------------------- the stakes
def in_holes(work: Work, spec: Board, stakes: Stakes, in_turn: Clause) -> ToldStep:
    """Stakes set in the holes: one in each, or each down one hole and up the next."""
    hole = hole_of(spec, work.basket.pattern)
    slot, standing = bool(hole and hole.is_slot), len(work.basket.standing)
    two = stakes.holes_each == 2
    actions = [
        *(_two_holes(standing, slot=slot) if two else _one_hole(work, slot=slot)),
        in_turn,
        message("board.damp-a-stake-that-binds") if slot
        else message("board.damp-a-stake-that-binds-2"),
        message("board.tie-a-thread-to-one"),
    ]  # fmt: skip
    count = message("board.are-set-in", standing=standing)
    if two:
        count = message("board.stand-up-one-in-every", standing=standing, slot=slot)
    return work.step(
        "stakes",
        message("board.set-the-stakes-in-the", slot=slot),
        actions,
        notes=[message("board.the-foot-border-worked-first") if work.basket.foot else None],
        counts=[count],
        figures=() if not two and not stakes.in_turn else (STAKING_PLAN,),
        does=("set in board", "mark", "measure"),
        materials=stakes.materials,
    )


def _one_hole(work: Work, *, slot: bool) -> list[Clause]:
    (piece, *_) = work.pieces("stakes")
    below = math.fsum(part.value for part in piece.parts if "foot" in part.name or part.name == "below the board")
    return [
        message("board.push-one-stake-up-through", slot=slot),
        message("board.let-each-stand-below-the", below=Length(below))
        if below
        else message("board.let-each-stand-level-with"),
    ]


def _two_holes(standing: int, *, slot: bool) -> list[Clause]:
    return [
        message("board.find-the-middle-of-each"),
        message("board.push-one-end-down-through", slot=slot),
        message("board.draw-it-on-until-its"),
        message("board.go-on-with-the-next", slot=slot),
        message("board.the-last-takes-half-a", slot=slot) if standing % 2 else None,
    ]
