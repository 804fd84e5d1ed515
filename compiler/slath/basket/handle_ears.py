"""Ears, and the bows that swing in them."""

from __future__ import annotations

import math
from collections.abc import Callable

from msgspec.structs import replace

from slath.basket.handle_curve import Bow, bow_of, girth_of_two_mm
from slath.basket.handle_frame import Frame, border_mm, chosen, lashing_of, summed
from slath.basket.handle_wrap import Core, work_wraps
from slath.basket.model import CannotConstruct, HandlePiece, WorkedEar, WorkedHandle
from slath.language.pattern import Binding, Ears
from slath.messages.told import kept
from slath.messages.values import Length
from slath.units import Amount, Basis, worked

NOTCH_DEEP = 3  # a notch goes this part of the wood deep, from memory
_THINNED = 0.5  # thickness of a scarfed end, of the bow's: a slope from the whole to nothing is half on the average


def ears(frame: Frame) -> WorkedHandle:
    """Notched lugs that stand `rise` above the rim and go down beside their stakes, to the base unless told otherwise."""
    spec = frame.spec
    if spec.rise_mm is None:
        raise CannotConstruct(
            "ear-height", spec.path, "handle", kept("refusals.an-ear-needs-its-rise"), (kept("refusals.give-the-rise"),)
        )  # fmt: skip
    stands = Amount("above the rim", spec.rise_mm, "mm", Basis.GIVEN, path=(*spec.path, "rise"))
    if spec.feet_mm is not None:
        foot = Amount("foot", spec.feet_mm, "mm", Basis.GIVEN, path=(*spec.path, "feet"))
    else:
        foot = Amount("foot", frame.rim_height_mm, "mm", Basis.COUNTED, formula="down to the base", path=spec.path)
    trim = replace(frame.pattern.settings["handle_trim"], name="trim")
    piece = summed("ear", [stands, foot, trim], spec.path)
    wraps = work_wraps(spec.wraps, frame.pattern, stands, Core(frame.girth_mm))
    points = ((0.0, 0.0), (0.0, spec.rise_mm))
    return WorkedHandle(
        spec, frame.span_mm, spec.rise_mm, stands, foot, piece, frame.feet_at, points, wraps, lash_mm=lashing_of(frame)
    )


# ---------------------------------------------------------------------------------------------------------- swinging
def swinging(frame: Frame) -> WorkedHandle:
    """One bow or two between the holes of two ears, their thinned ends turned back up along themselves and bound.

    A bow is cut as its arch between the holes and a scarf at each end; where the cut length is fixed and the rise is not,
    the rise follows from it.
    """
    spec = frame.spec
    if spec.ears is None or frame.span_mm <= 0:
        raise CannotConstruct(
            "handle-no-span", spec.path, "handle", kept("refusals.a-swinging-handle-hangs-between"),
            (kept("refusals.choose-two-stakes"), kept("refusals.give-the-span-between-the")),
        )  # fmt: skip
    ear = _ear(frame, spec.ears)
    scarf = chosen("scarf", spec.scarf_mm, frame, "bow_scarf", (*spec.path, "scarf"))
    rise = _rise(frame, ear, scarf)
    bow = _bow_at(frame, ear, rise.value)
    span = Amount("between the holes", frame.span_mm, "mm", Basis.COUNTED, path=(*spec.path, "span"))
    arch = worked("arch", bow.length_mm, "mm", bow.formula, span, rise, frame.thickness, path=spec.path)
    scarfs = worked("scarfs", 2 * scarf.value, "mm", "2 × scarf", scarf, path=scarf.path)
    curve = tuple((x, z + ear.hole_up_mm) for x, z in bow.points)
    doubled = girth_of_two_mm(frame.thickness.value, _THINNED * frame.thickness.value)
    core = Core(frame.girth_mm, doubled - frame.girth_mm, swings=True)
    wraps = work_wraps(spec.wraps, frame.pattern, arch, core)
    foot = Amount("foot", ear.foot_mm, "mm", ear.length.basis, formula="length of the ear - rise", path=spec.ears.path)
    return WorkedHandle(
        spec, frame.span_mm, rise.value, arch, foot, summed("bow", [arch, scarfs], spec.path), frame.feet_at, curve, wraps,
        lash_mm=lashing_of(frame), ear=ear, scarf=scarf, laid_degrees=_laid_degrees(rise.value - ear.hole_up_mm, frame.beyond_mm), before=(_ears_to_cut(frame, spec.ears, ear),),
        after=(_bindings(frame, spec.bind, doubled),) if spec.bind is not None else (),
    )  # fmt: skip


