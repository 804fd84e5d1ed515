"""Blocks of words: headings, paragraphs, notices, cautions, counts, lists, definitions."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from slath.booklet.blocks import ContentError, Strong, pieces_of
from slath.booklet.desk import Desk, spaced
from slath.booklet.faces import face
from slath.booklet.insets import TICK, TICK_FACE
from slath.booklet.laid import Area, Glyphs, Mark, Node, Rule
from slath.booklet.reading import plain
from slath.booklet.strips import IN_TABLE, WIDOW, Strip, beside, kept, stacked, whole_if_short

if TYPE_CHECKING:
    from slath.booklet.blocks import Caution, CountBox, Definitions, Heading, Listing, Notice, Paragraph, Words
    from slath.booklet.lines import Look

SAFETY_BAR, CARE_BAR = 2.4, 1.0  # widths of the bar beside a caution: safety and care differ without colour
BAR_GAP = 0.75  # ems between bar and words
BOX_SIDE = 0.86  # side of a box to tick after a count, in ems
BULLET = "•"
LONGEST_LEAD = 33.0  # ems of a line that opens a part
LONG_FACTS = 0.5  # of the column; facts no higher than this are split only to save the page
# In ems: the column of the words, and the least there must be for a meaning beside.
GLOSSARY_WORD, GLOSSARY_MEANING = 10.0, 26.0


def heading(desk: Desk, block: Heading, parent: Node) -> list[Strip]:
    """A heading: its level sets its size; it keeps with what follows."""
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
    elif block.level == 2 and desk.style.indent:
        strips.insert(0, _stage_rule(desk))
    strips[0] = replace(
        strips[0], bookmark=(block.level, plain(block.words)), anchors=(block.anchor,) if block.anchor else ()
    )
    above, below = ((2.2, 0.8), (1.5, 0.4), (1.0, 0.2))[block.level - 1]
    strips = kept(strips)
    strips[0] = replace(strips[0], cost=0.0, opens=block.level == 1)
    return spaced(strips, above * line, below * line)


def _stage_rule(desk: Desk) -> Strip:
    """The hairline over the heading of a stage."""
    rule = Rule(0, 0, desk.width, 0, 0.6, desk.style.colours.accent)
    return Strip(0.6, [Mark(None, (rule,))], below=0.5 * desk.line)


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
    return spaced(strips, 0.55 * desk.line, 0.55 * desk.line)


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


def caution(desk: Desk, block: Caution, parent: Node, *, x: float | None = None) -> list[Strip]:
    """A caution beside its bar. One strip; whoever sets it keeps it with the action it belongs to."""
    style = desk.style
    size, line = style.type.body, desk.line
    left = desk.indent if x is None else x
    bar = SAFETY_BAR if block.kind == "safety" else CARE_BAR
    inner = left + SAFETY_BAR + BAR_GAP * size
    node = Node("Div", parent)
    label = block.heading.rstrip(".") + "."
    said = Node("P", node)
    family = style.type.text
    look = style.look(size, family=family)
    mark = Strong(label.upper() if block.kind == "safety" else label)
    words = pieces_of(block.words)
    strips = desk.text((mark, " ", *words), said, look, x=inner, ragged=True)
    body = stacked(strips)
    colour = style.colours.ink if block.kind == "safety" else style.colours.accent
    rule = Rule(left + bar / 2, 0.12 * line, left + bar / 2, body.height - 0.08 * line, bar, colour)
    return spaced([Strip(body.height, [Mark(None, (rule,)), *body.marks])], 0.6 * line, 0.6 * line)


def count_box(desk: Desk, block: CountBox, parent: Node, *, x: float | None = None) -> list[Strip]:
    """Stop and count: a tinted ground, a box to tick, the check. One strip."""
    style = desk.style
    size, line = style.type.body, desk.line
    left = desk.indent if x is None else x
    pad = 0.55 * size
    side = BOX_SIDE * size
    inner = left + pad + side + 0.6 * size
    said = Node("P", Node("Div", parent))
    words = pieces_of(block.words)
    label = Strong(block.label.rstrip(".:") + ":")
    strips = desk.text(
        (label, " ", *words), said, style.look(size), x=inner, width=desk.width - inner - pad, ragged=True
    )
    body = stacked(strips)
    height = body.height + 1.2 * pad
    ground = Area(left, 0, desk.width - left, height, fill=style.colours.tint)
    top = 0.6 * pad + (desk.leading(size) - side) / 2
    box = Area(left + pad, top, side, side, fill="#ffffff", stroke=style.colours.ink, line=0.7)
    marks = [Mark(None, (ground, box)), *(mark.moved(0.0, 0.6 * pad) for mark in body.marks)]
    return spaced([Strip(height, marks)], 0.6 * line, 0.6 * line)


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
    """Names and meanings. Facts stand in two columns between light rules; a glossary hangs its meanings."""
    tree = Node("L", parent, attributes=(("ListNumbering", "None"),))
    out: list[Strip] = []
    for entry in block.entries:
        item = Node("LI", tree)
        name, body = Node("Lbl", item), Node("LBody", item)
        strips = _fact(desk, entry.name, entry.meaning, name, body) if block.kind == "facts" else _entry(
            desk, entry.name, entry.meaning, name, body
        )  # fmt: skip
        if entry.anchor:
            strips[0] = replace(strips[0], anchors=(entry.anchor,))
        out.extend(strips)
    if block.kind == "facts":
        out = whole_if_short(_rows_together(out), LONG_FACTS * desk.height)
    return spaced(out, 0.6 * desk.line, 0.6 * desk.line)


def _rows_together(rows: list[Strip]) -> list[Strip]:
    """Rows of facts, at least two of them on either side of a break."""
    last = len(rows) - 1
    return [
        replace(row, cost=WIDOW if number in {1, last} else IN_TABLE) if number else row
        for number, row in enumerate(rows)
    ]


def _entry(desk: Desk, term: Words, meaning: Words, name: Node, body: Node) -> list[Strip]:
    """A glossary entry: the word in bold, its meaning beside it where the column is wide, else below it standing in."""
    look = desk.style.look(desk.style.type.body)
    split = GLOSSARY_WORD * look.size
    if desk.outer and desk.width - split >= GLOSSARY_MEANING * look.size:
        word = stacked(desk.text((Strong(term),), name, look, width=split - look.size, ragged=True))
        meant = stacked(
            desk.text(meaning, body, look, x=split, width=min(desk.width - split, 40 * look.size), ragged=True)
        )
        return spaced([beside(word, meant, 0.0)], 0.28 * desk.line, 0.28 * desk.line)
    hang = 1.4 * look.size
    title = desk.text((Strong(term),), name, look, x=desk.indent, ragged=True)
    lines = desk.text(meaning, body, look, x=desk.indent + hang, ragged=True)
    return spaced(kept([*title, *lines[:1]]) + lines[1:], 0.35 * desk.line, 0.35 * desk.line)


def _fact(desk: Desk, term: Words, meaning: Words, name: Node, body: Node) -> list[Strip]:
    """One row of facts: name on the left in bold sans, what it is on the right, a hairline below."""
    style = desk.style
    size = style.type.table if style.type.table < 18 else style.type.body
    names = style.look(size, strong=True, family=style.type.tables)
    split = min(0.34 * desk.width, 12 * size)
    if desk.width - split < 14 * size:
        split = 0.0
    left = stacked(desk.text(term, name, names, width=(split or desk.width) - size, ragged=True))
    facts = style.look(size, family=style.type.tables)
    right = stacked(desk.text(meaning, body, facts, x=split, ragged=True))
    top = 0.0 if split else left.height
    pad = 0.28 * desk.line
    height = max(left.height, right.height + top) + 2 * pad
    rule = Rule(0, height, desk.width, height, 0.4, style.colours.rule)
    marks = [mark.moved(0, pad) for mark in left.marks] + [mark.moved(0, pad + top) for mark in right.marks]
    return [Strip(height, [*marks, Mark(None, (rule,))])]
