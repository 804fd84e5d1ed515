"""Bands as acts: strands laid in where the last ended, strokes as far as the band goes, ends with their sides."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from slath.basket.courses import keeps_step
from slath.basket.model import ConstructedBase, WovenBand
from slath.basket.weave import faces_of
from slath.language.pattern import Stroke
from slath.plan.acts import Act, Bring, EndStrand, Instead, LayIn, StepUp, Weave, WeaveBack, WeaveRow
from slath.plan.bench import Bench, Course
from slath.plan.places import Numbering, Side

Begun = Literal["by an end", "folded", "in the split"]
FLAT: dict[str, Side] = {"before": "above", "behind": "below"}
ROUND: dict[str, Side] = {"before": "outside", "behind": "inside"}


def band_acts(
    bench: Bench,
    band: WovenBand,
    on: Numbering,
    *,
    goes_on: bool,
    beyond: WovenBand | None,
    held: bool = False,
    in_split: bool = False,
) -> list[Act]:
    """The acts of one band woven on `on`; `beyond` is the band that goes on in its strokes, if any does.

    `held`: its strands go on over other uprights, in the order they have here. `in_split`: its rods begin by their tips in
    the split of the slath.
    """
    if not band.materials or not band.rounds:
        return ended(bench, on)
    if band.spec.weave.kind == "french rand":
        return [*ended(bench, on), *_back(bench, band, on)]
    if band.spec.weave.kind == "packing":
        return [*ended(bench, on), *_rows(bench, band, on)]
    acts = _taken_up(bench, band, on, goes_on=goes_on, in_split=in_split)
    further = (beyond.start - band.start) % band.uprights if beyond is not None and keeps_step(band, beyond) else 0
    if steps_up(band) and not further:
        return acts + _stepped(bench, band, on)
    whole = by_whole_strokes(band) and not (held and not further and len(set(band.materials)) > 1)
    acts.append(_strokes(bench, band, on, (len(band.rounds), further), whole=whole))
    return acts


def by_whole_strokes(band: WovenBand) -> bool:
    """Whether strands of a twined weave hang in the spaces where they began after every round of whole strokes.

    They do where a stroke is as long as there are rods: the one furthest back always moves just past the others.
    """
    weave = band.spec.weave
    plain = len(weave.strokes) == 1 and weave.twined and not band.spec.shift and not band.spec.cells
    return plain and weave.cycle == weave.rods and band.uprights > weave.rods


def steps_up(band: WovenBand) -> bool:
    """Whether every round closes with a step."""
    return band.spec.step_up and by_whole_strokes(band) and bool(band.rounds)


def ended(bench: Bench, on: Numbering) -> list[Act]:
    """Every strand at work ended where it stands."""
    acts: list[Act] = [end for course in bench.rods for end in _ends(bench, course, on)]
    bench.rods, bench.band = [], None
    return acts


def _ends(bench: Bench, course: Course, on: Numbering) -> list[EndStrand]:
    return [EndStrand(strand, on.before(course.right), _side(bench, course)) for strand in course.strands]


def _side(bench: Bench, course: Course) -> Side:
    """The side a strand stands on: that of the upright it passed last."""
    if bench.band is None:
        return "inside"
    faces = faces_of(bench.band.spec.weave.strokes)
    return sides_of(bench.band)[faces[course.phase - 1]]


def sides_of(band: WovenBand) -> dict[str, Side]:
    """The sides of a band's uprights by face: of a side, or of flat work that lies on the table."""
    return FLAT if band.on_sticks else ROUND


