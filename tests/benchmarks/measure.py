"""How long the commands take and how much memory, each in a process of its own, and what a warm process takes.

    python tests/benchmarks/measure.py                    everything, five times
    python tests/benchmarks/measure.py --runs 15 check    only what has "check" in its name

Prints medians: seconds by the clock, seconds of processor time, most memory. Nothing is passed or failed here. Machines
differ by more than any change of the code: the first line is a yardstick that has nothing of slath in it.
"""

from __future__ import annotations

import argparse
import itertools
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

PATTERNS = Path(__file__).parents[2] / "patterns"
# As on a user's machine, where compiled modules are kept from one run to the next.
ENVIRONMENT = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
SLATH = str(Path(sys.executable).with_name("slath"))
THREE_SIZES = PATTERNS / "weir-field.yaml"
ADDITIONS = "total = 0\nfor number in range(10**7):\n    total += number"


@dataclass(frozen=True, slots=True)
class Spent:
    """What one run took: seconds by the clock, seconds of the processor, most memory in MB (0: not measured)."""

    clock: float
    processor: float
    memory: float = 0.0


@dataclass(frozen=True, slots=True)
class Case:
    """Something to measure, and the seconds by the clock it should stay under on two ordinary cores."""

    name: str
    run: Callable[[Path], Spent]
    aim: float | None = None


