"""Many editions made at once, by one process for each core."""

from __future__ import annotations

import gc
import os
import signal
from collections.abc import Iterator
from concurrent.futures import BrokenExecutor, ProcessPoolExecutor
from functools import cache
from multiprocessing import get_context
from pathlib import Path

from slath.editions import EDITIONS, BuildOptions, Work, editions_to_make
from slath.pipeline import compile_pattern

FEWEST_EDITIONS = 4  # under this the start of a process, half a second, costs more than it saves
LONGEST_FIRST = ("figures", "booklet", "fold")  # so that no core is left with a long one at the end


def worth_sharing(work: Work) -> bool:
    """Whether there are hands enough, and enough for them to do."""
    return _cores() > 1 and len(editions_to_make(work)) >= FEWEST_EDITIONS


def editions_by_many(work: Work, file: Path, workshop: Path | None, sizes: tuple[str, ...]) -> Iterator[tuple[str, bytes]]:
    """What `editions_of` gives, in the same order and byte for byte the same, each edition made where a core is free.

    `file`, `workshop` and `sizes` are what `work` was compiled from: every process reads them for itself. Raises what
    `editions_of` raises.
    """
    names = editions_to_make(work)
    order = sorted(names, key=lambda name: LONGEST_FIRST.index(name) if name in LONGEST_FIRST else len(LONGEST_FIRST))
    pool = ProcessPoolExecutor(min(_cores(), len(names)), get_context("spawn"), _begin)
    try:
        coming = {name: pool.submit(_made, name, file, workshop, sizes, work.options) for name in order}
        for name in names:
            work.tell(name)
            try:
                yield from coming[name].result()
            except BrokenExecutor:  # a process was ended from outside, for want of memory perhaps; this one goes on
                yield from EDITIONS[name].make(work, EDITIONS[name])
    finally:
        pool.shutdown(cancel_futures=True)


def _cores() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _begin() -> None:
    """Ctrl-C reaches every process; the one the user started says so, and ends the others when their edition is made."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.disable()  # as in the first


@cache
def _work(file: Path, workshop: Path | None, sizes: tuple[str, ...], options: BuildOptions) -> Work:
    return Work(compile_pattern(file, workshop, sizes), options)


def _made(
    name: str, file: Path, workshop: Path | None, sizes: tuple[str, ...], options: BuildOptions
) -> list[tuple[str, bytes]]:
    return list(EDITIONS[name].make(_work(file, workshop, sizes, options), EDITIONS[name]))
