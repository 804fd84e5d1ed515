"""Steps: number hanging, cautions first, figures beside or above, counts last; what belongs together never parts."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from slath.booklet.blocks import TickBox
from slath.booklet.desk import Desk, spaced
from slath.booklet.figures import caption_strips, figure, natural_size, placed, sized
from slath.booklet.laid import Node
from slath.booklet.strips import IN_STEP, NEVER, Strip, beside, kept, stacked, whole_if_short
from slath.booklet.words import caution, count_box, label_mark

if TYPE_CHECKING:
    from slath.booklet.blocks import Figure, Piece, Step, Words
    from slath.booklet.lines import Look

BESIDE_LIMIT = 0.46  # of the column, the widest figure that may stand beside its step
NARROWEST_TEXT = 15.0  # ems of text left beside a figure
SHORT = 0.3  # of the column; a step no longer than this is parted only to save the page
PARTED = 5000.0  # what it costs to part a figure from its step
ONLY_IF_FORCED = NEVER / 4  # the title of a step goes ahead of its figure where a page cannot hold all that opens it
BETWEEN_FIGURES = 1200.0  # and from the step's other figures
SIDE_GAP = 1.5  # ems between text and the figure beside it


def hang(desk: Desk) -> float:
    """How far the text of a step stands in from the edge of the column, its number hanging before it."""
    return max(desk.indent, 2.3 * desk.style.type.body)


def step(desk: Desk, block: Step, tree: Node) -> list[Strip]:
    """One step as an item of the list ``tree``: number and title, figures, cautions, actions, notes, counts.

    Cautions never part from the action, figures only if a page cannot hold both.
    """
    item = Node("LI", tree)
    label, body = Node("Lbl", item), Node("LBody", item)
    x = hang(desk)
    title = kept(desk.text(block.title, Node("P", body), _title_look(desk), x=x, ragged=True)) if block.title else []
    warnings = [strip for each in block.cautions for strip in caution(desk, each, body, x=x)]
    small = _beside(desk, block, x)
    figures = [
        strip
        for each in block.figures
        if each is not small
        for strip in figure(desk, each, body, x=x if _fits(desk, each, x) else 0.0)
    ]
    text = _text(desk if small is None else replace(desk, width=desk.width - _taken(desk, small)), block, body, x)
    if small is not None:
        text = [_with_figure(desk, small, text, body)]
    counts = [replace(strip, cost=NEVER) for each in block.counts for strip in count_box(desk, each, body, x=x)]
    pictures = [replace(strip, cost=BETWEEN_FIGURES if number else ONLY_IF_FORCED) for number, strip in enumerate(figures)]
    before = [replace(strip, cost=NEVER if number else PARTED) for number, strip in enumerate(warnings)]
    first = replace(text[0], cost=NEVER if warnings or (title and not figures) else PARTED)
    strips = [*spaced(title, 0.0, 0.15 * desk.line), *pictures, *before, first, *text[1:], *counts]
    strips[0] = replace(strips[0], cost=0.0)
    _hang_number(desk, strips, block, label, titled=bool(title))
    strips = whole_if_short(strips, SHORT * desk.height)
    if block.anchor:
        strips[0] = replace(strips[0], anchors=(block.anchor, *strips[0].anchors))
    return spaced(strips, 0.95 * desk.line, 0.95 * desk.line)


def _hang_number(desk: Desk, strips: list[Strip], block: Step, label: Node, *, titled: bool) -> None:
    """Hang the number on the first line of the step, before whatever stands there."""
    style = desk.style
    look = style.look(style.type.heading_2, strong=True, family=style.type.headings, colour=style.colours.accent)
    level = desk.baseline(_title_look(desk) if titled else style.look(style.type.body))
    strips[0] = replace(strips[0], marks=[label_mark(label, block.number, look, 0.0, level), *strips[0].marks])


def _title_look(desk: Desk) -> Look:
    return desk.style.look(desk.style.type.heading_3, strong=True, family=desk.style.type.headings)


def _text(desk: Desk, block: Step, body: Node, x: float) -> list[Strip]:
    """Actions and notes of a step."""
    style = desk.style
    look = style.look(style.type.body)
    out: list[Strip] = []
    tick: tuple[TickBox, ...] = (TickBox(),) if block.tick else ()
    if style.steps.actions == "together":
        joined = tuple(piece for words in block.actions for piece in (*_pieces(words), " "))[:-1]
        groups: list[Words] = [(*tick, *joined)]
    else:
        groups = [(*tick, *_pieces(words)) if number == 0 else words for number, words in enumerate(block.actions)]
    for number, words in enumerate(groups):
        strips = spaced(desk.text(words, Node("P", body), look, x=x, ragged=True), 0.22 * desk.line, 0.22 * desk.line)
        cost = 0.0 if not out else NEVER if number == 0 else IN_STEP
        out += [replace(strips[0], cost=cost), *strips[1:]]
    quiet = style.look(
        (style.type.body + style.type.small) / 2, emphasis=style.type.text == "serif", colour=style.colours.quiet
    )
    for words in block.notes:
        strips = spaced(desk.text(words, Node("P", body), quiet, x=x, ragged=True), 0.3 * desk.line, 0.2 * desk.line)
        out += [replace(strips[0], cost=2 * IN_STEP), *strips[1:]]
    return out


def _pieces(words: Words) -> tuple[Piece, ...]:
    return words if isinstance(words, tuple) else (words,)


def _fits(desk: Desk, block: Figure, x: float) -> bool:
    return natural_size(block)[0] <= desk.width - x


def _beside(desk: Desk, block: Step, x: float) -> Figure | None:
    """The one small figure that stands beside the text of this step, if the style and the column allow."""
    if desk.style.steps.figures != "beside":
        return None
    for each in block.figures:
        if each.width != "small":
            continue
        room = desk.width - x - _width_beside(desk, each) - SIDE_GAP * desk.style.type.body
        if room >= NARROWEST_TEXT * desk.style.type.body and (
            not each.full_size or _width_beside(desk, each) >= natural_size(each)[0]
        ):
            return each
    return None


def _width_beside(desk: Desk, block: Figure) -> float:
    return min(natural_size(block)[0], BESIDE_LIMIT * desk.width)


def _taken(desk: Desk, block: Figure) -> float:
    """How much of the column the figure beside takes, its gap included."""
    return _width_beside(desk, block) + SIDE_GAP * desk.style.type.body


def _with_figure(desk: Desk, block: Figure, text: list[Strip], body: Node) -> Strip:
    """Text on the left, figure on the right, as one strip that never splits."""
    width = _width_beside(desk, block)
    caption = caption_strips(desk, block, Node("Caption", body), 0.0, width)
    drawn = sized(desk, block, width, 0.8 * desk.height)
    right = placed(drawn, caption, body, width - drawn.width, 0.3 * desk.line)
    left = stacked(text)
    return beside(left, right, desk.width - width)
