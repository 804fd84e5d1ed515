"""How figures are wanted: width, lettering, hand, units and the words of one vocabulary."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from msgspec import Struct, field

from slath.messages import Message, Voice
from slath.units.printing import both, both_bit

IN_ENGLISH = Voice({})
LEAST_TEXT_PT = 7.5  # smaller lettering does not print safely on a home printer
LEAST_STROKE_MM = 0.25


class Options(Struct, frozen=True):
    """What a figure may not decide for itself.

    `width_mm` is the room across the page and `tallest_mm` the most height a plan or view should take; figures are laid
    out for them and need no scaling. `column_mm` is the height of a column of the page, for figures that stand together. `sheet_mm` is the room for sheets at full size. `text_pt` is the size of labels,
    not under 7.5. `mirrored` draws for work that runs right to left: geometry is mirrored, words are rewritten.
    `lettered` shows measures as letters, to be looked up in a table for several sizes (see `Plate.measured`).
    `measure` prints a length, `bit` the drill bit for a hole at least so wide; `say` puts a message into the words of the
    booklet; `terms` gives the booklet's word for a trade word (UK words where it has none).
    """

    width_mm: float = 112.0
    tallest_mm: float = 150.0
    column_mm: float = 235.0
    sheet_mm: tuple[float, float] = (184.0, 250.0)
    text_pt: float = LEAST_TEXT_PT
    mirrored: bool = False
    measure: Callable[[float], str] = both
    bit: Callable[[float], str] = both_bit
    terms: Mapping[str, str] = field(default_factory=dict)
    lettered: bool = False
    say: Callable[[Message], str] = IN_ENGLISH.text
    paper: str = "#ffffff"
    ink: str = "#231f1a"
    quiet: str = "#625b51"

    def term(self, word: str) -> str:
        """The booklet's word for a UK trade word, singular or plural as given."""
        return self.terms.get(word, word)

    @property
    def left(self) -> str:
        """The side where a row begins: left, or right for mirrored work."""
        return "right" if self.mirrored else "left"

    @property
    def right(self) -> str:
        """The side towards which work runs."""
        return "left" if self.mirrored else "right"

    @property
    def clockwise(self) -> str:
        """The way round that is clockwise in the unmirrored figure."""
        return "anticlockwise" if self.mirrored else "clockwise"

    @property
    def anticlockwise(self) -> str:
        """The way round that is anticlockwise in the unmirrored figure."""
        return "clockwise" if self.mirrored else "anticlockwise"
