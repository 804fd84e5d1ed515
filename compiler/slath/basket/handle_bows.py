"""Bows over the top, side handles and drops: the curve, the feet and the length of each piece."""

from __future__ import annotations

import math

from msgspec.structs import replace

from slath.basket.handle_curve import Bow, bow_of, twisted_mm
from slath.basket.handle_frame import Frame, lap_of, lashing_of, summed
from slath.basket.handle_wrap import TWIST_LAY, Core, work_wraps
from slath.basket.model import CannotConstruct, WorkedHandle
from slath.messages.told import kept
from slath.units import Amount, Basis, worked

# Strands of a plait cross its run at 45 degrees, estimated: pieces of 40 in make a braid of 24 in and two feet (Gill).
_BRAID = math.sqrt(2)


def bow(frame: Frame) -> WorkedHandle:
    """A bow, a side handle or a drop. Raises CannotConstruct where its feet are at one place."""
    spec = frame.spec
    if spec.span_mm is None and frame.span_mm <= 0:
        raise CannotConstruct(
            "handle-no-span", spec.path, "handle", kept("refusals.the-two-feet-of-the"),
            (kept("refusals.choose-two-stakes"), kept("refusals.give-the-span-between-its")),
        )  # fmt: skip
    foot = _foot(frame)
    rise = _rise(frame, foot)
    foot = _foot_of_length(frame, rise, foot)
    bow = _bow_at(frame, rise.value)
    length = _bow_amount(frame, bow, rise)
    piece = summed("piece", _piece_parts(frame, length, foot), spec.path)
    wraps = work_wraps(spec.wraps, frame.pattern, length, Core(frame.girth_mm))
    return WorkedHandle(
        spec,
        frame.span_mm,
        rise.value,
        length,
        foot,
        piece,
        frame.feet_at,
        bow.points,
        wraps,
        lash_mm=lashing_of(frame),
    )


def _bow_at(frame: Frame, rise_mm: float) -> Bow:
    return bow_of(frame.spec, frame.span_mm, rise_mm + frame.thickness.value / 2, frame.thickness.value)


def _rise(frame: Frame, foot: Amount) -> Amount:
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
        return math.fsum(part.value for part in _piece_parts(frame, bow, foot))

    low, high = 0.0, spec.length_mm
    if takes(low) > spec.length_mm:
        return half  # too short for any bow between these feet
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if takes(middle) < spec.length_mm else (low, middle)
    length = Amount("length of the piece", spec.length_mm, "mm", Basis.GIVEN, path=(*spec.path, "length"))
    return worked("rise", low, "mm", "the rise at which bow, feet and trim come to the length fixed", length, path=path)


def _bow_amount(frame: Frame, bow: Bow, rise: Amount) -> Amount:
    spec = frame.spec
    basis = Basis.GIVEN if spec.span_mm is not None else Basis.COUNTED
    span = Amount("span", frame.span_mm, "mm", basis, path=(*spec.path, "span"))
    return worked("bow", bow.length_mm, "mm", bow.formula, span, rise, frame.thickness, path=spec.path)


def _foot(frame: Frame) -> Amount:
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


_LEAST_FOOT_MM = 25.4  # below this a foot holds nothing; estimated


def _foot_of_length(frame: Frame, rise: Amount, foot: Amount) -> Amount:
    """The foot a length fixed by the designer leaves of it: where the rise is given too, or where the usual feet would not
    let the handle rise at all. As it was where the designer says how deep it goes.
    """
    spec = frame.spec
    whole = spec.kind not in ("two-piece", "twisted", "braided", "drop") and frame.below is None
    if spec.length_mm is None or spec.feet_mm is not None or not whole:
        return foot
    bow = Amount("bow", _bow_at(frame, rise.value).length_mm, "mm", Basis.COUNTED)
    left = (spec.length_mm - math.fsum(part.value for part in _piece_parts(frame, bow, replace(foot, value=0.0)))) / 2
    if spec.rise_mm is None and left >= foot.value:
        return foot  # the rise was found by this foot
    left = min(left, frame.rim_height_mm) if frame.rim_height_mm > 0 else left
    if left < _LEAST_FOOT_MM:
        return foot
    length = Amount("length of the piece", spec.length_mm, "mm", Basis.GIVEN, path=(*spec.path, "length"))
    return worked("foot", left, "mm", "(length of the piece − bow − trim) ÷ 2", length, bow, path=spec.path)


def _piece_parts(frame: Frame, bow: Amount, foot: Amount) -> list[Amount]:
    spec, settings = frame.spec, frame.pattern.settings
    trim = replace(settings["handle_trim"], name="trim")
    if frame.below is not None:
        return [bow, *frame.below, lap_of(frame), trim]
    feet = worked("feet", 2 * foot.value, "mm", "2 × foot", foot)
    if spec.kind == "two-piece":
        share = worked("share of the bow", bow.value / spec.pieces, "mm", f"bow / {spec.pieces}", bow)
        lap = lap_of(frame)
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


def _twisted(frame: Frame, bow: Amount) -> Amount:
    """A rod of a twisted handle. A single one goes over and comes back round itself, so it makes both its rods."""
    rods = max(frame.spec.pieces, 2)
    rod = frame.thickness.value
    each = twisted_mm(bow.value, rods, rod, TWIST_LAY * rod)
    times = 2 if frame.spec.pieces == 1 else 1
    formula = f"{times} × bow along a helix, one turn in {TWIST_LAY} thicknesses"
    return worked("twisted along the bow", times * each, "mm", formula, bow, frame.thickness, basis=Basis.ESTIMATED)
