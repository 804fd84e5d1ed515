"""The borders of the trade that have a name, one row each: what may be said of each, and what it cannot be without."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct, field

BorderName = Literal["plain", "rolled", "open", "closed", "scalloped", "trac", "rope", "plait"]


class BorderKind(Struct, frozen=True):
    """One named border: the keys that say something of it besides those of every border, and those it needs, each with a
    value that is commonly given.
    """

    keys: frozenset[str] = frozenset()
    needs: Mapping[str, str] = field(default_factory=dict)


BORDER_KINDS: Mapping[BorderName, BorderKind] = {
    "plain": BorderKind(frozenset({"rods", "behind"}), {"rods": "3"}),
    "rolled": BorderKind(frozenset({"rods", "behind"}), {"rods": "3"}),
    "open": BorderKind(frozenset({"past", "moves", "height"})),
    "closed": BorderKind(frozenset({"past"})),
    "scalloped": BorderKind(frozenset({"past", "moves", "height"}), {"height": "1 in"}),
    "trac": BorderKind(frozenset({"moves"}), {"moves": "[behind 1, before 1, in]"}),
    "rope": BorderKind(),
    "plait": BorderKind(frozenset({"group", "added", "over"})),
}
