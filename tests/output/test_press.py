"""Files for a printing house: colour runs past the trim, words are black alone, pages come in fours."""

from __future__ import annotations

import re
from io import BytesIO
from typing import Any

import pypdf
import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from tests.booklet.sample import booklet

from slath.booklet.blocks import Cover, Document, Figure, Paragraph, Photograph
from slath.booklet.laid import MM
from slath.booklet.papers import PAPERS
from slath.booklet.styles import shipped
from slath.output.imposition import saddle_stitch, with_crop_marks
from slath.output.pdf import set_document
from slath.output.pdf_colour import PRESS, SCREEN, cyan_magenta_yellow_black, in_inks, red_green_blue

PAPER_WHITE = 255
COVERED = Document("Weir", (Cover("Weir basket", "A basket to carry", designer="B. Marsh"), Paragraph("Cut 40.")))


def read(data: bytes) -> Any:
    """Open with pypdf, whose objects say nothing of what they hold."""
    return pypdf.PdfReader(BytesIO(data))


@pytest.mark.parametrize("paper", ["a5", "half-letter"])
def test_a_band_runs_past_the_trim_and_no_further_than_the_bleed(paper: str) -> None:
    """3 mm of tint outside the trim at three edges, 1/8 in on papers in inches (common practice); then white."""
    bleed = PAPERS[paper].bleed
    assert bleed == pytest.approx(3 if paper == "a5" else 25.4 / 8)
    data = with_crop_marks(set_document(COVERED, shipped("booklet"), paper), bleed=bleed)
    page = read(data).pages[0]
    trim, box = page.trimbox, page.bleedbox
    assert [
        float(inner - outer) for inner, outer in ((trim.left, box.left), (trim.bottom, box.bottom))
    ] == pytest.approx([bleed * MM] * 2, abs=0.01)
    assert (float(trim.width), float(trim.height)) == pytest.approx(PAPERS[paper].points, abs=0.01)
    image = pypdfium2.PdfDocument(data)[0].render(scale=4, grayscale=True).to_pil()

    def grey(x: float, y: float) -> int:
        """What is painted ``x`` to the right and ``y`` below the upper left corner of the trim, in millimetres."""
        at = (float(trim.left) + x * MM) * 4, (float(page.mediabox.height - trim.top) + y * MM) * 4
        level: int = image.getpixel((round(at[0]), round(at[1])))
        return level

    width, tint = PAPERS[paper].width, grey(1, 1)
    assert tint < PAPER_WHITE - 5
    painted = [grey(-bleed + 0.3, 5), grey(width + bleed - 0.3, 5), grey(60, -bleed + 0.3)]
    assert painted == [tint] * 3
    bare = [grey(-bleed - 0.3, 5), grey(width + bleed + 0.3, 5), grey(60, -bleed - 0.3), grey(-1, 150)]
    assert bare == [PAPER_WHITE] * 4


def test_what_runs_off_a_page_stays_off_its_neighbour() -> None:
    """On a sheet to fold the band of the cover ends at the fold: the last page beside it stays white."""
    page = pypdfium2.PdfDocument(saddle_stitch(set_document(COVERED, shipped("booklet"))))[0]
    image = page.render(scale=4, grayscale=True).to_pil()
    fold = image.width // 2
    assert image.getpixel((fold + 6, 60)) < PAPER_WHITE - 5
    assert image.getpixel((fold - 6, 60)) == PAPER_WHITE


@pytest.mark.parametrize(("pages", "printed"), [(1, 4), (4, 4), (5, 8)])
def test_pages_come_in_fours(pages: int, printed: int) -> None:
    """A stitched booklet has a multiple of four pages (common practice): blank ones of the same size follow."""
    source = pypdf.PdfWriter()
    for _ in range(pages):
        source.add_blank_page(400, 600)
    out = BytesIO()
    source.write(out)
    made = read(with_crop_marks(out.getvalue())).pages
    assert len(made) == printed
    assert {tuple(float(edge) for edge in page.trimbox) for page in made} == {tuple(map(float, made[0].trimbox))}


def test_a_file_says_what_its_colours_mean() -> None:
    """Sheets in red, green and blue name sRGB; a file in inks names no colours of a screen, and neither claims access."""
    style = shipped("booklet")
    screen, inks = (read(with_crop_marks(set_document(COVERED, style, colours=each))) for each in (SCREEN, PRESS))
    assert screen.root_object["/OutputIntents"][0]["/OutputConditionIdentifier"] == "sRGB"
    assert "/OutputIntents" not in inks.root_object
    assert "/Metadata" not in inks.root_object
    assert "/StructTreeRoot" not in inks.root_object


def painted(data: bytes) -> str:
    """Every operator of the pages put on sheets, without the operands of shown text."""
    forms = [
        page["/Resources"]["/XObject"]["/P0"].get_data()
        for page in read(data).pages
        if "/P0" in page["/Resources"]["/XObject"]
    ]
    return re.sub(r"<[0-9a-f]*>", "", b"\n".join(forms).decode("latin-1"))


def test_a_file_in_inks_holds_nothing_else() -> None:
    """No colour is written in red, green and blue; words in the ink of the style are solid black and nothing else."""
    data = painted(with_crop_marks(set_document(booklet(), shipped("booklet"), colours=PRESS)))
    assert not re.search(r"\b(rg|RG|g|G|sc|scn|cs)\n", data + "\n")
    assert "0 0 0 1 k" in data
    inks = [tuple(map(float, found)) for found in re.findall(r"([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+) [kK]\b", data)]
    assert len(inks) > 100
    assert all(min(ink[:3]) == 0 for ink in inks), "no more than two inks and black on one another"


@given(st.integers(0, 0xFFFFFF))
def test_inks_give_the_colour_back(number: int) -> None:
    """Read as light that each ink takes its share of, inks give the colour meant; a dark grey gives a grey near it."""
    colour = f"#{number:06x}"
    *coloured, black = cyan_magenta_yellow_black(colour)
    meant = red_green_blue(colour)
    back = [(1 - ink) * (1 - black) for ink in coloured]
    assert min(coloured) == 0
    if any(coloured) or max(meant) > 0.5:
        assert back == pytest.approx(meant, abs=1e-9)
    else:
        assert max(abs(a - b) for a, b in zip(back, meant, strict=True)) <= 0.2 + 1e-9


def test_words_are_one_ink() -> None:
    """The ink of every style is solid black; its quiet words are black alone, if not solid."""
    for name in ("booklet", "home", "handout", "large-print"):
        colours = shipped(name).colours
        assert cyan_magenta_yellow_black(colours.ink) == (0, 0, 0, 1)
        assert cyan_magenta_yellow_black(colours.quiet)[:3] == (0, 0, 0)


def test_photographs_are_put_in_inks() -> None:
    """A picture is written in four inks by the formula of colours: pure red is magenta and yellow, grey is black alone."""
    inks = in_inks(Image.new("RGB", (1, 1), (255, 0, 0)))
    assert inks.getpixel((0, 0)) == (0, 255, 255, 0)
    assert in_inks(Image.new("RGB", (1, 1), (128, 128, 128))).getpixel((0, 0)) == (0, 0, 0, 127)
    for kind in ("JPEG", "PNG"):
        out = BytesIO()
        Image.new("RGB", (40, 20), (200, 120, 40)).save(out, kind)
        figure = Figure(Photograph(out.getvalue(), "A knot", "A knot seen from above.", 60), "A knot")
        data = set_document(Document("t", (figure,)), shipped("booklet"), colours=PRESS)
        (image,) = read(data).pages[0].images
        assert (image.image.mode, image.image.size) == ("CMYK", (40, 20))
