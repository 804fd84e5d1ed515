"""The way out: every error in plain words, with the exit code that tells whose fault it was."""

from __future__ import annotations

import os
import signal
import sys
from enum import IntEnum
from typing import TYPE_CHECKING, NoReturn

import click

from slath.cli.telling import ReaderLeftError, say, show_notes

if TYPE_CHECKING:
    from types import FrameType


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


def main() -> None:
    """Run the command line and leave with its exit code; a traceback is shown only if SLATH_DEBUG is set."""
    from slath.cli.commands import slath  # noqa: PLC0415 - the commands leave through this module

    _have_streams()
    _speak_utf8()
    for name in ("SIGTERM", "SIGHUP"):  # the second where there are terminals that hang up
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), _stopped)
    try:
        try:
            slath.main(prog_name="slath", standalone_mode=False)
        finally:
            sys.stdout.flush()
    except (click.exceptions.Abort, KeyboardInterrupt):
        leave(Exit.COMMAND_AT_FAULT, "Stopped; nothing was left half-written.")
    except click.ClickException as problem:
        problem.show()
        raise SystemExit(Exit.COMMAND_AT_FAULT) from None
    except (BrokenPipeError, ReaderLeftError):
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115 - the reader left; leave quietly
        raise SystemExit(Exit.GOOD) from None
    except Exception as problem:
        if os.environ.get("SLATH_DEBUG"):
            raise
        explain(problem)


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


def _stopped(_number: int, _frame: FrameType | None) -> NoReturn:
    """End as after Ctrl-C, so that what was begun is cleared away."""
    raise KeyboardInterrupt


def _have_streams() -> None:
    """Stand in for streams that whoever started this process had closed, so that no file takes their place."""
    for number, mode in enumerate(("r", "w", "w")):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # takes the lowest number that is free, which is this
        name = ("stdin", "stdout", "stderr")[number]
        if getattr(sys, name) is None:
            setattr(sys, name, open(number, mode, encoding="utf-8", closefd=False))  # noqa: SIM115


def _speak_utf8() -> None:
    """What goes into a pipe or a file is UTF-8 everywhere; a terminal gets what it can show."""
    for stream in (sys.stdout, sys.stderr):
        if stream.isatty():
            stream.reconfigure(errors="replace")  # type: ignore[union-attr]
        else:
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")  # type: ignore[union-attr]
