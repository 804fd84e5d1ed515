"""Which patterns have changed since they were last looked at: a pattern, or any other YAML file in its folder."""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from pathlib import Path

LOOK_EVERY_S = 0.2


def changed_files(files: Sequence[Path], look_every_s: float = LOOK_EVERY_S) -> Iterator[tuple[Path, ...]]:
    """Wait for changes without end, and give the patterns each change concerns.

    A workshop file is a YAML file of the pattern's folder too, so a change of any of them concerns every pattern there.
    """
    seen = {file: _state(file) for file in files}
    while True:
        time.sleep(look_every_s)
        changed = []
        for file in files:
            state = _state(file)
            if state != seen[file]:
                seen[file] = state
                changed.append(file)
        if changed:
            yield tuple(changed)


def _state(file: Path) -> tuple[tuple[str, int, int], ...]:
    """Name, size and time of change of the pattern and of the YAML files beside it that are no patterns watched."""
    beside = sorted({file, *file.parent.glob("*workshop*.yaml"), *file.parent.glob("*workshop*.yml")})
    found = []
    for path in beside:
        try:
            stat = path.stat()
        except FileNotFoundError:  # an editor may replace a file by renaming; it is there again in a moment
            continue
        found.append((str(path), stat.st_size, stat.st_mtime_ns))
    return tuple(found)
