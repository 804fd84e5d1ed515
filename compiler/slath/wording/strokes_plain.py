"""Randing, slewing and chasing told: one strand, several as one, or two that follow one another."""

from __future__ import annotations

from slath.basket.model import WovenBand
from slath.messages import Listed, message
from slath.plan.acts import EndStrand, LayIn
from slath.wording.stroke_words import Strokes, all_one, bundled, first_place, in_bundles, rod_name, whole_path
from slath.wording.stuff import colour_said
from slath.wording.told import Clause
from slath.wording.uprights import Uprights, uprights_of
from slath.wording.work import Work

_BY_TURNS = 2  # uprights a stroke takes that goes before one and behind the next


def rand(work: Work, band: WovenBand) -> Strokes:
    """One strand, or several that move as one, round and round."""
    words, weave = uprights_of(band, work.basket), band.spec.weave
    bundle = weave.as_one > 1
    taken = _bundle(work, band) if bundle else message("strokes.take-a-strand", all_one=all_one(work, band))
    begin = (
        taken,
        _laid_in(work, band, words),
        message("strokes.bring-through-the-space-to", bundle=bundle, flat=words.flat),
    )
    keep = message("strokes.keep-the-strands-side-by") if bundle else None
    go_on = (
        message("strokes.carry-to-the", bundle=bundle, path=whole_path(band, words)),
        message("strokes.go-on-round-and-round"),
        keep,
    )
    remarks = (_why_it_holds(band, words), _slip(band, words))
    return Strokes(begin, go_on, remarks, (_ended(work, band, words),))


def _laid_in(work: Work, band: WovenBand, words: Uprights) -> Clause:
    """Where the strand is begun: where the last one ended, if it goes on for it."""
    laid = [act for act in work.band_acts(band) if isinstance(act, LayIn)]
    follows = bool(laid) and laid[0].follows is not None
    at = words.at(laid[0].at.number) if laid else words.at(first_place(band, 0))
    return message(
        "strokes.lay-where-the-last-ended" if follows else "strokes.lay",
        bundle=band.spec.weave.as_one > 1,
        flat=words.flat,
        at=at,
    )


def _ended(work: Work, band: WovenBand, words: Uprights) -> Clause:
    """Where the strand is ended, and on which side it comes there."""
    laid = next((act for act in work.band_acts(band, 1) if isinstance(act, LayIn)), None)
    if laid is not None and laid.follows is not None:
        return message("strokes.weave-on-and-end", flat=words.flat, at=words.at(laid.at.number))
    acts = work.band_acts(band) or ()
    ends = [act for act in (*acts, *work.acts("top")) if isinstance(act, EndStrand)]
    if words.flat or not ends:
        return message("strokes.end-a-close-to-where", flat=words.flat, one=words.one)
    left, right = ends[-1].at.between
    if ends[-1].side == "inside":
        return message("strokes.end-behind-where-it-began", at=words.at(left))
    return message("strokes.carry-behind-and-end", at=words.at(right))


def _bundle(work: Work, band: WovenBand) -> Clause:
    keys = band.materials[0]
    colours = [colour_said(key, work.basket.pattern.materials, keys) for key in keys]
    order = message("strokes.from-below", colours=Listed(tuple(colours))) if len(set(keys)) > 1 else None
    return message("strokes.take-and-lay-them-together", keys=len(keys), all_one=all_one(work, band), order=order)


def _why_it_holds(band: WovenBand, words: Uprights) -> Clause:
    """Why this count suits this weave: each round falls differently on every upright from the round below."""
    weave, count = band.spec.weave, band.uprights
    if weave.kind == "figure" or band.spec.shift:
        return None
    if weave.cycle == 2 and count % 2:
        return message("strokes.there-are-an-odd-number", count=count, many_counted=words.many_counted)
    shift = count % weave.cycle
    if not shift:
        return None
    return message(
        "strokes.the-stroke-takes-and-there",
        cycle=weave.cycle,
        many=words.many,
        count=count,
        shift=shift,
        one=words.one,
    )


def _slip(band: WovenBand, words: Uprights) -> Clause:
    """How a missed upright shows: only where strokes go by turns before one and behind one is it wrong for two to lie alike."""
    if band.spec.weave.cycle != _BY_TURNS:
        return None
    return message("strokes.if-two-rounds-lie-alike", one=words.one)


def chase(work: Work, band: WovenBand) -> Strokes:
    """Two strands that follow one another and never overtake."""
    words = uprights_of(band, work.basket)
    first, second = (rod_name(work, band, rod) for rod in (0, 1))
    path = whole_path(band, words)
    begin = (
        message("strokes.take", strands=2, all_one=all_one(work, band))
        if len(set(band.materials)) == 1 and not bundled(band)
        else None,
        message("strokes.take-2", bundles=in_bundles(work, band)) if bundled(band) else None,
        message(
            "strokes.lay-the-end-of-and", first=first, flat=words.flat, at=words.at(first_place(band, 0)), path=path
        ),
        message("strokes.weave-on-so-until-you"),
        message("strokes.lay-the-end-of-the", second=second, flat=words.flat, one=words.one),
        message("strokes.weave-it-in-the-same", flat=words.flat),
    )
    go_on = (
        message("strokes.weave-the-two-by-turns"),
        message("strokes.never-let-the-one-that"),
        message("strokes.count-a-round-when-both"),
    )
    remarks = (
        message("strokes.an-even-number-one-strand", count=band.uprights, many_counted=words.many_counted),
        message("strokes.if-both-lie-alike-on", one=words.one) if band.spec.weave.cycle == _BY_TURNS else None,
    )
    end = (message("strokes.end-each-the-where-it", flat=words.flat, one=words.one),)
    return Strokes(begin, go_on, remarks, end)