def _taken_up(bench: Bench, band: WovenBand, on: Numbering, *, goes_on: bool, in_split: bool) -> list[Act]:
    """The strands of the band before that go on, those that are changed where they stand, or new ones."""
    before = bench.band
    if goes_on and bench.rods and len(bench.rods) == len(band.materials):
        acts = _placed(bench, band, on)
        bench.band = band
        return acts
    if before is not None and keeps_step(before, band) and len(bench.rods) == len(band.materials):
        acts = []
        for course, materials in zip(bench.rods, band.materials, strict=True):
            acts += _changed(bench, course, materials, on)
        bench.band = band
        return acts
    acts = ended(bench, on)
    bench.band = band
    for rod, materials in enumerate(band.materials):
        right = on.units[(band.start - 1 + rod) % on.count][0]
        course = Course(tuple(bench.strand(material) for material in materials), right)
        bench.rods.append(course)
        begun: Begun = "folded" if band.begins_folded else "in the split" if in_split else "by an end"
        acts += [LayIn(strand, on.before(right), sides_of(band)["behind"], begun=begun) for strand in course.strands]
    return acts


def begins_in_split(base: ConstructedBase, band: WovenBand) -> bool:
    """Whether a band begins with two rods whose tips go into the split of the slath together, as willow is begun."""
    slit = bool(base.bands) and base.bands[0] is band and any(stick.pierced for stick in base.sticks)
    return slit and band.tapers and len(band.materials) == 2


def _placed(bench: Bench, band: WovenBand, on: Numbering) -> list[Act]:
    """Strands that go on: where they stand, or, over other uprights or in other strokes, from where those begin."""
    acts: list[Act] = []
    in_step = bench.band is not None and bench.band.part == band.part and keeps_step(bench.band, band)
    in_step = in_step and all(any(course.right == unit[0] for unit in on.units) for course in bench.rods)
    for rod, course in enumerate(bench.rods):
        due = on.units[(band.start - 1 + rod) % on.count][0]
        if in_step or course.right == due:
            course.phase = course.phase if in_step else 0
            continue
        course.right, course.phase = due, 0
        acts += [Bring(strand, on.before(due), sides_of(band)["behind"]) for strand in course.strands]
    return acts


def _changed(bench: Bench, course: Course, materials: Sequence[str], on: Numbering) -> list[Act]:
    """The old strands end where they stand; the new ones lie in there and go on, on the stroke that is due."""
    at, side = on.before(course.right), _side(bench, course)
    old, course.strands = course.strands, tuple(bench.strand(material) for material in materials)
    follows = [old[min(place, len(old) - 1)] for place in range(len(materials))]
    return [
        *(EndStrand(strand, at, side) for strand in old),
        *(LayIn(strand, at, side, before) for strand, before in zip(course.strands, follows, strict=True)),
    ]


