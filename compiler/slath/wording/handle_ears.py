"""Ears made and set in, and bows hung in them: thinned, bent, led through their holes, turned back and bound."""

from __future__ import annotations

from slath.basket.handle_ears import bows_through_a_hole
from slath.basket.model import WorkedEar, WorkedHandle
from slath.language.pattern import Ears
from slath.messages import Length, message
from slath.messages.values import CUT
from slath.wording.figure_names import figures_of_ears, handle_names
from slath.wording.handle_feet import found, opposite
from slath.wording.stuff import strand_said
from slath.wording.told import Clause, ToldStep
from slath.wording.work import Work

_BEHIND = message("handle.wood-behind-the-notch")
_SPLINTERS = message("handle.a-piece-that-splinters")


def plain_ears_step(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    """Ears that stand by themselves: shaved, notched, bored."""
    actions = [
        message("handle.shave-the-foot-of-each-ear"),
        message("handle.cut-a-notch", below=Length(handle.rise_mm)),
        message("handle.bore-its-head"),
        message("handle.smooth-the-hole"),
    ]
    return work.step(
        f"handle {number} ears",
        message("handle.make-the-ears"),
        actions,
        notes=[_BEHIND],
        figures=handle_names(number),
        does=("shave", "drill", "measure"),
        materials=(handle.spec.material,),
    )


def plain_ears_in_actions(work: Work, handle: WorkedHandle, fastened: list[Clause]) -> list[Clause]:
    """Ears that stand by themselves, pushed down until the border lies in their notch."""
    del work
    return [
        found(handle),
        message("handle.open-a-way", count=len(handle.feet_at)),
        message("handle.push-an-ear-down", foot=Length(handle.foot_mm.value)),
        *fastened,
    ]


def ears_step(work: Work, handle: WorkedHandle, spec: Ears, ear: WorkedEar, number: int) -> ToldStep:
    """The ears of swinging bows, by their measures."""
    high, deep = Length(ear.notch_mm[1] - ear.notch_mm[0]), Length(ear.notch_deep_mm)
    notch = (
        message("handle.notch-for-the-border", high=high, deep=deep)
        if spec.holds == "border"
        else message("handle.notch-for-the-rows", high=high, deep=deep)
    )
    cut = next(piece.cut_mm.value for piece in work.pieces("ear", "ears"))
    actions = [
        message("handle.saw-the-ears", count=len(handle.feet_at), cut=Length(cut, CUT), wide=Length(ear.width.value)),
        message("handle.round-the-top"),
        message("handle.draw-a-line", rise=Length(ear.rise.value)),
        notch,
        message(
            "handle.bore-holes",
            holes=spec.holes,
            up=Length(ear.hole_up_mm),
            apart=Length(ear.hole_apart_mm),
            hole=Length(ear.hole.value),
        ),
        message("handle.smooth-the-holes", holes=spec.holes),
    ]
    return work.step(
        f"handle {number} ears",
        message("handle.make-the-ears"),
        actions,
        notes=[_BEHIND],
        counts=[message("handle.holes-stand-alike", holes=spec.holes)],
        figures=(figures_of_ears(number)[0],),
        does=("saw", "shave", "drill", "measure"),
        materials=(spec.material,),
    )


def ears_in_step(work: Work, handle: WorkedHandle, spec: Ears, ear: WorkedEar, number: int) -> ToldStep:
    """The ears pushed down beside their stakes, at the time that is asked for."""
    before = handle.spec.set_in != "after the border"
    if spec.holds == "top rows":
        notch: list[Clause] = [message("handle.press-the-rows-in")]
        notch += [message("handle.border-past-the-ears")] if before else []
    else:
        notch = [message("handle.lay-the-border-in") if before else message("handle.press-the-border-in")]
    liners = message("handle.draw-each-liner-out") if handle.spec.liner else None
    actions = [
        found(handle),
        *opposite(work, handle),
        liners,
        message("handle.open-a-way", count=len(handle.feet_at)),
        message("handle.push-the-ears-down", foot=Length(ear.foot_mm)),
        *notch,
    ]
    return work.step(
        f"handle {number} ears in",
        message("handle.set-the-ears-in"),
        actions,
        notes=[message("handle.beside-not-in-place")],
        counts=[message("handle.ears-upright")],
        figures=(figures_of_ears(number)[1],),
        does=("open weave", "measure", "check"),
        materials=(spec.material,),
    )


def bow_bent_step(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    """The ends thinned to scarfs, and the bow dried in its shape."""
    count = handle.spec.count
    cut = next(piece.cut_mm.value for piece in work.pieces("bow", "bows"))
    actions = [
        message("handle.mark-the-scarfs", count=count, cut=Length(cut, CUT), scarf=_scarf(handle)),
        message("handle.shave-both-ends"),
        message("handle.soak-and-bend", count=count, apart=Length(handle.span_mm)),
        message("handle.tie-it-across"),
    ]
    return work.step(
        f"handle {number} bend",
        message("handle.thin-and-bend", count=count),
        actions,
        mends=[_SPLINTERS],
        figures=(figures_of_ears(number)[2],),
        does=("shave", "soak", "measure", "bend bow"),
        materials=(handle.spec.material,),
    )


def _scarf(handle: WorkedHandle) -> Length:
    return Length(handle.scarf.value if handle.scarf else 0.0)


def bow_hung_step(work: Work, handle: WorkedHandle, spec: Ears, number: int) -> ToldStep:
    """The bows led through their holes from outside, turned back up along themselves and bound."""
    bows = handle.spec.count
    shared = bows_through_a_hole(bows, spec.holes) > 1
    actions = [
        message("handle.lead-it-through", count=bows),
        message("handle.turn-it-up"),
        message("handle.the-other-ear", arch=Length(handle.bow_mm.value), rise=Length(handle.rise_mm)),
        *_bound(work, handle),
        message("handle.hang-the-second", shared=shared) if bows > 1 else None,
    ]
    bind = handle.spec.bind
    return work.step(
        f"handle {number}",
        message("handle.hang-the-bows", count=bows),
        actions,
        mends=[message("handle.a-bow-that-sticks")],
        counts=[message("handle.swings-freely", count=bows)],
        figures=(figures_of_ears(number)[3], handle_names(number)[0]),
        does=("handle", "measure", "bend bow", *(("bind ends", "trim") if bind else ())),
        materials=(handle.spec.material, *((bind.material,) if bind else ())),
    )


def _bound(work: Work, handle: WorkedHandle) -> list[Clause]:
    bind = handle.spec.bind
    if bind is None:
        return [message("handle.tie-both-ends")]
    material = work.basket.pattern.materials[bind.material]
    piece = next(item for item in work.pieces("binding", "bindings") if item.path[: len(bind.path)] == bind.path)
    turns = bind.turns if bind.turns is not None else round(work.basket.pattern.settings["bow_bind_turns"].value)
    kind = material.stock.kind
    return [
        message(
            "handle.bind-each-end",
            places=bind.places,
            two=bind.places == 2,
            strand=strand_said(material),
            cut=Length(piece.cut_mm.value, CUT),
            turns=turns,
        ),
        message("handle.twist-the-ends")
        if kind == "wire"
        else message("handle.knot-the-ends")
        if kind == "cord"
        else message("handle.tuck-the-ends"),
    ]
