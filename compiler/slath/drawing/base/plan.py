"""The base before any weaving, to scale: sticks as they lie, their numbers, slits and measures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from slath.basket.model import Basket, Stick
from slath.drawing.base.board_plan import draw_board
from slath.drawing.options import Options
from slath.drawing.paint.rods import Brush, Rod
from slath.drawing.paint.wardrobe import Wardrobe
from slath.drawing.plate.lettering import POINT_MM
from slath.drawing.plate.plans import Plan, curve_points, fitting_ratio, lies_on_top, spread
from slath.drawing.plate.plate import Plate
from slath.drawing.scene import Scene
from slath.language.pattern import Board, OvalSlath, RoundSlath
from slath.messages import Length, Listed, Message, message
from slath.messages.values import CUT
from slath.messages.values import Numbers as ByNumber
from slath.quantities.results import Quantities
from slath.wording.stuff import part_said

_SHARE_SLIT = 0.6  # of its stick: a slit is never drawn longer


def draw_base_plan(basket: Basket, clothes: Wardrobe, options: Options, quantities: Quantities | None = None) -> Scene:
    """Plan of the slath, frame or board with its measures; the list gives the lengths sticks are cut to."""
    base = basket.base
    if isinstance(base.spec, Board):
        return draw_board(basket, clothes, options)
    em = options.text_pt * POINT_MM
    outline = base.spec.outline
    sides = 3.4 * em
    ratio = fitting_ratio(outline.length_mm, outline.width_mm, options.width_mm - sides - 5.6 * em, options.tallest_mm)
    tall, wide = outline.width_mm / ratio, outline.length_mm / ratio
    pierced = [stick for stick in base.sticks if stick.pierced]
    foot = (7.8 if _cross_groups(base.sticks) else 5.4) * em + (6.0 * em if pierced else 0.0)
    plate = Plate(options.width_mm, foot + tall + 3.6 * em, options)
    plan = Plan(
        sides + wide / 2 + max(0.0, (options.width_mm - sides - 5.6 * em - wide) / 2),
        foot + tall / 2,
        ratio,
        below=True,
    )
    _sticks(plate, plan, base.sticks, clothes)
    edge = plan.at(curve_points(base.edge))
    plate.outline(edge, stroke=plate.quiet, width=0.3, dash=(1.6, 0.9))
    _slits(plate, plan, basket, pierced)
    _stick_numbers(plate, plan, base.sticks)
    _measures(plate, plan, basket)
    if pierced:
        _slit_view(plate, basket, pierced, clothes)
    plate.text(
        0.4, plate.height - 0.8 * em, plate.say(message("figure.seen-from", view=plan.view)), "start", italic=True
    )
    plate.text(
        plate.width - 0.4, plate.height - 0.8 * em, plate.options.say(plan.scale_said), "end", colour=plate.quiet
    )
    return plate.scene(
        "base-plan",
        message("figure-base.sticks-title"),
        _words(basket),
        cut_words=_cut_words(quantities),
        seen_from=plan.view,
        caption=message("captions.the-base-sticks-before-weaving", scale=plan.scale_said),
        data={"scale": plan.scale, "sticks": len(base.sticks)},
    )


def stick_rods(plan: Plan, sticks: Sequence[Stick], basket_width: float, clothes: Wardrobe) -> list[Rod]:
    """Straight sticks as rods, the ones on top (seen from this side) nearer the eye."""
    rods = []
    for stick in sticks:
        on_top = lies_on_top(stick, sticks)
        flat = plan.at([stick.start, stick.finish])
        depth = basket_width * plan.scale * (0.4 if on_top else 0.0)
        rods.append(Rod(np.column_stack([flat, [depth, depth]]), 0.97 * basket_width * plan.scale, clothes.sticks, (True, True),
                        name=f"stick {stick.number}"))  # fmt: skip
    return rods


def _sticks(plate: Plate, plan: Plan, sticks: Sequence[Stick], clothes: Wardrobe) -> None:
    width = _stick_width(sticks)
    plate.rods(stick_rods(plan, sticks, width, clothes), Brush(gap=0.30, edge=0.28), name="sticks")


def _stick_width(sticks: Sequence[Stick]) -> float:
    """Sticks lie side by side in the slath: their distance there is their width."""
    gaps = []
    for one, other in pairwise(sticks):
        apart = abs(one.start[0] - other.start[0]) if _runs_up(one) else abs(one.start[1] - other.start[1])
        if _runs_up(one) == _runs_up(other) and apart > 0.5:
            gaps.append(apart)
    return min([*gaps, 8.0])


def _runs_up(stick: Stick) -> bool:
    return abs(stick.finish[0] - stick.start[0]) < abs(stick.finish[1] - stick.start[1])


def slit_mm(basket: Basket, sticks: Sequence[Stick]) -> float:
    """Length of a slit: the width of what goes through it, times the maker's setting; of rods that taper their butts."""
    stocks = [
        basket.pattern.materials[stick.material].stock
        for stick in basket.base.sticks
        if not stick.pierced and _runs_up(stick) != _runs_up(sticks[0])
    ]
    width = math.fsum(stock.butt_mm or stock.width_mm for stock in stocks)
    ratio = basket.pattern.settings["slit_length"].value
    return min(width * ratio / 2 + width / 10, _SHARE_SLIT * sticks[0].length_mm)


