"""Files written whole or not at all, and never over something that is not ours.

What a build writes is remembered in the folder as ``.written-by-slath`` (SHA-256 and name a line). A file that stands
in the way is replaced only if it is still exactly what an earlier build wrote there, or what this one would write.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path

REGISTER = ".written-by-slath"

Register = dict[str, frozenset[str]]


class InTheWayError(FileExistsError):
    """Files stand where a build would write, and they are not what an earlier build left there."""

    def __init__(self, files: tuple[Path, ...]) -> None:
        super().__init__(", ".join(str(path) for path in files))
        self.files = files


def write_whole(path: Path, data: bytes) -> None:
    """Write `data` beside `path` and move it there in one step, so that a reader sees the old file or the new one.

    Raises OSError (disk full, no permission); then nothing is left behind.
    """
    staged = _staged(path, data)
    try:
        staged.replace(path)
    except BaseException:
        _clear(staged)
        raise


def write_new(path: Path, data: bytes) -> None:
    """Write a file that is not there yet, whole. FileExistsError if one came there meanwhile."""
    staged = _staged(path, data)
    try:
        path.open("x").close()  # takes the name, or finds it taken
        staged.replace(path)
    finally:
        _clear(staged)


def write_set(folder: Path, files: Mapping[str, bytes], *, replace: bool = False) -> tuple[Path, ...]:
    """Write a set of files (names relative to `folder`, "/" between folders) after all of them have been made.

    All are on the disk before the first is moved to its place. Raises InTheWayError before anything is written if a
    file there is not an earlier build's, unless `replace`; OSError as `write_whole`.
    """
    known = read_register(folder)
    digests = {name: _digest(data) for name, data in files.items()}
    there = {name: _digest_of(folder / name) for name in files}
    strange = tuple(
        folder / name
        for name, found in there.items()
        if found and found != digests[name] and found not in known.get(name, frozenset())
    )
    if strange and not replace:
        raise InTheWayError(strange)
    staged: dict[Path, Path] = {}
    try:
        for name, data in files.items():
            if there[name] != digests[name]:
                staged[folder / name] = _staged(folder / name, data)
        # Whatever stops the moving, the old and the new file are both known as ours.
        both = {name: known.get(name, frozenset()) | {digest} for name, digest in digests.items()}
        _write_register(folder, known | both)
        for path, made in staged.items():
            made.replace(path)
    except BaseException:
        for made in staged.values():
            _clear(made)
        raise
    _write_register(folder, known | {name: frozenset({digest}) for name, digest in digests.items()})
    return tuple(folder / name for name in files)


def read_register(folder: Path) -> Register:
    """Names and digests of what earlier builds wrote in `folder`; empty if there were none."""
    register = folder / REGISTER
    if not register.is_file():
        return {}
    known: Register = {}
    for line in register.read_text(encoding="utf-8", errors="replace").splitlines():
        digest, separator, name = line.partition("  ")
        if separator:
            known[name] = known.get(name, frozenset()) | {digest}
    return known


def older_files(folder: Path, made: Iterable[str]) -> tuple[str, ...]:
    """Names of what earlier builds left in `folder` beside the files just `made`, in order."""
    names = set(made)
    return tuple(name for name in sorted(read_register(folder)) if name not in names and (folder / name).is_file())


def _write_register(folder: Path, known: Register) -> None:
    lines = "".join(f"{digest}  {name}\n" for name in sorted(known) for digest in sorted(known[name]))
    write_whole(folder / REGISTER, lines.encode())


def _staged(path: Path, data: bytes) -> Path:
    """`data` on the disk beside `path`, under a name of its own."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=".slath-", dir=path.parent)
    except OSError as problem:  # named after the file that was wanted
        raise OSError(problem.errno, problem.strerror, str(path)) from problem
    staged = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        staged.chmod(0o666 & ~_umask())  # mkstemp makes files private; these are for sharing
    except OSError as problem:
        _clear(staged)
        raise OSError(problem.errno, problem.strerror, str(path)) from problem
    except BaseException:
        _clear(staged)
        raise
    return staged


def _clear(staged: Path) -> None:
    with contextlib.suppress(OSError):
        staged.unlink()


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _digest_of(path: Path) -> str:
    """Digest of the file at `path`; empty where there is none."""
    return _digest(path.read_bytes()) if path.exists() else ""
