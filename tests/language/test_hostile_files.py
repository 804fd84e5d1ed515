"""Files that are no patterns at all: each ends in one note with its place, soon, and in little memory."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import pytest

from slath.language import read_pattern
from slath.notes import PatternFaultError

FILES: dict[str, tuple[bytes, str, int, int]] = {
    "empty": (b"", "empty-file", 1, 1),
    "blank": (b"\n\n   \n", "empty-file", 1, 1),
    "remarks": (b"# nothing yet\n", "empty-file", 1, 1),
    "latin-1": ("slath: 1\ntitle: café\n".encode("latin-1"), "wrong-encoding", 2, 11),
    "utf-16": ("slath: 1\n".encode("utf-16"), "wrong-encoding", 1, 1),
    "nul": (b"slath: 1\ntitle: a\x00b\n", "strange-character", 2, 9),
    "ten megabytes": (b"title: x\n" * 1_200_000, "file-too-large", 111112, 1),
    "ten megabytes on one line": (b"t: [" + b"1, " * 3_500_000, "file-too-large", 1, 1),
    "a hundred thousand values": (b"t: [" + b"1," * 100_000 + b"1]", "file-too-large", 1, 19_999),
    "a hundred thousand brackets": (b"t: " + b"[" * 100_000, "nested-too-deep", 1, 4),
    "a hundred thousand indents": (b"".join(b" " * depth + b"a:\n" for depth in range(1000)), "nested-too-deep", 41, 41),
    "alias bomb": (
        b"a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n"
        + b"".join(b"a%d: &a%d [%s]\n" % (n, n, b", ".join([b"*a%d" % (n - 1)] * 10)) for n in range(1, 12)),
        "alias-broken", 2, 55,
    ),
    "long number": (b"slath: " + b"9" * 100_000 + b"\n", "number-out-of-reach", 1, 8),
    "binary": (bytes(range(256)) * 10, "wrong-encoding", 2, 118),
}  # fmt: skip


@pytest.mark.parametrize("name", FILES)
def test_a_hostile_file_ends_in_a_note(name: str, tmp_path: Path) -> None:
    """Whatever the bytes, a note names what is wrong at its line and column, and no other error escapes."""
    content, code, line, column = FILES[name]
    file = tmp_path / "hostile.yaml"
    file.write_bytes(content)
    started = time.process_time()
    with pytest.raises(PatternFaultError) as caught:
        read_pattern(file)
    assert time.process_time() - started < 2.0  # thousands of times what it takes, and still a guard against blow-ups
    assert (code, line, column) in [(note.code, note.place.line, note.place.column) for note in caught.value.notes]
    assert all(note.sentence and note.place.line for note in caught.value.notes)


@pytest.mark.skipif(not Path("/proc/self/status").is_file(), reason="memory is read from /proc, which is not here")
def test_memory_stays_small(tmp_path: Path) -> None:
    """The worst of these files is refused within 300 MB for the whole process."""
    file = tmp_path / "hostile.yaml"
    file.write_bytes(FILES["ten megabytes on one line"][0])
    script = (
        "import pathlib, sys\n"
        "from slath.language import read_pattern\n"
        "from slath.notes import PatternFaultError\n"
        "try:\n    read_pattern(pathlib.Path(sys.argv[1]))\n"
        # Not ru_maxrss: that begins with what the process that started this one held (getrusage(2), fork and exec).
        "except PatternFaultError:\n    status = pathlib.Path('/proc/self/status').read_text()\n"
        "    print(status.partition('VmHWM:')[2].split()[0])\n"
    )
    done = subprocess.run([sys.executable, "-c", script, str(file)], capture_output=True, text=True, check=True)
    assert 0 < int(done.stdout) < 300_000  # kilobytes


def test_a_missing_file_is_the_callers_matter(tmp_path: Path) -> None:
    """A file that is not there is no fault of the pattern: the error of the system comes through."""
    with pytest.raises(FileNotFoundError):
        read_pattern(tmp_path / "nowhere.yaml")


def test_windows_lines_and_byte_order_mark(tmp_path: Path) -> None:
    """A file saved on Windows (byte order mark, two-character line ends) has its notes on the right lines."""
    file = tmp_path / "windows.yaml"
    file.write_bytes(b"\xef\xbb\xbfslath: 1\r\ntitle: x\r\nbsae: y\r\n")
    with pytest.raises(PatternFaultError) as caught:
        read_pattern(file)
    assert ("unknown-key", 3, 1) in [(note.code, note.place.line, note.place.column) for note in caught.value.notes]
