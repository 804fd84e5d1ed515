"""A stock of the same kind and scale that would do, named for a remedy."""

from __future__ import annotations

from fractions import Fraction

from slath.messages.told import told
from slath.trade import Stock, all_stocks


def stock_at_most(like: Stock, thickness_mm: float) -> str:
    """``, such as us round reed 4``: the thickest stock like `like` of at most this thickness; empty if none is known."""
    fitting = [stock for stock in _alike(like) if stock.thickness_mm <= thickness_mm]
    if not fitting:
        return ""
    return told(", such as {stock}", stock=max(fitting, key=lambda stock: stock.thickness_mm).name)


def numbers_apart(coarser: Stock, finer: Stock) -> float | None:
    """How many numbers `coarser` is above `finer` on one scale; None where they cannot be compared, as flat reeds, whose
    numbers are widths.
    """
    if (
        finer.width_mm != finer.thickness_mm
        or (coarser.kind, coarser.scale) != (finer.kind, finer.scale)
        or not coarser.scale
    ):
        return None
    first, second = _number(coarser), _number(finer)
    return None if first is None or second is None else first - second


def numbered_above(finer: Stock, numbers: int) -> str:
    """The name of the stock `numbers` above `finer` on its scale; empty if the catalogue holds none."""
    for stock in _alike(finer):
        if numbers_apart(stock, finer) == numbers:
            return stock.name
    return ""


def _alike(like: Stock) -> list[Stock]:
    """The stocks of one table of the catalogue: of one name but for their number."""
    return [stock for stock in all_stocks() if _family(stock) == _family(like)]


def _family(stock: Stock) -> tuple[str, str, str]:
    if stock.length_class_mm is not None:
        return (
            stock.kind,
            stock.scale,
            stock.name.partition(stock.number)[0],
        )  # classes in feet and in centimetres alike
    return stock.kind, stock.scale, stock.name.replace(stock.number, "", 1) if stock.number else stock.name


def _number(stock: Stock) -> float | None:
    """A number of the scale such as 4 or 2 1/2; inch sizes of flat reed are no numbers of thickness."""
    if stock.scale not in {"US", "UK"}:
        return None
    try:
        return float(sum(Fraction(part) for part in stock.number.split()))
    except ValueError:
        return None
