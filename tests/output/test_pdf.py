"""The written PDF: the same every time, read right by others, every piece in the structure."""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pytest
from msgspec.structs import replace
from PIL import Image
from tests.booklet.sample import basket, booklet
from tests.output.tagged import elements

from slath.booklet.blocks import (
    Block,
    Column,
    Document,
    Figure,
    Heading,
    Link,
    Measure,
    Paragraph,
    Photograph,
    Row,
    Section,
    Table,
)
from slath.booklet.flow import lay_out
from slath.booklet.laid import Drawing, Glyphs, Mark, Page
from slath.booklet.reading import plain
from slath.booklet.styles import names, shipped
from slath.output.pdf import UntaggedContentError, set_document, write_pdf

SETTINGS = [(name, paper) for name in names() for paper in shipped(name).paper]
SCRIPT = (
    "import hashlib, sys; from tests.booklet.sample import booklet; from slath.booklet.styles import shipped; "
    "from slath.output.pdf import set_document; "
    "print(hashlib.sha256(set_document(booklet(), shipped('booklet'))).hexdigest())"
)


def read(data: bytes) -> Any:
    """Open with pypdf, whose objects say nothing of what they hold."""
    return pypdf.PdfReader(BytesIO(data))


def pypdf_text(data: bytes) -> str:
    """All words as pypdf reads them."""
    return "\n".join(page.extract_text() for page in read(data).pages)


def pdfium_text(data: bytes) -> str:
    """All words as PDFium reads them."""
    document = pypdfium2.PdfDocument(data)
    return "\n".join(document[index].get_textpage().get_text_range() for index in range(len(document)))


def as_one(text: str) -> str:
    """Words on one line, hyphenated words joined again."""
    text = re.sub(r"[\u00ad\ufffe]\s*", "", text)  # PDFium reads a soft hyphen at a line's end as U+FFFE
    return re.sub(r"\s+", " ", text.replace("\u00a0", " "))


@pytest.mark.parametrize("seed", ["0", "1", "random"])
def test_the_same_content_gives_the_same_bytes(seed: str, tmp_path: Path) -> None:
    """Other processes, hash seeds, time zones, clocks, languages of the machine and folders change nothing."""
    root = Path(__file__).parents[2]
    environment = {
        **os.environ, "PYTHONHASHSEED": seed, "TZ": "Pacific/Auckland", "SOURCE_DATE_EPOCH": "1", "LC_ALL": "C",
        "PYTHONPATH": f"{root / 'compiler'}{os.pathsep}{root}",
    }  # fmt: skip
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT], env=environment, cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == hashlib.sha256(set_document(booklet(), shipped("booklet"))).hexdigest()


def test_different_content_has_a_different_identifier() -> None:
    """Two documents of one title and date never share a file identifier, as one of a pair copied over another would."""
    first = Document("t", (Paragraph("Cut 40 stakes."),))
    second = Document("t", (Paragraph("Cut 41 stakes."),))
    identities = [
        read(set_document(each, shipped("home"))).trailer["/ID"][0].original_bytes for each in (first, second)
    ]
    assert identities[0] != identities[1]


@pytest.mark.parametrize(("name", "paper"), SETTINGS)
def test_two_readers_find_the_same_words(name: str, paper: str) -> None:
    """Words do not run together; fractions, hyphens and units survive, for pypdf and for PDFium alike."""
    data = set_document(booklet(), shipped(name), paper)
    for text in (as_one(pypdf_text(data)), as_one(pdfium_text(data))):
        for said in (
            "Lay the stick on a board and push the blade away from the holding hand; never slit towards a finger.",
            "slit each for 7⁄8 in.",
            "every arm measures 4 3⁄4 in from the middle.",
            "until the base measures 9 1⁄2 in (241 mm) across",
            "19 7⁄8 in",
            "8 3⁄16 in",
            "40 = 3 × 13 + 1",
        ):
            assert said in text, (name, paper, said)


def test_every_number_of_the_cut_list_is_in_the_text() -> None:
    """Number for number: what the table was given is what both readers find, row by row."""
    document = booklet()
    sections = [block for block in document.blocks if isinstance(block, Section)]
    tables = [block for section in sections for block in section.blocks if isinstance(block, Table)]
    table = next(each for each in tables if each.anchor == "table-cut")
    data = set_document(document, shipped("home"))
    for text in (as_one(pypdf_text(data)), as_one(pdfium_text(data))):
        for row in table.rows:
            assert " ".join(plain(cell).replace("\u00a0", " ") for cell in row.cells) in text


