"""The way out: exit codes, what is said, and what is left behind when something stops a command."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from pathlib import Path

import pytest
from tests.cli.running import COMMAND, PATTERNS, environment, slath, start


@pytest.mark.parametrize("command", ["check", "build", "list", "draw", "counts", "proof"])
def test_a_pattern_that_is_not_there(command: str, tmp_path: Path) -> None:
    """A path that leads nowhere is the command's fault; the nearest name in the folder is offered."""
    start(tmp_path, "weir-basket")
    done = slath(command, "wier-basket.yaml", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stderr.splitlines()[-1].endswith("there is no file wier-basket.yaml; did you mean weir-basket.yaml?")
    assert done.stdout == ""


def test_a_folder_in_place_of_a_pattern(tmp_path: Path) -> None:
    """A folder is no pattern; a pattern in it is offered."""
    done = slath("check", PATTERNS, cwd=tmp_path)
    assert done.returncode == 2
    assert "is a folder; name a pattern file in it, such as" in done.stderr


def test_an_unknown_command(tmp_path: Path) -> None:
    """A command that is none is the command line's fault."""
    done = slath("weave", cwd=tmp_path)
    assert done.returncode == 2
    assert "weave" in done.stderr


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_pattern_that_may_not_be_read(tmp_path: Path) -> None:
    """A file without permission is the surroundings' fault, and named."""
    file = start(tmp_path)
    file.chmod(0)
    done = slath("check", file.name, cwd=tmp_path)
    assert done.returncode == 3
    assert "basket.yaml" in done.stderr


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    """Where no folder can be made, the surroundings are at fault, and nothing is written."""
    file = start(tmp_path)
    (tmp_path / "build").write_text("a note", "utf-8")
    done = slath("build", file.name, "--edition", "list", cwd=tmp_path)
    assert done.returncode == 3
    assert "build/basket" in done.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == ["basket.yaml", "build"]


def test_a_full_disk(tmp_path: Path) -> None:
    """When a file cannot be written to its end, nothing of the new build stays, and the old one is as it was."""
    file = start(tmp_path)
    build = ("build", file.name, "--edition", "list", "--edition", "text")
    assert slath(*build, cwd=tmp_path).returncode == 0
    before = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    file.write_text(file.read_text("utf-8").replace("title: Trial", "title: Another"), "utf-8")
    before[file] = file.read_bytes()

    def no_room() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (10_000, 10_000))  # bytes in one file: less than the booklet's text

    done = subprocess.run(
        [COMMAND, *build],
        cwd=tmp_path,
        env=environment(),
        preexec_fn=no_room,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 3
    assert "Nothing was left half-written" in done.stderr
    assert {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()} == before


def _with_broken_rooms(code: str, folder: Path, **changed: str) -> subprocess.CompletedProcess[str]:
    script = f"import sys\nimport slath.pipeline\n{code}\nfrom slath.cli import main\nmain()\n"
    return subprocess.run(
        [sys.executable, "-c", script, "check", start(folder).name],
        cwd=folder, env=environment(**changed), capture_output=True, text=True, check=False,
    )  # fmt: skip


BUG = "def broken(*_, **__): raise ZeroDivisionError('a bug')\nslath.pipeline.compile_pattern = broken"


def test_our_own_bug(tmp_path: Path) -> None:
    """An error nobody foresaw is owned up to: exit code 4, no traceback, and how to see where."""
    done = _with_broken_rooms(BUG, tmp_path)
    assert (done.returncode, done.stdout) == (4, "")
    assert "slath has gone wrong by itself: ZeroDivisionError: a bug" in done.stderr
    assert "SLATH_DEBUG=1" in done.stderr
    assert "Traceback" not in done.stderr


def test_our_own_bug_looked_at(tmp_path: Path) -> None:
    """SLATH_DEBUG=1 shows the traceback."""
    done = _with_broken_rooms(BUG, tmp_path, SLATH_DEBUG="1")
    assert done.returncode != 0
    assert "Traceback" in done.stderr


@pytest.mark.parametrize("stop", ["raise KeyboardInterrupt", "import os, signal; os.kill(os.getpid(), signal.SIGTERM)"])
def test_stopped_by_hand(stop: str, tmp_path: Path) -> None:
    """Ctrl-C, or being told to end, is no bug: exit code 2 and one sentence."""
    done = _with_broken_rooms(f"def stopped(*_, **__): {stop}\nslath.pipeline.compile_pattern = stopped", tmp_path)
    assert done.returncode == 2
    assert done.stderr.strip() == "Stopped; nothing was left half-written."
