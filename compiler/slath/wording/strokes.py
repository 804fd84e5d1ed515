"""How each weave is begun, worked on, kept right and ended, told for any weave on any number of uprights."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.units.counting import in_words, listed
from slath.wording.stroke_words import Strokes, in_rows, whole_path
from slath.wording.strokes_of_rows import english_rand, french_rand, open_work, packing
from slath.wording.strokes_plain import chase, rand
from slath.wording.strokes_twined import twined
from slath.wording.uprights import uprights_of

if TYPE_CHECKING:
    from slath.basket.model import WovenBand
    from slath.language.pattern import WeaveSpec
    from slath.wording.work import Work


def weave_name(weave: WeaveSpec) -> str:
    """The trade name of a weave, with its count of strands where that belongs to the name."""
    plain_stroke = len(weave.strokes) == 1 and (weave.strokes[0].before, weave.strokes[0].behind) == (1, 1)
    if weave.one_by_one:
        return "[English randing]"
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
        "rand": rand, "slew": rand, "chase": chase, "pair": twined, "wale": twined, "fitch": twined,
        "french rand": french_rand, "packing": packing, "open": open_work, "figure": rand,
    }  # fmt: skip
    if band.spec.weave.one_by_one:
        return english_rand(work, band)
    return tellers[band.spec.weave.kind](work, band)


def in_brief(work: Work, band: WovenBand, strokes: Strokes, told_in: str) -> Strokes:
    """A weave told before, as a teacher reminds of it: where to begin, the stroke, and how to end."""
    words = uprights_of(band, work.basket)
    go_on = (f"Work as in {told_in}: {whole_path(band, words)}, always to the {work.voice.on}.",)
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
        told.append(f"In {rounds} {in_rows(cell.rows)}, at {where}, go {path} instead.")
    return told
