"""Figures with their captions: never larger than the column, never scaled if they say they are full size."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from slath.booklet.blocks import ContentError, Photograph, Strong, pieces_of
from slath.booklet.desk import Desk, spaced
from slath.booklet.laid import MM, Drawing, Mark, Node, Picture
from slath.booklet.reading import plain
from slath.booklet.strips import NEVER, Strip, beside, stacked
from slath.booklet.tiling import tiles
from slath.drawing.scene import Scene

if TYPE_CHECKING:
    from collections.abc import Sequence

    from slath.booklet.blocks import Figure
    from slath.booklet.laid import Item

LARGEST_SCALE = 1.5  # a figure on a page of its own grows no further
WHOLE_SERIES = 0.9  # of the column; figures of one kind together higher than this stand apart


@dataclass(frozen=True, slots=True)
class Sized:
    """A figure as large as it will be printed, in points."""

    figure: Figure
    width: float
    height: float
    scale: float

    def item(self, x: float) -> Item:
        """What is painted, its left edge at ``x``."""
        picture = self.figure.picture
        if isinstance(picture, Photograph):
            return Picture(x, 0.0, self.width, self.height, picture)
        return Drawing(x, 0.0, picture, self.scale)


def natural_size(figure: Figure) -> tuple[float, float]:
    """Width and height of the picture in points, unscaled. Raises `ContentError` for a file that is no picture."""
    picture = figure.picture
    if not isinstance(picture, Photograph):
        return picture.width * MM, picture.height * MM
    from io import BytesIO  # noqa: PLC0415

    from PIL import Image, ImageOps, UnidentifiedImageError  # noqa: PLC0415  (only photographs need it)

    try:
        with Image.open(BytesIO(picture.data)) as image:
            across, down = ImageOps.exif_transpose(image).size
    except UnidentifiedImageError as error:
        raise ContentError(f"the photograph {picture.title!r} is neither JPEG nor PNG") from error
    return picture.width * MM, picture.width * MM * down / across


def sized(desk: Desk, figure: Figure, room: float, tallest: float) -> Sized:
    """Scale a figure into ``room`` by ``tallest`` points; a full-size one stays as it is."""
    width, height = natural_size(figure)
    if figure.full_size:
        return Sized(figure, width, height, 1.0)
    largest = max(desk.style.figures.largest, LARGEST_SCALE if figure.width == "page" else 1.0)
    scale = min(largest, room / width, tallest / height)
    return Sized(figure, width * scale, height * scale, scale)


def figure(desk: Desk, block: Figure, parent: Node, *, x: float | None = None) -> list[Strip]:
    """A figure in the flow, its caption below it. One strip."""
    if isinstance(block.picture, Scene) and block.full_size and _too_large(desk, block):
        return tiles(desk, block, block.picture, parent)
    own_page = block.width == "page"
    left = 0.0 if x is None else x
    caption = caption_strips(desk, block, Node("Caption", parent), left, desk.width - left)
    below = 0.4 * desk.line + sum(strip.height for strip in caption)
    tallest = desk.height - below if own_page else min(desk.style.figures.tallest * desk.height, desk.height - below)
    drawn = sized(desk, block, desk.width - left, tallest)
    if left + drawn.width < desk.width and not own_page and desk.indent and drawn.width <= desk.width - desk.indent:
        left = max(left, desk.indent)
        caption = caption_strips(desk, block, Node("Caption", parent), left, desk.width - left)
    strip = placed(drawn, caption, parent, left, 0.4 * desk.line)
    strip = replace(strip, starts="column" if own_page else "", wide=left + drawn.width > desk.reading.width)
    return spaced([strip], 0.9 * desk.line, 1.0 * desk.line)


def in_series(figures: Sequence[Figure]) -> list[tuple[Figure, ...]]:
    """Figures that follow one another and show the same for several sizes, together; every other figure alone."""
    groups: list[list[Figure]] = []
    for each in figures:
        if groups and each.series and each.series == groups[-1][0].series:
            groups[-1].append(each)
        else:
            groups.append([each])
    return [tuple(group) for group in groups]


def beside_text(desk: Desk, group: Sequence[Figure], parent: Node) -> list[Strip]:
    """Figures for the outer column, a strip each, the last over the caption of all; nothing if one is too wide for it."""
    if not desk.outer or any(each.full_size or natural_size(each)[0] > desk.outer + 0.5 for each in group):
        return []
    x = desk.width - desk.outer
    strips = []
    for each in group:
        caption = caption_strips(desk, _named(each), Node("Caption", parent), x, desk.outer)
        drawn = sized(desk, each, desk.outer, 0.8 * desk.height)
        strips += spaced([placed(drawn, caption, parent, x, 0.25 * desk.line)], 0.8 * desk.line, 0.0)
    return _said_once(desk, strips, group[-1], parent, x, apart=True)


def in_rows(desk: Desk, group: Sequence[Figure], parent: Node, x: float) -> list[Strip]:
    """Figures of one kind in the flow: as many next to one another as the column holds, under one caption."""
    gap = 1.6 * desk.style.type.body
    words = 3 * desk.leading(desk.style.type.caption) + 0.7 * desk.line  # of captions, below the last of them
    tallest = min(desk.style.figures.tallest * desk.height, desk.height - words)
    rows: list[list[Sized]] = []
    left = 0.0
    for each in group:
        drawn = sized(desk, each, desk.width - x, tallest)
        if rows and left + gap + drawn.width <= desk.width - x + 0.5:
            rows[-1].append(drawn)
            left += gap + drawn.width
        else:
            rows.append([drawn])
            left = drawn.width
    strips = []
    for row in rows:
        left, strip = x, Strip(0.0)
        for drawn in row:
            said = caption_strips(
                desk, _named(drawn.figure), Node("Caption", parent), left, max(drawn.width, desk.outer)
            )
            strip = beside(strip, placed(drawn, said, parent, left, 0.25 * desk.line), 0.0)
            left += drawn.width + gap
        strips += spaced([replace(strip, wide=left - gap > desk.reading.width)], 0.9 * desk.line, 1.0 * desk.line)
    return _said_once(desk, strips, group[-1], parent, x)


def _named(figure: Figure) -> Figure:
    """A figure of a series with the words that tell it apart for a label; its own label stands with what all show."""
    return replace(figure, label=plain(figure.caption), caption="") if figure.series else figure


def _said_once(
    desk: Desk, strips: list[Strip], last: Figure, parent: Node, x: float, *, apart: bool = False
) -> list[Strip]:
    """What a series shows, below the last of its figures; all as one strip if a column can hold it, unless ``apart``."""
    if not last.series:
        return strips
    said = caption_strips(
        desk, replace(last, caption=last.series), Node("Caption", parent), x, desk.outer or desk.width - x
    )
    foot = spaced([stacked(said)], 0.25 * desk.line, strips[-1].below)
    whole = stacked([*strips, *foot])
    if whole.height <= WHOLE_SERIES * desk.height and not apart:
        return [whole]
    return [*strips[:-1], stacked([strips[-1], *foot])]


def _too_large(desk: Desk, block: Figure) -> bool:
    """Whether a figure at its full size needs more than one page."""
    width, height = natural_size(block)
    caption = caption_strips(desk, block, Node("Caption"), 0.0, desk.width)
    return width > desk.width + 0.5 or height + 0.4 * desk.line + sum(strip.height for strip in caption) > desk.height


def placed(drawn: Sized, caption: list[Strip], parent: Node, x: float, below: float) -> Strip:
    """A figure of known size over its caption, as one strip."""
    node = Node("Figure", parent, alt=drawn.figure.spoken, attributes=(("Placement", "Block"),))
    marks = [Mark(node, (drawn.item(x),))]
    height = drawn.height
    if caption:
        words = stacked(caption)
        marks += [mark.moved(0.0, height + below) for mark in words.marks]
        height += below + words.height
    anchors = (drawn.figure.anchor,) if drawn.figure.anchor else ()
    return Strip(height, marks, anchors=anchors)


def caption_strips(desk: Desk, block: Figure, node: Node, x: float, width: float) -> list[Strip]:
    """The label in bold and the caption, in the quiet colour."""
    style = desk.style
    look = style.look(style.type.caption, family=style.type.tables, colour=style.colours.quiet)
    caption = pieces_of(block.caption) if block.caption else ()
    label = (Strong(block.label),) if block.label else ()
    words = (*label, "  " if label and caption else "", *caption)
    if not label and not caption:
        return []
    return [replace(strip, cost=NEVER) for strip in desk.text(words, node, look, x=x, width=width, ragged=True)]
