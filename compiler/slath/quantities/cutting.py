"""From parts to a cut length: pieces whose parts add up, rounded up to the maker's step."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec.structs import replace

from slath.language.pattern import SizedPattern
from slath.language.places import Path
from slath.quantities.results import Piece
from slath.units import Amount, Basis, LengthToCut, worked

_LEFT_WHOLE = {"stakes", "bye-stakes", "added stakes"}  # of rods that taper: their tops are cut off after the border
_HAIR = 1e-9  # a length that is whole steps but for the last digits of a float needs no further step


def cut_step(pattern: SizedPattern) -> Amount:
    """The step cut lengths are rounded up to: that of the pattern's own units, unless the maker set only the other."""
    inches, millimetres = pattern.settings["cut_step_inches"], pattern.settings["cut_step"]
    own, other = (inches, millimetres) if pattern.units == "inches" else (millimetres, inches)
    return other if other.basis is Basis.GIVEN and own.basis is not Basis.GIVEN else own


def rounded_up(length_mm: float, step_mm: float) -> float:
    """`length_mm` rounded up to whole steps; unchanged where there is no step."""
    if step_mm <= 0:
        return length_mm
    return math.ceil(length_mm / step_mm - _HAIR) * step_mm


def cut_length(part: str, needed: Amount, pattern: SizedPattern, given_mm: float | None = None) -> Amount:
    """The length to cut: the designer's own where the pattern fixes one, else the need rounded up."""
    if given_mm is not None:
        return Amount(f"cut length, {part}", LengthToCut(given_mm), "mm", Basis.GIVEN, path=needed.path)
    step = cut_step(pattern)
    formula = "length needed, rounded up to the cut step"
    length = LengthToCut(rounded_up(needed.value, step.value))
    return worked(f"cut length, {part}", length, "mm", formula, needed, step, path=needed.path)


def piece_of(
    part: str,
    material: str,
    count: Amount,
    parts: tuple[Amount, ...],
    pattern: SizedPattern,
    *,
    path: Path,
    spare: int = 0,
    given_mm: float | None = None,
) -> Piece:
    """A piece from its parts; the parts are kept in the order the maker lays them off."""
    needed = worked(
        f"length needed, {part}",
        math.fsum(item.value for item in parts),
        "mm",
        " + ".join(item.name for item in parts),
        *parts,
        path=path,
    )
    cut = cut_length(part, needed, pattern, given_mm)
    whole = given_mm is None and part in _LEFT_WHOLE and pattern.materials[material].stock.tapered
    return Piece(part, material, count, spare, needed, cut, parts, path, given_mm, whole=whole)


def wound_on(piece: Piece, pattern: SizedPattern) -> Piece:
    """A winding longer than its material comes, in as many equal lengths as it takes, each new one with an end to wind in."""
    longest = pattern.materials[piece.material].stock.usual_length_mm
    tail = pattern.settings["wrap_tail"]
    if longest is None or piece.cut_mm.value <= longest or longest <= 2 * tail.value or piece.given_mm is not None:
        return piece
    need, step = piece.needed_mm.value, cut_step(pattern).value
    lengths = math.ceil((need - tail.value) / (longest - step - tail.value) - _HAIR)
    share = (need - tail.value) / lengths
    formula = "what is wound ÷ lengths it is wound of"
    wound = worked("of the winding", share, "mm", formula, *piece.parts, path=piece.path)
    count = replace(piece.count, value=piece.count.value * lengths)
    made = piece_of(
        piece.part, piece.material, count, (wound, replace(tail, name="wound in")), pattern, path=piece.path
    )
    return replace(made, lengths=lengths, offcut=piece.offcut, of=piece.of)


def each_cut(pieces: Sequence[Piece]) -> list[float]:
    """The cut length (mm) of every single piece, spare ones included."""
    return [piece.cut_mm.value for piece in pieces for _ in range(round(piece.count.value) + piece.spare)]


def spare_count(pattern: SizedPattern, setting: str) -> int:
    """Whole spare pieces by a setting."""
    return math.ceil(pattern.settings[setting].value - _HAIR)


def chosen_or_setting(name: str, given_mm: float | None, pattern: SizedPattern, *, setting: str, path: Path) -> Amount:
    """A length the designer wrote at `path`, else the maker's setting, under the name it is printed by."""
    if given_mm is not None:
        return Amount(name, given_mm, "mm", Basis.GIVEN, path=path)
    return replace(pattern.settings[setting], name=name)
