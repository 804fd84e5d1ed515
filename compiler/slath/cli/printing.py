"""The commands that print what is worked out: list, counts, proof, schemas, and what completes them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import click

from slath.cli.asking import (
    file_argument,
    form_option,
    language_option,
    size_option,
    units_option,
    variant_option,
    workshop_option,
)
from slath.cli.compiling import compiled, compiled_good
from slath.cli.leaving import Exit
from slath.cli.telling import say, show_notes

if TYPE_CHECKING:
    from slath.units.printing import First


@click.command(name="list", short_help="Print the cut list and what to buy.")
@file_argument
@form_option("table", "csv", "json")
@units_option
@size_option
@variant_option
@workshop_option
@language_option
def list_(
    file: Path,
    form: str,
    units: First | None,
    sizes: tuple[str, ...],
    variant: str,
    workshop: Path | None,
    language: str | None,
) -> None:
    """Print the cut list and what to buy, for every size: as a table, CSV or JSON."""
    from slath.pipeline import listing_text  # noqa: PLC0415

    compilation = compiled_good(file, workshop, sizes, variant, language or "")
    say(listing_text(compilation, form, units, language or ""), end="")


@click.command(short_help="List the stake counts that would suit.")
@file_argument
@click.option("--from", "lowest", type=click.IntRange(3, 500), metavar="N", help="Fewest stakes to look at.")
@click.option("--to", "highest", type=click.IntRange(3, 500), metavar="N", help="Most stakes to look at.")
@units_option
@size_option
@variant_option
@workshop_option
def counts(
    file: Path,
    lowest: int | None,
    highest: int | None,
    units: First | None,
    sizes: tuple[str, ...],
    variant: str,
    workshop: Path | None,
) -> None:
    """List the stake counts that suit every band, border and handle, and what each does to the colours."""
    from slath.pipeline import counts_of  # noqa: PLC0415

    compilation = compiled(file, workshop, sizes, variant)
    if not compilation.sizes:
        show_notes(compilation.notes)
        raise SystemExit(Exit.FILE_AT_FAULT)
    say(counts_of(compilation, lowest, highest, units or compilation.pattern.units), end="")


@click.command(short_help="Print every number with its formula and what it rests on.")
@file_argument
@size_option
@variant_option
@workshop_option
@language_option
def proof(file: Path, sizes: tuple[str, ...], variant: str, workshop: Path | None, language: str | None) -> None:
    """Print every number with its formula, its inputs, its place in the file and what it rests on."""
    from slath.pipeline import proof_of  # noqa: PLC0415

    say(proof_of(compiled_good(file, workshop, sizes, variant, language or ""), language or ""), end="")


@click.command(short_help="Print a JSON Schema, for editors and programs.")
@click.argument(
    "name", type=click.Choice(["pattern", "workshop", "class", "list", "class-list", "style"]), default="pattern"
)
def schema(name: str) -> None:
    """Print a JSON Schema (2020-12): of a pattern, a workshop or class file, a style, or what slath writes as lists.

    Save it beside your patterns and name it on a file's first line, and an editor completes and checks as you write.
    """
    if name == "class-list":
        from slath.classes.listing import class_list_schema  # noqa: PLC0415

        say(json.dumps(class_list_schema(), ensure_ascii=False, indent=2))
        return
    from slath.pipeline import schema_text  # noqa: PLC0415

    say(schema_text(name), end="")


@click.command(short_help="Print what makes your shell complete slath.")
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
@click.pass_context
def completion(context: click.Context, shell: str) -> None:
    """Print what makes a shell complete slath's commands and options.

    \b
      bash:  slath completion bash > ~/.local/share/bash-completion/completions/slath
      zsh:   slath completion zsh > ~/.zfunc/_slath
      fish:  slath completion fish > ~/.config/fish/completions/slath.fish
    """  # noqa: D301
    from click.shell_completion import BashComplete, FishComplete, ShellComplete, ZshComplete  # noqa: PLC0415

    makers: dict[str, type[ShellComplete]] = {"bash": BashComplete, "zsh": ZshComplete, "fish": FishComplete}
    say(makers[shell](context.find_root().command, {}, "slath", "_SLATH_COMPLETE").source())
