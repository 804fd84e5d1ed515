"""The colour plan: which strand lies over each stake in each round, for the chosen count and one stake less and more."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from slath.basket.model import Basket, WovenBand
from slath.basket.weave import colour_step, rod_on_face
from slath.drawing.options import Options
from slath.drawing.paint.curves import Numbers
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.clear import all_clear, text_spot
from slath.drawing.plate.key import draw_key, key_height, material_entries
from slath.drawing.plate.lettering import POINT_MM, word_width
from slath.drawing.plate.plate import Plate
from slath.drawing.scene import Scene
from slath.drawing.wall.side import lean_said, side_bands
from slath.messages import Listed, Message, message
from slath.wording.band_names import band_said
from slath.wording.strokes import weave_name

_MOST_ROUNDS = 14
_LEAST_CELL = 1.15  # mm


def coloured_bands(basket: Basket) -> list[WovenBand]:
    """Bands of the side whose rods differ in material, so that the count decides the picture."""
    return [
        band for band in side_bands(basket) if len(set(band.materials)) > 1 and band.spec.weave.kind != "french rand"
    ]


def draw_colour_plan(basket: Basket, clothes: Wardrobe, options: Options) -> Scene:
    """The chart of the band with the most rounds of colour."""
    band = max(coloured_bands(basket), key=lambda item: len(item.rounds))
    em = options.text_pt * POINT_MM
    counts = (band.uprights - 1, band.uprights, band.uprights + 1)
    rounds = max(min(len(band.rounds), _MOST_ROUNDS), 3)
    left = 2.8 * em
    room = options.width_mm - left - max(1.0, word_width(str(counts[2]), options.text_pt) / 2)
    shown = counts[2] if room / counts[2] >= _LEAST_CELL else int(room / _LEAST_CELL)
    cell = room / shown
    high = float(np.clip(0.62 * cell, 1.3, 2.1))
    block = rounds * high + 4.4 * em
    entries = material_entries([band], clothes)
    below = key_height(entries, options) + 0.4 * em
    plate = Plate(options.width_mm, 3 * block + below, options)
    for place, count in enumerate(counts):
        foot = plate.height - (place + 1) * block + 1.6 * em
        _chart(plate, band, count, (rounds, min(shown, count)), (left, foot, cell, high), clothes)
    draw_key(plate, entries, below - 0.4 * em)
    return plate.scene(
        "colour-plan",
        message("figure-wall.colour-title"),
        _words(band, counts),
        seen_from=message("views.outside"),
        caption=message("captions.the-strand-over-each-round"),
        data={"counts": counts, "band": band.name},
    )


def _on(band: WovenBand, count: int) -> WovenBand:
    """The band as it would be on another count."""
    steps = colour_step(band.spec.weave, band.materials, count)
    return replace(band, uprights=count, steps=steps)


def _chart(
    plate: Plate,
    band: WovenBand,
    count: int,
    size: tuple[int, int],
    box: tuple[float, float, float, float],
    clothes: Wardrobe,
) -> None:
    (rounds, shown), (left, foot, cell, high), em = size, box, plate.em
    squares: dict[str, list[Numbers]] = {}
    for row in range(rounds):
        for upright in range(shown):
            rod = rod_on_face(band.spec.weave, count, upright - band.start + 1, row)
            x, y = left + upright * cell, foot + row * high
            squares.setdefault(band.materials[rod][0], []).append(_float(x, y, cell, high, falls=band.spec.reversed))
    for key in dict.fromkeys(strands[0] for strands in band.materials):
        look = clothes.weaver(key)
        plate.areas(squares.get(key, []), look.tones.body, look.tones.edge, 0.25)
        plate.lines(
            [_mark(square, look.marks) for square in squares.get(key, []) if look.marks != "none"], 0.3, look.tones.mark
        )
    chosen = count == band.uprights
    top = foot + rounds * high
    plate.text(left, top + 0.9 * em, plate.say(lean_said(_on(band, count))), "start", bold=chosen)
    if chosen:
        plate.area(
            [(left, foot), (left + shown * cell, foot), (left + shown * cell, top), (left, top)], None, plate.ink, 0.5
        )
    numbers = [
        text_spot(left + (upright - 0.5) * cell, foot - 0.75 * em, str(upright), plate.options.text_pt)
        for upright in range(1, shown + 1)
        if upright == 1 or upright % 5 == 0
    ]
    step = 1 if all_clear(numbers) else 2  # every fifth, or every tenth where these run into one another
    for number in [numbers[0], *numbers[step::step]]:
        plate.text(number.x, number.y, number.words)
    for row in (0, rounds - 1) if (rounds - 1) * high > 0.9 * em else (rounds - 1,):
        plate.text(left - 0.4 * em, foot + (row + 0.5) * high, str(row + 1), "end")


def _float(x: float, y: float, cell: float, high: float, *, falls: bool) -> Numbers:
    """A cell as a float lies: rising along the work (falling if `falls`), its ends narrowed where it goes in and out."""
    turned = np.array(
        [[0.0, 0.12], [0.25, 0.0], [0.85, 0.18], [1.0, 0.45], [1.0, 0.88], [0.75, 1.0], [0.15, 0.82], [0.0, 0.55]]
    )
    if falls:
        turned[:, 1] = 1.0 - turned[:, 1]
    return np.asarray(turned * [cell, high] + [x, y])


def _mark(square: Numbers, marks: str) -> Numbers:
    """The hatch of a cell: an upright bar for rings, a level one for a line, a spot for dots."""
    low, high = square.min(axis=0), square.max(axis=0)
    middle = (low + high) / 2
    if marks == "rings":
        return np.array([[middle[0], low[1] + 0.25], [middle[0], high[1] - 0.25]])
    if marks == "centre line":
        return np.array([[low[0] + 0.3, middle[1]], [high[0] - 0.3, middle[1]]])
    return np.array([[middle[0] - 0.2, middle[1]], [middle[0] + 0.2, middle[1]]])


def _words(band: WovenBand, counts: tuple[int, int, int]) -> Message:
    return message(
        "figure-wall.colour-words",
        name=band_said(band.name),
        weave=weave_name(band.spec.weave),
        leans=Listed(tuple(lean_said(_on(band, count)) for count in counts)),
        count=band.uprights,
    )
