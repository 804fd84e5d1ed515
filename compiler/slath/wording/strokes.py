"""How each weave is begun, worked on, kept right and ended, told for any weave on any number of uprights."""

from __future__ import annotations

from slath.basket.model import WovenBand
from slath.language.pattern import WeaveSpec
from slath.messages import Listed, Message, message
from slath.messages.language import slug
from slath.wording.stroke_words import Strokes, in_rows, whole_path
from slath.wording.strokes_of_rows import english_rand, french_rand, open_work, packing
from slath.wording.strokes_plain import chase, rand
from slath.wording.strokes_twined import twined
from slath.wording.uprights import uprights_of
from slath.wording.work import Work


def weave_name(weave: WeaveSpec) -> Message:
    """The trade name of a weave, with its count of strands where that belongs to the name."""
    plain_stroke = len(weave.strokes) == 1 and (weave.strokes[0].before, weave.strokes[0].behind) == (1, 1)
    if weave.one_by_one:
        return message("strokes.english-randing")
    counted = not plain_stroke and weave.kind not in {"wale", "open", "figure", "packing"}
    strokes = tuple(message("strokes.and", before=one.before, behind=one.behind) for one in weave.strokes)
    return message(
        f"strokes.weave-{slug(weave.kind)}",
        strands=weave.as_one,
        rods=weave.rods,
        double=weave.as_one == 2,
        bundled=weave.as_one if weave.as_one > 2 else None,
        strokes=Listed(strokes) if counted else None,
    )


def strokes_of(work: Work, band: WovenBand) -> Strokes:
    """How `band` is worked, told for its own uprights and colours."""
    tellers = {
        "rand": rand, "slew": rand, "chase": chase, "pair": twined, "wale": twined, "fitch": twined,
        "french rand": french_rand, "packing": packing, "open": open_work, "figure": rand,
    }  # fmt: skip
    if band.spec.weave.one_by_one:
        return english_rand(work, band)
    return tellers[band.spec.weave.kind](work, band)


def in_brief(work: Work, band: WovenBand, strokes: Strokes, told_in: Message) -> Strokes:
    """A weave told before, as a teacher reminds of it: where to begin, the stroke, and how to end."""
    words = uprights_of(band, work.basket)
    go_on = (message("strokes.work-as-in-always-to", told_in=told_in, path=whole_path(work, band, words)),)
    return Strokes(strokes.begin, go_on, (), strokes.end)


def shifted(work: Work, band: WovenBand) -> Message | None:
    """What is passed besides at the end of every round, where the designer shifts the course; else nothing."""
    if not band.spec.shift:
        return None
    words = uprights_of(band, work.basket)
    return message("strokes.at-the-end-of-every", count=words.count(band.spec.shift))


def figured(work: Work, band: WovenBand) -> list[Message]:
    """The places of a figure, round by round, with the stroke that is worked there instead."""
    if band.spec.weave.kind == "packing":
        return []
    words = uprights_of(band, work.basket)
    told = []
    for cell in band.spec.cells:
        first, last = cell.stakes
        where = words.at(first) if first == last else words.between(first, last)
        path, several = words.path(cell.strokes), cell.rows[0] != cell.rows[1]
        told.append(
            message("strokes.in-at-go-instead", several=several, rows=in_rows(cell.rows), where=where, path=path)
        )
    return told
