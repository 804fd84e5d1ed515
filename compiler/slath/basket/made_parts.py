"""Parts made by themselves and joined to the basket, or to one another."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from slath.basket.lid import rim_size
from slath.basket.model import Basket, ConstructedPart, Curve
from slath.language.pattern import Board, Edge, MadePart, SizedPattern

_SLATH_STICKS = 2  # sticks that lie over one another where a woven base is thickest


def part_alone(spec: MadePart, pattern: SizedPattern) -> SizedPattern:
    """A part as a pattern of its own, for it is constructed as a basket is."""
    return replace(
        pattern, base=spec.base, stakes=spec.stakes, bye_stakes=spec.bye_stakes, side=spec.side, border=spec.border,
        foot=spec.foot, handles=spec.handles, lid=None, fittings=(), parts=(),
    )  # fmt: skip


def meeting(spec: MadePart, made: Mapping[str, Basket]) -> ConstructedPart:
    """A part met by the edge it is joined to, from every basket `made` by its name; the basket itself goes by none."""
    own = made[spec.name]
    return ConstructedPart(spec, own, edge_of(own, spec.join.by), edge_of(made[spec.join.to], spec.join.on))


def edge_of(basket: Basket, edge: Edge) -> Curve:
    """The rim of a basket, which is the edge of one without a side, or the edge of its base."""
    return basket.rim if edge == "rim" else basket.base.edge


def joined_to(basket: Basket, part: ConstructedPart) -> Basket:
    """What a part is joined to: the basket, or an earlier part."""
    return next((other.basket for other in basket.parts if other.spec.name == part.spec.join.to), basket)


def base_thickness_mm(basket: Basket) -> float:
    """How thick a base is in its middle: a board, or sticks over sticks; nothing is known of one made otherwise."""
    spec = basket.base.spec
    if isinstance(spec, Board):
        return spec.thickness_mm
    materials = basket.pattern.materials
    return _SLATH_STICKS * max((materials[stick.material].thickness_mm for stick in basket.base.sticks), default=0.0)


def inside_of(basket: Basket) -> tuple[float, float]:
    """The opening of a basket inside its border, along its length and its width."""
    return rim_size(basket.rim.outline, basket.pattern).opening
