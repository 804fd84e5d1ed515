"""Test weaves come full circle: what woven sizes found replaces estimates in that size, and serves the other sizes.

A size that was woven learns from itself before anything else. The height of a round and the strand a weave takes are
measured on it as on a large test piece, so the other sizes use them for the same weave in the same stock. A gauge that
the pattern itself gives still holds over what another size taught; one in the workshop's file does not. What a border
took and what the basket weighed hang on spacing and size, so they stay with the size they were found on.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from msgspec.structs import replace

from slath.basket.construct import construct
from slath.basket.model import CannotConstruct
from slath.language.pattern import Gauge, Pattern, SizedPattern, WovenSize
from slath.messages import message
from slath.quantities.as_woven import as_woven
from slath.quantities.learned_heights import learned_heights
from slath.quantities.learned_lengths import learned_lengths
from slath.quantities.measuring import quantities_of
from slath.quantities.results import Doubt, Lesson, Quantities
from slath.quantities.stake_pieces import upright_of
from slath.units import Amount, Basis

_LEAST, _MOST = 0.5, 2.0  # shares of the predicted value beyond which a figure is taken for a slip; estimated


def taught(pattern: Pattern) -> tuple[Pattern, dict[str, Lesson]]:
    """The pattern with what its woven sizes teach among the gauges of each size, and the lessons by size."""
    lessons: dict[str, Lesson] = {}
    for sized in pattern.sizes:
        lesson = _learned(sized)
        if lesson is not None:
            lessons[sized.size] = lesson
    if not lessons:
        return pattern, lessons
    sizes = [sized.size for sized in pattern.sizes]
    shown = tuple(replace(sized, gauge=_gauges(sized, sizes, lessons)) for sized in pattern.sizes)
    return replace(pattern, sizes=shown), lessons


def _gauges(sized: SizedPattern, sizes: list[str], lessons: Mapping[str, Lesson]) -> tuple[Gauge, ...]:
    """Gauges in the order in which later ones hold: workshop, other sizes from afar to near, pattern, the size itself."""
    here = sizes.index(sized.size)
    others = [size for size in sizes if size in lessons and size != sized.size]
    far_to_near = sorted(others, key=lambda size: -abs(sizes.index(size) - here))
    own = lessons[sized.size].gauges if sized.size in lessons else ()
    return (
        *(entry for entry in sized.gauge if entry.path[:1] != ("gauge",)),
        *(entry for size in far_to_near for entry in lessons[size].gauges),
        *(entry for entry in sized.gauge if entry.path[:1] == ("gauge",)),
        *own,
    )


def _learned(sized: SizedPattern) -> Lesson | None:
    """What one size learned from its own test weave; None where nothing was measured, or nothing can be made of it."""
    woven = sized.woven
    if woven is None or not _measured(woven):
        return None
    try:
        before = quantities_of(construct(sized))
        counted = as_woven(sized)
        heights, doubtful = learned_heights(construct(counted), woven)
        counted = replace(counted, gauge=(*counted.gauge, *heights))
        basket = construct(counted)
        lengths, wasted = learned_lengths(basket, quantities_of(basket))
        counted = replace(counted, gauge=(*counted.gauge, *lengths))
        found = quantities_of(construct(counted))
    except CannotConstruct:
        return None
    border, short = _border(found, woven, sized.size)
    mass, odd = _mass(found, woven, sized.size)
    return Lesson(
        before=before,
        gauges=(*heights, *lengths),
        border=border,
        mass=mass,
        mass_as_woven=found.finished.mass_g if mass is not None else None,
        doubts=(*doubtful, *wasted, *short, *odd),
    )


def _measured(woven: WovenSize) -> bool:
    """Whether the entry says more than the day."""
    single = (
        woven.height_mm, woven.base_width_mm, woven.base_length_mm, woven.rim_width_mm, woven.rim_length_mm,
        woven.mass_g, woven.stake_cut_mm, woven.stake_left_mm,
    )  # fmt: skip
    several = (woven.rounds, woven.band_heights_mm, woven.used, woven.left_over)
    return any(value is not None for value in single) or any(several)


def _border(found: Quantities, woven: WovenSize, size: str) -> tuple[Amount | None, tuple[Doubt, ...]]:
    """What the border took of one end: the stake as cut, less its other parts and what was cut off in the end."""
    piece = upright_of(found.pieces)
    if piece is None or found.border is None or woven.stake_cut_mm is None or woven.stake_left_mm is None:
        return None, ()
    ends = 2 if any(part.name.endswith("(both ends)") for part in piece.parts) else 1
    others = [part for part in piece.parts if not part.name.startswith(("border", "hand hold"))]
    took = (woven.stake_cut_mm - math.fsum(part.value for part in others)) / ends - woven.stake_left_mm
    predicted = math.fsum(part.value for part in found.border.parts if part.name != "hand hold")
    path = (*woven.path, "stake_left")
    if not _LEAST * predicted <= took <= _MOST * predicted:
        return None, (Doubt(path, message("tested.stake-that-border-took"), took, predicted),)
    source = _source(woven, size)
    cut = Amount("stake as cut", woven.stake_cut_mm, "mm", Basis.MEASURED, source, path=(*woven.path, "stake_cut"))
    left = Amount("cut off in the end", woven.stake_left_mm, "mm", Basis.MEASURED, source, path=path)
    share = " ÷ 2" if ends == 2 else ""
    formula = f"(stake as cut - {' - '.join(part.name for part in others)}){share} - cut off in the end"
    return Amount("border as woven", took, "mm", Basis.MEASURED, source, formula, (cut, left), path), ()


def _mass(found: Quantities, woven: WovenSize, size: str) -> tuple[Amount | None, tuple[Doubt, ...]]:
    predicted = found.finished.mass_g
    if woven.mass_g is None or predicted is None:
        return None, ()
    path = (*woven.path, "mass")
    if not _LEAST * predicted.value <= woven.mass_g <= _MOST * predicted.value:
        return None, (Doubt(path, message("tested.weight-of-basket"), woven.mass_g, predicted.value, "g"),)
    return Amount("mass as weighed", woven.mass_g, "g", Basis.MEASURED, _source(woven, size), path=path), ()


def _source(woven: WovenSize, size: str) -> str:
    by = f" by {woven.by}" if woven.by else ""
    on = f" on {woven.on.isoformat()}" if woven.on else ""
    return f"measured on the {size} size{by}{on}"
