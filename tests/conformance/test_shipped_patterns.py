"""Every reading edition of every shipped pattern keeps to PDF/UA-1 and its part of PDF/A.

ISO 14289-1:2014, ISO 19005-2:2011 and ISO 19005-3:2012 by the rule sets of the veraPDF engine.
"""

from __future__ import annotations

import os

import pytest
from tests.booklet.shipped_patterns import NAMES, PAPERS, PATTERNS, compiled, work
from tests.conformance.engine import missing, numbers_beyond_limits, required, validate

from slath.booklet.styles import names, shipped
from slath.editions import EDITIONS, editions_of
from slath.pipeline import compile_pattern
from slath.work import BuildOptions

# Imposed files are for paper only: they carry no structure and claim none.
IMPOSED = {"fold", "two up", "press", "press cmyk"}
SETTINGS = [(name, paper) for name in names() for paper in shipped(name).paper]
READ = [name for name, edition in EDITIONS.items() if edition.paged and name not in IMPOSED]


@pytest.fixture(autouse=True)
def _engine() -> None:
    absent = missing()
    if absent and required():
        pytest.fail(f"the PDF rule sets cannot be checked: {absent}")
    if absent:
        pytest.skip(f"the PDF rule sets are not checked: {absent}")


def failures(data: bytes, *rule_sets: str) -> tuple[str, ...]:
    """What breaks a rule of these sets, once the engine is seen to have looked."""
    assert not numbers_beyond_limits(data)
    verdicts = validate(data, *rule_sets, numbers=False)
    assert min(verdict.checks for verdict in verdicts) > 1000
    return tuple(failure for verdict in verdicts for failure in verdict.failures)


def editions() -> list[tuple[str, str]]:
    """Pattern and edition of the files to check: every pattern in two editions and every edition of two patterns or more,
    the next of them each time; or all there are, where SLATH_EVERY_BOOKLET is set.
    """
    if os.environ.get("SLATH_EVERY_BOOKLET"):
        return [(name, edition) for name in NAMES for edition in READ]
    longer = max(len(NAMES), len(READ))
    return [(NAMES[place % len(NAMES)], READ[(place + turn) % len(READ)]) for place in range(longer) for turn in (0, 3)]


@pytest.mark.parametrize(("name", "edition"), editions())
def test_editions_of_all_sizes_conform(name: str, edition: str) -> None:
    """An edition of all sizes in one breaks no rule of access, and none of the archive part it claims."""
    made = dict(EDITIONS[edition].make(work(name, PAPERS.get(edition, "")), EDITIONS[edition]))
    if edition != "sheets":
        assert made
    for data in made.values():
        assert failures(data, "ua1", "3a" if edition == "booklet" else "2a") == ()


def single_sizes() -> list[tuple[str, str, str, str]]:
    """Pattern, size, style and paper of the booklets to check: every style on every paper, each with the next pattern in
    the next of its sizes; or all there are, which takes most of an hour, where SLATH_EVERY_BOOKLET is set.
    """
    sizes = {name: [sized.size for sized in compiled(name).pattern.sizes] for name in NAMES}
    if os.environ.get("SLATH_EVERY_BOOKLET"):
        return [(name, size, *setting) for name in NAMES for size in sizes[name] for setting in SETTINGS]
    chosen = [(NAMES[place % len(NAMES)], place) for place in range(len(SETTINGS))]
    return [(name, sizes[name][place % len(sizes[name])], *SETTINGS[place]) for name, place in chosen]


@pytest.mark.parametrize(("name", "size", "style", "paper"), single_sizes())
def test_booklets_of_single_sizes_conform(name: str, size: str, style: str, paper: str) -> None:
    """A booklet of one size in a style and on a paper asked for, in US words, millimetres first, for a left hand, breaks
    no rule.
    """
    one = compile_pattern(PATTERNS / f"{name}.yaml", None, [size])
    options = BuildOptions(("booklet",), style, paper, "mm", "us", left_handed=True)
    for _, data in editions_of(one, options, lambda _text: None):
        assert failures(data, "ua1", "3a") == ()
