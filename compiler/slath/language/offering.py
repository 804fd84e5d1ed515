"""What a designer says of selling, read: photographs, and what the work costs."""

from __future__ import annotations

from msgspec.structs import replace

from slath.language.keys import read
from slath.language.pictures import read_picture
from slath.language.records.offering import Money, PatternPhotograph
from slath.language.view import View
from slath.messages.told import Figure, told

HOURS_IN_A_LIFE = 10_000.0  # more than any basket takes


def read_photograph(view: View) -> PatternPhotograph:
    """One photograph: its file is looked at, its place is a word the schema knows."""
    file, shows = read_picture(view)
    return read(PatternPhotograph, view, {}, file=file, shows=shows)


def read_money(view: View) -> Money:
    """What one size costs beside its material."""
    money = read(Money, view, {})
    if money.hours is not None and money.hours > HOURS_IN_A_LIFE:
        view.note(
            "number-out-of-range",
            told("{hours} hours are more than any basket takes.", hours=Figure(f"{money.hours:g}")),
            told("write hours, not minutes"),
        )
    return replace(money, mark_up=(view.ratio("mark_up") or 0.0) / 100)
