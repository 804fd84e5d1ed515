"""The weaving of a base: bound, opened in stages, and woven to its edge, band by band."""

from __future__ import annotations

from slath.basket.model import ConstructedBase, WovenBand
from slath.language.pattern import Frame, OvalSlath, RoundSlath
from slath.messages import Length, Listed, Numbers, message
from slath.wording.figure_names import base_band_names, stroke_names
from slath.wording.speech import own_words
from slath.wording.strand_ways import how_laid
from slath.wording.stroke_words import Strokes
from slath.wording.strokes import figured, shifted, strokes_of, weave_name
from slath.wording.told import Clause, ToldStep
from slath.wording.uprights import uprights_of
from slath.wording.willow import joining_rods
from slath.wording.work import Work


def band_steps(work: Work, base: ConstructedBase, marked: Clause) -> list[ToldStep]:
    """One step for each band woven on `base`, which may be a lid's; `marked` says where the first of them begins."""
    opened = base.slath.group_sizes if base.slath else ()
    steps: list[ToldStep] = []
    for place, band in enumerate(base.bands):
        steps.append(_band(work, base, band, opened, place, marked))
        opened = band.group_sizes
    return steps


def _band(
    work: Work, base: ConstructedBase, band: WovenBand, opened: tuple[int, ...], place: int, marked: Clause
) -> ToldStep:
    last = place == len(base.bands) - 1
    laid = place == 0 and _as_laid(base, band)
    parting = _parting(opened, band.group_sizes) if opened != band.group_sizes and not laid else None
    told = work.weaving(band)
    same = place > 0 and bool(told.worked) and not told.laid
    ends_here = bool(told.ended) or not told.worked
    in_rows = isinstance(base.spec, Frame)
    strokes = _in_rows(work, base, band) if in_rows else strokes_of(work, band)
    actions: list[Clause] = [] if place or in_rows else [message("base-weaving.work-to-the-which-is"), marked]
    joined = _two_as_one(base, band, base.bands[place - 1] if place else None)
    first = not place and not in_rows and not parting
    actions += [_together(band) if laid or first else _ALONE if parting and joined else parting, joined]
    if same:
        actions.append(_going_on(work, base.bands[place - 1], band))
    else:
        actions += [how_laid(work, band), *strokes.begin, *strokes.go_on]
    actions += [
        shifted(work, band),
        *figured(work, band),
        _crown(work, base, band),
        _how_far(work, base, band, last=last),
    ]
    if ends_here:
        actions += strokes.end
    if last:
        actions += [
            message("base-weaving.turn-the-base-over-and"),
        ]
    first_parted = parting and all(
        lower.group_sizes == (base.slath.group_sizes if base.slath else ()) for lower in base.bands[:place]
    )
    notes: list[Clause] = [
        *(() if same else strokes.remarks),
        _SPREADING if first_parted else None,
        "" if place else _joining(work, band),
        message("side.own", words=own_words(band.spec.note)) if band.spec.note else None,
    ]
    return work.step(
        f"base {band.index + 1}",
        _title(base, band, place, last=last, parted=bool(parting)),
        actions,
        notes=notes,
        stops=[_count(work, band)],
        figures=(base_band_names(base)[place], *(() if same else stroke_names(band, work.basket))),
        does=_operations(work, base, place, last=last),
        materials=tuple(dict.fromkeys(key for rod in band.materials for key in rod)),
        rounds=len(band.rounds),
    )


def _going_on(work: Work, before: WovenBand, band: WovenBand) -> Clause:
    """The same strands in the next band: on other groups of sticks, or laid the other way about from here on."""
    strands = sum(len(rod) for rod in band.materials)
    told = message("base-weaving.go-on-with-the-same", strands=strands, stroke=_stroke(work, band))
    if band.spec.reversed == before.spec.reversed or not band.spec.weave.twined:
        return told
    others = len(band.materials) - 1
    return message("base-weaving.from-here-on-carry-each", told=told, others=others, reversed=band.spec.reversed)


def _in_rows(work: Work, base: ConstructedBase, band: WovenBand) -> Strokes:
    """A frame is woven to and fro across its long sticks, from one end to the other."""
    words = uprights_of(band, work.basket)
    lines = {stick.group for stick in base.sticks if stick.kind.startswith("crosswise")}
    rows = round(len(band.rounds) / (len(lines) - 1)) if len(lines) > 1 and len(base.bands) == 1 else 0
    begin = (
        message("base-weaving.take-and-lay-the-end", strands=sum(len(rod) for rod in band.materials)),
        message("base-weaving.weave-across-to-the-other", stroke=_stroke(work, band)),
    )
    go_on = (
        message("base-weaving.at-the-end-of-each"),
        message("base-weaving.press-each-row-close-against"),
        message("base-weaving.there-are-about-rows-between", rows=rows) if rows else None,
    )
    remarks = (
        message("base-weaving.pull-the-turns-only-so"),
        message("base-weaving.if-two-rows-lie-alike", one=words.one),
    )
    return Strokes(begin, go_on, remarks, (message("base-weaving.end-under-a", one=words.one),))


def _as_laid(base: ConstructedBase, band: WovenBand) -> bool:
    """Whether a band goes round the very groups in which the sticks were laid together."""
    laid = base.spec.laid if isinstance(base.spec, RoundSlath) else 1
    return laid > 1 and max(band.group_sizes) == laid


