"""Material in words: a stock with its number, its country's scale and its millimetres; a colour and its letter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.units.printing import millimetres

if TYPE_CHECKING:
    from collections.abc import Mapping

    from slath.language.pattern import Material
    from slath.trade.stock import Stock


def stock_words(stock: Stock) -> str:
    """``No. 8 round reed (US scale, 5.6 mm)``: numbers differ between countries, so millimetres always stand by."""
    if stock.kind == "willow":
        return (
            f"{stock.name.removesuffix(f' {stock.number} ft')} rods, {stock.number} ft" if stock.number else stock.name
        )
    if stock.scale in {"US", "UK"} and stock.number:
        size = _size(stock)
        if stock.number[0].isdigit() and not stock.name.endswith(" in"):
            return f"No. {stock.number} {stock.kind} ({stock.scale} scale, {size})"
        number = f"{stock.number} in" if stock.name.endswith(" in") else stock.number
        return f"{number} {stock.kind} ({size})"
    if stock.number and stock.scale in {"inch", "mm"}:
        kind = stock.name.split(" ", maxsplit=1)[0] if stock.kind == "wood" else stock.kind
        return f"{stock.number} {'in' if stock.scale == 'inch' else 'mm'} {kind}"
    return f"{stock.name or stock.kind} ({_size(stock)})"


def material_words(material: Material) -> str:
    """The stock, with the colour before it and the letter after it."""
    dyed = f"{material.dye}-dyed " if material.dye else ""
    letter = f" <{material.key}>" if material.letter else ""
    return f"{dyed}{stock_words(material.stock)}{letter}"


def colour_words(key: str, materials: Mapping[str, Material]) -> str:
    """A strand by its colour and letter, as it is picked up in the work: ``rust <rust>``, ``natural <plain>``."""
    material = materials[key]
    name = material.dye or "natural"
    return f"{name} <{key}>" if material.letter else name


def _size(stock: Stock) -> str:
    if abs(stock.width_mm - stock.thickness_mm) < 1e-9:
        return millimetres(stock.width_mm, 2)
    return f"{millimetres(stock.width_mm, 1)} wide, {millimetres(stock.thickness_mm, 1)} thick"
