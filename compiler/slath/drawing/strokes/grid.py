"""How the panels of a stroke are laid out: headings, and the measures that all of them share."""

from __future__ import annotations

from msgspec import Struct

from slath.drawing.options import Options
from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width
from slath.drawing.plate.plate import disc_radius
from slath.messages import message

HANG = 0.95  # uprights by which an end hangs down


class Heading(Struct, frozen=True):
    """What a panel shows: the number of the stroke and the letter of the strand that moves, if one does, and words."""

    words: str
    number: str = ""
    letter: str = ""


def heading_room(heading: Heading, options: Options) -> float:
    """Width taken before the words of a heading, mm."""
    if not heading.letter:
        return 0.4
    number = word_width(heading.number, options.text_pt, bold=True)
    return 0.4 + number + 2 * disc_radius(heading.letter, options.text_pt) + 0.75 * options.text_pt * POINT_MM


def heading_lines(heading: Heading, width: float, options: Options) -> list[str]:
    """The words of a heading in the width of a panel: on one line, else parted before the last thing passed."""
    room = width - heading_room(heading, options)
    lines = in_lines(heading.words, room, options.text_pt, bold=True)
    front, comma, back = heading.words.rpartition(", ")
    parted = [f"{front},", back]
    if len(lines) == 2 and comma and all(word_width(line, options.text_pt, bold=True) <= room for line in parted):
        return parted
    return lines


class Grid(Struct, frozen=True):
    """Measures shared by the panels, mm on the page; `first` and `last` are the uprights drawn, 0 is upright 1."""

    columns: int
    width: float
    spacing: float
    first: int
    last: int
    heading_lines: int
    disc_rows: int
    disc: float  # radius of the largest letter's

    @property
    def strand(self) -> float:
        """Width of a strand."""
        return 0.30 * self.spacing

    @property
    def stake(self) -> float:
        """Width of an upright."""
        return 0.32 * self.spacing

    def x(self, at: float) -> float:
        """Page x of a place counted in uprights, in a panel at 0."""
        return (at - self.first + 0.42) * self.spacing

    def disc_step(self, em: float) -> float:
        """Height of a row of letters."""
        return 2 * self.disc + 0.15 * em

    def heading_drop(self, em: float) -> float:
        """Way down to the middle of the first line of a heading, which may hold a letter."""
        return max(0.85 * em, self.disc + 0.1 * em)

    def levels(self, options: Options) -> tuple[float, float, float, float, float]:
        """Ways down from the top of a panel to: tops of uprights, the row, their feet, the section, and its end."""
        em, d = options.text_pt * POINT_MM, self.strand
        top = self.heading_drop(em) + (1.2 * self.heading_lines - 0.4) * em + 0.4
        row = top + 4.6 * d
        hanging = (HANG + 0.1) * self.spacing + 0.72 * em + self.disc + (self.disc_rows - 1) * self.disc_step(em)
        foot = row + max(1.5 * self.spacing, hanging)
        section = foot + 2.8 * em + 2.3 * d
        _, under = self.from_above(options)
        end = section + 3.3 * d + (2.3 if under else 1.2) * em
        return top, row, foot, section, end

    def height(self, options: Options, *, above: bool = True) -> float:
        """Height of a panel with the space after it, with the view from `above` or without."""
        em = options.text_pt * POINT_MM
        _, _, foot, _, end = self.levels(options)
        return (end if above else foot + 1.5 * em) + 0.7 * em

    def from_above(self, options: Options) -> tuple[str, bool]:
        """The words for the view from above, as many as stand beside those for the near side, and whether they stand under
        those instead, because not even the fewest do.
        """
        near = max(
            word_width(options.say(message(key)), options.text_pt)
            for key in ("figure-strokes.towards-you", "figure.outside")
        )
        room = self.width - near - 1.2 * options.text_pt * POINT_MM
        whole, short = (options.say(message("figure-strokes.from-above", short=short)) for short in (False, True))
        if word_width(whole, options.text_pt) < room:
            return whole, False
        return short, word_width(short, options.text_pt) >= room
