"""What the teacher has already: lengths and rods of a stock, natural or dyed, under the names a teacher gives them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from slath.classes.record import InHand
from slath.language.pattern import Material
from slath.language.spelling import nearest
from slath.language.view import GREATEST_STRAND_MM, View
from slath.messages.told import kept
from slath.trade import find_stock
from slath.trade.stock import Stock


def read_in_hand(view: View | None, materials: Mapping[str, Sequence[Material]]) -> tuple[InHand, ...]:
    """Everything in hand; `materials` are those of the patterns, by their names there."""
    found: list[InHand] = []
    for name, item in view.entries() if view is not None else ():
        what = _what(name, materials)
        if what is None:
            known = [*materials, *(one.stock.name for ones in materials.values() for one in ones)]
            near = nearest(name, known)
            item.note(
                "unknown-stock",
                kept("class-notes.no-pattern-of-the-class", name=name),
                kept("class-notes.write", near=near) if near else kept("class-notes.write-the-stock-s-name"),
                at_key=True,
            )
            continue
        found.append(_counted(item, *what))
    return tuple(found)


def lengths_sold(view: View | None, materials: Mapping[str, Sequence[Material]]) -> dict[str, float]:
    """How long the pieces of a stock are as the teacher buys them, mm, by the stock's own name."""
    found: dict[str, float] = {}
    for name, item in view.entries() if view is not None else ():
        what = _what(name, materials)
        if what is None or what[1]:
            item.note("unknown-stock", kept("class-notes.there-is-no-stock-called", name=name),
                      kept("class-notes.write-the-stock-s-name-as"), at_key=True)  # fmt: skip
            continue
        found[what[0].name] = item.own_length(most=GREATEST_STRAND_MM)
    return found


def _what(name: str, materials: Mapping[str, Sequence[Material]]) -> tuple[Stock, str] | None:
    """The stock and dye a name stands for: a material of a pattern, a stock, or a stock and its dye after a comma.

    A material's name that means two things in two patterns stands for neither.
    """
    if name in materials:
        meant = {(one.stock.name, one.dye or ""): one.stock for one in materials[name]}
        return next(((stock, dye) for (_, dye), stock in meant.items()), None) if len(meant) == 1 else None
    stock = _stock(name, materials)
    if stock is not None:
        return stock, ""
    named, _, dye = name.rpartition(",")
    stock = _stock(named.strip(), materials) if named else None
    return (stock, dye.strip()) if stock is not None and dye.strip() else None


def _stock(name: str, materials: Mapping[str, Sequence[Material]]) -> Stock | None:
    """The stock of that name as the patterns have it, packs and all; else one of the catalogue."""
    used = {one.stock.name: one.stock for ones in materials.values() for one in ones}
    listed = find_stock(name)
    return used.get(name) or (used.get(listed.name, listed) if listed is not None else None)


def _counted(item: View, stock: Stock, dye: str) -> InHand:
    if stock.length_class_mm is not None and not isinstance(item.data, list):
        return InHand(stock, dye, (), item.own_count(least=0), measured=False)
    lengths = tuple(view.own_length(nought=True, most=GREATEST_STRAND_MM) for view in item.items())
    return InHand(stock, dye, lengths, 0, measured=isinstance(item.data, list))
