"""The pattern language: YAML read with places, validated, and resolved for every size into a frozen pattern."""

from __future__ import annotations

from pathlib import Path

from slath.language.pattern import Pattern
from slath.language.schemas import SCHEMA_NAMES, published_schema
from slath.notes import Note

__all__ = ["SCHEMA_NAMES", "check_workshop", "published_schema", "read_pattern"]


def check_workshop(path: Path) -> tuple[Note, ...] | None:
    """Look over a workshop file by itself; see `slath.language.read.check_workshop`."""
    from slath.language.read import check_workshop as look  # noqa: PLC0415 - printing a schema needs no reader

    return look(path)


def read_pattern(path: Path, *, workshop: Path | None = None, variant: str = "", language: str = "") -> Pattern:
    """Read and resolve the pattern at `path`; see `slath.language.read.read_pattern`."""
    from slath.language.read import read_pattern as read  # noqa: PLC0415 - printing a schema needs no reader

    return read(path, workshop=workshop, variant=variant, language=language)
