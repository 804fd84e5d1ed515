"""Files are written whole or not at all, and never over a stranger's."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from slath.output.writing import (
    REGISTER,
    STAGED,
    InTheWayError,
    LinkError,
    read_register,
    write_set,
    write_whole,
)


def test_a_failing_write_leaves_the_old_file_and_no_rubbish(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the disk fails half-way, the file that was there is untouched and nothing else is."""
    target = tmp_path / "booklet.pdf"
    target.write_bytes(b"old")

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_whole(target, b"new")
    assert target.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [target]


def test_a_build_replaces_its_own_files(tmp_path: Path) -> None:
    """What an earlier build wrote and nobody touched is replaced without asking."""
    write_set(tmp_path, {"a.txt": b"one", "figures/b.svg": b"two"})
    write_set(tmp_path, {"a.txt": b"three"})
    assert (tmp_path / "a.txt").read_bytes() == b"three"
    assert (tmp_path / "figures" / "b.svg").read_bytes() == b"two"
    assert sorted(read_register(tmp_path)) == ["a.txt", "figures/b.svg"]


@pytest.mark.parametrize("known", [False, True])
def test_a_strangers_file_stops_the_whole_set(tmp_path: Path, known: bool) -> None:
    """A file nobody built, or one changed since, is named and kept, and none of the set is written."""
    if known:
        write_set(tmp_path, {"b.txt": b"built"})
    (tmp_path / "b.txt").write_bytes(b"the maker's own")
    with pytest.raises(InTheWayError) as caught:
        write_set(tmp_path, {"a.txt": b"new", "b.txt": b"new"})
    assert caught.value.files == (tmp_path / "b.txt",)
    assert (tmp_path / "b.txt").read_bytes() == b"the maker's own"
    assert not (tmp_path / "a.txt").exists()


def test_overwriting_is_possible_when_asked(tmp_path: Path) -> None:
    """`replace` takes the place of a stranger's file and remembers the new one as ours."""
    (tmp_path / "a.txt").write_bytes(b"theirs")
    write_set(tmp_path, {"a.txt": b"ours"}, replace=True)
    write_set(tmp_path, {"a.txt": b"ours again"})
    assert (tmp_path / "a.txt").read_bytes() == b"ours again"
    assert (tmp_path / REGISTER).is_file()


KILLED = """
import os, pathlib, signal, sys
from slath.output.writing import write_set

def dying(real):
    calls = []
    def called(first, *given):
        calls.append(first)
        if len(calls) == int(sys.argv[2]):
            if sys.argv[1] == "writing":
                os.write(first, b"ne")
            os.kill(os.getpid(), signal.SIGKILL)
        return real(first, *given)
    return called

if sys.argv[1] == "writing":
    os.fdopen = dying(os.fdopen)
else:
    pathlib.Path.replace = dying(pathlib.Path.replace)
write_set(pathlib.Path(sys.argv[3]), {"a.txt": b"new a", "b.txt": b"new b"})
"""


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no process can be killed outright here")
@pytest.mark.parametrize(
    ("during", "call"), [("writing", 1), ("writing", 2), ("moving", 1), ("moving", 2), ("moving", 3)]
)
def test_killed_outright_a_build_leaves_whole_files_and_the_next_works(during: str, call: int, tmp_path: Path) -> None:
    """Ended without warning while it writes a file or moves one, a build leaves each file old or new and none in part;
    the next takes all of them for its own and renews them.
    """
    old, new = {"a.txt": b"old a", "b.txt": b"old b"}, {"a.txt": b"new a", "b.txt": b"new b"}
    write_set(tmp_path, old)
    done = subprocess.run([sys.executable, "-c", KILLED, during, str(call), str(tmp_path)], check=False)
    assert done.returncode == -signal.SIGKILL
    for name, before in old.items():
        assert (tmp_path / name).read_bytes() in {before, new[name]}
    newer = {"a.txt": b"newer a", "b.txt": b"newer b"}
    write_set(tmp_path, newer)
    assert {name: (tmp_path / name).read_bytes() for name in newer} == newer
    assert sorted(read_register(tmp_path)) == ["a.txt", "b.txt"]


@pytest.mark.parametrize("name", ["../a", "/a", "a/../b", "a/", "", ".a", "a ", "a.", "C:a", "a\\b", "a\nb", "a/.b"])
def test_nothing_is_written_outside_whatever_a_name_holds(name: str, tmp_path: Path) -> None:
    """A name that leads out of the folder, or would on some system, stops the whole set."""
    with pytest.raises(ValueError, match="cannot be called"):
        write_set(tmp_path / "build", {"good.txt": b"new", name: b"new"})
    assert not list(tmp_path.iterdir())


def test_names_that_differ_by_capitals_alone_replace_nothing(tmp_path: Path) -> None:
    """They are one file on many systems, so they are refused in one set and in the way of each other in two."""
    with pytest.raises(ValueError, match="one file on many systems"):
        write_set(tmp_path, {"a.txt": b"one", "A.txt": b"two"})
    write_set(tmp_path, {"a.txt": b"one"})
    with pytest.raises(InTheWayError):
        write_set(tmp_path, {"A.txt": b"two"})