def command(*arguments: str | Path, by: str = SLATH) -> Callable[[Path], Spent]:
    """A cold process, from its start to its end."""

    def run(folder: Path) -> Spent:
        line = [by, *map(str, arguments)]
        began = time.perf_counter()
        process = subprocess.Popen(
            line, cwd=folder, env=ENVIRONMENT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        clock = time.perf_counter() - began
        if process.returncode:
            sys.exit(f"slath {' '.join(map(str, arguments))} ended with exit code {process.returncode}")
        return Spent(clock, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)

    return run


def again(*editions: str, change: str = "flare:", sizes: tuple[str, ...] = ()) -> Callable[[Path], Spent]:
    """What a watch does: a changed pattern read, worked out and made in this process, which has done so before, in all
    sizes or those named.

    The line that begins with `change` is another in every run: the flare, so that every size is worked out and drawn
    again, or the title, so that the figures stay.
    """
    kept: list[Any] = []

    def make(folder: Path) -> None:
        # Not before the cold runs: what a process holds when it starts another is counted as the other's memory.
        from slath.drawing.kept import KeptFigures  # noqa: PLC0415
        from slath.editions import editions_of  # noqa: PLC0415
        from slath.pipeline import compile_pattern  # noqa: PLC0415
        from slath.work import BuildOptions  # noqa: PLC0415

        if not kept:
            kept.append(KeptFigures())
        kept[0].begin()
        compilation = compile_pattern(_changed(change, folder), None, sizes)
        for _ in editions_of(compilation, BuildOptions(editions), lambda _text: None, kept[0]):
            pass

    def run(folder: Path) -> Spent:
        began, busy = time.perf_counter(), time.process_time()
        make(folder)
        return Spent(time.perf_counter() - began, time.process_time() - busy)

    return run


_changes = itertools.count(1)


def _changed(key: str, folder: Path) -> Path:
    """The pattern of three sizes with its title or the flare of all its sizes a little longer than ever before."""
    number = next(_changes)
    text = THREE_SIZES.read_text("utf-8")
    new = f"title: Weir Field basket {number}" if key == "title:" else f"  flare: {2 + number / 64} in"
    text, count = re.subn(rf"^ *{key}.*$", new, text, count=1, flags=re.MULTILINE)
    assert count == 1, key
    for beside in PATTERNS.glob("*.workshop.yaml"):
        shutil.copy(beside, folder)
    file = folder / THREE_SIZES.name
    file.write_text(text, "utf-8")
    return file


# In place of what `slath new` writes: 132 stakes, two feet high.
LOG_BASKET = (
    ("base: {small: 7 1/2 in, medium: 8 1/2 in, large: 9 1/2 in}", "base: {small: 26 in, medium: 28 in, large: 30 in}"),
    ("side: {small: 4 1/2 in, medium: 5 in, large: 5 1/2 in}", "side: {small: 22 in, medium: 24 in, large: 26 in}"),
    ("pierced: 5 ", "pierced: 11 "),
    ("threaded: 5", "threaded: 11"),
    ("per_end: 2}", "per_end: 3}"),
)


def big_basket(folder: Path) -> Path:
    """A log basket in three sizes."""
    file = folder / "log-basket.yaml"
    subprocess.run([SLATH, "new", str(file)], check=True, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    text = file.read_text("utf-8")
    for old, new in LOG_BASKET:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    file.write_text(text, "utf-8")
    return file


def thirty(folder: Path) -> Path:
    """A class of thirty who make three patterns, in all their sizes and in two colourways of one."""
    sizes = {
        "weir-field": ("small", "large"),
        "lock-keeper": ("small", "medium", "large"),
        "wren-pot": ("wren", "robin"),
    }
    for name in (*(f"{pattern}.yaml" for pattern in sizes), "otter-weir.workshop.yaml"):
        shutil.copy(PATTERNS / name, folder)
    people = []
    for number in range(30):
        makes = list(sizes)[number % 3]
        size = sizes[makes][number // 3 % len(sizes[makes])]
        other = ", colourway: moss and cream" if makes == "weir-field" and number % 2 else ""
        people.append(f"  - {{name: Person {number}, makes: {makes}, size: {size}{other}}}")
    file = folder / "thirty.yaml"
    patterns = ", ".join(f"{name}: {name}.yaml" for name in sizes)
    file.write_text(
        "slath: 1\nclass: Thirty\non: [2027-06-12, 2027-06-13]\n"
        f"patterns: {{{patterns}}}\nspares: {{kits: 1, stakes: 2 each, strands: 15 %}}\n"
        "colourways: {weir-field: {moss and cream: {rust: moss, slate: none}}}\npeople:\n" + "\n".join(people) + "\n",
        "utf-8",
    )
    return file


def cases(folder: Path) -> list[Case]:
    """Everything there is to measure."""
    booklet = ("--edition", "booklet", "--overwrite")
    log_basket = big_basket(folder)
    return [
        # The aims are meant for cores that take about 0.6 s for this in CPython 3.11 (estimated, from desktop machines).
        Case("python, ten million additions", command("-c", ADDITIONS, by=sys.executable), 0.6),
        Case("python, doing nothing", command("-c", "pass", by=sys.executable)),
        Case("help", command("--help"), 0.1),
        Case("check", command("check", THREE_SIZES), 0.25),
        Case("check, big basket", command("check", log_basket)),
        Case("list", command("list", THREE_SIZES)),
        Case("booklet, three sizes, cold", command("build", THREE_SIZES, *booklet), 2.0),
        Case("all editions, three sizes, cold", command("build", THREE_SIZES, "--overwrite"), 10.0),
        Case("class of thirty, three patterns, looked over", command("check", thirty(folder)), 2.0),
        Case(
            "class of thirty, three patterns, lists and plans",
            command("class", thirty(folder), "--only", "lists", "--overwrite"),
            2.0,
        ),
        Case("class of thirty, three patterns, everything", command("class", thirty(folder), "--overwrite")),
        Case("booklet, big basket, cold", command("build", log_basket, *booklet)),
        Case("booklet, warm, every size changed", again("booklet"), 1.0),
        Case("booklet, warm, the title changed", again("booklet", change="title:"), 0.5),
        Case("figures of one size, warm, changed", again("figures", sizes=("medium",)), 1.0),
        Case("all editions, warm, every size changed", again()),
        Case("all editions, warm, the title changed", again(change="title:")),
    ]


def main() -> None:
    """Measure what is asked for and print a table."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--runs", type=int, default=5)
    asked.add_argument("names", nargs="*", help="parts of the names of what to measure")
    options = asked.parse_args()
    sys.stdout.write(f"{'':<38}  {'clock s':>8}  {'aim':>5}  {'processor s':>11}  {'memory MB':>9}\n")
    with tempfile.TemporaryDirectory() as name:
        for case in cases(Path(name)):
            if options.names and not any(part in case.name for part in options.names):
                continue
            case.run(Path(name))  # so that files are in memory and modules compiled
            runs = [case.run(Path(name)) for _ in range(options.runs)]
            clock, processor, memory = (
                statistics.median(getattr(run, what) for run in runs) for what in ("clock", "processor", "memory")
            )
            aim = "" if case.aim is None else f"{case.aim:g}"
            sys.stdout.write(
                f"{case.name:<38}  {clock:>8.3f}  {aim:>5}  {processor:>11.3f}  {memory:>9.0f}\n".replace(
                    "        0\n", "         \n"
                )
            )
            sys.stdout.flush()


if __name__ == "__main__":
    main()
