"""Blocks to write in, tick off and measure by, as plain records."""

from __future__ import annotations

from msgspec import Struct

from slath.booklet.pieces import Words


class NotesLines(Struct, frozen=True):
    """Ruled space to write in: ``lines`` lines, or the rest of the page if 0."""

    heading: str = "Notes"
    lines: int = 0


class TickRow(Struct, frozen=True):
    """A row of ``count`` boxes to tick off rounds, parted after every ``group`` of them. ``ends``: where each size stops
    that stops before the others, as (number of the box, name).
    """

    label: Words
    count: int
    group: int = 5
    ends: tuple[tuple[int, str], ...] = ()


class Fields(Struct, frozen=True):
    """Lines to write on, each with the name of what belongs there; those of one row stand next to one another."""

    rows: tuple[tuple[str, ...], ...]


class Bar(Struct, frozen=True):
    """How a length is made up: its parts in order, as (what it is, how much in each size, its share of the whole)."""

    name: Words
    parts: tuple[tuple[Words, Words, float], ...]


class FormBox(Struct, frozen=True):
    """One value to fill in: what it is, what was predicted, an empty box with its unit after it."""

    name: Words
    predicted: Words = ""
    unit: str = ""
    width: float = 30.0


class Form(Struct, frozen=True):
    """Values to fill in, one a line."""

    boxes: tuple[FormBox, ...]
    headings: tuple[str, str, str] = ("What to measure", "Predicted", "Found")
