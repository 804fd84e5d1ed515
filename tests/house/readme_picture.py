"""The picture at the head of the README: pages of the booklet that its first command makes, next to one another.

``python -m tests.house.readme_picture`` writes it anew.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pypdfium2
from PIL import Image
from tests.booklet.shipped_patterns import work

from slath.booklet.content import booklet_document
from slath.booklet.flow import lay_out
from slath.booklet.laid import Laid
from slath.editions import EDITIONS
from slath.output.pdf import write_pdf

FILE = Path(__file__).parents[2] / "patterns" / "weir-field-pages.png"
HIGH = 560  # pixels of a page
FRAME, GROUND, COLOURS = 14, (226, 222, 214), 128
STAGES = ("2 ", "4 ", "5 ")  # pages on which these open stand beside the cover


def shown_pages(laid: Laid) -> list[int]:
    """The cover, and the pages on which some stages open."""
    opened = {title: mark.place.page for mark in laid.bookmarks for title in STAGES if mark.title.startswith(title)}
    return [0, *dict.fromkeys(opened[title] for title in STAGES)]


def pages() -> list[Image.Image]:
    """These pages of the oval basket as pictures."""
    made = work("weir-field", "a4")
    laid = lay_out(booklet_document(made.content_for(EDITIONS["booklet"])), made.style(EDITIONS["booklet"]), "a4")
    rendered = pypdfium2.PdfDocument(write_pdf(laid))
    return [
        rendered[index].render(scale=HIGH / rendered[index].get_height()).to_pil().convert("RGB")
        for index in shown_pages(laid)
    ]


def picture(shown: list[Image.Image]) -> Image.Image:
    """Pages next to one another on a quiet ground."""
    wide = sum(page.width + FRAME for page in shown) + FRAME
    sheet = Image.new("RGB", (wide, HIGH + 2 * FRAME), GROUND)
    left = FRAME
    for page in shown:
        sheet.paste(page, (left, FRAME))
        left += page.width + FRAME
    return sheet


def main() -> None:
    """Write the picture."""
    out = BytesIO()
    picture(pages()).quantize(COLOURS).save(out, "PNG", optimize=True)
    FILE.write_bytes(out.getvalue())


if __name__ == "__main__":
    main()
