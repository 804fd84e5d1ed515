"""Files read for their bytes: no folder, pipe or device keeps the reader waiting, none is read for ever, and none that a
pattern names lies outside the pattern's folder.
"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path, PurePath

from slath.messages.told import told


class OutsideError(OSError):
    """A file that a pattern names is not in the pattern's folder."""


def read_bytes(path: Path, most: int) -> bytes:
    """The first `most` bytes of the file at `path`, and one more if there are more.

    OSError where it cannot be read, or is no file: a folder, a pipe, a device.
    """
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with os.fdopen(handle, "rb") as opened:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, told("it is no file but a folder, a pipe or a device"), str(path))
        return opened.read(most + 1)


def file_inside(folder: Path, name: str) -> Path:
    """Where the file `name` in `folder` is, the folder as given. OutsideError if it lies elsewhere, or would on some system."""
    path = PurePath(name.replace("\\", "/"))
    if path.is_absolute() or ".." in path.parts or ":" in name:
        raise OutsideError(errno.EACCES, told("it is outside the folder"), name)
    try:
        found = (folder / name).resolve()
    except (OSError, RuntimeError, ValueError) as error:  # a ring of links; a name no file can have
        raise OSError(errno.ENOENT, told("no file can be called so"), name) from error
    if not found.is_relative_to(folder.resolve()):
        raise OutsideError(errno.EACCES, told("it is a link that leads outside the folder"), name)
    return folder / name
