"""Everything a shop needs of a pattern, as files by name: booklets on every paper, pictures, the listing, a flyer, a manifest."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from slath.booklet.blocks import Document
from slath.booklet.styles import Style
from slath.editions import EDITIONS, editions_of
from slath.output.pdf import set_document
from slath.pipeline import Compilation
from slath.selling.listing import Offered, flyer, listing_data, listing_of, listing_text, pages_in
from slath.selling.pictures import as_jpeg, as_png, page_pictures, preview_pdf
from slath.work import BuildOptions, Tell, Work

BOOKLET = "booklet"
SHARES = (0.5, 0.42, 0.34, 0.26, 0.18)  # of a page that the flyer's figure may take


def offer_files(compilation: Compilation, options: BuildOptions, tell: Tell, watermark: str = "") -> dict[str, bytes]:
    """Pictures of the cover and three pages, the listing as text and JSON, and a flyer, by name."""
    return dict(_offer(Work(compilation, options, tell), (), watermark))


def shop_files(
    compilation: Compilation, ways: Sequence[BuildOptions], tell: Tell, watermark: str = ""
) -> dict[str, bytes]:
    """The folder of a shop: every way of building in `ways` (its editions, paper, words) and the offer in the first.

    The manifest names every file with its size in bytes and its SHA-256, and the pages of PDFs.
    """
    made: dict[str, bytes] = {}
    offered: list[Offered] = []
    for options in ways:
        work = Work(compilation, options, tell)
        for name, data in editions_of(compilation, options, tell):
            made[name] = data
            if name.endswith(".pdf"):
                edition = EDITIONS[options.editions[0]]
                offered.append(Offered(name, work.language, work.paper(edition), pages_in(data)))
    made |= _offer(Work(compilation, ways[0], tell), tuple(offered), watermark)
    manifest = {
        "manifest": 1,
        "pattern": {"title": compilation.pattern.title, "edition": compilation.pattern.edition},
        "files": [
            {
                "file": name,
                "bytes": len(data),
                "sha256": hashlib.sha256(data).hexdigest(),
                **({"pages": pages_in(data)} if name.endswith(".pdf") else {}),
            }
            for name, data in sorted(made.items())
        ],
    }
    made[f"{Work(compilation, ways[0]).stem}-manifest.json"] = _json(manifest)
    return made


def _offer(work: Work, offered: tuple[Offered, ...], watermark: str) -> Iterator[tuple[str, bytes]]:
    edition = EDITIONS[BOOKLET]
    content = work.content_for(edition)
    style, paper = work.style(edition), work.paper(edition)
    listing = listing_of(content, offered)
    stem = f"{work.stem}-offer"
    yield f"{stem}.txt", listing_text(listing, content).encode()
    yield f"{stem}.json", _json(listing_data(listing))
    work.tell("the flyer")
    yield f"{stem}-flyer.pdf", _one_page(flyer(listing, content), style, paper)
    data, pages = preview_pdf(content, style, paper)
    for picture in page_pictures(data, pages, watermark):
        work.tell(f"picture of {picture.name}")
        yield f"{stem}-{picture.name}.png", as_png(picture.image)
        yield f"{stem}-{picture.name}.jpg", as_jpeg(picture.image)


def _one_page(document: Document, style: Style, paper: str) -> bytes:
    """A document with its figure as high as leaves room for all the words on one page."""
    made = b""
    for share in SHARES:
        made = set_document(document, replace(style, figures=replace(style.figures, tallest=share)), paper)
        if pages_in(made) == 1:
            break
    return made


def _json(data: object) -> bytes:
    return json.dumps(data, ensure_ascii=False, indent=2).encode() + b"\n"
