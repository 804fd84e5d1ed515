"""On which stake a band of randing begins, so that its first row does not lie as the row below it does.

A strand that goes before one and behind one on an odd count meets every upright on the other face in each round. Where a band
ends after an odd number of rounds the next goes on where it stopped (`courses.in_step`); over rows that turned back the row on top
begins on whichever stake lies less alike.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from slath.basket.courses import following, keeps_step
from slath.basket.model import WovenBand
from slath.language.pattern import Stroke

_PLAIN = (Stroke(1, 1),)


def in_phase(bands: Sequence[WovenBand], changed: Sequence[int]) -> tuple[WovenBand, ...]:
    """The bands of a side with the upright each begins on; `changed` are the bands before which the stakes change."""
    set_out: list[WovenBand] = []
    faces: list[bool | None] = []  # of the last row at each upright: before, behind, or nothing known
    for band in bands:
        if len(faces) != band.uprights or band.index in changed:
            faces = [None] * band.uprights
        if set_out and keeps_step(set_out[-1], band):
            band = following(set_out[-1], band)  # noqa: PLW2901 - the same band, from where that one ended
        elif _steps_on(band):
            wanted = [None if face is None else not face for face in faces]
            missed = [sum(_at(start, upright) is (not want) for upright, want in enumerate(wanted) if want is not None)
                      for start in (1, 2)]  # fmt: skip
            band = replace(band, start=2 if missed[1] < missed[0] else 1)  # noqa: PLW2901 - the same band, set out
        set_out.append(band)
        faces = _last_row(band, faces)
    return tuple(set_out)


def _steps_on(band: WovenBand) -> bool:
    """Whether one strand (or bundle) goes before one and behind one on a count on which its rounds interlock."""
    weave = band.spec.weave
    plain = weave.kind in {"rand", "slew"} and weave.strokes == _PLAIN and weave.rods == 1
    return plain and bool(band.rounds) and band.uprights % 2 == 1 and not band.spec.shift and not band.spec.cells


def _at(start: int, travelled: int) -> bool:
    """Whether a strand that sets out in front of upright `start` passes before the one `travelled` further from upright 1."""
    return (travelled - (start - 1)) % 2 == 0


def _last_row(band: WovenBand, below: list[bool | None]) -> list[bool | None]:
    """On which face the last row passes each upright."""
    if _steps_on(band):
        gone = (len(band.rounds) - 1) * band.uprights
        return [_at(band.start, gone + upright) for upright in range(band.uprights)]
    short = band.spec.short_rows
    if band.spec.weave.kind != "packing" or short is None:
        return [None] * band.uprights
    faces = list(below)
    for row in range(1, len(band.rounds) + 1):
        for stretch in range(len(short.over)):
            first, last = short.row(row, stretch)
            for number in range(first, min(last, band.uprights) + 1):
                faces[number - 1] = (number - short.over[stretch][0] + row - 1) % 2 == 0
    return faces
