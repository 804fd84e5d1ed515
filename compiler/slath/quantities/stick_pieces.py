"""Pieces of a base: sticks with their trim, half sticks, through sticks that become stakes at both ends, boards."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from slath.basket.outline import area_mm2
from slath.language.pattern import Board, Frame, OvalSlath, ReadyMade, RoundSlath
from slath.quantities.cutting import chosen_or_setting, piece_of, spare_count
from slath.trade.stocks import implied_density
from slath.units import Amount, Basis, worked

if TYPE_CHECKING:
    from slath.basket.model import ConstructedBase, Stick
    from slath.language.pattern import SizedPattern
    from slath.quantities.results import Piece


@dataclass(frozen=True, slots=True)
class _Kind:
    """Sticks cut alike: their name in the list, the kinds of stick they are, and the designer's length and its key."""

    part: str
    kinds: tuple[str, ...]
    given_mm: float | None
    key: str


def base_pieces(base: ConstructedBase, pattern: SizedPattern, rising: tuple[Amount, ...] = ()) -> tuple[Piece, ...]:
    """Pieces the base is made of.

    `rising` are the parts every end needs beyond the base edge where sticks become stakes; else sticks are only
    trimmed.
    """
    spec = base.spec
    if isinstance(spec, Board):
        return (_board(spec, pattern),) if spec.material else ()
    if isinstance(spec, ReadyMade):
        return ()
    pieces: list[Piece] = []
    for kind in _kinds(spec):
        sticks = [stick for stick in base.sticks if stick.kind in kind.kinds]
        if sticks:
            pieces.append(_sticks(kind, sticks, spec, pattern, rising))
    halves = [stick for stick in base.sticks if stick.kind == "half stick"]
    if halves and pieces:
        pieces.append(_half_stick(halves, pieces[0], spec, pattern))
    return tuple(pieces)


def _kinds(spec: RoundSlath | OvalSlath | Frame) -> tuple[_Kind, ...]:
    through = "through " if spec.become_stakes else ""
    if isinstance(spec, RoundSlath):
        part = f"{through}sticks" if through else "base sticks"
        return (_Kind(part, ("pierced", "threaded"), spec.stick_length_mm, "stick_length"),)
    return (
        _Kind(f"lengthwise {through}sticks", ("lengthwise",), spec.lengthwise_length_mm, "lengthwise_length"),
        _Kind(
            f"crosswise {through}sticks",
            ("crosswise single", "crosswise group"),
            spec.crosswise_length_mm,
            "crosswise_length",
        ),
    )


def _sticks(
    kind: _Kind,
    sticks: list[Stick],
    spec: RoundSlath | OvalSlath | Frame,
    pattern: SizedPattern,
    rising: tuple[Amount, ...],
) -> Piece:
    """All sticks of a kind are cut as long as the longest needs."""
    part = kind.part
    longest = max(stick.length_mm for stick in sticks)
    across = Amount("base from edge to edge", longest, "mm", Basis.GIVEN, path=(*spec.path, "outline"))
    if spec.become_stakes and rising:
        beyond = tuple(at_both_ends(item) for item in rising)
    else:
        beyond = (
            chosen_or_setting(
                "trim", spec.stick_trim_mm, pattern, setting="stick_trim", path=(*spec.path, "stick_trim")
            ),
        )
    return piece_of(
        part,
        sticks[0].material,
        Amount(part, len(sticks), "count", Basis.COUNTED, path=spec.path),
        (across, *beyond),
        pattern,
        path=(*spec.path, kind.key) if kind.given_mm is not None else spec.path,
        spare=spare_count(pattern, "spare_sticks"),
        given_mm=kind.given_mm,
    )


def at_both_ends(item: Amount) -> Amount:
    """A part of a piece that it has at either end."""
    """The same part at both ends of a stick; its own parts stay among the inputs, each for one end."""
    inputs = item.inputs or (item,)
    return worked(
        f"{item.name} (both ends)",
        2 * item.value,
        item.unit,
        f"2 × ({item.formula or item.name})",
        *inputs,
        path=item.path,
    )


def _half_stick(
    halves: list[Stick], long_stick: Piece, spec: RoundSlath | OvalSlath | Frame, pattern: SizedPattern
) -> Piece:
    """Half the long stick and a little more: Mary White, How to Make Baskets (1901), 9 of her 9 baskets."""
    half = worked(
        "half the long stick", long_stick.cut_mm.value / 2, "mm", "cut length of the long stick ÷ 2", long_stick.cut_mm
    )
    more = replace(pattern.settings["half_stick_extra"], name="extra")
    given = spec.half_stick_length_mm if isinstance(spec, RoundSlath | OvalSlath) else None
    part = "half stick"
    return piece_of(
        part,
        halves[0].material,
        Amount(part, len(halves), "count", Basis.COUNTED, path=spec.path),
        (half, more),
        pattern,
        path=(*spec.path, "half_stick_length") if given is not None else spec.path,
        given_mm=given,
    )


def _board(spec: Board, pattern: SizedPattern) -> Piece:
    part = "board"
    length = Amount("length over all", spec.outline.length_mm, "mm", Basis.GIVEN, path=(*spec.path, "outline"))
    count = Amount(part, 1, "count", Basis.COUNTED, path=spec.path)
    board = piece_of(part, spec.material, count, (length,), pattern, path=spec.path, given_mm=spec.outline.length_mm)
    return replace(board, mass_g=_board_mass(spec, pattern))


def _board_mass(spec: Board, pattern: SizedPattern) -> Amount | None:
    """Area × thickness × density; None where its stock does not give one. The holes weigh nothing to speak of."""
    stock = pattern.materials[spec.material].stock
    density = implied_density(stock)
    if density is None:
        return None
    area = area_mm2(spec.outline)
    grams = area * spec.thickness_mm / 1000 * density
    told = Amount("area of the board, cm²", area / 100, "ratio", Basis.GIVEN, path=spec.path)
    thick = Amount("thickness of the board", spec.thickness_mm, "mm", Basis.GIVEN, path=(*spec.path, "thickness"))
    heavy = Amount("density, g/cm³", density, "ratio", stock.mass_basis, stock.mass_source)
    return worked("mass of the board", grams, "g", "area × thickness × density", told, thick, heavy, path=spec.path)