def _slits(plate: Plate, plan: Plan, basket: Basket, pierced: Sequence[Stick]) -> None:
    if not pierced:
        return
    half = slit_mm(basket, pierced) / 2
    marks = []
    for stick in pierced:
        if _runs_up(stick):
            x, middle = stick.start[0], 0.0
            marks.append(plan.at([(x, middle - half), (x, middle + half)]))
        else:
            y = stick.start[1]
            marks.append(plan.at([(-half, y), (half, y)]))
    plate.lines(marks, 0.35, dash=(1.0, 0.6))


def _stick_numbers(plate: Plate, plan: Plan, sticks: Sequence[Stick]) -> None:
    """Numbers at one end of every stick, fanned out where sticks lie closer than figures."""
    em = plate.em
    across = sorted((plan.one(stick.finish)[0], stick.number, stick) for stick in sticks if _runs_up(stick))
    up = sorted((plan.one(stick.finish)[1], stick.number, stick) for stick in sticks if not _runs_up(stick))
    if across:
        top = max(plan.one(stick.start if plan.below else stick.finish)[1] for _, _, stick in across)
        for x, (_, _, stick) in zip(
            spread([x for x, _, _ in across], max(1.0 * em, plate.wide(str(len(sticks)), bold=True) + 0.25 * em)),
            across,
            strict=True,
        ):
            plate.text(x, top + 0.9 * em, str(stick.number), bold=True)
    if up:
        right = max(plan.one(stick.finish)[0] for _, _, stick in up)
        for y, (_, number, _) in zip(spread([y for y, _, _ in up], 0.95 * em), up, strict=True):
            plate.text(right + 0.6 * em, y, str(number), "start", bold=True)


def _cross_groups(sticks: Sequence[Stick]) -> list[float]:
    """Middles of the groups of cross sticks along the base, if it has groups standing apart."""
    groups: dict[int, list[float]] = {}
    for stick in sticks:
        if stick.kind in {"crosswise single", "crosswise group"}:
            groups.setdefault(stick.group, []).append(stick.start[0])
    return sorted(math.fsum(places) / len(places) for places in groups.values())


def _measures(plate: Plate, plan: Plan, basket: Basket) -> None:
    em, outline = plate.em, basket.base.spec.outline
    measure = plate.options.measure
    low = plan.y - outline.width_mm * plan.scale / 2
    left, right = plan.x - outline.length_mm * plan.scale / 2, plan.x + outline.length_mm * plan.scale / 2
    y = low - 1.6 * em
    middles = _cross_groups(basket.base.sticks)
    if len(middles) > 1:
        for one, other in pairwise(middles):
            a, b = plan.one((one, 0.0)), plan.one((other, 0.0))
            words = measure(other - one)
            fits = plate.wide(words) < (b[0] - a[0]) - 1.0 and not plate.options.lettered
            plate.dimension((a[0], y), (b[0], y), words if fits else "", above=True)
        apart = middles[1] - middles[0]
        close = any(plate.wide(measure(b - a)) >= (b - a) * plan.scale - 1 for a, b in pairwise(middles))
        if close or plate.options.lettered:
            told = message("figure-base.groups-apart", apart=Length(apart))
            name = message("figure-base.measure-groups-apart")
            plate.text(plan.x, y - 1.1 * em, plate.measured(name, apart, told))
            y -= 0.8 * em
        y -= 2.2 * em
    across, long, wide = message("figure-base.measure-across"), Length(outline.length_mm), Length(outline.width_mm)
    if outline.shape == "circle":
        words = plate.measured(across, long.mm, message("figure-base.across", length=long))
        plate.dimension((left, y), (right, y), words, above=False)
    else:
        told = message("figure-base.long", length=long)
        words = plate.measured(message("figure-base.measure-long"), long.mm, told)
        plate.dimension((left, y), (right, y), words, above=False)
        x = left - 1.3 * em
        high = plan.y + outline.width_mm * plan.scale / 2
        words = plate.measured(across, wide.mm, message("figure-base.wide", width=wide))
        plate.dimension((x, low), (x, high), words, above=True)