def _laid_degrees(reach_mm: float, beyond_mm: float) -> float:
    """How far from upright a bow goes when it is laid down: level on the border, or, where it reaches over the rim, as far
    down as its legs clear the wall: beside an upright wall that far out, where reach × sin of the angle is the way out.
    """
    if reach_mm <= beyond_mm:
        return 90.0
    return 180.0 - math.degrees(math.asin(beyond_mm / reach_mm))


def _ear(frame: Frame, ears: Ears) -> WorkedEar:
    """The ear by its parts: as much above the rim as goes down beside the stake, unless its rise is given."""
    wood = frame.pattern.materials[ears.material]
    path = ears.path
    length = chosen("ear", ears.length_mm, frame, "ear_length", (*path, "length"))
    width = chosen("width of the ear", ears.width_mm, frame, "ear_width", (*path, "width"))
    if ears.width_mm is None and wood.width_mm > wood.thickness_mm:
        width = Amount("width of the ear", wood.width_mm, "mm", wood.stock.basis, wood.stock.source, path=wood.path)
    notch = chosen("notch", ears.notch_mm, frame, "ear_notch", (*path, "notch"))
    if ears.rise_mm is not None:
        rise = Amount("above the rim", ears.rise_mm, "mm", Basis.GIVEN, path=(*path, "rise"))
    else:
        rise = worked(
            "above the rim", length.value / 2, "mm", "half of the ear", length, basis=Basis.ESTIMATED, path=path
        )
    over = ears.holds == "border"
    head_from = notch.value if over else border_mm(frame.pattern)
    if rise.value <= head_from or rise.value >= length.value:
        raise CannotConstruct(
            "ear-height", path, "handle", kept("refusals.an-ear-long-that-stands", length=Length(length.value), rise=Length(rise.value), head_from=Length(head_from)),
            (kept("refusals.make-the-ear-longer"), kept("refusals.let-it-stand-higher")),
        )  # fmt: skip
    hole = _hole(frame, ears)
    up = (head_from + rise.value) / 2
    apart = (width.value - ears.holes * hole.value) / (ears.holes + 1)
    return WorkedEar(
        length, width, wood.thickness_mm, rise, (0.0, notch.value) if over else (-notch.value, 0.0),
        wood.thickness_mm / NOTCH_DEEP, hole, up, hole.value + apart, min(apart, rise.value - up - hole.value / 2),
    )  # fmt: skip


def _hole(frame: Frame, ears: Ears) -> Amount:
    """One bow goes through each hole, or both through one of twice the width."""
    path = (*ears.path, "hole")
    if ears.hole_mm is not None:
        return Amount("hole", ears.hole_mm, "mm", Basis.GIVEN, path=path)
    through = bows_through_a_hole(frame.spec.count, ears.holes)
    play = frame.pattern.settings["ear_hole_play"]
    formula = "bow thickness + play" if through == 1 else f"{through} × bow thickness + play"
    return worked("hole", through * frame.thickness.value + play.value, "mm", formula, frame.thickness, play, path=path)


