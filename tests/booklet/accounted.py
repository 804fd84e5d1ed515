"""Lengths a booklet may print of one size: those of the list, and those of the construction named here one by one."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator

from msgspec import Struct

from slath.basket.model import Basket, WorkedEar
from slath.drawing.base.board_holes import board_hole
from slath.drawing.base.plan import slit_mm
from slath.drawing.wall.profile_ends import border_part, foot_parts, lid_part
from slath.pipeline import CompiledSize
from slath.quantities import quantities_of
from slath.units import Amount
from slath.units.names import INCH_MM
from slath.wording.shape import turning_places

_GRADED_MM = (
    6 * INCH_MM,
    12 * INCH_MM,
)  # willow is sorted by its thickness so far above the butt: common practice, no source


def accounted_mm(size: CompiledSize) -> list[float]:
    """Every length of the list with what went into it, of the settings and measures, and of the construction.

    A length to cut and a plain one of as many mm are both there, for they are rounded each in its own way.
    """
    listed = [*_amounts(size.quantities), *_amounts(size.sized.settings), *_amounts(size.sized.measures)]
    listed += [tried * row.pitch.value for row in size.quantities.bands for tried in (3, 5)]  # rounds to be measured
    listed += [row.butt_mm for row in size.quantities.purchase if row.butt_mm is not None]
    kept = {(type(mm), mm): mm for mm in (*listed, *_constructed(size.basket))}
    return list(kept.values())


def _constructed(basket: Basket) -> Iterator[float]:
    yield from _of_base(basket)
    yield from _of_side(basket)
    for handle in basket.handles:
        yield from (wrap.girth_mm for wrap in handle.wraps)
        if handle.ear is not None:
            yield from _of_ear(handle.ear)
    if any(basket.pattern.materials[stake.material].stock.tapered for stake in basket.stakes):
        yield from _GRADED_MM
    if basket.lid:
        yield basket.lid.gap_mm
        yield from _amounts(quantities_of(basket.lid.basket))
        yield from _constructed(basket.lid.basket)


def _of_ear(ear: WorkedEar) -> Iterator[float]:
    """What an ear is marked, notched and bored by."""
    low, high = ear.notch_mm
    yield from (ear.width.value, ear.rise.value, ear.foot_mm, high - low, ear.notch_deep_mm)
    yield from (ear.hole.value, ear.hole_up_mm, ear.hole_apart_mm)


def _of_base(basket: Basket) -> Iterator[float]:
    """The slath and its slits, the groups of sticks in its field, how far each band of the base reaches; holes."""
    slath, spec = basket.base.slath, basket.base.spec
    pierced = [stick for stick in basket.base.sticks if stick.pierced]
    if pierced:
        yield slit_mm(basket, pierced)
    if basket.base.holes:
        hole = board_hole(basket)
        yield from (hole.along_mm, hole.across_mm)
    if slath is not None:
        yield from (slath.length_mm, slath.width_mm)
        groups = getattr(spec, "groups", ())
        if len(groups) > 1:
            crosswise = [stick for stick in basket.base.sticks if stick.kind.startswith("crosswise")]
            middles = [
                sum(stick.start[0] for stick in crosswise if stick.group == group) / groups[place]
                for place, group in enumerate(dict.fromkeys(stick.group for stick in crosswise))
            ]
            yield from (after - before for before, after in itertools.pairwise(middles))
        yield from (slath.width_mm + 2 * band.to_mm for band in basket.base.bands)
    if basket.base.hole_spacing_mm:
        yield basket.base.hole_spacing_mm


def _of_side(basket: Basket) -> Iterator[float]:
    """Where each band ends, up the side and standing, and how large the side is there and where it turns."""
    profile = basket.profile
    if profile is None:
        return
    for height, width in turning_places(profile):
        yield from (height, width)
    for along in (0.0, *(band.to_mm for band in basket.bands)):
        outline = profile.curve_at(profile.height_of(along)).outline
        yield from (along, profile.height_of(along), outline.length_mm, outline.width_mm)
    for part in (border_part(basket), lid_part(basket), *foot_parts(basket)):
        if part is not None:
            yield from (part.low, part.high, part.high - part.low)


def _amounts(found: object) -> Iterator[float]:
    """Values in mm of all amounts in a record, and of what they were worked out from."""
    todo: list[object] = [found]
    seen: set[int] = set()
    while todo:
        item = todo.pop()
        if id(item) in seen:
            continue
        seen.add(id(item))
        if isinstance(item, Amount) and item.unit == "mm":
            yield item.value
        todo += _inside(item)


def _inside(item: object) -> Iterable[object]:
    if isinstance(item, Struct):
        return [getattr(item, name) for name in item.__struct_fields__]
    if isinstance(item, list | tuple):
        return item
    return list(item.values()) if hasattr(item, "values") else ()
