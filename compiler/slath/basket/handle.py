"""A handle worked by geometry: its curve above the rim, its feet, the length of each piece and what is wound round it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from slath.basket.border_path import passes_of
from slath.basket.handle_curve import Bow, bow_of, girth_mm, twisted_mm
from slath.basket.handle_feet import feet_of
from slath.basket.handle_wrap import TWIST_LAY, work_wraps
from slath.basket.model import CannotConstruct, Curve, Profile, Stake, WorkedHandle
from slath.language.pattern import Handle, Lid, SizedPattern
from slath.units import Amount, Basis, worked

_FEWEST_PIECES = {"two-piece": 2, "braided": 3}
# Strands of a plait cross its run at 45 degrees, estimated: pieces of 40 in make a braid of 24 in and two feet (Gill).
_BRAID = math.sqrt(2)
_LASHING_TURNS = 2  # turns each way of the cross that binds a foot, estimated


@dataclass(frozen=True, slots=True)
class _Frame:
    """What every kind of handle is worked out from."""

    spec: Handle
    pattern: SizedPattern
    thickness: Amount
    girth_mm: float
    span_mm: float
    spacing_mm: float  # between stakes at the rim
    rim_height_mm: float  # of the side, from the base
    feet_at: tuple[int, ...]
    below: tuple[Amount, Amount] | None = None  # down both sides and under the base, of a handle in one with it


def work_handle(
    spec: Handle,
    rim: Curve,
    rim_height_mm: float,
    stakes: Sequence[Stake],
    pattern: SizedPattern,
    sides: tuple[Curve, Profile | None] | None = None,
) -> WorkedHandle:
    """The handle `spec` on a rim `rim_height_mm` above the base. `spec` comes back with the pieces its kind needs.

    `sides` are the base edge and the side's own shape, for a handle that goes on under the base. Raises CannotConstruct
    where no such handle can stand.
    """
    pieces = max(spec.pieces, _FEWEST_PIECES.get(spec.kind, 1))
    spec = replace(spec, pieces=pieces)
    material = pattern.materials[spec.material]
    stock = material.stock
    thickness = Amount("handle thickness", material.thickness_mm, "mm", stock.basis, stock.source, path=material.path)
    abreast = pieces if spec.kind != "two-piece" else 1
    feet_at = feet_of(spec, stakes, rim.perimeter)
    span = _span(spec, rim, stakes, feet_at)
    standing = sum(stake.kind != "bye-stake" for stake in stakes)
    girth = girth_mm(abreast, thickness.value)
    frame = _Frame(spec, pattern, thickness, girth, span, rim.perimeter / standing, rim_height_mm, feet_at)
    if spec.through_base and sides is not None:
        frame = replace(frame, below=_below(spec, stakes, feet_at, *sides))
    if spec.kind == "ring":
        return _ring(frame)
    if spec.kind == "ears":
        return _ears(frame, rim_height_mm)
    return _bow(frame)


def _below(
    spec: Handle, stakes: Sequence[Stake], feet_at: tuple[int, ...], edge: Curve, profile: Profile | None
) -> tuple[Amount, Amount]:
    """Down the side at either foot, and from foot to foot under the base."""
    place = {stake.number: stake.u for stake in stakes}
    feet = [place[number] for number in feet_at[:2]]
    path = (*spec.path, "through_base")
    down = sum(profile.slope_mm(u, profile.height_mm) for u in feet) if profile else 0.0
    under = math.dist(edge.point(feet[0]), edge.point(feet[-1])) if feet else 0.0
    return (
        Amount("down both sides", down, "mm", Basis.COUNTED, formula="the side's own curve at either foot", path=path),
        Amount("under the base", under, "mm", Basis.COUNTED, formula="from foot to foot at the base edge", path=path),
    )


def _span(spec: Handle, rim: Curve, stakes: Sequence[Stake], feet_at: tuple[int, ...]) -> float:
    """Between the feet as asked for, or as the stakes stand on the rim."""
    if spec.span_mm is not None:
        return spec.span_mm
    if len(feet_at) < 2:
        return 0.0
    place = {stake.number: stake.u for stake in stakes}
    return math.dist(rim.point(place[feet_at[0]]), rim.point(place[feet_at[1]]))


# --------------------------------------------------------------------------------------------------------------- bows
def _bow(frame: _Frame) -> WorkedHandle:
    spec = frame.spec
    if spec.span_mm is None and frame.span_mm <= 0:
        raise CannotConstruct(
            "handle-no-span", spec.path, "handle", "the two feet of the handle are at one place",
            ("choose two stakes", "give the span between its feet"),
        )  # fmt: skip
    foot = _foot(frame)
    rise = _rise(frame, foot)
    bow = _bow_at(frame, rise.value)
    length = _bow_amount(frame, bow, rise)
    piece = _sum("piece", _piece_parts(frame, length, foot), spec.path)
    wraps = work_wraps(spec.wraps, frame.pattern, length, frame.girth_mm)
    return WorkedHandle(
        spec, frame.span_mm, rise.value, length, foot, piece, frame.feet_at, bow.points, wraps, lash_mm=_lashing(frame)
    )


def _bow_at(frame: _Frame, rise_mm: float) -> Bow:
    return bow_of(frame.spec, frame.span_mm, rise_mm + frame.thickness.value / 2, frame.thickness.value)


def _rise(frame: _Frame, foot: Amount) -> Amount:
    """The rise asked for; or the one a length fixed by the designer comes to; or else that of a half circle."""
    spec = frame.spec
    path = (*spec.path, "rise")
    if spec.rise_mm is not None:
        return Amount("rise", spec.rise_mm, "mm", Basis.GIVEN, path=path)
    half = Amount("rise", frame.span_mm / 2, "mm", Basis.ESTIMATED, path=path)
    if spec.length_mm is None or spec.shape == "half circle":
        return half

    def takes(rise_mm: float) -> float:
        bow = Amount("bow", _bow_at(frame, rise_mm).length_mm, "mm", Basis.COUNTED)
        return sum(part.value for part in _piece_parts(frame, bow, foot))

    low, high = 0.0, spec.length_mm
    if takes(low) > spec.length_mm:
        return half  # too short for any bow between these feet
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if takes(middle) < spec.length_mm else (low, middle)
    length = Amount("length of the piece", spec.length_mm, "mm", Basis.GIVEN, path=(*spec.path, "length"))
    return worked("rise", low, "mm", "the rise at which bow, feet and trim come to the length fixed", length, path=path)


def _bow_amount(frame: _Frame, bow: Bow, rise: Amount) -> Amount:
    spec = frame.spec
    basis = Basis.GIVEN if spec.span_mm is not None else Basis.COUNTED
    span = Amount("span", frame.span_mm, "mm", basis, path=(*spec.path, "span"))
    return worked("bow", bow.length_mm, "mm", bow.formula, span, rise, frame.thickness, path=spec.path)


def _foot(frame: _Frame) -> Amount:
    """How deep each foot goes down; on a drop handle, the end wound back after its eye."""
    spec = frame.spec
    if spec.feet_mm is not None:
        return Amount("foot", spec.feet_mm, "mm", Basis.GIVEN, path=(*spec.path, "feet"))
    if frame.below is not None:
        return Amount("foot", frame.rim_height_mm, "mm", Basis.COUNTED, formula="down to the base", path=spec.path)
    usual = frame.pattern.settings["wrap_tail" if spec.kind == "drop" else "handle_foot"]
    if spec.kind == "drop" or not 0 < frame.rim_height_mm < usual.value:
        return usual
    return Amount("foot", frame.rim_height_mm, "mm", Basis.COUNTED, formula="down to the base", path=spec.path)


def _piece_parts(frame: _Frame, bow: Amount, foot: Amount) -> list[Amount]:
    spec, settings = frame.spec, frame.pattern.settings
    trim = replace(settings["handle_trim"], name="trim")
    if frame.below is not None:
        return [bow, *frame.below, _lap(frame), trim]
    feet = worked("feet", 2 * foot.value, "mm", "2 × foot", foot)
    if spec.kind == "two-piece":
        share = worked("share of the bow", bow.value / spec.pieces, "mm", f"bow / {spec.pieces}", bow)
        lap = _lap(frame)
        laps = (spec.pieces - 1) / spec.pieces
        scarf = worked("share of the laps", lap.value * laps, "mm", f"lap × {spec.pieces - 1} / {spec.pieces}", lap)
        return [share, scarf, worked("foot", foot.value, "mm", "foot", foot), trim]
    if spec.kind == "twisted":
        return [_twisted(frame, bow), feet, trim]
    if spec.kind == "braided":
        formula = "bow × square root of 2, strands crossing at 45 degrees"
        braid = worked("plaited along the bow", bow.value * _BRAID, "mm", formula, bow, basis=Basis.ESTIMATED)
        return [braid, feet, trim]
    if spec.kind == "drop":
        around = 3 * math.pi * frame.thickness.value  # an eye two thicknesses wide inside
        eyes = worked("eyes", 2 * around, "mm", "2 × 3 pi × handle thickness", frame.thickness, basis=Basis.ESTIMATED)
        return [bow, eyes, feet, trim]
    return [bow, feet, trim]


def _twisted(frame: _Frame, bow: Amount) -> Amount:
    """A rod of a twisted handle. A single one goes over and comes back round itself, so it makes both its rods."""
    rods = max(frame.spec.pieces, 2)
    rod = frame.thickness.value
    each = twisted_mm(bow.value, rods, rod, TWIST_LAY * rod)
    times = 2 if frame.spec.pieces == 1 else 1
    formula = f"{times} × bow along a helix, one turn in {TWIST_LAY} thicknesses"
    return worked("twisted along the bow", times * each, "mm", formula, bow, frame.thickness, basis=Basis.ESTIMATED)


def _lap(frame: _Frame) -> Amount:
    if frame.spec.lap_mm is not None:
        return Amount("lap", frame.spec.lap_mm, "mm", Basis.GIVEN, path=(*frame.spec.path, "lap"))
    return replace(frame.pattern.settings["handle_lap"], name="lap")


# ------------------------------------------------------------------------------------------------------ rings and ears
def lifting_ring(spec: Lid, pattern: SizedPattern) -> WorkedHandle | None:
    """The ring a lid is lifted by, of the usual size: it stands on the weaving, beside no stake. None without one."""
    if not spec.ring:
        return None
    path = (*spec.path, "ring")
    stock = pattern.materials[spec.ring].stock
    ring = Handle(path, "ring", spec.ring, diameter_mm=pattern.settings.mm("lid_ring"))
    thickness = Amount("ring thickness", stock.thickness_mm, "mm", stock.basis, stock.source, path=path)
    return _ring(_Frame(ring, pattern, thickness, girth_mm(1, thickness.value), 0.0, 0.0, 0.0, ()))


def _ring(frame: _Frame) -> WorkedHandle:
    spec = frame.spec
    across = spec.diameter_mm if spec.diameter_mm is not None else spec.span_mm
    if across is None or across <= 2 * frame.thickness.value:
        raise CannotConstruct(
            "ring-size", spec.path, "handle", "a ring handle needs its diameter, more than twice its thickness",
            ("give the diameter across the ring",),
        )  # fmt: skip
    radius = (across - frame.thickness.value) / 2
    given = Amount("ring over all", across, "mm", Basis.GIVEN, path=(*spec.path, "diameter"))
    length = worked("ring", 2 * math.pi * radius, "mm", "pi × (ring over all - thickness)", given, frame.thickness)
    lap = _lap(frame)
    if lap.value > length.value:
        lap = worked("lap", length.value, "mm", "once more round the ring", length)
    trim = replace(frame.pattern.settings["handle_trim"], name="trim")
    turns = [math.pi * step / 32 for step in range(65)]
    points = tuple((-radius * math.cos(turn), -radius * math.sin(turn)) for turn in turns)
    none = Amount("foot", 0.0, "mm", Basis.COUNTED, path=spec.path)
    piece = _sum("piece", [length, lap, trim], spec.path)
    wraps = work_wraps(spec.wraps, frame.pattern, length, frame.girth_mm)
    return WorkedHandle(spec, across, 0.0, length, none, piece, frame.feet_at, points, wraps, lash_mm=_lashing(frame))


def _ears(frame: _Frame, rim_height_mm: float) -> WorkedHandle:
    """Notched lugs that stand `rise` above the rim and go down beside their stakes, to the base unless told otherwise."""
    spec = frame.spec
    if spec.rise_mm is None:
        raise CannotConstruct(
            "ear-height", spec.path, "handle", "an ear needs its rise above the rim", ("give the rise",)
        )  # fmt: skip
    stands = Amount("above the rim", spec.rise_mm, "mm", Basis.GIVEN, path=(*spec.path, "rise"))
    if spec.feet_mm is not None:
        foot = Amount("foot", spec.feet_mm, "mm", Basis.GIVEN, path=(*spec.path, "feet"))
    else:
        foot = Amount("foot", rim_height_mm, "mm", Basis.COUNTED, formula="down to the base", path=spec.path)
    trim = replace(frame.pattern.settings["handle_trim"], name="trim")
    piece = _sum("ear", [stands, foot, trim], spec.path)
    wraps = work_wraps(spec.wraps, frame.pattern, stands, frame.girth_mm)
    points = ((0.0, 0.0), (0.0, spec.rise_mm))
    return WorkedHandle(
        spec, frame.span_mm, spec.rise_mm, stands, foot, piece, frame.feet_at, points, wraps, lash_mm=_lashing(frame)
    )


# ------------------------------------------------------------------------------------------------------------ lashing
def _lashing(frame: _Frame) -> Amount | None:
    """A lashing for one foot: a cross over foot and border, from the middle of the space on its left to that on its right.

    One turn runs slantwise over the outside, through the space, back slantwise inside and through the other space: twice
    the slant of one spacing and the border's height, twice the thickness of border and handle. Never a share of girths.
    """
    spec, pattern = frame.spec, frame.pattern
    if not spec.lash:
        return None
    lasher = pattern.materials[spec.lash]
    stake_mm = pattern.materials[pattern.stakes.material].thickness_mm if pattern.stakes else frame.thickness.value
    high = lasher.thickness_mm + stake_mm * _lying(pattern)
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
    return _sum("lashing", [bound, tails], path)


def _lying(pattern: SizedPattern) -> int:
    """Stakes of the border that lie over one another at one place."""
    if pattern.border is None:
        return 1
    return max(1, sum(move.count for one in passes_of(pattern.border) for move in one.moves))


def _sum(name: str, parts: list[Amount], path: tuple[str | int, ...]) -> Amount:
    total = sum(part.value for part in parts)
    return worked(name, total, "mm", " + ".join(part.name for part in parts), *parts, path=path)