def _together(band: WovenBand) -> Clause:
    """Which ends are worked as one from the first stroke on: all groups alike, or each as it comes; None if all stand alone."""
    sizes = set(band.group_sizes)
    if sizes == {1}:
        return None
    if len(sizes) > 1:
        return message("base-weaving.take-in-turn", sizes=Listed(band.group_sizes))
    return message("base-weaving.take-each-group-of-as", group_sizes=max(band.group_sizes))


def _two_as_one(base: ConstructedBase, band: WovenBand, before: WovenBand | None) -> Clause:
    """Neighbouring ends that are worked as one all the way, where the others come to stand alone."""
    as_one = base.spec.as_one if isinstance(base.spec, RoundSlath | OvalSlath) else ()
    if not as_one or 1 not in band.group_sizes or (before is not None and 1 in before.group_sizes):
        return None
    ends = Listed(tuple(Numbers((number, number + 1)) for number in as_one))
    return message("base-weaving.stick-ends-counted-from-the", places=len(as_one), ends=ends, uprights=band.uprights)


def _title(base: ConstructedBase, band: WovenBand, place: int, *, last: bool, parted: bool) -> Clause:
    name = weave_name(band.spec.weave)
    if not place and base.slath and set(band.group_sizes) != {1}:
        return message("base-weaving.bind-the-slath", name=name)
    if parted:
        return message("base-weaving.open-the-sticks", twos=set(band.group_sizes) == {2}, name=name)
    return message("base-weaving.to-the-edge", name=name, last=last)


def _crown(work: Work, base: ConstructedBase, band: WovenBand) -> Clause:
    """How the middle is raised while the base is woven out; its hollow faces the maker, who sees the underside."""
    spec = base.spec
    if not isinstance(spec, RoundSlath | OvalSlath) or not spec.crown_mm or base is not work.basket.base:
        return ""
    if band is not base.bands[-1]:
        return ""
    crown = Length(spec.crown_mm)
    if work.of_lid:
        return message("base-weaving.crown-of-lid", crown=crown)
    return message("base-weaving.crown", crown=crown)


def _operations(work: Work, base: ConstructedBase, place: int, *, last: bool) -> tuple[str, ...]:
    spec = base.spec
    crowned = isinstance(spec, RoundSlath | OvalSlath) and spec.crown_mm > 0 and base is work.basket.base
    does = ["weave"]
    if not work.of_lid:  # a lid stands on nothing
        does.append("weave crowned base" if crowned else "weave flat base")
    if not place:
        does.append("bind")
    if last:
        does.append("trim")
    return tuple(does)


def _parting(before: tuple[int, ...], after: tuple[int, ...]) -> Clause:
    """How the groups come apart: each old group into which new ones."""
    if not before or not after:
        return None
    if set(after) == {1}:
        return _ALONE
    ways = _ways(before, after)
    if not ways:
        return message("base-weaving.part-the-sticks-into-their")
    told = [message("base-weaving.each-group-of-into", size=size, parts=Listed(parts)) for size, parts in ways.items()]
    return message("base-weaving.part-as-you-come-to", told=Listed(tuple(told)))


def _ways(before: tuple[int, ...], after: tuple[int, ...]) -> dict[int, tuple[int, ...]]:
    """Old group size → the sizes it is parted into; empty where the new groups do not fit inside the old."""
    ways: dict[int, tuple[int, ...]] = {}
    left = list(after)
    for size in before:
        parts: list[int] = []
        while left and sum(parts) < size:
            parts.append(left.pop(0))
        if sum(parts) != size or (len(parts) > 1 and ways.get(size, tuple(parts)) != tuple(parts)):
            return {}
        if len(parts) > 1:
            ways[size] = tuple(parts)
    return ways


_ALONE = message("base-weaving.part-the-sticks-as-you")
_SPREADING = message("base-weaving.bend-the-sticks-apart-a")


def _stroke(work: Work, band: WovenBand) -> Clause:
    words = uprights_of(band, work.basket)
    return message("base-weaving.strokes", strokes=words.path(band.spec.weave.strokes))


def _how_far(work: Work, base: ConstructedBase, band: WovenBand, *, last: bool) -> Clause:
    """Whole rounds, and what the base then measures."""
    rounds, rows = len(band.rounds), isinstance(base.spec, Frame)
    if last and base is work.basket.base:
        finished = work.quantities.finished
        wide, long = Length(finished.base_width.value), _long_way(work)
        return message("base-weaving.weave-to-the-edge-the", rounds=rounds, rows=rows, wide=wide, long=long)
    used = band.spec.extent.used
    if used is not None:
        return message("base-weaving.weave-on-until-used", used=used, rounds=rounds, rows=rows)
    along = Length(work.band_row(band).along.value)
    return message("base-weaving.weave-which-come-to-of", rounds=rounds, rows=rows, along=along)


def _long_way(work: Work) -> Length | None:
    finished = work.quantities.finished
    if abs(finished.base_length.value - finished.base_width.value) < 0.5:
        return None
    return Length(finished.base_length.value)


def _joining(work: Work, band: WovenBand) -> Clause:
    if band.tapers:
        return joining_rods()
    return message("base-weaving.to-join-lay-the-new", lap=work.length_setting("join_lap"))


def _count(work: Work, band: WovenBand) -> Clause:
    words = uprights_of(band, work.basket)
    strands = sum(len(rod) for rod in band.materials)
    counted = words.many if isinstance(work.basket.base.spec, Frame) else words.many_counted
    return message("base-weaving.uprights-and-strands", uprights=band.uprights, many_counted=counted, strands=strands)
