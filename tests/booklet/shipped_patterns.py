"""The patterns that come with slath, worked out and drawn once for all tests that set them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from slath.drawing.kept import KeptFigures
from slath.pipeline import Compilation, compile_pattern
from slath.work import BuildOptions, Work

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"
NAMES = tuple(path.stem for path in sorted(PATTERNS.glob("*.yaml")) if "." not in path.stem)
# Editions with the paper each is tested on: wide and narrow, small type and large.
PAPERS = {"booklet": "letter", "fold": "a5", "handout": "a4", "large print": "letter", "bench cards": "a5"}


@cache
def compiled(name: str) -> Compilation:
    """One shipped pattern in all its sizes."""
    return compile_pattern(PATTERNS / f"{name}.yaml")


@cache
def _figures(name: str) -> KeptFigures:
    """What has been drawn of one pattern, on any paper."""
    del name  # each has its own
    return KeptFigures()


@cache
def work(name: str, paper: str = "", vocabulary: str = "uk") -> Work:
    """One shipped pattern, ready for its editions."""
    return Work(compiled(name), BuildOptions(paper=paper, vocabulary=vocabulary), kept=_figures(name))
