"""Blocks of words: headings, paragraphs, notices, cautions, counts, lists, definitions."""

from __future__ import annotations

from msgspec.structs import replace

from slath.booklet.blocks import (
    ContentError,
    Definitions,
    Heading,
    Listing,
    Notice,
    Paragraph,
    Strong,
    Words,
    pieces_of,
)
from slath.booklet.desk import Desk, spaced
from slath.booklet.faces import Look, face
from slath.booklet.insets import TICK, TICK_FACE
from slath.booklet.laid import MM, Area, Glyphs, Mark, Node, Rule
from slath.booklet.reading import NO_BREAK, plain
from slath.booklet.strips import IN_TABLE, WIDOW, Strip, in_columns, kept, stacked, total_height, whole_if_short
from slath.booklet.styles import GUTTER

NUMERAL = 11.5 * MM  # side of the square that bears the number of a stage
STAGE_RULE = 1.4  # points
BULLET = "•"
LONGEST_LEAD = 33.0  # ems of a line that opens a part
LONG_FACTS = 0.5  # of the column; facts no higher than this are split only to save the page


def heading(desk: Desk, block: Heading, parent: Node) -> list[Strip]:
    """A heading: its level sets its size; it keeps with what follows."""
    if block.number:
        return _stage(desk, block, parent)
    style, line = desk.style, desk.line
    size = (style.type.heading_1, style.type.heading_2, style.type.heading_3)[block.level - 1]
    node = Node(f"H{block.level + desk.heading_shift}", parent)
    strong = block.level == 3 or style.type.headings == "sans" or block.level == 2
    look = style.look(
        size, strong=strong, family=style.type.headings, colour=style.colours.accent if block.level == 3 else ""
    )
    if block.level == 1 and style.type.headings == "serif":
        look = look._replace(face="serif-display")
    strips = kept(desk.text(block.words, node, look, ragged=True))
    if not strips:
        raise ContentError("a heading without words")
    if block.level == 1:
        strips.append(_flourish(desk))
    strips[0] = replace(
        strips[0], bookmark=(block.level, plain(block.words)), anchors=(block.anchor,) if block.anchor else ()
    )
    above, below = ((1.8, 0.6), (0.9, 0.25), (0.8, 0.2))[block.level - 1]
    strips = kept(strips)
    strips[0] = replace(strips[0], cost=0.0, opens=block.level == 1)
    return spaced(strips, above * line, below * line)


def _stage(desk: Desk, block: Heading, parent: Node) -> list[Strip]:
    """What opens a stage: its number in a square, its name, beside or below it what to have by you, and a rule."""
    style = desk.style
    display = style.look(style.type.heading_1, strong=style.type.headings == "sans", family=style.type.headings)
    if style.type.headings == "serif":
        display = display._replace(face="serif-display")
    side = max(NUMERAL, 1.3 * display.size)
    number = Look("sans-bold", 0.6 * side, "#ffffff")
    wide = face(number.face).width(block.number) * number.size
    node = Node(f"H{block.level + desk.heading_shift}", parent)
    x, gap = side + 0.4 * display.size, 1.2 * style.type.body
    name = desk.widths(block.words, display)[1] + 1.0
    beside_it = style.grid == 3 and x + name + gap < 0.62 * desk.width
    title = stacked(desk.text(block.words, node, display, x=x, width=desk.width - x, ragged=True))
    title = Strip(title.height, [mark.moved(0.0, (side - title.height) / 2) for mark in title.marks])
    base = side / 2 + face(number.face).cap_height * number.size / 2
    figure = Glyphs((side - wide) / 2, base, f"{block.number} ", number.face, number.size, number.colour, wide)
    square = Mark(None, (Area(0, 0, side, side, fill=style.colours.accent),))
    marks = [square, Mark(node, (figure,)), *title.marks]
    left = max(x + name + gap, (desk.width - 2 * GUTTER * MM) / 3 + GUTTER * MM) if beside_it else 0.0
    told = _aside(desk, block, parent, left)
    height = max(side, title.height)
    if told is not None:
        top = max(0.0, (side - told.height) / 2) if beside_it else height + 0.3 * desk.line
        marks += [mark.moved(0.0, top) for mark in told.marks]
        height = max(height, top + told.height)
    rule = height + 0.3 * desk.line
    marks.append(Mark(None, (Rule(0, rule, desk.width, rule, STAGE_RULE, style.colours.accent),)))
    strip = Strip(
        rule + STAGE_RULE,
        marks,
        bookmark=(block.level, plain((f"{block.number} ", *pieces_of(block.words)))),
        anchors=(block.anchor,) if block.anchor else (),
        opens=True,
        stage=block.number,
    )
    return spaced([strip], 1.3 * desk.line, 0.5 * desk.line)


