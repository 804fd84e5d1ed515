"""The weaving of a base: bound, opened in stages, and woven to its edge, band by band."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.basket.courses import runs_on
from slath.language.pattern import Frame, OvalSlath, RoundSlath
from slath.units.counting import counted, in_words, listed
from slath.wording.figure_names import base_band_names, stroke_names
from slath.wording.speech import many, sentence_case
from slath.wording.strand_ways import how_laid
from slath.wording.stroke_words import Strokes
from slath.wording.strokes import figured, shifted, strokes_of, weave_name
from slath.wording.uprights import uprights_of

if TYPE_CHECKING:
    from slath.basket.model import ConstructedBase, WovenBand
    from slath.wording.told import ToldStep
    from slath.wording.work import Work


def band_steps(work: Work, base: ConstructedBase) -> list[ToldStep]:
    """One step for each band woven on `base`, which may be a lid's."""
    opened = base.slath.group_sizes if base.slath else ()
    steps: list[ToldStep] = []
    for place, band in enumerate(base.bands):
        steps.append(_band(work, base, band, opened, place))
        opened = band.group_sizes
    return steps


def _band(work: Work, base: ConstructedBase, band: WovenBand, opened: tuple[int, ...], place: int) -> ToldStep:
    last = place == len(base.bands) - 1
    laid = place == 0 and _as_laid(base, band)
    parting = _parting(opened, band.group_sizes) if opened != band.group_sizes and not laid else ""
    same = place > 0 and _goes_on(base.bands[place - 1], band)
    ends_here = not _goes_on(band, base.bands[place + 1]) if not last else not _goes_up(work, base)
    in_rows = isinstance(base.spec, Frame)
    strokes = _in_rows(work, base, band) if in_rows else strokes_of(work, band)
    actions = (
        []
        if place or in_rows
        else [f"Work to the {work.voice.on}, which is {work.voice.way_round} as you look at the face towards you."]
    )
    joined = _two_as_one(base, band, base.bands[place - 1] if place else None)
    actions += [_each_as_one(band) if laid else _ALONE if parting and joined else parting, joined]
    if same:
        actions.append(_going_on(work, base.bands[place - 1], band))
    else:
        actions += [how_laid(work, band), *strokes.begin, *strokes.go_on]
    actions += [shifted(work, band), *figured(work, band), _how_far(work, base, band, last=last)]
    if ends_here:
        actions += strokes.end
    if last:
        actions += [
            "Turn the base over and cut the ends of the weaving close, each where it rests on a [stick].",
        ]
    first_parted = parting and all(
        lower.group_sizes == (base.slath.group_sizes if base.slath else ()) for lower in base.bands[:place]
    )
    notes = [*(() if same else strokes.remarks), _SPREADING if first_parted else "", "" if place else _joining(work)]
    return work.step(
        f"base {band.index + 1}",
        _title(base, band, place, last=last, parted=bool(parting)),
        actions,
        notes=notes,
        stops=[_count(work, band)],
        figures=(base_band_names(base)[place], *(() if same else stroke_names(band, work.basket))),
        does=_operations(base, place, last=last),
        materials=tuple(dict.fromkeys(key for rod in band.materials for key in rod)),
        rounds=len(band.rounds),
    )


def _going_on(work: Work, before: WovenBand, band: WovenBand) -> str:
    """The same strands in the next band: on other groups of sticks, or laid the other way about from here on."""
    strands = "[strand]" if sum(len(rod) for rod in band.materials) == 1 else "[strands]"
    told = f"Go on with the same {strands}: the stroke is now {_stroke(work, band)}."
    if band.spec.reversed == before.spec.reversed or not band.spec.weave.twined:
        return told
    lying = "under" if band.spec.reversed else "over"
    others = "the other" if len(band.materials) == 2 else "the others"
    return (
        f"{told} From here on carry each {lying} {others}, where it went {'over' if band.spec.reversed else 'under'}."
    )


def _in_rows(work: Work, base: ConstructedBase, band: WovenBand) -> Strokes:
    """A frame is woven to and fro across its long sticks, from one end to the other."""
    words = uprights_of(band, work.basket)
    lines = {stick.group for stick in base.sticks if stick.kind.startswith("crosswise")}
    rows = round(len(band.rounds) / (len(lines) - 1)) if len(lines) > 1 and len(base.bands) == 1 else 0
    begin = (
        f"Take {many(sum(len(rod) for rod in band.materials), 'strand')}, and lay the end under the outer [stick] at one side, at the first mark.",
        f"Weave across to the other side: {_stroke(work, band)}.",
    )
    go_on = (
        "At the end of each row turn round the outer [stick] and weave back, over where the row before went under.",
        "Press each row close against the one before.",
        f"There are about {rows} rows between one crosswise [stick] and the next." if rows else "",
    )
    remarks = (
        "Pull the turns only so tight that the outer [sticks] stay straight: a base drawn in at the waist cannot be squared.",
        f"If two rows lie alike on one {words.one}, a {words.one} was missed. Take the work back to it.",
    )
    return Strokes(begin, go_on, remarks, (f"End under a {words.one}.",))


