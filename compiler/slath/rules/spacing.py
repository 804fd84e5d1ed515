"""Spacing: room between the stakes for the weaver, for the eye, and for turning them down at the rim."""

from __future__ import annotations

import math
from collections.abc import Iterator

from slath.basket.border_ends import makes
from slath.basket.model import Basket
from slath.language.pattern import Board
from slath.language.places import Path
from slath.quantities.crossing import closest_mm
from slath.quantities.take_up import jammed_rounds
from slath.quantities.uprights import upright_of
from slath.rules.finding import Context, Finding, part_of
from slath.rules.recount import stakes_of, suits
from slath.rules.stock_choice import stock_at_most
from slath.units.counting import counted

_SOFT = frozenset({"rush", "braid", "raffia", "cord"})  # weavers no stake is bent by; common practice, no source
_FINE_MM = 2.25  # stakes below No. 3, finer than those of the published baskets, may stand closer by as much; estimated
_NEAR = 0.02  # a spacing this share outside the usual range is still called usual


def weaver_passes(context: Context) -> Iterator[Finding]:
    """Where the spacing is no more than stake and weaver together, nothing can be woven."""
    for band in context.on_stakes:
        upright = upright_of(band, context.basket)
        jammed = jammed_rounds(band, upright, context.sized)
        if not jammed:
            continue
        tightest = min(jammed, key=lambda found: found.spacing_mm)
        thickest = max(context.material(key).thickness_mm for key in band.spec.strands)
        need = closest_mm(upright.section, thickest)
        room = tightest.spacing_mm - (need - thickest)
        most = math.ceil(tightest.perimeter_mm / need) - 1
        yield Finding(
            (*band.spec.path, "strands"), part_of(band),
            f"In round {tightest.number} the uprights stand {context.measure(tightest.spacing_mm)} apart; stake and "
            f"weaver together take {context.measure(need)}, so no strand gets between them.",
            (
                f"use at most {most} uprights there",
                *((f"weave it with strands under {context.measure(room)}",) if room > 0 else ()),
                f"widen the basket there to more than {context.measure(band.uprights * need)} round",
            ),
        )  # fmt: skip


def sticks_opened_in_time(context: Context) -> Iterator[Finding]:
    """Sticks woven singly need room between them, so they cannot be parted too near the slath."""
    for band in context.basket.base.bands:
        if max(band.group_sizes, default=1) > 1 or band.spec.groups == "grouped":
            continue
        upright = upright_of(band, context.basket)
        jammed = jammed_rounds(band, upright, context.sized)
        if not jammed:
            continue
        thickest = max(context.material(key).thickness_mm for key in band.spec.strands)
        need = closest_mm(upright.section, thickest)
        around = band.uprights * need
        is_round = context.basket.base.edge.outline.shape == "circle"
        where = f"{context.measure(around / math.pi)} across" if is_round else f"{context.measure(around)} round"
        yield Finding(
            (*band.spec.path, "worked"), part_of(band),
            f"{_first_rounds(len(jammed))} no room: {band.uprights} ends of {context.measure(need)}, stick and weaver, fit "
            f"only where the base is {where}.",
            (
                f"work the sticks in groups for {counted(len(jammed), 'round', 'rounds')} more",
                "use finer weavers on the base",
            ),
        )  # fmt: skip


def _first_rounds(number: int) -> str:
    if number == 1:
        return "The first round of this band has"
    return f"The first {counted(number, 'round', 'rounds')} of this band have"


# ------------------------------------------------------------------------------------------------------ usual range
def base_spacing_usual(context: Context) -> Iterator[Finding]:
    """Published baskets keep their stakes within a range at the base; outside it the weave is weak or crowded."""
    basket = context.basket
    if basket.profile is None or not basket.working:
        return
    low, high, whose = _range(context)
    line = basket.base.hole_line or basket.base.edge
    path = context.sized.stakes.path if context.sized.stakes else context.sized.base.path
    yield from _outside(context, path, "base edge", basket.base_spacing_mm, line.perimeter, low, high, whose)


def rim_spacing_usual(context: Context) -> Iterator[Finding]:
    """At the rim stakes stand wider than at the base, but not by more than a flare's worth."""
    basket, side = context.basket, context.sized.side
    if basket.profile is None or side is None or not basket.rim_uprights:
        return
    low, high, whose = _range(context)
    spread = context.setting("rim_spread")
    yield from _outside(
        context, (*side.path, "rim"), "rim", basket.rim_spacing_mm, basket.rim.perimeter, low, high * spread,
        f"{whose} at the base, and up to {context.measure(high * spread)} at the rim",
    )  # fmt: skip


