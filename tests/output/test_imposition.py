"""Sheets for printing: pages in the order a folded booklet needs, at their true size, shifted for the fold."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pypdf
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageChops
from tests.booklet.sample import booklet

from slath.booklet.blocks import Document, PageBreak, Paragraph
from slath.booklet.papers import PAPERS, SHEET_OF
from slath.booklet.styles import shipped
from slath.output.imposition import saddle_order, saddle_stitch, several_up, with_crop_marks
from slath.output.pdf import set_document

MM = 72 / 25.4


def read(data: bytes) -> Any:
    """Open with pypdf, whose objects say nothing of what they hold."""
    return pypdf.PdfReader(BytesIO(data))


def pages(count: int, paper: str = "a5") -> bytes:
    """A booklet of ``count`` pages, each saying its number in words."""
    blocks = [block for number in range(1, count + 1) for block in (Paragraph(f"leaf{number:02d}"), PageBreak())]
    return set_document(Document("Numbered", tuple(blocks[:-1])), shipped("booklet"), paper)


def fold(sheets: list[tuple[int, int, int, int]]) -> list[int]:
    """Nest folded sheets as a binder does and turn the pages: front right, back left, ..., back right, front left."""
    right, left = [], []
    for front_left, front_right, back_left, back_right in sheets:
        right += [front_right, back_left]
        left += [front_left, back_right]
    return right + left[::-1]


@given(st.integers(1, 200))
def test_a_folded_booklet_reads_in_order(count: int) -> None:
    """Whatever the number of pages, nesting and turning gives 0, 1, 2, ... with blanks only at the end."""
    order = saddle_order(count)
    assert fold(order) == list(range(len(order) * 4))
    assert 0 <= len(order) * 4 - count < 4


def test_eight_pages_lie_as_bookbinders_lay_them() -> None:
    """Two sheets of eight pages: 8 and 1, 2 and 7; 6 and 3, 4 and 5 (common practice)."""
    one_based = [tuple(page + 1 for page in sheet) for sheet in saddle_order(8)]
    assert one_based == [(8, 1, 2, 7), (6, 3, 4, 5)]


@pytest.mark.parametrize("paper", ["a5", "half-letter"])
def test_the_sheet_is_the_whole_paper(paper: str) -> None:
    """Two A5 pages make an A4 sheet, two half-letter pages a Letter sheet (ISO 216 halves to whole millimetres)."""
    reader = read(saddle_stitch(pages(6, paper)))
    assert len(reader.pages) == 4
    sheet = PAPERS[SHEET_OF[paper]]
    for page in reader.pages:
        assert float(page.mediabox.width) / MM == pytest.approx(sheet.height, abs=1.01)
        assert float(page.mediabox.height) / MM == pytest.approx(sheet.width, abs=0.01)
    texts = [page.extract_text() for page in reader.pages]
    assert "leaf01" in texts[0]
    assert "leaf06" in texts[2] or "leaf06" in texts[3]
    assert all(sum(f"leaf{number:02d}" in text for text in texts) == 1 for number in range(1, 7))
    preferences = reader.root_object["/ViewerPreferences"]
    assert (preferences["/Duplex"], preferences["/PrintScaling"]) == ("/DuplexFlipShortEdge", "/None")


def test_pages_are_not_scaled_and_inner_sheets_move_to_the_fold() -> None:
    """Pixel for pixel the page as it was: the outermost in its place, the next sheet's moved by the leaf's thickness."""
    source = pages(8, "half-letter")  # whole points, so that pages lie on whole pixels
    caliper = 0.5
    single = [pypdfium2.PdfDocument(source)[n].render(scale=2, grayscale=True).to_pil() for n in range(8)]
    imposed = [
        pypdfium2.PdfDocument(saddle_stitch(source, caliper=caliper))[n].render(scale=2, grayscale=True).to_pil()
        for n in range(4)
    ]
    width, height = single[0].size
    first = imposed[0].crop((imposed[0].width - width, 20, imposed[0].width, height - 20))
    apart: Any = ImageChops.difference(first, single[0].crop((0, 20, width, height - 20)))
    assert apart.getextrema()[1] < 10

    def left_edge(image: Any) -> int:
        dark = [
            x for x in range(20, image.width) for y in range(60, image.height // 2, 3) if image.getpixel((x, y)) < 128
        ]
        return min(dark)

    inner = imposed[2].crop((imposed[2].width - width, 0, imposed[2].width, height))
    assert left_edge(single[2]) - left_edge(inner) == pytest.approx(caliper * MM * 2, abs=1.2)


@pytest.mark.parametrize(("columns", "rows"), [(2, 1), (2, 2), (1, 2)])
def test_several_pages_on_a_sheet(columns: int, rows: int) -> None:
    """Pages stand in reading order on sheets of the page's own size, none larger than its share."""
    source = pages(5)
    reader = read(several_up(source, columns, rows))
    assert len(reader.pages) == -(-5 // (columns * rows))
    size = {round(float(reader.pages[0].mediabox.width)), round(float(reader.pages[0].mediabox.height))}
    original = read(source).pages[0].mediabox
    assert size == {round(float(original.width)), round(float(original.height))}
    assert "leaf01" in reader.pages[0].extract_text()


def test_crop_marks_stand_outside_the_bleed() -> None:
    """The trim box has the size of the page, the bleed box lies 3 mm outside it, and no mark is inside the bleed."""
    source = pages(2)
    data = with_crop_marks(source)
    page = read(data).pages[0]
    trim, bleed = page.trimbox, page.bleedbox
    original = read(source).pages[0].mediabox
    assert (float(trim.width), float(trim.height)) == pytest.approx(
        (float(original.width), float(original.height)), abs=0.01
    )
    assert float(trim.left) - float(bleed.left) == pytest.approx(3 * MM, abs=0.01)
    image = pypdfium2.PdfDocument(data)[0].render(scale=4, grayscale=True).to_pil()
    dark = [(x / 4, y / 4) for x in range(image.width) for y in (image.height // 2,) if image.getpixel((x, y)) < 128]
    assert not [x for x, _ in dark if x < float(trim.left)], "half-way up there is no mark"
    corner = image.crop((0, 0, int(float(trim.left) * 4) + 2, int(float(trim.left) * 4) + 2))
    assert corner.getextrema()[0] < 230, "marks stand in the corner"
    inside = image.crop(
        (
            int(float(bleed.left) * 4) + 2,
            int(float(bleed.left) * 4) + 2,
            int(float(trim.left) * 4) - 2,
            int(float(trim.left) * 4) - 2,
        )
    )
    assert inside.getextrema()[0] == 255, "and none inside the bleed"


def test_sheets_are_the_same_every_time() -> None:
    """Imposing twice gives the same bytes."""
    source = set_document(booklet(), shipped("booklet"))
    assert saddle_stitch(source) == saddle_stitch(source)
    assert several_up(source, 2, 2) == several_up(source, 2, 2)
