"""What is different on a terminal: colour, progress, questions and Ctrl-C."""

from __future__ import annotations

import os
import pty
import select
import subprocess
import time
from pathlib import Path

import pytest
from tests.cli.running import COMMAND, environment, start

CTRL_C = "\x03"
Answers = tuple[tuple[str, str], ...]


def on_a_terminal(
    *arguments: str, cwd: Path, answers: Answers = (), changed: dict[str, str] | None = None
) -> tuple[int, str]:
    """Exit code and everything shown when `slath` runs on a terminal; each answer is typed once its question is there.

    Ctrl-C is typed again after a second of silence until it is answered: one that comes just as Python begins to wait for
    a line is lost.
    """
    ours, theirs = pty.openpty()
    env = environment(**({"TERM": "xterm", "COLUMNS": "120"} | (changed or {})))
    process = subprocess.Popen([COMMAND, *arguments], cwd=cwd, env=env, stdin=theirs, stdout=theirs, stderr=theirs,
                               start_new_session=True, preexec_fn=lambda: _take_terminal(theirs))  # fmt: skip  # noqa: PLW1509
    os.close(theirs)
    shown, typed, left = "", "", list(answers)
    until = time.monotonic() + 120
    while time.monotonic() < until:
        if not select.select([ours], [], [], 1)[0]:
            os.write(ours, CTRL_C.encode() if typed == CTRL_C and "Stopped" not in shown else b"")
            continue
        try:
            data = os.read(ours, 65536)
        except OSError:  # the other side is closed
            break
        if not data:
            break
        shown += data.decode("utf-8", errors="replace")
        while left and left[0][0] in shown:
            typed = left.pop(0)[1]
            os.write(ours, typed.encode())
    code = process.wait(timeout=60)
    os.close(ours)
    return code, shown


def _take_terminal(descriptor: int) -> None:
    import fcntl  # noqa: PLC0415 - in the child
    import termios  # noqa: PLC0415

    fcntl.ioctl(descriptor, termios.TIOCSCTTY, 0)


def test_notes_are_coloured(tmp_path: Path) -> None:
    """On a terminal the word Warning is yellow."""
    code, shown = on_a_terminal("check", start(tmp_path).name, cwd=tmp_path)
    assert code == 0
    assert "\x1b[33mWarning\x1b[0m" in shown


@pytest.mark.parametrize("changed", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_colour_can_be_refused(changed: dict[str, str], tmp_path: Path) -> None:
    """NO_COLOR, and a terminal that cannot, keep every escape code out."""
    code, shown = on_a_terminal("check", start(tmp_path).name, cwd=tmp_path, changed=changed)
    assert code == 0
    assert "Warning size-not-woven" in shown
    assert "\x1b[" not in shown


def test_a_build_shows_how_far_it_is(tmp_path: Path) -> None:
    """On a terminal a build says which edition it is at; what was written stands there at the end."""
    code, shown = on_a_terminal("build", start(tmp_path).name, "--edition", "text", "--edition", "list", cwd=tmp_path)
    assert code == 0
    assert "1/2" in shown
    assert "basket-booklet.txt" in shown


def test_questions_are_asked(tmp_path: Path) -> None:
    """`slath new` asks for what no flag gives, offers the usual answer, and asks again where an answer is none."""
    code, shown = on_a_terminal(
        "new", "pot.yaml", "--units", "mm", cwd=tmp_path,
        answers=(
            ("Which base (round, oval, board) [round]:", "triangle\n"),
            ("is not one of", "oval\n"),
            ("Its name [Pot]:", "\n"),
            ("Designed by [me]:", "Bryony\n"),
            ("Sizes, smallest first", "one\n"),
        ),
    )  # fmt: skip
    assert code == 0
    assert "Measures in" not in shown
    text = (tmp_path / "pot.yaml").read_text("utf-8")
    assert "title: Pot\n" in text
    assert "designer: Bryony\n" in text
    assert "kind: oval slath\n" in text


def test_ctrl_c_at_a_question(tmp_path: Path) -> None:
    """Ctrl-C at a question leaves nothing."""
    code, shown = on_a_terminal("new", "pot.yaml", cwd=tmp_path, answers=(("Which base", CTRL_C),))
    assert code == 2
    assert "Stopped" in shown
    assert list(tmp_path.iterdir()) == []


def test_ctrl_c_in_a_build(tmp_path: Path) -> None:
    """Ctrl-C in the middle of a build leaves the folder as it was, and the exit code says it was the user."""
    file = start(tmp_path, sizes=("small", "medium", "large"))
    code, shown = on_a_terminal("build", file.name, cwd=tmp_path, answers=(("0/", CTRL_C),))
    assert code == 2
    assert "Stopped; nothing was left half-written." in shown
    assert [path.name for path in tmp_path.iterdir()] == ["basket.yaml"]
    assert "Traceback" not in shown
