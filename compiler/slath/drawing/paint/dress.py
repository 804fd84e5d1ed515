"""How a material shows in every figure: its tones, the marks that run along it, its letter and its name."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from slath.drawing.paint.tones import Tones, tones
from slath.messages import Value
from slath.units.colour import lightness, with_lightness

Marks = Literal["none", "rings", "centre line", "dots", "braid"]
Surface = Literal["round", "flat", "plait"]


class Dress(Struct, frozen=True):
    """What tells one rod from another: tones by lightness, marks and letter where colour cannot be seen.

    A `flat` surface takes light evenly; a `plait` shows its crossings where it bears no marks.
    """

    tones: Tones
    marks: Marks = "none"
    letter: str = ""
    name: Value = None
    surface: Surface = "round"


def dress(
    colour: str, marks: Marks = "none", letter: str = "", name: Value = None, surface: Surface = "round"
) -> Dress:
    """The dress of a material of body colour ``#rrggbb``."""
    return Dress(tones(colour), marks, letter, name, surface)


def set_apart(colour: str, others: tuple[str, ...], least: float = 12.0) -> str:
    """`colour`, darkened (or lightened, where it is dark) until it is `least` L* from every one of `others`.

    Sticks must be told from plain weavers or over and under cannot be read; a natural material drawn true would not be.
    """
    level = lightness(colour)
    taken = sorted(lightness(other) for other in others)
    free = [step for step in range(8, 94) if all(abs(step - have) >= least for have in taken)]
    if not free or all(abs(level - have) >= least for have in taken):
        return colour
    nearest = min(free, key=lambda step: (abs(step - level), step))
    return with_lightness(colour, nearest)


def picked_out(base: Dress) -> Dress:
    """The dress of one rod picked out among its like: clearly darker, or clearly lighter than dark ones."""
    level = lightness(base.tones.body)
    body = with_lightness(base.tones.body, level - 36 if level > 55 else level + 42, 1.9 if level > 55 else 0.8)
    return replace(base, tones=tones(body))


def faint(base: Dress) -> Dress:
    """The dress of what is shown only to place the rest: nearly paper."""
    level = 82 + 0.15 * lightness(base.tones.body)
    pale = with_lightness(base.tones.body, level, 0.35)
    edge, highlight = with_lightness(pale, 62, 0.5), with_lightness(pale, 98, 0.3)
    return replace(base, tones=Tones(pale, edge, highlight, with_lightness(pale, level - 6), "#8a8378"))
