"""Files written whole or not at all, and never over something that is not ours.

What a build writes is remembered in the folder as ``.written-by-slath`` (name and SHA-256 a line). A file that stands
in the way is replaced only if it is still exactly what an earlier build wrote there.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

REGISTER = ".written-by-slath"


class InTheWayError(FileExistsError):
    """Files stand where a build would write, and they are not what an earlier build left there."""

    def __init__(self, files: tuple[Path, ...]) -> None:
        super().__init__(", ".join(str(path) for path in files))
        self.files = files


def write_whole(path: Path, data: bytes) -> None:
    """Write `data` beside `path` and move it there in one step, so that a reader sees the old file or the new one.

    Raises OSError (disk full, no permission); then nothing is left behind.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=".slath-", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        mask = os.umask(0)
        os.umask(mask)
        Path(name).chmod(0o666 & ~mask)  # mkstemp makes files private; these are for sharing
        Path(name).replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise


def write_set(folder: Path, files: Mapping[str, bytes], *, replace: bool = False) -> tuple[Path, ...]:
    """Write a set of files (names relative to `folder`, "/" between folders) after all of them have been made.

    Raises InTheWayError before anything is written if a file there is not an earlier build's, unless `replace`.
    """
    known = read_register(folder)
    strange = tuple(
        folder / name
        for name in files
        if (folder / name).exists() and known.get(name) != _digest((folder / name).read_bytes()) and not replace
    )
    if strange:
        raise InTheWayError(strange)
    for name, data in files.items():
        if known.get(name) != _digest(data) or not (folder / name).exists():
            write_whole(folder / name, data)
        known[name] = _digest(data)
    lines = "".join(f"{digest}  {name}\n" for name, digest in sorted(known.items()))
    write_whole(folder / REGISTER, lines.encode())
    return tuple(folder / name for name in files)


def read_register(folder: Path) -> dict[str, str]:
    """Names and digests of what earlier builds wrote in `folder`; empty if there were none."""
    register = folder / REGISTER
    if not register.is_file():
        return {}
    known: dict[str, str] = {}
    for line in register.read_text(encoding="utf-8").splitlines():
        digest, separator, name = line.partition("  ")
        if separator:
            known[name] = digest
    return known


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
