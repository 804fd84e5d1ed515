"""What a board is cut with for its stakes: round holes, or slots for flat ones."""

from __future__ import annotations

from msgspec import Struct

from slath.language.pattern import Board, SizedPattern


class Hole(Struct, frozen=True):
    """One hole of a board, mm. A round hole is as long as it is wide; a slot is long along the line of holes."""

    along_mm: float
    across_mm: float
    is_slot: bool = False

    @property
    def name(self) -> str:
        """What it is called: ``hole`` or ``slot``."""
        return hole_name(slots=self.is_slot)


def hole_name(*, slots: bool) -> str:
    """What the openings of a board are called: ``hole`` or ``slot``."""
    return "slot" if slots else "hole"


def hole_of(board: Board, pattern: SizedPattern) -> Hole | None:
    """A hole of `board`: as the pattern gives it, or the thickest of the stakes and the clearance of the settings; a
    slot takes a stake flat, its width along the line. None where neither a diameter nor stakes tell its size.
    """
    stakes = [pattern.materials[key] for key in pattern.stakes.materials] if pattern.stakes else []
    if board.slots:
        if not stakes:
            return None
        room = pattern.settings.mm("hole_clearance")
        widest, thickest = max(stake.width_mm for stake in stakes), max(stake.thickness_mm for stake in stakes)
        return Hole(widest + room, thickest + room, is_slot=True)
    if board.hole_diameter_mm is not None:
        return Hole(board.hole_diameter_mm, board.hole_diameter_mm)
    if not stakes:
        return None
    across = max(max(stake.width_mm, stake.thickness_mm) for stake in stakes) + pattern.settings.mm("hole_clearance")
    return Hole(across, across)
