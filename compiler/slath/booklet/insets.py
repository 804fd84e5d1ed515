"""What stands among words without being words: boxes to write in, patches of colour."""

from __future__ import annotations

from slath.booklet.blocks import Blank, MeasureLetter, SizeRing, TickBox
from slath.booklet.faces import Look, face
from slath.booklet.laid import MM, Area, Drawing, Glyphs, Item, Mark, Node
from slath.booklet.reading import Inset
from slath.drawing.plate.caution_marks import ring
from slath.drawing.plate.plate import LETTER_INK

TICK_FACE, TICK = "serif", "☐"  # the box of the sans family is drawn with a shadow
TICK_GAP = 0.3  # ems after a box to tick
LETTER_FACE = "sans-bold"
CHIP = 0.78  # side of a patch of colour, in ems
CHIP_GAP = 0.24
BOX_RISE, BOX_DROP = 1.02, 0.34  # a box to write in, in ems above and below the baseline
BOX_LINE = "#6b655c"
SQUARE = 1.28  # side of the square of a letter, in ems
RING, RING_GAP = 0.72, 0.3  # across a ring and after it, in ems


def inset_width(inset: Inset, size: float) -> float:
    """The width of an inset among words of ``size`` points."""
    piece = inset.piece
    if isinstance(piece, Blank):
        return piece.width * MM
    if isinstance(piece, TickBox):
        return (face(TICK_FACE).width(TICK) + TICK_GAP) * size
    if isinstance(piece, MeasureLetter):
        return SQUARE * size
    if isinstance(piece, SizeRing):
        return RING * size + RING_GAP * size
    letter = face(LETTER_FACE).width(piece.letter) * size if piece.letter else 0.0
    return CHIP * size + (CHIP_GAP * size + letter if piece.letter else 0.0)


def inset_mark(inset: Inset, parent: Node, x: float, y: float, look: Look) -> list[Mark]:
    """Paint an inset whose left end stands at ``x`` on the baseline ``y``."""
    piece, size, ink = inset.piece, look.size, look.colour
    if isinstance(piece, Blank):
        node = Node("Figure", parent, alt=f"Box to write in: {piece.name}", attributes=(("Placement", "Inline"),))
        box = Area(x, y - BOX_RISE * size, piece.width * MM, (BOX_RISE + BOX_DROP) * size, stroke=BOX_LINE)
        return [Mark(node, (box,))]
    if isinstance(piece, TickBox):
        box_width = face(TICK_FACE).width(TICK) * size
        return [Mark(parent, (Glyphs(x, y, TICK + " ", TICK_FACE, size, ink, box_width),))]
    if isinstance(piece, MeasureLetter):
        return _in_square(piece, parent, (x, y), size)
    if isinstance(piece, SizeRing):
        scene = ring(ink, filled=piece.filled)
        said = "Your size: filled" if piece.filled else "Ring to fill in for your size"
        node = Node("Figure", parent, alt=said, attributes=(("Placement", "Inline"),))
        top = y - 0.5 * face(LETTER_FACE).cap_height * size - RING * size / 2
        return [Mark(node, (Drawing(x, top, scene, RING * size / (scene.width * MM)),))]
    side = CHIP * size
    patch = Area(x, y - side + 0.08 * size, side, side, fill=piece.colour, stroke=ink, line=0.4)
    marks = [Mark(None, (patch,))]
    if piece.letter:
        width = face(LETTER_FACE).width(piece.letter) * size
        letter: Item = Glyphs(x + side + CHIP_GAP * size, y, piece.letter, LETTER_FACE, size, ink, width)
        marks.append(Mark(parent, (letter,)))
    return marks


def _in_square(piece: MeasureLetter, parent: Node, where: tuple[float, float], size: float) -> list[Mark]:
    """A letter in a square, in the middle of its height the capitals of the line."""
    x, y = where
    side, letter = SQUARE * size, 0.88 * size
    cap = face(LETTER_FACE).cap_height
    top = y - 0.5 * cap * size - side / 2
    width = face(LETTER_FACE).width(piece.letter) * letter
    square = Area(x, top, side, side, fill="#ffffff", stroke=LETTER_INK, line=0.7)
    base = y - 0.5 * cap * (size - letter)
    glyphs = Glyphs(x + (side - width) / 2, base, piece.letter, LETTER_FACE, letter, LETTER_INK, width)
    return [Mark(None, (square,)), Mark(parent, (glyphs,))]
