"""What a designer says of selling: whom to write to, photographs for the pages, and what the work costs."""

from __future__ import annotations

from msgspec import Struct

from slath.language.pictures import read_picture
from slath.language.places import Path
from slath.language.view import View

HOURS_IN_A_LIFE = 10_000.0  # more than any basket takes


class PatternPhotograph(Struct, frozen=True):
    """A photograph and where it stands: ``cover``, ``back``, or a stage of the work. `shows` is told to who cannot see it."""

    path: Path
    file: str
    shows: str
    at: str
    caption: str


class Fee(Struct, frozen=True):
    """A cost that comes with every basket: a stall, a box, a card."""

    what: str
    amount: float


class Money(Struct, frozen=True):
    """What making one basket of a size costs beside its material, all in one currency.

    `hours` of work at `rate` an hour; `mark_up` is a share of all costs (0.4 is 40 %). None: not said.
    """

    path: Path
    currency: str
    hours: float | None
    rate: float | None
    fees: tuple[Fee, ...]
    mark_up: float


def read_photograph(view: View) -> PatternPhotograph:
    """One photograph: its file is looked at, its place is a word the schema knows."""
    file, shows = read_picture(view)
    return PatternPhotograph(view.path, file, shows, view.text("at", "cover"), view.text("caption"))


def read_money(view: View) -> Money:
    """What one size costs beside its material."""
    hours = view.ratio("hours")
    if hours is not None and hours > HOURS_IN_A_LIFE:
        view.note("number-out-of-range", f"{hours:g} hours are more than any basket takes.", "write hours, not minutes")
    mark_up = view.ratio("mark_up")
    return Money(
        path=view.path,
        currency=view.text("currency"),
        hours=hours,
        rate=_plain(view, "rate"),
        fees=view.each("fees", lambda fee: Fee(fee.text("what"), _plain(fee, "amount") or 0.0)),
        mark_up=(mark_up or 0.0) / 100,
    )


def _plain(view: View, key: str) -> float | None:
    """An amount of money, which the schema has held to be a number."""
    inner = view.get(key)
    return float(inner.data) if inner is not None and isinstance(inner.data, int | float) else None
