"""Every reading edition of every shipped pattern keeps to PDF/UA-1 and its part of PDF/A.

ISO 14289-1:2014, ISO 19005-2:2011 and ISO 19005-3:2012 by the rule sets of the veraPDF engine.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from tests.conformance.engine import missing, required, validate

from slath.booklet.styles import names, shipped
from slath.editions import EDITIONS, BuildOptions, editions_of
from slath.pipeline import Compilation, compile_pattern

PATTERNS = sorted(path for path in Path("patterns").glob("*.yaml") if "workshop" not in path.name)
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


@cache
def compiled(path: Path, size: str = "") -> Compilation:
    """A shipped pattern in all its sizes, or in one."""
    return compile_pattern(path, None, [size] if size else [])


def files(compilation: Compilation, options: BuildOptions) -> dict[str, bytes]:
    """What a build makes, by file name."""
    return dict(editions_of(compilation, options, lambda _: None))


@pytest.mark.parametrize("edition", READ)
@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_editions_of_all_sizes_conform(path: Path, edition: str) -> None:
    """An edition of all sizes in one breaks no rule of access, and none of the archive part it claims."""
    made = files(compiled(path), BuildOptions((edition,)))
    if edition != "sheets":
        assert made
    for data in made.values():
        part = "3a" if edition == "booklet" else "2a"
        for rules in ("ua1", part):
            verdict = validate(data, rules)
            assert verdict.failures == ()
            assert verdict.checks > 1000


@pytest.mark.parametrize("place", range(len(SETTINGS)), ids=lambda place: "-".join(SETTINGS[place]))
def test_booklets_of_single_sizes_conform(place: int) -> None:
    """A booklet of one size in a style and on a paper asked for, in US words, millimetres first, for a left hand, breaks
    no rule: every style on every paper, every pattern in one of its sizes. Of the archive part, which takes five times
    as long and knows no pages, each style is asked on one paper.
    """
    style, paper = SETTINGS[place]
    path = PATTERNS[place % len(PATTERNS)]
    sizes = compiled(path).pattern.sizes
    options = BuildOptions(("booklet",), style, paper, "mm", "us", left_handed=True)
    for data in files(compiled(path, sizes[place % len(sizes)].size), options).values():
        assert validate(data, "ua1").failures == ()
        if paper == shipped(style).paper[0]:
            assert validate(data, "3a").failures == ()