def test_a_word_linked_twice_is_read_twice_in_its_place() -> None:
    """Each link of a paragraph is an element of its own, read where it stands; one that runs over a line's end stays one."""
    stakes, long = (
        Link("stakes", "words"),
        Link("the words that are used all through this booklet, and in the handouts, and nowhere else", "words"),
    )
    words = ("Set two ", stakes, " at each of sixteen ends and one at each of six: 38 ", stakes, ". See ", long, ".")
    laid = lay_out(Document("t", (Heading(1, "Words", anchor="words"), Paragraph(words))), shipped("booklet"))
    order = [mark.node for page in laid.pages for mark in page.marks if mark.node and mark.node.role == "Link"]
    read_as: dict[int, str] = {}
    for page in laid.pages:
        for mark in page.marks:
            if mark.node in order:
                read_as.setdefault(id(mark.node), "")
                read_as[id(mark.node)] += "".join(item.text for item in mark.items if isinstance(item, Glyphs))
    assert list(read_as.values()) == [
        "stakes",
        "stakes",
        "the words that are used all through this booklet, and in the handouts, and nowhere else",
    ]
    assert len(order) == 4


def test_a_cell_names_the_heading_of_its_group() -> None:
    """Under the heading of a group a cell names its column, its group and its row; each name is found in the name tree."""
    columns = (Column("Part", row_header=True), Column("Cut to"))
    rows = (Row(("Small",), "group"), Row(("Stakes", "13 in")), Row(("Large",), "group"), Row(("Stakes", "16 in")))
    data = set_document(Document("t", (Table("Pieces", columns, rows),)), shipped("home"))
    root = read(data).root_object["/StructTreeRoot"]
    names = root["/IDTree"]["/Names"]
    assert names[::2] == sorted(names[::2])
    cells = [element for body in elements(root["/K"], "/TBody") for element in elements(body, "/TD")]
    known = dict(zip(names[::2], names[1::2], strict=True))
    assert len(list(elements(root["/K"], "/TBody"))) == 2
    for cell, group in zip(cells, (0, 1), strict=True):
        column, over, row = (known[name].get_object() for name in cell["/A"]["/Headers"])
        assert column["/A"]["/Scope"] == "/Column"
        assert over["/A"]["/ColSpan"] == 2
        assert over == list(elements(root["/K"], "/TBody"))[group]["/K"][0]["/K"]
        assert row["/A"]["/Scope"] == "/Row"


def test_words_of_figures_are_read_once() -> None:
    """The halo around a label is painted, yet the label is found once."""
    text = pypdf_text(set_document(booklet(), shipped("home")))
    assert text.count("5 through 5") == 2  # once in each of two figures
    assert "5 through 55" not in text


def test_content_outside_the_structure_is_refused() -> None:
    """Words or drawings that belong to no element raise an error instead of becoming artifacts."""
    laid = lay_out(Document("t", (Paragraph("Words."),)), shipped("home"))
    lost = Glyphs(100, 100, "lost", "serif", 10, "#000000", 20)
    for item in (lost, Drawing(10, 10, basket(20))):
        page = Page(1, (*laid.pages[0].marks, Mark(None, (item,))))
        with pytest.raises(UntaggedContentError):
            write_pdf(replace(laid, pages=(page,)))


def test_the_file_says_what_it_is() -> None:
    """Title, author, language, dates of the edition, tagging and the title shown in the window bar."""
    reader = read(set_document(booklet(), shipped("home")))
    root = reader.root_object
    assert reader.metadata is not None
    assert reader.metadata.title == "Weir Basket, medium"
    assert reader.metadata.author == "Teasel & Reed (invented)"
    assert reader.metadata.creation_date is not None
    assert reader.metadata.creation_date.date() == booklet().date
    assert root["/Lang"] == "en-GB"
    assert root["/MarkInfo"]["/Marked"] is True or str(root["/MarkInfo"]["/Marked"]).lower() == "true"
    assert str(root["/ViewerPreferences"]["/DisplayDocTitle"]).lower() == "true"
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"  # the sample holds a full-size figure


def test_bookmarks_lead_to_the_headings() -> None:
    """The outline holds every heading, nested, and each leads to the page the heading lies on."""
    reader = read(set_document(booklet(), shipped("booklet")))
    titles: list[tuple[str, int]] = []

    def walk(entries: list[Any], depth: int) -> None:
        for entry in entries:
            if isinstance(entry, list):
                walk(entry, depth + 1)
            else:
                page = reader.get_destination_page_number(entry)
                titles.append((str(entry["/Title"]), depth))
                assert page is not None
                assert str(entry["/Title"]) in reader.pages[page].extract_text()

    walk(reader.outline, 0)
    assert ("Making the basket", 0) in titles
    assert ("The border", 1) in titles


def test_links_lead_where_they_say() -> None:
    """A link to an anchor has its page as destination, a web address its address, both with words that describe them."""
    blocks: tuple[Block, ...] = (
        Heading(1, "One"), Paragraph(("See ", Link("the border", "border"), " and ", Link("a page", "https://example.org/a"), ".")),
        *(Paragraph("Filler. " * 60) for _ in range(12)), Heading(1, "The border", "border"),
    )  # fmt: skip
    reader = read(set_document(Document("t", blocks), shipped("booklet")))
    annotations = [annotation.get_object() for annotation in reader.pages[0]["/Annots"]]
    inner, outer = annotations
    target = inner["/Dest"][0].get_object()
    assert "The border" in next(page for page in reader.pages if page.get_object() == target).extract_text()
    assert outer["/A"]["/URI"] == "https://example.org/a"
    assert [annotation["/Contents"] for annotation in annotations] == ["the border", "a page"]


