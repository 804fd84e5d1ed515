"""A board marked out and drilled or slotted, and the stakes set in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.basket.board_holes import hole_of
from slath.units.counting import counted
from slath.wording.figure_names import BASE_PLAN, STAKING_PLAN
from slath.wording.speech import figures

if TYPE_CHECKING:
    from slath.basket.board_holes import Hole
    from slath.language.pattern import Board, Stakes
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work


def board_stage(work: Work, spec: Board) -> ToldStage:
    """The board, marked and cut for its stakes."""
    hole = hole_of(spec, work.basket.pattern)
    name = hole.name if hole else "hole"
    cut = _slots(work, hole) if hole and hole.is_slot else _holes(work, hole)
    lead = f"The [stakes] stand in {name}s round the edge of a board."
    return work.stage("base", "The board", lead, [_marks(work, spec, hole), _cut(work, spec, name, cut)])


def _marks(work: Work, spec: Board, hole: Hole | None) -> ToldStep:
    base, voice = work.basket.base, work.voice
    count = len(base.holes)
    spacing = voice.length(base.hole_spacing_mm) if base.hole_spacing_mm else ""
    actions = [
        f"Draw a line {voice.length(spec.inset_mm)} in from the edge, all the way round.",
        "Lay a strip of paper along the line and cut it where it meets itself.",
        f"Divide the strip into {count} equal parts{f', about {spacing} each' if spacing else ''}.",
        "Lay it back on the line and mark the board at every division.",
        f"Draw a slot at every mark, along the line, {voice.bit(hole.along_mm)} long, half of it on each side of the mark."
        if hole and hole.is_slot
        else "",
    ]
    return work.step(
        "mark",
        f"Mark the {hole.name if hole else 'hole'}s",
        actions,
        counts=[f"{count} marks, and as many spaces between them."],
        figures=(BASE_PLAN,),
        does=("measure", "mark"),
    )


def _holes(work: Work, hole: Hole | None) -> list[str]:
    bit = f"with a bit of {work.voice.bit(hole.across_mm)}" if hole else "that takes what is to stand in it"
    return [f"Drill a hole at every mark {bit}."]


def _slots(work: Work, hole: Hole) -> list[str]:
    return [
        f"Drill two holes inside every slot, one at each end, with a bit of {work.voice.bit(hole.across_mm)}.",
        "Saw or file away the wood between the two.",
    ]


def _cut(work: Work, spec: Board, name: str, cut: list[str]) -> ToldStep:
    return work.step(
        "drill",
        "Cut the slots" if name == "slot" else "Drill",
        [*cut, "Drill from the good face, with waste wood under the board.", f"Rub the edge and the {name}s smooth."],
        notes=[f"Try a [stake] in a {name} of the waste piece first: it must slide, and not rattle."],
        does=("drill", "sand", *(("slot",) if name == "slot" else ())),
        materials=(spec.material,) if spec.material else (),
    )


# ------------------------------------------------------------------------------------------------------- the stakes
def in_holes(work: Work, spec: Board, stakes: Stakes, in_turn: str) -> ToldStep:
    """Stakes set in the holes: one in each, or each down one hole and up the next."""
    voice = work.voice
    hole = hole_of(spec, work.basket.pattern)
    name, standing = hole.name if hole else "hole", len(work.basket.standing)
    two = stakes.holes_each == 2
    actions = [
        *(_two_holes(name, standing) if two else _one_hole(work, name)),
        in_turn,
        "Damp a [stake] that binds, and work it to and fro as you push." if hole and hole.is_slot
        else "Damp a [stake] that binds, and turn it as you push.",
        f"Tie a thread to one [stake]: it is the first, and you count from it to the {voice.on} as you look at the outside.",
    ]  # fmt: skip
    count = f"{figures(standing, 'stake')} are set in."
    if two:
        count = f"{counted(standing, 'end', 'ends', figures=True)} stand up, one in every {name}; each counts as a [stake] from here on."
    return work.step(
        "stakes",
        f"Set the [stakes] in the {name}s",
        actions,
        notes=["The [foot border], worked first, holds the board." if work.basket.foot else ""],
        counts=[count],
        figures=() if not two and not stakes.in_turn else (STAKING_PLAN,),
        does=("set in board", "mark", "measure"),
        materials=stakes.materials,
    )


def _one_hole(work: Work, name: str) -> list[str]:
    (piece, *_) = work.pieces("stakes")
    below = sum(part.value for part in piece.parts if "foot" in part.name or part.name == "below the board")
    return [
        f"Push one [stake] up through each {name}, from below.",
        f"Let each stand {work.voice.length(below)} below the board."
        if below
        else "Let each stand level with the under face of the board.",
    ]


def _two_holes(name: str, standing: int) -> list[str]:
    return [
        "Find the middle of each [stake], and work it supple where it will bend.",
        f"Push one end down through a {name}, and up again through the next.",
        "Draw it on until its middle lies flat under the board and both ends stand as high as each other.",
        f"Go on with the next two {name}s, all the way round.",
        f"The last {name} takes half a [stake], cut off level under the board." if standing % 2 else "",
    ]
