"""Files written whole or not at all, and never over something that is not ours.

What a build writes is remembered in the folder as ``.written-by-slath`` (SHA-256 and name a line). A file that stands
in the way is replaced only if it is still exactly what an earlier build wrote there, or what this one would write.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import re
import shutil
import stat
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path

REGISTER = ".written-by-slath"

Register = dict[str, frozenset[str]]


STAGED = ".slath-"  # begins the names of files on their way
_UNSAFE = re.compile(r'[\x00-\x1f<>:"\\|?*]')  # what some system gives a meaning of its own


class LinkError(OSError):
    """A folder in which a build would write is a link to some other place."""

    def __init__(self, folder: Path) -> None:
        super().__init__(str(folder))
        self.folder = folder


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


def write_set(
    folder: Path, files: Mapping[str, bytes], *, replace: bool = False, named: Path | None = None
) -> tuple[Path, ...]:
    """Write a set of files (names relative to `folder`, "/" between folders) after all of them have been made.

    All are on the disk before the first is moved to its place; if one cannot be moved, those before it are moved back.
    Another build into the same folder waits meanwhile. `named` is the folder the user named, in which `folder` lies.

    Raises, before anything is written: InTheWayError if what stands there is not an earlier build's, unless `replace`;
    LinkError if a folder on the way is a link; ValueError for a name that leads elsewhere. OSError as `write_whole`.
    """
    _refuse_elsewhere(files)
    _refuse_links(folder, files, named or folder)
    folder.mkdir(parents=True, exist_ok=True)
    with _alone_in(folder):
        _sweep(folder, files)
        known = read_register(folder)
        digests = {name: _digest(data) for name, data in files.items()}
        there = {name: _digest_of(folder / name) for name in files}
        strange = _strange(known, digests, there)
        if strange and not replace:
            raise InTheWayError(tuple(folder / name for name in strange))
        changed = {name: data for name, data in files.items() if there[name] != digests[name]}
        # Whatever stops the moving, the old and the new file are both known as ours.
        both = {name: known.get(name, frozenset()) | {digest} for name, digest in digests.items()}
        _replace_all(folder, changed, lambda: _write_register(folder, known | both))
        _write_register(folder, known | {name: frozenset({digest}) for name, digest in digests.items()})
    return tuple(folder / name for name in files)


def _replace_all(folder: Path, files: Mapping[str, bytes], before_moving: Callable[[], None]) -> None:
    """Put all files on the disk, then move all to their places or none."""
    staged: dict[Path, Path] = {}
    undo: dict[Path, Path | None] = {}
    try:
        for name, data in files.items():
            staged[folder / name] = _staged(folder / name, data)
        before_moving()
        for path, made in staged.items():
            undo[path] = _second_name(path)
            made.replace(path)
    except BaseException:
        for path, old in reversed(undo.items()):
            if staged[path].exists():  # was never moved
                continue
            with contextlib.suppress(OSError):
                path.unlink() if old is None else old.replace(path)
        raise
    finally:
        for made in (*staged.values(), *(old for old in undo.values() if old is not None)):
            _clear(made)


def _second_name(path: Path) -> Path | None:
    """Another name for the file at `path`, by which it can be brought back; None if there is none there.

    Where the system has no second names the file is copied.
    """
    if not _is_file(path):
        return None
    handle, name = tempfile.mkstemp(prefix=STAGED, dir=path.parent)
    os.close(handle)
    second = Path(name)
    second.unlink()
    try:
        second.hardlink_to(path)
    except (OSError, NotImplementedError):
        shutil.copy2(path, second)
    return second


def _strange(known: Register, digests: Mapping[str, str], there: Mapping[str, str | None]) -> list[str]:
    """The names under which something stands that no earlier build left there, or where a name that differs by its
    capitals alone would be replaced on systems that do not tell them apart.
    """
    folded = {name.casefold(): name for name in known}
    return [
        name
        for name, found in there.items()
        if (found is not None and found != digests[name] and found not in known.get(name, frozenset()))
        or folded.get(name.casefold(), name) != name
    ]


def _refuse_elsewhere(names: Iterable[str]) -> None:
    """ValueError for a name that is not a plain one, or for two that differ by their capitals alone."""
    folded: dict[str, str] = {}
    for name in names:
        parts = name.split("/")
        if any(part.strip(". ") != part or not part for part in parts) or _UNSAFE.search(name):
            raise ValueError(f"a file cannot be called {name!r}")
        if folded.setdefault(name.casefold(), name) != name:
            raise ValueError(f"{name!r} and {folded[name.casefold()]!r} are one file on many systems")


def _refuse_links(folder: Path, names: Iterable[str], named: Path) -> None:
    """LinkError if the folder the user named, or one inside it on the way to a file, is a link to another place."""
    inner = {(folder / name).parent for name in names} | {folder}
    for path in sorted({step for place in inner for step in (place, *place.parents) if step.is_relative_to(named)}):
        if path != Path() and path.is_symlink():
            raise LinkError(path)


@contextlib.contextmanager
def _alone_in(folder: Path) -> Iterator[None]:
    """While no other build writes into `folder`; at once where the system cannot tell."""
    try:
        import fcntl  # noqa: PLC0415 - not on every system
    except ImportError:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        with contextlib.suppress(OSError):  # a file system without locks
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _sweep(folder: Path, names: Iterable[str]) -> None:
    """Clear away what a build that was killed had put beside the files it was to replace."""
    for place in {(folder / name).parent for name in names} | {folder}:
        for left in place.glob(f"{STAGED}*"):
            if _is_file(left):
                _clear(left)


def read_register(folder: Path) -> Register:
    """Names and digests of what earlier builds wrote in `folder`; empty if there were none."""
    register = folder / REGISTER
    if not _is_file(register):
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
    return tuple(name for name in sorted(read_register(folder)) if name not in names and _is_file(folder / name))


def _write_register(folder: Path, known: Register) -> None:
    lines = "".join(f"{digest}  {name}\n" for name in sorted(known) for digest in sorted(known[name]))
    write_whole(folder / REGISTER, lines.encode())


def _staged(path: Path, data: bytes) -> Path:
    """`data` on the disk beside `path`, under a name of its own."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=STAGED, dir=path.parent)
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


def _digest_of(path: Path) -> str | None:
    """Digest of the file at `path`; None if nothing stands there, empty for a link, a folder, or whatever is no file."""
    if not os.path.lexists(path):
        return None
    if not _is_file(path):
        return ""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _is_file(path: Path) -> bool:
    """Whether a file stands at `path` itself, and not at the end of a link."""
    try:
        return stat.S_ISREG(path.lstat().st_mode)
    except OSError:
        return False
