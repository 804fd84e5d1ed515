"""The side: the upsett, then band after band, with what to count, how far to go and how to keep it right."""

from __future__ import annotations

from msgspec.structs import replace

from slath.basket.model import WovenBand
from slath.language.pattern import Material
from slath.messages import Length, Listed, Message, message
from slath.messages.language import IN_ENGLISH
from slath.plan.acts import Untie
from slath.wording.figure_names import COLOUR_PLAN, PROFILE, SIDE, stroke_names
from slath.wording.shape import bends, corners, leans, size_at, way_of
from slath.wording.speech import own_words
from slath.wording.stake_changes import change_step
from slath.wording.staking import bye_stakes_step
from slath.wording.strand_ways import how_laid
from slath.wording.stroke_words import Strokes
from slath.wording.strokes import figured, in_brief, shifted, strokes_of, weave_name
from slath.wording.strokes_twined import stepped
from slath.wording.stuff import colour_said
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.uprights import uprights_of
from slath.wording.willow import joining_rods
from slath.wording.work import Work

_UPRIGHT_MM = 0.5  # along the side and standing differ by less where it does not lean
_TOLD_APART_MM = 6.35  # a quarter inch, as finished sizes are printed: what differs by less is one measure to the hand
_MANY = 8  # rounds of a band in which five are tried, and not three


def side_stages(work: Work) -> list[ToldStage]:
    """The upsett as a stage of its own, where the first band is one, and the rest of the side."""
    bands = work.basket.bands
    if not bands:
        return []
    first = 1 if is_upsett(bands[0]) else 0
    stages = []
    if first:
        lead = message("side.these-rounds-hold-the-stakes")
        stages.append(work.stage("upsett", message("side.the-upsett"), lead, _band_and_changes(work, bands[0])))
    rest = [step for band in bands[first:] for step in _band_and_changes(work, band)]
    rest += [change_step(work, place) for place, change in enumerate(work.basket.changes) if change[0] >= len(bands)]
    if rest:
        stages.append(work.stage("side", message("side.the-side"), _how_high(work), rest))
    return stages


def is_upsett(band: WovenBand) -> bool:
    """Whether a band is told as the upsett: it is the lowest, and so named or a wale."""
    return band.index == 0 and (band.name.casefold() in {"upsett", "upset", "set-up"} or band.spec.weave.kind == "wale")


def _how_high(work: Work) -> Clause:
    finished = work.quantities.finished
    profile = work.basket.profile
    if profile is None:
        return None
    along, standing = Length(profile.along_mm), Length(profile.height_mm)
    if abs(along.mm - standing.mm) < _UPRIGHT_MM:
        return message("side.the-weaving-is-to-be", standing=standing)
    wide, long = Length(finished.rim_width.value), None
    if finished.rim_length.value - finished.rim_width.value >= 1.0:
        long = Length(finished.rim_length.value)
    if along.mm - standing.mm < _TOLD_APART_MM:
        return message("side.the-weaving-is-to-stand-wide", standing=standing, long=long, wide=wide)
    return message("side.the-weaving-is-to-stand", standing=standing, along=along, long=long, wide=wide)


def _band_and_changes(work: Work, band: WovenBand) -> list[ToldStep]:
    """Changes of the stakes that come before a band, the band, and bye-stakes set in after it."""
    steps = [change_step(work, place) for place, change in enumerate(work.basket.changes) if change[0] == band.index]
    steps.append(_band(work, band))
    byes = [bye for bye in work.basket.pattern.bye_stakes if bye.after_band and bye.after_band == band.name]
    return [*steps, *(bye_stakes_step(work, bye) for bye in byes)]


def _band(work: Work, band: WovenBand) -> ToldStep:
    strokes = _strokes(work, band)
    told = work.weaving(band)
    goes_on = bool(told.worked) and not told.laid
    more = bool(told.worked) and not told.ended
    begin = _running_on(work, band) if goes_on else strokes.begin
    actions: list[Clause] = [
        _in_groups(band),
        *([] if goes_on else [how_laid(work, band)]),
        *begin,
        *strokes.go_on,
        shifted(work, band),
        *figured(work, band),
    ]
    actions += [*stepped(work, band), *_first_rounds(work, band)]
    actions += [_pressed(work, band), *_how_far(work, band)]
    actions += [_left_hanging(work, band)] if more else strokes.end
    actions += _measured(work, band)
    colours = _turned_colours(band, more=more) if band.spec.turn_of else _colours(work, band)
    notes: list[Clause] = [
        *strokes.remarks,
        *colours,
        _joining(work, band),
        _counting(work, band),
        *_if_height_differs(work, band),
    ]
    notes.append(message("side.own", words=own_words(band.spec.note)) if band.spec.note else None)
    keys = tuple(dict.fromkeys(key for rod in band.materials for key in rod))
    does = [
        "weave",
        "rap",
        "check",
        "measure",
        *(["colours"] if len(keys) > 1 else []),
        *(["weight"] if not band.index else []),
        *(["trim"] if band.spec.weave.kind == "french rand" and band.tapers and not band.spec.weave.one_by_one else []),
    ]
    return work.step(
        f"band {band.index + 1}",
        message("side.titled", title=_title(work, band)),
        actions,
        notes=notes,
        stops=_stops(work, band),
        figures=_figures(work, band),
        does=tuple(does) if band.materials else ("check", "measure"),
        materials=keys,
        rounds=0 if band.spec.weave.one_by_one else len(band.rounds),
    )