def _aside(desk: Desk, block: Heading, parent: Node, left: float) -> Strip | None:
    """What stands beside the name of a stage: first what to have by you, then how it begins."""
    look = desk.style.look(desk.style.type.table, family=desk.style.type.tables)
    quiet = look._replace(colour=desk.style.colours.quiet)
    strips = [
        strip
        for place, words in enumerate(block.aside)
        for strip in desk.text(words, Node("P", parent), quiet if place else look, x=left, ragged=True)
    ]
    return stacked(strips) if strips else None


def _flourish(desk: Desk) -> Strip:
    """The short accent rule under the heading of a part."""
    rule = Rule(0, 0, min(desk.width, 4.2 * desk.style.type.body), 0, 1.6, desk.style.colours.accent)
    return Strip(1.6, [Mark(None, (rule,))], above=0.35 * desk.line)


def paragraph(desk: Desk, block: Paragraph, parent: Node) -> list[Strip]:
    """Running words, standing in by the style's indent."""
    style = desk.style
    size = {"body": style.type.body, "lead": style.type.lead, "small": style.type.small}[block.role]
    colour = style.colours.quiet if block.role == "small" else ""
    look = style.look(size, colour=colour)
    room = min(desk.width - desk.indent, LONGEST_LEAD * size) if block.role == "lead" else 0.0
    strips = desk.text(block.words, Node("P", parent), look, x=desk.indent, width=room, ragged=block.role == "lead")
    if strips and block.anchor:
        strips[0] = replace(strips[0], anchors=(block.anchor,))
    return spaced(strips, 0.35 * desk.line, 0.35 * desk.line)


def notice(desk: Desk, block: Notice, parent: Node) -> list[Strip]:
    """A sentence that qualifies what follows: emphasised, between two light rules, never parted from what follows."""
    style = desk.style
    look = style.look(style.type.body, emphasis=True)
    strips = desk.text(block.words, Node("P", parent), look, x=desk.indent, ragged=True)
    if not strips:
        return []
    body = stacked(strips)
    pad = 0.3 * desk.line
    rules = tuple(Rule(desk.indent, y, desk.width, y, 0.5, style.colours.rule) for y in (0.0, body.height + 2 * pad))
    marks = [Mark(None, rules), *(mark.moved(0.0, pad) for mark in body.marks)]
    return spaced([Strip(body.height + 2 * pad, marks)], 0.6 * desk.line, 0.6 * desk.line)


def listing(desk: Desk, block: Listing, parent: Node) -> list[Strip]:
    """Items under one another with their bullet, number or box hanging."""
    style = desk.style
    size = style.type.body
    look = style.look(size)
    numbering = {"bullet": "Disc", "number": "Decimal", "tick": "None"}[block.kind]
    tree = Node("L", parent, attributes=(("ListNumbering", numbering),))
    hang = {"bullet": 1.2, "number": 1.9, "tick": 1.6}[block.kind] * size
    out: list[Strip] = []
    for number, words in enumerate(block.items, 1):
        item = Node("LI", tree)
        label = Node("Lbl", item)
        strips = desk.text(words, Node("LBody", item), look, x=desk.indent + hang, ragged=True)
        text = {"bullet": BULLET, "number": f"{number}.", "tick": TICK}[block.kind]
        left = desk.indent + (0.15 * size if block.kind == "bullet" else 0.0)
        own = look._replace(face=TICK_FACE) if block.kind == "tick" else look
        sign = label_mark(label, text, own, left, desk.baseline(look))
        strips[0] = replace(strips[0], marks=[sign, *strips[0].marks])
        out.extend(spaced(strips, 0.18 * desk.line, 0.18 * desk.line))
    return spaced(out, 0.5 * desk.line, 0.5 * desk.line)


