"""Which stakes a border works as one: pairs and groups, as they stand when it begins."""

from __future__ import annotations

from itertools import pairwise

from slath.basket.border_ends import foot_ends, makes
from slath.basket.construct import changed
from slath.basket.model import Basket, WorkedBorder
from slath.basket.stakes import working_groups


def stakes_together(basket: Basket, border: WorkedBorder) -> int:
    """Stakes in each thing that is bent down as one; 1 where they are not alike all round, or all but one are cut off."""
    if border.spec.cut_to_one:
        return 1
    taken = border.spec.plait.group if border.spec.plait else border.spec.groups
    return taken * _stakes_in_one(basket, border)


def _stakes_in_one(basket: Basket, border: WorkedBorder) -> int:
    """Stakes woven as one where the border begins; one where they are not alike all round."""
    foot = border.spec.foot
    if foot and foot_ends(basket) == "of its own":
        return 1
    if border.stakes:
        return max(round(len(border.stakes) / border.count / max(border.spec.groups, 1)), 1)
    groups = working_groups(basket.stakes)
    for _, change, _ in () if foot else basket.changes:
        groups = changed(groups, change)
    later = () if foot else (bye for bye in basket.pattern.bye_stakes if bye.after_band)
    beside_all = sum(bye.every == 1 and bye.count is None and not bye.beside for bye in later)
    return groups[0] + beside_all if len(set(groups)) == 1 else 1


def border_units(basket: Basket, border: WorkedBorder | None) -> list[list[int]]:
    """Stake indices of each thing the border works as one, in order round the rim; every stake alone without a border."""
    chosen = [index for index, stake in enumerate(basket.stakes) if border is None or makes(border, stake)]
    count = len(chosen)
    units = border.count if border else count
    edges = [round(place * count / units) for place in range(units + 1)] if units else []
    return [chosen[first:last] or [chosen[min(first, count - 1)]] for first, last in pairwise(edges)]
