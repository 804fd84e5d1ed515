"""Where a value stands: the keys that lead to it in the data, and its line and column in the file."""

from __future__ import annotations

from collections.abc import Mapping

from slath.notes import Place

Path = tuple[str | int, ...]
Places = Mapping[Path, tuple[Place, Place]]  # of every path, the place of its key and that of its value


def place_of(places: Places, file: str, path: Path, *, at_key: bool = False) -> Place:
    """The place of the value or key at `path`; else that of the key of the nearest thing round it that stands in `file`."""
    while path:
        if path in places:
            return places[path][0 if at_key else 1]
        path, at_key = path[:-1], True
    return Place(file, 1, 1)
