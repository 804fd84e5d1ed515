"""The foot: where its ends come from, its weaving below the base, and its border."""

from __future__ import annotations

from msgspec.structs import replace

from slath.basket.border_ends import foot_ends
from slath.basket.model import WorkedBorder, WovenBand
from slath.messages import Length, Listed, message
from slath.plan.acts import Damp
from slath.wording.border_stage import border_stage, whose_ends
from slath.wording.figure_names import stroke_names
from slath.wording.speech import own_words
from slath.wording.strokes import shifted, strokes_of, weave_name
from slath.wording.told import ToldStage, ToldStep
from slath.wording.uprights import uprights_of
from slath.wording.work import Work

_IN_FRONT = {"before", "over"}  # ways of a move that pass on the side the maker sees


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
    more = [message("foot.turn-the-work-over-again")]
    if any(isinstance(act, Damp) for act in work.acts("foot done")):
        more.append(message("foot.wet-the-stakes-again"))
    return replace(stage, steps=(*earlier, replace(last, actions=(*last.actions, *more))))


def _brought_down(work: Work, foot: WorkedBorder) -> ToldStep:
    """Ends bent over the rim and led down outside to the base, before the border above is worked."""
    passed = [
        message("foot.past-the-next", before=move.way in _IN_FRONT, count=move.count)
        for move in foot.spec.turned_down
        if move.count
    ]
    actions = [
        message("foot.take-one-after-another-and", ends=whose_ends(work, foot)),
        message("foot.bend-the-first-down-to", ways=Listed(tuple(passed)))
        if passed
        else message("foot.bend-the-first-out-over"),
        message("foot.lead-it-down-the-outside"),
        message("foot.do-the-same-with-each"),
    ]
    return work.step(
        "foot turned down",
        message("foot.bring-the-ends-down"),
        actions,
        notes=[message("foot.keep-the-ends-straight-up")],
        counts=[message("foot.ends-stand-out-below-the", count=foot.count)],
        does=("border", "damp"),
    )


def _set_in(work: Work) -> ToldStep:
    (piece, *_) = work.pieces("foot stakes")
    depth = Length(piece.parts[0].value)
    count = round(piece.count.value)
    actions = [
        message("foot.turn-the-basket-over-and"),
        message("foot.cut-one-end-of-each"),
        message("foot.push-one-into-the-weaving", depth=depth),
        message("foot.let-each-stand-as-far"),
    ]
    return work.step(
        "foot stakes",
        message("foot.set-the-foot-stakes"),
        actions,
        counts=[message("foot.foot-stakes-stand-below-the", count=count)],
        does=("point", "stake", "measure"),
        materials=(piece.material,),
    )


def _band(work: Work, band: WovenBand) -> ToldStep:
    """Weaving of the foot, from the base towards the ends."""
    strokes, words, row = strokes_of(work, band), uprights_of(band, work.basket), work.band_row(band)
    rounds = len(band.rounds)
    stands = band.index == 0 and foot_ends(work.basket) != "of its own"
    actions = [
        message("foot.turn-the-work-over-so") if stands else None,
        None if band.index else message("foot.mark-one"),
        *strokes.begin,
        *strokes.go_on,
        shifted(work, band),
        message("foot.work-from-the-base", rounds=rounds, along=Length(row.along.value)),
        *strokes.end,
    ]
    name = weave_name(band.spec.weave)
    title = name
    if not band.name.startswith("band "):
        title = message("side.own-title", own=own_words(band.name.strip()), name=name)
    keys = tuple(dict.fromkeys(key for rod in band.materials for key in rod))
    return work.step(
        f"foot band {band.index + 1}",
        message("side.titled", title=title),
        actions,
        notes=[*strokes.remarks, message("side.own", words=own_words(band.spec.note)) if band.spec.note else None],
        stops=[message("side.so-many-uprights", uprights=band.uprights, many=words.many)],
        figures=stroke_names(band, work.basket),
        does=("weave", "measure"),
        materials=keys,
        rounds=len(band.rounds),
    )
