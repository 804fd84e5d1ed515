"""What holds for every test: Ctrl-C is heard, by this process and by those it starts; what tests share is made once.

A shell that starts a run in the background has it ignore SIGINT, and what is ignored stays ignored in children; the tests
of Ctrl-C would wait for ever.
"""

from __future__ import annotations

import signal
from pathlib import Path

import pytest

signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.hookimpl(tryfirst=True)  # before xdist reads the groups
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests of one module about one pattern, style or stock are run by one worker, which keeps what they share (with
    pytest-xdist's --dist loadgroup).
    """
    for item in items:
        parameters = item.callspec.params if isinstance(item, pytest.Function) and hasattr(item, "callspec") else {}
        about = parameters.get("name", parameters.get("path"))
        if isinstance(about, str | Path):
            item.add_marker(pytest.mark.xdist_group(f"{item.path.stem} {about}"))
