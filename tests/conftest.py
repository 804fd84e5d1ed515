"""What holds for every test: Ctrl-C is heard, by this process and by those it starts; what tests share is made once.

A shell that starts a run in the background has it ignore SIGINT, and what is ignored stays ignored in children; the tests
of Ctrl-C would wait for ever.
"""

from __future__ import annotations

import builtins
import signal
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest
from xdist.scheduler import LoadScopeScheduling

signal.signal(signal.SIGINT, signal.default_int_handler)

_SUM = sum


def _sum_of_no_floats(values: Iterable[Any], /, start: Any = 0) -> Any:
    total = _SUM(values, start)
    if isinstance(total, float) and sys._getframe(1).f_globals.get("__name__", "").startswith("slath."):
        raise AssertionError("add floats with math.fsum: sum() rounds them otherwise from Python 3.12 on")
    return total


# One input gives the same bytes on every Python, so no test may see the package add floats as only some of them do.
builtins.sum = _sum_of_no_floats


SHIPPED = {path.stem.partition("-")[0] for path in (Path(__file__).parents[1] / "patterns").glob("*.yaml")}


# All of such a file share what takes half a minute to make, or a Java runtime. Begun first, as is the longest single
# test, so that none is left running alone at the end.
TOGETHER = ("tests/classes/test_students.py", "tests/conformance/test_class_papers.py")
LONG = ("tests/house/test_documentation.py::test_every_command_does_what_it_is_said_to", *TOGETHER)


class ByParameter(LoadScopeScheduling):  # type: ignore[misc]
    """Gives tests to workers: those of one file whose first parameters begin with the same word go to one worker, which
    keeps what they share; so do all about one shipped pattern, in whatever file, for its booklets are long in the making.
    """

    def _assign_work_unit(self, node: object) -> None:
        first = next((scope for scope in LONG if scope in self.workqueue), None)
        if first:
            self.workqueue.move_to_end(first, last=False)
        super()._assign_work_unit(node)

    def _split_scope(self, nodeid: str) -> str:
        file, _, test = nodeid.partition("::")
        if file in TOGETHER:
            return file
        _, bracket, parameters = test.partition("[")
        first = parameters.partition("-")[0].removesuffix("]")
        if first in SHIPPED:
            return first
        return f"{file} {first}" if bracket else nodeid


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: object) -> ByParameter:
    """How pytest-xdist shares out the tests."""
    return ByParameter(config, log)
