"""A lid: a basket of its own, and how it fits the rim that the basket is predicted to have."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.border_path import PathFault, legs_of
from slath.basket.handle_rings import lifting_ring
from slath.basket.model import Basket, ConstructedLid, Curve
from slath.basket.wall import half_wall_mm, stake_mm
from slath.language.pattern import Border, Lid, Outline, SizedPattern

# Where the stakes of a border lie, from the centre line of the upright stakes to the far side of the lying ones, in
# stake thicknesses: inside close against the uprights, outside over the ends that come out there. Estimated, from
# drawings of borders to scale.
_INSIDE, _OUTSIDE = 1.5, 1.8


class RimSize(Struct, frozen=True):
    """What a lid meets: the opening inside the border and the border over all, along the length and the width, mm."""

    opening: tuple[float, float]
    over_all: tuple[float, float]


def lid_alone(spec: Lid, pattern: SizedPattern) -> SizedPattern:
    """The lid as a pattern of its own, for it is constructed as a basket is."""
    return replace(
        pattern, base=spec.base, stakes=spec.stakes, side=spec.side, border=spec.border,
        bye_stakes=(), foot=None, handles=spec.handles, lid=None, fittings=(),
    )  # fmt: skip


def fit_lid(spec: Lid, made: Basket, rim: Curve, pattern: SizedPattern) -> ConstructedLid:
    """The lid `made` as a basket, on one whose weaving ends in `rim`. `rim_mm` is the length it is fitted to: opening or
    over all.

    `gap_mm` is the least room all round: inside the opening, or outside the border for a lid that goes over it; for a
    lid that rests on the rim, how far its edge lies past the edge of the opening. Less than nothing: it does not fit.
    """
    met = rim_size(rim.outline, pattern)
    lid = rim_size(made.rim.outline, made.pattern)  # the top of its side as woven, or the edge of its base
    if spec.fit == "inside":
        room, rim_mm = _room(met.opening, lid.over_all), met.opening[0]
    elif spec.fit == "over":
        room, rim_mm = _room(lid.opening if made.profile else lid.over_all, met.over_all), met.over_all[0]
    else:
        room, rim_mm = _room(lid.over_all, met.opening), met.over_all[0]
    return ConstructedLid(spec, made.base, made.bands, made.border, rim_mm, room, made, lifting_ring(spec, pattern))


def fits(lid: ConstructedLid) -> bool:
    """Whether the lid has the clearance asked for (a lid that rests: at least so much to rest on)."""
    return lid.gap_mm >= lid.spec.clearance_mm - 1e-6


def best_size(lid: ConstructedLid, outline: Outline) -> tuple[float, float]:
    """The length and width at the stakes that would give the lid exactly its clearance, from its `outline` as it is."""
    change = 2 * (lid.gap_mm - lid.spec.clearance_mm)
    sign = 1 if lid.spec.fit == "inside" else -1
    return outline.length_mm + sign * change, outline.width_mm + sign * change


def rim_size(outline: Outline, pattern: SizedPattern) -> RimSize:
    """The opening and the size over all of a rim, from the line on which its stakes stand and the border on it.

    A flat lid has no wall: its outline is its edge over all.
    """
    stake, wall = stake_mm(pattern), half_wall_mm(pattern)
    inside, outside = _faces(pattern.border)
    inner = max(wall, _INSIDE * stake if inside else 0.0)
    outer = max(wall, _OUTSIDE * stake if outside else 0.0)
    if pattern.side is None:
        inner, outer = inner + wall, outer - wall
    opening, over_all = -2 * inner, 2 * outer
    return RimSize(
        (outline.length_mm + opening, outline.width_mm + opening),
        (outline.length_mm + over_all, outline.width_mm + over_all),
    )


def _room(outer: tuple[float, float], inner: tuple[float, float]) -> float:
    return min(outer[0] - inner[0], outer[1] - inner[1]) / 2


def _faces(border: Border | None) -> tuple[bool, bool]:
    """Whether stakes of the border lie inside, and outside."""
    if border is None:
        return False, False
    try:
        faces = {visit.face for leg in legs_of(border) for visit in leg.visits}
    except PathFault:
        return False, False
    return "behind" in faces, "before" in faces
