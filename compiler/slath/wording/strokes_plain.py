"""Randing, slewing and chasing told: one strand, several as one, or two that follow one another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.units.counting import in_words, listed
from slath.wording.speech import many
from slath.wording.stroke_words import Strokes, all_one, bundled, first_place, in_bundles, rod_name, whole_path
from slath.wording.stuff import colour_words
from slath.wording.uprights import uprights_of

if TYPE_CHECKING:
    from slath.basket.model import WovenBand
    from slath.wording.uprights import Uprights
    from slath.wording.work import Work


def rand(work: Work, band: WovenBand) -> Strokes:
    """One strand, or several that move as one, round and round."""
    voice, words, weave = work.voice, uprights_of(band, work.basket), band.spec.weave
    bundle = weave.as_one > 1
    it = "them" if bundle else "it"
    taken = _bundle(work, band) if bundle else f"Take a [strand]{all_one(work, band)}."
    end_words = "the ends" if bundle else "its end"
    begin = (
        taken,
        f"Lay {end_words} {words.back_place}, {words.back} {words.at(first_place(band, 0))}.",
        _out(work, words, it),
    )
    keep = "Keep the [strands] side by side, one above the other and never twisted." if bundle else ""
    go_on = (
        f"Carry {it} to the {voice.on}: {whole_path(band, words)}.",
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
    return f"Take {many(len(keys), 'strand')}{all_one(work, band)} and lay them together, to work as one{order}."


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


def chase(work: Work, band: WovenBand) -> Strokes:
    """Two strands that follow one another and never overtake."""
    voice, words = work.voice, uprights_of(band, work.basket)
    first, second = (rod_name(work, band, rod) for rod in (0, 1))
    path = whole_path(band, words)
    begin = (
        f"Take {many(2, 'strand')}{all_one(work, band)}."
        if len(set(band.materials)) == 1 and not bundled(band)
        else "",
        f"Take {in_bundles(work, band)}." if bundled(band) else "",
        f"Lay the end of {first} {words.back} {words.at(first_place(band, 0))}, and carry it to the {voice.on}: {path}.",
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
