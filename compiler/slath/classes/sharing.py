"""The papers of a class made by one process for each core, where a process can be started as a copy of this one."""

from __future__ import annotations

import gc
import signal
import warnings
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Future, ProcessPoolExecutor
from multiprocessing import active_children, get_context

from slath.hands import COPIED, cores
from slath.work import Tell

Made = list[tuple[str, bytes]]
Make = Callable[[str], Made]

FEWEST = 3  # under this the start of a process costs more than it saves


class Shared:
    """Tasks at work from the moment this is made, where that is worth it; else each is done when it is asked for.

    Make it before any thread is started: a thread may hold a lock just as its process is copied.
    """

    def __init__(self, tasks: Sequence[str], make: Make) -> None:
        self.tasks = tuple(tasks)
        self._make = make
        self._pool: ProcessPoolExecutor | None = None
        self._coming: dict[str, Future[Made]] = {}
        if COPIED and cores() > 1 and len(self.tasks) >= FEWEST:
            self._pool = ProcessPoolExecutor(min(cores(), len(tasks)), get_context("fork"), _begin, (make,))
            with warnings.catch_warnings():  # Python 3.12 counts threads of numpy's that wait for work and hold no lock
                warnings.filterwarnings("ignore", "This process .* is multi-threaded", DeprecationWarning)
                self._coming = {task: self._pool.submit(_made, task) for task in tasks}

    def all(self, tell: Tell) -> Iterator[tuple[str, bytes]]:
        """What is made of every task, in the order of the tasks; `tell` is told of each as it is waited for."""
        try:
            for task in self.tasks:
                tell(task)
                yield from self._of(task)
        except BaseException:  # Ctrl-C, or a fault that makes the rest worthless
            for process in active_children() if self._pool else ():
                process.terminate()
            raise
        finally:
            if self._pool:
                self._pool.shutdown(cancel_futures=True)

    def _of(self, task: str) -> Made:
        if task not in self._coming:
            return self._make(task)
        try:
            return self._coming[task].result()
        except BrokenExecutor:  # a process was ended from outside, for want of memory perhaps; this one goes on
            return self._make(task)


_own: list[Make] = []  # what a process that was started here makes papers with


def _begin(make: Make) -> None:
    """Ctrl-C reaches every process: this one ends without a word, and the one the user started says what there is to say."""
    for name in (signal.SIGINT, signal.SIGTERM):
        signal.signal(name, signal.SIG_DFL)
    gc.disable()  # as in the first
    _own[:] = [make]


def _made(task: str) -> Made:
    (make,) = _own
    return make(task)
