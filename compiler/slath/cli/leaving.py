"""The way out: every error in plain words, with the exit code that tells whose fault it was."""

from __future__ import annotations

from enum import IntEnum
from typing import NoReturn

from slath.cli.telling import say, show_notes


class Exit(IntEnum):
    """Exit codes."""

    GOOD = 0
    FILE_AT_FAULT = 1
    COMMAND_AT_FAULT = 2
    SURROUNDINGS_AT_FAULT = 3
    OUR_BUG = 4


def leave(code: Exit, text: str) -> NoReturn:
    """Say why on the error stream, and leave."""
    say(text, error=True)
    raise SystemExit(code)


def explain(problem: Exception) -> NoReturn:
    """Say in plain words what went wrong, and leave with the code that tells whose fault it was."""
    from slath.notes import PatternFaultError  # noqa: PLC0415 - only when something went wrong

    if isinstance(problem, PatternFaultError):
        show_notes(problem.notes)
        raise SystemExit(Exit.FILE_AT_FAULT)
    if isinstance(problem, MemoryError):
        leave(
            Exit.SURROUNDINGS_AT_FAULT,
            "There is not enough memory for this basket. Nothing was left half-written.\n"
            "Make fewer editions at a time (--edition), or fewer sizes (--size).",
        )
    if isinstance(problem, OSError):
        leave(Exit.SURROUNDINGS_AT_FAULT, surroundings(problem))
    from slath.pipeline import CommandFaultError  # noqa: PLC0415

    if isinstance(problem, CommandFaultError):
        leave(Exit.COMMAND_AT_FAULT, f"Error: {problem}")
    from slath.booklet.blocks import ContentError  # noqa: PLC0415

    if isinstance(problem, ContentError):
        leave(Exit.FILE_AT_FAULT, f"Error: what the pattern says cannot be set: {problem}. Nothing was written.")
    leave(
        Exit.OUR_BUG,
        f"slath has gone wrong by itself: {type(problem).__name__}: {problem}\n"
        "Your file is untouched. Please report it with the pattern; SLATH_DEBUG=1 shows where.",
    )


def surroundings(problem: OSError) -> str:
    """What the disk, a permission or a file in the way has to do with it, and what would help."""
    from slath.output.writing import InTheWayError, LinkError  # noqa: PLC0415 - only when something went wrong

    if isinstance(problem, InTheWayError):
        files = "\n".join(f"  {path}" for path in problem.files)
        return (
            f"These files are not as an earlier build left them, so nothing was replaced:\n{files}\n"
            "Move them, choose another --out folder, or replace them with --overwrite."
        )
    if isinstance(problem, LinkError):
        return (
            f"{problem.folder} is a link to another place, and nothing is written through a link.\n"
            "Take it away, or name the folder itself with --out."
        )
    what = problem.strerror or str(problem)
    where = f" {problem.filename}" if problem.filename else ""
    return f"Could not read or write{where}: {what}. Nothing was left half-written."
