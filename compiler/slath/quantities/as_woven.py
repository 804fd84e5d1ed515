"""A pattern as its tester wove it: every band with the rounds that were counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import TypeVar

from msgspec.structs import replace

from slath.language.pattern import Band, Base, Board, Extent, Lid, MadePart, ReadyMade, Side, SizedPattern, StakeChange

Item = TypeVar("Item", Band, Band | StakeChange)
Apart = TypeVar("Apart", Lid, MadePart)


def as_woven(pattern: SizedPattern) -> SizedPattern:
    """The size with the counted rounds in place of heights to reach; bands nobody counted stay as they are."""
    counted = pattern.woven.rounds if pattern.woven is not None else {}
    return replace(
        pattern,
        base=_base(pattern.base, counted),
        side=_side(pattern.side, counted),
        lid=_apart(pattern.lid, counted) if pattern.lid is not None else None,
        parts=tuple(_apart(part, counted) for part in pattern.parts),
    )


def is_counted(band: Band) -> bool:
    """Whether a band of a pattern as woven has rounds somebody counted, or was told to work."""
    return band.extent.rounds is not None


def _base(base: Base, counted: Mapping[str, int]) -> Base:
    if isinstance(base, Board | ReadyMade):
        return base
    return replace(base, weaving=_bands(base.weaving, counted))


def _side(side: Side | None, counted: Mapping[str, int]) -> Side | None:
    return None if side is None else replace(side, bands=_bands(side.bands, counted))


def _apart(made: Apart, counted: Mapping[str, int]) -> Apart:
    return replace(made, base=_base(made.base, counted), side=_side(made.side, counted))


def _bands(items: tuple[Item, ...], counted: Mapping[str, int]) -> tuple[Item, ...]:
    """Rounds of an arrow or a chain are shared out among its parts, where they come out even."""
    parts = Counter(item.written_as for item in items if isinstance(item, Band))

    def woven(item: Item) -> Item:
        if not isinstance(item, Band) or item.written_as not in counted:
            return item
        rounds, rest = divmod(counted[item.written_as], parts[item.written_as])
        return replace(item, extent=Extent(rounds=rounds)) if rounds and not rest else item

    return tuple(woven(item) for item in items)
