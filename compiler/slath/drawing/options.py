"""How figures are wanted: width, lettering, hand, and the voice of the booklet they stand in."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from slath.messages import Message, Voice

IN_ENGLISH = Voice({})
LEAST_TEXT_PT = 7.5  # smaller lettering does not print safely on a home printer
LEAST_STROKE_MM = 0.25


class Options(Struct, frozen=True):
    """What a figure may not decide for itself.

    `width_mm` is the room across the page and `tallest_mm` the most height a plan or view should take; figures are laid
    out for them and need no scaling. `column_mm` is the height of a column of the page, for figures that stand together. `sheet_mm` is the room for sheets at full size. `text_pt` is the size of labels,
    not under 7.5. `mirrored` draws for work that runs right to left: geometry is mirrored, and words name the other hand.
    `lettered` shows measures as letters, to be looked up in a table for several sizes (see `Plate.measured`).
    `voice` is that of the booklet: its language, vocabulary and units. Every word of a figure is a message that it says.
    """

    width_mm: float = 112.0
    tallest_mm: float = 150.0
    column_mm: float = 235.0
    sheet_mm: tuple[float, float] = (184.0, 250.0)
    text_pt: float = LEAST_TEXT_PT
    mirrored: bool = False
    lettered: bool = False
    voice: Voice = IN_ENGLISH
    paper: str = "#ffffff"
    ink: str = "#231f1a"
    quiet: str = "#625b51"

    def say(self, said: Message) -> str:
        """A message in the words of the booklet, for the hand the figure is drawn for."""
        return replace(self.voice, mirrored=self.mirrored).text(said)

    def measure(self, mm: float) -> str:
        """A length as the booklet prints it."""
        return self.voice.length(mm)
