"""The web page: one file, semantic, nothing fetched, every link and label resolved."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from tests.booklet.sample import booklet
from tests.booklet.test_styles import contrast

from slath.booklet.blocks import Column, Document, Row, Table
from slath.booklet.reading import plain
from slath.output.html import document_html
from slath.output.html_script import SCRIPT
from slath.output.html_style import STYLE

VOID = {"meta", "input", "img", "br", "link", "hr"}


class Reader(HTMLParser):
    """Reads a page strictly: every element closed in order."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.feed(page)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Open an element."""
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element of SVG closed at once."""
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        """Close the element opened last, and no other."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Words."""
        if self.open and self.open[-1] not in {"style", "desc", "title"}:
            self.words.append(data)

    def named(self, *tags: str) -> list[dict[str, str | None]]:
        """Attributes of all elements of these names."""
        return [attributes for tag, attributes in self.elements if tag in tags]


@pytest.fixture(scope="module")
def page() -> Reader:
    """The sample as a page."""
    return Reader(document_html(booklet()))


def test_the_page_fetches_nothing(page: Reader) -> None:
    """No script, style sheet, font or picture comes from elsewhere, and the script of the page sends and fetches nothing."""
    assert not page.named("link", "iframe")
    assert all("src" not in attributes for attributes in page.named("script"))
    assert not re.search(r"fetch|XMLHttpRequest|sendBeacon|WebSocket|import|https?:", SCRIPT)
    assert "url(" not in STYLE
    assert "@import" not in STYLE
    for attributes in page.named("img"):
        assert (attributes["src"] or "").startswith("data:")


def test_identifiers_are_unique_and_links_lead_somewhere(page: Reader) -> None:
    """Each id is given once; each link inside the page, and each label, has its target."""
    identities = [attributes["id"] for _, attributes in page.elements if attributes.get("id")]
    assert len(set(identities)) == len(identities) > 10
    inner = [attributes["href"] or "" for attributes in page.named("a") if (attributes["href"] or "").startswith("#")]
    assert len(inner) > 8
    assert all(link[1:] in identities for link in inner)
    labels = [attributes["for"] for attributes in page.named("label") if attributes.get("for")]
    assert all(label in identities for label in labels)


def test_the_page_is_semantic(page: Reader) -> None:
    """Language, one first heading, levels never skipped, tables with caption and scopes, named fields (WCAG 2.2, 1.3.1)."""
    assert page.named("html")[0]["lang"] == "en-GB"
    levels = [int(tag[1]) for tag, _ in page.elements if re.fullmatch(r"h[1-6]", tag)]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert all(attributes.get("scope") for attributes in page.named("th"))
    assert len(page.named("main")) == 1
    for attributes in page.named("input"):
        if attributes["type"] == "text":
            assert attributes.get("aria-label")


def test_every_figure_is_told_in_words(page: Reader) -> None:
    """Every drawing has a title and a description, and its words can also be read on the page."""
    drawings = page.named("svg")
    assert len(drawings) == 6
    assert all(attributes["role"] == "img" for attributes in drawings)
    assert len(page.named("desc")) == len(drawings) == len(page.named("details"))
    assert "Three strands, lettered A, B and C" in " ".join(page.words)


def test_all_words_are_there(page: Reader) -> None:
    """What the steps say is on the page, fractions as fractions."""
    text = re.sub(r"[\s\u00a0]+", " ", "".join(page.words))
    for said in ("every arm measures 4 3⁄4 in from the middle.", "20 ends, two stakes each: 40 stakes.", "19 7⁄8 in"):
        assert said in text
    assert plain("A round basket in reed") in text


def test_colours_keep_level_aa() -> None:
    """Light or dark, words have at least 4.5:1 on the page and on tinted boxes, the ring round what has the focus 3:1
    (WCAG 2.2, 1.4.3 and 1.4.11).
    """
    schemes = [dict(re.findall(r"--(\w+):(#[0-9a-f]{6})", part)) for part in STYLE.split("prefers-color-scheme:dark")]
    assert [set(scheme) for scheme in schemes] == [set(schemes[0])] * 2
    for colours in schemes:
        for ground in ("paper", "tint"):
            assert all(contrast(colours[name], colours[ground]) >= 4.5 for name in ("ink", "accent", "quiet"))
            assert contrast(colours["focus"], colours[ground]) >= 3


def test_the_heading_of_a_group_heads_its_own_rows() -> None:
    """Each group of rows is a body of its own, so that its heading is said with no other rows (HTML, scope=rowgroup)."""
    rows = (Row(("Small",), "group"), Row(("Stakes", "13 in")), Row(("Large",), "group"), Row(("Stakes", "16 in")))
    table = Table("Pieces", (Column("Part", row_header=True), Column("Cut to")), rows)
    bodies = re.findall(r"<tbody>(.*?)</tbody>", document_html(Document("t", (table,))), re.DOTALL)
    assert [body.count('scope="rowgroup"') for body in bodies] == [1, 1]
    assert ["Small" in bodies[0], "Large" in bodies[0]] == [True, False]


def test_the_same_document_gives_the_same_page() -> None:
    """Writing twice gives the same characters."""
    assert document_html(booklet()) == document_html(booklet())
