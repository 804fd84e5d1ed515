"""`slath build --watch`: it stays, and builds again what a change concerns."""

from __future__ import annotations

import os
import signal
import subprocess
import time
from collections.abc import Callable
from pathlib import Path

from tests.cli.running import COMMAND, environment, start

from slath.output.watching import Watched


def wait_until(true: Callable[[], bool], seconds: float = 60) -> bool:
    """Whether something comes true in time."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        if true():
            return True
        time.sleep(0.05)
    return False


def test_a_change_is_built_and_a_fault_waited_out(tmp_path: Path) -> None:
    """A changed pattern is built again; a fault is told and the watch goes on; Ctrl-C ends it with exit code 0."""
    file = start(tmp_path)
    text = file.read_text("utf-8")
    booklet = tmp_path / "build/basket/basket-booklet.txt"
    with (tmp_path / "errors.log").open("wb") as errors, (tmp_path / "output.log").open("wb") as output:
        process = subprocess.Popen([COMMAND, "build", "--watch", file.name, "--edition", "text"], cwd=tmp_path,
                                   env=environment(), stdout=output, stderr=errors)  # fmt: skip
        try:
            assert wait_until(lambda: booklet.exists() and "Trial" in booklet.read_text("utf-8"))
            file.write_text(text.replace("  height: side\n", "  height: sid\n"), "utf-8")
            assert wait_until(lambda: "Error unknown-name" in (tmp_path / "errors.log").read_text("utf-8"))
            assert process.poll() is None
            file.write_text(text.replace("title: Trial", "title: Second thoughts"), "utf-8")
            assert wait_until(lambda: "Second thoughts" in booklet.read_text("utf-8"))
        finally:
            process.send_signal(signal.SIGINT)
            code = process.wait(timeout=60)
    assert code == 0
    assert "Stopped watching." in (tmp_path / "errors.log").read_text("utf-8")
    assert "renewed in" in (tmp_path / "output.log").read_text("utf-8")


def test_what_a_change_concerns(tmp_path: Path) -> None:
    """A pattern concerns itself; a workshop file or picture beside them concerns both; another pattern's change neither."""
    one, two = start(tmp_path, "one"), start(tmp_path, "two")
    shop = tmp_path / "shop.yaml"
    shop.write_text("name: x", "utf-8")
    watched = Watched((one, two))
    assert not watched.has_changed()
    one.write_text("changed", "utf-8")
    assert watched.has_changed()
    assert watched.changed() == (one,)
    assert watched.changed() == ()
    shop.write_text("name: y, and longer", "utf-8")
    assert watched.changed() == (one, two)
    (tmp_path / "new.png").write_bytes(b"")
    assert watched.changed() == (one, two)
    (tmp_path / "notes.txt").write_text("nothing to do with it", "utf-8")
    assert watched.changed() == ()


def test_a_file_replaced_by_renaming(tmp_path: Path) -> None:
    """Editors write beside a file and move the new one over it; that is a change, and its absence in between no error."""
    file = start(tmp_path)
    watched = Watched((file,))
    file.rename(tmp_path / "aside")
    assert watched.changed() == (file,)
    (tmp_path / "aside").rename(file)
    assert watched.wait(look_every_s=0.01) == (file,)


def test_a_workshop_file_elsewhere(tmp_path: Path) -> None:
    """A workshop file given on the command line is watched where it lies."""
    inner = tmp_path / "inner"
    inner.mkdir()
    file = start(inner)
    shop = tmp_path / "shop.yaml"
    shop.write_text("name: x", "utf-8")
    watched = Watched((file,), also=(shop,))
    os.utime(shop, ns=(1, 1))
    assert watched.changed() == (file,)
