"""What a code of a note stands for."""

from __future__ import annotations

from typing import NamedTuple


class Entry(NamedTuple):
    """What a code stands for: a short title and an explanation of one or two sentences."""

    title: str
    explanation: str
