"""Notes about spots of a figure: blocks of words side by side above it, each with a line to every spot it is about."""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from slath.drawing.options import Options
from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width
from slath.drawing.plate.plate import Plate

LEADING = 1.15  # ems from line to line of a block
_GAP = 1.4  # ems between blocks, enough in any face the reader has


class Note(Struct, frozen=True):
    """Words about one spot of a figure or several, (x, y) in drawing mm."""

    words: str
    spots: tuple[tuple[float, float], ...]

    @property
    def middle(self) -> float:
        """Where it would best stand."""
        return math.fsum(x for x, _ in self.spots) / len(self.spots)


class _Block(Struct, frozen=True):
    note: Note
    lines: tuple[str, ...]
    width: float


def notes_height(notes: Sequence[Note], options: Options) -> float:
    """Height in mm the notes take above a figure, lines to the spots not counted."""
    tiers = _tiers(_blocks(notes, options), options)
    return math.fsum(_tier_height(tier, options) for tier in tiers)


def place_notes(plate: Plate, notes: Sequence[Note], foot: float) -> None:
    """Blocks of notes upwards from `foot`, from left to right as their spots stand, so that no line crosses words."""
    options = plate.options
    tiers = _tiers(_blocks(notes, options), options)
    em = plate.em
    lowest = foot
    placed: list[tuple[_Block, float, float]] = []
    for level, tier in enumerate(tiers):
        higher = tiers[level + 1] if level + 1 < len(tiers) else []
        places = _places(tier, higher, plate.width, em)
        placed += [(block, places[block.note.words], lowest) for block in tier]
        lowest += _tier_height(tier, options)
    for block, middle, low in placed:
        half = max(block.width / 2 - 0.3 * em, 0.0)
        for x, y in block.note.spots:
            plate.line([(min(max(x, middle - half), middle + half), low), (x, y)])
    for block, _, _ in placed:
        for x, y in block.note.spots:
            plate.circle(x, y, 0.55, fill=plate.ink, stroke=plate.paper, width=0.25)
    for block, middle, low in placed:
        for number, line in enumerate(reversed(block.lines)):
            plate.text(middle, low + (0.62 + LEADING * number) * em, line)


def _blocks(notes: Sequence[Note], options: Options) -> list[_Block]:
    """Notes in the order of their spots, broken to lines only as far as they must be to stand side by side."""
    ordered = sorted(notes, key=lambda note: (note.middle, note.words))
    em = options.text_pt * POINT_MM
    widest = options.width_mm
    while True:
        blocks = [_block(note, widest, options) for note in ordered]
        if _room(blocks, em) <= options.width_mm - 1.0 or widest < 3 * em:
            return blocks
        widest -= 0.5 * em


def _block(note: Note, widest: float, options: Options) -> _Block:
    """A note in as few lines as its room allows, and these as even as they can be."""
    lines = in_lines(note.words, widest, options.text_pt)
    while True:
        width = max(word_width(line, options.text_pt) for line in lines)
        narrower = in_lines(note.words, width - 0.01, options.text_pt)
        if len(narrower) > len(lines) or narrower == lines:
            return _Block(note, tuple(lines), width)
        lines = narrower


def _room(blocks: Sequence[_Block], em: float) -> float:
    return math.fsum(block.width + _GAP * em for block in blocks) - _GAP * em if blocks else 0.0


def _tiers(blocks: list[_Block], options: Options) -> list[list[_Block]]:
    """One row of blocks where they fit, else every second one in a row above."""
    if _room(blocks, options.text_pt * POINT_MM) <= options.width_mm:
        return [blocks]
    return [blocks[::2], blocks[1::2]]


def _tier_height(tier: Sequence[_Block], options: Options) -> float:
    em = options.text_pt * POINT_MM
    return (max((len(block.lines) for block in tier), default=0) * LEADING + 0.35) * em


def _places(tier: Sequence[_Block], higher: Sequence[_Block], room: float, em: float) -> dict[str, float]:
    """Middles of the blocks of a tier, apart from each other and from the lines that come down between them."""
    items = sorted(
        [(block.note.middle, block.width + _GAP * em, block.note.words) for block in tier]
        + [(block.note.middle, 0.8 * em, "") for block in higher]
    )
    places = _fitted([middle for middle, _, _ in items], [width for _, width, _ in items], room + _GAP * em)
    return {words: place - _GAP * em / 2 for (_, _, words), place in zip(items, places, strict=True) if words}


def _fitted(wanted: list[float], widths: list[float], room: float) -> list[float]:
    """Middles of blocks in a row, near where they are wanted, neither overlapping nor leaving the plate."""
    places = list(wanted)
    for _ in range(40):
        for index in range(1, len(places)):
            short = (widths[index - 1] + widths[index]) / 2 - (places[index] - places[index - 1])
            if short > 0:
                places[index - 1] -= short / 2
                places[index] += short / 2
    low = 0.0
    for index, width in enumerate(widths):
        places[index] = max(places[index], low + width / 2)
        low = places[index] + width / 2
    high = room
    for index in range(len(places) - 1, -1, -1):
        places[index] = min(places[index], high - widths[index] / 2)
        high = places[index] - widths[index] / 2
    return places
