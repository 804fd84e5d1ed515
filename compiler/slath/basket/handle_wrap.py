"""Wrapping round a handle as helices: how many strands cover it, at what angle they lie, and how long each is.

Unrolled, the handle is a strip of height C, the way round it along the centre lines of the strands, and a strand that
goes round once in each lay L is the slanting line with tan α = C / L from the run of the handle. Everything follows.
"""

from __future__ import annotations

import math

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import CannotConstruct, WorkedWrap
from slath.language.pattern import Material, SizedPattern, Wrap
from slath.messages.told import kept
from slath.messages.values import Length
from slath.units import Amount, Basis, worked

TWIST_LAY = 6  # thicknesses to one turn of a twist; handbooks of 1916 print 9 twists in 8 in and 21 in 16 in, estimated


class Core(Struct, frozen=True):
    """What is wound round. `ends_mm` is what doubled ends add to the girth there; `swings`: a bow that hangs in ears, whose
    strands are wound in groups.
    """

    girth_mm: float
    ends_mm: float = 0.0
    swings: bool = False


def work_wraps(wraps: tuple[Wrap, ...], pattern: SizedPattern, length: Amount, core: Core) -> tuple[WorkedWrap, ...]:
    """The wraps in order; one that covers makes the handle thicker for the next."""
    done: list[WorkedWrap] = []
    for wrap in wraps:
        strand = _strand(wrap, pattern)
        done.append(_work_wrap(wrap, strand, pattern, length, core))
        if wrap.cover == "full" and wrap.kind != "twist" and wrap.over_mm is None:
            core = replace(core, girth_mm=core.girth_mm + 2 * math.pi * strand.thickness_mm)
    return tuple(done)


def _work_wrap(wrap: Wrap, strand: Material, pattern: SizedPattern, whole_length: Amount, core: Core) -> WorkedWrap:
    length = _wound_length(wrap, whole_length)
    bare = core.girth_mm + (core.ends_mm if wrap.over_mm is not None else 0.0)
    girth = bare + math.pi * strand.thickness_mm
    grouped = wrap.kind == "rope" and wrap.cover == "full" and (core.swings or wrap.group > 1)
    lay = _lay_mm(wrap, strand, pattern, length.value, girth, grouped=grouped)
    angle = math.atan2(girth, lay)
    strands = _strands(wrap, strand, girth, angle)
    tail = pattern.settings["rope_tail" if grouped else "wrap_tail"]
    on_handle = worked(
        "round the handle", length.value / math.cos(angle), "mm", "length of the handle / cos of the strand's angle",
        length, basis=strand.stock.basis, path=wrap.path,
    )  # fmt: skip
    tails = worked("tails", 2 * tail.value, "mm", "2 × tail", tail)
    bare = max(lay / strands.value - strand.width_mm / math.sin(angle), 0.0)
    whole = worked("strand", on_handle.value + tails.value, "mm", "round the handle + tails", on_handle, tails)
    return WorkedWrap(wrap, strands, whole, length.value / lay, math.degrees(angle), girth, lay, bare)


def _wound_length(wrap: Wrap, length: Amount) -> Amount:
    """How much of the handle is wound over: all of it, or what lies between where it begins at either end, or a part."""
    if wrap.over_mm is not None:
        return Amount("length bound at each place", wrap.over_mm, "mm", Basis.GIVEN, path=(*wrap.path, "over"))
    if not wrap.from_mm:
        return length
    begins = Amount("where it begins", wrap.from_mm, "mm", Basis.GIVEN, path=(*wrap.path, "from"))
    left = length.value - 2 * wrap.from_mm
    if left <= 0:
        raise CannotConstruct(
            "wrap-beyond-handle", (*wrap.path, "from"), "handle",
            kept("refusals.what-is-wound-begins-from", begins=Length(wrap.from_mm), length=Length(length.value)),
            (kept("refusals.let-it-begin-nearer-to"),),
        )  # fmt: skip
    return worked(
        "length wound", left, "mm", "length of the handle - 2 × where it begins", length, begins, path=wrap.path
    )


