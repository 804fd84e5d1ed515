"""Handles: each at its time, made, set in, wound and proved."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, assert_never

from slath.language.handle_kinds import HANDLE_KINDS
from slath.plan.planner import handles_as_counted
from slath.units.counting import counted, listed
from slath.wording.figure_names import handle_names, wrap_name
from slath.wording.handle_ears import (
    bow_bent_step,
    bow_hung_step,
    ears_in_step,
    ears_step,
    plain_ears_in_actions,
    plain_ears_step,
)
from slath.wording.handle_feet import beside, opposite, others, pairs, stake, stakes_found, stakes_of
from slath.wording.handle_wraps import wrap_step
from slath.wording.speech import verbatim
from slath.wording.stuff import strand_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from slath.basket.model import WorkedEar, WorkedHandle
    from slath.language.pattern import Ears, HandleTime
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work


def handle_stage(work: Work) -> ToldStage | None:
    """What is done to handles after the border; None where nothing is."""
    steps: list[ToldStep] = []
    for number, handle in enumerate(handles_as_counted(work.basket), start=1):
        steps += _after_border(work, handle, number)
    if not steps:
        return None
    handles = work.basket.handles
    several = len(handles) > 1 or handles[0].spec.count > 1
    return work.stage("handle", "The handles" if several else "The handle", verbatim(handles[0].spec.note), steps)


def with_handles_in_time(stages: Sequence[ToldStage], work: Work) -> tuple[ToldStage, ...]:
    """The stages with what is set in before the border in its place: liners after their band, ears and feet after the
    first band or in a stage of its own before the border.
    """
    told = list(stages)
    before: list[ToldStep] = []
    for number, handle in enumerate(handles_as_counted(work.basket), start=1):
        told = _with_liners(told, work, work.basket.handles[number - 1], number)
        steps = _setting_in(work, handle, number) if handle.spec.set_in != "after the border" else []
        if handle.spec.set_in == "at the upsett" and work.basket.bands:
            told = _after_band(told, "band 1", steps)
        else:
            before += steps
    if not before:
        return tuple(told)
    place = next((at for at, stage in enumerate(told) if stage.key in ("border", "handle")), len(told))
    ears = all(handle.spec.family in ("ears", "swinging") for handle in _early(work, "before the border"))
    lead = "They are set in before the [border], which holds them."
    stage = work.stage("ears", "The [ears]" if ears else "The feet of the handle", lead, before)
    return (*told[:place], stage, *told[place:])


def _early(work: Work, when: HandleTime) -> list[WorkedHandle]:
    return [handle for handle in work.basket.handles if handle.spec.set_in == when]


def _after_band(stages: list[ToldStage], key: str, steps: list[ToldStep]) -> list[ToldStage]:
    """Steps put in after the band whose step has this key."""
    found = []
    for stage in stages:
        keys = [step.key for step in stage.steps]
        if key in keys:
            place = keys.index(key) + 1
            stage = replace(stage, steps=(*stage.steps[:place], *steps, *stage.steps[place:]))  # noqa: PLW2901
        found.append(stage)
    return found


def _with_liners(stages: list[ToldStage], work: Work, handle: WorkedHandle, number: int) -> list[ToldStage]:
    liner = handle.spec.liner
    if liner is None:
        return stages
    names = [band.name for band in work.basket.bands]
    place = names.index(liner.after) if liner.after in names else 0
    cut = next(piece for piece in work.pieces("liner", "liners") if piece.path[: len(liner.path)] == liner.path)
    thing = "ears" if handle.spec.family in ("ears", "swinging") else "handle"
    actions = [
        (
            f"Take {counted(len(handle.feet_at), 'liner', 'liners')} of {strand_words(work.basket.pattern.materials[liner.material])}, "
            f"{work.voice.length(cut.cut_mm.value)} long, and point one end of each."
        ),
        f"Push one down beside {'each of ' if len(handle.feet_at) > 1 else ''}{stakes_found(handle)}, on its {work.voice.on}, as far as it goes.",
        f"Weave each [stake] and its liner as one from here up. They keep the places of the {thing} open, and are drawn out when it is set in.",
    ]
    step = work.step(
        f"handle {number} liners", "Set the liners in", actions,
        counts=[f"The liners stand {beside(handle)}, and face each other."] if len(handle.feet_at) == 2 else [],
        does=("point", "open weave", "check"), materials=(liner.material,),
    )  # fmt: skip
    return _after_band(stages, f"band {place + 1}", [step])


# ------------------------------------------------------------------------------------------------------ what and when
def _setting_in(work: Work, handle: WorkedHandle, number: int) -> list[ToldStep]:
    """Made and set in, as far as that is done at one time: all of a handle but what is wound round it."""
    match handle.spec.family:
        case "swinging":
            return [
                *(ears_step(work, handle, spec, ear, number) for spec, ear in _ears(handle)),
                *(ears_in_step(work, handle, spec, ear, number) for spec, ear in _ears(handle)),
            ]
        case "ears":
            return [plain_ears_step(work, handle, number), _set_in(work, handle, number)]
        case "bow" | "side":
            bent = [_bend(work, handle, number)] if HANDLE_KINDS[handle.spec.kind].dries else []
            return [*bent, _set_in(work, handle, number)]
        case "drop" | "ring":
            return [_set_in(work, handle, number)]
        case unknown:
            assert_never(unknown)


def _ears(handle: WorkedHandle) -> Iterator[tuple[Ears, WorkedEar]]:
    if handle.spec.ears is not None and handle.ear is not None:
        yield handle.spec.ears, handle.ear


def _after_border(work: Work, handle: WorkedHandle, number: int) -> list[ToldStep]:
    steps = _setting_in(work, handle, number) if handle.spec.set_in == "after the border" else []
    if handle.spec.family == "swinging":
        steps.append(bow_bent_step(work, handle, number))
        steps += [bow_hung_step(work, handle, spec, number) for spec, _ in _ears(handle)]
    steps += [
        wrap_step(
            work, handle, wrap, f"handle {number} wrap {place}", wrap_name(number, place, grouped=wrap.spec.group > 1)
        )
        for place, wrap in enumerate(handle.wraps, start=1)
    ]
    steps.append(_prove(work, handle, number))
    return steps


# -------------------------------------------------------------------------------------------------------- bent and set
def _bend(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    spec, voice = handle.spec, work.voice
    pieces = spec.pieces if spec.kind != "two-piece" else max(spec.pieces, 2)
    each = "the piece" if pieces * spec.count == 1 else "each piece"
    bow = f"{voice.length(handle.span_mm)} apart and {voice.length(handle.rise_mm)} high"
    actions = [
        f"Soak {each} until it bends over your knee without a creak.",
        f"Bend it slowly, a little at a time, until its legs are {bow}.",
        "Tie the legs together with string and let it dry in that shape.",
    ]
    if spec.kind == "two-piece":
        lap = voice.length(spec.lap_mm) if spec.lap_mm is not None else work.setting("handle_lap")
        actions += [
            f"Shave one end of each piece to a long [scarf], {lap} long, so that the two lie together no thicker than one.",
            "Lay the two slopes together and bind them tight.",
        ]
    actions.append("Cut the ends of the legs to a long [slype], on the side that will lie against the [stake].")
    return work.step(
        f"handle {number} bend",
        "Bend the handle",
        actions,
        mends=["A piece that begins to splinter at the bend goes back into the water; do not force it."],
        figures=handle_names(number),
        does=("shave", "point", "soak", "measure", "bend bow"),
        materials=(spec.material,),
    )


def _set_in(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    spec = handle.spec
    liners = "Draw each liner out, and push the foot into its place at once." if spec.liner else ""
    return work.step(
        f"handle {number}",
        "Make the ring" if spec.family == "ring" else "Set the handle in",
        [liners, *_actions(work, handle)],
        mends=["If the bow leans, draw up the leg on the high side; do not push the other deeper."]
        if HANDLE_KINDS[spec.kind].dries
        else [],
        figures=handle_names(number),
        does=("handle", "open weave", "measure"),
        materials=(spec.material,),
    )


def _actions(work: Work, handle: WorkedHandle) -> list[str]:  # noqa: PLR0911 - one for each kind
    """How a handle of each kind is set in."""
    match handle.spec.kind:
        case "twisted":
            return _twisted(work, handle)
        case "braided":
            return _braided(work, handle)
        case "drop":
            return _hung(work, handle)
        case "ring":
            return ring_actions(work, handle)
        case "ears":
            return plain_ears_in_actions(work, handle, _fastened(work, handle))
        case "bow" | "roped" | "two-piece" | "side":
            return _under(work, handle) if handle.spec.through_base else _over(work, handle)
        case "swinging":
            return []  # told by its ears and its bows
        case unknown:
            assert_never(unknown)


def _twisted(work: Work, handle: WorkedHandle) -> list[str]:
    """A rod twisted of itself: over and back round itself; or several rods twisted together."""
    voice, spec = work.voice, handle.spec
    pair = pairs(handle)[0]
    down = f"Push the butt of {'a' if spec.pieces == 1 else 'each'} rod down beside {stake(pair, 0)}, {voice.length(handle.foot_mm.value)} deep."
    opened = "Twist it from its tip, like a rope, until the fibres open and it bends without kinking."
    over = f"{voice.length(handle.rise_mm)} above the [border]"
    if spec.pieces > 1:
        return [
            down,
            f"{opened.replace('it from its tip', 'each from its tip', 1)}",
            f"Twist the rods together over the basket, {over}, and thread their ends down beside {stake(pair, 1)}.",
            *others(handle),
        ]
    return [
        down,
        opened,
        f"Carry it over, {over}, and thread it through under the [border] at {stake(pair, 1)}.",
        "Bring it back round itself, each turn beside the last, to where it began.",
        "Thread its end in under the [border] there, and tuck it in beside the weaving.",
        *others(handle),
    ]


def _braided(work: Work, handle: WorkedHandle) -> list[str]:
    pair = pairs(handle)[0]
    return [
        f"Plait the [strands] to {work.voice.length(handle.bow_mm.value)}, and bind both ends.",
        f"Push the ends down beside {stakes_of(pair)}, {work.voice.length(handle.foot_mm.value)} deep, and lash them to the [stakes].",
        *others(handle),
    ]


def _hung(work: Work, handle: WorkedHandle) -> list[str]:
    """A drop handle, hung by its eyes."""
    voice = work.voice
    pair = pairs(handle)[0]
    return [
        f"Bend the piece round until it is {voice.length(handle.span_mm)} wide, with an eye at either end.",
        f"Wind its ends back round it from the eyes, {voice.length(handle.foot_mm.value)} of them.",
        f"Hang it by {_loop(work, handle)} through each eye and under the [border], twice round, beside {stakes_of(pair)}, so that it swings freely.",
        "Tuck the ends of the loops away into the weaving.",
        *others(handle),
    ]


def ring_actions(work: Work, handle: WorkedHandle, hung: str = "") -> list[str]:
    """A ring bent of a piece and scarfed, or wound of one strand, and where it hangs."""
    voice, spec = work.voice, handle.spec
    across = voice.length(handle.span_mm)
    rounds = spec.rounds or 1
    if rounds > 1:
        made = [
            f"Tie one end of the strand into a loose ring {across} across, and lead the long end on round it.",
            f"Wind it round the ring in long even turns, beside the turns before, until it has gone round {counted(rounds, 'time', 'times')}.",
            "Tuck both ends in between the turns and pull them tight.",
        ]
    else:
        lap = next((part.value for part in handle.piece_mm.inputs if part.name == "lap"), 0.0)
        made = [
            f"Shave both ends of the piece to slopes {voice.length(lap)} long.",
            f"Bend it to a ring {across} across, lay the slopes together, and bind them.",
        ]
    if not handle.feet_at:
        return [*made, *([hung] if hung else [])]
    pair = pairs(handle)[0]
    hang = f"Hang it by {_loop(work, handle)} round it and under the [border], twice round, beside {stakes_of(pair)}, and tuck the ends of the loop away."
    return [*made, hang, *others(handle)]


def _over(work: Work, handle: WorkedHandle) -> list[str]:
    """A bow or a side handle on its feet."""
    foot = work.voice.length(handle.foot_mm.value)
    return [
        f"Count round from the mark and find {stakes_found(handle)}.",
        *opposite(work, handle),
        f"Mark each leg {foot} from its end.",
        *_abreast(handle),
        *_legs(work, handle),
        *_rise(work, handle),
        *_fastened(work, handle),
    ]


def _abreast(handle: WorkedHandle) -> list[str]:
    """Pieces of a bow that lie side by side, none lapped on another."""
    spec = handle.spec
    if spec.kind == "two-piece" or spec.pieces < 2:
        return []
    number = counted(spec.pieces, "piece", "pieces")
    return [
        f"The {number} of a bow lie side by side, each from foot to foot: tie them together at both legs and at the top."
    ]


def _under(work: Work, handle: WorkedHandle) -> list[str]:
    """Base and handle in one."""
    pair = pairs(handle)[0]
    return [
        f"Count round from the mark and find {stakes_found(handle)}.",
        *opposite(work, handle),
        f"Lay each piece under the base from {stake(pair, 0)} to {stake(pair, 1)}, and bend it up the outside of the side.",
        f"Lead its ends up close along these [stakes] and over, {work.voice.length(handle.rise_mm)} above the [border].",
        "Lap the two ends and bind them, and lay the laps of the pieces at different places.",
        *_fastened(work, handle),
        *others(handle),
    ]


def _legs(work: Work, handle: WorkedHandle) -> list[str]:
    """Each leg to its stake; where there are several handles, each handle to its own."""
    sets = pairs(handle)
    if len(sets) > 1 and len(sets[0]) > 1:
        places = [f"one at {stakes_of(pair)}" for pair in sets]
        return [
            f"Open a way down beside each of them, on its {work.voice.on}, with the [bodkin].",
            f"Push the legs of each handle down to their marks: {listed(places)}.",
        ]
    pair = handle.feet_at
    return [
        f"Open a way down beside {stake(pair, 0)}, on its {work.voice.on}, with the [bodkin].",
        "Push the leg down to its mark.",
        f"Do the same with the other leg at {stake(pair, 1)}." if len(pair) > 1 else "",
    ]


def _rise(work: Work, handle: WorkedHandle) -> list[str]:
    if not handle.rise_mm:
        return []
    return [
        f"Measure from the [border] up to the under side of the bow: {work.voice.length(handle.rise_mm)}, and the same from both sides."
    ]


def _loop(work: Work, handle: WorkedHandle) -> str:
    """What hangs a drop handle or a ring, as it is listed."""
    loop = f"a loop of {strand_words(work.basket.pattern.materials[handle.spec.lash])}"
    cut = next((piece for piece in work.pieces("loop", "loops") if piece.path == (*handle.spec.path, "lash")), None)
    return f"{loop}, {work.voice.length(cut.cut_mm.value)} long," if cut else loop


def _fastened(work: Work, handle: WorkedHandle) -> list[str]:
    """By the lashings that are listed; else by a leftover, only where a foot needs it."""
    lash = handle.spec.lash
    held = "[ear]" if handle.spec.family == "ears" else "leg"
    if not lash:
        return [
            f"Try each {held}: where it can be drawn up by hand, fasten it with an end left over from the weaving, round it and under the [border]."
        ]
    binder = f"a lashing of {strand_words(work.basket.pattern.materials[lash])}"
    return [
        f"Fasten each {held}: pass {binder} round it and under the [border].",
        f"Draw it tight, cross it over the {held}, and tuck its ends away into the weaving.",
    ]


def _prove(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    feet, foot = ("[ears]", "An [ear]") if handle.spec.family in ("ears", "swinging") else ("feet", "A foot")
    return work.step(
        f"handle {number} proved",
        "Prove it",
        [
            "Leave the basket until it is dry.",
            f"Lift it by the handle, empty, and look at both {feet}: neither may move.",
            "Load it and let it hang, and look again.",
        ],
        mends=[f"{foot} that creeps is fastened again, through another row of the weaving."],
        does=("handle load",),
    )
