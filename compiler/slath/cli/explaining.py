"""The command that explains one word."""

from __future__ import annotations

import click

from slath.cli.leaving import Exit, leave
from slath.cli.telling import say


@click.command(short_help="Explain a note, a key, a weave or a word of the trade.")
@click.argument("words", nargs=-1, required=True)
def explain(words: tuple[str, ...]) -> None:
    """Explain a note's code, a key of the language, a weave, or a word of the trade, with an example.

    What means several things is told in every sense.
    """
    from slath.output.explained import UnknownWordError, explained_text  # noqa: PLC0415
    from slath.output.explained import explain as explained  # noqa: PLC0415

    try:
        say(explained_text(explained(" ".join(words))), end="")
    except UnknownWordError as problem:
        leave(Exit.COMMAND_AT_FAULT, f"Error: {problem}.")
