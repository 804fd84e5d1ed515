"""Numbers told for several sizes in one row, or in cells of a table, taken apart again for tests that look for each."""

from __future__ import annotations

import re

_FIGURE = r"(?:\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+)"
_ROW = rf"{_FIGURE}(?:, {_FIGURE})* or {_FIGURE}"
_TOLD = re.compile(
    rf"({_ROW}|{_FIGURE}) (in|ft) \(({_ROW}|{_FIGURE}) (mm|m)\)|({_ROW}|{_FIGURE}) (mm|m) \(({_ROW}|{_FIGURE}) (in|ft)\)"
)
_CELL = re.compile(rf"({_FIGURE}) (in|ft|mm|m) ({_FIGURE}) (in|ft|mm|m)\b")
_HEADED = re.compile(rf"\b(in|mm), (in|mm): ({_FIGURE}) ({_FIGURE})(?=;| -|$)")


def spelled_out(text: str) -> str:
    """`text` with every row such as ``9 or 11 in (229 or 279 mm)`` written as the measures it stands for, and so every
    cell such as ``9 in 229 mm``, or ``9 229`` under a heading that names the units.
    """
    headed = _HEADED.sub(r"\1, \2: \3 \1 (\4 \2)", text)
    return _TOLD.sub(_measures, _CELL.sub(r"\1 \2 (\3 \4)", headed))


def _measures(found: re.Match[str]) -> str:
    first, unit, second, other = [part for part in found.groups() if part]
    one, two = _numbers(first), _numbers(second)
    count = max(len(one), len(two))
    one, two = one * (count if len(one) == 1 else 1), two * (count if len(two) == 1 else 1)
    return ", ".join(f"{a} {unit} ({b} {other})" for a, b in zip(one, two, strict=True))


def _numbers(row: str) -> list[str]:
    return re.split(r", | or ", row)
