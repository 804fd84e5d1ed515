"""A first pattern file for a new basket: commented, and it builds as it stands."""

from __future__ import annotations

import re
from importlib import resources
from string import Template
from typing import Literal

from msgspec import Struct

StartKind = Literal["round", "oval", "board"]
START_KINDS: tuple[StartKind, ...] = ("round", "oval", "board")

# What differs between a first file in inches and one in millimetres.
_WORDS = {
    "inches": {
        "flare": "2 in", "thickness": "1/4 in", "spacing": "7/8 in", "inset": "3/8 in", "below": "3 1/2 in",
        "test_height": "1 1/2 in",
        **{f"reed_{number}": f"us round reed {number}" for number in (3, 4, 5, 8, 12)},
    },
    "mm": {
        "flare": "5 cm", "thickness": "6 mm", "spacing": "22 mm", "inset": "10 mm", "below": "9 cm",
        "test_height": "38 mm",
        "reed_3": "round reed 2.25 mm", "reed_4": "round reed 2.75 mm", "reed_5": "round reed 3.25 mm",
        "reed_8": "round reed 5.5 mm", "reed_12": "round reed 9.5 mm",
    },
}  # fmt: skip
# Base and side of the middle size, in inches and centimetres; the other sizes step up and down from it.
_MIDDLE = {"round": (8.5, 5, 22, 13), "oval": (11, 5, 28, 13), "board": (10, 2, 26, 5)}
_STEP = 0.12  # of the middle size, from one size to the next
_SPREAD = (
    0.36  # and from the smallest to the largest: one count of stakes serves no more (published spacings, 1/2 to 7/8 in)
)


class Start(Struct, frozen=True):
    """What is asked of the designer before the first file is written."""

    kind: StartKind
    title: str
    designer: str
    sizes: tuple[str, ...]
    units: Literal["inches", "mm"]
    dated: str


def starting_pattern(start: Start, file: str) -> str:
    """The text of a first pattern file called `file`. ValueError if a size's name cannot be one, or stands twice."""
    if not start.sizes or len(set(start.sizes)) != len(start.sizes):
        raise ValueError("give at least one size, and each name once: small,medium,large")
    for size in start.sizes:
        if not re.fullmatch(r"[\w][\w .-]*", size):
            raise ValueError(f"a size cannot be called “{size}”; use letters, digits, spaces and hyphens")
    inch_base, inch_side, cm_base, cm_side = _MIDDLE[start.kind]
    imperial = start.units == "inches"
    base, side = (inch_base, inch_side) if imperial else (cm_base, cm_side)
    text = resources.files("slath.language").joinpath(f"starts/{start.kind}.yaml").read_text(encoding="utf-8")
    return Template(text).substitute(
        title=quoted(start.title),
        designer=quoted(start.designer),
        file=file,
        dated=start.dated,
        sizes=", ".join(start.sizes),
        base=_by_size(start.sizes, base, "in" if imperial else "cm"),
        side=_by_size(start.sizes, side, "in" if imperial else "cm"),
        **_WORDS[start.units],
    )


def _by_size(sizes: tuple[str, ...], middle: float, unit: str) -> str:
    centre = (len(sizes) - 1) / 2
    step = min(_STEP, _SPREAD / max(len(sizes) - 1, 1))
    halves = [max(round(2 * middle * (1 + step * (index - centre))), 2) for index in range(len(sizes))]
    values = [f"{half // 2} 1/2" if half % 2 and unit == "in" else f"{half / 2:g}" for half in halves]
    return ", ".join(f"{size}: {value} {unit}" for size, value in zip(sizes, values, strict=True))


def quoted(text: str) -> str:
    """`text` as a YAML scalar on one line."""
    clean = " ".join(text.split())
    if re.fullmatch(r"[A-Za-z][\w '’&.-]*", clean) and clean.lower() not in {"yes", "no", "true", "false", "null"}:
        return clean
    escaped = clean.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
