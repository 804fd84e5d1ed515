"""Numbers told for several sizes in one row, taken apart again by a way of its own, for tests that look for each."""

from __future__ import annotations

import re

_FIGURE = r"(?:\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+)"
_ROW = rf"{_FIGURE}(?:, {_FIGURE})* or {_FIGURE}"
_TOLD = re.compile(
    rf"({_ROW}|{_FIGURE}) (in|ft) \(({_ROW}|{_FIGURE}) (mm|m)\)|({_ROW}|{_FIGURE}) (mm|m) \(({_ROW}|{_FIGURE}) (in|ft)\)"
)


def spelled_out(text: str) -> str:
    """`text` with every row such as ``9 or 11 in (229 or 279 mm)`` written as the measures it stands for."""
    return _TOLD.sub(_measures, text)


def _measures(found: re.Match[str]) -> str:
    first, unit, second, other = [part for part in found.groups() if part]
    one, two = _numbers(first), _numbers(second)
    count = max(len(one), len(two))
    one, two = one * (count if len(one) == 1 else 1), two * (count if len(two) == 1 else 1)
    return ", ".join(f"{a} {unit} ({b} {other})" for a, b in zip(one, two, strict=True))


def _numbers(row: str) -> list[str]:
    return re.split(r", | or ", row)
