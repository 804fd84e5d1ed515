"""Files are written whole or not at all, and never over a stranger's."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from slath.output.writing import REGISTER, InTheWayError, read_register, write_set, write_whole


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
