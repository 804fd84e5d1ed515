"""Figures with their captions: never larger than the column, never scaled if they say they are full size."""

from __future__ import annotations

import dataclasses
import math

from msgspec import Struct
from msgspec.structs import replace

from slath.booklet.blocks import ContentError, Figure, Photograph, Strong, pieces_of
from slath.booklet.desk import Desk, spaced
from slath.booklet.laid import MM, Drawing, Item, Mark, Node, Picture
from slath.booklet.photographs import shape
from slath.booklet.strips import NEVER, Strip, stacked
from slath.booklet.tiling import tiles
from slath.drawing.scene import Scene

LARGEST_SCALE = 1.5  # a figure on a page of its own grows no further


class Sized(Struct, frozen=True):
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
    try:
        across, down = shape(picture.data)
    except OSError as error:
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


def drawn_for(figure: Figure, width: float, tallest: float) -> Figure | None:
    """The figure drawn for its room, in points, so that it is printed as it is; None where it could not be read there."""
    if figure.at is None:
        return figure
    scene = figure.at(width / MM, tallest / MM)
    return dataclasses.replace(figure, picture=scene) if scene else None


def figure(desk: Desk, block: Figure, parent: Node) -> list[Strip]:
    """A figure in the flow, its caption below it. One strip."""
    if isinstance(block.picture, Scene) and block.full_size and _too_large(desk, block):
        return tiles(desk, block, block.picture, parent)
    own_page = block.width == "page"
    caption = caption_strips(desk, block, Node("Caption", parent), 0.0, desk.width)
    below = 0.4 * desk.line + math.fsum(strip.height for strip in caption)
    tallest = desk.height - below if own_page else min(desk.style.figures.tallest * desk.height, desk.height - below)
    fitted = drawn_for(block, desk.width, tallest)
    if fitted is None and block.instead:
        return figure(desk, dataclasses.replace(block.instead[0], instead=block.instead[1:]), parent)
    drawn = sized(desk, fitted or block, desk.width, tallest)
    strip = placed(drawn, caption, parent, 0.0, 0.4 * desk.line)
    strip = replace(strip, starts="column" if own_page else "")
    return spaced([strip], 0.9 * desk.line, 1.0 * desk.line)


def _too_large(desk: Desk, block: Figure) -> bool:
    """Whether a figure at its full size needs more than one page."""
    width, height = natural_size(block)
    caption = caption_strips(desk, block, Node("Caption"), 0.0, desk.width)
    return (
        width > desk.width + 0.5
        or height + 0.4 * desk.line + math.fsum(strip.height for strip in caption) > desk.height
    )


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
