"""Tables: rows of cells lightly ruled, or the same rows as a list where a grid would not fit."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from slath.booklet.blocks import Blank, Row, Strong
from slath.booklet.desk import Desk, spaced
from slath.booklet.laid import Mark, Node, Rule
from slath.booklet.strips import IN_TABLE, NEVER, Strip, kept, stacked, whole_if_short

if TYPE_CHECKING:
    from collections.abc import Sequence

    from slath.booklet.blocks import Piece, Table, Words
    from slath.booklet.lines import Look

COLUMN_GAP = 1.1  # ems between columns
PAD = 0.3  # ems above and below the words of a row
WRITING_PAD = 0.6  # the same for a row that holds boxes to write in
SMALL = 0.5  # of the column; a table no higher than this is split only to save the page
HEAVY, MIDDLE, LIGHT = 0.9, 0.6, 0.35  # rules: outside, under the header, between rows


@dataclass(frozen=True, slots=True)
class _Grid:
    """Where the columns stand, and the looks of the table."""

    desk: Desk
    lefts: tuple[float, ...]
    widths: tuple[float, ...]
    plain: Look
    strong: Look


@dataclass(frozen=True, slots=True)
class _Cell:
    words: Words
    align: str
    look: Look
    node: Node


def table(desk: Desk, block: Table, parent: Node) -> list[Strip]:
    """A table with its caption and footnotes."""
    style = desk.style
    size = style.type.table
    plain = style.look(size, family=style.type.tables)
    strong = style.look(size, strong=True, family=style.type.tables)
    widths = _column_widths(desk, block, plain, strong) if style.tables != "list" else None
    if widths is None and style.tables == "grid":
        widths = tuple(desk.width / len(block.columns) for _ in block.columns)
    if widths is None:
        strips = _as_list(desk, block, parent, plain)
    else:
        step = COLUMN_GAP * size
        lefts = tuple(sum(widths[:index]) + index * step for index in range(len(widths)))
        strips = _as_grid(_Grid(desk, lefts, widths, plain, strong), block, parent)
    strips += _footnotes(desk, block, parent)
    if block.anchor:
        strips[0] = replace(strips[0], anchors=(block.anchor, *strips[0].anchors))
    return spaced(strips, 0.9 * desk.line, 1.1 * desk.line)


def _column_widths(desk: Desk, block: Table, plain: Look, strong: Look) -> tuple[float, ...] | None:
    """Widths that hold every unbreakable run, spare width shared by need and weight; None if the page is too narrow."""
    narrow, natural = [], []
    for index, column in enumerate(block.columns):
        cells = [(column.header, strong)]
        cells += [(row.cells[index], _row_look(row, plain, strong)) for row in block.rows if row.kind != "group"]
        measured = [desk.widths(words, look) for words, look in cells]
        narrow.append(max(low for low, _ in measured) + 0.5)
        natural.append(max(high for _, high in measured) + 0.5)
    weights = [column.weight for column in block.columns]
    room = desk.width - COLUMN_GAP * plain.size * (len(weights) - 1)
    if sum(narrow) > room:
        return None
    if sum(natural) <= room:
        shares = [wide * weight for wide, weight in zip(natural, weights, strict=True)]
        spare = room - sum(natural)
        return tuple(wide + spare * share / sum(shares) for wide, share in zip(natural, shares, strict=True))
    return _filled(narrow, natural, weights, room)


def _filled(
    narrow: Sequence[float], natural: Sequence[float], weights: Sequence[float], room: float
) -> tuple[float, ...]:
    """Columns that need no more than their fair share get what they need; the others share the rest by weight."""
    widths: dict[int, float] = {}
    while len(widths) < len(narrow):
        open_ = [index for index in range(len(narrow)) if index not in widths]
        left = room - sum(widths.values())
        whole = sum(weights[index] for index in open_)
        shares = {index: left * weights[index] / whole for index in open_}
        settled = {index: narrow[index] for index in open_ if narrow[index] >= shares[index]}
        settled = settled or {index: natural[index] for index in open_ if natural[index] <= shares[index]}
        widths |= settled or shares
    return tuple(widths[index] for index in range(len(narrow)))


def _row_look(row: Row, plain: Look, strong: Look) -> Look:
    return strong if row.kind != "body" else plain


def _as_grid(grid: _Grid, block: Table, parent: Node) -> list[Strip]:
    tree = Node("Table", parent)
    caption = _caption(grid.desk, block, tree)
    header = _header(grid, block, Node("TR", Node("THead", tree)))
    again = headings = _as_artifact(header)
    body = Node("TBody", tree)
    strips = kept([*caption, header])
    for number, row in enumerate(block.rows):
        last = number == len(block.rows) - 1
        after_group = number > 0 and block.rows[number - 1].kind == "group"
        cost = IN_TABLE * (6 if last or number == 1 else 1)
        if number == 0 or after_group or row.kind == "total":
            cost = NEVER
        repeat = headings if row.kind == "group" else again
        strips.append(replace(_row(grid, block, row, Node("TR", body), last=last), cost=cost, repeat=repeat))
        if row.kind == "group":
            again = stacked([headings, _as_artifact(_row(grid, block, _continued(row), Node("TR"), last=False))])
    return whole_if_short(strips, SMALL * grid.desk.height)


def _as_artifact(strip: Strip) -> Strip:
    """The same strip as it is set again on later pages, where readers of tags have no need of it."""
    return replace(strip, marks=[Mark(None, mark.items, mark.x, mark.y, pagination=True) for mark in strip.marks])


def _continued(row: Row) -> Row:
    return Row(((*_pieces(row.cells[0]), " (continued)"),), "group")


def _caption(desk: Desk, block: Table, tree: Node) -> list[Strip]:
    if not block.caption:
        return []
    look = desk.style.look(desk.style.type.caption * 1.04, strong=True, family=desk.style.type.tables)
    return spaced(kept(desk.text(block.caption, Node("Caption", tree), look, ragged=True)), 0.0, 0.3 * desk.line)


def _cells(grid: _Grid, cells: Sequence[_Cell], *, foot: bool = False) -> tuple[float, list[Mark]]:
    """Cells next to one another: the height of the row and its marks. ``foot`` sets short cells at the bottom."""
    columns = []
    for cell, width in zip(cells, grid.widths, strict=True):
        strips = grid.desk.text(cell.words, cell.node, cell.look, width=width, ragged=True, align=cell.align)
        columns.append(stacked(strips) if strips else Strip(0.0, [Mark(cell.node)]))
    inner = max(column.height for column in columns)
    writing = any(isinstance(piece, Blank) for cell in cells for piece in _pieces(cell.words))
    pad = (WRITING_PAD if writing else PAD) * grid.plain.size
    marks = [
        mark.moved(left, pad + (inner - column.height if foot else 0.0))
        for column, left in zip(columns, grid.lefts, strict=True)
        for mark in column.marks
    ]
    return inner + 2 * pad, marks


def _pieces(words: Words) -> tuple[Piece, ...]:
    return words if isinstance(words, tuple) else (words,)


def _header(grid: _Grid, block: Table, row: Node) -> Strip:
    cells = [
        _Cell(column.header, column.align, grid.strong, Node("TH", row, attributes=(("Scope", "Column"),)))
        for column in block.columns
    ]
    height, marks = _cells(grid, cells, foot=True)
    colours, width = grid.desk.style.colours, grid.desk.width
    rules = (
        Rule(0, 0, width, 0, HEAVY, colours.ink),
        Rule(0, height, width, height, MIDDLE, colours.ink),
    )
    return Strip(height, [*marks, Mark(None, rules)])


def _row(grid: _Grid, block: Table, row: Row, tree: Node, *, last: bool) -> Strip:
    colours, width = grid.desk.style.colours, grid.desk.width
    if row.kind == "group":
        node = Node("TH", tree, attributes=(("Scope", "Row"), ("ColSpan", len(block.columns))))
        body = stacked(grid.desk.text(row.cells[0], node, grid.strong._replace(colour=colours.accent), ragged=True))
        height = body.height + 2.6 * PAD * grid.plain.size
        marks = [mark.moved(0.0, 1.8 * PAD * grid.plain.size) for mark in body.marks]
    else:
        look = _row_look(row, grid.plain, grid.strong)
        cells = [
            _Cell(
                words,
                column.align,
                look,
                Node("TH", tree, attributes=(("Scope", "Row"),)) if column.row_header else Node("TD", tree),
            )
            for words, column in zip(row.cells, block.columns, strict=True)
        ]
        height, marks = _cells(grid, cells)
    foot = Rule(0, height, width, height, HEAVY if last else LIGHT, colours.ink if last else colours.rule)
    rules = (Rule(0, 0, width, 0, MIDDLE, colours.ink), foot) if row.kind == "total" else (foot,)
    return Strip(height, [*marks, Mark(None, rules)])


def _footnotes(desk: Desk, block: Table, parent: Node) -> list[Strip]:
    look = desk.style.look(desk.style.type.small, family=desk.style.type.tables, colour=desk.style.colours.quiet)
    strips: list[Strip] = []
    for note in block.footnotes:
        strips.extend(spaced(desk.text(note, Node("P", parent), look, ragged=True), 0.25 * desk.line, 0.0))
    return [replace(strip, cost=NEVER) for strip in strips]


def _as_list(desk: Desk, block: Table, parent: Node, plain: Look) -> list[Strip]:
    """Every row as a list item: the cells that name the row first, then one line for each other cell."""
    naming = [index for index, column in enumerate(block.columns) if column.row_header] or [0]
    title = desk.text(block.caption, Node("P", parent), plain._replace(face=f"{plain.face}-bold"), ragged=True)
    strips = spaced(kept(title), 0.0, 0.3 * desk.line)
    tree = Node("L", parent, attributes=(("ListNumbering", "None"),))
    for row in block.rows:
        body = Node("LBody", Node("LI", tree))
        head: Words = row.cells[0]
        if row.kind != "group" and len(naming) > 1:
            head = tuple(piece for index in naming for piece in (row.cells[index], ", "))[:-1]  # type: ignore[assignment]
        lines = desk.text((Strong(head),), Node("P", body), plain, ragged=True)
        for index, column in enumerate(block.columns):
            if row.kind == "group" or index in naming or not row.cells[index]:
                continue
            cell = row.cells[index]
            words = (Strong((column.header, ": ")) if isinstance(column.header, str) else Strong(column.header),)
            said = (*words, *(cell if isinstance(cell, tuple) else (cell,)))
            lines += desk.text(said, Node("P", body), plain, x=plain.size, ragged=True)
        strips += spaced(kept(lines), 0.4 * desk.line, 0.4 * desk.line)
    return strips
