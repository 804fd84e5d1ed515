"""Steps: number hanging, cautions first, figures beside or above, counts last; what belongs together never parts."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from slath.booklet.blocks import TickBox, pieces_of
from slath.booklet.desk import Desk, hang, spaced
from slath.booklet.figures import beside_text, caption_strips, figure, in_rows, in_series, natural_size, placed, sized
from slath.booklet.laid import Node
from slath.booklet.strips import IN_STEP, NEVER, Strip, beside, kept, stacked, total_height
from slath.booklet.words import caution, count_box, label_mark

if TYPE_CHECKING:
    from slath.booklet.blocks import Figure, Step, Words
    from slath.booklet.lines import Look

BESIDE_LIMIT = 0.46  # of the column, the widest figure that may stand beside its step
NARROWEST_TEXT = 15.0  # ems of text left beside a figure
SHORT = 0.12  # of the column; a step whose words are no longer than this is parted only to save the page
SHORT_PARTED = 1500.0
# What it costs to part the words of a step without a title from its figures, and cautions from each other.
PARTED = 5000.0
IN_ACTION = 800.0  # and to part the sentence of an action: no page is turned with a stroke half read
FEW_CAUTIONS = 2  # never parted
BETWEEN_FIGURES = 600.0  # and the figures of a step from one another
SIDE_GAP = 1.5  # ems between text and the figure beside it


def step(desk: Desk, block: Step, tree: Node) -> list[Strip]:
    """One step as an item of the list ``tree``: number and title, figures, cautions, actions, notes, counts.

    The last caution never parts from the action. A figure may stand on the next page if the step goes on there.
    """
    item = Node("LI", tree)
    label, body = Node("Lbl", item), Node("LBody", item)
    x = hang(desk)
    reading = desk.reading
    title = kept(reading.text(block.title, Node("P", body), _title_look(desk), x=x, ragged=True)) if block.title else []
    title = spaced(title, 0.0, 0.15 * desk.line)
    small = _beside(desk, block, x)
    figures = _figures(
        desk, replace(block, figures=tuple(each for each in block.figures if each is not small)), body, len(title)
    )
    warnings = _cautions(reading, block, body, x)
    text = _text(
        reading if small is None else replace(reading, width=reading.width - _taken(desk, small)), block, body, x
    )
    if small is not None:
        text = [_with_figure(desk, small, text, body)]
    notes = _notes(desk, block, body, x, text, free=not any(strip.beside for strip in figures))
    counts = [replace(strip, cost=NEVER) for each in block.counts for strip in count_box(reading, each, body, x=x)]
    opening = NEVER if title or warnings else PARTED
    told = [*warnings, replace(text[0], cost=NEVER if warnings else opening), *text[1:], *notes, *counts]
    told[0] = replace(told[0], cost=opening)
    if total_height([strip for strip in told if not strip.beside]) <= SHORT * desk.height:
        told = [replace(strip, cost=max(strip.cost, SHORT_PARTED)) for strip in told]
    strips = [*title, *figures, *told]
    strips = [
        replace(strip, reach=len(strips) - 1 - number)
        if len(title) <= number < len(title) + len(figures) and title
        else strip
        for number, strip in enumerate(strips)
    ]
    strips[0] = replace(strips[0], cost=0.0)
    _hang_number(desk, strips, block, label, titled=bool(title))
    if block.anchor:
        strips[0] = replace(strips[0], anchors=(block.anchor, *strips[0].anchors))
    return spaced(strips, 0.95 * desk.line, 0.95 * desk.line)


def _cautions(desk: Desk, block: Step, body: Node, x: float) -> list[Strip]:
    """The cautions of a step, kept together; so many of them that a page would be left empty for their sake may part."""
    strips = [strip for each in block.cautions for strip in caution(desk, each, body, x=x)]
    many = len(block.cautions) > FEW_CAUTIONS
    return [
        strip if number == 0 else replace(strip, cost=PARTED if many else NEVER) for number, strip in enumerate(strips)
    ]


def _figures(desk: Desk, block: Step, body: Node, titled: int) -> list[Strip]:
    """The figures of a step: those that are narrow enough in the outer column, level with the title; the others above
    the text, figures of one kind next to one another.
    """
    x = hang(desk)
    strips: list[Strip] = []
    step = f"Step {block.number}" if desk.outer else ""  # which a figure in the outer column may stand away from
    for group in in_series([replace(each, label=each.label or step) for each in block.figures]):
        aside = beside_text(desk, group, body) if titled and desk.style.steps.figures == "beside" else []
        if aside:
            strips += [replace(strip, beside=True, back=titled, cost=NEVER) for strip in aside]
        elif len(group) > 1:
            strips += in_rows(desk, group, body, x if all(_fits(desk, each, x) for each in group) else 0.0)
        else:
            strips += figure(desk, group[0], body, x=x if _fits(desk, group[0], x) else 0.0)
    flowing = 0
    for number, strip in enumerate(strips):
        if not strip.beside:
            strips[number] = replace(strip, cost=BETWEEN_FIGURES if flowing else NEVER)
            flowing += 1
    return strips


def _notes(desk: Desk, block: Step, body: Node, x: float, text: list[Strip], *, free: bool) -> list[Strip]:
    """Reasons and remedies: in the outer column beside the actions, where it is free and they are no longer than these,
    else below them.
    """
    if not block.notes:
        return []
    style = desk.style
    quiet = style.look(
        (style.type.body + style.type.small) / 2, emphasis=style.type.text == "serif", colour=style.colours.quiet
    )
    if desk.outer and free and style.steps.figures == "beside":
        left = desk.width - desk.outer
        aside = stacked(
            [
                strip
                for words in block.notes
                for strip in spaced(desk.text(words, Node("P", body), quiet, x=left, ragged=True), 0.4 * desk.line)
            ]
        )
        if aside.height <= total_height(text) + desk.line:
            lower = desk.baseline(style.look(style.type.body)) - desk.baseline(quiet)  # first lines on one baseline
            marks = [mark.moved(0.0, lower) for mark in aside.marks]
            return [replace(aside, height=aside.height + lower, marks=marks, beside=True, back=len(text), cost=NEVER)]
    out: list[Strip] = []
    for words in block.notes:
        strips = spaced(
            desk.reading.text(words, Node("P", body), quiet, x=x, ragged=True), 0.3 * desk.line, 0.2 * desk.line
        )
        out += [replace(strips[0], cost=3 * IN_STEP), *strips[1:]]
    return out


def _hang_number(desk: Desk, strips: list[Strip], block: Step, label: Node, *, titled: bool) -> None:
    """Hang the number on the first line of the step, before whatever stands there."""
    style = desk.style
    look = style.look(style.type.heading_2, strong=True, family=style.type.headings, colour=style.colours.accent)
    level = desk.baseline(_title_look(desk) if titled else style.look(style.type.body))
    strips[0] = replace(strips[0], marks=[label_mark(label, block.number, look, 0.0, level), *strips[0].marks])


def _title_look(desk: Desk) -> Look:
    return desk.style.look(desk.style.type.heading_3, strong=True, family=desk.style.type.headings)


def _text(desk: Desk, block: Step, body: Node, x: float) -> list[Strip]:
    """The actions of a step."""
    style = desk.style
    look = style.look(style.type.body)
    out: list[Strip] = []
    tick: tuple[TickBox, ...] = (TickBox(),) if block.tick else ()
    if style.steps.actions == "together":
        joined = tuple(piece for words in block.actions for piece in (*pieces_of(words), " "))[:-1]
        groups: list[Words] = [(*tick, *joined)]
    else:
        groups = [(*tick, *pieces_of(words)) if number == 0 else words for number, words in enumerate(block.actions)]
    for number, words in enumerate(groups):
        strips = spaced(desk.text(words, Node("P", body), look, x=x, ragged=True), 0.22 * desk.line, 0.22 * desk.line)
        cost = 0.0 if not out else NEVER if number == 0 else IN_STEP
        out += [
            replace(strips[0], cost=cost),
            *(replace(strip, cost=max(strip.cost, IN_ACTION)) for strip in strips[1:]),
        ]
    return out


def _fits(desk: Desk, block: Figure, x: float) -> bool:
    return natural_size(block)[0] <= desk.width - x


def _beside(desk: Desk, block: Step, x: float) -> Figure | None:
    """The one small figure that stands beside the text of this step, if the style and the column allow."""
    if desk.outer or desk.style.steps.figures != "beside":
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
