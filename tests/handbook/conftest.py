"""Prints the table of published baskets after the handbook tests have run."""

from __future__ import annotations

import pytest
from tests.handbook.books import table


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """One line a basket, where its tests were among those run."""
    reports = [report for kind in ("passed", "failed") for report in terminalreporter.stats.get(kind, [])]
    if any("handbook" in report.nodeid and "test_counts" in report.nodeid for report in reports):
        terminalreporter.section("published baskets, printed and worked out")
        for line in table():
            terminalreporter.write_line(line)
