"""Handles: each at its time, made, set in, wound and proved."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import assert_never

from msgspec.structs import replace

from slath.basket.model import WorkedEar, WorkedHandle
from slath.language.handle_kinds import HANDLE_KINDS, SPANNING
from slath.language.pattern import Ears, HandleTime
from slath.messages import Length, Listed, Message, message
from slath.messages.values import CUT
from slath.plan.acts import Untie
from slath.plan.planner import handles_as_counted
from slath.wording.figure_names import handle_names, wrap_name
from slath.wording.handle_ears import (
    bow_bent_step,
    bow_hung_step,
    ears_in_step,
    ears_step,
    plain_ears_in_actions,
    plain_ears_step,
)
from slath.wording.handle_feet import found, opposite, others, pairs, stake, stakes_of
from slath.wording.handle_wraps import wrap_step
from slath.wording.speech import own_words
from slath.wording.stuff import strand_said
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.work import Work

_LONGER_MM = 6.0  # than it takes: more than a slip of the saw


def handle_stage(work: Work) -> ToldStage | None:
    """What is done to handles after the border; None where nothing is."""
    steps: list[ToldStep] = []
    for number, handle in enumerate(handles_as_counted(work.basket), start=1):
        steps += _after_border(work, handle, number)
    if not steps:
        return None
    handles = work.basket.handles
    several = len(handles) > 1 or handles[0].spec.count > 1
    note = message("side.own", words=own_words(handles[0].spec.note)) if handles[0].spec.note else None
    return work.stage("handle", message("handle.the-handles", several=several), note, steps)


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
    title = message("handle.the-ears") if ears else message("handle.the-feet")
    stage = work.stage("ears", title, message("handle.set-in-before"), before)
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
    ears = handle.spec.family in ("ears", "swinging")
    count = len(handle.feet_at)
    actions = [
        message(
            "handle.take-liners",
            count=count,
            strand=strand_said(work.basket.pattern.materials[liner.material]),
            cut=Length(cut.cut_mm.value, CUT),
        ),
        message("handle.push-liners", stakes=stakes_of(handle.feet_at), count=count),
        message("handle.weave-with-liners", ears=ears),
    ]
    step = work.step(
        f"handle {number} liners", message("handle.set-liners-in"), actions,
        counts=[message("handle.liners-face", stakes=stakes_of(handle.feet_at))] if count == 2 else [],
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
    spec = handle.spec
    pieces = spec.pieces if spec.kind != "two-piece" else max(spec.pieces, 2)
    cut_off = _cut_to_length(handle)
    actions: list[Clause] = [
        message("handle.soak-until-it-bends", count=pieces * spec.count),
        message("handle.mark-from-the-middle", half=Length(handle.bow_mm.value / 2))
        if cut_off
        else message("handle.mark-each-leg", foot=Length(handle.foot_mm.value)),
        message("handle.bend-it-slowly", apart=Length(handle.span_mm), high=Length(handle.rise_mm)),
        message("handle.tie-the-legs"),
    ]
    if spec.kind == "two-piece":
        lap = spec.lap_mm if spec.lap_mm is not None else work.basket.pattern.settings.mm("handle_lap")
        actions += [message("handle.shave-one-end", lap=Length(lap)), message("handle.lay-the-slopes")]
    side = spec.family == "side"
    actions += [
        cut_off,
        message("handle.point-the-legs-of-side") if side else message("handle.point-the-legs"),
    ]
    return work.step(
        f"handle {number} bend",
        message("handle.bend-the-handle"),
        actions,
        mends=[message("handle.a-piece-that-splinters")],
        figures=handle_names(number),
        does=("shave", "point", "soak", "measure", "bend bow"),
        materials=(spec.material,),
    )


def _set_in(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    spec = handle.spec
    liners = message("handle.draw-each-liner-out") if spec.liner else None
    shaved = ("shave",) if spec.family == "ring" and (spec.rounds or 1) == 1 else ()
    return work.step(
        f"handle {number}",
        message("handle.make-the-ring") if spec.family == "ring" else message("handle.set-the-handle-in"),
        [liners, *_actions(work, handle)],
        mends=[message("handle.if-the-bow-leans")] if HANDLE_KINDS[spec.kind].dries else [],
        figures=handle_names(number),
        does=("handle", "open weave", "measure", *(("bend bow",) if _untied(work, handle) else ()), *shaved),
        materials=(spec.material,),
    )


def _untied(work: Work, handle: WorkedHandle) -> bool:
    """Whether its legs are tied in its shape until now."""
    return any(isinstance(act, Untie) for act in work.acts(f"feet {handle.spec.set_in}"))


def _actions(work: Work, handle: WorkedHandle) -> list[Clause]:  # noqa: PLR0911 - one for each kind
    """How a handle of each kind is set in."""
    match handle.spec.kind:
        case "twisted":
            return _twisted(handle)
        case "braided":
            return _braided(handle)
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


def _twisted(handle: WorkedHandle) -> list[Clause]:
    """A rod twisted of itself: over and back round itself; or several rods twisted together."""
    pieces = handle.spec.pieces
    pair, rise = pairs(handle)[0], Length(handle.rise_mm)
    down = message("handle.push-the-butt", pieces=pieces, at=stake(pair, 0), foot=Length(handle.foot_mm.value))
    opened = message("handle.twist-from-its-tip", pieces=pieces)
    if pieces > 1:
        return [down, opened, message("handle.twist-together", rise=rise, at=stake(pair, 1)), *others(handle)]
    return [
        down,
        opened,
        message("handle.carry-it-over", rise=rise, at=stake(pair, 1)),
        message("handle.back-round-itself"),
        message("handle.thread-its-end"),
        *others(handle),
    ]


def _braided(handle: WorkedHandle) -> list[Clause]:
    pair = pairs(handle)[0]
    return [
        message("handle.plait-the-strands", long=Length(handle.bow_mm.value)),
        message("handle.push-the-plait-down", stakes=stakes_of(pair), foot=Length(handle.foot_mm.value)),
        *others(handle),
    ]


def _hung(work: Work, handle: WorkedHandle) -> list[Clause]:
    """A drop handle, hung by its eyes."""
    return [
        message("handle.bend-with-eyes", wide=Length(handle.span_mm)),
        message("handle.wind-the-ends-back", foot=Length(handle.foot_mm.value)),
        message("handle.hang-by-its-eyes", loop=_loop(work, handle), stakes=stakes_of(pairs(handle)[0])),
        message("handle.tuck-the-loops"),
        *others(handle),
    ]


def ring_actions(work: Work, handle: WorkedHandle, hung: Clause = None) -> list[Clause]:
    """A ring bent of a piece and scarfed, or wound of one strand, and where it hangs."""
    across, rounds = Length(handle.span_mm), handle.spec.rounds or 1
    if rounds > 1:
        made: list[Clause] = [
            message("handle.tie-a-loose-ring", across=across),
            message("handle.wind-the-ring", rounds=rounds),
            message("handle.tuck-into-the-ring"),
        ]
    else:
        lap = next((part.value for part in handle.piece_mm.inputs if part.name == "lap"), 0.0)
        made = [
            message("handle.shave-the-ring", lap=Length(lap)),
            message("handle.bend-the-ring", across=across),
        ]
    if not handle.feet_at:
        return [*made, hung]
    hang = message("handle.hang-the-ring", loop=_loop(work, handle), stakes=stakes_of(pairs(handle)[0]))
    return [*made, hang, *others(handle)]


def _over(work: Work, handle: WorkedHandle) -> list[Clause]:
    """A bow or a side handle on its feet."""
    rise = message("handle.measure-the-rise", rise=Length(handle.rise_mm)) if handle.rise_mm else None
    return [
        found(handle),
        *opposite(work, handle),
        message("handle.untie-the-legs") if _untied(work, handle) else None,
        _abreast(handle),
        *_legs(work, handle),
        rise,
        *_fastened(work, handle),
    ]


def _cut_to_length(handle: WorkedHandle) -> Clause:
    """What comes off a piece cut longer than it takes, once it is bent and dry."""
    spec, piece = handle.spec, handle.piece_mm
    longer = spec.length_mm is not None and spec.length_mm - piece.value > _LONGER_MM
    if not longer or not piece.inputs or piece.inputs[0].name != "bow":
        return None
    return message("handle.cut-to-length", reach=Length(piece.value / 2))


def _abreast(handle: WorkedHandle) -> Clause:
    """Pieces of a bow that lie side by side, none lapped on another."""
    spec = handle.spec
    if spec.kind == "two-piece" or spec.pieces < 2:
        return None
    return message("handle.pieces-abreast", pieces=spec.pieces)


def _under(work: Work, handle: WorkedHandle) -> list[Clause]:
    """Base and handle in one."""
    pair = pairs(handle)[0]
    return [
        found(handle),
        *opposite(work, handle),
        message("handle.lay-under-the-base", one=stake(pair, 0), other=stake(pair, 1)),
        message("handle.lead-its-ends-up", rise=Length(handle.rise_mm)),
        message("handle.lap-the-two-ends"),
        *_fastened(work, handle),
        *others(handle),
    ]


def _legs(work: Work, handle: WorkedHandle) -> list[Clause]:
    """Each leg to its stake; where there are several handles, each handle to its own."""
    sets = pairs(handle)
    if len(sets) > 1 and len(sets[0]) > 1:
        places = Listed(tuple(message("handle.one-at", stakes=stakes_of(pair)) for pair in sets))
        return [
            message("handle.open-a-way", count=len(handle.feet_at)),
            message("handle.push-each-pair", places=places),
        ]
    pair, profile = handle.feet_at, work.basket.profile
    early = profile is not None and handle.spec.set_in == "at the upsett"
    return [
        message("handle.open-a-way-at", at=stake(pair, 0)),
        message("handle.push-the-leg", early=Length(profile.height_mm) if profile is not None and early else None),
        message("handle.the-other-leg", at=stake(pair, 1)) if len(pair) > 1 else None,
    ]


def _loop(work: Work, handle: WorkedHandle) -> Message:
    """What hangs a drop handle or a ring, as it is listed."""
    strand = strand_said(work.basket.pattern.materials[handle.spec.lash])
    cut = next((piece for piece in work.pieces("loop", "loops") if piece.path == (*handle.spec.path, "lash")), None)
    if cut is None:
        return message("handle.loop", strand=strand)
    return message("handle.loop-cut", strand=strand, cut=Length(cut.cut_mm.value, CUT))


def _fastened(work: Work, handle: WorkedHandle) -> list[Clause]:
    """By the lashings that are listed; else by a leftover, only where a foot needs it."""
    lash = handle.spec.lash
    ears = handle.spec.family == "ears"
    if not lash:
        return [message("handle.try-each-foot", ears=ears)]
    strand = strand_said(work.basket.pattern.materials[lash])
    return [message("handle.lash-each-foot", ears=ears, strand=strand), message("handle.draw-it-tight", ears=ears)]


def _prove(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    ears, looped = handle.spec.family in ("ears", "swinging"), handle.spec.family in ("ring", "drop")
    many = handle.spec.count > 1 and handle.spec.family not in SPANNING
    return work.step(
        f"handle {number} proved",
        message("handle.prove-it"),
        [
            message("handle.leave-it-to-dry", lid=work.of_lid),
            message("handle.lift-it-by-its-loops", many=many)
            if looped
            else message("handle.lift-it-empty", ears=ears, many=many),
            None if work.of_lid else message("handle.load-it"),
        ],
        mends=[message("handle.a-loop-that-slips") if looped else message("handle.a-foot-that-creeps", ears=ears)],
        does=("handle load",),
    )
