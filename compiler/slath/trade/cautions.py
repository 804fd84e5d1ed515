"""Cautions: safety for people and care for the work, each tied to operations, tools or materials."""

from __future__ import annotations

from functools import cache
from typing import Any, Literal

from msgspec import Struct

from slath.trade.tables import read_table

CautionKind = Literal["safety", "care"]


class TradeCaution(Struct, frozen=True):
    """One caution; its words are in the language data. It belongs to the steps that do one of `operations`.

    `materials` narrows it to kinds of stock. `again`: it has a shorter form for later stages. `panel`: it is told in the
    panel alone and not at its steps.
    `mentions` are words of the designer's that call for it as well.
    """

    key: str
    kind: CautionKind
    operations: frozenset[str]
    tools: frozenset[str]
    materials: frozenset[str]
    mentions: frozenset[str]
    again: bool
    panel: bool = False

    def applies(self, operations: frozenset[str], materials: frozenset[str]) -> bool:
        """Whether a step doing `operations` with stocks of these kinds must carry it."""
        return bool(self.operations & operations) and (not self.materials or bool(self.materials & materials))


@cache
def cautions() -> tuple[TradeCaution, ...]:
    """Every caution, safety before care, in the order they are printed."""
    return tuple(_caution(key, row) for key, row in read_table("cautions").items())


def _caution(key: str, row: dict[str, Any]) -> TradeCaution:
    ties = (frozenset(row.get(tie, ())) for tie in ("operations", "tools", "materials", "mentions"))
    operations, tools, materials, mentions = ties
    return TradeCaution(
        key, row["kind"], operations, tools, materials, mentions, row.get("again", False), row.get("panel", False)
    )