def label_mark(node: Node, text: str, look: Look, x: float, baseline: float) -> Mark:
    """A number, bullet or box hanging before words."""
    width = face(look.face).width(text) * look.size
    return Mark(node, (Glyphs(x, baseline, text + " ", look.face, look.size, look.colour, width),))


def definitions(desk: Desk, block: Definitions, parent: Node) -> list[Strip]:
    """Names and meanings. Facts stand in two columns between light rules; a glossary in the columns of the page."""
    tree = Node("L", parent, attributes=(("ListNumbering", "None"),))
    if block.kind == "glossary":
        return _glossary(desk, block, tree)
    out: list[Strip] = []
    for entry in block.entries:
        item = Node("LI", tree)
        strips = _fact(desk, entry.name, entry.meaning, Node("Lbl", item), Node("LBody", item))
        if entry.anchor:
            strips[0] = replace(strips[0], anchors=(entry.anchor,))
        out.extend(strips)
    out = whole_if_short(_rows_together(out), LONG_FACTS * desk.height)
    return spaced(out, 0.6 * desk.line, 0.6 * desk.line)


def _glossary(desk: Desk, block: Definitions, tree: Node) -> list[Strip]:
    """The words in as many columns as the grid has, about as many lines in each; one under another on a narrow page."""
    count, gutter = desk.style.grid, GUTTER * MM
    width = (desk.width - (count - 1) * gutter) / count
    entries = []
    for entry in block.entries:
        strips = _entry(desk.narrowed(width), entry.name, entry.meaning, Node("LBody", Node("LI", tree)))
        entries.append(replace(strips[0], anchors=(entry.anchor,) if entry.anchor else ()))
    if count == 1:
        return spaced(entries, 0.4 * desk.line, 0.4 * desk.line)
    columns: list[list[Strip]] = [[]]
    whole = total_height(entries)
    for strip in entries:
        so_far = total_height(columns[-1])
        if columns[-1] and len(columns) < count and so_far + strip.height / 2 > whole / count:
            columns.append([])
        columns[-1].append(strip)
    made = [stacked(column) for column in columns if column]
    return spaced([in_columns(made, width, gutter)], 0.3 * desk.line, 0.6 * desk.line)


def _rows_together(rows: list[Strip]) -> list[Strip]:
    """Rows of facts, at least two of them on either side of a break."""
    last = len(rows) - 1
    return [
        replace(row, cost=WIDOW if number in {1, last} else IN_TABLE) if number else row
        for number, row in enumerate(rows)
    ]


def _entry(desk: Desk, term: Words, meaning: Words, body: Node) -> list[Strip]:
    """A glossary entry: the word in bold, its meaning after it; further lines stand in."""
    look = desk.style.look((desk.style.type.table + desk.style.type.caption) / 2, family=desk.style.type.tables)
    words = (Strong(term), f" {NO_BREAK}", *pieces_of(meaning))
    return spaced(
        [stacked(desk.text(words, body, look, indent=0.9 * look.size, ragged=True))], 0.1 * desk.line, 0.1 * desk.line
    )


def _fact(desk: Desk, term: Words, meaning: Words, name: Node, body: Node) -> list[Strip]:
    """One row of facts: name on the left in bold sans, what it is on the right, a hairline below."""
    style = desk.style
    size = style.type.table if style.type.table < 18 else style.type.body
    names = style.look(size, strong=True, family=style.type.tables)
    split = min(0.3 * desk.width, 12 * size)
    if desk.width - split < 12 * size:
        split = 0.0
    left = stacked(desk.text(term, name, names, width=(split or desk.width) - size, ragged=True))
    facts = style.look(size, family=style.type.tables)
    right = stacked(desk.text(meaning, body, facts, x=split, ragged=True))
    top = 0.0 if split else left.height
    pad = 0.14 * desk.line
    height = max(left.height, right.height + top) + 2 * pad
    rule = Rule(0, height, desk.width, height, 0.4, style.colours.rule)
    marks = [mark.moved(0, pad) for mark in left.marks] + [mark.moved(0, pad + top) for mark in right.marks]
    return [Strip(height, [*marks, Mark(None, (rule,))])]
