"""A pattern with every length of it scaled: basket, stocks, settings and gauge alike."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec import Struct
from msgspec.structs import replace

from slath.basket.construct import construct
from slath.language.pattern import Settings, SizedPattern
from slath.quantities import quantities_of
from slath.quantities.cutting import cut_step
from slath.units import Amount


def check_scaling(pattern: SizedPattern, factor: float) -> None:
    """Compare the list of a pattern with that of the scaled one."""
    grown = scaled(pattern, factor)
    small, large = quantities_of(construct(pattern)), quantities_of(construct(grown))
    large_step = cut_step(grown)
    assert (small.stakes.value, small.working.value) == (large.stakes.value, large.working.value)
    compared = 0
    for first, second in zip(small.pieces, large.pieces, strict=True):
        assert (first.part, first.count.value) == (second.part, second.count.value)
        assert second.needed_mm.value == pytest.approx(factor * first.needed_mm.value, rel=1e-4, abs=1e-2)
        # Cut lengths go up in steps, which scale too; a length within a hair of a step may take the next.
        step = large_step.value
        assert abs(second.cut_mm.value - factor * first.cut_mm.value) <= step + 1e-2
        compared += 1
    for row, scaled_row in zip(small.bands, large.bands, strict=True):
        assert row.rounds.value == scaled_row.rounds.value
        assert scaled_row.take_up.value == pytest.approx(row.take_up.value, rel=1e-5)
        compared += 1
    for run, scaled_run in zip(small.strands, large.strands, strict=True):
        assert run.rods == scaled_run.rods
        assert scaled_run.woven_mm.value == pytest.approx(factor * run.woven_mm.value, rel=1e-5)
        compared += 1
    assert compared >= 3
    assert large.finished.height.value == pytest.approx(factor * small.finished.height.value, rel=1e-5)


def scaled(record: Any, factor: float) -> Any:
    """The same record with every field named in millimetres, and every amount of length, times `factor`."""
    if isinstance(record, Amount):
        return replace(record, value=record.value * factor) if record.unit == "mm" else record
    if isinstance(record, Settings):
        return Settings({name: scaled(amount, factor) for name, amount in record.values.items()})
    if isinstance(record, tuple):
        return tuple(scaled(item, factor) for item in record)
    if isinstance(record, dict):
        return {key: scaled(item, factor) for key, item in record.items()}
    if not isinstance(record, Struct):
        return record
    changed: dict[str, Any] = {}
    for name in record.__struct_fields__:
        value = getattr(record, name)
        lengthy = name.endswith("_mm") and isinstance(value, int | float)
        changed[name] = value * factor if lengthy else scaled(value, factor)
    return replace(record, **changed)
