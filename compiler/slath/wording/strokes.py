"""How each weave is begun, worked on, kept right and ended, told for any weave on any number of uprights."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from slath.basket.weave import begun_folded
from slath.units.counting import counted, in_words, listed, ordinal
from slath.wording.speech import many
from slath.wording.stuff import colour_words, strand_words
from slath.wording.uprights import uprights_of

if TYPE_CHECKING:
    from slath.basket.model import WovenBand
    from slath.language.pattern import ShortRows, WeaveSpec
    from slath.wording.uprights import Uprights
    from slath.wording.work import Work


@dataclass(frozen=True, slots=True)
class Strokes:
    """A weave told: sentences to begin it, to work it, remarks, and to end it."""

    begin: tuple[str, ...]
    go_on: tuple[str, ...]
    remarks: tuple[str, ...]
    end: tuple[str, ...]


def weave_name(weave: WeaveSpec) -> str:
    """The trade name of a weave, with its count of strands where that belongs to the name."""
    plain_stroke = len(weave.strokes) == 1 and (weave.strokes[0].before, weave.strokes[0].behind) == (1, 1)
    stroke = "" if plain_stroke or weave.kind in {"wale", "open", "figure", "packing"} else _counts(weave)
    names = {
        "rand": "[randing]",
        "slew": f"[slewing] with {in_words(weave.as_one)} [strands]",
        "chase": "[chasing]",
        "pair": "[pairing]",
        "wale": f"{in_words(weave.rods)}-rod [wale]",
        "french rand": "[French randing]",
        "packing": "[packing]",
        "fitch": "[fitch]",
        "open": "[open work]",
        "figure": "figured weaving",
    }
    return f"{names[weave.kind]}{stroke}"


def _counts(weave: WeaveSpec) -> str:
    strokes = [f"{in_words(stroke.before)} and {in_words(stroke.behind)}" for stroke in weave.strokes]
    return f", {listed(strokes, 'then')}"


def strokes_of(work: Work, band: WovenBand) -> Strokes:
    """How `band` is worked, told for its own uprights and colours."""
    tellers = {
        "rand": _rand, "slew": _rand, "chase": _chase, "pair": _twined, "wale": _twined, "fitch": _twined,
        "french rand": _french, "packing": _packing, "open": _open, "figure": _rand,
    }  # fmt: skip
    return tellers[band.spec.weave.kind](work, band)


def in_brief(work: Work, band: WovenBand, strokes: Strokes, told_in: str) -> Strokes:
    """A weave told before, as a teacher reminds of it: where to begin, the stroke, and how to end."""
    words = uprights_of(band, work.basket)
    go_on = (f"Work as in {told_in}: {_cycle(band, words)}, always to the {work.voice.on}.",)
    return Strokes(strokes.begin, go_on, (), strokes.end)


def shifted(work: Work, band: WovenBand) -> str:
    """What is passed besides at the end of every round, where the designer shifts the course; else nothing."""
    if not band.spec.shift:
        return ""
    words = uprights_of(band, work.basket)
    return (
        f"At the end of every round pass {words.count(band.spec.shift)} more on the face you are on, before you change to "
        "the other; so the next round does not fall on its own track."
    )


def figured(work: Work, band: WovenBand) -> list[str]:
    """The places of a figure, round by round, with the stroke that is worked there instead."""
    if band.spec.weave.kind == "packing":
        return []
    words = uprights_of(band, work.basket)
    told = []
    for cell in band.spec.cells:
        first, last = cell.stakes
        where = words.at(first) if first == last else words.between(first, last)
        path = ", then ".join(words.stroke(stroke.before, stroke.behind) for stroke in cell.strokes)
        rounds = "round" if cell.rows[0] == cell.rows[1] else "rounds"
        told.append(f"In {rounds} {_span(cell.rows)}, at {where}, go {path} instead.")
    return told


def _first(band: WovenBand, rod: int) -> int:
    """The upright behind which the tail of a rod lies: the one before its first, as the weave model sets it out."""
    return (band.start + rod - 2) % band.uprights + 1


def _cycle(band: WovenBand, words: Uprights) -> str:
    """The whole path of one strand, stroke after stroke."""
    return ", then ".join(words.stroke(stroke.before, stroke.behind) for stroke in band.spec.weave.strokes)


# ---------------------------------------------------------------------------------------- one strand, or a bundle
def _rand(work: Work, band: WovenBand) -> Strokes:
    voice, words, weave = work.voice, uprights_of(band, work.basket), band.spec.weave
    bundle = weave.as_one > 1
    it = "them" if bundle else "it"
    taken = _bundle(work, band) if bundle else f"Take a [strand]{_all_one(work, band)}."
    end_words = "the ends" if bundle else "its end"
    begin = (
        taken,
        f"Lay {end_words} {words.back_place}, {words.back} {words.at(_first(band, 0))}.",
        _out(work, words, it),
    )
    keep = "Keep the [strands] side by side, one above the other and never twisted." if bundle else ""
    go_on = (
        f"Carry {it} to the {voice.on}: {_cycle(band, words)}.",
        "Go on round and round in the same way.",
        keep,
    )
    remarks = (_why_it_holds(band, words), _slip(words))
    end = (f"End {words.back} a {words.one}, close to where the band began.",)
    return Strokes(begin, go_on, remarks, end)


def _out(work: Work, words: Uprights, it: str) -> str:
    """Bring an end from the hidden face to the one the maker sees."""
    way = "out" if words.numbered else "up"
    return f"Bring {it} {way} through the [space] to the {work.voice.on} of it."


def _bundle(work: Work, band: WovenBand) -> str:
    keys = band.materials[0]
    colours = [colour_words(key, work.basket.pattern.materials, keys) for key in keys]
    order = f": from below, {listed(colours)}" if len(set(keys)) > 1 else ""
    return f"Take {many(len(keys), 'strand')}{_all_one(work, band)} and lay them together, to work as one{order}."


def _why_it_holds(band: WovenBand, words: Uprights) -> str:
    """Why this count suits this weave: each round falls differently on every upright from the round below."""
    weave, count = band.spec.weave, band.uprights
    if weave.kind == "figure" or band.spec.shift:
        return ""
    if weave.cycle == 2 and count % 2:
        return (
            f"There are {count} {words.many_counted}, an odd number, so each round covers what the round below did not."
        )
    shift = count % weave.cycle
    if not shift:
        return ""
    return (
        f"The stroke takes {in_words(weave.cycle)} {words.many} and there are {count}: each round falls "
        f"{in_words(shift)} further along than the round below, so that no {words.one} is passed on one side only."
    )


def _slip(words: Uprights) -> str:
    return (
        f"If two rounds lie alike on one {words.one}, a {words.one} was missed in the round before. "
        "Take the work back to it; it cannot be hidden."
    )


# ------------------------------------------------------------------------------------------------------ two chasing
def _all_one(work: Work, band: WovenBand) -> str:
    """The material of a band of one colour, where the pattern has others to take by mistake: `` of natural No. 3``."""
    keys = {key for rod in band.materials for key in rod}
    others = {run.material for run in work.quantities.strands} - keys
    if len(keys) != 1 or not others:
        return ""
    return f" of {strand_words(work.basket.pattern.materials[keys.pop()])}"


def _chase(work: Work, band: WovenBand) -> Strokes:
    voice, words = work.voice, uprights_of(band, work.basket)
    first, second = (_rod_name(work, band, rod) for rod in (0, 1))
    path = _cycle(band, words)
    begin = (
        f"Take {many(2, 'strand')}{_all_one(work, band)}."
        if len(set(band.materials)) == 1 and not _bundled(band)
        else "",
        f"Take {_in_bundles(work, band)}." if _bundled(band) else "",
        f"Lay the end of {first} {words.back} {words.at(_first(band, 0))}, and carry it to the {voice.on}: {path}.",
        "Weave on so until you are almost back where it began, and let it rest.",
        f"Lay the end of {second} {words.back} the next {words.one} to the {voice.on}.",
        f"Weave it in the same way: it goes {words.front_there} where the first went {words.back}.",
    )
    go_on = (
        "Weave the two by turns, part of a round with one and then as far with the other.",
        "Never let the one that follows overtake the one that leads.",
        "Count a round when both have been once round: it lies two rows high.",
    )
    remarks = (
        f"{_there_are(band, words)} an even number: one [strand] alone would fall on its own track, and two do not.",
        f"If both lie alike on one {words.one}, take the second back to it.",
    )
    end = (f"End each {words.back} the {words.one} where it began, so that the edge is level.",)
    return Strokes(begin, go_on, remarks, end)


def _there_are(band: WovenBand, words: Uprights) -> str:
    return f"There are {band.uprights} {words.many_counted},"


def _rod_name(work: Work, band: WovenBand, rod: int) -> str:
    """A strand of a chase or a pair by its colour if the two differ, else by its turn."""
    if len(set(band.materials)) > 1:
        keys = [rod[0] for rod in band.materials]
        return f"the {colour_words(keys[rod], work.basket.pattern.materials, keys)} {_one(band)}"
    return f"the {ordinal(rod + 1)} {_one(band)}"


def _bundled(band: WovenBand) -> bool:
    """Whether several strands lie together and move as one."""
    return band.spec.weave.as_one > 1


def _one(band: WovenBand) -> str:
    """What moves: a strand, or several as one."""
    return {1: "[strand]", 2: "pair of [strands]"}.get(band.spec.weave.as_one, "bundle of [strands]")


def _in_bundles(work: Work, band: WovenBand) -> str:
    """Strands taken together: ``four [strands] of No. 4 round reed, and lay them two together, to work as one``."""
    total, as_one = sum(len(rod) for rod in band.materials), band.spec.weave.as_one
    return f"{many(total, 'strand')}{_all_one(work, band)}, and lay them {in_words(as_one)} together, to work as one"


# ---------------------------------------------------------------------------------------------------- twined weaves
def _twined(work: Work, band: WovenBand) -> Strokes:
    voice, words, weave = work.voice, uprights_of(band, work.basket), band.spec.weave
    rods = len(band.materials)
    begin = (*_folded(work, band), *_laid_in(work, band)) if _can_fold(band) else _laid_in(work, band)
    turn = "Give the two a half twist in every [space], so that they grip." if weave.kind == "fitch" else ""
    lying = "over" if not band.spec.reversed else "under"
    other = "the other" if rods == 2 else "the others"
    up = "out to the front" if words.numbered else "up again"
    go_on = (
        f"Take the {_one(band)} furthest to the {voice.back}.",
        f"Carry it to the {voice.on}, {lying} {other}: {_cycle(band, words)}, and bring it {up}.",
        turn,
        f"Now {'the other' if rods == 2 else 'another'} is furthest to the {voice.back}. Move it in the same way.",
        f"Always move the one furthest to the {voice.back}, and pull each stroke down before the next.",
    )
    longest = words.count(max(stroke.before for stroke in weave.strokes))
    remarks = (
        f"If a [strand] lies {words.front} more than {longest}, one was moved out of turn. Take the work back to it.",
    )
    end = (
        "Stop when the last round is closed, above the place where the first began.",
        f"Tuck each [strand] in {words.back} the next {words.one}, the one furthest to the {voice.back} first.",
    )
    return Strokes(begin, go_on, remarks, end)


def _can_fold(band: WovenBand) -> bool:
    return begun_folded(band.spec.weave, band.materials)


def _folded(work: Work, band: WovenBand) -> tuple[str, ...]:
    voice, words = work.voice, uprights_of(band, work.basket)
    return (
        f"Take one long [strand]{_all_one(work, band)} and fold it a little off its middle, so that the joins will not come together.",
        f"Hang the fold round {words.at(_first(band, 1))}, with one half in the [space] on each side of it.",
        f"The half on the {voice.back} moves first.",
    )


def _laid_in(work: Work, band: WovenBand) -> tuple[str, ...]:
    if _can_fold(band):
        return ()
    voice, words = work.voice, uprights_of(band, work.basket)
    rods = len(band.materials)
    keys = [rod[0] for rod in band.materials]
    order = ""
    if len(set(keys)) > 1:
        colours = [colour_words(key, work.basket.pattern.materials, keys) for key in keys]
        order = f" in this order, from the {voice.back}: {listed(colours)}"
    behind = [_first(band, rod) for rod in range(rods)]
    taken = _in_bundles(work, band) if _bundled(band) else f"{many(rods, 'strand')}{_all_one(work, band)}"
    return (
        f"Take {taken}{order}.",
        f"Tuck their ends {words.back} {words.places(behind)}, one {words.back} each.",
        f"Bring each {'out' if words.numbered else 'up'} through the [space] to the {voice.on} of its {words.one}.",
    )


# ------------------------------------------------------------------------------------------------------- the others
def _french(work: Work, band: WovenBand) -> Strokes:
    voice, words = work.voice, uprights_of(band, work.basket)
    materials = work.basket.pattern.materials
    keys = list(dict.fromkeys(rod[0] for rod in band.materials))
    turns = [colour_words(key, materials, keys) for key in keys]
    graded = any(materials[key].stock.tapered for key in keys)
    begin = (
        f"Take {many(len(band.materials), 'strand')}{_all_one(work, band)}, one for each [space].",
        "Grade them: lay them out by length and thickness, and cut the [butts] so that all are as long as the shortest."
        if graded
        else "",
        f"Use the colours by turns: {listed(turns, 'then')}, and so again." if len(keys) > 1 else "",
        f"Lay the {'[butt]' if graded else 'end'} of a [strand] {words.back} any {words.one} and bring it out to the {voice.on}.",
        f"Weave one stroke with it, {_cycle(band, words)}, and leave it outside.",
        f"Lay the next [strand] in the [space] to the {voice.back} of the first, and weave it in the same way.",
        f"Go on to the {voice.back} until every [space] has its [strand].",
        "Lift the first ones to lay the last ones in under them.",
    )
    go_on = (
        f"Take any [strand] and weave one stroke with it, {_cycle(band, words)}.",
        f"Take the next to the {voice.back}, and so on: a round is done when each has made one stroke.",
        *_new_sets(work, band),
    )
    even = "Put thicker rods opposite one another, or the side comes up higher on one side." if graded else ""
    remarks = (
        f"Two [strands] out of one [space] mean that a [space] was skipped. Look one place to the {voice.on}.",
        even,
    )
    return Strokes(begin, go_on, remarks, (f"Leave each end {words.back_place}, against a {words.one}.",))


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


def _packing(work: Work, band: WovenBand) -> Strokes:
    voice, words = work.voice, uprights_of(band, work.basket)
    short = band.spec.short_rows
    if short is not None:
        return _short_rows(work, band, short)
    begin = (f"Lay the end of a [strand] inside, {words.back} {words.at(_first(band, 0))}.",)
    rows = [
        f"{'Row' if cell.rows[0] == cell.rows[1] else 'Rows'} {_span(cell.rows)}: weave from {words.at(cell.stakes[0])} to "
        f"{words.at(cell.stakes[1])}, and turn round it."
        for cell in band.spec.cells
    ]
    go_on = (f"Weave to the {voice.on}, {_cycle(band, words)}.", *rows)
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
        f"Weave to the {voice.on}, {_cycle(band, words)}, from {words.at(first)} as far as {words.at(last)}.",
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


def _span(rows: tuple[int, int]) -> str:
    return str(rows[0]) if rows[0] == rows[1] else f"{rows[0]} to {rows[1]}"


def _open(work: Work, band: WovenBand) -> Strokes:
    height = work.voice.length(work.band_row(band).along.value)
    words = uprights_of(band, work.basket)
    begin = (f"Leave the {words.many} bare for {height}.",)
    go_on = ("Mark that height on each before you weave on, and keep to the marks.",)
    return Strokes(begin, go_on, (), ())
