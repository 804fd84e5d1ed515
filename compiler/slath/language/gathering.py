"""Notes of several sizes gathered: what is said of every size alike is said once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from slath.notes import Note


def gathered(by_size: Sequence[Iterable[Note]], others: Iterable[Note], sizes: Sequence[str]) -> list[Note]:
    """The notes of each size and `others`, those alike in every size kept once and without a size."""
    told: dict[Note, list[str]] = {}
    for size, notes in zip(sizes, by_size, strict=True):
        for note in notes:
            seen = told.setdefault(replace(note, size=""), [])
            if size not in seen:
                seen.append(size)
    joined = [
        replace(note, size=size) for note, seen in told.items() for size in ([""] if len(seen) == len(sizes) else seen)
    ]
    return list(dict.fromkeys([*joined, *others]))
