"""A stock in words, as it is printed: its number, whose number it is, and its millimetres."""

from __future__ import annotations

from slath.trade.stock import Stock
from slath.units.printing import millimetres


def stock_words(stock: Stock) -> str:
    """``No. 8 round reed (US scale, 5.6 mm)``: numbers differ between countries, so millimetres always stand by."""
    if stock.kind == "willow":
        skin, _, unit = stock.name.partition(f" {stock.number}")  # classes in feet or in centimetres
        return f"{stock.number}{unit} {skin}" if stock.number else stock.name
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


def _size(stock: Stock) -> str:
    if abs(stock.width_mm - stock.thickness_mm) < 1e-9:
        return millimetres(stock.width_mm, 2)
    return f"{millimetres(stock.width_mm, 1)} wide, {millimetres(stock.thickness_mm, 1)} thick"
