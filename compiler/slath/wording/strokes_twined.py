"""Pairing, waling and fitching told: strands that are moved by turns, always the one furthest back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.units.counting import listed
from slath.wording.speech import many
from slath.wording.stroke_words import Strokes, all_one, bundled, first_place, in_bundles, one_of, whole_path
from slath.wording.stuff import colour_words
from slath.wording.uprights import uprights_of
from slath.wording.willow import laid_in

if TYPE_CHECKING:
    from slath.basket.model import WovenBand
    from slath.wording.work import Work


def twined(work: Work, band: WovenBand) -> Strokes:
    """Two strands or more, moved by turns."""
    voice, words, weave = work.voice, uprights_of(band, work.basket), band.spec.weave
    rods = len(band.materials)
    begin = (*_folded(work, band), *_laid_in(work, band)) if _can_fold(band) else _laid_in(work, band)
    turn = "Give the two a half twist in every [space], so that they grip." if weave.kind == "fitch" else ""
    lying = "over" if not band.spec.reversed else "under"
    other = "the other" if rods == 2 else "the others"
    up = "out to the front" if words.numbered else "up again"
    go_on = (
        f"Take the {one_of(band)} furthest to the {voice.back}.",
        f"Carry it to the {voice.on}, {lying} {other}: {whole_path(band, words)}, and bring it {up}.",
        turn,
        f"Now {'the other' if rods == 2 else 'another'} is furthest to the {voice.back}. Move it in the same way.",
        f"Always move the one furthest to the {voice.back}, and pull each stroke down before the next.",
    )
    longest = words.count(max(stroke.before for stroke in weave.strokes))
    remarks = (
        f"If a [strand] lies {words.front} more than {longest}, one was moved out of turn. Take the work back to it.",
    )
    tips = band.tapers and work.quantities.sets_of_rods(band.part, band.index) % 2 == 0
    end = (
        "Stop when the last round is closed, above the place where the first began.",
        f"Tuck each {'[tip]' if tips else '[strand]'} in {words.back} the next {words.one}, the one furthest to the {voice.back} first.",
    )
    return Strokes(begin, go_on, remarks, end)


def _can_fold(band: WovenBand) -> bool:
    return band.begins_folded


def _folded(work: Work, band: WovenBand) -> tuple[str, ...]:
    voice, words = work.voice, uprights_of(band, work.basket)
    return (
        f"Take one long [strand]{all_one(work, band)} and fold it a little off its middle, so that the joins will not come together.",
        f"Hang the fold round {words.at(first_place(band, 1))}, with one half in the [space] on each side of it.",
        f"The half on the {voice.back} moves first.",
    )


def _in_the_split(work: Work, band: WovenBand) -> bool:
    """Whether a band is the first round the slath of pierced sticks, whose split holds the tips of its two rods."""
    base = work.basket.base
    first = bool(base.bands) and base.bands[0] is band
    return first and len(band.materials) == 2 and any(stick.pierced for stick in base.sticks)


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
    behind = [first_place(band, rod) for rod in range(rods)]
    if band.tapers:
        in_slath = _in_the_split(work, band)
        told = laid_in(words, words.places(behind), in_slath=in_slath)
        out = (
            f"Bring each {'out' if words.numbered else 'up'} through the [space] to the {voice.on} of its {words.one}."
        )
        return (f"Take {many(rods, 'strand')}{all_one(work, band)}{order}.", told, "" if in_slath else out)
    taken = in_bundles(work, band) if bundled(band) else f"{many(rods, 'strand')}{all_one(work, band)}"
    return (
        f"Take {taken}{order}.",
        f"Tuck their ends {words.back} {words.places(behind)}, one {words.back} each.",
        f"Bring each {'out' if words.numbered else 'up'} through the [space] to the {voice.on} of its {words.one}.",
    )