def _range(context: Context) -> tuple[float, float, str]:
    """The usual spacing, mm, for what the stakes are and stand in, and whose it is."""
    stakes = context.basket.stakes
    kind = "_willow" if stakes and context.material(stakes[0].material).stock.kind == "willow" else ""
    if not kind and isinstance(context.sized.base, Board):
        kind = "_board"
    low, high = context.setting(f"spacing_low{kind}"), context.setting(f"spacing_high{kind}")
    thin = context.material(stakes[0].material).thickness_mm if stakes else _FINE_MM
    if not kind and thin < _FINE_MM:
        low = low * thin / _FINE_MM
        return low, high, f"stakes of {context.measure(thin)} keep {context.measure(low)} to {context.measure(high)}"
    whose = {"": "most published round baskets keep", "_willow": "willow stakes keep", "_board": "drilled boards keep"}
    return low, high, f"{whose[kind]} {context.measure(low)} to {context.measure(high)}"


def _closer(context: Context) -> str:
    """What fills wide spaces besides more uprights; stakes that are doubled already cannot be doubled again."""
    doubled = _each(context.basket) > 1 or len(context.basket.standing) < len(context.basket.stakes)
    return "use thicker stakes" if doubled else "double the stakes, or set bye-stakes"


def _outside(
    context: Context, path: Path, where: str, spacing: float, perimeter: float, low: float, high: float, whose: str
) -> Iterator[Finding]:
    if low * (1 - _NEAR) <= spacing <= high * (1 + _NEAR):
        return
    now = round(perimeter / spacing)
    fewest, most = math.ceil(perimeter / high), math.floor(perimeter / low)
    inside = range(fewest, most + 1)
    holding = [count for count in inside if suits(context.basket, count * _each(context.basket))] or list(inside)
    wanted = min(holding, key=lambda count: abs(count - now), default=now)
    yield Finding(
        path, "stakes",
        f"At the {where} the stakes stand {context.measure(spacing)} apart; {whose}.",
        (
            f"use {wanted} uprights in place of {now}: {context.measure(perimeter / wanted)} apart",
            f"stay within {fewest} to {most} uprights, where the weave allows",
            "use finer stakes" if spacing < low else _closer(context),
        ),
    )  # fmt: skip


def _each(basket: Basket) -> int:
    """Stakes in each working upright."""
    return max(stakes_of(basket) // max(basket.working, 1), 1)


# ------------------------------------------------------------------------------------------------------- thickness
def stakes_bend_at_rim(context: Context) -> Iterator[Finding]:
    """A stake turned down round its neighbour bends sharply where the neighbour is near; a thick one cracks."""
    basket, border = context.basket, context.basket.border
    if border is None or not basket.stakes or border.spec.plait is not None:
        return
    turned = [stake for stake in basket.stakes if makes(border, stake)]
    thickest = max((context.material(stake.material) for stake in turned), key=lambda item: item.thickness_mm)
    room = context.setting("bend_room")
    if basket.rim_spacing_mm >= room * thickest.thickness_mm:
        return
    most = math.floor(basket.rim.perimeter / (room * thickest.thickness_mm))
    finer = stock_at_most(thickest.stock, basket.rim_spacing_mm / room)
    path = context.sized.stakes.path if context.sized.stakes else context.sized.base.path
    yield Finding(
        (*path, "material"), "border",
        f"Stakes of {context.measure(thickest.thickness_mm)} stand {context.measure(basket.rim_spacing_mm)} apart at the "
        f"rim, {basket.rim_spacing_mm / thickest.thickness_mm:.1f} times their thickness; under {room:g} they crack when "
        "they are turned down.",
        (
            f"use at most {most} uprights at the rim",
            f"use stakes of at most {context.at_most(basket.rim_spacing_mm / room)}{finer}",
            "widen the rim",
        ),
    )  # fmt: skip


def weavers_finer_than_stakes(context: Context) -> Iterator[Finding]:
    """A weaver thicker than the stakes it goes round bends the stakes in place of itself."""
    stakes = context.basket.stakes
    if not stakes:
        return
    stake = context.material(stakes[0].material)
    for band in context.on_stakes:
        if not band.spec.strands:
            continue
        key = max(band.spec.strands, key=lambda name: context.material(name).thickness_mm)
        weaver = context.material(key)
        if stake.stock.kind == weaver.stock.kind == "willow" or weaver.stock.kind in _SOFT:
            continue  # the order of willow thicknesses has a rule of its own; what is soft bends itself
        limit = stake.thickness_mm * max(band.group_sizes, default=1)
        if weaver.thickness_mm <= limit:
            continue
        yield Finding(
            (*band.spec.path, "strands"), part_of(band),
            f"{weaver.title} is {context.measure(weaver.thickness_mm)} thick, more than the stakes, "
            f"{context.measure(limit)}: it will bend them.",
            (
                f"weave with at most {context.at_most(limit)}{stock_at_most(weaver.stock, limit)}",
                f"use stakes of {context.measure(weaver.thickness_mm)} or more",
                "work the stakes in twos",
            ),
        )  # fmt: skip