@pytest.mark.parametrize(("name", "paper"), SETTINGS)
def test_pages_have_the_size_of_the_paper(name: str, paper: str) -> None:
    """The page box is the paper, to a thousandth of a point."""
    sheet = shipped(name).sheet(paper)
    box = read(set_document(Document("t", (Paragraph("x"),)), shipped(name), paper)).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(
        (sheet.width * 72 / 25.4, sheet.height * 72 / 25.4), abs=0.001
    )


def test_full_size_figures_print_true() -> None:
    """50 mm between the marks of the gauge are 50 mm on the page: measured on the rendered page at 20 pixels a mm."""
    from tests.booklet.sample import gauge  # noqa: PLC0415

    data = set_document(Document("t", (Figure(gauge()),)), shipped("booklet"))
    page = pypdfium2.PdfDocument(data)[0]
    image = page.render(scale=20 * 25.4 / 72, grayscale=True).to_pil()
    row = max(range(image.height), key=lambda y: sum(image.getpixel((x, y)) < 128 for x in range(0, image.width, 7)))
    dark = [x for x in range(image.width) if image.getpixel((x, row)) < 128]
    assert (dark[-1] - dark[0]) / 20 == pytest.approx(50.4, abs=0.15)  # 50 mm and the width of one mark


def photograph(kind: str, mode: str) -> bytes:
    """A small picture as a file."""
    out = BytesIO()
    Image.new(mode, (40, 20), 128 if mode == "L" else (200, 120, 40, 128)[: len(mode)]).save(out, kind)
    return out.getvalue()


@pytest.mark.parametrize(
    ("kind", "mode"), [("JPEG", "RGB"), ("JPEG", "L"), ("JPEG", "CMYK"), ("PNG", "RGB"), ("PNG", "RGBA"), ("PNG", "L")]
)
def test_photographs_of_every_kind_are_set(kind: str, mode: str) -> None:
    """JPEG and PNG, grey, colour, ink colours or see-through, come out as grey or RGB pictures of their own shape."""
    picture = Photograph(photograph(kind, mode), "A knot", "A knot seen from above.", 60)
    reader = read(set_document(Document("t", (Figure(picture, "A knot"),)), shipped("home")))
    (image,) = reader.pages[0].images
    assert image.image is not None
    assert image.image.size == (40, 20)
    assert image.image.mode in {"RGB", "L"}


def test_a_photograph_lying_on_its_side_is_stood_up() -> None:
    """The camera's note that the picture is turned (Exif 2.3, tag 0x0112) is heeded: 40 × 20 becomes 20 × 40."""
    exif = Image.Exif()
    exif[0x0112] = 6
    out = BytesIO()
    Image.new("RGB", (40, 20), (200, 120, 40)).save(out, "JPEG", exif=exif)
    reader = read(
        set_document(Document("t", (Figure(Photograph(out.getvalue(), "A", "A.", 20), "A"),)), shipped("home"))
    )
    (image,) = reader.pages[0].images
    assert image.image.size == (20, 40)


def test_a_photograph_finer_than_print_is_made_smaller() -> None:
    """A picture of 4000 pixels printed 60 mm wide is written at 300 dots an inch: 709 pixels."""
    out = BytesIO()
    Image.effect_noise((4000, 2000), 60).convert("RGB").save(out, "JPEG")
    data = set_document(Document("t", (Figure(Photograph(out.getvalue(), "A", "A.", 60), "A"),)), shipped("home"))
    (image,) = read(data).pages[0].images
    assert image.image.size == (709, 354)
    assert len(data) < len(out.getvalue()) / 4


def test_fonts_are_embedded_and_few() -> None:
    """Every font is embedded as a subset, and none of the standard fonts is named."""
    reader = read(set_document(booklet(), shipped("home")))
    fonts = reader.pages[0]["/Resources"]["/Font"]
    assert len(fonts) > 5
    for font in fonts.values():
        assert re.match(r"/[A-Z]{6}\+Withy", font.get_object()["/BaseFont"])
        assert "/FontFile2" in font.get_object()["/FontDescriptor"]


def test_a_measure_in_a_bookmark_or_title_is_text() -> None:
    """A fraction in a heading reaches the outline as text."""
    reader = read(set_document(Document("t", (Heading(1, ("Stakes of ", Measure("16 3/8 in"))),)), shipped("home")))
    assert reader.outline[0]["/Title"].replace("\u00a0", " ") == "Stakes of 16 3⁄8 in"
