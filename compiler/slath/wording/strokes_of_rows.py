"""French randing, packing, short rows and open work told: what is not one strand going round and round."""

from __future__ import annotations

from slath.basket.model import WovenBand
from slath.language.pattern import ShortRows
from slath.messages import Length, Listed, message
from slath.wording.stroke_words import Strokes, all_one, first_place, in_rows, whole_path
from slath.wording.stuff import colour_said
from slath.wording.told import Clause
from slath.wording.uprights import Uprights, uprights_of
from slath.wording.work import Work


def french_rand(work: Work, band: WovenBand) -> Strokes:
    """A rod to each space, worked one stroke at a time towards the back."""
    words = uprights_of(band, work.basket)
    materials = work.basket.pattern.materials
    keys = list(dict.fromkeys(rod[0] for rod in band.materials))
    turns = [colour_said(key, materials, keys) for key in keys]
    graded = any(materials[key].stock.tapered for key in keys)
    begin = (
        message("strokes.take-one-for-each-space", materials=len(band.materials), all_one=all_one(work, band)),
        message("strokes.grade-them-lay-them-out") if graded else None,
        message("strokes.use-the-colours-by-turns", turns=Listed(tuple(turns))) if len(keys) > 1 else None,
        message("strokes.lay-the-of-a-strand", graded=bool(graded), flat=words.flat, one=words.one),
        message("strokes.weave-one-stroke-with-it", path=whole_path(band, words)),
        message("strokes.lay-the-next-strand-in"),
        message("strokes.go-on-to-the-until"),
        message("strokes.lift-the-first-ones-to"),
    )
    go_on = (
        message("strokes.take-any-strand-and-weave", path=whole_path(band, words)),
        message("strokes.take-the-next-to-the"),
        *_new_sets(work, band),
    )
    even = message("strokes.put-thicker-rods-opposite-one") if graded else None
    remarks = (
        message("strokes.two-strands-out-of-one"),
        even,
    )
    return Strokes(
        begin, go_on, remarks, (message("strokes.leave-each-end-against-a", flat=words.flat, one=words.one),)
    )


def english_rand(work: Work, band: WovenBand) -> Strokes:
    """A rod from every stake, each woven out before the next is begun one space further on. Common practice, no source;
    that a tip stops short of its own butt: a Scots willow tutorial.
    """
    words = uprights_of(band, work.basket)
    count, sets = len(band.materials), work.quantities.sets_of_rods(band.part, band.index)
    high = Length(work.band_row(band).along.value) if sets == 1 else None
    path = whole_path(band, words)
    keys = list(dict.fromkeys(rod[0] for rod in band.materials))
    turns = [colour_said(key, work.basket.pattern.materials, keys) for key in keys]
    begin = (
        message("strokes.take-for-one-set-one", count=count, all_one=all_one(work, band), one=words.one),
        message("strokes.grade-them-lay-them-out-2") if band.tapers else None,
        message("strokes.use-the-colours-by-turns", turns=Listed(tuple(turns))) if len(keys) > 1 else None,
        message("strokes.lay-the-of-one-any", tapers=band.tapers, flat=words.flat, one=words.one),
        message("strokes.weave-it-right-out-and", path=path, tapers=band.tapers, flat=words.flat),
    )
    more = message("strokes.begin-the-next-set-in", sets=sets) if sets > 1 else None
    go_on = (
        message("strokes.lay-the-of-the-next", tapers=band.tapers, flat=words.flat, one=words.one),
        (message("strokes.go-on-so-each-begun", one=words.one, flat=words.flat, high=high)),
        more,
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
    rounds = max(len(band.rounds) // sets, 1)
    return [
        message("strokes.when-the-strands-are-used", rounds=rounds),
        message("strokes.begin-a-new-set-in", sets=sets),
    ]


def packing(work: Work, band: WovenBand) -> Strokes:
    """Rows that turn back short of a whole round."""
    words = uprights_of(band, work.basket)
    short = band.spec.short_rows
    if short is not None:
        return _short_rows(work, band, short)
    begin = (message("strokes.lay-the-end-of-a", flat=words.flat, at=words.at(first_place(band, 0))),)
    rows = [
        message(
            "strokes.weave-from-to-and-turn",
            several=cell.rows[0] != cell.rows[1],
            rows=in_rows(cell.rows),
            first=words.at(cell.stakes[0]),
            last=words.at(cell.stakes[1]),
        )
        for cell in band.spec.cells
    ]
    go_on = (message("strokes.weave-to-the", path=whole_path(band, words)), *rows)
    remarks = (message("strokes.turn-one-short-of-the"),)
    return Strokes(begin, go_on, remarks, (message("strokes.end", flat=words.flat),))


def _short_rows(work: Work, band: WovenBand, short: ShortRows) -> Strokes:
    """Rows that turn back, told by the first, the second and the last."""
    words, rows = uprights_of(band, work.basket), len(band.rounds)
    first, last = short.over[0]
    begin = (message("strokes.lay-the-end-of-a", flat=words.flat, at=words.at(max(first - 1, 1))),)
    less = words.count(short.shorter) if short.shorter else None
    left, right = short.row(rows)
    go_on = (
        message(
            "strokes.weave-to-the-from-as", path=whole_path(band, words), first=words.at(first), last=words.at(last)
        ),
        message("strokes.turn-round-it-and-weave", at=words.at(short.row(2)[0])) if rows > 1 else None,
        message("strokes.so-to-and-fro-at", less=less) if less and rows > 2 else None,
        message("strokes.the-last-row-lies-from", first=words.at(left), last=words.at(right))
        if less
        else message("strokes.turn-round-the-same-two"),
        *(
            message("strokes.do-the-same-with-another", first=words.at(begun), last=words.at(ended))
            for begun, ended in short.over[1:]
        ),
        message("strokes.leave-the-between-bare", many=words.many, openings=_openings(band, words, short))
        if short.leaves_open
        else None,
    )
    if short.leaves_open:
        remark = message("strokes.wrap-the-strand-once-more")
        return Strokes(begin, go_on, (remark,), (message("strokes.end", flat=words.flat),))
    remarks = (message("strokes.rows-that-all-turned-round"),) if less else ()
    return Strokes(begin, go_on, remarks, (message("strokes.end", flat=words.flat),))


def _openings(band: WovenBand, words: Uprights, short: ShortRows) -> Listed:
    """The bare stakes after each stretch, as far as the next one."""
    ends = zip(short.over, [*short.over[1:], short.over[0]], strict=True)
    told = []
    for (_, last), (first, _) in ends:
        begun, ended = last % band.uprights + 1, (first - 2) % band.uprights + 1
        told.append(words.at(begun) if begun == ended else words.between(begun, ended))
    return Listed(tuple(told))


def open_work(work: Work, band: WovenBand) -> Strokes:
    """Uprights left bare."""
    height = Length(work.band_row(band).along.value)
    words = uprights_of(band, work.basket)
    begin = (message("strokes.leave-the-bare-for", many=words.many, height=height),)
    go_on = (message("strokes.mark-that-height-on-each"),)
    return Strokes(begin, go_on, (), ())
