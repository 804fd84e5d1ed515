"""The command as a user has it: the installed `slath`, in a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from tests.cli.copies import run_copy

from slath.language.starting import Start, StartKind, starting_pattern

PATTERNS = Path(__file__).parents[2] / "patterns"
COPIED = sys.platform == "linux"
COMMAND = str(Path(sys.executable).with_name("slath"))


def environment(**changed: str) -> dict[str, str]:
    """The environment of this process less what would colour or debug, and with what is `changed`."""
    left_out = {"NO_COLOR", "FORCE_COLOR", "SLATH_DEBUG", "TERM", "COLUMNS"}
    return {key: value for key, value in os.environ.items() if key not in left_out} | changed


def slath(*arguments: str | Path, cwd: Path, typed: str = "", **changed: str) -> subprocess.CompletedProcess[str]:
    """What `slath` with these arguments does in the folder `cwd`, its output and errors in pipes; where the environment is
    to be `changed`, the installed command itself, else a copy of a process that has read it (see `copies`).
    """
    if COPIED and not changed:
        return run_copy([*map(str, arguments)], cwd, typed, environment())
    return subprocess.run(
        [COMMAND, *map(str, arguments)],
        cwd=cwd,
        env=environment(**changed),
        input=typed,
        capture_output=True,
        encoding="utf-8",
        timeout=300,  # against hanging alone; a busy machine may be slow
        check=False,
    )


def start(
    folder: Path, name: str = "basket", kind: StartKind = "round", sizes: tuple[str, ...] = ("one size",)
) -> Path:
    """A first pattern written into `folder`; its path."""
    file = folder / f"{name}.yaml"
    file.write_text(starting_pattern(Start(kind, "Trial", "me", sizes, "inches", "2026-01-01"), file.name), "utf-8")
    return file


def faulty(folder: Path, name: str = "faulty") -> Path:
    """A pattern whose side height names a measure that is not there, on line 42."""
    file = start(folder, name)
    file.write_text(file.read_text("utf-8").replace("  height: side\n", "  height: sid\n"), "utf-8")
    return file


def gone(*_: object) -> None:
    """End this process without a word, as the system does when memory runs out."""
    os._exit(1)
