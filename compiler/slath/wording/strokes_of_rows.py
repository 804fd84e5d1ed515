"""French randing, packing, short rows and open work told: what is not one strand going round and round."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from slath.basket.model import WovenBand
from slath.messages import Length, Listed, Message, message
from slath.plan.acts import WeaveRow
from slath.plan.places import Strand
from slath.wording.stroke_words import Strokes, all_one, in_rows, whole_path
from slath.wording.stuff import colour_said
from slath.wording.told import Clause
from slath.wording.uprights import Uprights, uprights_of
from slath.wording.work import Work


def french_rand(work: Work, band: WovenBand) -> Strokes:
    """A rod to each space, worked one stroke at a time towards the back."""
    words, told = uprights_of(band, work.basket), work.weaving(band)
    in_order = told.back.rods[::-1]  # as they are moved, each in the space to the left of the one before
    graded = any(work.basket.pattern.materials[rod.material].stock.tapered for rod in in_order)
    first = next(laid.at for laid in told.laid if laid.strand == in_order[0])
    stroke = words.path(told.strokes[:1])
    begin = (
        message("strokes.take-one-for-each-space", materials=len(in_order), all_one=all_one(work, band)),
        message("strokes.grade-them-lay-them-out") if graded else None,
        _by_turns(work, in_order),
        message("strokes.lay-the-of-a-strand", graded=graded, flat=words.flat, at=words.at(first.number)),
        message("strokes.weave-one-stroke-with-it", path=stroke),
        message("strokes.lay-the-next-strand-in"),
        message("strokes.go-on-to-the-until"),
        message("strokes.lift-the-first-ones-to"),
    )
    go_on = (
        message("strokes.take-any-strand-and-weave", path=whole_path(work, band, words)),
        message("strokes.take-the-next-to-the"),
        *_new_sets(work, band),
    )
    remarks = (
        message("strokes.two-strands-out-of-one"),
        message("strokes.put-thicker-rods-opposite-one") if graded else None,
    )
    return Strokes(
        begin, go_on, remarks, (message("strokes.leave-each-end-against-a", flat=words.flat, one=words.one),)
    )


def _by_turns(work: Work, in_order: Sequence[Strand]) -> Clause:
    """The colours by turns, as the rods are taken up one after another."""
    keys = list(dict.fromkeys(rod.material for rod in in_order))
    if len(keys) < 2:
        return None
    turn = next(
        (
            length
            for length in range(len(keys), len(in_order))
            if all(one.material == other.material for one, other in zip(in_order, in_order[length:], strict=False))
        ),
        len(in_order),
    )
    materials = work.basket.pattern.materials
    runs = [(key, len(list(run))) for key, run in groupby(rod.material for rod in in_order[:turn])]
    turns = tuple(message("staking.so-many", many=many, colour=colour_said(key, materials, keys)) for key, many in runs)
    return message("strokes.use-the-colours-by-turns", turns=Listed(turns))


def english_rand(work: Work, band: WovenBand) -> Strokes:
    """A rod from every stake, each woven out before the next is begun one space further on. Common practice, no source;
    that a tip stops short of its own butt: a Scots willow tutorial.
    """
    words, told = uprights_of(band, work.basket), work.weaving(band)
    path = whole_path(work, band, words)
    begin = (
        message("strokes.take-for-one-set-one", count=len(told.back.rods), all_one=all_one(work, band), one=words.one),
        message("strokes.grade-them-lay-them-out-2") if band.tapers else None,
        _by_turns(work, told.back.rods),
        message("strokes.lay-the-of-one-any", tapers=band.tapers, flat=words.flat, at=words.at(told.laid[0].at.number)),
        message("strokes.weave-it-right-out-and", path=path, tapers=band.tapers, flat=words.flat),
    )
    go_on = (
        message("strokes.lay-the-of-the-next", tapers=band.tapers, flat=words.flat, one=words.one),
        message("strokes.go-on-so-each-begun", one=words.one, flat=words.flat),
    )
    remarks = (
        message("strokes.a-that-is-woven-on", tapers=band.tapers),
        message("strokes.if-a-set-does-not", one=words.one),
    )
    return Strokes(begin, go_on, remarks, ())


def _new_sets(work: Work, band: WovenBand) -> list[Clause]:
    """When rods are used up and others take their place, where one set does not reach the top of the band."""
    sets = work.quantities.sets_of_rods(band.part, band.index)
    if sets < 2:
        return []
    rounds = max(work.weaving(band).back.rounds // sets, 1)
    return [
        message("strokes.when-the-strands-are-used", rounds=rounds),
        message("strokes.begin-a-new-set-in", sets=sets),
    ]


def packing(work: Work, band: WovenBand) -> Strokes:
    """Rows that turn back short of a whole round."""
    words = uprights_of(band, work.basket)
    if band.spec.short_rows is not None:
        return _short_rows(work, band, leaves_open=band.spec.short_rows.leaves_open)
    told = work.weaving(band)
    begin = (message("strokes.lay-the-end-of-a", flat=words.flat, at=words.at(told.laid[0].at.number)),)
    rows, done = [], 0
    for (first, last), run in groupby(told.rows, key=lambda row: (row.first.number, row.last.number)):
        many = len(list(run))
        rows.append(
            message(
                "strokes.weave-from-to-and-turn",
                several=many > 1,
                rows=in_rows((done + 1, done + many)),
                first=words.at(first),
                last=words.at(last),
            )
        )
        done += many
    path = message("strokes.path", strokes=words.path(band.spec.weave.strokes))
    go_on = (message("strokes.weave-to-the", path=path), *rows)
    remarks = (message("strokes.turn-one-short-of-the"),)
    return Strokes(begin, go_on, remarks, (message("strokes.end", flat=words.flat),))


def _short_rows(work: Work, band: WovenBand, *, leaves_open: bool) -> Strokes:
    """Rows that turn back, told by the first, the second and the last of each stretch; each stretch has its strand."""
    words, told = uprights_of(band, work.basket), work.weaving(band)
    stretches = [tuple(rows) for _, rows in groupby(told.rows, key=lambda row: row.strand)]
    rows = stretches[0]
    path = message("strokes.path", strokes=words.path(band.spec.weave.strokes))
    less = (rows[1].first.number - rows[0].first.number) % told.on.count if len(rows) > 1 else 0
    begin = (message("strokes.lay-the-end-of-a", flat=words.flat, at=words.at(told.laid[0].at.number)),)
    go_on = (
        message("strokes.weave-to-the-from-as", path=path, **_from_to(rows[0], words)),
        message("strokes.turn-round-it-and-weave", at=words.at(rows[1].first.number)) if len(rows) > 1 else None,
        message("strokes.so-to-and-fro-at", less=words.count(less)) if less and len(rows) > 2 else None,
        message("strokes.the-last-row-lies-from", **_from_to(rows[-1], words))
        if less
        else message("strokes.turn-round-the-same-two"),
        *(message("strokes.do-the-same-with-another", **_from_to(other[0], words)) for other in stretches[1:]),
        message("strokes.leave-the-between-bare", many=words.many, openings=_openings(stretches, words))
        if leaves_open
        else None,
    )
    remarks: tuple[Clause, ...] = ()
    if leaves_open:
        remarks = (message("strokes.wrap-the-strand-once-more"),)
    elif less:
        remarks = (
            message("strokes.rows-that-all-turned-round"),
            message("strokes.lower-where-none-lie", height=Length(band.reached_mm)),
        )
    return Strokes(begin, go_on, remarks, (message("strokes.end", flat=words.flat),))


def _from_to(row: WeaveRow, words: Uprights) -> dict[str, Message]:
    return {"first": words.at(row.first.number), "last": words.at(row.last.number)}


def _openings(stretches: Sequence[Sequence[WeaveRow]], words: Uprights) -> Listed:
    """The bare stakes after each stretch, as far as the next one."""
    told = []
    for rows, following in zip(stretches, [*stretches[1:], stretches[0]], strict=True):
        begun = rows[0].last.number % words.around + 1
        ended = (following[0].first.number - 2) % words.around + 1
        told.append(words.at(begun) if begun == ended else words.between(begun, ended))
    return Listed(tuple(told))


def open_work(work: Work, band: WovenBand) -> Strokes:
    """Uprights left bare."""
    height = Length(work.band_row(band).along.value)
    words = uprights_of(band, work.basket)
    begin = (message("strokes.leave-the-bare-for", many=words.many, height=height),)
    go_on = (message("strokes.mark-that-height-on-each"),)
    return Strokes(begin, go_on, (), ())
