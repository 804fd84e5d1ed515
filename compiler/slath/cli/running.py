"""The command run from its first line to its exit code: streams, signals, and what was raised."""

from __future__ import annotations

import gc
import os
import signal
import sys
from types import FrameType
from typing import NoReturn

import click

from slath.cli.commands import slath
from slath.cli.leaving import Exit, explain, leave
from slath.cli.telling import ReaderLeftError

FEW_SEARCHES = 100_000  # new records between two searches for cycles, of which ours have none; Python's 700 cost a tenth of a check


def main() -> None:
    """Run the command line and leave with its exit code; a traceback is shown only if SLATH_DEBUG is set."""
    gc.set_threshold(FEW_SEARCHES, 20, 20)
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