def _strokes(
    bench: Bench, band: WovenBand, on: Numbering, far: tuple[int, int], *, whole: bool, short: int = 0
) -> Weave:
    """So many rounds with every rod, and so much further as the band that goes on begins, less the last `short` strokes."""
    weave, (rounds, further) = band.spec.weave, far
    travel = rounds * band.uprights + further
    travels = (travel,) * len(bench.rods)
    if whole:  # so many strokes in all, each by the one furthest back: then all hang where they began
        travels = tuple(weave.cycle * -(-(travel - short - rod) // weave.rods) for rod in range(weave.rods))
    phases = tuple(course.phase for course in bench.rods)
    strands = tuple(course.strands for course in bench.rods)
    for course, passed in zip(bench.rods, travels, strict=True):
        _moved_on(course, on, passed)
        course.phase = (course.phase + passed - band.spec.shift * rounds) % weave.cycle
    if len(set(travels)) > 1:  # the one furthest back is another now
        first = (travel - short) % weave.rods
        bench.rods = bench.rods[first:] + bench.rods[:first]
    return Weave(
        rods=strands,
        strokes=weave.strokes,
        travels=travels,
        phases=phases,
        order="following" if weave.kind == "chase" else "in turn",
        on=on,
        till=on.before(bench.rods[0].right),
        extra=band.spec.shift,
        under=band.spec.reversed,
        sides=(sides_of(band)["before"], sides_of(band)["behind"]),
        instead=_instead(band, on),
    )


def _moved_on(course: Course, on: Numbering, far: int) -> None:
    place = next(index for index, unit in enumerate(on.units) if unit[0] == course.right)
    course.right = on.units[(place + far) % on.count][0]


def _stepped(bench: Bench, band: WovenBand, on: Numbering) -> list[Act]:
    """Every round but its last strokes as usual, then the step: these strokes in the other order."""
    weave = band.spec.weave
    acts: list[Act] = []
    for _ in band.rounds:
        acts.append(_strokes(bench, band, on, (1, 0), whole=True, short=weave.rods))
        last_first = bench.rods[::-1]
        acts.append(
            StepUp(
                tuple(course.strands for course in last_first),
                on.before(last_first[0].right),
                weave.strokes,
                on,
                band.spec.reversed,
                (sides_of(band)["before"], sides_of(band)["behind"]),
            )
        )
        for course in bench.rods:
            _moved_on(course, on, weave.cycle)
    return acts


def _instead(band: WovenBand, on: Numbering) -> tuple[Instead, ...]:
    return tuple(
        Instead(cell.rows, on.at(cell.stakes[0]), on.at(cell.stakes[1]), cell.strokes)
        for cell in band.spec.cells
        if cell.strokes
    )


def _back(bench: Bench, band: WovenBand, on: Numbering) -> list[Act]:
    """A rod in every space, each moved one stroke at a time, towards the left."""
    sides = sides_of(band)
    strands = tuple(bench.strand(materials[0]) for materials in band.materials)
    laid = [
        LayIn(strand, on.before(on.units[(band.start - 1 + rod) % on.count][0]), sides["behind"])
        for rod, strand in enumerate(strands)
    ]
    strokes: tuple[Stroke, ...] = band.spec.weave.strokes
    rounds = len(band.rounds)
    one_by_one = band.spec.weave.one_by_one
    act = WeaveBack(strands, strokes, rounds, on, (sides["before"], sides["behind"]), one_by_one)
    travel = sum(strokes[turn % len(strokes)].reach for turn in range(rounds))
    last = sides[faces_of(strokes)[travel % band.spec.weave.cycle - 1]]
    ends = [
        EndStrand(strand, on.before(on.units[(band.start - 1 + rod + travel) % on.count][0]), last)
        for rod, strand in enumerate(strands)
    ]
    return [*laid, act, *ends]


def _rows(bench: Bench, band: WovenBand, on: Numbering) -> list[Act]:
    """Rows that turn short of a whole round, a strand for each stretch."""
    short = band.spec.short_rows
    acts: list[Act] = []
    stretches = (
        [[short.row(number, place) for number in range(1, len(band.rounds) + 1)] for place in range(len(short.over))]
        if short is not None
        else [[cell.stakes for cell in band.spec.cells for _ in range(cell.rows[0], cell.rows[1] + 1)]]
    )
    for rows in stretches:
        acts += rows_acts(bench, band, on, rows)
    return acts


def rows_acts(bench: Bench, band: WovenBand, on: Numbering, rows: Sequence[tuple[int, int]]) -> list[Act]:
    """One strand to and fro: rows from one number to another, the first to the right, each turned round its last upright."""
    if not rows:
        return []
    sides, strand = sides_of(band), bench.strand(band.materials[0][0])
    acts: list[Act] = [LayIn(strand, on.before(on.at(rows[0][0]).uprights[0]), sides["behind"])]
    begins, to_left = sides["before"], False
    for left, right in rows:
        acts.append(WeaveRow(strand, on.at(left), on.at(right), begins, to_left=to_left))
        last = begins if ((right - left) % on.count + 1) % 2 else _other(sides, begins)
        begins, to_left = _other(sides, last), not to_left
    left, right = rows[-1]
    at = on.after(right) if to_left else on.before(on.at(left).uprights[0])
    return [*acts, EndStrand(strand, at, _other(sides, begins))]


def _other(sides: dict[str, Side], side: Side) -> Side:
    return sides["behind"] if side == sides["before"] else sides["before"]
