"""French randing, packing, short rows and open work told: what is not one strand going round and round."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.units.counting import counted, listed
from slath.wording.speech import many
from slath.wording.stroke_words import Strokes, all_one, first_place, in_rows, whole_path
from slath.wording.stuff import colour_words
from slath.wording.uprights import uprights_of

if TYPE_CHECKING:
    from slath.basket.model import WovenBand
    from slath.language.pattern import ShortRows
    from slath.wording.uprights import Uprights
    from slath.wording.work import Work


def french_rand(work: Work, band: WovenBand) -> Strokes:
    """A rod to each space, worked one stroke at a time towards the back."""
    voice, words = work.voice, uprights_of(band, work.basket)
    materials = work.basket.pattern.materials
    keys = list(dict.fromkeys(rod[0] for rod in band.materials))
    turns = [colour_words(key, materials, keys) for key in keys]
    graded = any(materials[key].stock.tapered for key in keys)
    begin = (
        f"Take {many(len(band.materials), 'strand')}{all_one(work, band)}, one for each [space].",
        "Grade them: lay them out by length and thickness, and cut the [butts] so that all are as long as the shortest."
        if graded
        else "",
        f"Use the colours by turns: {listed(turns, 'then')}, and so again." if len(keys) > 1 else "",
        f"Lay the {'[butt]' if graded else 'end'} of a [strand] {words.back} any {words.one} and bring it out to the {voice.on}.",
        f"Weave one stroke with it, {whole_path(band, words)}, and leave it outside.",
        f"Lay the next [strand] in the [space] to the {voice.back} of the first, and weave it in the same way.",
        f"Go on to the {voice.back} until every [space] has its [strand].",
        "Lift the first ones to lay the last ones in under them.",
    )
    go_on = (
        f"Take any [strand] and weave one stroke with it, {whole_path(band, words)}.",
        f"Take the next to the {voice.back}, and so on: a round is done when each has made one stroke.",
        *_new_sets(work, band),
    )
    even = "Put thicker rods opposite one another, or the side comes up higher on one side." if graded else ""
    remarks = (
        f"Two [strands] out of one [space] mean that a [space] was skipped. Look one place to the {voice.on}.",
        even,
    )
    return Strokes(begin, go_on, remarks, (f"Leave each end {words.back_place}, against a {words.one}.",))


def english_rand(work: Work, band: WovenBand) -> Strokes:
    """A rod from every stake, each woven out before the next is begun one space further on. Common practice, no source;
    that a tip stops short of its own butt: a Scots willow tutorial.
    """
    voice, words = work.voice, uprights_of(band, work.basket)
    count, sets = len(band.materials), work.quantities.sets_of_rods(band.part, band.index)
    high = voice.length(work.band_row(band).along.value / sets)
    path = whole_path(band, words)
    keys = list(dict.fromkeys(rod[0] for rod in band.materials))
    turns = [colour_words(key, work.basket.pattern.materials, keys) for key in keys]
    end, tip = ("[butt]", "[tip]") if band.tapers else ("end", "other end")
    begin = (
        f"Take {many(count, 'strand')}{all_one(work, band)} for one set, one for each {words.one}.",
        "Grade them: lay them out by length and thickness, and keep those that are alike for places opposite one another."
        if band.tapers
        else "",
        f"Use the colours by turns: {listed(turns, 'then')}, and so again." if len(keys) > 1 else "",
        f"Lay the {end} of one {words.back} any {words.one} and bring it out to the {voice.on}.",
        f"Weave it right out, {path}, and leave its {tip} {words.back_place}, short of its own {end}.",
    )
    more = f"Begin the next set in the same way: {counted(sets, 'set', 'sets')} in all." if sets > 1 else ""
    go_on = (
        f"Lay the {end} of the next {words.back} the {words.one} to the {voice.on} of that, and weave it out on top of the first.",
        (
            f"Go on so, each begun one {words.one} further to the {voice.on}, until one has been begun {words.back} every {words.one}: "
            f"that is a set. It comes to about {high}, and lies level all round."
        ),
        more,
    )
    remarks = (
        f"A {tip} that is woven on over its own {end} lifts the work at that place. Stop it before, and cut it off later.",
        f"If a set does not come out level, a {words.one} was left out, or began twice.",
    )
    return Strokes(begin, go_on, remarks, ())


def _new_sets(work: Work, band: WovenBand) -> list[str]:
    """When rods are used up and others take their place, where one set does not reach the top of the band."""
    sets = work.quantities.sets_of_rods(band.part, band.index)
    if sets < 2:
        return []
    rounds = max(len(band.rounds) // sets, 1)
    return [
        f"When the [strands] are used up, after about {counted(rounds, 'round', 'rounds')}, finish that round and leave every end inside, against a [stake].",
        f"Begin a new set in the same way, one in each [space], as you began the first: {counted(sets, 'set', 'sets')} in all.",
    ]


def packing(work: Work, band: WovenBand) -> Strokes:
    """Rows that turn back short of a whole round."""
    voice, words = work.voice, uprights_of(band, work.basket)
    short = band.spec.short_rows
    if short is not None:
        return _short_rows(work, band, short)
    begin = (f"Lay the end of a [strand] inside, {words.back} {words.at(first_place(band, 0))}.",)
    rows = [
        f"{'Row' if cell.rows[0] == cell.rows[1] else 'Rows'} {in_rows(cell.rows)}: weave from {words.at(cell.stakes[0])} to "
        f"{words.at(cell.stakes[1])}, and turn round it."
        for cell in band.spec.cells
    ]
    go_on = (f"Weave to the {voice.on}, {whole_path(band, words)}.", *rows)
    remarks = ("Turn one short of the turn before, so that no hole opens where the rows turn back.",)
    return Strokes(begin, go_on, remarks, (f"End {words.back_place}.",))


def _short_rows(work: Work, band: WovenBand, short: ShortRows) -> Strokes:
    """Rows that turn back, told by the first, the second and the last."""
    voice, words, rows = work.voice, uprights_of(band, work.basket), len(band.rounds)
    first, last = short.over[0]
    begin = (f"Lay the end of a [strand] inside, {words.back} {words.at(max(first - 1, 1))}.",)
    less = words.count(short.shorter) if short.shorter else ""
    left, right = short.row(rows)
    go_on = (
        f"Weave to the {voice.on}, {whole_path(band, words)}, from {words.at(first)} as far as {words.at(last)}.",
        f"Turn round it, and weave back to the {voice.back} as far as {words.at(short.row(2)[0])}." if rows > 1 else "",
        f"So to and fro: at either side turn {less} short of the turn before it." if less and rows > 2 else "",
        f"The last row lies from {words.at(left)} to {words.at(right)}."
        if less
        else "Turn round the same two every time.",
        *(
            f"Do the same with another [strand] from {words.at(begun)} to {words.at(ended)}."
            for begun, ended in short.over[1:]
        ),
        f"Leave the {words.many} between bare: {_openings(band, words, short)}." if short.leaves_open else "",
    )
    if short.leaves_open:
        remark = (
            "Wrap the strand once more round the outer one where you turn, if the edge of the opening is to be firm."
        )
        return Strokes(begin, go_on, (remark,), (f"End {words.back_place}.",))
    remarks = ("Rows that all turned round one place would leave a hole there.",) if less else ()
    return Strokes(begin, go_on, remarks, (f"End {words.back_place}.",))


def _openings(band: WovenBand, words: Uprights, short: ShortRows) -> str:
    """The bare stakes after each stretch, as far as the next one."""
    ends = zip(short.over, [*short.over[1:], short.over[0]], strict=True)
    told = []
    for (_, last), (first, _) in ends:
        begun, ended = last % band.uprights + 1, (first - 2) % band.uprights + 1
        told.append(words.at(begun) if begun == ended else words.between(begun, ended))
    return listed(told)


def open_work(work: Work, band: WovenBand) -> Strokes:
    """Uprights left bare."""
    height = work.voice.length(work.band_row(band).along.value)
    words = uprights_of(band, work.basket)
    begin = (f"Leave the {words.many} bare for {height}.",)
    go_on = ("Mark that height on each before you weave on, and keep to the marks.",)
    return Strokes(begin, go_on, (), ())
