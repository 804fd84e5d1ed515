"""Notes about spots of a figure, laid out in rows above it."""

from __future__ import annotations

from slath.drawing.lettering import POINT_MM, word_width
from slath.drawing.options import Options
from slath.drawing.plate import Plate


def note_rows(notes: list[tuple[float, float, str]], options: Options) -> list[list[tuple[float, float, str]]]:
    """Notes from left to right dealt out to as many rows as they need to stand side by side."""
    em = options.text_pt * POINT_MM
    wide = [word_width(words, options.text_pt) + 1.6 * em for _, _, words in notes]
    count = max(1, -(-int(sum(wide) * 1.12) // max(int(options.width_mm), 1)))
    while True:
        rows: list[list[tuple[float, float, str]]] = [[] for _ in range(count)]
        taken = [0.0] * count
        for number, note in enumerate(sorted(notes)):
            rows[number % count].append(note)
            taken[number % count] += word_width(note[2], options.text_pt) + 1.6 * em
        if max(taken) <= options.width_mm or count >= max(len(notes), 1):
            return rows
        count += 1


def place_notes(plate: Plate, notes: list[tuple[float, float, str]], top: float) -> None:
    """Notes in rows downwards from `top`, each over its spot as nearly as the others allow."""
    em = plate.em
    placed: list[tuple[float, float, float, float, str]] = []
    for level, row in enumerate(note_rows(notes, plate.options)):
        widths = [plate.wide(words) + 1.4 * em for _, _, words in row]
        places = _fitted([x for x, _, _ in row], widths, plate.width)
        for (x, spot, words), place in zip(row, places, strict=True):
            placed.append((x, spot, place, top - 1.3 * level * em, words))
    plate.pointers(placed)


def _fitted(wanted: list[float], widths: list[float], room: float) -> list[float]:
    """Middles of labels in a row, near where they are wanted, neither overlapping nor leaving the plate."""
    places = list(wanted)
    for _ in range(60):
        for index in range(len(places)):
            half = widths[index] / 2
            places[index] = min(max(places[index], half), room - half)
            if index:
                short = (widths[index - 1] + widths[index]) / 2 - (places[index] - places[index - 1])
                if short > 0:
                    places[index - 1] -= short / 2
                    places[index] += short / 2
    return places
