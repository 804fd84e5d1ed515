"""Full-size figures larger than a page: printed on several sheets that overlap and are laid together."""

from __future__ import annotations

import math
from collections.abc import Iterator

from msgspec.structs import replace

from slath.booklet.blocks import ContentError, Figure, Strong, Words
from slath.booklet.desk import Desk
from slath.booklet.laid import MM, Drawing, Mark, Node, Rule
from slath.booklet.strips import Strip, stacked
from slath.drawing.scene import Scene

OVERLAP = 10.0  # mm that neighbouring sheets share
MOST = 24  # sheets; more than that is a mistake in the figure
DASH = (4.0, 3.0)


def tiles(desk: Desk, block: Figure, scene: Scene, parent: Node) -> list[Strip]:
    """One strip a sheet, each opening a page. Raises `ContentError` for a figure of more than 24 sheets."""
    room = desk.width / MM, (desk.height - 5 * desk.line) / MM  # below the drawing stands how sheets join
    across = _starts(scene.width, room[0])
    down = _starts(scene.height, room[1])
    count = len(across) * len(down)
    if count > MOST:
        raise ContentError(
            f"figure {scene.title!r} is printed at full size, {scene.width:.0f} × {scene.height:.0f} mm, "
            f"which takes {count} sheets of {room[0]:.0f} × {room[1]:.0f} mm; {MOST} is the most"
        )
    strips = []
    for row, top in enumerate(down):
        for column, left in enumerate(across):
            window = (left, top, min(room[0], scene.width - left), min(room[1], scene.height - top))
            number = row * len(across) + column + 1
            said = _said(block, number, count, (row, column), (len(down), len(across)))
            strips.append(
                _sheet(
                    desk,
                    Drawing(0.0, 0.0, scene, 1.0, window),
                    said,
                    parent,
                    f"{block.spoken} Sheet {number} of {count}.",
                )
            )
    if block.anchor:
        strips[0] = replace(strips[0], anchors=(block.anchor,))
    return strips


def _starts(length: float, room: float) -> list[float]:
    """Where along a side the sheets begin."""
    count = 1 if length <= room else math.ceil((length - OVERLAP) / (room - OVERLAP))
    return [number * (room - OVERLAP) for number in range(count)]


def _said(block: Figure, number: int, count: int, place: tuple[int, int], whole: tuple[int, int]) -> Words:
    """Which sheet this is, and how it joins the next."""
    title = block.label or block.picture.title
    joins = []
    if place[1] + 1 < whole[1]:
        joins.append("on the right the next sheet’s left edge comes to the dashed line")
    if place[0] + 1 < whole[0]:
        joins.append("below, the top edge of the sheet under it comes to the dashed line")
    how = f" Do not scale. Laid together, {'; '.join(joins)}." if joins else " Do not scale."
    return (Strong(f"{title.rstrip('.')}, sheet {number} of {count}."), how)


def _sheet(desk: Desk, drawing: Drawing, said: Words, parent: Node, spoken: str) -> Strip:
    style = desk.style
    look = style.look(style.type.caption, family=style.type.tables, colour=style.colours.quiet)
    node = Node("Figure", parent, alt=spoken, attributes=(("Placement", "Block"),))
    words = stacked(desk.text(said, Node("Caption", parent), look, ragged=True))
    _, height = drawing.size
    marks = [Mark(node, (drawing,)), Mark(None, tuple(_joining_lines(desk, drawing)))]
    marks += [mark.moved(0.0, height + 0.6 * desk.line) for mark in words.marks]
    return Strip(height + 0.6 * desk.line + words.height, marks, starts="column")


def _joining_lines(desk: Desk, drawing: Drawing) -> Iterator[Rule]:
    """Dashed lines where the neighbouring sheets' edges come, and the edges of this sheet that lie on others."""
    left, top, width, height = drawing.window or (0.0, 0.0, 0.0, 0.0)
    colour = desk.style.colours.quiet
    x, y = (width - OVERLAP) * MM, (height - OVERLAP) * MM
    if left + width < drawing.scene.width - 0.01:
        yield Rule(x, 0.0, x, height * MM, 0.5, colour, DASH)
    if top + height < drawing.scene.height - 0.01:
        yield Rule(0.0, y, width * MM, y, 0.5, colour, DASH)
    if left:
        yield Rule(0.0, 0.0, 0.0, height * MM, 0.5, colour)
    if top:
        yield Rule(0.0, 0.0, width * MM, 0.0, 0.5, colour)
