"""The offer of a pattern: pictures, listing, flyer and a shop's folder; true, whole, and silent on what is withheld."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from PIL import Image, ImageChops

from slath.editions import EDITIONS
from slath.pipeline import compile_pattern
from slath.selling.offer import offer_files, shop_files
from slath.selling.pictures import LONG_EDGES, page_pictures, preview_pdf
from slath.units import printing
from slath.work import BuildOptions, Work

PATTERNS = Path(__file__).parents[2] / "patterns"


@pytest.fixture(scope="module")
def made() -> Mapping[str, bytes]:
    """The offer of a small shipped pattern."""
    return offer_files(compile_pattern(PATTERNS / "wren-pot.yaml"), BuildOptions(editions=("booklet",)), lambda _: None)


def test_cover_and_three_pages_are_pictures_of_both_kinds_and_sizes(made: Mapping[str, bytes]) -> None:
    """Each as PNG and JPEG, at a shop's zoom and as a thumbnail, with nothing in the file but the picture."""
    names = [f"{which}{size}" for which in ("cover", "inside-1", "inside-2", "inside-3") for size in LONG_EDGES]
    for name in names:
        edge = LONG_EDGES["-small" if name.endswith("-small") else ""]
        for ending, kind in ((".png", "PNG"), (".jpg", "JPEG")):
            with Image.open(BytesIO(made[f"wren-pot-offer-{name}{ending}"])) as picture:
                assert picture.format == kind
                assert abs(max(picture.size) - edge) <= 1
                assert not picture.getexif()
                assert len(set(picture.convert("L").tobytes())) > 20, "an empty page"


def test_a_watermark_is_on_every_picture_and_leaves_the_page_to_be_seen() -> None:
    """It changes the middle of the page, is pale, and the same words give the same picture."""
    work = Work(compile_pattern(PATTERNS / "eel-mat.yaml"), BuildOptions(editions=("booklet",)))
    edition = EDITIONS["booklet"]
    data, pages = preview_pdf(work.content_for(edition), work.style(edition), work.paper(edition))
    plain = [picture.image for picture in page_pictures(data, pages)]
    marked = [picture.image for picture in page_pictures(data, pages, "Teasel & Reed")]
    again = [picture.image for picture in page_pictures(data, pages, "Teasel & Reed")]
    assert [one.tobytes() for one in marked] == [one.tobytes() for one in again]
    for before, after in zip(plain, marked, strict=True):
        changed = ImageChops.difference(before, after).convert("L")
        assert changed.getbbox() is not None
        middle = changed.crop((0, before.height // 3, before.width, 2 * before.height // 3))
        assert middle.getbbox() is not None
        assert max(changed.tobytes()) < 80


def test_no_picture_shows_the_cut_list_or_an_amount_of_material() -> None:
    """Every length that only the cut list has is on none of the pages shown, nor anywhere in the file they come from."""
    compilation = compile_pattern(PATTERNS / "weir-field.yaml")
    work = Work(compilation, BuildOptions(editions=("booklet",)))
    edition = EDITIONS["booklet"]
    data, _ = preview_pdf(work.content_for(edition), work.style(edition), work.paper(edition))
    words = " ".join(page.get_textpage().get_text_bounded() for page in pdfium.PdfDocument(data))
    secret = {
        f"{printing.millimetres(piece.cut_mm.value)}"
        for size in compilation.sizes
        for piece in size.quantities.pieces
        if piece.material != "sticks"  # which are as long as the base, whose measure anybody may know
    }
    assert len(secret) > 5
    assert [told for told in secret if told in words] == []


def test_the_listing_says_what_the_pattern_says(made: Mapping[str, bytes]) -> None:
    """Text and data agree with each other and with the pattern; sizes are those of the list."""
    compilation = compile_pattern(PATTERNS / "wren-pot.yaml")
    text, data = made["wren-pot-offer.txt"].decode(), json.loads(made["wren-pot-offer.json"])
    pattern = compilation.pattern
    assert text.startswith(pattern.title + "\n")
    assert data["designer"] == pattern.designer
    assert data["licence"] in " ".join(pattern.licence.split())
    for size, told in zip(compilation.sizes, data["sizes"], strict=True):
        assert told["size"] == size.name
        rim = printing.both(size.quantities.finished.rim_length.value, pattern.units).split(" (")[0]
        assert told["measures"].startswith(rim)
        assert told["measures"] in text
    assert "cut" not in data
    assert data["woven"] is False
    assert "nobody has woven" in text


@pytest.mark.parametrize("name", ["wren-pot", "weir-field", "toll-house"])
def test_the_flyer_is_one_page(name: str) -> None:
    """Whatever the pattern has to say of itself."""
    made = offer_files(compile_pattern(PATTERNS / f"{name}.yaml"), BuildOptions(editions=("booklet",)), lambda _: None)
    assert len(pdfium.PdfDocument(made[f"{name}-offer-flyer.pdf"])) == 1


def test_the_folder_of_a_shop_has_every_way_of_building_and_a_true_manifest() -> None:
    """Languages and papers beside one another, none over another; every file in the manifest as it is."""
    compilation = compile_pattern(PATTERNS / "eel-mat.yaml")
    ways = [
        BuildOptions(editions=("booklet",), paper=paper, language=language)
        for language in ("en", "de")
        for paper in ("a4", "letter")
    ]
    made = shop_files(compilation, ways, lambda _: None)
    booklets = [name for name in made if "booklet" in name]
    assert len(booklets) == len(ways)
    manifest = json.loads(made["eel-mat-manifest.json"])
    assert {each["file"] for each in manifest["files"]} == set(made) - {"eel-mat-manifest.json"}
    for each in manifest["files"]:
        data = made[each["file"]]
        assert (each["bytes"], each["sha256"]) == (len(data), hashlib.sha256(data).hexdigest())
        if each["file"].endswith(".pdf"):
            assert each["pages"] == len(pdfium.PdfDocument(data))
    offered = json.loads(made["eel-mat-offer.json"])["files"]
    assert {(each["language"], each["paper"]) for each in offered} == {
        (language, paper) for language in ("en", "de") for paper in ("a4", "letter")
    }
    assert made == shop_files(compilation, ways, lambda _: None)
