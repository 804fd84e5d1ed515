"""The table of what each band takes, from the list."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from slath.basket.model import Basket, WovenBand
from slath.booklet.blocks import Chip, Column, Measure, Row, Second, Strong, Table, Words, pieces_of
from slath.booklet.pieces import Piece as WordPiece
from slath.booklet.size_table import (
    NOTHING,
    Measured,
    pair_of,
    size_columns,
)
from slath.messages import Message, Own, Value, message
from slath.quantities.results import BandRow, StrandRun
from slath.wording.speech import Voice, own_words
from slath.wording.strokes import weave_name


def band_table(sizes: Sequence[Measured], voice: Voice) -> Table | None:
    """Rounds, measure and strands of every band in each size, in working order; None where nothing is woven in bands."""
    keys = list(dict.fromkeys((band.part, band.name) for size in sizes for band in size.quantities.bands))
    if not keys:
        return None
    several = len({part for part, _ in keys}) > 1
    rows = [_band(part, name, sizes, voice, several=several) for part, name in keys]
    heads = (
        Column(voice.text(message("tables.band")), row_header=True, weight=1.1),
        Column(voice.text(message("tables.weave")), weight=0.8),
    )
    return Table(voice.text(message("booklet.what-each-band-takes")), (*heads, *size_columns(sizes)), tuple(rows))


_PLACES = frozenset({"base", "side", "lid", "foot"})


def _at(part: str) -> Message:
    """Where bands are woven, by the name of the part they are of."""
    return message(f"tables.at-{part}") if part in _PLACES else message("tables.at-part", part=own_words(part))


def _band(part: str, name: str, sizes: Sequence[Measured], voice: Voice, *, several: bool) -> Row:
    """One band; of which part of the basket it is where there are `several`."""
    found = [next((b for b in size.quantities.bands if (b.part, b.name) == (part, name)), None) for size in sizes]
    weave = next(band.weave for band in found if band)
    at = _at(part) if several else None
    return Row(
        (
            voice.say(message("tables.band-name", part=at, name=own_words(name))),
            voice.say(message("tables.weave-name", label=own_words(weave), weave=_weave(part, name, sizes))),
            *(_taken(band, size, voice) if band else NOTHING for band, size in zip(found, sizes, strict=True)),
        )
    )


def _weave(part: str, name: str, sizes: Sequence[Measured]) -> Value:
    """The weave of a band by its trade name, where a size has it."""
    bands = (band for size in sizes for band in _woven(size.basket) if (band.part, band.name) == (part, name))
    return next((weave_name(band.spec.weave) for band in bands), None)


def _woven(basket: Basket) -> Iterable[WovenBand]:
    yield from basket.all_woven


def _taken(band: BandRow, size: Measured, voice: Voice) -> Words:
    """Rounds, how far they reach, and what each colour takes; rounds of a chain go on with the strands of the first."""
    rounds = f"{band.rounds.value:.0f}"
    along = pair_of(voice.length(band.along.value))
    words: list[WordPiece] = []
    if band.rounds.value:  # a height left open has none
        words += [Strong(rounds), voice.text(message("tables.rounds", rounds=round(band.rounds.value)))]
    words += [Measure(f"{along.first} {along.first_unit}"), " ", Second(Measure(f"{along.second} {along.second_unit}"))]
    runs = [
        run
        for run in size.quantities.strands
        if (run.part, run.index, run.band) == (band.part, band.index, band.course)
    ]
    if band.course != band.name:
        words.append(
            voice.text(
                message("tables.all-of", course=Own(band.course)) if runs else message("tables.the-same-strands")
            )
        )
    elif not runs and band.rounds.value:
        words.append(voice.text(message("tables.counted-before")))
    by_length: dict[str, list[StrandRun]] = {}
    for run in runs:
        by_length.setdefault(voice.long(run.length_mm.value, up=True), []).append(run)
    for printed, alike in by_length.items():
        words.append("; ")
        for run in alike:
            material = size.basket.pattern.materials[run.material]
            if run.material in size.lettered:
                words += [Chip(material.colour, material.letter), "\u00a0"]
        words += [*pieces_of(pair_of(printed).told()), voice.text(message("tables.each")) if len(alike) > 1 else ""]
    return tuple(word for word in words if word != "")
