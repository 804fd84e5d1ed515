"""Tables: columns are shared out so that a table in narrow pages is as low as it can be."""

from __future__ import annotations

from itertools import product

import pytest
from msgspec.structs import replace

from slath.booklet.blocks import Column, Row, SizeRing, Table, Words
from slath.booklet.desk import Desk
from slath.booklet.laid import MM, Glyphs, Node
from slath.booklet.strips import total_height
from slath.booklet.styles import shipped
from slath.booklet.tables import COLUMN_GAP, PAD, table

ROWS = (
    ("Lengthwise sticks", "No. 8 round reed (US scale, 5.6 mm)", "4 + 1 spare", "9 1/2 in (241 mm)"),
    ("Stakes", "No. 5 round reed (US scale, 3.25 mm)", "38 + 2 spare", "13 1/2 in (343 mm)"),
    ("Lashings", "waxed linen thread", "2", "20 1/2 in (521 mm)"),
)
HEADER = ("Part", "Material", "How many", "Cut to")


@pytest.mark.parametrize(
    ("name", "weights"),
    [("large-print", (1.5, 1.6, 0.8, 1.3)), ("large-print", (1, 1, 1, 1)), ("booklet", (3, 1, 1, 1))],
)
def test_no_other_widths_make_a_table_much_lower(name: str, weights: tuple[float, ...]) -> None:
    """Compared with every way of sharing the page in twentieths: within one line of the lowest, whatever the weights."""
    style = shipped(name)
    desk = Desk(style, style.column_width() * MM, style.column_height() * MM, "en-GB")
    size = style.type.table
    columns = tuple(Column(words, weight=weight) for words, weight in zip(HEADER, weights, strict=True))
    found = total_height(table(desk, Table("", columns, tuple(Row(cells) for cells in ROWS)), Node("Document")))
    plain, strong = (style.look(size, strong=bold, family=style.type.tables) for bold in (False, True))
    cells = [(HEADER, strong), *((row, plain) for row in ROWS)]
    room = desk.width - 3 * COLUMN_GAP * size

    def height(shares: tuple[int, ...]) -> float:
        widths = [share / 20 * room for share in shares]
        for column, width in enumerate(widths):
            if any(desk.widths(row[column], look)[0] > width for row, look in cells):
                return float("inf")
        lines = (
            max(len(desk.lines(words, look, width)) for words, width in zip(row, widths, strict=True))
            for row, look in cells
        )
        return sum(count * desk.leading(size) + 2 * PAD * size for count in lines)

    lowest = min(height(shares) for shares in product(range(2, 14), repeat=4) if sum(shares) == 20)
    assert found <= lowest + desk.leading(size) + 1.0


@pytest.mark.parametrize("header", ["small", (SizeRing(), "small"), ("small", " in, mm")])
def test_a_list_tells_a_name_apart_from_what_it_names(header: Words) -> None:
    """Where a table is set as a list, whatever the head of a column is made of, a colon stands between it and the cell."""
    style = shipped("large-print")
    width, height = style.column_width() * MM, style.column_height() * MM
    block = Table("", (Column("Piece", row_header=True), Column(header)), (Row(("Stakes", "26 rods")),))
    strips = table(Desk(replace(style, tables="list"), width, height, "en-GB"), block, Node("Document"))
    words = "".join(
        item.text for strip in strips for mark in strip.marks for item in mark.items if isinstance(item, Glyphs)
    )
    assert ": 26" in words.replace("\u00a0", " ")
