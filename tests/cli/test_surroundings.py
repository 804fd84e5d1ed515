"""Streams that are closed, readers that go away, files that are none, names that are no text: each is answered in words."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest
from PIL import Image
from tests.cli.running import COMMAND, environment, faulty, slath, start

EVERY_BYTE = os.fsdecode(b"w\xff\xfe.yaml")  # a name that is no UTF-8, as old disks have them


def in_a_shell(line: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """What the installed command does behind a shell that closes its streams or reads no further."""
    return subprocess.run(
        ["bash", "-c", f'set -o pipefail; slath() {{ {COMMAND} "$@"; }}; {line}'], cwd=folder, env=environment(),
        capture_output=True, encoding="utf-8", timeout=120, check=False,
    )  # fmt: skip


@pytest.mark.parametrize("closed", [">&-", "2>&-", ">&- 2>&-", "<&-", "<&- >&- 2>&-"])
def test_closed_streams_change_no_exit_code(closed: str, tmp_path: Path) -> None:
    """Who wants to hear nothing still learns from the exit code, and no file is written over in place of the stream."""
    good, bad = start(tmp_path), faulty(tmp_path)
    before = good.read_bytes()
    for file, code in ((good, 0), (bad, 1)):
        done = in_a_shell(f"slath check {file.name} {closed}", tmp_path)
        assert done.returncode == code, done.stderr
        assert "Traceback" not in done.stderr
    assert in_a_shell(f"slath build {good.name} --edition list {closed}", tmp_path).returncode == 0
    assert (tmp_path / "build/basket/basket-list.csv").is_file()
    assert good.read_bytes() == before


def test_a_reader_that_goes_away_is_nobodys_fault(tmp_path: Path) -> None:
    """`slath list … | head -1` is quiet, and so is a fault that is not read to its end."""
    start(tmp_path)
    faulty(tmp_path)
    for line in ("slath list basket.yaml", "slath proof basket.yaml", "slath check faulty.yaml"):
        done = in_a_shell(f"{line} | true", tmp_path)
        assert done.stdout == ""
        assert done.returncode in (
            {0, 1} if "faulty" in line else {0}
        )  # all was said before the reader left, or was not
        assert "Error" not in done.stderr.replace("warnings", "")


@pytest.mark.parametrize("name", ["pipe.yaml", "/dev/zero", "."])
def test_what_is_no_file_is_not_waited_for(name: str, tmp_path: Path) -> None:
    """A pipe nobody writes to, a device without end, a folder: named, and left."""
    os.mkfifo(tmp_path / "pipe.yaml")
    done = slath("check", name, cwd=tmp_path)
    assert done.returncode in {2, 3}
    assert name in done.stderr
    text = start(tmp_path).read_text("utf-8")
    for key in ("workshop_file: pipe.yaml", "steps: [{stage: base, pictures: [{file: pipe.yaml, shows: x}]}]"):
        (tmp_path / "names.yaml").write_text(f"{text}\n{key}\n", "utf-8")
        done = slath("check", "names.yaml", cwd=tmp_path)
        assert done.returncode == 1
        assert "it is no file but a folder, a pipe or a device" in done.stdout


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    """A picture and a workshop file that only seem to lie beside the pattern are refused at their place."""
    (tmp_path / "own").mkdir()
    Image.new("L", (2, 2)).save(tmp_path / "theirs.png")
    (tmp_path / "theirs.yaml").write_text("name: x\n", "utf-8")
    text = start(tmp_path / "own").read_text("utf-8")
    for ending in ("png", "yaml"):
        (tmp_path / f"own/mine.{ending}").symlink_to(tmp_path / f"theirs.{ending}")
    for key in ("workshop_file: mine.yaml", "steps: [{stage: base, pictures: [{file: mine.png, shows: x}]}]"):
        (tmp_path / "own/names.yaml").write_text(f"{text}\n{key}\n", "utf-8")
        done = slath("check", "own/names.yaml", cwd=tmp_path)
        assert done.returncode == 1
        assert "Error outside-folder" in done.stdout


def test_a_name_that_is_no_text(tmp_path: Path) -> None:
    """Everything is made of a pattern whose name is no UTF-8, under a name that is."""
    start(tmp_path).rename(tmp_path / EVERY_BYTE)
    assert slath("check", EVERY_BYTE, cwd=tmp_path).returncode == 0
    done = slath("build", EVERY_BYTE, "--edition", "list", "--edition", "proof", "--edition", "text", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    made = [path for path in (tmp_path / "build").rglob("w-*") if path.is_file()]
    assert len(made) == 4
    assert all(path.name.isascii() for path in made)


def test_what_is_made_does_not_tell_how_the_path_was_typed(tmp_path: Path) -> None:
    """From any folder, by any path, a pattern gives the same files, and none of them names a folder of this machine."""
    (tmp_path / "a/b").mkdir(parents=True)
    file = start(tmp_path / "a/b")
    text = file.read_text("utf-8") + 'accept: [{code: size-not-woven, reason: "it is a trial"}]\n'
    file.write_text(text, "utf-8")
    editions = [part for edition in ("list", "proof", "text") for part in ("--edition", edition)]
    made, said = [], []
    for number, (path, cwd) in enumerate(
        (("a/b/basket.yaml", "."), ("basket.yaml", "a/b"), (str(file), "."), ("../b/basket.yaml", "a/b"))
    ):
        out = tmp_path / f"out{number}"
        assert slath("build", path, *editions, "--out", out, cwd=tmp_path / cwd).returncode == 0
        made.append(
            {str(found.relative_to(out)): found.read_bytes() for found in sorted(out.rglob("*")) if found.is_file()}
        )
        said.append(slath("proof", path, cwd=tmp_path / cwd).stdout)
    assert len(made[0]) == 5  # with the register
    assert made[1:] == made[:1] * 3
    assert said[1:] == said[:1] * 3
    assert "basket.yaml:" in said[0]
    assert str(tmp_path) not in said[0]


@pytest.mark.parametrize("sizes", ["base,side", "height", "it's", "..", "a/b", "x" * 41])
def test_new_writes_nothing_that_fails(sizes: str, tmp_path: Path) -> None:
    """Where a name cannot be had, the command says so instead of writing a pattern that then fails."""
    done = slath("new", "basket.yaml", "--sizes", sizes, cwd=tmp_path)
    if done.returncode == 0:
        assert slath("check", "basket.yaml", cwd=tmp_path).returncode == 0
    else:
        assert done.returncode == 2
        assert done.stderr.startswith("Error: ")
        assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("damage", ["cut off", "huge", "thread", "no data"])
def test_a_picture_that_cannot_be_printed_is_told_at_its_place(damage: str, tmp_path: Path) -> None:
    """One cut off, one that would fill the memory, one too thin to see: exit code 1, and nothing is written."""
    file = start(tmp_path)
    file.write_text(
        file.read_text("utf-8") + "steps: [{stage: base, pictures: [{file: own.png, shows: x}]}]\n", "utf-8"
    )
    picture = tmp_path / "own.png"
    Image.effect_noise((300, 200), 50).save(picture)
    data = picture.read_bytes()
    large = (60_000).to_bytes(4, "big")
    picture.write_bytes({
        "cut off": data[: len(data) // 2], "huge": data[:16] + large * 2 + data[24:],
        "thread": data[:16] + large + (1).to_bytes(4, "big") + data[24:], "no data": data[:20],
    }[damage])  # fmt: skip
    done = slath("build", file.name, "--edition", "booklet", cwd=tmp_path)
    assert done.returncode == 1
    line = file.read_text("utf-8").count("\n")
    assert f"basket.yaml:{line}:" in done.stderr
    assert not (tmp_path / "build").exists()
