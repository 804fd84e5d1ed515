"""Pairing, waling and fitching told: strands that are moved by turns, always the one furthest back."""

from __future__ import annotations

from slath.basket.model import WovenBand
from slath.messages import Listed, message
from slath.wording.stroke_words import Strokes, all_one, bundled, first_place, in_bundles, one_of, whole_path
from slath.wording.stuff import colour_said
from slath.wording.told import Clause
from slath.wording.uprights import uprights_of
from slath.wording.willow import laid_in
from slath.wording.work import Work


def twined(work: Work, band: WovenBand) -> Strokes:
    """Two strands or more, moved by turns."""
    words, weave = uprights_of(band, work.basket), band.spec.weave
    rods = len(band.materials)
    begin = (*_folded(work, band), *_laid_in(work, band)) if _can_fold(band) else _laid_in(work, band)
    turn = message("strokes.give-the-two-a-half") if weave.kind == "fitch" else None
    go_on = (
        message("strokes.take-the-furthest-to-the", one_of=one_of(band)),
        message(
            "strokes.carry-it-to-the-and",
            reversed=band.spec.reversed,
            others=rods - 1,
            path=whole_path(band, words),
            flat=words.flat,
        ),
        turn,
        message("strokes.now-is-furthest-to-the", two=rods == 2),
        message("strokes.always-move-the-one-furthest"),
    )
    longest = words.count(max(stroke.before for stroke in weave.strokes))
    remarks = (message("strokes.if-a-strand-lies-more", flat=words.flat, longest=longest),)
    tips = band.tapers and work.quantities.sets_of_rods(band.part, band.index) % 2 == 0
    end = (
        message("strokes.stop-when-the-last-round"),
        message("strokes.tuck-each-in-the-next", tips=bool(tips), flat=words.flat, one=words.one),
    )
    return Strokes(begin, go_on, remarks, end)


def _can_fold(band: WovenBand) -> bool:
    return band.begins_folded


def _folded(work: Work, band: WovenBand) -> tuple[Clause, ...]:
    words = uprights_of(band, work.basket)
    return (
        message("strokes.take-one-long-strand-and", all_one=all_one(work, band)),
        message("strokes.hang-the-fold-round-with", at=words.at(first_place(band, 1))),
        message("strokes.the-half-on-the-moves"),
    )


def _in_the_split(work: Work, band: WovenBand) -> bool:
    """Whether a band is the first round the slath of pierced sticks, whose split holds the tips of its two rods."""
    base = work.basket.base
    first = bool(base.bands) and base.bands[0] is band
    return first and len(band.materials) == 2 and any(stick.pierced for stick in base.sticks)


def _laid_in(work: Work, band: WovenBand) -> tuple[Clause, ...]:
    if _can_fold(band):
        return ()
    words = uprights_of(band, work.basket)
    rods = len(band.materials)
    keys = [rod[0] for rod in band.materials]
    order = None
    if len(set(keys)) > 1:
        colours = [colour_said(key, work.basket.pattern.materials, keys) for key in keys]
        order = message("strokes.in-this-order-from-the", colours=Listed(tuple(colours)))
    behind = [first_place(band, rod) for rod in range(rods)]
    if band.tapers:
        in_slath = _in_the_split(work, band)
        told = laid_in(words, words.places(behind), in_slath=in_slath)
        out = message("strokes.bring-each-through-the-space", flat=words.flat, one=words.one)
        return (
            message("strokes.take-3", rods=rods, all_one=all_one(work, band), order=order),
            told,
            None if in_slath else out,
        )
    taken = message("strokes.take-3", rods=rods, all_one=all_one(work, band), order=order)
    if bundled(band):
        taken = message("strokes.take-4", taken=in_bundles(work, band), order=order)
    return (
        taken,
        message("strokes.tuck-their-ends-one-each", flat=words.flat, places=words.places(behind)),
        message("strokes.bring-each-through-the-space", flat=words.flat, one=words.one),
    )
