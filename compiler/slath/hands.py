"""Many editions made at once, by one process for each core."""

from __future__ import annotations

import gc
import os
import signal
import sys
import warnings
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor
from functools import partial
from multiprocessing import active_children, get_context, parent_process
from pathlib import Path

from slath.editions import EDITIONS, editions_to_make
from slath.pipeline import compile_pattern
from slath.work import BuildOptions, Tell, Work

Made = list[tuple[str, bytes]]

_PR_SET_PDEATHSIG = 1
FEWEST_EDITIONS = 4  # under this the start of a process costs more than it saves
# Where a process can be started as a copy of this one, it has read, worked out and told everything from the start.
# Elsewhere (macOS forbids it to its own libraries) every process reads the pattern for itself.
COPIED = sys.platform == "linux"


def worth_sharing(work: Work) -> bool:
    """Whether there are hands enough, and enough for them to do."""
    return cores() > 1 and len(editions_to_make(work)) >= FEWEST_EDITIONS


class Hands:
    """Processes at work on the editions of one compilation, from the moment this is made.

    `file`, `workshop` and `sizes` are what `work` was compiled from. Make it before any thread is started: a thread may
    hold a lock just as its process is copied.
    """

    def __init__(self, work: Work, file: Path, workshop: Path | None, sizes: tuple[str, ...]) -> None:
        self._work = work
        tasks = _tasks(editions_to_make(work))
        give = partial(_read, file, workshop, sizes, work.compilation.pattern.variant, work.options)
        if COPIED:
            work.prepare()
            give = partial(_same, work)
        self._pool = ProcessPoolExecutor(
            min(cores(), len(tasks)), get_context("fork" if COPIED else "spawn"), _begin, (give,)
        )
        self._coming: dict[str, Future[dict[str, Made]]] = {}
        with warnings.catch_warnings():  # Python 3.12 counts threads of numpy's that wait for work and hold no lock
            warnings.filterwarnings("ignore", "This process .* is multi-threaded", DeprecationWarning)
            for names in tasks:
                self._coming |= dict.fromkeys(names, self._pool.submit(_made, names))

    def editions(self, tell: Tell) -> Iterator[tuple[str, bytes]]:
        """What `editions_of` gives, in the same order and byte for byte the same. Raises what `editions_of` raises."""
        try:
            for name in editions_to_make(self._work):
                tell(name)
                try:
                    yield from self._coming[name].result()[name]
                except BrokenExecutor:  # a process was ended from outside, for want of memory perhaps; this one goes on
                    yield from EDITIONS[name].make(self._work, EDITIONS[name])
        except BaseException:  # Ctrl-C, or a fault that makes the other editions worthless
            for process in active_children():
                process.terminate()
            raise
        finally:
            self._pool.shutdown(cancel_futures=True)


def _tasks(names: Sequence[str]) -> list[tuple[str, ...]]:
    """Editions to be made by one process after another, the longest first, so that no core is left with a long one at
    the end. Those without pages show the same figures and are made together.
    """
    together = tuple(name for name in names if not EDITIONS[name].paged)
    return [*([together] if together else []), *((name,) for name in names if name not in together)]


def cores() -> int:
    """How many processes can work at once."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


_own: list[Work] = []  # what a process that was started here works on


def _begin(give: Callable[[], Work]) -> None:
    """Ctrl-C reaches every process: this one ends without a word, and the one the user started says what there is to say."""
    for name in (signal.SIGINT, signal.SIGTERM):
        signal.signal(name, signal.SIG_DFL)
    _end_with_the_first()
    gc.disable()  # as in the first
    _own[:] = [give()]


def _end_with_the_first() -> None:
    """Have the system end this process when the one that started it is gone, however it went: a killed process can tell
    nobody, and this one would wait for work for ever. Linux alone has this (prctl(2), PR_SET_PDEATHSIG).
    """
    if sys.platform == "linux":
        import ctypes  # noqa: PLC0415

        ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
        first = parent_process()
        if first is not None and first.pid != os.getppid():  # gone before it was asked
            os._exit(1)


def _same(work: Work) -> Work:
    return work


def _read(file: Path, workshop: Path | None, sizes: tuple[str, ...], variant: str, options: BuildOptions) -> Work:
    return Work(compile_pattern(file, workshop, sizes, variant, options.language), options)


def _made(names: tuple[str, ...]) -> dict[str, Made]:
    (work,) = _own
    return {name: list(EDITIONS[name].make(work, EDITIONS[name])) for name in names}
