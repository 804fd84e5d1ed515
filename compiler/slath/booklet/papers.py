"""Papers by name. ISO 216:2007 gives the A series in whole millimetres; Letter is 8½ × 11 in (ANSI/ASME Y14.1)."""

from __future__ import annotations

from msgspec import Struct

from slath.booklet.laid import MM
from slath.units.names import INCH_MM

BLEED = 3.0  # mm that a printing house wants colour to run past the trim (common practice, no source)
BLEED_IN_INCHES = INCH_MM / 8  # the same where papers are measured in inches (common practice, no source)


class Paper(Struct, frozen=True):
    """A sheet, upright, and how far colour runs past its edge before it is trimmed: millimetres."""

    name: str
    width: float
    height: float
    bleed: float = BLEED

    @property
    def points(self) -> tuple[float, float]:
        """Width and height in points."""
        return self.width * MM, self.height * MM

    def turned(self) -> Paper:
        """The same sheet lying on its long side."""
        return Paper(self.name, self.height, self.width, self.bleed)


PAPERS = {
    paper.name: paper
    for paper in (
        Paper("a4", 210.0, 297.0),
        Paper("a5", 148.0, 210.0),
        Paper("letter", 8.5 * INCH_MM, 11 * INCH_MM, BLEED_IN_INCHES),
        Paper("half-letter", 5.5 * INCH_MM, 8.5 * INCH_MM, BLEED_IN_INCHES),
    )
}
# The sheet that holds two pages side by side.
SHEET_OF = {"a5": "a4", "half-letter": "letter"}
