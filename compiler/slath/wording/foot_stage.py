"""The foot: where its ends come from, its weaving below the base, and its border."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from slath.basket.border_ends import foot_ends
from slath.units.counting import counted, in_words
from slath.wording.border_stage import border_stage, whose_ends
from slath.wording.figure_names import stroke_names
from slath.wording.speech import bracketed, sentence_case, verbatim
from slath.wording.strokes import shifted, strokes_of, weave_name
from slath.wording.uprights import uprights_of

if TYPE_CHECKING:
    from slath.basket.model import WorkedBorder, WovenBand
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work

_FACE = {"behind": "behind", "before": "in front of", "over": "in front of", "under": "behind"}


def foot_stage(work: Work, foot: WorkedBorder) -> ToldStage:
    """The stage of a foot border that closes, with what comes before it."""
    stage = border_stage(work, foot)
    ends = foot_ends(work.basket)
    before: list[ToldStep] = []
    if ends == "from the rim":
        before.append(_brought_down(work, foot))
    if ends == "of its own":
        before.append(_set_in(work))
    before += [_band(work, band) for band in work.basket.foot_bands]
    *earlier, last = (*before, *stage.steps)
    upright = "Turn the work over again, so that it stands on its foot."
    return replace(stage, steps=(*earlier, replace(last, actions=(*last.actions, upright))))


def _brought_down(work: Work, foot: WorkedBorder) -> ToldStep:
    """Ends bent over the rim and led down outside to the base, before the border above is worked."""
    voice = work.voice
    passed = [f"{_FACE[move.way]} {_next(move.count)}" for move in foot.spec.turned_down if move.count]
    actions = [
        f"Take {whose_ends(work, foot)}, one after another, and leave the others standing.",
        f"Bend the first down to the {voice.on}, {', '.join(passed)}, and out over the edge."
        if passed
        else "Bend the first out over the edge.",
        "Lead it down the outside, close along the weaving, until it stands out below the base.",
        "Do the same with each, all the way round.",
    ]
    return work.step(
        "foot turned down",
        "Bring the ends down",
        actions,
        notes=[
            "Keep the ends straight up and down: each comes out below the base as far from the next as all the others."
        ],
        counts=[f"{foot.count} ends stand out below the base."],
        does=("border", "damp"),
    )


def _next(count: int) -> str:
    return "the next" if count == 1 else f"the next {in_words(count)}"


def _set_in(work: Work) -> ToldStep:
    voice = work.voice
    (piece, *_) = work.pieces("foot stakes")
    depth = voice.length(piece.parts[0].value)
    count = round(piece.count.value)
    actions = [
        "Turn the basket over, and stand it on its rim.",
        "Cut one end of each foot [stake] to a [slype].",
        f"Push one into the weaving of the side from the base, beside each upright on its {voice.on}, {depth} deep.",
        "Let each stand as far from the next as all the others.",
    ]
    return work.step(
        "foot stakes",
        "Set the foot [stakes]",
        actions,
        counts=[f"{count} foot [stakes] stand below the base."],
        does=("point", "stake", "measure"),
        materials=(piece.material,),
    )


def _band(work: Work, band: WovenBand) -> ToldStep:
    """Weaving of the foot, from the base towards the ends."""
    strokes, words, row = strokes_of(work, band), uprights_of(band, work.basket), work.band_row(band)
    rounds = counted(len(band.rounds), "whole round", "whole rounds")
    stands = band.index == 0 and foot_ends(work.basket) != "of its own"
    actions = [
        "Turn the work over, so that the ends underneath point upwards." if stands else "",
        *strokes.begin,
        *strokes.go_on,
        shifted(work, band),
        f"Work {rounds}, {work.voice.length(row.along.value)} from the base.",
        *strokes.end,
    ]
    name = weave_name(band.spec.weave)
    own = bracketed(verbatim(band.name.strip()))
    title = name if band.name.startswith("band ") else f"{own}: {name}"
    keys = tuple(dict.fromkeys(key for rod in band.materials for key in rod))
    return work.step(
        f"foot band {band.index + 1}",
        sentence_case(title),
        actions,
        notes=[*strokes.remarks, bracketed(verbatim(band.spec.note))],
        stops=[f"{band.uprights} {words.many}."],
        figures=stroke_names(band, work.basket),
        does=("weave", "measure"),
        materials=keys,
        rounds=len(band.rounds),
    )
