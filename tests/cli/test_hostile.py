"""Files no designer would write: each is answered soon, in little memory, with notes at their places, and exit code 1."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

import pytest
from tests.cli.running import COMMAND, environment, start

MOST_SECONDS, MOST_KILOBYTES = 2.0, 300_000


# A small process between: what a process holds when it starts another is counted as the other's memory.
MEASURE = """
import json, os, subprocess, sys
process = subprocess.Popen(sys.argv[1:], stdout=open("output.txt", "wb"), stderr=open("errors.txt", "wb"))
_, status, used = os.wait4(process.pid, 0)
print(json.dumps([os.waitstatus_to_exitcode(status), used.ru_utime + used.ru_stime, used.ru_maxrss]))
"""


def checked(file: str, folder: Path) -> tuple[int, str, str, float, int]:
    """`slath check` of a file: exit code, output, errors, seconds of processor time, and most memory in kilobytes."""
    line = [sys.executable, "-I", "-S", "-c", MEASURE, COMMAND, "check", file]
    done = subprocess.run(line, cwd=folder, env=environment(), capture_output=True, check=True, timeout=120)
    code, seconds, kilobytes = json.loads(done.stdout)
    output, errors = ((folder / name).read_text("utf-8") for name in ("output.txt", "errors.txt"))
    return code, output, errors, seconds, kilobytes


class Change(NamedTuple):
    """One place changed in a good pattern."""

    old: str
    new: str


BOMB = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{one}: &{one} [{', '.join([f'*{before}'] * 9)}]\n"
    for before, one in zip("abcdefghijk", "bcdefghijkl", strict=True)
)

# The bytes of the file (or old and new of one place in a good pattern), the code of the note, its line and column.
FILES: dict[str, tuple[bytes | Change, str, str]] = {
    "unclosed brace": (b"slath: 1\nmeasures: {a: 1 in\ntitle: x\n", "yaml-broken", "3:6"),
    "unclosed quote": (b'slath: 1\ntitle: "x\n', "yaml-broken", "3:1"),
    "wrong encoding": ("slath: 1\ntitle: Körbchen\n".encode("latin-1"), "wrong-encoding", "2:9"),
    "empty": (b"", "empty-file", "1:1"),
    "list at the top": (b"- slath: 1\n- title: x\n", "not-a-pattern", "1:1"),
    "one word": (b"basket\n", "not-a-pattern", "1:1"),
    "alias bomb": (b"slath: 1\n" + BOMB.encode(), "alias-broken", "2:14"),
    "ten megabytes": (b"# a remark that goes on and on\n" * 350_000, "file-too-large", "32259:1"),
    "a million brackets": (b"slath: " + b"[" * 900_000, "nested-too-deep", "1:8"),
    "unknown key": (Change("\nstakes: {", "\nstakse: {"), "unknown-key", "37:1"),
    "duplicate key": (Change("\nskill: improver", "\ntitle: Second"), "duplicate-key", "11:1"),
    "path outside": (Change("\nskill: improver", "\nworkshop_file: ../../../etc/passwd"), "outside-folder", "11:16"),
    "absolute path": (Change("\nskill: improver", "\nworkshop_file: /etc/passwd"), "outside-folder", "11:16"),
    "picture outside": (
        Change("\nskill: improver", "\nsteps: [{stage: base, pictures: [{file: ../../x.png, shows: x}]}]"),
        "outside-folder", "11:41",
    ),
    "nought": (Change("  height: side\n", "  height: 0 in\n"), "length-out-of-range", "40:11"),
    "negative": (Change("  height: side\n", "  height: -3 in\n"), "length-out-of-range", "40:11"),
    "not a number": (Change("  height: side\n", "  height: .nan\n"), "number-out-of-reach", "40:11"),
    "infinity": (Change("  height: side\n", "  height: .inf\n"), "number-out-of-reach", "40:11"),
    "1e300": (Change("  height: side\n", "  height: 1e300 in\n"), "number-form", "40:11"),
    "1e300 stakes": (Change("per_end: 2}", "per_end: 1e300}"), "number-out-of-reach", "37:37"),
    "ten thousand stakes": (Change("per_end: 2}", "count: 10000}"), "number-out-of-range", "37:35"),
    "ten thousand to add": (Change("per_end: 2}", "per_end: 2, add: 9960}"), "number-out-of-range", "37:45"),
    "a million rounds": (Change("strands: waler, rounds: 3}", "strands: waler, rounds: 1000000}"), "number-out-of-range", "43:69"),
    "a kilometre across": (Change("diameter: base\n", "diameter: 1 km\n"), "length-out-of-range", "28:13"),
    "division by nought": (Change("rim: base + 2 in", "rim: base / 0"), "division-by-zero", "18:13"),
    "a circle of measures": (Change("rim: base + 2 in", "rim: rim + 2 in"), "measure-cycle", "18:8"),
    "wrong dimension": (Change("rim: base + 2 in", "rim: base + 2"), "wrong-dimension", "18:13"),
    "a thousand sizes": (
        Change("sizes: [one size]", f"sizes: [{', '.join(f's{number}' for number in range(1000))}]"), "too-many-given", "12:8",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", FILES)
def test_a_hostile_file_is_answered(name: str, tmp_path: Path) -> None:
    """A note with its code, line and column; exit code 1; no traceback; at most 2 s of processor time and 300 MB."""
    content, note, place = FILES[name]
    if isinstance(content, Change):
        text = start(tmp_path).read_text("utf-8")
        assert text.count(content.old) == 1
        content = text.replace(*content).encode()
    (tmp_path / "hostile.yaml").write_bytes(content)
    code, output, errors, seconds, kilobytes = checked("hostile.yaml", tmp_path)
    heads = [line for line in output.splitlines() if line.startswith("hostile.yaml:") and "Error" in line]
    assert f"hostile.yaml:{place}: Error {note}" in heads
    assert (code, errors) == (1, "")
    assert seconds < MOST_SECONDS
    assert kilobytes < MOST_KILOBYTES
