"""What every kind of handle is worked out from and made up of: its frame, laps, lashings and sums."""

from __future__ import annotations

import math

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.border_path import passes_of
from slath.language.pattern import Band, Handle, OvalSlath, RoundSlath, SizedPattern
from slath.language.pattern import Frame as FrameBase
from slath.language.places import Path
from slath.units import Amount, Basis, worked

_LOOP_TURNS = 2  # as drawn and told
_LASHING_TURNS = 2  # turns each way of the cross that binds a foot, estimated


class Frame(Struct, frozen=True):
    """What every kind of handle is worked out from."""

    spec: Handle
    pattern: SizedPattern
    thickness: Amount
    girth_mm: float
    span_mm: float
    spacing_mm: float  # between stakes at the rim
    rim_height_mm: float  # of the side, from the base
    feet_at: tuple[int, ...]
    beyond_mm: float = 0.0  # how far the rim lies from the line between two feet, at most
    below: tuple[Amount, Amount] | None = None  # down both sides and under the base, of a handle in one with it


def lap_of(frame: Frame) -> Amount:
    """Over which two ends lie together, as the designer says or the maker is used to."""
    if frame.spec.lap_mm is not None:
        return Amount("lap", frame.spec.lap_mm, "mm", Basis.GIVEN, path=(*frame.spec.path, "lap"))
    return replace(frame.pattern.settings["handle_lap"], name="lap")


def lashing_of(frame: Frame) -> Amount | None:
    """A lashing for one foot: a cross over foot and border, from the middle of the space on its left to that on its right.

    One turn runs slantwise over the outside, through the space, back slantwise inside and through the other space: twice
    the slant of one spacing and the border's height, twice the thickness of border and handle. Never a share of girths.
    """
    spec, pattern = frame.spec, frame.pattern
    if not spec.lash:
        return None
    if spec.family in ("drop", "ring"):
        return loop_of(frame)
    lasher = pattern.materials[spec.lash]
    stake_mm = pattern.materials[pattern.stakes.material].thickness_mm if pattern.stakes else frame.thickness.value
    high = lasher.thickness_mm + stake_mm * lying_at_one_place(pattern)
    through = lasher.thickness_mm + frame.thickness.value + stake_mm
    turn = 2 * math.hypot(frame.spacing_mm, high) + 2 * through
    turns = 2 * _LASHING_TURNS
    path = (*spec.path, "lash")
    bound = worked(
        "over foot and border", turns * turn, "mm", f"{turns} slant turns over foot and border",
        frame.thickness, basis=Basis.ESTIMATED, path=path,
    )  # fmt: skip
    tail = pattern.settings["lashing_tail"]
    tails = worked("tails", 2 * tail.value, "mm", "2 × tail", tail)
    return summed("lashing", [bound, tails], path)


def loop_of(frame: Frame) -> Amount:
    """What hangs a drop or a ring: so many turns under the border and through what hangs there, and two ends to tuck away."""
    spec, pattern = frame.spec, frame.pattern
    strand = pattern.materials[spec.lash].thickness_mm
    around = 2 * (border_mm(pattern) + frame.thickness.value + 2 * strand) + math.pi * frame.thickness.value
    path = (*spec.path, "lash")
    turns = worked(
        "round border and handle", _LOOP_TURNS * around, "mm", f"{_LOOP_TURNS} turns round the border and what hangs there",
        frame.thickness, basis=Basis.ESTIMATED, path=path,
    )  # fmt: skip
    tail = pattern.settings["lashing_tail"]
    return summed("loop", [turns, worked("tails", 2 * tail.value, "mm", "2 × tail", tail)], path)


def hung_by(spec: Handle, pattern: SizedPattern) -> str:
    """What a drop or a ring hangs by: what it is lashed on with, or else the strand that is woven last under the border."""
    if spec.lash or spec.family not in ("drop", "ring"):
        return spec.lash
    woven = [band for band in _bands(pattern) if isinstance(band, Band) and band.strands]
    return woven[-1].strands[0] if woven else spec.material


def _bands(pattern: SizedPattern) -> tuple[object, ...]:
    base = pattern.base
    on_base = base.weaving if isinstance(base, RoundSlath | OvalSlath | FrameBase) else ()
    return pattern.side.bands if pattern.side else on_base


def lying_at_one_place(pattern: SizedPattern) -> int:
    """Stakes of the border that lie over one another at one place."""
    if pattern.border is None:
        return 1
    return max(1, sum(move.count for one in passes_of(pattern.border) for move in one.moves))


def border_mm(pattern: SizedPattern) -> float:
    """Height of the border over the weaving: the stakes that lie over one another in it."""
    if pattern.border is None or pattern.stakes is None:
        return 0.0
    return lying_at_one_place(pattern) * pattern.materials[pattern.stakes.material].thickness_mm


def chosen(name: str, given_mm: float | None, frame: Frame, setting: str, path: Path) -> Amount:
    """A length the designer wrote at `path`, else the maker's setting, under the name it is printed by."""
    if given_mm is not None:
        return Amount(name, given_mm, "mm", Basis.GIVEN, path=path)
    return replace(frame.pattern.settings[setting], name=name)


def summed(name: str, parts: list[Amount], path: Path) -> Amount:
    """The sum of parts, each kept by its name."""
    total = math.fsum(part.value for part in parts)
    return worked(name, total, "mm", " + ".join(part.name for part in parts), *parts, path=path)
