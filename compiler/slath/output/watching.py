"""Which patterns have changed since they were last looked at."""

from __future__ import annotations

import time
from collections.abc import Iterable, Sequence
from pathlib import Path

LOOK_EVERY_S = 0.1
BESIDE = frozenset({".yaml", ".yml", ".jpg", ".jpeg", ".png"})  # what a pattern may take from its folder

State = tuple[tuple[str, int, int], ...]


class Watched:
    """Patterns under watch, each with the files beside it that it may take something from.

    Other patterns under watch in the folder do not concern it; `also` names files elsewhere that concern every pattern.
    """

    def __init__(self, files: Sequence[Path], also: Sequence[Path] = ()) -> None:
        self._files = tuple(files)
        self._also = tuple(also)
        self._seen = {file: self._state(file) for file in self._files}

    def has_changed(self) -> bool:
        """Whether a change stands to be looked at."""
        return any(self._state(file) != self._seen[file] for file in self._files)

    def changed(self) -> tuple[Path, ...]:
        """The patterns that changes since the last look concern."""
        now = {file: self._state(file) for file in self._files}
        changed = tuple(file for file in self._files if now[file] != self._seen[file])
        self._seen = now
        return changed

    def wait(self, look_every_s: float = LOOK_EVERY_S) -> tuple[Path, ...]:
        """Wait until something changes; the patterns it concerns."""
        while not (changed := self.changed()):
            time.sleep(look_every_s)
        return changed

    def _state(self, file: Path) -> State:
        """Name, length and time of change of a pattern and of what it may take something from."""
        others = {other.resolve() for other in self._files if other != file}
        beside = (
            path for path in _listed(file.parent) if path.suffix.lower() in BESIDE and path.resolve() not in others
        )
        return tuple(_marks({file, *beside, *self._also}))


def _listed(folder: Path) -> list[Path]:
    try:
        return sorted(folder.iterdir())
    except OSError:  # the folder is being moved about; it is there again in a moment
        return []


def _marks(paths: Iterable[Path]) -> Iterable[tuple[str, int, int]]:
    for path in sorted(paths):
        try:
            stat = path.stat()
        except OSError:  # an editor may replace a file by renaming; it is there again in a moment
            continue
        yield str(path), stat.st_size, stat.st_mtime_ns
