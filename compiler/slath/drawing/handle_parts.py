"""A handle and its parts: the bow on the rim, the scarf where pieces lap, ears, and the wrap unrolled."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from slath.basket.model import Basket, WorkedHandle, WorkedWrap
from slath.drawing.curves import Numbers
from slath.drawing.dress import Dress
from slath.drawing.lettering import POINT_MM
from slath.drawing.options import Options
from slath.drawing.plans import fitting_ratio
from slath.drawing.plate import Plate
from slath.drawing.rods import Brush, Rod
from slath.drawing.scene import Scene
from slath.drawing.wardrobe import Wardrobe

_SCARF_HIGH, _SCARF_THIN = 5.0, 0.7  # mm on the page: thickness of a piece and of its shaved end
_WRAP_LONG = 2.4  # turns of the lay shown


def handle_names(basket: Basket) -> list[str]:
    """One figure for every handle or set of like handles."""
    return [f"handle-{number}" if number > 1 else "handle" for number in range(1, len(basket.handles) + 1)]


def draw_handle(basket: Basket, name: str, clothes: Wardrobe, options: Options) -> Scene:
    """All parts of one handle, one under another."""
    number = int(name.removeprefix("handle-")) - 1 if "-" in name else 0
    worked = basket.handles[number]
    em = options.text_pt * POINT_MM
    parts: list[tuple[float, Callable[[Plate, float], None]]] = []
    if worked.spec.kind == "ears":
        parts.append((13.0 * em, lambda plate, y: _ear(plate, basket, worked, y)))
    else:
        tall, draw = _bow_part(basket, worked, clothes, options)
        parts.append((tall, draw))
    if worked.spec.pieces > 1 and worked.spec.kind in {"two-piece", "bow", "ring"}:
        parts.append((_SCARF_HIGH + 6.2 * em, lambda plate, y: _scarf(plate, basket, worked, clothes, y)))
    for wrap in worked.wraps:
        if wrap.spec.strands:
            parts.append(_wrap_part(basket, wrap, clothes, options))
    plate = Plate(options.width_mm, sum(tall for tall, _ in parts) + 1.0, options)
    y = 0.5
    for tall, draw in reversed(parts):
        draw(plate, y)
        y += tall
    kind = worked.spec.kind
    return plate.scene(
        name, f"The {kind} handle and its parts" if kind != "ears" else "The ears", _words(basket, worked, options),
        seen_from="the side", caption=f"The {kind} handle: its curve, feet and parts, with their measures.",
        data={"span_mm": worked.span_mm, "rise_mm": worked.rise_mm, "bow_mm": worked.bow_mm.value},
    )  # fmt: skip


def scarf_lap(basket: Basket, worked: WorkedHandle) -> float:
    """Length over which two shaved pieces lie together, mm."""
    return worked.spec.lap_mm if worked.spec.lap_mm is not None else basket.pattern.settings.mm("handle_lap")


def thickness(basket: Basket, worked: WorkedHandle) -> float:
    """Thickness of a handle piece, mm."""
    return basket.pattern.materials[worked.spec.material].thickness_mm


# ---------------------------------------------------------------------------------------------------------- the bow
def _bow_part(
    basket: Basket, worked: WorkedHandle, clothes: Wardrobe, options: Options
) -> tuple[float, Callable[[Plate, float], None]]:
    em = options.text_pt * POINT_MM
    foot, thick = worked.foot_mm.value, thickness(basket, worked)
    curve = np.array(worked.curve)
    low, high = float(curve[:, 1].min()) - foot, float(curve[:, 1].max()) + thick / 2
    long = float(curve[:, 0].max() - curve[:, 0].min()) + thick
    ratio = fitting_ratio(long, high - low, options.width_mm - 15.0 * em, 0.55 * options.tallest_mm)
    tall = (high - low) / ratio

    def draw(plate: Plate, y: float) -> None:
        scale = 1 / ratio
        middle, rim = plate.width / 2, y + 2.4 * em - low * scale
        page = np.column_stack([middle + curve[:, 0] * scale, rim + curve[:, 1] * scale])
        legs = foot * scale
        if foot > 0:
            page = np.vstack([page[:1] - [[0, legs]], page, page[-1:] - [[0, legs]]])
        rods = [Rod(np.column_stack([page, np.zeros(len(page))]), max(thick * scale, 1.6), clothes.wood, (True, True))]
        for place in (0, -1):
            _rim_piece(rods, clothes, float(page[place, 0]), rim, 9.0)
        plate.rods(rods, Brush(gap=0.25, edge=0.26), name="bow")
        _bow_measures(plate, basket, worked, (middle, rim, scale, legs))
        plate.text(plate.width - 0.4, y + 0.9 * em, f"scale 1 : {ratio:g}", "end", colour=plate.quiet)

    return tall + 6.0 * em, draw


def _rim_piece(rods: list[Rod], clothes: Wardrobe, x: float, rim: float, half: float) -> None:
    """A short stretch of rim and side the foot goes down into."""
    for row in range(4):
        level = rim - 0.9 - row * 1.7
        depth = 2.5 if row % 2 == 0 else -2.5
        line = np.array([[x - half, level, depth], [x + half, level, depth]])
        rods.append(Rod(line, 1.7, clothes.stakes, (True, True), name="rim"))


def _bow_measures(plate: Plate, basket: Basket, worked: WorkedHandle, where: tuple[float, float, float, float]) -> None:
    em, measure = plate.em, plate.options.measure
    middle, rim, scale, legs = where
    half = worked.span_mm / 2 * scale
    top = rim + max(z for _, z in worked.curve) * scale
    plate.dimension((middle - half, rim + 1.8 * em), (middle + half, rim + 1.8 * em), f"span {measure(worked.span_mm)}")
    if worked.rise_mm:
        inner = rim + worked.rise_mm * scale
        plate.dimension((middle, rim), (middle, inner), "", offset=0.0)
        plate.text(middle + 0.5 * em, (rim + inner) / 2 + 0.8 * em, f"rise {measure(worked.rise_mm)}", "start")
    plate.text(middle, top + 1.6 * em, f"{measure(worked.bow_mm.value)} along the bow")
    if legs > 0:
        x = middle + half + 10.5
        plate.dimension((x, rim - legs), (x, rim), "", offset=0.0)
        plate.paragraph(x + 0.6 * em, rim - legs / 2 + 0.6 * em, f"foot {measure(worked.foot_mm.value)}", plate.width - x - em)
    names = [str(number) for number in worked.feet_at[:2]]
    if len(names) == 2:
        stake = plate.options.term("stake")
        for side, number in zip((-1, 1), names, strict=True):
            anchor = "end" if side < 0 else "start"
            plate.text(middle + side * (half + 1.6), rim - legs - 1.0 * em, f"{stake} {number}", anchor, bold=True)  # type: ignore[arg-type]


# ------------------------------------------------------------------------------------------------------------ scarf
def _scarf(plate: Plate, basket: Basket, worked: WorkedHandle, clothes: Wardrobe, y: float) -> None:
    """Two pieces shaved to long tapers, a little apart, and the lap they make."""
    em, lap = plate.em, scarf_lap(basket, worked)
    left, right, foot = 3.0, plate.width - 3.0, y + 2.6 * em
    a, b = plate.width * 0.3, plate.width * 0.7
    high, thin = _SCARF_HIGH, _SCARF_THIN
    light, dark = clothes.wood.tones.highlight, clothes.wood.tones.body
    plate.area([(left, foot + 0.5), (left, foot + 0.5 + high), (b, foot + 0.5 + high), (b, foot + 0.5 + high - thin), (a, foot + 0.5)],
               light, plate.ink, 0.3)  # fmt: skip
    lower = [(right, foot), (right, foot + high), (b, foot + high), (a, foot + thin), (a, foot)]
    plate.area(lower, dark, plate.ink, 0.3)
    hatches = [[(x, foot + 0.4), (x + high * 0.8, foot + high - 0.4)] for x in np.arange(b + 1, right - high, 2.6).tolist()]
    plate.lines(hatches, 0.25, clothes.wood.tones.edge)
    plate.disc(left + 1.2 * em, foot + high + 1.6 * em, "1")
    plate.text(left + 2.2 * em, foot + high + 1.6 * em, "first piece", "start")
    plate.disc(right - 6.4 * em, foot + high + 1.6 * em, "2")
    plate.text(right - 5.4 * em, foot + high + 1.6 * em, "second piece", "start")
    words = f"scarf and lap {plate.options.measure(lap)}, shaved to a thin end"
    plate.dimension((a, foot - 0.9 * em), (b, foot - 0.9 * em), words, above=False)


def _ear(plate: Plate, basket: Basket, worked: WorkedHandle, y: float) -> None:
    """An ear: a wooden lug with its notch, shaved to a point that goes down beside a stake."""
    em, measure = plate.em, plate.options.measure
    long, wide = 62.0, 9.0
    x, middle = 10.0, y + 6.5 * em
    turns = np.linspace(np.pi / 2, 1.5 * np.pi, 20)
    head = np.column_stack([x + wide * 0.7 * (1 + np.cos(turns)), middle + wide * 0.7 * np.sin(turns)])
    notch = np.array([[x + 15, middle - wide * 0.55], [x + 16.5, middle - 1.2], [x + 20.5, middle - 1.2], [x + 22, middle - wide * 0.55]])
    shape = np.vstack([head, notch, [[x + long, middle - 0.6], [x + long, middle + 0.8], [x + 24, middle + wide * 0.6]]])
    plate.area(shape, "#cdb98f", plate.ink, 0.4)
    plate.circle(x + 5.5, middle, 1.8, fill=plate.paper)
    plate.pointer(x + 5.5, middle, x + 6.0, middle + 2.6 * em + wide / 2, "hole for the drop handle")
    plate.pointer(x + 18.5, middle - 2.2, x + 14.0, middle - 1.9 * em - wide / 2, "notch for the rim")
    plate.dimension((x + 18.5, middle - 4.2 * em), (x + long, middle - 4.2 * em), f"foot {measure(worked.foot_mm.value)}", above=False)
    places = " and ".join(str(number) for number in worked.feet_at)
    plate.text(x + long + 2.0, middle, f"beside {plate.options.term('stakes')} {places}", "start")


# ------------------------------------------------------------------------------------------------------------- wrap
def _wrap_part(
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
    scale = min((options.width_mm - 9.0 * em) / long, 30.0 / girth)
    high = girth * scale

    def draw(plate: Plate, y: float) -> None:
        left, foot = 5.5 * em, y + 3.0 * em
        wide = min(long * scale, plate.width - left - 1.0)
        plate.area([(left, foot), (left + wide, foot), (left + wide, foot + high), (left, foot + high)], clothes.wood.tones.shade)
        rods = list(_wrap_rods(basket, wrap, clothes, (left, foot, wide, high, scale, angle, width)))
        plate.rods(rods, Brush(gap=0.0, edge=0.22, rings=2.4), (left, foot, wide, high), name="wrap")
        for level in (foot, foot + high):
            plate.line([(left, level), (left + wide, level)], 0.3, dash=(1.6, 0.9))
        measure = plate.options.measure
        plate.dimension((left - 1.0 * em, foot), (left - 1.0 * em, foot + high), measure(girth) if high > 12 else "")
        if high <= 12:
            plate.text(0.4, foot + high + 0.8 * em, f"girth {measure(girth)}", "start")
        one_turn = lay * scale
        if one_turn < wide:
            plate.dimension((left, foot - 0.9 * em), (left + one_turn, foot - 0.9 * em), f"one turn {measure(lay)}", above=False)
        words = f"the handle's skin laid flat; angle {wrap.angle_degrees:.0f}°"
        plate.text(plate.width - 0.4, foot + high + 0.8 * em, words, "end")

    return high + 6.6 * em, draw


def _wrap_rods(
    basket: Basket, wrap: WorkedWrap, clothes: Wardrobe, box: tuple[float, float, float, float, float, float, float]
) -> list[Rod]:
    left, foot, wide, high, scale, angle, width = box
    keys = wrap.spec.strands
    lay = high / math.tan(angle)
    flat = wrap.spec.kind == "lapping"
    together = len(keys) if wrap.spec.cover == "spaced" and not flat else max(len(keys), min(round(wrap.strands.value), 40))
    step = lay / together if wrap.spec.cover == "full" and not flat else width * scale / math.sin(angle) * 1.12
    rods: list[Rod] = []
    turns = range(-1, int(wide / lay) + 2)
    if flat:
        step, together, turns = lay, 1, range(-1, int(wide / max(lay, 0.5)) + 2)
    for turn in turns:
        for strand in range(together):
            start = left + turn * lay + strand * step
            line = np.array([[start - 0.1 * lay, foot - 0.1 * high, 0.0], [start + 1.1 * lay, foot + 1.1 * high, 0.0]])
            rods.append(Rod(line, max(width * scale * 0.97, 0.8), _look(clothes, keys[strand % len(keys)]), name="wrap"))
    return rods


def _look(clothes: Wardrobe, key: str) -> Dress:
    return clothes.weavers.get(key) or clothes.others[key]


# ------------------------------------------------------------------------------------------------------------ words
def _words(basket: Basket, worked: WorkedHandle, options: Options) -> str:
    measure, spec = options.measure, worked.spec
    said = []
    if spec.kind == "ears":
        said.append(f"{len(worked.feet_at)} ears go down beside stakes {' and '.join(map(str, worked.feet_at))}, {measure(worked.foot_mm.value)} deep.")
    elif spec.kind == "ring":
        said.append(f"A ring {measure(worked.span_mm)} over all; {measure(worked.bow_mm.value)} once round.")
    else:
        said.append(f"The bow spans {measure(worked.span_mm)} and rises {measure(worked.rise_mm)} above the rim, {measure(worked.bow_mm.value)} along its curve.")
        if worked.foot_mm.value and len(worked.feet_at) > 1:
            said.append(f"Its feet go {measure(worked.foot_mm.value)} down beside {options.term('stakes')} {worked.feet_at[0]} and {worked.feet_at[1]}.")
    if spec.pieces > 1 and spec.kind in {"two-piece", "bow", "ring"}:
        said.append(f"Shave both pieces to long tapers and lap them {measure(scarf_lap(basket, worked))}.")
    for wrap in worked.wraps:
        said.append(f"Wrap: {wrap.strands.value:.0f} strands at {wrap.angle_degrees:.0f}° to the handle's run, {wrap.turns:.1f} turns.")
    return " ".join(said)


