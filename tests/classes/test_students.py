"""Students' papers: only their size, colours and hand; nothing of anybody else; nothing the licence withholds."""

from __future__ import annotations

import io
import re
from functools import cache
from html.parser import HTMLParser

import pypdf
import pytest
from tests.classes.made import PATTERNS, prepared

from slath.classes.papers import ClassOptions, papers_of
from slath.classes.prepared import Prepared
from slath.classes.students import STUDENT_EDITIONS
from slath.language import read_pattern
from slath.units.printing import both, inches, millimetres

NAMES = ("Ada", "Ben", "Cerys", "Dilip", "Edith", "Fergus")


@cache
def made() -> tuple[Prepared, dict[str, str]]:
    """A class that asks for every edition, and the words of every paper of its people."""
    editions = (*STUDENT_EDITIONS, "handout")
    people: list[dict[str, object]] = [
        {"name": name, "makes": "weir", "size": "small", "prints": prints}
        for name, prints in zip(NAMES, editions, strict=True)
    ]
    people[1] |= {"size": "large", "colourway": "moss and cream", "left_handed": True}
    people[5] |= {"size": "large", "colourway": "moss and cream"}
    ready = prepared(
        {
            "patterns": {"weir": "weir-field.yaml"},
            "colourways": {"weir": {"moss and cream": {"rust": "moss", "slate": "none"}}},
            "people": people,
            "in_hand": {"rust": "61 ft"},
        }
    )
    files = dict(papers_of(ready, ClassOptions(("papers",)), lambda _: None))
    return ready, {name: words(name, data) for name, data in files.items()}


def words(name: str, data: bytes) -> str:
    """Everything a reader of a file can read or hear, on one line."""
    if name.endswith(".pdf"):
        reader = pypdf.PdfReader(io.BytesIO(data))
        told = " ".join(page.extract_text() for page in reader.pages) + " ".join(alternatives(reader))
    elif name.endswith(".html"):
        parser = _Words()
        parser.feed(data.decode())
        told = " ".join(parser.found)
    else:
        told = data.decode()
    return " ".join(told.replace("\u00a0", " ").split())


def alternatives(reader: pypdf.PdfReader) -> list[str]:
    """The alternative text of every figure."""
    numbers = range(int(str(reader.trailer.raw_get("/Size"))))
    found = [reader.get_object(number) for number in numbers if number]
    return [str(one["/Alt"]) for one in found if isinstance(one, pypdf.generic.DictionaryObject) and "/Alt" in one]


class _Words(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_data(self, data: str) -> None:
        self.found.append(data)

    def handle_starttag(self, _tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [value for name, value in attrs if name in {"alt", "aria-label", "title"} and value]


def test_everybody_has_papers_of_their_own() -> None:
    """One set each, in the edition they need, under a name one can read."""
    _, papers = made()
    endings = [STUDENT_EDITIONS[prints].ending for prints in (*STUDENT_EDITIONS, "handout")]
    expected = {f"people/{name}-{ending}" for name, ending in zip(NAMES, endings, strict=True)}
    assert set(papers) == expected | {f"people/{name}-what-went-wrong.pdf" for name in NAMES}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_of_one_person_is_in_anothers_papers(name: str) -> None:
    """Their own name is on their papers; no other name is, nor another's size, colourway or what the teacher has."""
    _, papers = made()
    own = {file: text for file, text in papers.items() if file.startswith(f"people/{name}-")}
    assert len(own) == 2
    for file, text in own.items():
        assert f"Copy for {name}" in text, file
        assert not [other for other in NAMES if other != name and re.search(rf"\b{other}\b", text)], file
        assert "61 ft" not in text
        large = name in {"Ben", "Fergus"}
        assert ("moss" in text) == large, file
        assert not ("slate-dyed" in text and large), file


def test_each_hand_has_its_own_way_round() -> None:
    """Ben works right to left, Fergus left to right; otherwise they make the same basket."""
    _, papers = made()
    ben, fergus = papers["people/Ben-handout-large-print.pdf"], papers["people/Fergus-handout.pdf"]
    assert "Work to the left" in ben
    assert "Work to the right" not in ben
    assert "Work to the right" in fergus
    assert "Work to the left" not in fergus


def secrets(size: str) -> set[str]:
    """Every length of the cut list of a size, as it may be printed in either unit, so far as the basket has no other
    measure that reads the same.
    """
    ready, _ = made()
    (compiled,) = [one for one in ready.roster.made["weir", ""].sizes if one.name == size] or [
        one for one in ready.roster.made["weir", "moss and cream"].sizes if one.name == size
    ]
    found = compiled.quantities
    told: set[str] = set()
    for piece in found.pieces:
        for mm in (piece.cut_mm.value, piece.needed_mm.value):
            told |= {both(mm), both(mm, "mm"), inches(mm), millimetres(mm)}
    open_measures = [
        found.finished.height, found.finished.along, found.finished.base_length, found.finished.base_width,
        found.finished.rim_length, found.finished.rim_width, found.finished.height_with_handle,
        *(band.along for band in found.bands), *(band.height for band in found.bands),
    ]  # fmt: skip
    for amount in open_measures:
        if amount is not None:
            told -= {both(amount.value), both(amount.value, "mm"), inches(amount.value), millimetres(amount.value)}
    return told


def test_the_pattern_does_withhold_its_cut_list() -> None:
    """Else the next test would look for nothing."""
    assert read_pattern(PATTERNS / "weir-field.yaml").withheld == ("cut list",)
    assert len(secrets("small")) > 20
    assert len(secrets("large")) > 20


@pytest.mark.parametrize("name", NAMES)
def test_what_the_licence_withholds_is_in_no_students_paper(name: str) -> None:
    """No cut length, in no unit, by value: in the handout, large print, bench cards, text, web page, and the page on what
    went wrong, words of figures among them.
    """
    _, papers = made()
    size = "large" if name in {"Ben", "Fergus"} else "small"
    for file, text in papers.items():
        if file.startswith(f"people/{name}-"):
            leaked = {value for value in secrets(size) if f" {value}" in f" {text}".replace("½", "1/2")}
            assert leaked == set(), file
