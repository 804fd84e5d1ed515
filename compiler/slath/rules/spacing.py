"""Spacing: room between the stakes for the weaver, for the eye, and for turning them down at the rim."""

from __future__ import annotations

import math
from collections.abc import Iterator

from slath.basket.border_ends import makes
from slath.basket.model import Basket
from slath.language.pattern import Board
from slath.language.places import Path
from slath.messages.told import Figure, Spoken, told, word
from slath.quantities.crossing import closest_mm
from slath.quantities.take_up import jammed_rounds
from slath.quantities.uprights import upright_of
from slath.rules.finding import Context, Finding, part_of
from slath.rules.recount import stakes_of, suits
from slath.rules.stock_choice import stock_at_most

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
            (*band.spec.path, "strands"),
            part_of(band),
            told(
                "In round {tightest_number} the uprights stand {spacing} apart; stake and weaver together take {need}, so no strand gets between them.",
                tightest_number=tightest.number,
                spacing=context.measure(tightest.spacing_mm),
                need=context.measure(need),
            ),
            (
                told("use at most {most} uprights there", most=most),
                *((told("weave it with strands under {room}", room=context.measure(room)),) if room > 0 else ()),
                told(
                    "widen the basket there to more than {uprights} round",
                    uprights=context.measure(band.uprights * need),
                ),
            ),
        )


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
        where = (
            told("{around} across", around=context.measure(around / math.pi))
            if is_round
            else told("{around} round", around=context.measure(around))
        )
        yield Finding(
            (*band.spec.path, "worked"),
            part_of(band),
            told(
                "{first_rounds} no room: {uprights} ends of {need}, stick and weaver, fit only where the base is {where}.",
                first_rounds=_first_rounds(len(jammed)),
                uprights=band.uprights,
                need=context.measure(need),
                where=where,
            ),
            (
                told(
                    "work the sticks in groups for {jammed#{jammed:words} round|{jammed:words} rounds} more",
                    jammed=len(jammed),
                ),
                told("use finer weavers on the base"),
            ),
        )


def _first_rounds(number: int) -> Spoken:
    if number == 1:
        return told("The first round of this band has")
    return told("The first {number#{number:words} round|{number:words} rounds} of this band have", number=number)


# ------------------------------------------------------------------------------------------------------ usual range
def base_spacing_usual(context: Context) -> Iterator[Finding]:
    """Published baskets keep their stakes within a range at the base; outside it the weave is weak or crowded."""
    basket = context.basket
    if basket.profile is None or not basket.working:
        return
    low, high, whose = _range(context)
    line = basket.base.hole_line or basket.base.edge
    path = context.sized.stakes.path if context.sized.stakes else context.sized.base.path
    yield from _outside(context, path, told("base edge"), basket.base_spacing_mm, line.perimeter, low, high, whose)


def rim_spacing_usual(context: Context) -> Iterator[Finding]:
    """At the rim stakes stand wider than at the base, but not by more than a flare's worth."""
    basket, side = context.basket, context.sized.side
    if basket.profile is None or side is None or not basket.rim_uprights:
        return
    low, high, whose = _range(context)
    spread = context.setting("rim_spread")
    yield from _outside(
        context,
        (*side.path, "rim"),
        "rim",
        basket.rim_spacing_mm,
        basket.rim.perimeter,
        low,
        high * spread,
        told("{whose} at the base, and up to {high} at the rim", whose=whose, high=context.measure(high * spread)),
    )


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
        return (
            low,
            high,
            told(
                "stakes of {thin} keep {low} to {high}",
                thin=context.measure(thin),
                low=context.measure(low),
                high=context.measure(high),
            ),
        )
    whose = {
        "": told("most published round baskets keep"),
        "_willow": told("willow stakes keep"),
        "_board": told("drilled boards keep"),
    }
    return (
        low,
        high,
        told("{whose} {low} to {high}", whose=whose[kind], low=context.measure(low), high=context.measure(high)),
    )


def _closer(context: Context) -> Spoken:
    """What fills wide spaces besides more uprights; stakes that are doubled already cannot be doubled again."""
    doubled = _each(context.basket) > 1 or len(context.basket.standing) < len(context.basket.stakes)
    return told("use thicker stakes") if doubled else told("double the stakes, or set bye-stakes")


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
        path,
        "stakes",
        told(
            "At the {where} the stakes stand {spacing} apart; {whose}.",
            where=word(where),
            spacing=context.measure(spacing),
            whose=whose,
        ),
        (
            told(
                "use {wanted} uprights in place of {now}: {perimeter} apart",
                wanted=wanted,
                now=now,
                perimeter=context.measure(perimeter / wanted),
            ),
            told("stay within {fewest} to {most} uprights, where the weave allows", fewest=fewest, most=most),
            told("use finer stakes") if spacing < low else _closer(context),
        ),
    )


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
        (*path, "material"),
        "border",
        told(
            "Stakes of {thickness} stand {rim_spacing} apart at the rim, {rim_spacing2} times their thickness; under {room} they crack when they are turned down.",
            thickness=context.measure(thickest.thickness_mm),
            rim_spacing=context.measure(basket.rim_spacing_mm),
            rim_spacing2=Figure(f"{basket.rim_spacing_mm / thickest.thickness_mm:.1f}"),
            room=Figure(f"{room:g}"),
        ),
        (
            told("use at most {most} uprights at the rim", most=most),
            told(
                "use stakes of at most {rim_spacing}{finer}",
                rim_spacing=context.at_most(basket.rim_spacing_mm / room),
                finer=finer,
            ),
            told("widen the rim"),
        ),
    )


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
            (*band.spec.path, "strands"),
            part_of(band),
            told(
                "{weaver} is {thickness} thick, more than the stakes, {limit}: it will bend them.",
                weaver=weaver.title,
                thickness=context.measure(weaver.thickness_mm),
                limit=context.measure(limit),
            ),
            (
                told(
                    "weave with at most {limit}{stock_at_most}",
                    limit=context.at_most(limit),
                    stock_at_most=stock_at_most(weaver.stock, limit),
                ),
                told("use stakes of {thickness} or more", thickness=context.measure(weaver.thickness_mm)),
                told("work the stakes in twos"),
            ),
        )
