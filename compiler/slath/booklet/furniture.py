"""What stands on every page beside its content: running head and foot, thumb marks of the stages, whose copy it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from slath.booklet.blocks import Document
from slath.booklet.faces import Look, face
from slath.booklet.laid import MM, OVER_EDGE, Area, Glyphs, Mark
from slath.booklet.styles import Margins, Style

COPY_SIZE = 8.5  # points at most of the line that says whose copy it is
NUMBER_SIZE = 1.15  # of a page, over the size of small words
NUMBER_HEIGHT = 0.72 * NUMBER_SIZE  # of its figures, over the size of small words
DESCENT = 0.25  # how far letters reach below their line, over their size
THUMB = 8.0 * MM, 17.0 * MM  # how far a thumb mark reaches into the page, and how high it is
THUMBS_BEGIN, THUMBS_END = 0.115, 0.9  # of the height of the page, where thumb marks stand
THUMB_STEP = 33.0 * MM  # the most from one to the next
LEAST_THUMB_MARGIN = 11.0  # mm; a narrower outer margin bears none


class Sheet(Struct, frozen=True, dict=True):
    """The paper with its margins, and which stages stand on which page."""

    style: Style
    margins: Margins
    width: float
    height: float
    stages: Sequence[tuple[str, ...]]
    names: Mapping[str, str]

    def recto(self, index: int) -> bool:
        """Whether the outer edge is the right one."""
        return not self.style.two_sided or index % 2 == 0

    def left(self, index: int) -> float:
        """Where the text begins on a page."""
        return (self.margins.inner if self.recto(index) else self.margins.outer) * MM

    @property
    def text(self) -> float:
        """How wide the text is."""
        return self.width - (self.margins.inner + self.margins.outer) * MM


def running(document: Document, sheet: Sheet, index: int) -> Iterator[Mark]:
    """Head and foot: the stage at the outer edge over the page, its number below; the basket and its edition inside."""
    style, recto = sheet.style, sheet.recto(index)
    look = style.look(style.type.small, family=style.type.tables, colour=style.colours.quiet)
    bold = look._replace(face=f"{look.face.removesuffix('-bold')}-bold")
    foot = sheet.height - 0.5 * sheet.margins.bottom * MM
    head = 0.62 * sheet.margins.top * MM
    items = [_edge(str(index + 1), bold._replace(size=NUMBER_SIZE * bold.size), sheet, index, foot, right=recto)]
    if document.foot:
        items.append(_edge(document.foot, look, sheet, index, foot, right=not recto))
    stages = "  ·  ".join(f"{number}  {sheet.names[number]}" for number in sheet.stages[index])
    if stages:
        items.append(_edge(stages, bold._replace(colour=style.colours.accent), sheet, index, head, right=recto))
    if document.head:
        items.append(_edge(document.head, look, sheet, index, head, right=not recto))
    yield Mark(None, tuple(items), pagination=True)


def thumbs(sheet: Sheet, index: int) -> Iterator[Mark]:
    """A place down the outer edge for each stage, those of this page in colour, so that a thumb finds them."""
    names, style = list(sheet.names), sheet.style
    if style.grid == 1 or style.columns > 1 or len(names) < 2 or sheet.margins.outer < LEAST_THUMB_MARGIN:
        return
    deep, high = THUMB
    room = (THUMBS_END - THUMBS_BEGIN) * sheet.height
    step = min(THUMB_STEP, room / len(names))
    high = min(high, 0.8 * step)
    recto = sheet.recto(index)
    over = OVER_EDGE * MM
    areas: list[Area] = []
    glyphs: list[Glyphs] = []
    for place, number in enumerate(names):
        top = THUMBS_BEGIN * sheet.height + place * step
        here = number in sheet.stages[index]
        if here:
            areas.append(
                Area(sheet.width - deep if recto else -over, top, deep + over, high, fill=style.colours.accent)
            )
        colour = "#ffffff" if here else style.colours.quiet
        size = 11.0 if here else 7.5
        wide = face("sans-bold").width(number) * size
        x = (sheet.width - deep if recto else 0.0) + (deep - wide) / 2
        glyphs.append(Glyphs(x, top + high / 2 + 0.33 * size, number, "sans-bold", size, colour, wide))
    if areas:
        yield Mark(None, tuple(areas))
    yield Mark(None, tuple(glyphs), pagination=True)


def copy_mark(style: Style, line: str, index: int, size: tuple[float, float]) -> Mark:
    """Whose copy it is, on the page of this index, above its foot and small enough for the longest name.

    `size` is that of the page in points.
    """
    sheet = Sheet(style, _margins(style, size), *size, (), {})
    look = style.look(min(style.type.small, COPY_SIZE), family=style.type.tables, colour=style.colours.quiet)
    wide = face(look.face).width(line) * look.size
    look = look._replace(size=look.size * min(1.0, sheet.text / wide))
    y = size[1] - 0.5 * style.margins.bottom * MM - NUMBER_HEIGHT * style.type.small - DESCENT * look.size
    right = style.two_sided and index % 2 == 1
    return Mark(None, (_edge(line, look, sheet, index, y, right=right),), pagination=True)


def _margins(style: Style, size: tuple[float, float]) -> Margins:
    """The margins on the paper of a page."""
    papers = (name for name in style.paper if abs(style.sheet(name).points[0] - size[0]) < 1.0)
    return style.margins_on(next(papers, ""))


def _edge(text: str, look: Look, sheet: Sheet, index: int, y: float, *, right: bool) -> Glyphs:
    name, size, colour, _ = look
    wide = face(name).width(text) * size
    x = sheet.left(index)
    return Glyphs(x + (sheet.text - wide if right else 0.0), y, text, name, size, colour, wide)
