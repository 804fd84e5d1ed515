"""The key of a figure: letters, a sample of each material with its marks, and its name, in as many rows as they take."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from slath.basket.model import WovenBand
from slath.drawing.dress import Dress
from slath.drawing.lettering import POINT_MM, word_width
from slath.drawing.options import Options
from slath.drawing.plate import Plate
from slath.drawing.wardrobe import Wardrobe, described

_SAMPLE, _THICK = 7.5, 2.2  # mm: length and thickness of a sample
_OTHER_FACE = 1.1  # times as wide as in the bundled face words may stand, where a figure by itself is shown without it
_ROW = 1.9  # ems from row to row


@dataclass(frozen=True, slots=True)
class Entry:
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


def _wide(entry: Entry, options: Options) -> float:
    em = options.text_pt * POINT_MM
    words = _OTHER_FACE * word_width(described(entry.look), options.text_pt)
    return 1.6 * em * len(entry.letters) + _SAMPLE + words + 1.8 * em


def _rows(entries: Sequence[Entry], options: Options) -> list[list[Entry]]:
    rows: list[list[Entry]] = [[]]
    taken = 0.0
    for entry in entries:
        wide = _wide(entry, options)
        if rows[-1] and taken + wide > options.width_mm + options.text_pt * POINT_MM:
            rows.append([])
            taken = 0.0
        rows[-1].append(entry)
        taken += wide
    return rows


def key_height(entries: Sequence[Entry], options: Options) -> float:
    """Height the key takes, mm."""
    return len(_rows(entries, options)) * _ROW * options.text_pt * POINT_MM


def draw_key(plate: Plate, entries: Sequence[Entry], top: float) -> None:
    """The key from `top` downwards, read from left to right."""
    plate, em = plate.for_reading(), plate.em
    for number, row in enumerate(_rows(entries, plate.options)):
        x, y = 0.4 + 0.7 * em, top - (0.5 + number) * _ROW * em
        for entry in row:
            start = x
            for letter in entry.letters:
                plate.disc(x, y, letter)
                x += 1.6 * em
            plate.sample(x - 0.5 * em, y, _SAMPLE, _THICK, entry.look)
            plate.text(x - 0.1 * em + _SAMPLE, y, described(entry.look), "start")
            x = start + _wide(entry, plate.options)
