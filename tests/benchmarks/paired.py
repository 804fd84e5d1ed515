"""Two trees of slath timed against one another, turn about, so that a busy machine is unkind to both alike.

    python tests/benchmarks/paired.py OTHER_TREE check patterns/weir-field.yaml
    python tests/benchmarks/paired.py --runs 9 OTHER_TREE build patterns/weir-field.yaml --edition booklet
    python tests/benchmarks/paired.py --instructions OTHER_TREE check patterns/weir-field.yaml

Prints processor time (user and system, with that of processes started) and most memory in medians, and the median of the
ratios of each pair. `--instructions` counts with valgrind instead, which a busy machine does not disturb at all; it takes
minutes for a booklet. OTHER_TREE is a checkout, such as one made by `git worktree add`.
"""

from __future__ import annotations

import argparse
import os
import re
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
COUNT = ("valgrind", "--tool=cachegrind", "--cache-sim=no", "--cachegrind-out-file=/dev/null")


def environment(tree: Path) -> dict[str, str]:
    """As on a user's machine, where compiled modules are kept; the modules are those of the tree."""
    kept = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPATH": str(tree / "compiler"), "PYTHONHASHSEED": "0"}


def command(arguments: list[str], folder: str) -> list[str]:
    """The command line, what it writes going into a folder that is thrown away."""
    out = ["--out", folder, "--overwrite"] if arguments[0] == "build" and "--out" not in arguments else []
    return [sys.executable, "-m", "slath", *arguments, *out]


def spent(tree: Path, arguments: list[str]) -> tuple[float, float]:
    """Seconds of the processor and most memory in MB of one run."""
    with tempfile.TemporaryDirectory() as folder:
        quiet = subprocess.DEVNULL
        line = command(arguments, folder)
        process = subprocess.Popen(line, cwd=tree, env=environment(tree), stdout=quiet, stderr=quiet)
        _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        sys.exit(f"{tree}: slath {' '.join(arguments)} ended with exit code {process.returncode}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def instructions(tree: Path, arguments: list[str]) -> int:
    """How many instructions one run takes."""
    with tempfile.TemporaryDirectory() as folder:
        line = [*COUNT, *command(arguments, folder)]
        done = subprocess.run(line, cwd=tree, env=environment(tree), capture_output=True, text=True, check=True)
    found = re.search(r"I\s+refs:\s+([\d,]+)", done.stderr)
    assert found, done.stderr
    return int(found[1].replace(",", ""))


def main() -> None:
    """Measure and print one line."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("other", type=Path)
    asked.add_argument("--runs", type=int, default=7)
    asked.add_argument("--instructions", action="store_true")
    asked.add_argument("arguments", nargs=argparse.REMAINDER)
    options = asked.parse_args()
    trees = (options.other.resolve(), ROOT)
    for tree in trees:
        spent(tree, options.arguments)  # so that files are in memory and modules compiled
    if options.instructions:
        before, now = (instructions(tree, options.arguments) for tree in trees)
        sys.stdout.write(f"{before / 1e6:,.0f} -> {now / 1e6:,.0f} million instructions ({now / before:.2f})\n")
        return
    runs: dict[Path, list[tuple[float, float]]] = {tree: [] for tree in trees}
    for turn in range(options.runs):
        for tree in trees if turn % 2 else trees[::-1]:
            runs[tree].append(spent(tree, options.arguments))
    (before, before_mb), (now, now_mb) = (map(statistics.median, zip(*runs[tree], strict=True)) for tree in trees)
    ratio = statistics.median(b[0] / a[0] for a, b in zip(runs[trees[0]], runs[trees[1]], strict=True))
    sys.stdout.write(f"{before:.3f} -> {now:.3f} s ({ratio:.2f}), {before_mb:.0f} -> {now_mb:.0f} MB\n")


if __name__ == "__main__":
    main()
