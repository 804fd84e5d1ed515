"""Randing, slewing and chasing told: one strand, several as one, or two that follow one another."""

from __future__ import annotations

from slath.basket.model import WovenBand
from slath.messages import Listed, message
from slath.plan.acts import EndStrand
from slath.wording.stroke_words import Strokes, all_one, bundled, in_bundles, rod_name, whole_path
from slath.wording.stuff import colour_said
from slath.wording.told import Clause
from slath.wording.uprights import Uprights, uprights_of
from slath.wording.weaving import Weaving
from slath.wording.work import Work

_BY_TURNS = 2  # uprights a stroke takes that goes before one and behind the next


def rand(work: Work, band: WovenBand) -> Strokes:
    """One strand, or several that move as one, round and round."""
    words, told = uprights_of(band, work.basket), work.weaving(band)
    bundle = len(told.weave.rods[0]) > 1
    go_on = (
        message("strokes.carry-to-the", bundle=bundle, path=whole_path(work, band, words)),
        message("strokes.go-on-round-and-round"),
        message("strokes.keep-the-strands-side-by") if bundle else None,
    )
    remarks = (_why_it_holds(band, told, words), _slip(told, words))
    return Strokes(_begun(work, band, told, words), go_on, remarks, _ended(told, words))


def _begun(work: Work, band: WovenBand, told: Weaving, words: Uprights) -> tuple[Clause, ...]:
    """What is taken up and where it is begun: where the last one ended, if it goes on for it."""
    if not told.laid:
        return ()
    laid, bundle = told.laid[0], len(told.weave.rods[0]) > 1
    at = words.at(laid.at.number)
    return (
        _bundle(work, band, told) if bundle else message("strokes.take-a-strand", all_one=all_one(work, band)),
        message("strokes.lay", bundle=bundle, flat=words.flat, at=at)
        if laid.follows is None
        else message("strokes.lay-where-the-last-ended", bundle=bundle, flat=words.flat, at=at),
        message("strokes.bring-through-the-space-to", bundle=bundle, flat=words.flat),
    )


def _ended(told: Weaving, words: Uprights) -> tuple[Clause, ...]:
    """Where the strand is ended, and on which side it comes there; nothing where it goes on."""
    if told.after:
        return (message("strokes.weave-on-and-end", flat=words.flat, at=words.at(told.after[0].at.number)),)
    if not told.ended:
        return ()
    end = told.ended[-1]
    left, right = (words.at(number) for number in end.at.between)
    began = bool(told.laid) and told.laid[0].at.right == end.at.right
    if _far(end):
        return (message("strokes.end-behind-where-it-began", at=left, flat=words.flat, began=began),)
    return (
        message(
            "strokes.carry-behind-and-end",
            at=right,
            flat=words.flat,
            began=began,
            bundle=len(told.weave.rods[0]) > 1,
        ),
    )


def _far(end: EndStrand) -> bool:
    """Whether a strand ends on the side turned away from the maker, where ends are left."""
    return end.side in {"inside", "below"}


def _bundle(work: Work, band: WovenBand, told: Weaving) -> Clause:
    keys = [strand.material for strand in told.weave.rods[0]]
    colours = [colour_said(key, work.basket.pattern.materials, keys) for key in keys]
    order = message("strokes.from-below", colours=Listed(tuple(colours))) if len(set(keys)) > 1 else None
    return message("strokes.take-and-lay-them-together", keys=len(keys), all_one=all_one(work, band), order=order)


def _why_it_holds(band: WovenBand, told: Weaving, words: Uprights) -> Clause:
    """Why this count suits this weave: each round falls differently on every upright from the round below."""
    cycle, count = sum(stroke.reach for stroke in told.strokes), told.on.count
    if band.spec.weave.kind == "figure" or told.weave.extra:
        return None
    if cycle == _BY_TURNS and count % 2:
        return message("strokes.there-are-an-odd-number", count=count, many_counted=words.many_counted)
    shift = count % cycle
    if not shift:
        return None
    return message(
        "strokes.the-stroke-takes-and-there", cycle=cycle, many=words.many, count=count, shift=shift, one=words.one
    )


def _slip(told: Weaving, words: Uprights) -> Clause:
    """How a missed upright shows: only where strokes go by turns before one and behind one is it wrong for two to lie alike."""
    if sum(stroke.reach for stroke in told.strokes) != _BY_TURNS:
        return None
    return message("strokes.if-two-rounds-lie-alike", one=words.one)


def chase(work: Work, band: WovenBand) -> Strokes:
    """Two strands that follow one another and never overtake."""
    words, told = uprights_of(band, work.basket), work.weaving(band)
    go_on = (
        message("strokes.weave-the-two-by-turns"),
        message("strokes.never-let-the-one-that"),
        message("strokes.count-a-round-when-both"),
    )
    remarks = (
        message("strokes.an-even-number-one-strand", count=told.on.count, many_counted=words.many_counted)
        if told.on.count % 2 == 0
        else None,
        message("strokes.if-both-lie-alike-on", one=words.one)
        if sum(stroke.reach for stroke in told.strokes) == _BY_TURNS
        else None,
    )
    end = tuple(_chase_ended(work, band, rod, words) for rod in (0, 1)) if told.ended else ()
    return Strokes(_chase_begun(work, band, told, words), go_on, remarks, end)


def _chase_begun(work: Work, band: WovenBand, told: Weaving, words: Uprights) -> tuple[Clause, ...]:
    """The first laid in and woven nearly round, and the second one space further on; nothing where both go on."""
    if not told.laid:
        return ()
    bundle = bundled(band)
    first, second = (rod_name(work, band, rod) for rod in (0, 1))
    places = list(dict.fromkeys(laid.at.number for laid in told.laid))
    taken = message("strokes.take", strands=2, all_one=all_one(work, band))
    return (
        taken if len({laid.strand.material for laid in told.laid}) == 1 and not bundle else None,
        message("strokes.take-2", bundles=in_bundles(work, band)) if bundle else None,
        message(
            "strokes.lay-the-end-of-and",
            first=first,
            flat=words.flat,
            at=words.at(places[0]),
            over=told.laid[0].follows is not None,
            path=whole_path(work, band, words),
        ),
        message("strokes.weave-on-so-until-you"),
        message(
            "strokes.lay-the-end-of-the",
            second=second,
            flat=words.flat,
            at=words.at(places[1]),
            over=told.laid[-1].follows is not None,
        ),
        message("strokes.weave-it-in-the-same", flat=words.flat),
    )


def _chase_ended(work: Work, band: WovenBand, rod: int, words: Uprights) -> Clause:
    """Where one of the two is ended."""
    told = work.weaving(band)
    strand = told.weave.rods[rod][0]
    end = next(act for act in told.ended if act.strand == strand)
    left, right = (words.at(number) for number in end.at.between)
    return message(
        "strokes.chase-ended",
        rod=rod_name(work, band, rod),
        at=left if _far(end) else right,
        flat=words.flat,
        on=not _far(end),
    )
