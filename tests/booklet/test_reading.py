"""Words taken apart: fractions found, measures held together, nothing lost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from slath.booklet.blocks import Chip, Emphasis, Link, Measure, Strong, Term, TickBox
from slath.booklet.reading import Run, bound, fraction_parts, plain, runs

NBSP = "\u00a0"


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("16 3/8 in", f"16{NBSP}3⁄8{NBSP}in"),
        ("16⅜ in", f"16{NBSP}3⁄8{NBSP}in"),
        ("½ in", f"1⁄2{NBSP}in"),
        ("11/32 in", f"11⁄32{NBSP}in"),
        ("415 mm", f"415{NBSP}mm"),
        ("9 1/2 × 5 in", f"9{NBSP}1⁄2{NBSP}×{NBSP}5{NBSP}in"),
        ("see step 3", f"see step{NBSP}3"),
        (
            "9 1/2, 11 or 12 3/4 in (241, 279 or 324 mm) long",
            f"9{NBSP}1⁄2, 11{NBSP}or{NBSP}12{NBSP}3⁄4{NBSP}in (241, 279{NBSP}or{NBSP}324{NBSP}mm) long",
        ),
        ("14, 18 or 20 whole rounds", "14, 18 or 20 whole rounds"),
        ("and/or", "and/or"),
        ("1/2 of the stakes", "1/2 of the stakes"),
        ("5 inside", "5 inside"),
        ("the maker's mark,\n  twice", "the maker’s mark, twice"),
    ],
)
def test_measures_in_running_words_are_found(said: str, read: str) -> None:
    """A number stays with its unit, fractions before units, in brackets and mixed numbers are fractions; other words stay."""
    assert bound(said) == read


def test_a_measure_never_breaks_and_all_its_fractions_are_set() -> None:
    """In a `Measure` every space is a no-break space and every fraction has a fraction slash."""
    assert plain(Measure("3/4 of 5 1/2 in")) == f"3⁄4{NBSP}of{NBSP}5{NBSP}1⁄2{NBSP}in"


def test_looks_nest_and_links_lead() -> None:
    """Emphasis inside strong words is both; a term leads to its place in the glossary."""
    words = (Strong(("a", Emphasis("b"))), Term("wale", "wale"), Link("c", "https://example.org"), Link("d", "part"))
    found = [run for run in runs(words) if isinstance(run, Run)]
    assert (found[1].strong, found[1].emphasis) == (True, True)
    assert [run.target for run in found[2:]] == ["#wale", "https://example.org", "#part"]
    assert plain(words) == "abwalecd"


def test_boxes_and_patches_read_as_text() -> None:
    """A box to tick reads as one; a patch of colour reads as its letter."""
    assert plain((TickBox(), Chip("#123456", "B"))) == "☐ B"


def test_a_patch_stays_with_the_name_it_follows() -> None:
    """A line may not end between the name of a strand and its patch; after a comma or a semicolon it may."""
    patch = Chip("#123456", "B")
    assert plain(("one rust ", patch, ", two ", patch)) == f"one rust{NBSP}B, two{NBSP}B"
    assert plain(("63 ft; ", patch)) == f"63{NBSP}ft; B"


@given(st.integers(1, 99), st.integers(1, 99), st.integers(2, 99))
def test_any_fraction_is_taken_apart(whole: int, upper: int, lower: int) -> None:
    """Whole number, gap, numerator, denominator: whatever the numbers."""
    parts = list(fraction_parts(bound(f"{whole} {upper}/{lower} in")))
    assert parts == [
        ("text", str(whole), ""),
        ("gap", "", ""),
        ("fraction", str(upper), str(lower)),
        ("text", f"{NBSP}in", ""),
    ]


@given(st.text(alphabet="ab 1/23½×in,mm°.", max_size=40))
def test_binding_only_touches_spaces_and_fractions(text: str) -> None:
    """Whatever the words, binding changes nothing but the kind of its spaces and the way fractions are written."""

    def bare(words: str) -> str:
        return words.replace("½", "1/2").replace("⁄", "/").replace(NBSP, "").replace(" ", "")

    assert bare(bound(text)) == bare(text)
