"""Every reading file keeps to PDF/UA-1 and PDF/A-2a, and the checker is seen to catch files that do not.

ISO 14289-1:2014 and ISO 19005-2:2011 by the rule sets of the veraPDF engine.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache
from io import BytesIO
from typing import Any

import pypdf
import pytest
from PIL import Image
from pypdf.generic import DictionaryObject, NameObject
from reportlab.pdfgen.canvas import Canvas
from tests.booklet.sample import booklet
from tests.conformance.engine import Verdict, missing, numbers_beyond_limits, required, validate
from tests.output.tagged import elements

from slath.booklet.blocks import Block, Document, Figure, Heading, Link, Paragraph, Photograph
from slath.booklet.styles import names, shipped
from slath.output.pdf import Attachment, set_document

SETTINGS = [(name, paper) for name in names() for paper in shipped(name).paper]


@pytest.fixture(autouse=True)
def _engine() -> None:
    """Skip, or fail where the check is required, if the engine is not installed."""
    absent = missing()
    if absent and required():
        pytest.fail(f"the PDF rule sets cannot be checked: {absent}")
    if absent:
        pytest.skip(f"the PDF rule sets are not checked: {absent}")


@pytest.mark.parametrize(("name", "paper"), SETTINGS)
def test_every_style_and_paper_conforms(name: str, paper: str) -> None:
    """The sample booklet breaks no rule, and the engine really looked: thousands of checks by over a hundred rules."""
    data = set_document(booklet(), shipped(name), paper)
    for verdict in validate(data, "ua1", "2a"):
        assert verdict.failures == ()
        assert verdict.checks > 5000
        assert verdict.rules > 100


def test_numbers_beyond_the_limits_are_found() -> None:
    """A number the rules of the archive refuse is refused without the engine as well, and no other (ISO 19005-2, 6.1.13)."""
    assert numbers_beyond_limits(good()) == []
    writer = pypdf.PdfWriter(clone_from=BytesIO(good()))
    contents = writer.pages[2].get_contents()
    assert contents is not None
    contents.set_data(contents.get_data() + b"\n3000000000 w\n")
    writer.pages[2][NameObject("/Contents")] = writer._add_object(contents)
    bad = saved(writer)
    assert numbers_beyond_limits(bad) == [b"3000000000"]
    (whole,), (less,) = validate(bad, "2a"), validate(bad, "2a", numbers=False)
    assert "6.1.13-1" in whole.clauses
    assert "6.1.13-1" not in less.clauses


def test_photographs_and_web_links_conform() -> None:
    """Pictures of every colour space, and links to the web, break no rule."""
    figures = []
    for kind, mode in (("JPEG", "RGB"), ("JPEG", "CMYK"), ("PNG", "RGBA"), ("JPEG", "L")):
        out = BytesIO()
        Image.new(mode, (30, 20)).save(out, kind)
        figures.append(Figure(Photograph(out.getvalue(), "Knot", "A knot."), "A knot"))
    blocks: tuple[Block, ...] = (
        Heading(1, "Photographs"),
        *figures,
        Paragraph(("See ", Link("our page", "https://example.org"), ".")),
    )
    data = set_document(Document("Photographs", blocks, author="Teasel & Reed"), shipped("home"))
    assert [verdict.failures for verdict in validate(data, "ua1", "2a")] == [(), ()]


def found(verdicts: Iterable[Verdict]) -> list[tuple[int, frozenset[str]]]:
    """How many checks were made, and which rules failed: the same in one walk for several rule sets as in one for each."""
    return [(verdict.checks, verdict.clauses) for verdict in verdicts]


def test_a_booklet_with_its_list_attached_conforms_to_part_three() -> None:
    """With the cut list as CSV inside, the file keeps to PDF/A-3a and PDF/UA-1; part 2 would refuse the attachment."""
    listed = Attachment("weir-basket-list.csv", b"part,number\r\nStakes,40\r\n", "text/csv", "The cut list as CSV.")
    data = set_document(booklet(), shipped("booklet"), attached=[listed])
    access, third, second = together = validate(data, "ua1", "3a", "2a")
    assert access.failures == third.failures == ()
    assert second.failures
    assert found(together) == found(validate(data, rules)[0] for rules in ("ua1", "3a", "2a"))
    (held,) = pypdf.PdfReader(BytesIO(data)).attachment_list
    assert (held.name, held.content) == (listed.name, listed.data)


def all_elements(writer: Any, role: str) -> list[DictionaryObject]:
    """All structure elements of a role in a file; there must be some, or breaking them would prove nothing."""
    found = list(elements(writer.root_object["/StructTreeRoot"]["/K"], role))
    assert found
    return found


def no_alternative_text(writer: Any) -> None:
    """Take the words of every figure."""
    for element in all_elements(writer, "/Figure"):
        del element["/Alt"]


def no_language(writer: Any) -> None:
    """Take the language."""
    del writer.root_object["/Lang"]


def no_scope(writer: Any) -> None:
    """Take what says whether a header is of a column or a row."""
    for element in all_elements(writer, "/TH"):
        del element["/A"]


def no_metadata(writer: Any) -> None:
    """Take the XMP."""
    del writer.root_object["/Metadata"]


def no_title_shown(writer: Any) -> None:
    """Take the wish to show the title."""
    del writer.root_object["/ViewerPreferences"]


def no_output_intent(writer: Any) -> None:
    """Take the meaning of the colours."""
    del writer.root_object["/OutputIntents"]


def no_embedded_font(writer: Any) -> None:
    """Take the programs of the fonts."""
    for font in writer.pages[0]["/Resources"]["/Font"].values():
        del font.get_object()["/FontDescriptor"]["/FontFile2"]


def no_unicode(writer: Any) -> None:
    """Take what says which characters the glyphs stand for."""
    for font in writer.pages[0]["/Resources"]["/Font"].values():
        del font.get_object()["/ToUnicode"]


def list_items_lost(writer: Any) -> None:
    """Call list items paragraphs."""
    for element in all_elements(writer, "/LI"):
        element[NameObject("/S")] = NameObject("/P")


def heading_skipped(writer: Any) -> None:
    """Skip a level of headings."""
    for element in all_elements(writer, "/H2"):
        element[NameObject("/S")] = NameObject("/H5")


def no_tab_order(writer: Any) -> None:
    """Take the order of the links."""
    for page in writer.pages:
        del page["/Tabs"]


def links_without_words(writer: Any) -> None:
    """Take the words of the links."""
    for page in writer.pages:
        for annotation in page.get("/Annots", ()):
            del annotation.get_object()["/Contents"]


def words_outside_the_structure(writer: Any) -> None:
    """Mark all artifacts of a page as content that belongs nowhere."""
    page = writer.pages[2]
    contents = page.get_contents()
    assert contents is not None
    stream = contents.get_data()
    assert b"/Artifact" in stream
    contents.set_data(
        stream.replace(b"/Artifact BMC", b"/Span BMC").replace(b"/Artifact <</Type /Pagination>> BDC", b"/Span BMC")
    )
    page[NameObject("/Contents")] = writer._add_object(contents)


BREAKAGES: list[tuple[Callable[[Any], None], str]] = [
    (no_alternative_text, "ua1"), (no_language, "ua1"), (no_scope, "ua1"), (no_metadata, "ua1"), (no_title_shown, "ua1"),
    (no_output_intent, "2a"), (no_embedded_font, "2a"), (no_unicode, "2a"), (list_items_lost, "ua1"),
    (heading_skipped, "ua1"), (no_tab_order, "ua1"), (links_without_words, "ua1"), (words_outside_the_structure, "ua1"),
]  # fmt: skip


def saved(writer: Any) -> bytes:
    """The file as bytes."""
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


@cache
def good() -> bytes:
    """A file that breaks no rule."""
    return set_document(booklet(), shipped("booklet"))


@cache
def unbroken() -> tuple[Verdict, ...]:
    """The same file saved as the broken ones are."""
    return validate(saved(pypdf.PdfWriter(clone_from=BytesIO(good()))), "ua1", "2a")


@pytest.mark.parametrize(("breakage", "rules"), BREAKAGES, ids=lambda value: getattr(value, "__name__", value))
def test_a_broken_file_is_caught(breakage: Callable[[Any], None], rules: str) -> None:
    """Each way of breaking a good file is found, while the same file saved unbroken is not complained of."""
    writer = pypdf.PdfWriter(clone_from=BytesIO(good()))
    assert [verdict.failures for verdict in unbroken()] == [(), ()]
    breakage(writer)
    access, archive = validate(saved(writer), "ua1", "2a")
    assert (access if rules == "ua1" else archive).failures


def test_an_ordinary_pdf_is_caught() -> None:
    """A plain page with words in a standard font, untagged, fails both rule sets on many counts."""
    out = BytesIO()
    canvas = Canvas(out)
    canvas.drawString(100, 700, "Cut 40 stakes")
    canvas.save()
    access, archive = together = validate(out.getvalue(), "ua1", "2a")
    assert found(together) == found(validate(out.getvalue(), rules)[0] for rules in ("ua1", "2a"))
    assert len(access.clauses) >= 5
    assert len(archive.clauses) >= 4