def _left_hanging(work: Work, band: WovenBand) -> Clause:
    """Where strands that go on in the next band stop in this one."""
    told = work.weaving(band)
    words = uprights_of(band, work.basket)
    return message("side.do-not-end-the-strands", strands=len(told.weave.rods), where=words.space(told.till))


def _running_on(work: Work, band: WovenBand) -> tuple[Clause, ...]:
    """The strands of the band before go on, on the stroke that is due, where its course changes or its shape alone."""
    told = work.weaving(band)
    strands = sum(len(rod) for rod in band.materials)
    same = message("side.go-on-with-the-same", strands=strands)
    if told.course_before == told.strokes:
        return (same,)
    strokes = uprights_of(band, work.basket).path(told.strokes)
    return (message("side.another-course-from-here-on", same=same, strands=strands, strokes=strokes),)


def _turned_colours(band: WovenBand, *, more: bool) -> list[Clause]:
    """What straight and turned rounds make together, said once, with the last of them."""
    if more or not band.spec.reversed:
        return []
    told: list[Clause] = [message("side.the-straight-strokes-and-the")]
    if len({key for rod in band.materials for key in rod}) > 1:
        told.append(message("side.where-the-two-meet-each"))
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
    told_in = message("side.the-upsett-2") if is_upsett(lower) else message("side.quoted", title=_title(work, lower))
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


def _title(work: Work, band: WovenBand) -> Message:
    name = weave_name(band.spec.weave)
    own = own_words(band.name.strip())
    numbered = band.name.casefold().removeprefix("band ").isdigit()
    said = message("side.own", words=own)
    english = replace(work.voice, language=IN_ENGLISH)
    if numbered or english.text(said).casefold() in english.text(name).casefold():
        return name
    if is_upsett(band) and band.name.casefold() in {"upsett", "upset"}:
        return name
    return message("side.own-title", own=own, name=name)


def _in_groups(band: WovenBand) -> Clause:
    sizes = set(band.group_sizes)
    if sizes <= {1}:
        return None
    if len(sizes) == 1:
        return message("side.take-the-stakes-together-each", count=sizes.pop())
    return message("side.take-the-stakes-together-in")


def _first_rounds(work: Work, band: WovenBand) -> list[Clause]:
    """What the lowest band must see to: no gap at the base, spacing, lean."""
    if band.index:
        return []
    spacing = Length(work.quantities.base_spacing.value)
    words, profile = uprights_of(band, work.basket), work.basket.profile
    leaning = profile is not None and leans(profile)
    return [
        message("side.press-the-first-round-down"),
        message("side.set-each-as-you-pass", one=words.one, spacing=spacing, leaning=leaning),
        corners(work),
        message("side.put-a-smooth-stone-or"),
    ]


def _how_far(work: Work, band: WovenBand) -> list[Clause]:
    """Whole rounds, and the height both along the side and standing."""
    rounds = len(band.rounds)
    if not rounds:
        return []
    row = work.band_row(band)
    reached = Length(row.along.value) if band.index else None
    if band.spec.weave.kind == "packing" and band.spec.cells:
        high = Length(row.along.value)
        return [message("side.work-where-all-of-them", rounds=rounds, high=high)]
    if band.spec.weave.one_by_one:
        sets = work.quantities.sets_of_rods(band.part, band.index)
        return [message("side.work", sets=sets, reached=reached), message("side.knock-each-set-down-with")]
    work_on = message("side.work-2", rounds=rounds, reached=reached)
    extent = band.spec.extent
    if extent.used is not None:
        work_on = message("side.work-on-until-are-used", used=extent.used, rounds=rounds, reached=reached)
    elif extent.leaves_mm is not None:
        left = Length(extent.leaves_mm)
        work_on = message("side.work-on-until-of-each", left=left, rounds=rounds, reached=reached)
    return [
        work_on,
        message("side.knock-the-weaving-down-with") if rounds > 2 else None,
    ]


