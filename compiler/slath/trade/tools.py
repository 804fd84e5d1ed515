"""Tools, and the operations that call for them; and what each word for skill promises of the reader."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from slath.trade.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool: its name and use in bracketed words, and the operations that need it."""

    key: str
    name: str
    use: str
    operations: frozenset[str]


@cache
def tools() -> tuple[Tool, ...]:
    """Every tool, in the order they are printed."""
    rows = read_table("tools").items()
    return tuple(Tool(key, row["name"], row["for"], frozenset(row["operations"])) for key, row in rows)


def tools_for(operations: frozenset[str]) -> tuple[Tool, ...]:
    """Return the tools that work with these operations needs."""
    return tuple(tool for tool in tools() if tool.operations & operations)


@cache
def skills() -> Mapping[str, str]:
    """What each word for skill promises, in bracketed words, the least skill first."""
    table: dict[str, str] = read_table("skills")
    return MappingProxyType(table)
