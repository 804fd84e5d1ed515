"""The package as it is handed over: wheel and source archive hold what they must, and work away from the checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import tarfile
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
BUILD = """
import sys
from hatchling import build
print(getattr(build, "build_" + sys.argv[1])(sys.argv[2]))
"""


def built(kind: str, folder: Path, source: Path = ROOT) -> Path:
    """The wheel or sdist of `source`, made by the build backend that pyproject.toml names, without any download."""
    done = subprocess.run(
        [sys.executable, "-c", BUILD, kind, str(folder)], cwd=source, capture_output=True, text=True, check=True
    )
    return folder / done.stdout.splitlines()[-1]


def tracked(*folders: str) -> set[str]:
    """Files under version control in some folders, less those that are gone; skips where there is no version control."""
    listed = subprocess.run(["git", "ls-files", "-z", *folders], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a git checkout, so what is tracked cannot be told")
    return {name for name in listed.stdout.split("\0") if name and (ROOT / name).is_file()}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel of this checkout."""
    return built("wheel", tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of commands of a fresh environment that holds the wheel, and borrows only its dependencies from here."""
    place = tmp_path_factory.mktemp("installed") / "environment"
    venv.create(place, symlinks=os.name != "nt")
    commands = place / ("Scripts" if os.name == "nt" else "bin")
    packages = Path(sysconfig.get_path("purelib", vars={"base": str(place), "platbase": str(place)}))
    subprocess.run(
        [sys.executable, "-m", "pip", "--python", str(commands / "python"), "install", "--quiet", "--no-deps", "--no-index",
         "--disable-pip-version-check", str(wheel)],
        check=True,
    )  # fmt: skip
    # A path file names a folder to look in; path files in that folder (the checkout's own) are not followed.
    (packages / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n", "utf-8")
    return commands


def _run(installed: Path, folder: Path, *line: str) -> subprocess.CompletedProcess[str]:
    clean = {"PATH": os.defpath, "HOME": str(folder), "PYTHONDONTWRITEBYTECODE": "1"}
    command = [str(installed / line[0]), *line[1:]]
    return subprocess.run(command, cwd=folder, env=clean, capture_output=True, encoding="utf-8", check=False)


def test_the_wheel_holds_the_package_whole(wheel: Path) -> None:
    """Every tracked file of the package, the shipped patterns and the styles are in the wheel, and nothing else."""
    with zipfile.ZipFile(wheel) as archive:
        found = {name for name in archive.namelist() if ".dist-info/" not in name}
    package = {name.removeprefix("compiler/") for name in tracked("compiler/slath")}
    shipped = {f"slath/_shipped/{name}" for name in tracked("patterns", "styles")}
    assert len(package) > 100
    assert len(shipped) > 10
    missing = sorted((package | shipped) - found)
    assert missing == []
    strange = sorted(
        name for name in found - package - shipped if "__pycache__" in name or not name.startswith("slath/")
    )
    assert strange == []


def test_the_installed_package_is_not_the_checkout(installed: Path, tmp_path: Path) -> None:
    """The fresh environment finds the package in itself: what the next tests run does not come from here."""
    done = _run(installed, tmp_path, "python", "-c", "import slath; print(slath.__file__)")
    assert Path(done.stdout.strip()).is_relative_to(installed.parent)
    assert str(ROOT / "compiler") not in _run(installed, tmp_path, "python", "-c", "import sys; print(sys.path)").stdout


def test_the_installed_package_makes_a_booklet(installed: Path, tmp_path: Path) -> None:
    """Away from the checkout a new pattern becomes a booklet, its figures, list and web page, in every shipped style."""
    assert _run(installed, tmp_path, "slath", "new", "pot.yaml", "--sizes", "one size").returncode == 0
    editions = ("booklet", "large-print", "handout", "bench-cards", "figures", "list", "web-page", "fold")
    options = [part for edition in editions for part in ("--edition", edition)]
    done = _run(installed, tmp_path, "slath", "build", "pot.yaml", *options)
    assert done.returncode == 0, done.stderr
    made = tmp_path / "build" / "pot"
    assert (made / "pot-booklet.pdf").read_bytes().startswith(b"%PDF-")
    assert len(list((made / "figures").glob("*.svg"))) > 5
    assert (made / "pot-list.json").stat().st_size > 1000


def test_the_installed_package_carries_the_patterns(installed: Path, tmp_path: Path) -> None:
    """The shipped patterns come with the package and check as good from there."""
    packages = next((installed.parent / "lib").glob("python*/site-packages/slath/_shipped/patterns"))
    patterns = sorted(str(path) for path in packages.glob("*.yaml") if "." not in path.stem)
    assert len(patterns) >= 5
    done = _run(installed, tmp_path, "slath", "check", *patterns)
    assert done.returncode == 0, done.stdout


def test_the_source_archive_makes_the_same_wheel(wheel: Path, tmp_path: Path) -> None:
    """The source archive holds what the fixed top level does, and the wheel made from it is the wheel of the checkout."""
    archive = built("sdist", tmp_path)
    with tarfile.open(archive) as opened:
        opened.extractall(tmp_path / "unpacked", filter="data")
    (source,) = (tmp_path / "unpacked").iterdir()
    top = {path.name for path in source.iterdir()}
    assert {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "compiler",
        "patterns",
        "styles",
        "tests",
        "build",
        ".ci",
    } <= top
    again = built("wheel", tmp_path, source)
    with zipfile.ZipFile(wheel) as one, zipfile.ZipFile(again) as other:
        assert {(item.filename, item.CRC) for item in one.infolist()} == {
            (item.filename, item.CRC) for item in other.infolist()
        }
