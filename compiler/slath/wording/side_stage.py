"""The side: the upsett, then band after band, with what to count, how far to go and how to keep it right."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from slath.basket.courses import band_before, runs_on, runs_on_beyond
from slath.units import Basis
from slath.units.counting import counted, in_words, listed
from slath.wording.figure_names import COLOUR_PLAN, PROFILE, SIDE, stroke_names
from slath.wording.shape import bends, corners, leans, size_at, way_of
from slath.wording.speech import bracketed, many, sentence_case, verbatim
from slath.wording.stake_changes import change_step
from slath.wording.staking import bent_up, bye_stakes_step
from slath.wording.strand_ways import how_laid
from slath.wording.strokes import figured, in_brief, shifted, strokes_of, weave_name
from slath.wording.stuff import colour_words
from slath.wording.uprights import uprights_of
from slath.wording.willow import joining_rods, of_willow

if TYPE_CHECKING:
    from slath.basket.model import WovenBand
    from slath.units import Amount
    from slath.wording.stroke_words import Strokes
    from slath.wording.told import Clause, ToldStage, ToldStep
    from slath.wording.work import Work


def side_stages(work: Work) -> list[ToldStage]:
    """The upsett as a stage of its own, where the first band is one, and the rest of the side."""
    bands = work.basket.bands
    if not bands:
        return []
    first = 1 if is_upsett(bands[0]) else 0
    stages = []
    if first:
        lead = "These rounds hold the [stakes] where they will stay. Take your time over them; the rest follows."
        stages.append(work.stage("upsett", "The [upsett]", lead, _band_and_changes(work, bands[0])))
    rest = [step for band in bands[first:] for step in _band_and_changes(work, band)]
    rest += [change_step(work, place) for place, change in enumerate(work.basket.changes) if change[0] >= len(bands)]
    if rest:
        stages.append(work.stage("side", "The side", _how_high(work), rest))
    return stages


def is_upsett(band: WovenBand) -> bool:
    """Whether a band is told as the upsett: it is the lowest, and so named or a wale."""
    return band.index == 0 and (band.name.casefold() in {"upsett", "upset", "set-up"} or band.spec.weave.kind == "wale")


def _how_high(work: Work) -> str:
    finished, voice = work.quantities.finished, work.voice
    profile = work.basket.profile
    if profile is None:
        return ""
    along, standing = voice.length(profile.along_mm), voice.length(profile.height_mm)
    if along == standing:
        return f"The weaving is to be {standing} high."
    wide = voice.length(finished.rim_width.value)
    if finished.rim_length.value - finished.rim_width.value >= 1.0:
        wide = f"{voice.length(finished.rim_length.value)} long and {wide}"
    return f"The weaving is to stand {standing} high. Measured along the side that is {along}. At the top it is {wide} wide."


def _band_and_changes(work: Work, band: WovenBand) -> list[ToldStep]:
    """Changes of the stakes that come before a band, the band, and bye-stakes set in after it."""
    steps = [change_step(work, place) for place, change in enumerate(work.basket.changes) if change[0] == band.index]
    steps.append(_band(work, band))
    byes = [bye for bye in work.basket.pattern.bye_stakes if bye.after_band and bye.after_band == band.name]
    return [*steps, *(bye_stakes_step(work, bye) for bye in byes)]


def _band(work: Work, band: WovenBand) -> ToldStep:
    strokes = _strokes(work, band)
    goes_on, more = runs_on(work.basket, band), runs_on_beyond(work.basket, band)
    begin = _running_on(work, band) if goes_on else strokes.begin
    actions: list[Clause] = [
        _in_groups(band),
        *([] if goes_on else [how_laid(work, band)]),
        *begin,
        *strokes.go_on,
        shifted(work, band),
        *figured(work, band),
    ]
    actions += [*_step_up(work, band), *_first_rounds(work, band)]
    actions += [_pressed(work, band), *_how_far(work, band)]
    actions += ["Do not end the [strands] here."] if more else strokes.end
    actions += _measured(work, band)
    colours = _turned_colours(band, more=more) if band.spec.turn_of else _colours(work, band)
    notes: list[Clause] = [
        *strokes.remarks,
        *colours,
        _joining(work, band),
        _counting(work, band),
        *_if_height_differs(work, band),
    ]
    notes.append(bracketed(verbatim(band.spec.note)))
    keys = tuple(dict.fromkeys(key for rod in band.materials for key in rod))
    does = [
        "weave",
        "rap",
        "check",
        "measure",
        *(["colours"] if len(keys) > 1 else []),
        *(["weight"] if not band.index else []),
    ]
    return work.step(
        f"band {band.index + 1}",
        sentence_case(_title(work, band)),
        actions,
        notes=notes,
        stops=_stops(work, band),
        figures=_figures(work, band),
        does=tuple(does) if band.materials else ("check", "measure"),
        materials=keys,
        rounds=0 if band.spec.weave.one_by_one else len(band.rounds),
    )


def _running_on(work: Work, band: WovenBand) -> tuple[str, ...]:
    """The strands of the band before go on, on the stroke that is due, where its course changes or its shape alone."""
    before = band_before(work.basket, band)
    one = sum(len(rod) for rod in band.materials) == 1
    same = "Go on with the same [strand]." if one else "Go on with the same [strands], in the order they lie."
    if before is None or before.spec.weave == band.spec.weave:
        return (same,)
    stroke = listed(
        [uprights_of(band, work.basket).stroke(each.before, each.behind) for each in band.spec.weave.strokes], "then"
    )
    other = "It has" if one else "They have"
    return (f"{same} {other} another course from here on: {stroke}.",)


def _turned_colours(band: WovenBand, *, more: bool) -> list[str]:
    """What straight and turned rounds make together, said once, with the last of them."""
    if more or not band.spec.reversed:
        return []
    told = ["The straight strokes and the turned ones lean against each other, and make points like those of arrows."]
    if len({key for rod in band.materials for key in rod}) > 1:
        told.append(
            "Where the two meet each colour lies on its own; if it does not, the [strands] have changed places."
        )
    return told


def _figures(work: Work, band: WovenBand) -> tuple[str, ...]:
    """The first strokes, for colours their plan; the section before the first band, the side before the first above the upsett."""
    bands = work.basket.bands
    opens = bands[1] if len(bands) > 1 and is_upsett(bands[0]) else bands[0]
    return (
        *((PROFILE,) if band is bands[0] else ()),
        *((SIDE,) if band is opens else ()),
        *stroke_names(band, work.basket),
        *((COLOUR_PLAN,) if band.steps is not None and band.spec.weave.kind != "french rand" else ()),
    )


def _strokes(work: Work, band: WovenBand) -> Strokes:
    """How the band is worked, in brief where a lower band has told the same weave in full."""
    strokes = strokes_of(work, band)
    lower = _told_below(work, band)
    if lower is None:
        return strokes
    told_in = "the [upsett]" if is_upsett(lower) else f"“{sentence_case(_title(work, lower))}”"
    return in_brief(work, band, strokes, told_in)


def _told_below(work: Work, band: WovenBand) -> WovenBand | None:
    """The lowest band that has told the same movements in full."""
    below = work.basket.bands[: band.index] if band.materials else ()
    return next((lower for lower in below if _alike(lower, band)), None)


def _alike(lower: WovenBand, band: WovenBand) -> bool:
    """Whether two bands are worked with the same movements on the same uprights."""
    one, other = lower.spec.weave, band.spec.weave
    same_weave = (one.kind, one.strokes, one.rods, one.as_one) == (other.kind, other.strokes, other.rods, other.as_one)
    same_weave = same_weave and lower.spec.shift == band.spec.shift
    return same_weave and lower.group_sizes == band.group_sizes and lower.spec.reversed == band.spec.reversed


def _title(work: Work, band: WovenBand) -> str:
    name = weave_name(band.spec.weave)
    own = bracketed(verbatim(band.name.strip()))
    if (
        re.fullmatch(r"band \d+", band.name, re.IGNORECASE)
        or work.voice.text(own).casefold() in work.voice.text(name).casefold()
    ):
        return name
    if is_upsett(band) and band.name.casefold() in {"upsett", "upset"}:
        return name
    return f"{own}: {name}"


def _in_groups(band: WovenBand) -> str:
    sizes = set(band.group_sizes)
    if sizes <= {1}:
        return ""
    if len(sizes) == 1:
        return f"Take the [stakes] {in_words(sizes.pop())} together; each group is worked as one."
    return "Take the [stakes] together in their groups; each group is worked as one."


def _step_up(work: Work, band: WovenBand) -> list[str]:
    """Closing each round on itself, where the designer asks for it."""
    weave, voice = band.spec.weave, work.voice
    if not band.spec.step_up or not weave.twined:
        return []
    words = uprights_of(band, work.basket)
    strokes = words.stroke(weave.strokes[0].before, weave.strokes[0].behind)
    return [
        f"Stop when the [strand] furthest to the {voice.on} comes out just before the place where the first round began.",
        f"Now work the [step-up]: take the one furthest to the {voice.on} first, {strokes}.",
        f"Take the one to the {voice.back} of it next, and so on; the one furthest to the {voice.back} comes last.",
        "The [strands] stand where they began, one row higher. Step up so at the end of every round.",
    ]


def _first_rounds(work: Work, band: WovenBand) -> list[Clause]:
    """What the lowest band must see to: no gap at the base, spacing, lean."""
    if band.index:
        return []
    spacing = work.voice.length(work.quantities.base_spacing.value)
    words, profile = uprights_of(band, work.basket), work.basket.profile
    stand = "leaning as the side is to lean" if profile is not None and leans(profile) else "upright"
    return [
        "Press the first round down against the base, so that no light shows between.",
        f"Set each {words.one} as you pass it: {spacing} from the last, and {stand}.",
        corners(work),
        "Put a smooth stone or a weight inside, so that the work stands still while you turn it.",
    ]


def _how_far(work: Work, band: WovenBand) -> list[str]:
    """Whole rounds, and the height both along the side and standing."""
    rounds, voice = len(band.rounds), work.voice
    if not rounds:
        return []
    row = work.band_row(band)
    reached = f", {voice.length(row.along.value)} along the side" if band.index else ""
    if band.spec.weave.kind == "packing" and band.spec.cells:
        high = voice.length(row.along.value)
        return [f"Work {counted(rounds, 'row', 'rows')}: where all of them lie one on another they come to {high}."]
    if band.spec.weave.one_by_one:
        sets = counted(work.quantities.sets_of_rods(band.part, band.index), "set", "sets")
        return [f"Work {sets}{reached}.", "Knock each set down with the [rapping iron], between the [stakes]."]
    whole = counted(rounds, "whole round", "whole rounds")
    work_on = f"Work {whole}{reached}."
    extent = band.spec.extent
    if extent.used is not None:
        strands = "[strand]" if extent.used == 1 else "[strands]"
        work_on = f"Work on until {in_words(extent.used)} {strands} are used up, and end on a whole round: that is about {whole}{reached}."
    elif extent.leaves_mm is not None:
        left = voice.length(extent.leaves_mm)
        work_on = f"Work on until {left} of each [stake] stands above the weaving, and end on a whole round: that is about {whole}{reached}."
    return [
        work_on,
        "Knock the weaving down with the [rapping iron] after every few rounds, between the [stakes]."
        if rounds > 2
        else "",
    ]


def _measured(work: Work, band: WovenBand) -> list[str]:
    """What the side comes to when the band is ended, and what held the stakes until then is taken off."""
    if not band.rounds or (band.spec.weave.kind == "packing" and band.spec.cells):
        return []
    return [
        f"The side then measures {_so_far(work, band)}.",
        "Untie the string." if not band.index and bent_up(work) and not of_willow(work) else "",
    ]


def _pressed(work: Work, band: WovenBand) -> str:
    """Which way the hand presses the stakes as it weaves, where the side does not run straight from base to rim."""
    profile = work.basket.profile
    if profile is None or not band.index or not band.rounds or not bends(profile):
        return ""
    way = way_of(profile, band.from_mm, band.to_mm)
    if not way:
        return "Keep the [stakes] upright as you weave: the side grows no wider and no narrower here."
    tightly = "loosely" if way == "outwards" else "tightly"
    return f"Press the [stakes] {way} a little in every round, and weave a little more {tightly} than before."


def _so_far(work: Work, band: WovenBand) -> str:
    profile, voice = work.basket.profile, work.voice
    along = voice.length(band.to_mm)
    if profile is None:
        return along
    told = f"{along} from the base, measured along a [stake]"
    if band.index and leans(profile):  # the lowest band is too low for any rule to tell the two apart
        told = f"{told}, and stands {voice.length(profile.height_of(band.to_mm))}"
    return (
        f"{told}, where it is {voice.text(size_at(profile, profile.height_of(band.to_mm)))}" if bends(profile) else told
    )


def _colours(work: Work, band: WovenBand) -> list[str]:
    """What the colours do from round to round, in words beside the chart."""
    if band.steps is None:
        return []
    voice, words = work.voice, uprights_of(band, work.basket)
    if band.steps == 0:
        return [
            f"Each round puts every colour above itself, in upright stripes, because the {words.many} and the colours come out even.",
            "If the colours begin to lean, a stroke was missed or the order was changed.",
        ]
    side = voice.on if band.steps > 0 else voice.back
    step = words.count(abs(band.steps))
    return [
        f"After each round every colour stands {step} further to the {side} than in the round below.",
        f"If it does not, count the {words.many} and look to the order of the [strands].",
    ]


def _stops(work: Work, band: WovenBand) -> list[str]:
    """Stop and count before the band: uprights, and strands by colour."""
    words = uprights_of(band, work.basket)
    counts = [f"{band.uprights} {words.many}"]
    strands = [key for rod in band.materials for key in rod]
    if not strands:
        return [f"{counts[0]}."]
    if len(set(strands)) == 1:
        counts.append(many(len(strands), "strand"))
        return [f"{listed(counts)}."]
    materials = work.basket.pattern.materials
    colours = [_so_many(strands.count(key), colour_words(key, materials, strands)) for key in dict.fromkeys(strands)]
    return [f"{counts[0]} and {many(len(strands), 'strand')}: {listed(colours)}."]


def _so_many(count: int, colour: str) -> str:
    """``two rust <rust>``; where a number follows the count, ``16 of 3 ft brown willow <brown>``."""
    return (
        f"{in_words(count)} of {colour}"
        if any(letter.isdigit() for letter in colour[:6])
        else f"{in_words(count)} {colour}"
    )


def _joining(work: Work, band: WovenBand) -> Clause:
    if not band.materials or len(band.rounds) < 2 or band.index > 1:
        return ""
    if band.tapers:
        alone = band.spec.weave.kind == "french rand" or work.quantities.sets_of_rods(band.part, band.index) < 2
        return "" if alone else joining_rods()
    if band.spec.weave.twined:
        return (
            f"To join, push the new end in beside the old one, to the {work.voice.back} of it, and let the two lie together "
            f"for {work.setting('join_lap')}; go on with the new one."
        )
    return f"To join, lay the new end inside over the old one for {work.setting('join_lap')}, both against a [stake]."


def _counting(work: Work, band: WovenBand) -> str:
    """Where a round is full, told until the hand knows it."""
    twice = band.spec.weave.kind in {"french rand", "packing"} or band.spec.step_up
    if band.index > 1 or twice or len(band.rounds) < 3:
        return ""
    place = uprights_of(band, work.basket).at(band.start)
    return f"Rounds run on in a spiral. Count one each time you have come past {place} again, and tick it off."


def _if_height_differs(work: Work, band: WovenBand) -> list[str]:
    """What to do when the hand packs tighter or looser than the list supposes."""
    told = band.spec.extent.rounds is not None or band.spec.weave.one_by_one
    if len(band.rounds) < 3 or told or _told_below(work, band):
        return []
    row = work.band_row(band)
    pitch = work.voice.length(row.pitch.value)
    return [
        f"A round comes to about {pitch}{_if_estimated(row.pitch)}.",
        "If your rounds are thicker or thinner, keep to the height and let the number of rounds change; work whole rounds only.",
    ]


def _if_estimated(amount: Amount) -> str:
    """Said wherever an estimate decides what is printed."""
    return "; that is estimated, so measure your own after a few" if amount.basis is Basis.ESTIMATED else ""
