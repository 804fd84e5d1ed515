"""The wall: how thick it is, and the one line every outline means inside, that on which the stakes stand.

A designer may give the outlines of the side as they are measured at the stakes, outside or inside (`measured`).
"""

from __future__ import annotations

from msgspec.structs import replace

from slath.basket.outline import grown
from slath.language.pattern import Band, Frame, Outline, OvalSlath, RoundSlath, Side, SizedPattern


def stake_mm(pattern: SizedPattern) -> float:
    """Thickness of the stakes through the wall: those set in, or the sticks that turn up."""
    if pattern.stakes:
        return pattern.materials[pattern.stakes.material].thickness_mm
    base = pattern.base
    if isinstance(base, RoundSlath | Frame):
        return pattern.materials[base.material].thickness_mm
    return pattern.materials[base.crosswise_material].thickness_mm if isinstance(base, OvalSlath) else 0.0


def top_weaver_mm(pattern: SizedPattern) -> float:
    """The thickness of the weaving at the edge: the last band of the side, or of the base where there is no side."""
    base = pattern.base
    on_base = base.weaving if isinstance(base, RoundSlath | OvalSlath | Frame) else ()
    bands = pattern.side.bands if pattern.side else on_base
    woven = [band for band in bands if isinstance(band, Band) and band.strands]
    return max((pattern.materials[key].thickness_mm for key in woven[-1].strands), default=0.0) if woven else 0.0


def half_wall_mm(pattern: SizedPattern) -> float:
    """From the line on which the stakes stand to either face of the weaving."""
    return stake_mm(pattern) / 2 + top_weaver_mm(pattern)


def at_the_stakes(pattern: SizedPattern) -> SizedPattern:
    """The pattern with every outline of its side that was measured outside or inside brought to the line of the stakes."""
    side = pattern.side
    if side is None or side.at_stakes or pattern.measured == "at the stakes":
        return pattern
    by_mm = half_wall_mm(pattern) * (-1 if pattern.measured == "outside" else 1)
    return replace(pattern, side=_moved(side, by_mm))


def as_measured(outline: Outline, pattern: SizedPattern) -> Outline:
    """An outline of the line of the stakes as the designer measures outlines."""
    by_mm = half_wall_mm(pattern)
    return {
        "at the stakes": outline,
        "outside": grown(outline, by_mm),
        "inside": grown(outline, -by_mm),
    }[pattern.measured]


def _moved(side: Side, by_mm: float) -> Side:
    def moved(outline: Outline | None) -> Outline | None:
        return None if outline is None else grown(outline, by_mm)

    return replace(
        side,
        at_stakes=True,
        rim=moved(side.rim),
        points=tuple(replace(point, outline=grown(point.outline, by_mm)) for point in side.points),
        bands=tuple(replace(b, ends_at=moved(b.ends_at)) if isinstance(b, Band) else b for b in side.bands),
    )
