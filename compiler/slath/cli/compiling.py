"""A pattern compiled for a command: its warnings told, and the way out where something stops it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from slath.cli.leaving import Exit
from slath.cli.telling import show_open_notes

if TYPE_CHECKING:
    from slath.pipeline import Compilation


def compiled(
    file: Path, workshop: Path | None, sizes: Sequence[str], variant: str = "", language: str = ""
) -> Compilation:
    """The pattern worked out, whatever its notes say."""
    from slath.pipeline import compile_pattern  # noqa: PLC0415 - `--help` needs none of it

    return compile_pattern(file, workshop, sizes, variant, language)


def compiled_good(
    file: Path, workshop: Path | None, sizes: Sequence[str], variant: str = "", language: str = ""
) -> Compilation:
    """The pattern compiled, its warnings told; leaves with exit code 1 if something stops it."""
    compilation = compiled(file, workshop, sizes, variant, language)
    show_open_notes(compilation.notes)
    if compilation.at_fault:
        raise SystemExit(Exit.FILE_AT_FAULT)
    return compilation


def compiled_variants(
    file: Path, workshop: Path | None, sizes: Sequence[str], variants: Sequence[str], language: str = ""
) -> tuple[Compilation, ...]:
    """The variants named, whatever their notes say; "all" stands for every one, and none named for the first."""
    from slath.pipeline import compile_pattern, compile_variants  # noqa: PLC0415 - as above

    if "all" in variants:
        return compile_variants(file, workshop, sizes, language)
    return tuple(compile_pattern(file, workshop, sizes, name, language) for name in variants or ("",))
