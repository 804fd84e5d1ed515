"""Counts that would do, and how to come by them: what a maker would change, with the number it gives."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from slath.basket.count_search import FEWEST_STAKES, CountTried, try_count
from slath.basket.model import Basket, WovenBand
from slath.basket.weave import holds
from slath.language.pattern import OvalSlath, RoundSlath
from slath.messages.told import Spoken, Told, told
from slath.rules.finding import Context

_FURTHEST = 6  # stakes more or fewer than now that a remedy may ask for


def interlocks(band: WovenBand, uprights: int) -> bool:
    """Whether the band's weave, with the shift of its course, holds `uprights`."""
    return holds(band.spec.weave, uprights, band.spec.shift)


def ways_to(context: Context, wanted: Callable[[int], bool], most: int = 2) -> tuple[Spoken, ...]:
    """Remedies that bring the stakes to a count that is `wanted`, each with the count: ``leave one out (39)``.

    Only counts on which every band, the border and the handles can be worked are offered; those without any drawback
    first, then the nearest.
    """
    near = [tried for tried in _near(context.basket) if wanted(tried.stakes) and tried.suits and tried.changes]
    near.sort(key=lambda tried: (len(tried.objections), abs(tried.stakes - stakes_of(context.basket))))
    return tuple(_as_remedy(tried) for tried in near[:most])


def suits(basket: Basket, stakes: int) -> bool:
    """Whether every band, the border and the handles can be worked on `stakes`."""
    return stakes >= FEWEST_STAKES and try_count(basket, stakes).suits


def stakes_of(basket: Basket) -> int:
    """The stakes that stand round the base, bye-stakes not counted."""
    return len(basket.standing)


def uprights_if(band: WovenBand, more: int) -> int:
    """The uprights a side band would be worked on with `more` working uprights in the basket."""
    size = band.spec.groups if isinstance(band.spec.groups, int) else 1
    return band.uprights + (more if size == 1 else round(more / size))


def multiple_of(size: int) -> Callable[[int], bool]:
    """Whether a count is a multiple of `size`."""
    return lambda count: count % size == 0


def at_least(least: int) -> Callable[[int], bool]:
    """Whether a count is `least` or more."""
    return lambda count: count >= least


def ends_remedies(basket: Basket) -> tuple[Spoken, ...]:
    """How the number of stick ends is made odd or even: the half stick."""
    base = basket.base.spec
    if not isinstance(base, RoundSlath | OvalSlath):
        return ()
    ends = len(basket.base.ends)
    if base.half_stick:
        return (told("leave out the half stick ({ends} ends)", ends=ends - 1),)
    return (told("add a half stick ({ends} ends)", ends=ends + 1),)


def _near(basket: Basket) -> Iterator[CountTried]:
    now = stakes_of(basket)
    for step in range(1, _FURTHEST + 1):
        for stakes in (now - step, now + step):
            if stakes >= FEWEST_STAKES:
                yield try_count(basket, stakes)


def _as_remedy(tried: CountTried) -> Told:
    return tried.changes[0].telling(bracketed=True)
