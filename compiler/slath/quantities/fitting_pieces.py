"""Pieces the designer lists beside what the construction calls for: hinges, loops, pegs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.quantities.cutting import piece_of
from slath.units import Amount, Basis

if TYPE_CHECKING:
    from slath.language.pattern import Fitting, SizedPattern
    from slath.quantities.results import Piece


def fitting_pieces(pattern: SizedPattern) -> tuple[Piece, ...]:
    """Every fitting as a piece of the length the designer gives, in the order listed."""
    return tuple(_piece(fitting, pattern) for fitting in pattern.fittings)


def _piece(fitting: Fitting, pattern: SizedPattern) -> Piece:
    count = Amount(fitting.part, fitting.count, "count", Basis.GIVEN, path=(*fitting.path, "count"))
    length = Amount("length", fitting.length_mm, "mm", Basis.GIVEN, path=(*fitting.path, "length"))
    return piece_of(
        fitting.part, fitting.material, count, (length,), pattern, path=fitting.path, given_mm=fitting.length_mm
    )