@pytest.mark.parametrize("dangling", [False, True])
def test_a_link_in_place_of_a_file_is_in_the_way(tmp_path: Path, dangling: bool) -> None:
    """It is not replaced unasked, and what it leads to is never written; when asked, the link itself gives way."""
    elsewhere = tmp_path / "theirs.txt"
    if not dangling:
        elsewhere.write_bytes(b"theirs")
    folder = tmp_path / "build"
    folder.mkdir()
    (folder / "a.txt").symlink_to(elsewhere)
    with pytest.raises(InTheWayError):
        write_set(folder, {"a.txt": b"ours"})
    assert (folder / "a.txt").is_symlink()
    write_set(folder, {"a.txt": b"ours"}, replace=True)
    assert not (folder / "a.txt").is_symlink()
    assert elsewhere.exists() is not dangling
    assert dangling or elsewhere.read_bytes() == b"theirs"


@pytest.mark.parametrize("link", ["build", "build/weir", "build/weir/figures"])
def test_a_link_in_place_of_a_folder_is_not_followed(tmp_path: Path, link: str) -> None:
    """Nor can it be by asking to overwrite: the folder named is the folder written."""
    elsewhere = tmp_path / "theirs"
    elsewhere.mkdir()
    (tmp_path / link).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / link).symlink_to(elsewhere)
    for replace in (False, True):
        with pytest.raises(LinkError):
            write_set(tmp_path / "build/weir", {"figures/a.svg": b"a"}, replace=replace, named=tmp_path / "build")
    assert not list(elsewhere.iterdir())


def test_a_link_above_the_folder_named_is_the_users_own(tmp_path: Path) -> None:
    """How the user's disk is arranged is none of our business."""
    (tmp_path / "disk").mkdir()
    (tmp_path / "work").symlink_to(tmp_path / "disk")
    write_set(tmp_path / "work/build/weir", {"a.svg": b"a"}, named=tmp_path / "work/build")
    assert (tmp_path / "disk/build/weir/a.svg").read_bytes() == b"a"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
@pytest.mark.parametrize("name", ["a.txt", REGISTER])
def test_a_pipe_in_place_of_a_file_is_not_read(tmp_path: Path, name: str) -> None:
    """Nobody will ever write into it, so who reads it waits for ever."""
    os.mkfifo(tmp_path / name)
    if name == REGISTER:
        write_set(tmp_path, {"a.txt": b"ours"})
        assert (tmp_path / "a.txt").read_bytes() == b"ours"
    else:
        with pytest.raises(InTheWayError):
            write_set(tmp_path, {"a.txt": b"ours"})


@pytest.mark.parametrize("links", [True, False])
def test_a_set_is_replaced_as_a_set_or_not_at_all(tmp_path: Path, links: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """If one file cannot be moved to its place, those before it are as they were, and new ones are gone."""
    if not links:
        monkeypatch.setattr(Path, "hardlink_to", lambda *_: (_ for _ in ()).throw(OSError(1, "not permitted")))
    write_set(tmp_path, {"a.txt": b"old a", "c.txt": b"old c"})
    (tmp_path / "c.txt").unlink()
    (tmp_path / "c.txt").mkdir()  # no file can take the place of a folder
    with pytest.raises(OSError, match="directory"):
        write_set(tmp_path, {"a.txt": b"new a", "b.txt": b"new b", "c.txt": b"new c"}, replace=True)
    assert (tmp_path / "a.txt").read_bytes() == b"old a"
    assert sorted(path.name for path in tmp_path.iterdir()) == [REGISTER, "a.txt", "c.txt"]


def test_what_a_killed_build_left_on_its_way_is_swept_by_the_next(tmp_path: Path) -> None:
    """Its files on their way have names of their own, which no reader looks for."""
    code = ["writing", "2", str(tmp_path)]
    assert subprocess.run([sys.executable, "-c", KILLED, *code], check=False).returncode == -signal.SIGKILL
    assert [path for path in tmp_path.iterdir() if path.name.startswith(STAGED)]
    write_set(tmp_path, {"a.txt": b"new"})
    assert sorted(path.name for path in tmp_path.iterdir()) == [REGISTER, "a.txt"]


WAITING = """
import pathlib, sys, time
from slath.output import writing

real = writing._staged
def slow(path, data):
    print("writing", flush=True)
    time.sleep(0.5)
    return real(path, data)

if sys.argv[2] == "slow":
    writing._staged = slow
writing.write_set(pathlib.Path(sys.argv[1]), {name: sys.argv[2].encode() for name in ("a.txt", "b.txt")})
"""


def test_two_builds_into_one_folder_do_not_mix(tmp_path: Path) -> None:
    """The later waits until the earlier has written, and then replaces the whole of it."""
    command = [sys.executable, "-c", WAITING, str(tmp_path)]
    with subprocess.Popen([*command, "slow"], stdout=subprocess.PIPE) as first:
        assert first.stdout is not None
        first.stdout.readline()  # it has the folder
        subprocess.run([*command, "fast"], check=True, timeout=60)
        assert {(tmp_path / name).read_bytes() for name in ("a.txt", "b.txt")} == {b"fast"}
        first.wait()
    assert first.returncode == 0
    assert {(tmp_path / name).read_bytes() for name in ("a.txt", "b.txt")} == {b"fast"}