def bows_through_a_hole(bows: int, holes: int) -> int:
    """How many bows go through one hole."""
    return max(1, -(-bows // holes))


def _bow_at(frame: Frame, ear: WorkedEar, rise_mm: float) -> Bow:
    thick = frame.thickness.value
    if rise_mm <= ear.hole_up_mm:
        raise CannotConstruct(
            "handle-too-low", (*frame.spec.path, "rise"), "handle",
            kept("refusals.the-bow-is-to-rise", rise_mm=Length(rise_mm), hole_up=Length(ear.hole_up_mm)),
            (kept("refusals.let-it-rise-more-than", hole_up=Length(ear.hole_up_mm)), kept("refusals.let-the-ears-stand-lower")),
        )  # fmt: skip
    return bow_of(frame.spec, frame.span_mm, rise_mm + thick / 2 - ear.hole_up_mm, thick)


def _rise(frame: Frame, ear: WorkedEar, scarf: Amount) -> Amount:
    """The rise asked for; or that of the length cut, less both scarfs; or else that of a half circle over the holes."""
    spec = frame.spec
    path = (*spec.path, "rise")
    if spec.rise_mm is not None:
        return Amount("rise", spec.rise_mm, "mm", Basis.GIVEN, path=path)
    if spec.length_mm is None or spec.shape == "half circle":
        return Amount("rise", ear.hole_up_mm + frame.span_mm / 2, "mm", Basis.ESTIMATED, path=path)
    arch = spec.length_mm - 2 * scarf.value
    lowest = ear.hole_up_mm + frame.thickness.value

    def takes(rise_mm: float) -> float:
        return _bow_at(frame, ear, rise_mm).length_mm

    if takes(lowest) > arch:
        raise CannotConstruct(
            "handle-too-short", (*spec.path, "length"), "handle",
            kept("refusals.a-bow-cut-with-scarfs", length=Length(spec.length_mm), scarf=Length(scarf.value), arch=Length(max(arch, 0.0)), span=Length(frame.span_mm)),
            (kept("refusals.cut-it-longer"), kept("refusals.make-the-scarfs-shorter"), kept("refusals.choose-ears-nearer-together")),
        )  # fmt: skip
    length = Amount("length of the bow", spec.length_mm, "mm", Basis.GIVEN, path=(*spec.path, "length"))
    formula = "the rise at which arch and scarfs come to the length fixed"
    return worked("rise", _met(takes, arch, lowest, spec.length_mm), "mm", formula, length, scarf, path=path)


def _met(takes: Callable[[float], float], wanted: float, low: float, high: float) -> float:
    """Where a growing length comes to `wanted`, between `low` and `high`."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if takes(middle) < wanted else (low, middle)
    return low


def _ears_to_cut(frame: Frame, ears: Ears, ear: WorkedEar) -> HandlePiece:
    feet = Amount("places", len(frame.feet_at), "count", Basis.COUNTED, path=frame.spec.path)
    count = worked("ears", feet.value, "count", "one at either side", feet, path=ears.path)
    return HandlePiece(("ear", "ears"), ears.material, count, ear.length, ears.path, ears.length_mm)


def _bindings(frame: Frame, bind: Binding, girth_mm: float) -> HandlePiece:
    """One for every place of every turned back end: turns round the bow and its thinned end laid together."""
    settings, stock = frame.pattern.settings, frame.pattern.materials[bind.material]
    turns = replace(settings["bow_bind_turns"], name="turns")
    if bind.turns is not None:
        turns = Amount("turns", bind.turns, "count", Basis.GIVEN, path=(*bind.path, "turns"))
    once = Amount("once round both", girth_mm + math.pi * stock.thickness_mm, "mm", Basis.ESTIMATED)
    round_it = worked(
        "round the bow and its end", turns.value * once.value, "mm", "turns × once round both", turns, once
    )
    tail = settings["binding_tail"]
    tails = worked("tails", 2 * tail.value, "mm", "2 × tail", tail)
    bows = Amount("bows", frame.spec.count, "count", Basis.GIVEN, path=frame.spec.path)
    places = Amount("places", bind.places, "count", Basis.GIVEN, path=(*bind.path, "places"))
    number = worked("bindings", 2 * bows.value * places.value, "count", "bows × 2 ends × places", bows, places)
    length = summed("binding", [round_it, tails], bind.path)
    return HandlePiece(("binding", "bindings"), bind.material, number, length, bind.path, bind.length_mm)