def _measured(work: Work, band: WovenBand) -> list[Clause]:
    """What the side comes to when the band is ended, and what held the stakes until then is taken off."""
    if not band.rounds or (band.spec.weave.kind == "packing" and band.spec.cells):
        return [_untied(work, band)]
    return [
        message("side.the-side-then-measures", so_far=_so_far(work, band)),
        _untied(work, band),
    ]


def _untied(work: Work, band: WovenBand) -> Clause:
    """What held the stakes is taken off as soon as the first rounds hold them."""
    untied = any(isinstance(act, Untie) for act in work.band_acts(band))
    return message("side.untie-the-string") if untied else None


def _pressed(work: Work, band: WovenBand) -> Clause:
    """Which way the hand presses the stakes as it weaves, where the side does not run straight from base to rim."""
    profile = work.basket.profile
    if profile is None or not band.index or not band.rounds or not bends(profile):
        return None
    way = way_of(profile, band.from_mm, band.to_mm)
    if not way:
        return message("side.keep-the-stakes-upright-as")
    return message("side.press-the-stakes-a-little", outwards=way == "outwards")


def _so_far(work: Work, band: WovenBand) -> Clause:
    profile = work.basket.profile
    along = Length(band.to_mm)
    if profile is None:
        return message("side.so-far", along=along)
    told = message("side.from-the-base-measured-along", along=along)
    height_mm = profile.height_of(band.to_mm)
    if leans(profile) and band.to_mm - height_mm >= _TOLD_APART_MM:
        told = message("side.and-stands", told=told, height=Length(height_mm))
    return (
        message("side.where-it-is", told=told, size=size_at(profile, profile.height_of(band.to_mm)))
        if bends(profile)
        else told
    )


def _colours(work: Work, band: WovenBand) -> list[Clause]:
    """What the colours do from round to round, in words beside the chart."""
    if band.steps is None:
        return []
    words = uprights_of(band, work.basket)
    if band.steps == 0:
        return [
            message("side.each-round-puts-every-colour", many=words.many),
            message("side.if-the-colours-begin-to"),
        ]
    step = words.count(abs(band.steps))
    return [
        message("side.after-each-round-every-colour", step=step, on=band.steps > 0),
        message("side.if-it-does-not-count", many=words.many),
    ]


def _stops(work: Work, band: WovenBand) -> list[Clause]:
    """Stop and count before the band: uprights, and strands by colour."""
    words = uprights_of(band, work.basket)
    strands = [key for rod in band.materials for key in rod]
    if not strands:
        return [message("side.so-many-uprights", uprights=band.uprights, many=words.many)]
    if len(set(strands)) == 1:
        return [message("side.uprights-and-strands", uprights=band.uprights, many=words.many, strands=len(strands))]
    materials = work.basket.pattern.materials
    colours = [
        message(
            "side.so-many",
            count=strands.count(key),
            colour=colour_said(key, materials, strands),
            of=_numbered(materials[key]),
        )
        for key in dict.fromkeys(strands)
    ]
    return [
        message(
            "side.and",
            uprights=band.uprights,
            many=words.many,
            strands=len(strands),
            colours=Listed(tuple(colours)),
        )
    ]


def _numbered(material: Material) -> bool:
    """Whether a number follows the count of a strand, as in 16 of 3 ft brown willow."""
    return (
        not material.dye
        and bool(material.stock.number)
        and material.stock.number[0].isdigit()
        and material.stock.kind == "willow"
    )


def _joining(work: Work, band: WovenBand) -> Clause:
    if not band.materials or len(band.rounds) < 2 or band.index > 1:
        return None
    if band.tapers:
        alone = band.spec.weave.kind == "french rand" or work.quantities.sets_of_rods(band.part, band.index) < 2
        return None if alone else joining_rods()
    if band.spec.weave.twined:
        return message("side.to-join-push-the-new", lap=work.length_setting("join_lap"))
    return message("side.to-join-lay-the-new", lap=work.length_setting("join_lap"))


def _counting(work: Work, band: WovenBand) -> Clause:
    """Where a round is full, told until the hand knows it."""
    twice = band.spec.weave.kind in {"french rand", "packing"} or band.spec.step_up
    if band.index > 1 or twice or len(band.rounds) < 3:
        return None
    place = uprights_of(band, work.basket).at(band.start)
    return message("side.rounds-run-on-in-a", place=place)


def _if_height_differs(work: Work, band: WovenBand) -> list[Clause]:
    """What to do when the hand packs tighter or looser than the list supposes."""
    told = band.spec.extent.rounds is not None or band.spec.weave.one_by_one
    if len(band.rounds) < 3 or told or _told_below(work, band):
        return []
    row = work.band_row(band)
    few = 5 if len(band.rounds) >= _MANY else 3
    return [message("side.a-round-comes-to-about", few=few, high=Length(few * row.pitch.value))]
