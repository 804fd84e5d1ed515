"""Steps as bands across the page: title with its cautions, counts to be made, figures beside their sentences, sentences
in columns, checks. A band never parts; what must be read before the first sentence never parts from it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from msgspec.structs import replace

from slath.booklet.blocks import Caution, CountBox, Figure, Step
from slath.booklet.desk import Desk, spaced
from slath.booklet.figures import caption_strips, drawn_for, natural_size, placed, sized
from slath.booklet.laid import MM, Mark, Node, Rule
from slath.booklet.sentences import BETWEEN, Told, column, height, sentences, shared
from slath.booklet.strips import IN_STEP, NEVER, WIDOW, Roomy, Strip, beside, kept, stacked, total_height
from slath.booklet.styles import GUTTER
from slath.booklet.tables import fits, table
from slath.booklet.warnings import caution, count_box, marks_of
from slath.booklet.words import label_mark

FROM_FIGURE = 1200.0  # what it costs to turn the page between a figure across it and its sentences
STEP_GAP, RULE_GAP = 0.55, 0.45  # lines between two steps, and from the hairline to a title
LEAST_TABLE = 0.4  # of the page, the narrowest column for the table of the letters of a figure
OVER = 2.5  # lines of text that may stand lower than the figure beside them
CAPTION_LINES = 3.5  # lines a caption under a figure may take, with the space round it
TALL = 0.6  # of the most height, above which a figure drawn across the page is taken to be as high as it is wide
GROWN = 0.6  # of the page, how tall a figure beside its sentences may become where the page has room
LOW = 0.46  # of the column, what a figure across the page takes where there is no more room
HIGHEST = 0.3  # of the column, a band of sentences higher than this is made two


class Shape(NamedTuple):
    """How wide a figure stands in a band, and its text beside it; no text beside if that is 0. Points."""

    figure: float
    text: float


def shapes(desk: Desk) -> list[Shape]:
    """The ways a figure may stand in the grid of the page, the one that gives it most room last."""
    gutter, whole = GUTTER * MM, desk.width
    if desk.style.grid == 3:
        one = (whole - 2 * gutter) / 3
        half = (whole - gutter) / 2
        return [Shape(half, half), Shape(2 * one + gutter, one), Shape(whole, 0.0)]
    if desk.style.grid == 2:
        half = (whole - gutter) / 2
        return [Shape(half, half), Shape(whole, 0.0)]
    return [Shape(whole, 0.0)]


def above(desk: Desk, block: Step) -> float:
    """The space over a step."""
    return (0.35 if block.opens else STEP_GAP) * desk.line


def step(desk: Desk, block: Step, tree: Node) -> list[Strip]:
    """One step as an item of the list ``tree``."""
    item = Node("LI", tree)
    label, body = Node("Lbl", item), Node("LBody", item)
    head = _head(desk, block, label, body)
    before = _lead(desk, block, body)
    # Cautions with a mark are told whole in their panel.
    whole = [each for each in block.cautions if each.kind == "care" or not each.mark]
    told = sentences(block, body)
    stops: list[Told] = []
    if desk.style.grid > 1 and block.figures and not any(figure.room for figure in block.figures):
        due: list[Caution | CountBox] = [*whole, *block.stops]
        stops = [Told(partial(_stop, each, body), head=True) for each in due]
    else:
        before += [strip for each in whole for strip in caution(desk, each, body)]
        before += _counts(desk, block.stops, body)
    bands = _bands(desk, block, [*stops, *told], body)
    after = [replace(strip, cost=WIDOW) for strip in _counts(desk, block.counts, body)]

    def ended(opening: list[Strip], rest: list[Strip]) -> list[Strip]:
        strips = [*kept(opening), *rest]
        anchors = (block.anchor, *strips[0].anchors) if block.anchor else strips[0].anchors
        strips[0] = replace(strips[0], cost=0.0, anchors=anchors)
        return spaced(strips, above(desk, block), STEP_GAP * desk.line)

    strips = ended([head, *before, *bands[:1]], [*bands[1:], *after])

    def parted() -> list[tuple[list[Strip], list[Strip]]]:
        """Its first sentences, and its figures with the others, for the foot of one page and the head of the next."""
        ways = []
        for many in dict.fromkeys((len(told) // 3, len(told) // 2, 2 * len(told) // 3)):
            if 0 < many < len(told) and not told[many - 1].head:
                first = ended([head, *before, *(each.at(desk, desk.width) for each in stops)], [])
                first += kept([first[-1], *_below(desk, told[:many], NEVER)])[1:]
                ways.append((first, [*_bands(desk, block, told[many:], body), *after]))
        return ways

    beside = any(figure.room != "strip" for figure in block.figures)  # first strokes are looked at while they are read
    if desk.style.grid > 1 and beside and not any(each.figure for each in told):
        strips[0] = replace(strips[0], parted=parted, parting=len(strips))
    return strips


def _head(desk: Desk, block: Step, label: Node, body: Node) -> Strip:
    """Number and title under a hairline; the marks of its cautions at the right, or below where the title is long."""
    style = desk.style
    look = style.look(style.type.heading_3, strong=True, family=style.type.headings)
    number = look._replace(colour=style.colours.accent)
    x = desk.widths(block.number, number)[1] + 0.55 * look.size
    rule = 0.0 if block.opens else RULE_GAP * desk.line
    due = [each for each in block.cautions if each.kind == "safety" and each.short]
    said = desk.text(block.title, Node("P", body), look, x=x, width=desk.width - x, ragged=True)
    title = stacked(said) if said else Strip(desk.leading(look.size))
    marks = [label_mark(label, block.number, number, 0.0, desk.baseline(look)), *title.marks]
    strip = Strip(title.height, marks)
    taken = x + (desk.widths(block.title, look)[1] if said else 0.0)
    if due:
        room = desk.width - taken - 1.5 * look.size
        warned = marks_of(desk, due, body, room)
        if warned is not None:
            lower = (title.height - warned.height) / 2
            strip.marks += [mark.moved(desk.width - room, max(lower, 0.0)) for mark in warned.marks]
        else:
            warned = marks_of(desk, due, body, desk.width, rows=True)
            strip = stacked([strip, replace(warned, above=0.15 * desk.line)]) if warned else strip
    if rule:
        line = Mark(None, (Rule(0, 0, desk.width, 0, 0.5, style.colours.rule),))
        strip = Strip(strip.height + rule, [line, *(mark.moved(0.0, rule) for mark in strip.marks)])
    return replace(strip, below=0.35 * desk.line)


def _lead(desk: Desk, block: Step, body: Node) -> list[Strip]:
    """What is read before a part of the work that is told within another stage."""
    if not block.lead:
        return []
    look = desk.style.look(desk.style.type.table, family=desk.style.type.tables, colour=desk.style.colours.quiet)
    return spaced(desk.text(block.lead, Node("P", body), look, ragged=True), 0.0, 0.3 * desk.line)


def _stop(block: Caution | CountBox, body: Node, desk: Desk) -> Strip:
    """What stops the hand, among the sentences it stands before."""
    return stacked(caution(desk, block, body) if isinstance(block, Caution) else count_box(desk, block, body))


def _counts(desk: Desk, counts: Sequence[CountBox], body: Node) -> list[Strip]:
    return [strip for each in counts for strip in count_box(desk, each, body)]


# ------------------------------------------------------------------------------------------------------------- bands
class _Figures(NamedTuple):
    """The figures of a step with the sentences each of them shows; the last entry may show sentences alone."""

    figure: Figure | None
    told: list[Told]


def _bands(desk: Desk, block: Step, told: list[Told], body: Node) -> list[Strip]:
    """Figures and sentences of a step. Whatever holds a figure may be set larger where a page has room."""
    out: list[Strip] = []
    groups = _matched(block, told)
    while groups:
        each = groups.pop(0)
        made = _pair(desk, each, groups[0], body) if groups else []
        if made:
            groups.pop(0)
        else:
            made = _band(desk, each, body)
        if out:
            made[0] = replace(made[0], cost=IN_STEP)
        out += made
    return out


def _pair(desk: Desk, one: _Figures, other: _Figures, body: Node) -> list[Strip]:
    """Two figures without sentences of their own next to one another; nothing where they do not stand so."""
    figures = [each.figure for each in (one, other) if each.figure and not (each.told or each.figure.room)]
    if len(figures) < 2 or desk.style.grid < 2:
        return []
    half = (desk.width - GUTTER * MM) / 2
    drawn = [_drawn(desk, figure, body, half) for figure in figures]
    if drawn[0] is None or drawn[1] is None:
        return []
    return [replace(beside(drawn[0], drawn[1], half + GUTTER * MM), below=0.4 * desk.line)]


def _matched(block: Step, told: list[Told]) -> list[_Figures]:
    """Each figure with its sentences: those told of it by name; else all that are told after it and before the next that
    stands beside text, the last such figure with all that is left.
    """
    names = [each.figure for each in told if each.figure]
    if names:
        groups: list[_Figures] = [_Figures(None, [])]
        left = list(block.figures)
        for each in told:
            if each.figure:  # several of one name are those of sizes with other counts
                alike = [figure for figure in left if figure.picture_name == each.figure]
                left = [figure for figure in left if figure.picture_name != each.figure]
                groups += [_Figures(figure, []) for figure in alike] or [_Figures(None, [])]
            groups[-1].told.append(each)
        groups += [_Figures(figure, []) for figure in left]
        return [group for group in groups if group.figure or group.told]
    across = [_Figures(figure, []) for figure in block.figures if figure.room]
    aside = [_Figures(figure, []) for figure in block.figures if not figure.room]
    groups = [*aside, *across]  # beside its text first what can stand so
    if not groups:
        return [_Figures(None, told)] if told else []
    groups[len(aside) - 1 if aside else -1].told.extend(told)
    return groups


def _band(desk: Desk, each: _Figures, body: Node) -> list[Strip]:
    """One figure with its sentences, in the shape that takes least height, a larger figure counting for something."""
    figure, told = each
    if figure is None:
        return _in_columns(desk, told) if told else []
    ways = shapes(desk)
    if figure.room == "whole" and len(ways) > 1:
        return _low(desk, figure, told, body)
    if figure.room or len(ways) == 1:
        return _across(desk, figure, told, body, desk.width)
    best: list[Strip] = []
    chosen = 0
    for place in sorted((1, 0), key=lambda place: _expected(desk, figure, told, ways[place])):
        best, chosen = _shaped(desk, figure, told, body, ways[place]), place
        if best:
            break
    if not best:
        return _across(desk, figure, told, body, desk.width)

    def larger() -> list[Callable[[], list[Strip]]]:
        return [partial(_shaped, desk, figure, told, body, way, GROWN) for way in reversed(ways[chosen + 1 :])]

    roomy = Roomy(len(best), larger)
    return [replace(strip, roomy=roomy) for strip in best]


def _expected(desk: Desk, figure: Figure, told: list[Told], shape: Shape) -> float:
    """About how high a figure and its sentences become in one shape, without drawing it: a drawing keeps its proportions
    nearly, whatever its width.
    """
    wide, high = natural_size(figure)
    tallest = desk.style.figures.tallest * desk.height
    if high > TALL * tallest:  # as high as it may be across the page, it has room to spare at its sides there
        drawn = min(high, 1.1 * shape.figure, tallest) + 2 * desk.line
    else:
        drawn = min(shape.figure * high / wide, tallest) + 2 * desk.line
    listed = (len(figure.measures.rows) + 1) * 1.3 * desk.line if figure.measures else 0.0

    def high_with(left: float, over: float) -> float:
        """How high it is with ``over`` of the right column taken."""
        taken = _as_many(desk, told, shape.text, left + OVER * desk.line - over)
        rest = told[taken:]
        below = height(desk, rest, (desk.width - 2 * GUTTER * MM) / 3) / desk.style.grid if rest else 0.0
        return max(left, height(desk, told[:taken], shape.text) + over) + below

    under = high_with(drawn + listed, 0.0)
    return min(under, high_with(drawn, listed)) if shape.text >= LEAST_TABLE * desk.width else under


def _shaped(
    desk: Desk, figure: Figure, told: list[Told], body: Node, shape: Shape, tallest: float = 0.0
) -> list[Strip]:  # fmt: skip
    """A figure in one shape, as many of its sentences beside it as it is high, the others in columns below; the table of its
    letters where all becomes lowest, beside it or under it. Nothing where its lettering could not be read.
    """
    if not shape.text:
        return _across(desk, figure, told, body, shape.figure, tallest)
    drawn = _drawn(desk, figure, body, shape.figure, tallest)
    if drawn is None:
        return []
    ways = []
    if figure.measures and not fits(
        desk.narrowed(shape.figure), figure.measures
    ):  # no list where there is room for rows
        strips = _filled(desk, (drawn, None), told, shape)
        listed = _measures(desk, figure, body, desk.width)
        return [strips[0], *([replace(listed, cost=NEVER, below=0.4 * desk.line)] if listed else []), *strips[1:]]
    if not figure.measures or (
        shape.text >= LEAST_TABLE * desk.width and fits(desk.narrowed(shape.text), figure.measures)
    ):
        ways.append(_filled(desk, (drawn, _measures(desk, figure, body, shape.text)), told, shape))
    if figure.measures:
        below = _measures(desk, figure, body, shape.figure)
        under = stacked([drawn, replace(below, above=0.5 * desk.line)]) if below else drawn
        ways.append(_filled(desk, (under, None), told, shape))
    return min(ways, key=total_height)


def _filled(desk: Desk, shown: tuple[Strip, Strip | None], told: list[Told], shape: Shape) -> list[Strip]:
    """What is shown at the left, and at the right its sentences over a table if there is one; the others in columns below."""
    left, listed = shown
    room = left.height + OVER * desk.line
    taken = _as_many(desk, told, shape.text, room - (listed.height + 0.6 * desk.line if listed else 0.0))
    right = column(desk, told[:taken], shape.text)
    if listed:
        right = stacked([right, replace(listed, above=0.6 * desk.line)]) if taken else listed
    strips = [replace(beside(left, right, shape.figure + GUTTER * MM), below=0.4 * desk.line)]
    if told[taken:]:
        strips += _below(desk, told[taken:], IN_STEP)
    return strips


def _as_many(desk: Desk, told: list[Told], width: float, room: float) -> int:
    """How many sentences stand in a column no higher than ``room``; no heading is the last of them."""
    taken = len(told)
    while taken and (height(desk, told[:taken], width) > room or told[taken - 1].head):
        taken -= 1
    return taken


def _across(
    desk: Desk, figure: Figure, told: list[Told], body: Node, width: float, tallest: float = 0.0
) -> list[Strip]:  # fmt: skip
    """A figure across the page, its table and its sentences below it; in a single column never without its table."""
    alone = desk.style.grid == 1
    listed = _measures(desk, figure, body, width if alone else min(width, desk.width * 0.65))
    most = tallest or desk.style.figures.tallest
    if alone and listed:
        most = min(most, max(1 - (listed.height + CAPTION_LINES * desk.line) / desk.height, LOW))
    drawn = _drawn(desk, figure, body, width, most, must=True)
    strips = [replace(drawn, below=0.4 * desk.line)] if drawn else []
    if listed:
        strips.append(replace(listed, cost=NEVER, below=0.4 * desk.line))
    if alone and strips and total_height(strips) <= desk.height:  # one figure and its letters, whole
        strips = [replace(stacked(strips), below=0.4 * desk.line, floats=len(told))]
    if told:
        strips += _below(desk, told, FROM_FIGURE)
    return strips


def _low(desk: Desk, figure: Figure, told: list[Told], body: Node) -> list[Strip]:
    """A figure that takes the whole width, no higher than it must be, but higher where the page has room."""
    most = desk.style.figures.tallest
    strips = _across(desk, figure, told, body, desk.width, min(LOW, most))

    def higher() -> list[Callable[[], list[Strip]]]:
        return [partial(_across, desk, figure, told, body, desk.width, share) for share in (most, (most + LOW) / 2)]

    roomy = Roomy(len(strips), higher)
    return [replace(strip, roomy=roomy) for strip in strips]


def _below(desk: Desk, told: Sequence[Told], cost: float) -> list[Strip]:
    """Sentences under a figure; ``cost`` is what it costs to turn the page between."""
    made = _in_columns(desk, told)
    made[0] = replace(made[0], cost=cost)
    return spaced(made, 0.0, 0.4 * desk.line)


def _in_columns(desk: Desk, told: Sequence[Told]) -> list[Strip]:
    """Sentences in the columns of the page; so many of them that they would leave a page empty stand in several bands."""
    count = desk.style.grid
    if count == 1:
        strips = [replace(each.at(desk, desk.width), above=BETWEEN * desk.line, cost=IN_STEP) for each in told]
        return [
            replace(strip, cost=NEVER) if number and told[number - 1].head else strip
            for number, strip in enumerate(strips)
        ]
    band = shared(desk, told, min(count, max(1, len(told))), GUTTER * MM)
    half = len(told) // 2
    if band.height <= HIGHEST * desk.height or half < count:
        return [band]
    half -= told[half - 1].head
    after = _in_columns(desk, told[half:])
    after[0] = replace(after[0], cost=IN_STEP, above=BETWEEN * desk.line)
    return [*_in_columns(desk, told[:half]), *after]


def _drawn(
    desk: Desk, figure: Figure, body: Node, width: float, tallest: float = 0.0, *, must: bool = False
) -> Strip | None:
    """A figure with its caption, drawn for its width; None where its lettering could not be read, unless it ``must``."""
    tallest = tallest or desk.style.figures.tallest
    fitted = drawn_for(figure, width, tallest * desk.height)
    if fitted is None and not must:
        return None
    caption = caption_strips(desk, figure, Node("Caption", body), 0.0, width)
    set_as = sized(desk, fitted or figure, width, tallest * desk.height)
    return placed(set_as, caption, body, (width - set_as.width) / 2 if not figure.at else 0.0, 0.2 * desk.line)


def _measures(desk: Desk, figure: Figure, body: Node, width: float) -> Strip | None:
    """The table of the letters in a figure."""
    if figure.measures is None:
        return None
    return stacked(table(desk.narrowed(width), figure.measures, body))
