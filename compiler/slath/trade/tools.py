"""Tools, and the operations that call for them."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from slath.trade.tables import read_table


class Tool(Struct, frozen=True):
    """A tool, the operations that need it, and whether it cuts or pierces; its name and use are in the language data."""

    key: str
    operations: frozenset[str]
    sharp: bool = False


@cache
def tools() -> tuple[Tool, ...]:
    """Every tool, in the order they are printed."""
    rows = read_table("tools").items()
    return tuple(Tool(key, frozenset(row["operations"]), row.get("sharp", False)) for key, row in rows)


def tools_for(operations: frozenset[str]) -> tuple[Tool, ...]:
    """Return the tools that work with these operations needs."""
    return tuple(tool for tool in tools() if tool.operations & operations)
