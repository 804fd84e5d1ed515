"""Units and paper of a booklet where nobody asks for any."""

from __future__ import annotations

from pathlib import Path

import pytest

from slath.booklet.content import booklet_document
from slath.editions import EDITIONS
from slath.output.text import document_text
from slath.pipeline import compile_pattern
from slath.units.printing import First
from slath.work import BuildOptions, Work

PATTERNS = Path(__file__).resolve().parents[2] / "patterns"


@pytest.mark.parametrize(
    ("name", "asked", "rim"),
    [
        ("withy-bed", None, "small: 240 mm (9 1/2 in) across"),
        ("withy-bed", "inches", "small: 9 1/2 in (240 mm) across"),
        ("wren-pot", None, "wren: 3 1/2 in (89 mm) across"),
        ("wren-pot", "mm", "wren: 89 mm (3 1/2 in) across"),
    ],
)
def test_a_booklet_measures_as_its_pattern_does(name: str, asked: First | None, rim: str) -> None:
    """Millimetres first for a pattern written in them, unless the command says otherwise."""
    work = Work(compile_pattern(PATTERNS / f"{name}.yaml"), BuildOptions(units=asked))
    text = " ".join(document_text(booklet_document(work.content, ["cover"])).replace("\u00a0", " ").split())
    assert rim in text


@pytest.mark.parametrize(
    ("vocabulary", "edition", "paper"),
    [
        ("uk", "booklet", "a4"), ("us", "booklet", "letter"), ("uk", "handout", "a4"), ("us", "handout", "letter"),
        ("uk", "fold", "a5"), ("us", "fold", "half-letter"), ("uk", "bench cards", "a5"),
        ("us", "bench cards", "half-letter"),
    ],
)  # fmt: skip
def test_paper_is_that_of_the_readers(vocabulary: str, edition: str, paper: str) -> None:
    """American words come on American paper, British ones on A4 and A5; what is asked for comes first."""
    compilation = compile_pattern(PATTERNS / "wren-pot.yaml")
    assert Work(compilation, BuildOptions(vocabulary=vocabulary)).paper(EDITIONS[edition]) == paper
    if paper in {"a4", "letter"}:
        other = "a4" if paper == "letter" else "letter"
        assert Work(compilation, BuildOptions(vocabulary=vocabulary, paper=other)).paper(EDITIONS[edition]) == other
