"""Nothing of the place where it was written stays in the project: no path of a machine, no address of a package index."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
# Written in pieces, so that this file is not found by its own search.
HOMES = ("home", "root", "Users", "work", "workspace", "mnt", "opt", "srv", "builds", "private")
MACHINE_PATH = re.compile(rf"(?<![\w.:/~)\]}}-])/(?:{'|'.join(HOMES)})/\w|[A-Z]:\\Users\\")
INDEX_HOSTS = re.compile(
    "|".join(
        (
            "pypi" + r"\.org",
            "python" + r"hosted",
            "npm" + r"js",
            "gola" + r"ng\.org",
            "extra-index" + "-url",
            "anaconda" + r"\.org",
        )
    )
)


def tracked() -> list[Path]:
    """Every file under version control that is text."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout, so what is tracked cannot be told")
    paths = [ROOT / name for name in listed.stdout.split("\0") if name]
    return [path for path in paths if path.is_file() and b"\0" not in path.read_bytes()[:8000]]


def lines_with(pattern: re.Pattern[str]) -> list[str]:
    """Every line of the project in which something is found, with its place."""
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:120]}"
        for path in tracked()
        for number, line in enumerate(path.read_text("utf-8", errors="replace").splitlines(), start=1)
        if pattern.search(line)
    ]


@pytest.mark.parametrize(
    "line", ["see /" + "home/me/x", "'/" + "root/x'", "C:\\" + "Users\\me", 'open("/' + 'work/x")']
)
def test_a_machine_path_is_found(line: str) -> None:
    """The search finds paths of machines."""
    assert MACHINE_PATH.search(line)


@pytest.mark.parametrize("line", ["tests/" + "work/x", "https://example.org/" + "home/x", "a/" + "root/b", "work/rest"])
def test_other_paths_are_left_alone(line: str) -> None:
    """The search passes over relative paths and addresses."""
    assert not MACHINE_PATH.search(line)


def test_no_machine_paths() -> None:
    """No tracked file names a path of somebody's machine."""
    assert len(tracked()) > 200
    assert lines_with(MACHINE_PATH) == []


def test_no_package_indexes() -> None:
    """No tracked file names the address of a package index: where packages come from is the installer's own setting."""
    assert INDEX_HOSTS.search("https://" + "pypi" + ".org/simple")
    assert lines_with(INDEX_HOSTS) == []
