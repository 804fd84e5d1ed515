"""Blocks next to one another, in a frame, lines to write on, and lengths as bars."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from slath.booklet.blocks import Abreast, Bar, Block, Fields, Panel, Words, pieces_of
from slath.booklet.desk import Desk, spaced
from slath.booklet.laid import MM, Area, Mark, Node, Rule
from slath.booklet.strips import Strip, in_columns, kept, stacked
from slath.booklet.styles import GUTTER

SetBlocks = Callable[["Desk", Sequence["Block"], Node], list[Strip]]

HIGHEST = 0.76  # of the page, so that a heading has room over columns that stand next to one another
LEAST_COLUMN = 50.0 * MM  # narrower columns stand under one another
FIELD = 7.4 * MM  # from one line to write on to the next
BAR = 5.0 * MM  # height of a bar
SHADES = ("#6d675f", "#ebe3d3", "#cfc8ba", "#f4f0e8", "#dcd6ca")  # of its parts, told apart in grey as well


def abreast(desk: Desk, block: Abreast, parent: Node, set_blocks: SetBlocks) -> list[Strip]:
    """Columns of one width next to one another as one strip; under one another where they would be too narrow or where
    the page has a single column.
    """
    count, gutter = len(block.columns), GUTTER * MM
    width = (desk.width - (count - 1) * gutter) / count
    if desk.style.grid == 2 and count > 2:
        merged = (block.columns[0], tuple(each for column in block.columns[1:] for each in column))
        return abreast(desk, Abreast(merged), parent, set_blocks)
    if width < LEAST_COLUMN or desk.style.grid == 1:
        return [strip for column in block.columns for strip in set_blocks(desk, column, parent)]
    made = [stacked(set_blocks(desk.narrowed(width), column, parent)) for column in block.columns]
    whole = in_columns(made, width, gutter)
    if whole.height > HIGHEST * desk.height:
        return [strip for column in block.columns for strip in set_blocks(desk, column, parent)]
    return spaced([whole], 0.5 * desk.line, 0.6 * desk.line)


def panel(desk: Desk, block: Panel, parent: Node, set_blocks: SetBlocks) -> list[Strip]:
    """Blocks in a frame. One strip while a page can hold it, else without the frame."""
    style = desk.style
    pad = 0.75 * style.type.body
    node = Node("Sect", parent)
    look = style.look(style.type.heading_3, strong=True, family=style.type.tables)

    def made(inner: Desk) -> list[Strip]:
        title = kept(inner.text(block.title, Node("P", node), look, ragged=True))
        # Each by itself: a caution in a panel is not kept with what follows, as one before an action is.
        told = [strip for each in block.blocks for strip in set_blocks(inner, (each,), node)]
        return [*spaced(title, 0.0, 0.3 * desk.line), *kept([title[-1], told[0]])[1:], *told[1:]]

    body = stacked(made(desk.narrowed(desk.width - 2 * pad)))
    height = body.height + 1.8 * pad
    if height > desk.height:
        return made(desk)
    frame = Mark(None, (Area(0, 0, desk.width, height, stroke=style.colours.ink, line=1.1),))
    return spaced(
        [Strip(height, [frame, *(mark.moved(pad, 0.9 * pad) for mark in body.marks)])], 0.4 * desk.line, 0.4 * desk.line
    )


def fields(desk: Desk, block: Fields, parent: Node) -> list[Strip]:
    """Lines to write on, the name of each over its beginning."""
    style = desk.style
    look = style.look(style.type.caption, family=style.type.tables, colour=style.colours.quiet)
    gap, pitch = 5 * MM, max(FIELD, 1.9 * desk.leading(look.size))
    strips: list[Strip] = []
    for row in block.rows:
        width = (desk.width - gap * (len(row) - 1)) / len(row)
        marks: list[Mark] = []
        for place, name in enumerate(row):
            x = place * (width + gap)
            said = stacked(desk.text(name, Node("P", parent), look, x=x, width=width, ragged=True))
            marks += [mark.moved(0.0, pitch - said.height) for mark in said.marks]
            marks.append(Mark(None, (Rule(x, pitch, x + width, pitch, 0.5, style.colours.rule),)))
        strips.append(Strip(pitch, marks))
    return kept(strips)


def bar(desk: Desk, block: Bar, parent: Node) -> list[Strip]:
    """A length with its parts in order, each named below it, one line lower where its name would run into the last."""
    style = desk.style
    small = style.look(style.type.caption, family=style.type.tables, colour=style.colours.quiet)
    bold = style.look(style.type.caption, strong=True, family=style.type.tables)
    strong = style.look(style.type.table, strong=True, family=style.type.tables)
    left = min(0.16 * desk.width, 26 * MM) if style.grid == 3 else 0.0
    name = stacked(desk.text(block.name, Node("P", parent), strong, width=(left or desk.width) - 4, ragged=True))
    top = 0.0 if left else name.height + 2
    room, high = desk.width - left, max(BAR, 1.35 * desk.leading(bold.size))
    marks: list[Mark] = list(name.marks)
    ends: list[float] = []
    x, lowest = left, 0.0
    tree = Node("L", parent, attributes=(("ListNumbering", "None"),))
    for place, (part, much, share) in enumerate(block.parts):
        wide = share * room
        node = Node("LBody", Node("LI", tree))
        shade = SHADES[place % len(SHADES)]
        marks.append(Mark(None, (Area(x, top, wide, high, fill=shade, stroke=style.colours.ink, line=0.5),)))
        inside = desk.widths(much, bold)[1] + 3 <= wide
        look = bold._replace(colour="#ffffff") if place % len(SHADES) == 0 else bold
        if inside:
            text = stacked(desk.text(much, node, look, x=x, width=wide, ragged=True, align="centre"))
            marks += [mark.moved(0.0, top + (high - text.height) / 2) for mark in text.marks]
        words: Words = part if inside else (*pieces_of(part), " ", *pieces_of(much))
        needs = desk.widths(words, small)[1] + 1
        middle = min(max(x + wide / 2 - needs / 2, left), desk.width - needs)
        row = next((line for line, end in enumerate(ends) if end + 4 <= middle), len(ends))
        ends[row : row + 1] = [middle + needs]
        said = stacked(desk.text(words, node, small, x=middle, width=needs + 2, ragged=True))
        level = top + high + 1.5 + row * desk.leading(small.size)
        marks += [mark.moved(0.0, level) for mark in said.marks]
        lowest = max(lowest, level + said.height)
        x += wide
    return spaced([Strip(max(lowest, name.height), marks)], 0.35 * desk.line, 0.25 * desk.line)
