"""What is wound round a handle, laid flat: the handle's skin cut open along it, with the strands across it."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from slath.basket.model import Basket, WorkedWrap
from slath.drawing.options import Options
from slath.drawing.paint.dress import Dress, dress
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.lettering import POINT_MM, word_width
from slath.drawing.plate.plate import Plate
from slath.messages import Decimals, Length, Message, message
from slath.units.colour import lightness, with_lightness

_WRAP_LONG = 2.4  # turns of the lay shown
_CLOSE_TURNS = 8.0  # mm from turn to turn below which no ruler measures one
_SEEN = 1.1  # mm on the page: a strand of a group is drawn no thinner, if less of the handle then shows
_GROUP_DARKER = 11.0  # CIE lightness by which every second group is darker


def wrap_laid_flat(
    basket: Basket, wrap: WorkedWrap, clothes: Wardrobe, options: Options
) -> tuple[float, Callable[[Plate, float], None]]:
    """The bow's skin cut open along it and laid flat, with the strands across it."""
    em = options.text_pt * POINT_MM
    materials = basket.pattern.materials
    width = materials[wrap.spec.strands[0]].width_mm
    angle = math.radians(min(max(wrap.angle_degrees, 4.0), 88.0))
    girth = wrap.girth_mm
    lay = girth / math.tan(angle)
    long = max(_WRAP_LONG * lay, 2.5 * girth)
    room = options.width_mm - 9.0 * em
    if wrap.spec.group > 1:  # no longer than lets each strand be seen
        long = min(long, max(room * width / _SEEN, girth))
    scale = min(room / long, 30.0 / girth)
    high = girth * scale
    girth_words = options.measure(girth)
    beside = word_width(girth_words, options.text_pt) < high
    words = options.say(message("figure-handle.wrap-flat-angle", angle=Decimals(wrap.angle_degrees)))
    above = options.say(message("figure-handle.wrap-girth", girth=Length(girth)))
    one_row = beside or word_width(above + words, options.text_pt) + 1.5 * em < options.width_mm

    def draw(plate: Plate, y: float) -> None:
        left, foot = 5.5 * em, y + 3.0 * em
        wide = min(long * scale, plate.width - left - 1.0)
        plate.area(
            [(left, foot), (left + wide, foot), (left + wide, foot + high), (left, foot + high)],
            clothes.wood.tones.shade,
        )
        rods = list(_wrap_rods(wrap, clothes, (left, foot, wide, high, scale, angle, width)))
        plate.rods(rods, Brush(gap=0.0, edge=0.22, rings=2.4), (left, foot, wide, high), name="wrap")
        for level in (foot, foot + high):
            plate.line([(left, level), (left + wide, level)], 0.3, dash=(1.6, 0.9))
        plate.dimension((left - 1.0 * em, foot), (left - 1.0 * em, foot + high), girth_words if beside else "")
        if not beside:
            plate.text(0.4, foot + high + 0.8 * em, above, "start")
        turns = 10 if lay < _CLOSE_TURNS else 1
        long_turns = turns * lay * scale
        if long_turns < wide:
            plate.dimension(
                (left, foot - 0.9 * em),
                (left + long_turns, foot - 0.9 * em),
                plate.say(message("figure-handle.wrap-turns", ten=turns > 1, length=Length(turns * lay))),
                above=False,
            )
        plate.text(plate.width - 0.4, foot + high + (0.8 if one_row else 2.0) * em, words, "end")

    return high + (6.6 if one_row else 7.8) * em, draw


def _wrap_rods(
    wrap: WorkedWrap, clothes: Wardrobe, box: tuple[float, float, float, float, float, float, float]
) -> list[Rod]:
    left, foot, wide, high, scale, angle, width = box
    keys = wrap.spec.strands
    lay = high / math.tan(angle)
    flat = wrap.spec.kind == "lapping"
    together = (
        len(keys) if wrap.spec.cover == "spaced" and not flat else max(len(keys), min(round(wrap.strands.value), 40))
    )
    step = lay / together if wrap.spec.cover == "full" and not flat else width * scale / math.sin(angle) * 1.12
    rods: list[Rod] = []
    turns = range(-1, int(wide / lay) + 2)
    if flat:
        step, together, turns = lay, 1, range(-1, int(wide / max(lay, 0.5)) + 2)
    for turn in turns:
        for strand in range(together):
            start = left + turn * lay + strand * step
            line = np.array([[start - 0.1 * lay, foot - 0.1 * high, 0.0], [start + 1.1 * lay, foot + 1.1 * high, 0.0]])
            rods.append(Rod(line, max(width * scale * 0.97, 0.8), _look(wrap, clothes, strand), name="wrap"))
    return rods


def _look(wrap: WorkedWrap, clothes: Wardrobe, strand: int) -> Dress:
    """A strand as it shows; every second group of a rope of one material darker, so that groups are seen."""
    keys, group = wrap.spec.strands, wrap.spec.group
    own = clothes.of(keys[strand % len(keys)])
    if group < 2 or len(set(keys)) > 1 or strand // group % 2 == 0:
        return own
    body = own.tones.body
    return dress(with_lightness(body, lightness(body) - _GROUP_DARKER))


def wrap_words(wrap: WorkedWrap) -> Message:
    """What the figure of a wrap shows, for those who do without it."""
    return message(
        "figure-handle.wrap-words",
        strands=round(wrap.strands.value),
        girth=Length(wrap.girth_mm),
        angle=Decimals(wrap.angle_degrees),
        turns=Decimals(wrap.turns, 1),
        group=wrap.spec.group if wrap.spec.group > 1 else None,
    )
