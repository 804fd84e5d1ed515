"""Tables: rows of cells lightly ruled, or the same rows as a list where a grid would not fit."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.booklet.blocks import Blank, Row, Second, Strong, Table, Words, pieces_of
from slath.booklet.desk import Desk, spaced
from slath.booklet.faces import Look
from slath.booklet.laid import Mark, Node, Rule
from slath.booklet.reading import plain as plain_text
from slath.booklet.strips import IN_TABLE, NEVER, WIDOW, Strip, beside, kept, stacked, whole_if_short

COLUMN_GAP = 1.1  # ems between columns
PAD = 0.22  # ems above and below the words of a row
WRITING_PAD = 0.45  # the same for a row that holds boxes to write in
SMALL = 0.5  # of the column; a table no higher than this is split only to save the page
TALLEST = 3  # lines of a cell; where the paper makes it taller, rows are told as a list
SHARES_BY_NEED = (0.0, 0.25, 0.5, 0.75, 1.0)  # of the way from columns shared by weight to columns shared by need
HEAVY, MIDDLE, LIGHT = 0.9, 0.6, 0.35  # rules: outside, under the header, between rows


class _Grid(Struct, frozen=True):
    """Where the columns stand and how their cells are aligned, and the looks of the table."""

    desk: Desk
    lefts: tuple[float, ...]
    widths: tuple[float, ...]
    aligns: tuple[str, ...]
    plain: Look
    strong: Look


class _Cell(Struct, frozen=True):
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
    if widths and style.tables == "fit" and _cramped(desk, block, widths, plain, strong):
        widths = None
    if widths is None and style.tables == "grid":
        widths = tuple(desk.width / len(block.columns) for _ in block.columns)
    if widths is None:
        strips = _as_list(desk, block, parent, plain)
    else:
        step = COLUMN_GAP * size
        aligns = tuple(column.align for column in block.columns)
        lefts = tuple(math.fsum(widths[:index]) + index * step for index in range(len(widths)))
        strips = _as_grid(_Grid(desk, lefts, widths, aligns, plain, strong), block, parent)
    strips += _footnotes(desk, block, parent)
    if block.anchor:
        strips[0] = replace(strips[0], anchors=(block.anchor, *strips[0].anchors))
    if block.follows:
        strips[0] = replace(strips[0], cost=WIDOW)
    return spaced(strips, 0.5 * desk.line, 0.5 * desk.line)


def fits(desk: Desk, block: Table) -> bool:
    """Whether a table stands in rows and columns on this desk, or would be told as a list."""
    style = desk.style
    plain = style.look(style.type.table, family=style.type.tables)
    strong = style.look(style.type.table, strong=True, family=style.type.tables)
    widths = _column_widths(desk, block, plain, strong) if style.tables != "list" else None
    return widths is not None and not _cramped(desk, block, widths, plain, strong)


def _column_widths(desk: Desk, block: Table, plain: Look, strong: Look) -> tuple[float, ...] | None:
    """Widths that hold every unbreakable run, spare width shared by need and weight; where cells must turn to further
    lines, as makes the table lowest. None if the page is too narrow.
    """
    narrow, natural = [], []
    for index, column in enumerate(block.columns):
        cells = [(column.header, strong)]
        cells += [(row.cells[index], _row_look(row, plain, strong)) for row in block.rows if row.kind != "group"]
        measured = [desk.widths(words, look) for words, look in cells]
        narrow.append(max(low for low, _ in measured) + 0.5)
        natural.append(max(high for _, high in measured) + 0.5)
    weights = [column.weight for column in block.columns]
    room = desk.width - COLUMN_GAP * plain.size * (len(weights) - 1)
    if math.fsum(narrow) > room:
        return None
    if math.fsum(natural) <= room:
        shares = [wide * weight for wide, weight in zip(natural, weights, strict=True)]
        spare = room - math.fsum(natural)
        return tuple(wide + spare * share / math.fsum(shares) for wide, share in zip(natural, shares, strict=True))
    by_weight, by_need = _filled(narrow, natural, weights, room), _by_need(narrow, natural, room)
    ways = (tuple(a + share * (b - a) for a, b in zip(by_weight, by_need, strict=True)) for share in SHARES_BY_NEED)
    return min(ways, key=lambda widths: _lines_in_all(desk, block, widths, plain, strong))


def _by_need(narrow: Sequence[float], natural: Sequence[float], room: float) -> tuple[float, ...]:
    """Every column as wide as it must be, the rest shared by what each lacks to stand in single lines."""
    spare = (room - math.fsum(narrow)) / (math.fsum(natural) - math.fsum(narrow))
    return tuple(low + spare * (high - low) for low, high in zip(narrow, natural, strict=True))


def _lines_in_all(desk: Desk, block: Table, widths: Sequence[float], plain: Look, strong: Look) -> int:
    """How many lines the rows take together, the heading as well."""
    rows = [(row.cells, _row_look(row, plain, strong)) for row in block.rows if row.kind != "group"]
    rows.append((tuple(column.header for column in block.columns), strong))
    return sum(
        max(desk.count(words, look, width, ragged=True) for words, width in zip(cells, widths, strict=True))
        for cells, look in rows
    )


def _cramped(desk: Desk, block: Table, widths: Sequence[float], plain: Look, strong: Look) -> bool:
    """Whether a cell would stand in so many short lines that the eye loses its row."""
    return any(
        desk.widths(words, _row_look(row, plain, strong))[1] > TALLEST * width
        for row in block.rows
        if row.kind != "group"
        for words, width in zip(row.cells, widths, strict=True)
    )


def _filled(
    narrow: Sequence[float], natural: Sequence[float], weights: Sequence[float], room: float
) -> tuple[float, ...]:
    """Columns that need no more than their fair share get what they need; the others share the rest by weight."""
    widths: dict[int, float] = {}
    while len(widths) < len(narrow):
        open_ = [index for index in range(len(narrow)) if index not in widths]
        left = room - math.fsum(widths.values())
        whole = math.fsum(weights[index] for index in open_)
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
    head = Node("TR", Node("THead", tree))
    columns = tuple(Node("TH", head, attributes=(("Scope", "Column"),)) for _ in block.columns)
    header = _header(grid, block, columns)
    again = headings = _as_artifact(header)
    body, group = Node("TBody", tree), None
    strips = kept([*caption, header])
    for number, row in enumerate(block.rows):
        last = number == len(block.rows) - 1
        after_group = number > 0 and block.rows[number - 1].kind == "group"
        cost = IN_TABLE * (6 if last or number == 1 else 1)
        if number == 0 or after_group or row.kind == "total":
            cost = NEVER
        repeat = headings if row.kind == "group" else again
        if row.kind == "group":
            body = Node("TBody", tree) if number else body
            group = _group_header(block, Node("TR", body))
            made = _group(grid, row, group, last=last)
        else:
            made = _row(grid, row, _row_nodes(block, Node("TR", body), columns, group), last=last)
        strips.append(replace(made, cost=cost, repeat=repeat))
        if row.kind == "group":
            again = stacked([headings, _as_artifact(_group(grid, _continued(row), Node("TH"), last=False))])
    return whole_if_short(strips, SMALL * grid.desk.height)


def _as_artifact(strip: Strip) -> Strip:
    """The same strip as it is set again on later pages, where readers of tags have no need of it."""
    return replace(strip, marks=[Mark(None, mark.items, mark.x, mark.y, pagination=True) for mark in strip.marks])


def _continued(row: Row) -> Row:
    return Row(((*pieces_of(row.cells[0]), " (continued)"),), "group")


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
    writing = any(isinstance(piece, Blank) for cell in cells for piece in pieces_of(cell.words))
    pad = (WRITING_PAD if writing else PAD) * grid.plain.size
    marks = [
        mark.moved(left, pad + (inner - column.height if foot else 0.0))
        for column, left in zip(columns, grid.lefts, strict=True)
        for mark in column.marks
    ]
    return inner + 2 * pad, marks


def _group_header(block: Table, row: Node) -> Node:
    return Node("TH", row, attributes=(("Scope", "Row"), ("ColSpan", len(block.columns))))


def _row_nodes(block: Table, row: Node, columns: Sequence[Node], group: Node | None) -> list[Node]:
    """The cells of a row. Under the heading of a group each names it beside its column and row, which do not lead to it
    (ISO 32000-1, 14.8.5.7, Headers).
    """
    above: tuple[Node, ...] = (group,) if group else ()
    scope: tuple[tuple[str, str | int], ...] = (("Scope", "Row"),)
    naming = {
        index: Node("TH", row, attributes=scope, headers=(columns[index], *above) if group else ())
        for index, column in enumerate(block.columns)
        if column.row_header
    }
    return [
        naming.get(index) or Node("TD", row, headers=(columns[index], *above, *naming.values()) if group else ())
        for index in range(len(block.columns))
    ]


def _header(grid: _Grid, block: Table, nodes: Sequence[Node]) -> Strip:
    cells = [
        _Cell(column.header, column.align, grid.strong, node) for column, node in zip(block.columns, nodes, strict=True)
    ]
    height, marks = _cells(grid, cells, foot=True)
    colours, width = grid.desk.style.colours, grid.desk.width
    rules = (
        Rule(0, 0, width, 0, HEAVY, colours.ink),
        Rule(0, height, width, height, MIDDLE, colours.ink),
    )
    return Strip(height, [*marks, Mark(None, rules)])


def _group(grid: _Grid, row: Row, node: Node, *, last: bool) -> Strip:
    look = grid.strong._replace(colour=grid.desk.style.colours.accent)
    body = stacked(grid.desk.text(row.cells[0], node, look, ragged=True))
    height = body.height + 2.6 * PAD * grid.plain.size
    marks = [mark.moved(0.0, 1.8 * PAD * grid.plain.size) for mark in body.marks]
    return Strip(height, [*marks, Mark(None, (_foot(grid, height, last=last),))])


def _row(grid: _Grid, row: Row, nodes: Sequence[Node], *, last: bool) -> Strip:
    look = _row_look(row, grid.plain, grid.strong)
    cells = [_Cell(words, align, look, node) for words, align, node in zip(row.cells, grid.aligns, nodes, strict=True)]
    height, marks = _cells(grid, cells)
    foot = _foot(grid, height, last=last)
    head = Rule(0, 0, grid.desk.width, 0, MIDDLE, grid.desk.style.colours.ink)
    return Strip(height, [*marks, Mark(None, (head, foot) if row.kind == "total" else (foot,))])


def _foot(grid: _Grid, height: float, *, last: bool) -> Rule:
    colours = grid.desk.style.colours
    return Rule(0, height, grid.desk.width, height, HEAVY if last else LIGHT, colours.ink if last else colours.rule)


def _footnotes(desk: Desk, block: Table, parent: Node) -> list[Strip]:
    look = desk.style.look(desk.style.type.small, family=desk.style.type.tables, colour=desk.style.colours.quiet)
    strips: list[Strip] = []
    for note in block.footnotes:
        strips.extend(spaced(desk.text(note, Node("P", parent), look, ragged=True), 0.25 * desk.line, 0.0))
    return [replace(strip, cost=NEVER) for strip in strips]


def _as_list(desk: Desk, block: Table, parent: Node, plain: Look) -> list[Strip]:
    """Every row as a list item: the cells that name the row first, then one line for each other cell."""
    naming = [index for index, column in enumerate(block.columns) if column.row_header] or [0]
    units = next(
        (piece for column in block.columns for piece in pieces_of(column.header) if isinstance(piece, Second)), ""
    )
    named = (*pieces_of(block.caption), units) if block.caption else ""  # of all cells, told once
    title = desk.text(named, Node("P", parent), plain._replace(face=f"{plain.face}-bold"), ragged=True)
    strips = spaced(kept(title), 0.0, 0.3 * desk.line)
    tree = Node("L", parent, attributes=(("ListNumbering", "None"),))
    opened = bool(strips)  # a title, or the name of a group, stays with the row after it
    for row in block.rows:
        body = Node("LBody", Node("LI", tree))
        head: Words = row.cells[0]
        if row.kind != "group" and len(naming) > 1:
            head = tuple(piece for index in naming for piece in (row.cells[index], ", "))[:-1]  # type: ignore[assignment]
        look = plain._replace(colour=desk.style.colours.accent) if row.kind == "group" else plain
        lines = desk.text((Strong(head),), Node("P", body), look, ragged=True)
        if row.kind != "group":
            lines += _cells_told(desk, block, row, naming, body, plain)
        item = spaced(kept(lines), 0.4 * desk.line, 0.4 * desk.line)
        if opened:
            item[0] = replace(item[0], cost=NEVER)
        opened = row.kind == "group"
        strips += item
    return strips


def _cells_told(
    desk: Desk, block: Table, row: Row, naming: Sequence[int], body: Node, plain: Look
) -> list[Strip]:  # fmt: skip
    """The cells of a row that do not name it, each after the name of its column; short ones share a line."""
    lines: list[Strip] = []
    apart = 1.2 * plain.size
    end = float("inf")
    for index, column in enumerate(block.columns):
        if index in naming or not row.cells[index]:
            continue
        named = tuple(piece for piece in pieces_of(column.header) if not (block.caption and isinstance(piece, Second)))
        said = (Strong((*named, ": ") if plain_text(named).strip() else named), *pieces_of(row.cells[index]))
        wide = desk.widths(said, plain)[1] + 1
        left = end + apart if end + apart + wide <= desk.width else plain.size
        made = desk.text(said, Node("P", body), plain, x=left, ragged=True)
        if left > plain.size:
            lines[-1] = beside(lines[-1], made[0], 0.0)
        else:
            lines += made
        end = left + wide if len(made) == 1 else float("inf")
    return lines
