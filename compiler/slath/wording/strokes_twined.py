"""Pairing, waling and fitching told: strands that are moved by turns, always the one furthest back."""

from __future__ import annotations

from slath.basket.model import WovenBand
from slath.messages import Listed, message
from slath.wording.stroke_words import Strokes, all_one, bundled, in_bundles, one_of, tails, whole_path
from slath.wording.stuff import colour_said
from slath.wording.told import Clause
from slath.wording.uprights import Uprights, uprights_of
from slath.wording.weaving import Weaving
from slath.wording.work import Work


def twined(work: Work, band: WovenBand) -> Strokes:
    """Two strands or more, moved by turns."""
    words, told = uprights_of(band, work.basket), work.weaving(band)
    rods = len(told.weave.rods)
    turn = message("strokes.give-the-two-a-half") if band.spec.weave.kind == "fitch" else None
    go_on = (
        message("strokes.take-the-furthest-to-the", one_of=one_of(band)),
        message(
            "strokes.carry-it-to-the-and",
            reversed=told.weave.under,
            one_of=one_of(band),
            others=rods - 1,
            path=whole_path(work, band, words),
            flat=words.flat,
        ),
        turn,
        message("strokes.now-is-furthest-to-the", two=rods == 2),
        message("strokes.always-move-the-one-furthest"),
    )
    longest = words.count(max(stroke.before for stroke in told.strokes))
    remarks = (message("strokes.if-a-strand-lies-more", flat=words.flat, longest=longest),)
    return Strokes(_begun(work, band, words, told), go_on, remarks, _ended(told, words))


def _begun(work: Work, band: WovenBand, words: Uprights, told: Weaving) -> tuple[Clause, ...]:
    """How the strands are laid in; nothing where they go on from the band before."""
    if not told.laid:
        return ()
    match told.laid[0].begun:
        case "folded":
            return (
                message("strokes.take-one-long-strand-and", all_one=all_one(work, band)),
                message("strokes.hang-the-fold-round-with", at=words.at(told.laid[1].at.number)),
                message("strokes.the-half-on-the-moves"),
            )
        case "in the split":
            first = words.at(told.laid[1].at.number)
            return (
                _taken(work, band, told),
                message("willow.tips-in-the-split", first=first),
                message("willow.one-waits", one=words.one),
            )
        case "by an end":
            places = words.places(tails(work, band))
            return (
                _taken(work, band, told),
                message("willow.tips-behind", flat=words.flat, places=places)
                if band.tapers
                else message("strokes.tuck-their-ends-one-each", flat=words.flat, places=places),
                message("strokes.bring-each-through-the-space", flat=words.flat, one=words.one),
            )


def _taken(work: Work, band: WovenBand, told: Weaving) -> Clause:
    """The strands in the order in which they lie, the one furthest back first."""
    keys = [rod[0].material for rod in told.weave.rods]
    order = None
    if len(set(keys)) > 1:
        colours = [colour_said(key, work.basket.pattern.materials, keys) for key in keys]
        order = message("strokes.in-this-order-from-the", colours=Listed(tuple(colours)))
    if bundled(band):
        return message("strokes.take-4", taken=in_bundles(work, band), order=order)
    return message("strokes.take-3", rods=len(keys), all_one=all_one(work, band), order=order)


def _ended(told: Weaving, words: Uprights) -> tuple[Clause, ...]:
    """Where the strands hang when the last round is closed, and how their ends are put away."""
    if not told.ended or told.after:
        return ()
    gaps = list(dict.fromkeys(act.at for act in told.ended))
    begun = {act.at.right for act in told.laid}
    return (
        message(
            "strokes.stop-when-they-hang",
            again=bool(begun) and begun == {gap.right for gap in gaps},
            where=words.space(gaps[0]),
        ),
        None if told.whole else message("strokes.last-strokes-are-shorter"),
        message("strokes.push-each-back", flat=words.flat, one=words.one),
    )


def stepped(work: Work, band: WovenBand) -> tuple[Clause, ...]:
    """How every round is closed with a step, where the acts do so."""
    told, words = work.weaving(band), uprights_of(band, work.basket)
    if not told.steps:
        return ()
    step = told.steps[0]
    stroke = words.stroke(step.strokes[0].before, step.strokes[0].behind)
    return (
        message("side.stop-before-the-step", where=words.space(step.at)),
        message("side.now-work-the-step-up", strokes=stroke),
        message("side.take-the-one-to-the"),
        message("side.the-strands-stand-where-they", rounds=len(told.steps)),
    )
