"""The start of a stepped-up band close to: where its strands set out, and how every round climbs over the one before."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Basket, WovenBand
from slath.drawing.options import Options
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.key import draw_key, key_height, rod_entries
from slath.drawing.plate.lettering import POINT_MM
from slath.drawing.plate.letters import rod_letters
from slath.drawing.plate.plate import Plate
from slath.drawing.scene import Scene
from slath.drawing.wall.side import rows_high, side_bands
from slath.drawing.wall.strands import Lay, strand_lines
from slath.messages import Listed, Message, Own, message
from slath.wording.band_names import band_said
from slath.wording.strokes import weave_name

_BEFORE, _AFTER = 3, 5  # stakes shown on either side of the start
_ROUNDS = 3


class _Close(Struct, frozen=True):
    """The stretch of wall round the start on the page, mm."""

    left: float
    foot: float
    spacing: float
    strand: float

    def x(self, at: float) -> float:
        """Page x of a place counted in stakes from the start."""
        return self.left + (at + _BEFORE) * self.spacing


def stepped_band(basket: Basket) -> WovenBand | None:
    """The band with most colours among those stepped up round by round; None if there is none."""
    stepped = [
        band for band in side_bands(basket) if band.spec.step_up and band.spec.weave.twined and len(band.rounds) > 1
    ]
    return max(stepped, key=lambda band: len(set(band.materials)), default=None)


def draw_step_up(band: WovenBand, clothes: Wardrobe, options: Options) -> Scene:
    """The start of a band and its first rounds, from outside."""
    em = options.text_pt * POINT_MM
    letters = rod_letters(band, clothes)
    entries = rod_entries(band, letters, clothes)
    below = key_height(entries, options) + 0.6 * em
    spacing = min(13.0, (options.width_mm - 6.0 * em) / (_BEFORE + _AFTER))
    rounds = min(_ROUNDS, len(band.rounds))
    strand = min(0.24 * spacing, 46.0 / (rounds * rows_high(band)))
    left = (options.width_mm - 3.0 * em - (_BEFORE + _AFTER) * spacing) / 2
    close = _Close(left, below + 3.2 * em + 2.2 * strand, spacing, strand)
    high = (rounds + 1) * rows_high(band) * strand
    plate = Plate(options.width_mm, close.foot + high + 3.0 * strand + 3.4 * em, options)
    top = close.foot + high + 2.2 * strand
    rods = [*_stakes(band, clothes, close, top), *_strands(band, clothes, close, rounds)]
    plate.rods(
        rods,
        Brush(gap=0.28, edge=0.26),
        (close.x(-_BEFORE), 0.0, (_BEFORE + _AFTER) * spacing, plate.height),
        name="start",
    )
    _notes(plate, band, close, letters, (rounds, top))
    draw_key(plate, entries, below)
    return plate.scene(
        "step-up", message("figure-wall.step-title", name=band_said(band.name)), _words(letters),
        seen_from=message("views.outside"),
        caption=message("captions.the-start-of-the-and", weave=weave_name(band.spec.weave)),
        data={"band": band.name, "rounds": rounds},
    )  # fmt: skip


def _stakes(band: WovenBand, clothes: Wardrobe, close: _Close, top: float) -> Iterator[Rod]:
    sizes = band.group_sizes or (1,)
    width = 0.3 * close.spacing
    for place in range(-_BEFORE, _AFTER):
        size = min(sizes[place % len(sizes)], 3)
        for member in range(size):
            x = close.x(place + 0.5) + (member - (size - 1) / 2) * width
            line = np.array([[x, close.foot - 2.2 * close.strand, 0.0], [x, top, 0.0]])
            yield Rod(line, width * 0.96, clothes.stakes, (False, True), name=f"stake {place + 1}")


def _strands(band: WovenBand, clothes: Wardrobe, close: _Close, rounds: int) -> Iterator[Rod]:
    shown = replace(band, rounds=band.rounds[:1] * (rounds + 1))
    pitch = rows_high(band) * close.strand
    for line in strand_lines(shown, Lay(0.3 * close.spacing, close.strand, pitch), samples=18):
        for lap in range(rounds + 1):
            last = (
                line.rod - 0.3 if lap == rounds else _AFTER + 0.5
            )  # the last round ends as it began, strand by strand
            part = line.between(lap * band.uprights - _BEFORE - 0.5, lap * band.uprights + last)
            if len(part.at) > 3:
                x = close.left + (part.at - lap * band.uprights + _BEFORE) * close.spacing
                points = np.column_stack([x, close.foot + part.height, part.depth])
                yield Rod(
                    points, 0.95 * close.strand, clothes.weaver(part.material), (True, True), name=f"rod {line.rod}"
                )


def _notes(plate: Plate, band: WovenBand, close: _Close, letters: list[str], size: tuple[int, float]) -> None:
    rounds, top = size
    em, pitch = plate.em, rows_high(band) * close.strand
    low = close.foot - 2.2 * close.strand
    for place in range(-_BEFORE, _AFTER):
        number = (place + band.start - 1) % band.uprights + 1
        plate.text(close.x(place + 0.5), low - 2.4 * em, str(number), bold=True)
    for rod, letter in enumerate(letters):
        if rod < _AFTER:
            plate.disc(close.x(rod), low - 0.9 * em, letter)
    for number in range(1, rounds + 1):
        y = close.foot + (number - 0.5) * pitch
        plate.text(close.x(_AFTER) + 0.9 * em, y, str(number), "start", bold=True)
    plate.text(
        close.x(_AFTER) + 0.9 * em,
        close.foot + (rounds + 0.3) * pitch,
        plate.say(message("figure.round")),
        "start",
        colour=plate.quiet,
    )
    plate.line([(close.x(0), top + 0.3), (close.x(0), top + 1.2 * em)], 0.3)
    plate.text(close.x(0), top + 2.0 * em, plate.say(message("figure.start-and-step-up")), bold=True)
    plate.work_arrow(close.x(_AFTER - 2.4), top + 2.0 * em)
    plate.text(0.4, top + 2.0 * em, plate.say(message("views.outside")), "start", italic=True)


def _words(letters: list[str]) -> Message:
    named = tuple(Own(letter) for letter in letters)
    return message("figure-wall.step-words", letters=Listed(named), first=named[0], last=named[-1])
