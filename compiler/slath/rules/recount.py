"""Counts that would do, and how to come by them: what a maker would change, with the number it gives."""

from __future__ import annotations

from collections.abc import Callable

from slath.basket.model import Basket, WovenBand
from slath.basket.weave import follows, holds
from slath.language.pattern import Board, OvalSlath, RoundSlath
from slath.rules.finding import Context
from slath.units.counting import counted, in_words

_FURTHEST = 6  # stakes more or fewer than now that a remedy may ask for


def interlocks(band: WovenBand, uprights: int) -> bool:
    """Whether the band's weave holds `uprights`; passing over `shift` more once a round changes its course."""
    shift = band.spec.shift
    return holds(band.spec.weave, uprights) or bool(shift and holds(band.spec.weave, uprights - shift))


def nearest_counts(context: Context, wanted: Callable[[int], bool], most: int = 2) -> list[int]:
    """Up to `most` other numbers of stakes, nearest first, that are `wanted` and that every band, border and handle allow."""
    now = len(context.basket.stakes)
    near = [now + sign * step for step in range(1, _FURTHEST + 1) for sign in (-1, 1)]
    return [count for count in near if count >= 3 and wanted(count) and suits(context, count)][:most]


def suits(context: Context, stakes: int) -> bool:
    """Whether every side band holds on `stakes`, and the border closes on what stands at the rim."""
    basket = context.basket
    together = _together(basket)
    if stakes % together:
        return False
    more = stakes // together - basket.working
    for band in basket.bands:
        uprights = uprights_if(band, more)
        if not interlocks(band, uprights) or not follows(band.spec.weave, uprights):
            return False
    if basket.border is None:
        return True
    return (basket.rim_uprights + more) // max(basket.border.spec.groups, 1) >= basket.border.smallest_count


def uprights_if(band: WovenBand, more: int) -> int:
    """The uprights a side band would be worked on with `more` working uprights in the basket."""
    size = band.spec.groups if isinstance(band.spec.groups, int) else 1
    return band.uprights + (more if size == 1 else round(more / size))


def ways_to(context: Context, wanted: Callable[[int], bool], most: int = 2) -> tuple[str, ...]:
    """Remedies that bring the stakes to a count that is `wanted`, each with the count: ``leave out one stake (39)``."""
    ways = (way_to(context.basket, count) for count in nearest_counts(context, wanted, most + 2))
    return tuple(way for way in ways if way)[:most]


def way_to(basket: Basket, stakes: int) -> str:
    """How a maker would come to `stakes` from what stands now; empty if this base offers no way."""
    more = stakes - len(basket.stakes)
    base, spec = basket.base.spec, basket.pattern.stakes
    if isinstance(base, Board):
        return f"drill {stakes} holes"
    if spec is not None and spec.count is not None:
        return f"set {stakes} stakes"
    if spec is None:
        return _by_sticks(basket, more)
    if more < 0:
        return f"leave out {counted(-more, 'stake', 'stakes')} ({stakes})"
    return f"give {counted(more, 'end', 'ends')} one stake more ({stakes})"


def multiple_of(size: int) -> Callable[[int], bool]:
    """Whether a count is a multiple of `size`."""
    return lambda count: count % size == 0


def at_least(least: int) -> Callable[[int], bool]:
    """Whether a count is `least` or more."""
    return lambda count: count >= least


def ends_remedies(basket: Basket) -> tuple[str, ...]:
    """How the number of stick ends is made odd or even: the half stick."""
    base = basket.base.spec
    if not isinstance(base, RoundSlath | OvalSlath):
        return ()
    ends = len(basket.base.ends)
    if base.half_stick:
        return (f"leave out the half stick ({ends - 1} ends)",)
    return (f"add a half stick ({ends + 1} ends)",)


def _by_sticks(basket: Basket, more: int) -> str:
    """Sticks that turn up bring two ends each, a half stick one."""
    base, total = basket.base.spec, len(basket.stakes) + more
    half = isinstance(base, RoundSlath | OvalSlath) and base.half_stick
    if more % 2 == 0:
        sticks = abs(more) // 2
        word = "more" if more > 0 else "fewer"
        return f"use {in_words(sticks)} {'stick' if sticks == 1 else 'sticks'} {word} ({total} ends)"
    if more == -1 and half:
        return f"leave out the half stick ({total} ends)"
    if more == 1 and not half and isinstance(base, RoundSlath | OvalSlath):
        return f"add a half stick ({total} ends)"
    return ""


def _together(basket: Basket) -> int:
    return max(basket.pattern.stakes.worked_as, 1) if basket.pattern.stakes else 1