def _slit_view(plate: Plate, basket: Basket, pierced: Sequence[Stick], clothes: Wardrobe) -> None:
    """One pierced stick from the side, its slit open."""
    em = plate.em
    y, wide = 2.6 * em, min(0.62 * plate.width, 90.0)
    left = (plate.width - wide) / 2 + 2.0 * em
    thick = 3.6
    plate.rods(
        [Rod(np.array([[left, y, 0.0], [left + wide, y, 0.0]]), thick, clothes.sticks, (True, True))], Brush(gap=0.0)
    )
    half, middle = 0.13 * wide, left + wide / 2
    turn = np.linspace(-np.pi / 2, np.pi / 2, 24)
    upper = np.column_stack([middle + half * np.sin(turn), y + 0.72 * np.cos(turn)])
    lower = np.column_stack([middle + half * np.sin(turn), y - 0.72 * np.cos(turn)])
    plate.area(np.vstack([upper, lower[::-1]]), fill=plate.ink)
    numbers = [stick.number for stick in pierced]
    named = f"{numbers[0]}–{numbers[-1]}" if len(numbers) > 1 else str(numbers[0])
    plate.text(left - 0.7 * em, y, named, "end", bold=True)
    slit = slit_mm(basket, pierced)
    said = message("figure-base.slit", length=Length(slit))
    words = plate.measured(message("figure-base.measure-slit"), slit, said)
    plate.dimension((middle - half, y - thick / 2 - 0.8), (middle + half, y - thick / 2 - 0.8), words, above=False)


def _words(basket: Basket) -> Message:
    base, outline = basket.base, basket.base.spec.outline
    size = message(
        "figure.by",
        length=Length(outline.length_mm),
        width=None if outline.shape == "circle" else Length(outline.width_mm),
    )
    said = [message("figure-base.size", size=size), _laid(basket)]
    middles = _cross_groups(base.sticks)
    if len(middles) > 1:
        said.append(message("figure-base.stand-apart", apart=Length(middles[1] - middles[0])))
    if any(stick.kind == "half stick" for stick in base.sticks):
        said.append(message("figure-base.half-stick"))
    if base.ends:
        said.append(message("figure-base.ends", count=len(base.ends)))
    return message("figure.sentences", all=Listed(tuple(said)))


def _laid(basket: Basket) -> Message:
    """How the sticks come to lie as they do."""
    sticks = basket.base.sticks
    pierced = [stick for stick in sticks if stick.pierced]
    if isinstance(basket.base.spec, RoundSlath | OvalSlath) and pierced:
        return message(
            "figure-base.slit-lay",
            pierced=ByNumber(tuple(stick.number for stick in pierced)),
            slit=Length(slit_mm(basket, pierced)),
            through=ByNumber(tuple(stick.number for stick in sticks if not stick.pierced)),
        )
    if not sticks:
        return message("figure-base.ready-made")
    over = tuple(stick.number for stick in sticks if lies_on_top(stick, sticks))
    if over:
        return message("figure-base.cross-lay", over=ByNumber(over))
    return message("figure-base.lay-out", count=len(sticks))


def _cut_words(quantities: Quantities | None) -> list[Message]:
    """The lengths the sticks of the base are cut to, from the list; those of a lid are not laid out here."""
    pieces = quantities.pieces if quantities else ()
    own = [piece for piece in pieces if "stick" in piece.part and not piece.of]
    return [
        message(
            "figure-base.cut",
            part=part_said(piece.part, round(piece.count.value)),
            length=Length(piece.cut_mm.value, CUT),
        )
        for piece in own
    ]
