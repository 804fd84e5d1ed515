"""A first class file for a pattern: commented, and it can be made as it stands."""

from __future__ import annotations

import datetime as dt
import re
from importlib import resources
from string import Template

from slath.language.pattern import Pattern
from slath.language.starting import quoted

AHEAD = dt.timedelta(days=56)  # of today, and then the next Saturday: time to order, dye and dry
SATURDAY = 5


def starting_class(pattern: Pattern, pattern_file: str, title: str, teacher: str, file: str, today: dt.date) -> str:
    """The text of a first class file called `file`, for six people a size of a pattern whose file lies beside it."""
    text = resources.files("slath.classes").joinpath("starts/class.yaml").read_text(encoding="utf-8")
    name = re.sub(r"[^a-z]+", " ", pattern.title.casefold()).split()
    return Template(text).substitute(
        title=quoted(title),
        teacher=quoted(teacher),
        file=file,
        name=name[0] if name else "basket",
        pattern=quoted(pattern_file),
        day=first_day(today).isoformat(),
        material=next((key for key, one in pattern.sizes[0].materials.items() if one.dye), "plain"),
        people="\n".join(f"  - {{count: 6, size: {quoted(sized.size)}}}" for sized in pattern.sizes),
    )


def first_day(today: dt.date) -> dt.date:
    """The first Saturday that leaves time to get ready."""
    day = today + AHEAD
    return day + dt.timedelta(days=(SATURDAY - day.weekday()) % 7)