def _lay_mm(
    wrap: Wrap, strand: Material, pattern: SizedPattern, length_mm: float, girth_mm: float, *, grouped: bool
) -> float:
    """Length of handle to one turn, as given, or by the width of what is wound and the gap between."""
    if wrap.lay_mm is not None:
        return wrap.lay_mm
    if wrap.turns:
        return length_mm / wrap.turns
    if wrap.kind == "twist":
        return TWIST_LAY * strand.width_mm
    if grouped:
        return pattern.settings.mm("rope_lay")
    gap = pattern.settings.mm("wrap_gap") if wrap.gap_mm is None else wrap.gap_mm
    if wrap.kind == "rope" and wrap.cover == "full":
        return gap  # strands go in until the handle is covered; the gap is what each leaves to itself on its way round
    return lay_edge_to_edge(len(wrap.strands), strand.width_mm, girth_mm, gap if wrap.cover == "spaced" else 0.0, wrap)


def lay_edge_to_edge(strands: int, width_mm: float, girth_mm: float, gap_mm: float, wrap: Wrap) -> float:
    """The lay at which `strands` of `width_mm` lie side by side with `gap_mm` of bare handle between, along the run.

    L = n (g + w / sin α) with sin α = C / √(C² + L²), solved for L. With no gap the wrapping takes exactly
    length × C / (n w), the length of the handle over the width of the wrap, times its girth.
    """
    filled = strands * width_mm / girth_mm
    if filled >= 1:
        raise CannotConstruct(
            "wrap-too-wide", wrap.path, "handle",
            kept("refusals.strands-wide-do-not-go", strands=strands, width_mm=Length(width_mm), girth_mm=Length(girth_mm)),
            (kept("refusals.wrap-with-fewer-strands-or"),),
        )  # fmt: skip
    bare = strands * gap_mm
    free = 1 - filled**2
    return (bare + math.sqrt(max(bare**2 - free * (bare**2 - (filled * girth_mm) ** 2), 0.0))) / free


def strands_to_cover(worked_wrap: WorkedWrap, strand_mm: float) -> int:
    """Rope strands `strand_mm` wide that cover the handle at this lay, to the nearest whole one: C cos α / d.

    A slant strand takes d / cos α of the way round. Half a strand too few or too many is spread over all of them.
    """
    return _covering(worked_wrap.girth_mm, math.radians(worked_wrap.angle_degrees), strand_mm)


def _covering(girth_mm: float, angle: float, strand_mm: float) -> int:
    return max(1, round(girth_mm * math.cos(angle) / strand_mm))


def _strands(wrap: Wrap, strand: Material, girth_mm: float, angle: float) -> Amount:
    """Strands to cover a rope wrap of one material; for every other wrap those that are listed."""
    if wrap.count is not None:
        return Amount("strands", wrap.count, "count", Basis.GIVEN, path=(*wrap.path, "count"))
    if wrap.kind == "rope" and wrap.cover == "full" and not wrap.listed:
        covering = _covering(girth_mm, angle, strand.width_mm)
        formula = "girth × cos of the strand's angle / strand width, to the nearest whole"
        if wrap.group > 1:
            covering = max(wrap.group, covering // wrap.group * wrap.group)
            formula = f"girth × cos of the strand's angle / strand width, in whole groups of {wrap.group}"
        return Amount("strands", covering, "count", strand.stock.basis, formula=formula, path=wrap.path)
    return Amount("strands", len(wrap.strands), "count", Basis.GIVEN, path=(*wrap.path, "strands"))


def _strand(wrap: Wrap, pattern: SizedPattern) -> Material:
    """The thickest of the materials wound."""
    return max((pattern.materials[key] for key in wrap.strands), key=lambda material: material.width_mm)
