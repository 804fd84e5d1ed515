"""The key of a figure: letters, a sample of each material with its marks, and its name, in as many rows as they take."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from msgspec import Struct

from slath.basket.model import WovenBand
from slath.drawing.options import Options
from slath.drawing.paint.dress import Dress
from slath.drawing.paint.wardrobe import Wardrobe, described
from slath.drawing.plate.lettering import POINT_MM, in_lines, word_width
from slath.drawing.plate.plate import Plate, disc_radius

_SAMPLE, _THICK = 7.5, 2.2  # mm: length and thickness of a sample
_OTHER_FACE = 1.1  # times as wide as in the bundled face words may stand, where a figure by itself is shown without it
_ROW, _APART = 1.9, 1.2  # ems from row to row, and between entries of a row


class Entry(Struct, frozen=True):
    """Letters that stand for one material."""

    letters: tuple[str, ...]
    look: Dress


def material_entries(bands: Iterable[WovenBand], clothes: Wardrobe) -> list[Entry]:
    """One entry for every material woven, under its own letter."""
    keys = dict.fromkeys(key for band in bands for rod in band.materials for key in rod)
    return [Entry((clothes.weaver(key).letter,), clothes.weaver(key)) for key in keys]


def stake_entries(clothes: Wardrobe, woven: Sequence[Entry]) -> list[Entry]:
    """One entry for every material stakes are of, where there is more than one and its letter is not `woven` already."""
    told = {letter for entry in woven for letter in entry.letters}
    return [Entry((look.letter,), look) for look in clothes.stake_looks if look.letter not in told]


def rod_entries(band: WovenBand, letters: Sequence[str], clothes: Wardrobe) -> list[Entry]:
    """Rods by letter; rods all of one material share an entry. A bundle shows each of its materials."""
    shared: dict[tuple[str, ...], list[str]] = {}
    for rod, letter in enumerate(letters):
        shared.setdefault(tuple(dict.fromkeys(band.materials[rod])), []).append(letter)
    return [
        Entry(tuple(mine) if number == 0 else (), clothes.weaver(key))
        for keys, mine in shared.items()
        for number, key in enumerate(keys)
    ]


def _before_words(entry: Entry, options: Options) -> float:
    """Width of the letters and the sample of an entry, up to its words."""
    return math.fsum(_step(letter, options) for letter in entry.letters) + _SAMPLE + 0.5 * options.text_pt * POINT_MM


def _step(letter: str, options: Options) -> float:
    """Width a letter takes with the space after it."""
    return 2 * disc_radius(letter, options.text_pt) + 0.28 * options.text_pt * POINT_MM


def _lines(entry: Entry, options: Options) -> list[str]:
    """The words of an entry: one line, or as many as a key needs that is no wider than its figure in the bundled face."""
    room = options.width_mm - 0.8 - _before_words(entry, options)
    return in_lines(options.say(described(entry.look)), room, options.text_pt)


def _wide(entry: Entry, options: Options) -> float:
    words = max((word_width(line, options.text_pt) for line in _lines(entry, options)), default=0.0)
    return _before_words(entry, options) + _OTHER_FACE * words


def _rows(entries: Sequence[Entry], options: Options) -> list[list[Entry]]:
    rows: list[list[Entry]] = [[]]
    taken = 0.0
    for entry in entries:
        wide = _wide(entry, options)
        if rows[-1] and taken + wide > options.width_mm - 0.8:
            rows.append([])
            taken = 0.0
        rows[-1].append(entry)
        taken += wide + _APART * options.text_pt * POINT_MM
    return rows


def _row_ems(row: Sequence[Entry], options: Options) -> float:
    """Height of a row in ems."""
    return _ROW + 1.2 * (max((len(_lines(entry, options)) for entry in row), default=1) - 1)


def key_height(entries: Sequence[Entry], options: Options) -> float:
    """Height the key takes, mm."""
    return math.fsum(_row_ems(row, options) for row in _rows(entries, options)) * options.text_pt * POINT_MM


def draw_key(plate: Plate, entries: Sequence[Entry], top: float) -> None:
    """The key from `top` downwards, read from left to right."""
    plate, em, options = plate.for_reading(), plate.em, plate.options
    for row in _rows(entries, options):
        x, y = 0.4, top - 0.5 * _ROW * em
        for entry in row:
            start = x
            for letter in entry.letters:
                plate.disc(x + disc_radius(letter, options.text_pt), y, letter)
                x += _step(letter, options)
            plate.sample(x + 0.1 * em, y, _SAMPLE, _THICK, entry.look)
            x = start + _before_words(entry, options)
            for number, line in enumerate(_lines(entry, options)):
                plate.text(x, y - 1.2 * number * em, line, "start")
            x = start + _wide(entry, options) + _APART * em
        top -= _row_ems(row, options) * em
