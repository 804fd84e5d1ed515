"""What a lid hangs by, how it is kept shut, and the knob it is lifted by."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.units.counting import in_words, listed
from slath.wording.handle_stage import ring_actions
from slath.wording.stuff import strand_words

if TYPE_CHECKING:
    from slath.basket.model import WorkedHandle
    from slath.language.pattern import Fastening, Hinge, Knob
    from slath.wording.told import ToldStep
    from slath.wording.work import Work


def fastening_steps(work: Work) -> list[ToldStep]:
    """The steps after the lid has been fitted: hinge, fastening, knob, where it has them."""
    lid = work.basket.pattern.lid
    if lid is None:
        return []
    steps = []
    if lid.hinge is not None:
        steps.append(_hinge_in_one(work, lid.hinge) if lid.hinge.in_one else _hinge(work, lid.hinge))
    if lid.fastening is not None:
        steps.append(_fastening(work, lid.fastening))
    if lid.knob is not None:
        steps.append(_knob(work, lid.knob))
    if work.basket.lid is not None and work.basket.lid.ring is not None:
        steps.append(_ring(work, work.basket.lid.ring))
    return steps


def _ring(work: Work, ring: WorkedHandle) -> ToldStep:
    """The ring a lid is lifted by, hung at its middle."""
    strand = strand_words(work.basket.pattern.materials[ring.spec.lash])
    hung = (
        f"Hang it at the middle of the lid by a loop of {strand}, {_cut(work, 'lid ring loop')} long: twice round the ring and down "
        "through the weaving between two [sticks], its ends crossed underneath and tucked away."
    )
    piece = f"Take the piece for the ring, {_cut(work, 'lid ring')} long, well soaked."
    return work.step(
        "lid ring",
        "Make the ring",
        [piece, *ring_actions(work, ring, hung)],
        counts=["The ring lies flat and lifts freely, and the lid hangs level from it."],
        does=("shave", "open weave", "measure", "soak"),
        materials=(ring.spec.material, ring.spec.lash),
    )


def _cut(work: Work, *parts: str) -> str:
    """The length the first of these parts is cut to."""
    (piece, *_) = work.pieces(*parts)
    return work.voice.length(piece.cut_mm.value)


def _places(at: tuple[int, ...], count: int, where: str) -> str:
    """Find the stakes they go beside, or share the places out by eye."""
    if at:
        numbers = listed([str(number) for number in at])
        return f"Count round from the mark and find {'[stakes]' if len(at) > 1 else '[stake]'} {numbers}."
    if count == 1:
        return f"Mark the middle of {where}."
    return f"Mark {in_words(count)} places at {where}, as far to one side of its middle as to the other."


def _turns(work: Work, hinge: Hinge) -> int:
    return hinge.turns if hinge.turns is not None else round(work.basket.pattern.settings["hinge_turns"].value)


def _hinge(work: Work, hinge: Hinge) -> ToldStep:
    material = work.basket.pattern.materials[hinge.material]
    one = "the lashing" if hinge.count == 1 else "each lashing"
    actions = [
        "Lay the lid on the basket, thread to thread.",
        _places(hinge.at, hinge.count, "the back"),
        f"Take a length of {strand_words(material)} for {one}, {_cut(work, 'hinge lashings', 'hinge lashing')} long, well soaked.",
        f"Carry it round the [border] of the basket and the edge of the lid together, {_times(_turns(work, hinge))}.",
        "Go through the weaving just below either, and lay the turns side by side.",
        "Keep it loose enough for the lid to stand open, and open and shut it before you fasten the ends.",
        "Tuck both ends into the weaving, on the inside.",
        "Do the same at the other places." if hinge.count > 1 else "",
    ]
    return work.step(
        "lid hinge",
        "Hang the lid",
        actions,
        notes=["A hinge that is too tight pulls the lid out of place; it only loosens by breaking."],
        counts=["The lid opens, stands, and falls shut in its place."],
        does=("wrap", "open weave", "soak"),
        materials=(hinge.material,),
    )


def _hinge_in_one(work: Work, hinge: Hinge) -> ToldStep:
    count = in_words(hinge.count)
    actions = [
        "Lay the lid on the basket, thread to thread.",
        _places(hinge.at, hinge.count, "the back"),
        f"Soak again the {count} ends that were left long there.",
        f"Carry each round the [border] of the basket, {_times(_turns(work, hinge))}, through the weaving just below it.",
        "Keep it loose enough for the lid to stand open.",
        "Bring the end back into the lid's [border] and tuck it away inside.",
    ]
    return work.step(
        "lid hinge",
        "Hang the lid",
        actions,
        counts=["The lid opens, stands, and falls shut in its place."],
        does=("border", "open weave", "damp"),
    )


def _times(turns: int) -> str:
    return {1: "once", 2: "twice"}.get(turns, f"{in_words(turns)} times")


def _fastening(work: Work, fastening: Fastening) -> ToldStep:
    voice, pattern = work.voice, work.basket.pattern
    across = fastening.across_mm if fastening.across_mm is not None else pattern.settings.mm("knob")
    strand = strand_words(pattern.materials[fastening.material])
    loop = [
        _places(fastening.at, fastening.count, "the front"),
        f"Fold a length of {strand}, {_cut(work, 'fastening loops', 'fastening loop')} long, and twist its two halves together.",
        "Push its ends through under the [border] of the lid and tuck them away, so that the loop hangs down in front.",
    ]
    if fastening.kind == "loop and peg":
        closed = [
            "Open the weaving of the basket with the [bodkin] where the loop ends, and draw the loop through.",
            f"Push the peg through the loop: it is {_cut(work, 'fastening pegs', 'fastening peg')} long.",
        ]
    else:
        closed = [
            *_wound(work, across, _cut(work, "fastening knobs", "fastening knob"), strand),
            "Thread both its ends through the weaving of the basket where the loop ends, and tuck them away inside.",
            "The loop goes over the knob with a push, and does not come off by itself.",
        ]
    return work.step(
        "lid fastening",
        "Fasten the lid",
        [*loop, *closed],
        counts=[f"The lid stays shut when the basket is tipped; the knob is {voice.length(across)} across."]
        if fastening.kind == "loop and knob"
        else ["The lid stays shut when the basket is tipped."],
        does=("open weave", "measure"),
        materials=(fastening.material,),
    )


def _wound(work: Work, across_mm: float, cut: str, strand: str) -> list[str]:
    return [
        f"For the knob take a length of {strand}, {cut} long.",
        "Wind it round two fingers four times, then across these turns, then through between them, and pull it tight turn by turn.",
        f"Wind on until it is a ball {work.voice.length(across_mm)} across, with both ends on one side.",
    ]


def _knob(work: Work, knob: Knob) -> ToldStep:
    across = knob.across_mm if knob.across_mm is not None else work.basket.pattern.settings.mm("knob")
    strand = strand_words(work.basket.pattern.materials[knob.material])
    actions = [
        *_wound(work, across, _cut(work, "lid knob"), strand),
        "Thread both ends down through the middle of the lid, cross them underneath, and tuck them into its weaving.",
    ]
    return work.step(
        "lid knob",
        "Make the knob",
        actions,
        counts=["The knob stands upright in the middle, and does not turn."],
        does=("open weave", "measure"),
        materials=(knob.material,),
    )
