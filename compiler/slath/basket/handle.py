"""A handle worked by geometry: its curve above the rim, its feet, the length of each piece and what is wound round it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import assert_never

from msgspec.structs import replace

from slath.basket.handle_bows import bow
from slath.basket.handle_curve import girth_mm
from slath.basket.handle_ears import ears, swinging
from slath.basket.handle_feet import feet_of
from slath.basket.handle_frame import Frame, hung_by, summed
from slath.basket.handle_rings import ring
from slath.basket.model import Curve, HandlePiece, Profile, Stake, WorkedHandle
from slath.language.handle_kinds import HANDLE_KINDS
from slath.language.pattern import Handle, SizedPattern
from slath.units import Amount, Basis, worked

_ROUND = 96  # places of the rim looked at


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
    pieces = max(spec.pieces, HANDLE_KINDS[spec.kind].fewest_pieces)
    spec = replace(spec, pieces=pieces, lash=hung_by(spec, pattern))
    material = pattern.materials[spec.material]
    stock = material.stock
    thickness = Amount("handle thickness", material.thickness_mm, "mm", stock.basis, stock.source, path=material.path)
    abreast = pieces if spec.kind != "two-piece" else 1
    feet_at = feet_of(spec, stakes, rim.perimeter)
    span = _span(spec, rim, stakes, feet_at)
    standing = sum(stake.kind != "bye-stake" for stake in stakes)
    girth = girth_mm(abreast, thickness.value)
    frame = Frame(spec, pattern, thickness, girth, span, rim.perimeter / standing, rim_height_mm, feet_at)
    if spec.family == "swinging":
        frame = replace(frame, beyond_mm=_beyond(rim, stakes, feet_at))
    if spec.through_base and sides is not None:
        frame = replace(frame, below=_below(spec, stakes, feet_at, *sides))
    worked_handle = _of_family(frame)
    if spec.liner is None:
        return worked_handle
    return replace(worked_handle, before=(_liner(frame), *worked_handle.before))


def _of_family(frame: Frame) -> WorkedHandle:
    match frame.spec.family:
        case "bow" | "side" | "drop":
            return bow(frame)
        case "ring":
            return ring(frame)
        case "ears":
            return ears(frame)
        case "swinging":
            return swinging(frame)
        case unknown:
            assert_never(unknown)


def _liner(frame: Frame) -> HandlePiece:
    """One for every foot, from the base up and a hand's hold over the rim."""
    spec, liner = frame.spec, frame.spec.liner
    assert liner is not None  # noqa: S101 - asked only of a handle that has one
    up = Amount("up the side", frame.rim_height_mm, "mm", Basis.COUNTED, path=liner.path)
    hold = replace(frame.pattern.settings["liner_hold"], name="hold")
    length = summed("liner", [up, hold], liner.path)
    feet = Amount("feet", len(frame.feet_at), "count", Basis.COUNTED, path=spec.path)
    count = worked("liners", feet.value, "count", "one for each foot", feet, path=liner.path)
    return HandlePiece(("liner", "liners"), liner.material, count, length, liner.path, liner.length_mm)


def _below(
    spec: Handle, stakes: Sequence[Stake], feet_at: tuple[int, ...], edge: Curve, profile: Profile | None
) -> tuple[Amount, Amount]:
    """Down the side at either foot, and from foot to foot under the base."""
    place = {stake.number: stake.u for stake in stakes}
    feet = [place[number] for number in feet_at[:2]]
    path = (*spec.path, "through_base")
    down = math.fsum(profile.slope_mm(u, profile.height_mm) for u in feet) if profile else 0.0
    under = math.dist(edge.point(feet[0]), edge.point(feet[-1])) if feet else 0.0
    return (
        Amount("down both sides", down, "mm", Basis.COUNTED, formula="the side's own curve at either foot", path=path),
        Amount("under the base", under, "mm", Basis.COUNTED, formula="from foot to foot at the base edge", path=path),
    )


def _beyond(rim: Curve, stakes: Sequence[Stake], feet_at: tuple[int, ...]) -> float:
    """How far the rim lies from the line between two feet at most: what a bow laid down must reach over to hang outside."""
    place = {stake.number: stake.u for stake in stakes}
    (ax, ay), (bx, by) = (rim.point(place[number]) for number in feet_at[:2])
    long = math.hypot(bx - ax, by - ay)
    points = [rim.point(step / _ROUND) for step in range(_ROUND)]
    return max(abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) for x, y in points) / long if long else 0.0


def _span(spec: Handle, rim: Curve, stakes: Sequence[Stake], feet_at: tuple[int, ...]) -> float:
    """Between the feet as asked for, or as the stakes stand on the rim."""
    if spec.span_mm is not None:
        return spec.span_mm
    if len(feet_at) < 2:
        return 0.0
    place = {stake.number: stake.u for stake in stakes}
    return math.dist(rim.point(place[feet_at[0]]), rim.point(place[feet_at[1]]))
