"""Pages as they will be printed, in plain records: nothing left to decide. Points, origin top left, y down.

Every piece that is painted belongs to a `Node` of the document's structure or is an artifact (running heads, rules,
tints), so a back end cannot write content that a reader of tags would miss.
"""

from __future__ import annotations

import datetime as dt

from msgspec import Struct, field

from slath.booklet.blocks import Photograph
from slath.drawing.scene import Scene
from slath.units.names import INCH_MM

MM = 72 / INCH_MM  # points in a millimetre (PDF: 1/72 in, ISO 32000-1, 8.3.2.3)
OVER_EDGE = 5.0  # mm that what runs off the page is painted past it: more than any press trims away

Window = tuple[float, float, float, float]  # a part of a scene: left, top, width, height in its millimetres


class Node(Struct, eq=False):
    """One element of the structure tree, under a role of ISO 32000-1, 14.8.4. Its place among its siblings is the
    order of painting. ``target`` makes a Link lead somewhere; ``attributes`` are PDF layout, list or table attributes;
    ``headers`` are the cells that head a cell where its column and row alone do not tell.
    """

    role: str
    parent: Node | None = None
    alt: str = ""
    target: str = ""
    attributes: tuple[tuple[str, str | int], ...] = ()
    headers: tuple[Node, ...] = ()


class Glyphs(Struct, frozen=True):
    """One run of one face on a baseline. ``space`` is added to every word space, as justified lines want."""

    x: float
    y: float
    text: str
    face: str
    size: float
    colour: str
    width: float
    space: float = 0.0


class Rule(Struct, frozen=True):
    """A straight line."""

    x0: float
    y0: float
    x1: float
    y1: float
    width: float
    colour: str
    dash: tuple[float, ...] = ()


class Area(Struct, frozen=True):
    """A rectangle, filled, stroked or both."""

    x: float
    y: float
    width: float
    height: float
    fill: str | None = None
    stroke: str | None = None
    line: float = 0.5


class Drawing(Struct, frozen=True):
    """A scene at a place. ``scale`` 1 is true size; ``window`` shows a part of it only."""

    x: float
    y: float
    scene: Scene
    scale: float = 1.0
    window: Window | None = None

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in points, as shown."""
        _, _, width, height = self.window or (0.0, 0.0, self.scene.width, self.scene.height)
        return width * MM * self.scale, height * MM * self.scale


class Picture(Struct, frozen=True):
    """A photograph at a place."""

    x: float
    y: float
    width: float
    height: float
    photograph: Photograph


Item = Glyphs | Rule | Area | Drawing | Picture


class Mark(Struct, frozen=True):
    """Items that belong to one node, or to none: an artifact, ``pagination`` if it is a running head or foot.

    Items are placed from (x, y). A node without items is an empty cell, which must be in the structure all the same.
    """

    node: Node | None
    items: tuple[Item, ...] = ()
    x: float = 0.0
    y: float = 0.0
    pagination: bool = False

    def moved(self, x: float, y: float) -> Mark:
        """The same mark, shifted."""
        return Mark(self.node, self.items, self.x + x, self.y + y, self.pagination)


class Page(Struct, frozen=True):
    """One page: what is painted, in reading order."""

    number: int
    marks: tuple[Mark, ...]


class Place(Struct, frozen=True):
    """Where an anchor lies: index of the page, distance from its top."""

    page: int
    top: float


class Bookmark(Struct, frozen=True):
    """One line of the outline."""

    title: str
    level: int
    place: Place


class Laid(Struct, frozen=True):
    """A whole booklet, ready to be written."""

    width: float
    height: float
    pages: tuple[Page, ...]
    root: Node
    title: str
    author: str
    subject: str
    keywords: tuple[str, ...]
    language: str
    date: dt.date
    bookmarks: tuple[Bookmark, ...] = ()
    places: dict[str, Place] = field(default_factory=dict)
    full_size: bool = False
    two_sided: bool = False