def _as_laid(base: ConstructedBase, band: WovenBand) -> bool:
    """Whether a band goes round the very groups in which the sticks were laid together."""
    laid = base.spec.laid if isinstance(base.spec, RoundSlath) else 1
    return laid > 1 and max(band.group_sizes) == laid


def _each_as_one(band: WovenBand) -> str:
    return f"Take each group of {in_words(max(band.group_sizes))} as one, as it lies in the cross."


def _two_as_one(base: ConstructedBase, band: WovenBand, before: WovenBand | None) -> str:
    """Neighbouring ends that are worked as one all the way, where the others come to stand alone."""
    as_one = base.spec.as_one if isinstance(base.spec, RoundSlath | OvalSlath) else ()
    if not as_one or 1 not in band.group_sizes or (before is not None and 1 in before.group_sizes):
        return ""
    ends = listed([f"{number} and {number + 1}" for number in as_one])
    places = "At one place" if len(as_one) == 1 else f"At {in_words(len(as_one))} places"
    return (
        f"{places} ([stick ends] {ends}, counted from the mark) keep the two neighbouring [sticks] together and work them as "
        f"one all the way: that makes {band.uprights} places to weave."
    )


def _goes_on(band: WovenBand, following: WovenBand) -> bool:
    """Whether the strands of a band go on in the next one: worked in the same way, or as the designer says."""
    if following.spec.goes_on is not None:
        return following.spec.goes_on
    return band.spec.weave == following.spec.weave and band.materials == following.materials


def _goes_up(work: Work, base: ConstructedBase) -> bool:
    """Whether the strands of the last band of the basket's base run on up its side."""
    return base is work.basket.base and bool(work.basket.bands) and runs_on(work.basket, work.basket.bands[0])


def _title(base: ConstructedBase, band: WovenBand, place: int, *, last: bool, parted: bool) -> str:
    name = weave_name(band.spec.weave)
    if not place and base.slath and set(band.group_sizes) != {1}:
        return f"Bind the [slath]: {name}"
    if parted:
        return f"Open the [sticks]{' in twos' if set(band.group_sizes) == {2} else ''}: {name}"
    return sentence_case(f"{name} to the edge" if last else name)


def _operations(base: ConstructedBase, place: int, *, last: bool) -> tuple[str, ...]:
    spec = base.spec
    crowned = isinstance(spec, RoundSlath | OvalSlath) and spec.crown_mm > 0
    does = ["weave", "weave crowned base" if crowned else "weave flat base"]
    if not place:
        does.append("bind")
    if last:
        does.append("trim")
    return tuple(does)


def _parting(before: tuple[int, ...], after: tuple[int, ...]) -> str:
    """How the groups come apart: each old group into which new ones."""
    if not before or not after:
        return ""
    if set(after) == {1}:
        return _ALONE
    ways = _ways(before, after)
    if not ways:
        return "Part the [sticks] into their groups as you come to them."
    told = [
        f"each group of {in_words(size)} into {listed([in_words(part) for part in parts])}"
        for size, parts in ways.items()
    ]
    return f"Part {listed(told)}, as you come to them."


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


_ALONE = "Part the [sticks] as you come to them, so that each stands alone."
_SPREADING = (
    "Bend the [sticks] apart a little at each stroke, never all at once. By the second round they should stand evenly "
    "round the work."
)


def _stroke(work: Work, band: WovenBand) -> str:
    words = uprights_of(band, work.basket)
    return listed([words.stroke(stroke.before, stroke.behind) for stroke in band.spec.weave.strokes], "then")


def _how_far(work: Work, base: ConstructedBase, band: WovenBand, *, last: bool) -> str:
    """Whole rounds, and what the base then measures."""
    row, voice = work.band_row(band), work.voice
    rounds = (
        counted(len(band.rounds), "row", "rows")
        if isinstance(base.spec, Frame)
        else counted(len(band.rounds), "round", "rounds")
    )
    if last and base is work.basket.base:
        finished = work.quantities.finished
        wide = voice.length(finished.base_width.value)
        return f"Weave {rounds}, to the edge: the base is then {wide} across{_long_way(work)}."
    used = band.spec.extent.used
    if used is not None:
        return f"Weave on until {many(used, 'strand')} are used up, and end on a whole round: about {rounds}."
    return f"Weave {rounds}, which come to {voice.length(row.along.value)} of weaving, measured outwards."


def _long_way(work: Work) -> str:
    finished = work.quantities.finished
    if abs(finished.base_length.value - finished.base_width.value) < 0.5:
        return ""
    return f" and {work.voice.length(finished.base_length.value)} long"


def _joining(work: Work) -> str:
    return (
        f"To join, lay the new [strand] beside the old one over {work.setting('join_lap')}, with both ends resting against a "
        "[stick]. Do not join twice at one place."
    )


def _count(work: Work, band: WovenBand) -> str:
    words = uprights_of(band, work.basket)
    strands = many(sum(len(rod) for rod in band.materials), "strand")
    return f"{band.uprights} {words.many_counted} and {strands}."
