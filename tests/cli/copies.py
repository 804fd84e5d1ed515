"""A process that has read all of slath, and for every command becomes a copy of itself that runs it.

Reading it anew for each of hundreds of commands took a quarter of the time of all tests. A copy has its own folder,
environment, arguments and streams, and ends as any process does. Run as a script; `Copies` speaks to it.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from functools import cache
from pathlib import Path


@cache
def _original() -> subprocess.Popen[str]:
    """The process that is copied, one for each process of tests."""
    return subprocess.Popen(
        [sys.executable, __file__], stdin=subprocess.PIPE, stdout=subprocess.PIPE, encoding="utf-8", bufsize=1
    )


def run_copy(
    arguments: list[str], cwd: Path, typed: str, environment: dict[str, str]
) -> subprocess.CompletedProcess[str]:
    """What `slath` with these arguments does, its output and errors in files."""
    original = _original()
    assert original.stdin is not None
    assert original.stdout is not None
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "0").write_text(typed, "utf-8")
        asked = {"arguments": arguments, "cwd": str(cwd), "environment": environment, "streams": folder}
        original.stdin.write(json.dumps(asked) + "\n")
        code = int(original.stdout.readline())
        said = [(Path(folder) / name).read_text("utf-8") for name in ("1", "2")]
    return subprocess.CompletedProcess(["slath", *arguments], code, *said)


def main() -> None:
    """Wait for commands; return in a copy, with everything set for it to run its command."""
    for line in sys.stdin:
        asked = json.loads(line)
        copy = os.fork()
        if copy == 0:
            _become(asked)
            return
        _, status = os.waitpid(copy, 0)
        sys.stdout.write(f"{os.waitstatus_to_exitcode(status)}\n")
        sys.stdout.flush()
    sys.exit()


def _become(asked: dict[str, object]) -> None:
    for number, (name, flags) in enumerate(
        (("0", os.O_RDONLY), ("1", os.O_CREAT | os.O_WRONLY), ("2", os.O_CREAT | os.O_WRONLY))
    ):
        opened = os.open(f"{asked['streams']}/{name}", flags, 0o600)
        os.dup2(opened, number)
        os.close(opened)
    sys.stdin, sys.stdout, sys.stderr = open(0, encoding="utf-8"), open(1, "w"), open(2, "w")  # noqa: SIM115
    os.chdir(str(asked["cwd"]))
    os.environ.clear()
    os.environ.update(asked["environment"])  # type: ignore[call-overload]
    sys.argv = ["slath", *asked["arguments"]]  # type: ignore[misc]


if __name__ == "__main__":
    os.environ["OPENBLAS_NUM_THREADS"] = "1"  # a process with threads cannot be copied
    import slath.cli.making
    import slath.output.html
    import slath.output.imposition
    import slath.output.listing_text
    import slath.output.pdf
    import slath.output.proof_text
    import slath.output.svg
    import slath.output.text  # noqa: F401
    from slath.cli import main as command

    main()
    command()
