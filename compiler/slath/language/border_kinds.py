"""The borders of the trade that have a name, one row each: what may be said of each, and what it cannot be without."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct

BorderName = Literal["plain", "rolled", "open", "closed", "scalloped", "trac", "rope", "plait"]


class BorderKind(Struct, frozen=True):
    """One named border: the keys that say something of it besides those of every border, and those it needs."""

    keys: frozenset[str] = frozenset()
    needs: tuple[str, ...] = ()


BORDER_KINDS: Mapping[BorderName, BorderKind] = {
    "plain": BorderKind(frozenset({"rods", "behind"}), ("rods",)),
    "rolled": BorderKind(frozenset({"rods", "behind"}), ("rods",)),
    "open": BorderKind(frozenset({"past", "moves", "height"})),
    "closed": BorderKind(frozenset({"past"})),
    "scalloped": BorderKind(frozenset({"past", "moves", "height"}), ("height",)),
    "trac": BorderKind(frozenset({"moves"}), ("moves",)),
    "rope": BorderKind(),
    "plait": BorderKind(frozenset({"group", "added", "over"}), ("group", "over")),
}
