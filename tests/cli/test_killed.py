"""A build killed outright at any moment: no half file, no process left, and the next build makes everything good."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from random import Random

import pytest
from tests.cli.running import COMMAND, environment, slath, start

KILLS = int(os.environ.get("SLATH_KILLS", "3"))  # a longer run asks for hundreds

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="processes are looked up in /proc")


def alive_in(folder: Path) -> list[int]:
    """Processes that work in a folder."""
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                here = (entry / "cwd").readlink() == folder
                dead = (entry / "stat").read_text().rpartition(")")[2].split()[0] == "Z"
            except OSError:
                continue
            if here and not dead:
                found.append(int(entry.name))
    return found


def gone_from(folder: Path) -> bool:
    """Whether all processes that worked in the folder have ended, within the time a system takes to end them."""
    for _ in range(100):
        if not alive_in(folder):
            return True
        time.sleep(0.05)
    return False


@pytest.mark.parametrize("number", range(KILLS))
def test_killed_at_any_moment(number: int, tmp_path: Path) -> None:
    """What stands in the folder is whole files, old or new, and nobody works on."""
    moment = Random(number).random()  # noqa: S311 - chance, not secrets
    file = start(tmp_path, kind="board")
    editions = [part for name in ("list", "text", "proof", "bench-cards") for part in ("--edition", name)]
    build = [COMMAND, "build", file.name, *editions]
    assert slath(*build[1:], cwd=tmp_path).returncode == 0
    folder = tmp_path / "build/basket"
    old = {path.name: path.read_bytes() for path in folder.iterdir()}
    file.write_text(file.read_text("utf-8").replace("title: Trial", "title: Another"), "utf-8")
    with subprocess.Popen(
        build, cwd=tmp_path, env=environment(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    ) as process:
        time.sleep(3.0 * moment)
        process.send_signal(signal.SIGKILL)
    assert gone_from(tmp_path), alive_in(tmp_path)
    killed = {path.name: path.read_bytes() for path in folder.iterdir() if path.name in old}
    assert slath(*build[1:], cwd=tmp_path).returncode == 0
    new = {path.name: path.read_bytes() for path in folder.iterdir()}
    assert new.keys() == old.keys()  # what was on its way is swept
    for name, data in killed.items():
        assert name == ".written-by-slath" or data in {old[name], new[name]}
