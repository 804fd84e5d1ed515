"""Pieces of a base: sticks with their trim, half sticks, through sticks that become stakes at both ends, boards."""

from __future__ import annotations

import math

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import ConstructedBase, Stick
from slath.basket.outline import area_mm2
from slath.language.pattern import Board, Frame, OvalSlath, ReadyMade, RoundSlath, SizedPattern, Tie
from slath.language.places import Path
from slath.quantities.cutting import chosen_or_setting, piece_of, spare_count
from slath.quantities.results import Piece
from slath.trade.stocks import implied_density
from slath.units import Amount, Basis, worked


class _Kind(Struct, frozen=True):
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
        path = (*spec.path, "ring")
        around = base.edge.perimeter
        return (ring_piece("base ring", spec.ring, around, pattern, path, spec.ring_lap_mm),) if spec.ring else ()
    pieces: list[Piece] = []
    for kind in _kinds(spec):
        sticks = [stick for stick in base.sticks if stick.kind in kind.kinds]
        if sticks:
            pieces.append(_sticks(kind, sticks, spec, pattern, rising))
    halves = [stick for stick in base.sticks if stick.kind == "half stick"]
    if halves and pieces:
        pieces.append(_half_stick(halves, pieces[0], spec, pattern))
    if isinstance(spec, RoundSlath | OvalSlath) and spec.tied is not None:
        pieces.append(_ties(spec.tied, base, spec, pattern))
    extra = [stick for stick in base.sticks if stick.kind == "extra end"]
    if extra:
        pieces.append(_extra_ends(extra, spec, pattern, rising))
    return tuple(pieces)


def ring_piece(
    part: str, material: str, around_mm: float, pattern: SizedPattern, path: Path, lap_mm: float | None = None
) -> Piece:
    """A ring bent of one length, its ends lapped: stakes are looped over it, or the ends of a border."""
    count = Amount(part, 1, "count", Basis.COUNTED, path=path)
    around = Amount("round the ring", around_mm, "mm", Basis.COUNTED, path=path)
    lap = replace(pattern.settings["join_lap"], name="lap")
    if lap_mm is not None:
        lap = Amount("lap", lap_mm, "mm", Basis.GIVEN, path=path)
    return piece_of(part, material, count, (around, lap), pattern, path=path)


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


def _ties(tie: Tie, base: ConstructedBase, spec: RoundSlath | OvalSlath, pattern: SizedPattern) -> Piece:
    """Bindings over a crossing: slantwise over it and back below, both slants, so many times."""
    path, settings = tie.path, pattern.settings
    sticks = [pattern.materials[stick.material] for stick in base.cut_sticks]
    thick = Amount("two sticks over one another", 2 * max(item.thickness_mm for item in sticks), "mm", Basis.COUNTED)
    across = _crossing_mm(tie, base, spec, pattern)
    wide = Amount("crossing, along the base", across, "mm", Basis.COUNTED)
    high = Amount("crossing, across the base", base.slath.width_mm if base.slath else 0.0, "mm", Basis.COUNTED)
    turns = settings["tie_turns"]
    if tie.turns is not None:
        turns = Amount("turns", tie.turns, "count", Basis.GIVEN, path=(*path, "turns"))
    slant = math.hypot(wide.value, high.value)
    formula = "turns × two slants, over the crossing and back below it, and through it at either end"
    bound = worked(
        "over and under the crossing", turns.value * 2 * (2 * slant + 2 * thick.value), "mm", formula,
        turns, wide, high, thick, path=path,
    )  # fmt: skip
    tail = settings["lashing_tail"]
    tails = worked("tails", 2 * tail.value, "mm", "2 × tail", tail)
    number = tie_count(tie, spec)
    part = "ties of the slath" if number > 1 else "tie of the slath"
    return piece_of(
        part, tie.material, Amount(part, number, "count", Basis.COUNTED, path=path), (bound, tails), pattern, path=path
    )


def tie_count(tie: Tie, spec: RoundSlath | OvalSlath) -> int:
    """How many crossings are tied: one on a round slath; the middle group or groups, the end ones, or all of an oval."""
    if isinstance(spec, RoundSlath):
        return 1
    groups = len(spec.groups)
    return {"middle": 1 if groups % 2 else 2, "ends": min(2, groups), "every": groups}[tie.at]


def _crossing_mm(tie: Tie, base: ConstructedBase, spec: RoundSlath | OvalSlath, pattern: SizedPattern) -> float:
    """How long the tied crossing is along the base, mm: the widest of those that are tied."""
    if isinstance(spec, RoundSlath):
        return base.slath.length_mm if base.slath else 0.0
    groups, middle = spec.groups, len(spec.groups) // 2
    tied = {
        "middle": groups[middle : middle + 1] if len(groups) % 2 else groups[middle - 1 : middle + 1],
        "ends": (groups[0], groups[-1]),
        "every": groups,
    }[tie.at]
    return max(tied) * pattern.materials[spec.crosswise_material].width_mm


def _extra_ends(
    ends: list[Stick], spec: RoundSlath | OvalSlath | Frame, pattern: SizedPattern, rising: tuple[Amount, ...]
) -> Piece:
    """Ends of weavers worked as sticks: what they take from the middle on, besides what is woven."""
    part, path = "extra ends", (*spec.path, "extra_ends")
    out = Amount("from the middle to the edge", max(end.length_mm for end in ends), "mm", Basis.GIVEN, path=path)
    trim = chosen_or_setting("trim", None, pattern, setting="stick_trim", path=path)
    beyond = rising if spec.become_stakes and rising else (trim,)
    count = Amount(part, len(ends), "count", Basis.GIVEN, path=path)
    return piece_of(part, ends[0].material, count, (out, *beyond), pattern, path=path)


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
