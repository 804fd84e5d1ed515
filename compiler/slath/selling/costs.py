"""What a basket of each size costs its maker, and what a kit or a basket would be sold for. For the designer alone.

Sums are never made of two currencies: what is priced in another is told by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from msgspec import Struct

from slath.language.pattern import SizedPattern
from slath.pipeline import Compilation, CompiledSize
from slath.quantities.results import Purchase

CENTS = 2  # decimals of every currency here; prices are printed so and reckoned unrounded


class Line(Struct, frozen=True):
    """One cost of one size: what it is for, how much, in which money, and how it came about."""

    what: str
    amount: float
    currency: str
    how: str = ""


class SizeCosts(Struct, frozen=True):
    """The costs of one basket of a size.

    `by_use` is the material that goes into it, `by_pack` what must be bought for the first; `unpriced` are materials
    whose cost nobody has said, `undated` those whose price has no day.
    """

    size: str
    by_use: tuple[Line, ...]
    by_pack: tuple[Line, ...]
    work: tuple[Line, ...]
    unpriced: tuple[str, ...]
    undated: tuple[str, ...]
    mark_up: float

    def total(self, lines: Sequence[Line]) -> dict[str, float]:
        """The sum of lines in each currency there is, in the order met."""
        sums: dict[str, float] = {}
        for line in lines:
            sums[line.currency] = sums.get(line.currency, 0.0) + line.amount
        return sums

    @property
    def kit(self) -> dict[str, float]:
        """The price of a kit: material by use and fees, with the mark-up."""
        fees = [line for line in self.work if line.how != WORK]
        return {money: amount * (1 + self.mark_up) for money, amount in self.total([*self.by_use, *fees]).items()}

    @property
    def basket(self) -> dict[str, float]:
        """The price of a finished basket: material by use, work and fees, with the mark-up."""
        return {money: amount * (1 + self.mark_up) for money, amount in self.total([*self.by_use, *self.work]).items()}


WORK = "work"


def costs_of(compilation: Compilation) -> tuple[SizeCosts, ...]:
    """What every compiled size costs."""
    return tuple(_costs(size) for size in compilation.sizes)


def _costs(size: CompiledSize) -> SizeCosts:
    money = size.sized.money
    bought = [row for row in size.quantities.purchase if row.buy_mm.value > 0]
    by_pack = [line for row in bought for line in _by_pack(row)]
    by_use = [line for row in bought for line in _by_use(row)]
    work: list[Line] = []
    if money and money.hours and money.rate:
        told = f"{money.hours:g} h at {money.rate:.{CENTS}f}"
        work.append(Line(told, money.hours * money.rate, money.currency, WORK))
    if money:
        work += [Line(fee.what, fee.amount, money.currency) for fee in money.fees]
    return SizeCosts(
        size=size.name,
        by_use=tuple(by_use),
        by_pack=tuple(by_pack),
        work=tuple(work),
        unpriced=tuple(row.title for row in bought if not _priced(row)),
        undated=tuple(row.title for row in bought if _priced(row) and not _dated(row, size.sized)),
        mark_up=money.mark_up if money else 0.0,
    )


def _priced(row: Purchase) -> bool:
    return bool(row.packs) and all(pack.price is not None for pack in row.packs)


def _dated(row: Purchase, sized: SizedPattern) -> bool:
    """Whether every pack bought of a material has the day of its price."""
    known = {pack.title: pack for pack in sized.materials[row.material].stock.packs}
    return all(pack.title not in known or known[pack.title].priced_on for pack in row.packs)


def _by_pack(row: Purchase) -> list[Line]:
    if not _priced(row):
        return []
    sums: dict[str, float] = {}
    for pack in row.packs:
        sums[pack.currency] = sums.get(pack.currency, 0.0) + (pack.price or 0.0) * pack.count
    how = " + ".join(f"{pack.count} × {pack.title}" for pack in row.packs if pack.count)
    return [Line(row.title, amount, currency, how) for currency, amount in sums.items()]


def _by_use(row: Purchase) -> list[Line]:
    """What goes into the basket, at the price of what is bought: what is left over is not paid for by this one, and what
    was in hand has its price.
    """
    held = row.buy_mm.value + (row.surplus_mm.value if row.surplus_mm else 0.0)
    share = row.length_mm.value / held if held > 0 else 1.0
    return [Line(line.what, line.amount * share, line.currency, f"{share:.0%} of {line.how}") for line in _by_pack(row)]


# ------------------------------------------------------------------------------------------------------------- told
def costs_text(compilation: Compilation) -> str:
    """The costs as text for a terminal."""
    pattern = compilation.pattern
    parts = [f"{pattern.title}: what one basket costs"]
    for costs in costs_of(compilation):
        lines = [costs.size]
        lines += _section("Material, by what is used", costs, costs.by_use)
        lines += _section("Material, by whole packs", costs, costs.by_pack)
        lines += _section("Work and fees", costs, costs.work)
        if costs.kit or costs.basket:
            marked = f" (with {costs.mark_up:.0%})" if costs.mark_up else ""
            lines.append(f"  Kit{marked}: {_sums(costs.kit)}")
            lines.append(f"  Basket{marked}: {_sums(costs.basket)}")
        if len(costs.basket) > 1:
            lines.append("  Prices in different currencies are not added up.")
        if costs.unpriced:
            lines.append(f"  Without a price, and in none of these sums: {'; '.join(costs.unpriced)}.")
        if costs.undated:
            lines.append(f"  Price without a day: {'; '.join(costs.undated)}.")
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


def _section(title: str, costs: SizeCosts, lines: Sequence[Line]) -> list[str]:
    if not lines:
        return []
    width = max(len(line.what) for line in lines)
    told = [f"  {title}"]
    told += [
        f"    {line.what:<{width}}  {_amount(line.amount, line.currency)}"
        + (f"  {line.how}" if line.how and line.how != WORK else "")
        for line in lines
    ]
    return [*told, f"    {'in all':<{width}}  {_sums(costs.total(lines))}"]


def _sums(sums: dict[str, float]) -> str:
    return " + ".join(_amount(amount, currency) for currency, amount in sums.items())


def _amount(amount: float, currency: str) -> str:
    return f"{amount:.{CENTS}f} {currency}".strip()


def costs_data(compilation: Compilation) -> dict[str, Any]:
    """The costs as plain data, rounded to cents."""

    def lines(found: Sequence[Line]) -> list[dict[str, Any]]:
        return [
            {"what": line.what, "amount": round(line.amount, CENTS), "currency": line.currency, "how": line.how}
            for line in found
        ]

    def sums(found: dict[str, float]) -> dict[str, float]:
        return {currency: round(amount, CENTS) for currency, amount in found.items()}

    pattern = compilation.pattern
    return {
        "costs": 1,
        "pattern": {"title": pattern.title, "edition": pattern.edition},
        "sizes": [
            {
                "size": costs.size,
                "material_by_use": lines(costs.by_use),
                "material_by_pack": lines(costs.by_pack),
                "work_and_fees": lines(costs.work),
                "totals": {
                    "material_by_use": sums(costs.total(costs.by_use)),
                    "material_by_pack": sums(costs.total(costs.by_pack)),
                    "work_and_fees": sums(costs.total(costs.work)),
                    "kit": sums(costs.kit),
                    "basket": sums(costs.basket),
                },
                "mark_up": costs.mark_up,
                "unpriced": list(costs.unpriced),
                "undated": list(costs.undated),
            }
            for costs in costs_of(compilation)
        ],
    }
