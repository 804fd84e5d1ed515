"""A first pattern file for a new basket: commented, and it builds as it stands."""

from __future__ import annotations

import re
from dataclasses import dataclass
from importlib import resources
from string import Template
from typing import Literal

StartKind = Literal["round", "oval", "board"]
START_KINDS: tuple[StartKind, ...] = ("round", "oval", "board")

# Base and side of the middle size, in inches and centimetres; the other sizes step up and down from it.
_MIDDLE = {"round": (7, 5, 18, 13), "oval": (10, 5, 26, 13), "board": (10, 2, 26, 5)}
_STEP = 0.2  # of the middle size, from one size to the next


@dataclass(frozen=True, slots=True)
class Start:
    """What is asked of the designer before the first file is written."""

    kind: StartKind
    title: str
    designer: str
    sizes: tuple[str, ...]
    units: Literal["inches", "mm"]
    dated: str


def starting_pattern(start: Start, file: str) -> str:
    """The text of a first pattern file called `file`. ValueError if a size's name cannot be one."""
    for size in start.sizes:
        if not re.fullmatch(r"[\w][\w .-]*", size):
            raise ValueError(f"a size cannot be called {size!r}; use letters, digits, spaces and hyphens")
    inch_base, inch_side, cm_base, cm_side = _MIDDLE[start.kind]
    imperial = start.units == "inches"
    base, side = (inch_base, inch_side) if imperial else (cm_base, cm_side)
    text = resources.files("slath.language").joinpath(f"starts/{start.kind}.yaml").read_text(encoding="utf-8")
    return Template(text).substitute(
        title=_quoted(start.title),
        designer=_quoted(start.designer),
        file=file,
        dated=start.dated,
        sizes=", ".join(start.sizes),
        base=_by_size(start.sizes, base, "in" if imperial else "cm"),
        side=_by_size(start.sizes, side, "in" if imperial else "cm"),
        flare="2 in" if imperial else "5 cm",
    )


def _by_size(sizes: tuple[str, ...], middle: float, unit: str) -> str:
    centre = (len(sizes) - 1) / 2
    halves = [max(round(2 * middle * (1 + _STEP * (index - centre))), 2) for index in range(len(sizes))]
    values = [f"{half // 2} 1/2" if half % 2 and unit == "in" else f"{half / 2:g}" for half in halves]
    return ", ".join(f"{size}: {value} {unit}" for size, value in zip(sizes, values, strict=True))


def _quoted(text: str) -> str:
    """`text` as a YAML scalar on one line."""
    clean = " ".join(text.split())
    if re.fullmatch(r"[A-Za-z][\w '’&.-]*", clean) and clean.lower() not in {"yes", "no", "true", "false", "null"}:
        return clean
    escaped = clean.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
