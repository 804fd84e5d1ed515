"""How many pages a booklet takes and how much of them stays white, on rendered pages: ceilings that may only sink.

A page is white where nothing is printed in a square of 4 mm; the margins, the cover and the last page are left out.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pypdfium2
import pytest
from tests.booklet.shipped_patterns import work

from slath.booklet.blocks import Document, Figure, Step, every
from slath.booklet.content import booklet_document
from slath.booklet.flow import lay_out
from slath.booklet.laid import MM, Drawing, Laid
from slath.editions import EDITIONS
from slath.output.pdf import write_pdf

MARGIN, CELL, DOTS = 14.0, 4.0, 50 / 25.4  # mm, mm, and pixels to a millimetre
WHITE = 245  # of 255, from which on a pixel is taken for paper
MOST_PAGES = {"weir-field": 14, "eel-mat": 10, "mill-tray": 12, "wren-pot": 13, "toll-house": 21}
MOST_WHITE = {"weir-field": 0.43, "eel-mat": 0.44, "mill-tray": 0.42, "wren-pot": 0.45, "toll-house": 0.43}
LEAST_WIDE = 82.0  # mm, what figures across inner pages have on the average
MOST_LARGE_PRINT = 40  # pages of the oval basket; in type of 18 points a page holds a third of one in type of 10


@cache
def _set(name: str, edition: str = "booklet") -> tuple[Document, Laid]:
    """One edition on A4, in all sizes."""
    made = work(name, "a4")
    document = booklet_document(made.content_for(EDITIONS[edition]))
    return document, lay_out(document, made.style(EDITIONS[edition]), "a4")


def white(laid: Laid) -> float:
    """The share of squares on inner pages in which nothing is printed."""
    rendered = pypdfium2.PdfDocument(write_pdf(laid))
    empty = cells = 0
    for index in range(1, len(rendered) - 1):
        page = np.asarray(rendered[index].render(scale=DOTS * 25.4 / 72).to_pil().convert("L"))
        edge, side = round(MARGIN * DOTS), round(CELL * DOTS)
        inner = page[edge:-edge, edge:-edge]
        rows, columns = inner.shape[0] // side, inner.shape[1] // side
        squares = inner[: rows * side, : columns * side].reshape(rows, side, columns, side)
        empty += int((squares.min(axis=(1, 3)) > WHITE).sum())
        cells += rows * columns
    return empty / cells


@pytest.mark.parametrize("name", MOST_PAGES)
def test_a_booklet_is_no_longer_and_no_emptier_than_it_need_be(name: str) -> None:
    """Pages and white squares of the whole booklet in all its sizes."""
    _, laid = _set(name)
    assert len(laid.pages) <= MOST_PAGES[name]
    assert white(laid) <= MOST_WHITE[name]


@pytest.mark.parametrize("name", MOST_PAGES)
def test_figures_are_wide(name: str) -> None:
    """Every figure of a step is on the pages, and they are as wide on the average as half of the text at the least."""
    document, laid = _set(name)
    figures = [figure for block in every(document.blocks) if isinstance(block, Step) for figure in block.figures]
    drawn = [
        item.size[0] / MM
        for page in laid.pages[1:]
        for mark in page.marks
        for item in mark.items
        if isinstance(item, Drawing) and mark.node is not None and mark.node.role == "Figure" and item.scene.width > 30
    ]
    assert len(drawn) == len([figure for figure in figures if isinstance(figure, Figure)])
    assert sum(drawn) / len(drawn) >= LEAST_WIDE


def test_large_print_is_no_longer_than_it_need_be() -> None:
    """The oval basket in large print."""
    _, laid = _set("weir-field", "large print")
    assert len(laid.pages) <= MOST_LARGE_PRINT


def test_a_page_left_short_is_ruled_for_notes_and_no_other() -> None:
    """A page that ends high has ruled lines down to its foot: nowhere are 60 mm left white under what is set."""
    for name in MOST_PAGES:
        _, laid = _set(name)
        style = work(name, "a4").style(EDITIONS["booklet"])
        foot = laid.height - style.margins.bottom * MM
        for page in laid.pages[1:-1]:
            ends = []
            for mark in page.marks:
                if mark.pagination:
                    continue
                for item in mark.items:
                    low = (
                        item.y + item.size[1]
                        if isinstance(item, Drawing)
                        else getattr(item, "y1", getattr(item, "y", 0))
                    )
                    ends.append(mark.y + low)
            assert foot - max(ends) <= 60 * MM, (name, page.number)
