"""Pages as pictures for a shop: the cover and pages from inside, none of which shows what is withheld."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import resources
from io import BytesIO
from math import atan2, degrees

import pypdfium2 as pdfium
from msgspec import Struct
from PIL import Image, ImageDraw, ImageFont

from slath.booklet.content import booklet_document
from slath.booklet.content_record import BookletContent
from slath.booklet.flow import lay_out
from slath.booklet.laid import Drawing, Laid, Page, Picture
from slath.booklet.styles import Style
from slath.output.pdf import write_pdf

INSIDE = 3  # pages shown beside the cover
SHOWN = ("cover", "steps")  # sections an offer shows; lists and sums are what is sold
NEVER = ("cut list", "materials", "bands")  # withheld from every preview, whatever the licence says
LONG_EDGES = {"": 2000, "-small": 800}  # pixels: a shop's zoom, and its rows of thumbnails
QUALITY = 88
WATERMARK_SHARE = 0.11  # of the page's width: the height of its letters
WATERMARK_GREY = (110, 110, 110, 70)


class PagePicture(Struct, frozen=True):
    """One page as a picture: what part of a file's name says which it is, and the picture."""

    name: str
    image: Image.Image


def preview_pdf(content: BookletContent, style: Style, paper: str) -> tuple[bytes, tuple[int, ...]]:
    """A booklet of what an offer may show, and the pages of it to be shown: the cover, then those with most drawn on them."""
    withheld = tuple(dict.fromkeys((*content.pattern.withheld, *NEVER)))
    laid = lay_out(booklet_document(content, SHOWN, withheld), style, paper)
    return write_pdf(laid), (0, *_fullest(laid))


def _fullest(laid: Laid) -> tuple[int, ...]:
    """The pages inside that show most drawing, one from each third so that they do not all show one stage."""
    inside = [(index, _drawn(page)) for index, page in enumerate(laid.pages) if index]
    third = max(1, -(-len(inside) // INSIDE))
    parts = [inside[start : start + third] for start in range(0, len(inside), third)]
    return tuple(max(part, key=lambda page: (page[1], -page[0]))[0] for part in parts[:INSIDE])


def _drawn(page: Page) -> float:
    """How much of a page figures cover, in square points."""
    area = 0.0
    for mark in page.marks:
        for item in mark.items:
            if isinstance(item, Drawing):
                area += item.size[0] * item.size[1]
            elif isinstance(item, Picture):
                area += item.width * item.height
    return area


def page_pictures(data: bytes, pages: tuple[int, ...], watermark: str = "") -> Iterator[PagePicture]:
    """The pages as pictures at every size a shop wants, marked if asked."""
    opened = pdfium.PdfDocument(data)
    for place, index in enumerate(pages):
        page = opened[index]
        name = "cover" if place == 0 else f"inside-{place}"
        for size, edge in LONG_EDGES.items():
            image = page.render(scale=edge / max(page.get_size())).to_pil().convert("RGB")
            yield PagePicture(f"{name}{size}", _marked(image, watermark) if watermark else image)


def as_png(image: Image.Image) -> bytes:
    """The picture without loss, and without anything but its pixels."""
    out = BytesIO()
    image.save(out, "PNG", optimize=False, compress_level=6)
    return out.getvalue()


def as_jpeg(image: Image.Image) -> bytes:
    """The picture for a shop that takes no PNG."""
    out = BytesIO()
    image.save(out, "JPEG", quality=QUALITY, optimize=True, subsampling=0)
    return out.getvalue()


def _marked(image: Image.Image, words: str) -> Image.Image:
    """The picture with pale words across it from corner to corner."""
    height = round(WATERMARK_SHARE * image.width)
    font = ImageFont.truetype(_font_file(), height)
    left, top, right, bottom = font.getbbox(words)
    reach = 0.9 * (image.width**2 + image.height**2) ** 0.5
    if right - left > reach:
        font = ImageFont.truetype(_font_file(), max(8, int(height * reach / (right - left))))
        left, top, right, bottom = font.getbbox(words)
    plate = Image.new("RGBA", (round(right - left) + 8, round(bottom - top) + 8), (0, 0, 0, 0))
    ImageDraw.Draw(plate).text((4 - left, 4 - top), words, font=font, fill=WATERMARK_GREY)
    turned = plate.rotate(-_slope(image), expand=True, resample=Image.Resampling.BICUBIC)
    marked = image.convert("RGBA")
    marked.alpha_composite(
        turned.crop((0, 0, min(turned.width, image.width), min(turned.height, image.height))),
        (max(0, (image.width - turned.width) // 2), max(0, (image.height - turned.height) // 2)),
    )
    return marked.convert("RGB")


def _slope(image: Image.Image) -> float:
    return degrees(atan2(-image.height, image.width))


def _font_file() -> str:
    return str(resources.files("slath.fonts") / "sans-bold.ttf")
