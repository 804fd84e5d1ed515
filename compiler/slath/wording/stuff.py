"""Material in words: a stock with its number, its country's scale and its millimetres; a colour and its letter."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from slath.units.printing import millimetres

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from slath.language.pattern import Material
    from slath.trade.stock import Stock


def stock_words(stock: Stock) -> str:
    """``No. 8 round reed (US scale, 5.6 mm)``: numbers differ between countries, so millimetres always stand by."""
    if stock.kind == "willow":
        skin = stock.name.removesuffix(f" {stock.number} ft")
        return f"{stock.number} ft {skin}" if stock.number else stock.name
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
    return f"{dyed}{stock_words(material.stock)}{_letter(material)}"


def strand_words(material: Material) -> str:
    """A strand by its colour, its number and its letter, without its scale: ``rust-dyed No. 4 round reed <rust>``."""
    dyed = f"{material.dye}-dyed " if material.dye else ""
    stock = re.sub(r" \(.*\)$", "", stock_words(material.stock))
    return f"{dyed}{stock}{_letter(material)}"


def colour_words(key: str, materials: Mapping[str, Material], among: Iterable[str]) -> str:
    """A strand by its colour and letter, as it is picked up in the work: ``rust <rust>``, ``natural <plain>``.

    Where another strand `among` those in hand has the same colour, it is told by its number as well.
    """
    material = materials[key]
    alike = any(materials[other].dye == material.dye for other in among if other != key)
    return strand_words(material) if alike else f"{material.dye or 'natural'}{_letter(material)}"


def _letter(material: Material) -> str:
    return f" <{material.key}>" if material.letter else ""


def _size(stock: Stock) -> str:
    if abs(stock.width_mm - stock.thickness_mm) < 1e-9:
        return millimetres(stock.width_mm, 2)
    return f"{millimetres(stock.width_mm, 1)} wide, {millimetres(stock.thickness_mm, 1)} thick"
