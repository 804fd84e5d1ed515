"""Ears made and set in, and bows hung in them: thinned, bent, led through their holes, turned back and bound."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.basket.handle_ears import bows_through_a_hole
from slath.units.counting import counted, in_words
from slath.wording.figure_names import figures_of_ears, handle_names
from slath.wording.handle_feet import beside, opposite, stakes_found
from slath.wording.stuff import strand_words

if TYPE_CHECKING:
    from slath.basket.model import WorkedEar, WorkedHandle
    from slath.language.pattern import Ears
    from slath.wording.told import ToldStep
    from slath.wording.work import Work


def plain_ears_step(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    """Ears that stand by themselves: shaved, notched, bored."""
    below = f", {work.voice.length(handle.rise_mm)} below the top of its head" if handle.rise_mm else ""
    actions = [
        "Shave the lower end of each [ear] to a long flat point.",
        f"Cut a notch across its face{below}: the [border] will lie in it.",
        "Bore a hole through the middle of its head, with waste wood behind it: the handle hangs in it.",
        "Smooth the hole and all that stands above the [border].",
    ]
    return work.step(
        f"handle {number} ears",
        "Make the [ears]",
        actions,
        notes=[_BEHIND],
        figures=handle_names(number),
        does=("shave", "drill", "measure"),
        materials=(handle.spec.material,),
    )


_BEHIND = "Leave the wood behind the notch as thick as the notch is deep, or the [ear] breaks there."


def ears_step(work: Work, handle: WorkedHandle, spec: Ears, ear: WorkedEar, number: int) -> ToldStep:
    """The ears of swinging bows, by their measures."""
    length = work.voice.length
    high, deep = length(ear.notch_mm[1] - ear.notch_mm[0]), length(ear.notch_deep_mm)
    if spec.holds == "border":
        notch = f"From this line upwards cut a notch across the same face, {high} high and {deep} deep: the [border] will lie in it."
    else:
        notch = f"From this line downwards cut a notch across the same face, {high} high and {deep} deep: the top rows will lie in it."
    up = length(ear.hole_up_mm)
    bit = work.voice.bit(ear.hole.value)
    if spec.holes > 1:
        apart = length(ear.hole_apart_mm)
        bore = f"Bore {in_words(spec.holes)} holes side by side, {up} above the line and {apart} from middle to middle, with a bit of {bit}."
    else:
        bore = f"Bore a hole in the middle of its head, {up} above the line, with a bit of {bit}."
    cut = length(next(piece.cut_mm.value for piece in work.pieces("ear", "ears")))
    actions = [
        f"Saw {counted(len(handle.feet_at), 'piece', 'pieces')} {cut} long and {length(ear.width.value)} wide, the grain along them.",
        "Round the top of each, and shave its lower end to a long flat point.",
        f"Draw a line across the face that is to look outwards, {length(ear.rise.value)} below the top: it will stand level with the weaving.",
        notch,
        f"{bore} Lay waste wood behind it.",
        f"Smooth the {'holes' if spec.holes > 1 else 'hole'} and all that stands above the line, and round the edges: a sharp edge saws through the bow.",
    ]
    return work.step(
        f"handle {number} ears",
        "Make the [ears]",
        actions,
        notes=[_BEHIND],
        counts=[f"The {'holes' if spec.holes > 1 else 'hole'} of both [ears] stand equally far from their lines."],
        figures=(figures_of_ears(number)[0],),
        does=("shave", "drill", "measure"),
        materials=(spec.material,),
    )


def ears_in_step(work: Work, handle: WorkedHandle, spec: Ears, ear: WorkedEar, number: int) -> ToldStep:
    """The ears pushed down beside their stakes, at the time that is asked for."""
    foot = work.voice.length(ear.foot_mm)
    if spec.holds == "top rows":
        notch = ["Press the top rows of the weaving into the notches."]
        notch += (
            ["The [border] is then worked on either side of the [ears], its [stakes] led past them."]
            if _before(handle)
            else []
        )
    elif _before(handle):
        notch = ["Then work the [border]: as it passes an [ear] lay it into the notch."]
    else:
        notch = ["Press the [border] into the notches."]
    actions = [
        f"Count round from the mark and find {stakes_found(handle)}.",
        *opposite(work, handle),
        f"Open a way down beside each of them, on its {work.voice.on}, with the [bodkin].",
        f"Push an [ear] down into each, the notch to the outside, {foot} deep, until its line is level with the top of the weaving.",
        *notch,
    ]
    return work.step(
        f"handle {number} ears in",
        "Set the [ears] in",
        actions,
        notes=[
            "The [ears] stand beside their [stakes], not in their place: every [stake] still goes into the [border]."
        ],
        counts=["Both [ears] stand upright and equally high, and look at each other across the basket."],
        figures=(figures_of_ears(number)[1],),
        does=("open weave", "measure", "check"),
        materials=(spec.material,),
    )


def _before(handle: WorkedHandle) -> bool:
    return handle.spec.set_in != "after the border"


def bow_bent_step(work: Work, handle: WorkedHandle, number: int) -> ToldStep:
    """The ends thinned to scarfs, and the bow dried in its shape."""
    voice, several = work.voice, handle.spec.count > 1
    scarf = voice.length(handle.scarf.value) if handle.scarf else ""
    bow = "each bow" if several else "the bow"
    cut = voice.length(next(piece.cut_mm.value for piece in work.pieces("bow", "bows")))
    actions = [
        f"{'Each bow is' if several else 'The bow is'} cut {cut} long. Mark {scarf} from either end.",
        "Shave both ends from these marks to a thin flat [scarf], on the side that will lie against the bow: they must bend double without a creak.",
        f"Soak {bow} until it bends over your knee, and bend it slowly until the marks stand {voice.length(handle.span_mm)} apart.",
        "Tie it across with string before you let go, and let it dry in that shape; keep the [scarfs] damp in a cloth.",
    ]
    return work.step(
        f"handle {number} bend",
        "Thin and bend the bows" if several else "Thin and bend the bow",
        actions,
        mends=["A piece that begins to splinter at the bend goes back into the water; do not force it."],
        figures=(figures_of_ears(number)[2],),
        does=("shave", "soak", "measure", "bend bow"),
        materials=(handle.spec.material,),
    )


def bow_hung_step(work: Work, handle: WorkedHandle, spec: Ears, number: int) -> ToldStep:
    """The bows led through their holes from outside, turned back up along themselves and bound."""
    voice, bows = work.voice, handle.spec.count
    bow = "the first bow" if bows > 1 else "the bow"
    shared = bows_through_a_hole(bows, spec.holes) > 1
    actions = [
        f"Lead one end of {bow} through its hole from the outside, as far as the mark.",
        "Turn it up on the inside and lay it back along the bow, slope to slope.",
        (
            f"Do the same at the other [ear]. From hole to hole the bow is now {voice.length(handle.bow_mm.value)} long, and its under side stands "
            f"{voice.length(handle.rise_mm)} above the rim."
        ),
        *_bound(work, handle),
    ]
    if bows > 1:
        actions.append(
            f"Hang the second bow in {'the same holes, beside the first' if shared else 'the other holes'}, and bind it likewise."
        )
    return work.step(
        f"handle {number}",
        "Hang the bows" if bows > 1 else "Hang the bow",
        actions,
        mends=["A bow that sticks in its hole is drawn out again and the hole eased; it must not be forced down."],
        counts=[
            "Both bows swing freely from rim to rim, and stand equally high."
            if bows > 1
            else "The bow swings freely from rim to rim, and stands equally high on both sides."
        ],
        figures=(figures_of_ears(number)[3], handle_names(number)[0]),
        does=("handle", "measure", "bend bow", *(("bind ends",) if handle.spec.bind else ())),
        materials=(handle.spec.material, *((handle.spec.bind.material,) if handle.spec.bind else ())),
    )


def _bound(work: Work, handle: WorkedHandle) -> list[str]:
    bind = handle.spec.bind
    if bind is None:
        return ["Tie both ends to the bow with thread; what is wound over them holds them."]
    material = work.basket.pattern.materials[bind.material]
    piece = next(item for item in work.pieces("binding", "bindings") if item.path[: len(bind.path)] == bind.path)
    turns = bind.turns if bind.turns is not None else round(work.basket.pattern.settings["bow_bind_turns"].value)
    places = "one place" if bind.places == 1 else f"{in_words(bind.places)} places"
    where = ", one close above the [ear] and one short of its tip" if bind.places == 2 else ""
    ends = {
        "wire": "Twist the ends of each binding together, cut them short, and press the twist flat against the bow: no end may stand out.",
        "cord": "Knot the ends of each binding hard, and cut them short.",
    }.get(material.stock.kind, "Tuck the ends of each binding back under its turns.")
    return [
        (
            f"Bind each end to the bow at {places}{where}, with {strand_words(material)} {work.voice.length(piece.cut_mm.value)} long: "
            f"{counted(turns, 'turn', 'turns')}, close together and tight."
        ),
        ends,
    ]


def plain_ears_in_actions(work: Work, handle: WorkedHandle, fastened: list[str]) -> list[str]:
    """Ears that stand by themselves, pushed down until the border lies in their notch."""
    return [
        f"Count round from the mark and find {stakes_found(handle)}.",
        f"Open a way down {beside(handle) if len(handle.feet_at) == 1 else 'beside each of them'}, on its {work.voice.on}, with the [bodkin].",
        f"Push an [ear] down into each, {work.voice.length(handle.foot_mm.value)} deep, until the [border] lies in its notch.",
        *fastened,
    ]
