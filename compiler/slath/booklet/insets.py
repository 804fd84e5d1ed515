"""What stands among words without being words: boxes to write in, patches of colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.booklet.blocks import Blank
from slath.booklet.faces import face
from slath.booklet.laid import MM, Area, Glyphs, Item, Mark, Node

if TYPE_CHECKING:
    from slath.booklet.lines import Look
    from slath.booklet.reading import Inset

LETTER_FACE = "sans-bold"
CHIP = 0.78  # side of a patch of colour, in ems
CHIP_GAP = 0.18
BOX_RISE, BOX_DROP = 1.02, 0.34  # a box to write in, in ems above and below the baseline
BOX_LINE = "#6b655c"


def inset_width(inset: Inset, size: float) -> float:
    """The width of an inset among words of ``size`` points."""
    piece = inset.piece
    if isinstance(piece, Blank):
        return piece.width * MM
    letter = face(LETTER_FACE).width(piece.letter) * size if piece.letter else 0.0
    return CHIP * size + (CHIP_GAP * size + letter if piece.letter else 0.0)


def inset_mark(inset: Inset, parent: Node, x: float, y: float, look: Look) -> list[Mark]:
    """Paint an inset whose left end stands at ``x`` on the baseline ``y``."""
    piece, size, ink = inset.piece, look.size, look.colour
    if isinstance(piece, Blank):
        node = Node("Figure", parent, alt=f"Box to write in: {piece.name}", attributes=(("Placement", "Inline"),))
        box = Area(x, y - BOX_RISE * size, piece.width * MM, (BOX_RISE + BOX_DROP) * size, stroke=BOX_LINE)
        return [Mark(node, (box,))]
    side = CHIP * size
    patch = Area(x, y - side + 0.08 * size, side, side, fill=piece.colour, stroke=ink, line=0.4)
    marks = [Mark(None, (patch,))]
    if piece.letter:
        width = face(LETTER_FACE).width(piece.letter) * size
        letter: Item = Glyphs(x + side + CHIP_GAP * size, y, piece.letter, LETTER_FACE, size, ink, width)
        marks.append(Mark(parent, (letter,)))
    return marks
