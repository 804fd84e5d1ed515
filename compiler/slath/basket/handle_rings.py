"""Rings: a handle that hangs from a loop, and the ring a lid is lifted by."""

from __future__ import annotations

import math

from msgspec.structs import replace

from slath.basket.handle_curve import girth_mm, twisted_mm
from slath.basket.handle_frame import Frame, hung_by, lap_of, lashing_of, summed
from slath.basket.handle_wrap import TWIST_LAY, Core, work_wraps
from slath.basket.model import CannotConstruct, WorkedHandle
from slath.language.pattern import Handle, Lid, SizedPattern
from slath.messages.told import kept
from slath.units import Amount, Basis, worked

LAP_OF_RING = 3  # the ends of a ring lap over this part of it at most where no lap is given, estimated


def lifting_ring(spec: Lid, pattern: SizedPattern) -> WorkedHandle | None:
    """The ring a lid is lifted by, of the usual size: it stands on the weaving, beside no stake. None without one."""
    if not spec.ring:
        return None
    path = (*spec.path, "ring")
    stock = pattern.materials[spec.ring].stock
    own = Handle(path, "ring", spec.ring, diameter_mm=pattern.settings.mm("lid_ring"))
    own = replace(own, lash=hung_by(own, pattern))
    thickness = Amount("ring thickness", stock.thickness_mm, "mm", stock.basis, stock.source, path=path)
    return ring(Frame(own, pattern, thickness, girth_mm(1, thickness.value), 0.0, 0.0, 0.0, ()))


def ring(frame: Frame) -> WorkedHandle:
    """A ring across its diameter. Raises CannotConstruct where it has none."""
    spec = frame.spec
    across = spec.diameter_mm if spec.diameter_mm is not None else spec.span_mm
    if across is None or across <= 2 * frame.thickness.value:
        raise CannotConstruct(
            "ring-size", spec.path, "handle", kept("refusals.a-ring-handle-needs-its"),
            (kept("refusals.give-the-diameter-across-the"),),
        )  # fmt: skip
    radius = (across - frame.thickness.value) / 2
    given = Amount("ring over all", across, "mm", Basis.GIVEN, path=(*spec.path, "diameter"))
    length = worked("ring", 2 * math.pi * radius, "mm", "pi × (ring over all - thickness)", given, frame.thickness)
    turns = [math.pi * step / 32 for step in range(65)]
    points = tuple((-radius * math.cos(turn), -radius * math.sin(turn)) for turn in turns)
    none = Amount("foot", 0.0, "mm", Basis.COUNTED, path=spec.path)
    piece = summed("piece", _parts(frame, length), spec.path)
    wraps = work_wraps(spec.wraps, frame.pattern, length, Core(frame.girth_mm))
    return WorkedHandle(spec, across, 0.0, length, none, piece, frame.feet_at, points, wraps, lash_mm=lashing_of(frame))


def _parts(frame: Frame, round_it: Amount) -> list[Amount]:
    """Once round and a lap; or so many rounds of one strand, each wound about those before it, and its two ends."""
    spec, settings = frame.spec, frame.pattern.settings
    if spec.rounds is None or spec.rounds == 1:
        lap = lap_of(frame)
        if spec.lap_mm is None and lap.value > round_it.value / LAP_OF_RING:
            formula = f"once round ÷ {LAP_OF_RING}"
            lap = worked("lap", round_it.value / LAP_OF_RING, "mm", formula, round_it, basis=Basis.ESTIMATED)
        return [round_it, lap, replace(settings["handle_trim"], name="trim")]
    thick = frame.thickness.value
    each = twisted_mm(round_it.value, spec.rounds, thick, TWIST_LAY * thick)
    rounds = Amount("rounds", spec.rounds, "count", Basis.GIVEN, path=(*spec.path, "rounds"))
    formula = f"rounds × once round along a helix, one turn in {TWIST_LAY} thicknesses"
    wound = worked(
        "wound round itself",
        spec.rounds * each,
        "mm",
        formula,
        rounds,
        round_it,
        frame.thickness,
        basis=Basis.ESTIMATED,
    )
    tail = settings["lashing_tail"]
    return [wound, worked("ends", 2 * tail.value, "mm", "2 × tail", tail)]
