"""What the material a woven size took says of the strand each weave takes, by elimination from material to material."""

from __future__ import annotations

import math

from msgspec import Struct

from slath.basket.model import Basket, WovenBand
from slath.language.pattern import Gauge
from slath.messages import Listed, Own, message
from slath.quantities.learned_heights import Weave, material_of
from slath.quantities.results import Doubt, Quantities, StrandRun

# How far strand taken may come from strand worked out before the figure is taken for a slip of the pen. Estimated.
_LEAST, _MOST = 0.75, 1.75
# A weave must make up this share of what was taken, or the error of all the rest would fall upon it. Estimated.
_LEAST_SHARE = 0.5


class _Account(Struct):
    """One material: what was taken of it less what is sure, and what each weave still unknown should take of that."""

    key: str
    taken_mm: float
    left_mm: float
    unknown: dict[Weave, float]


def learned_lengths(basket: Basket, found: Quantities) -> tuple[tuple[Gauge, ...], tuple[Doubt, ...]]:
    """How much strand each weave took against what was worked out, from a basket as woven and its list.

    A material that is used in one weave alone tells of that weave; what it tells is taken off the other materials of
    that stock, and so on. Weaves that never stand alone share what their material tells, each in proportion. What is too
    small a share of what was taken teaches nothing.
    """
    woven = basket.pattern.woven
    accounts = _accounts(basket, found)
    gauges: list[Gauge] = []
    doubts: list[Doubt] = []
    while woven is not None and (weaves := _told_of(accounts)):
        telling = [account for account in accounts if tuple(account.unknown) == weaves]
        predicted = math.fsum(math.fsum(account.unknown.values()) for account in telling)
        factor = math.fsum(account.left_mm for account in telling) / predicted
        path = (*woven.path, "used", telling[0].key)
        enough = predicted >= _LEAST_SHARE * math.fsum(account.taken_mm for account in telling)
        believed = _LEAST <= factor <= _MOST
        if enough and believed:
            gauges += [
                Gauge(
                    path, weave, telling[0].key, None, None, None, None, woven.by, woven.on,
                    length_factor=factor, of_size=basket.size, shared=len(weaves) > 1,
                )
                for weave, _ in weaves
            ]  # fmt: skip
        elif enough:
            named = Listed(tuple(Own(weave) for weave in dict.fromkeys(weave for weave, _ in weaves)))
            doubts.append(Doubt(path, message("tested.strand-that-took", weaves=named), factor * predicted, predicted))
        for weave in weaves:
            _settle(accounts, weave, factor if enough and believed else 1.0)
    return tuple(gauges), tuple(doubts)


def taken_mm(key: str, basket: Basket) -> float | None:
    """The length of a material the test weave took: what was begun with, less what was left over of it."""
    woven = basket.pattern.woven
    stock = basket.pattern.materials[key].stock
    if woven is None or key not in woven.used or stock.length_class_mm is not None:
        return None
    return woven.used[key] - woven.left_over.get(key, 0.0)


def _accounts(basket: Basket, found: Quantities) -> list[_Account]:
    bands = {(band.part, band.index, band.spec.written_as): band for band in _bands(basket)}
    accounts = []
    for key in basket.pattern.materials:
        taken = taken_mm(key, basket)
        if taken is None:
            continue
        cut = math.fsum(piece.count.value * piece.cut_mm.value for piece in found.pieces if piece.material == key)
        account = _Account(key, taken, taken - cut, {})
        for run in found.strands:
            if run.material == key:
                _enter(account, run, bands[(run.part, run.index, run.band)], basket)
        accounts.append(account)
    return accounts


def _enter(account: _Account, run: StrandRun, band: WovenBand, basket: Basket) -> None:
    """Ends are as many as strands, whatever the weave takes; the designer's own take-up is not for learning."""
    account.left_mm -= run.ends_mm.value
    material = material_of(band, basket)
    going = run.woven_mm.value + run.laps_mm.value
    if band.spec.take_up is not None or material is None:
        account.left_mm -= going
    else:
        weave = (band.spec.weave.label, material.stock.name)
        account.unknown[weave] = account.unknown.get(weave, 0.0) + going


def _bands(basket: Basket) -> tuple[WovenBand, ...]:
    return basket.all_woven


def _told_of(accounts: list[_Account]) -> tuple[Weave, ...]:
    """The weaves that some material tells of: one alone where there is such a material, else as few as can be."""
    unknown = sorted((tuple(account.unknown) for account in accounts if account.unknown), key=len)
    return unknown[0] if unknown else ()


def _settle(accounts: list[_Account], weave: Weave, factor: float) -> None:
    for account in accounts:
        account.left_mm -= factor * account.unknown.pop(weave, 0.0)
