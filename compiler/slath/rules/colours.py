"""Colours, letters and marks: whether every strand can be told from the next in colour, in grey and in words."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from slath.basket.model import WovenBand
from slath.language.materials import NATURAL
from slath.language.pattern import Material
from slath.rules.finding import Context, Finding
from slath.units.counting import listed


def lightness(colour: str) -> float:
    """CIE 1976 L* (0 black to 100 white) of an sRGB colour written ``#rrggbb``.

    Luminance after IEC 61966-2-1, L* after CIE 15.
    """
    channels = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    linear = [value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in channels]
    luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    return 116 * luminance ** (1 / 3) - 16 if luminance > 216 / 24389 else luminance * 24389 / 27


def colours_told_apart(context: Context) -> Iterator[Finding]:
    """Colours woven side by side must differ in lightness, or a grey print and many eyes see one."""
    least = context.setting("lightness_apart")
    for first, second, band in _side_by_side(context):
        one, other = lightness(first.colour), lightness(second.colour)
        if abs(one - other) >= least or _undrawn(first) or _undrawn(second):
            continue
        lighter = max(one, other)
        yield Finding(
            (*second.path, "colour"), "materials",
            f"“{first.key}” (lightness {one:.1f}) and “{second.key}” ({other:.1f}) lie side by side in {band.name}; they are "
            f"{math.floor(10 * abs(one - other)) / 10:.1f} apart and look alike in grey. {least:g} apart can be told.",
            (
                f"draw one of them with a lightness of {_further(lighter, min(one, other), least)}",
                "weave a lighter or darker strand between them",
            ),
            (((*first.path, "colour"), "the other colour"),),
        )  # fmt: skip


def _undrawn(material: Material) -> bool:
    """Whether a dyed material is drawn as natural for want of a colour, which is told by itself."""
    return bool(material.dye) and material.colour == NATURAL


def _further(lighter: float, darker: float, least: float) -> str:
    ways = []
    if lighter - least >= 5:
        ways.append(f"{math.floor(lighter - least)} or less")
    if darker + least <= 97:
        ways.append(f"{math.ceil(darker + least)} or more")
    return ", or ".join(ways)


def marks_told_apart(context: Context) -> Iterator[Finding]:
    """No strand is told by colour alone: two colours in one band carry different marks."""
    for first, second, band in _side_by_side(context):
        if first.marks != second.marks:
            continue
        marks = "no marks" if first.marks == "none" else f"the same marks ({first.marks})"
        yield Finding(
            (*second.path, "marks"), "materials",
            f"“{first.key}” and “{second.key}” lie side by side in {band.name} and carry {marks} in the drawings.",
            (f"give one of them {_other_marks(context, band)}",),
        )  # fmt: skip


def _other_marks(context: Context, band: WovenBand) -> str:
    taken = {context.material(key).marks for key in band.spec.strands}
    free = [marks for marks in ("rings", "centre line", "dots") if marks not in taken]
    return listed(free, "or") if free else "marks of its own; four colours are the most that marks can tell"


def _side_by_side(context: Context) -> Iterator[tuple[Material, Material, WovenBand]]:
    """Pairs of differently coloured materials in one band, each pair once, at the first band that has it."""
    told: set[tuple[str, str]] = set()
    for band in context.bands:
        keys = list(dict.fromkeys(band.spec.strands))
        for first, second in combinations(keys, 2):
            one, other = context.material(first), context.material(second)
            if (first, second) in told or (one.colour == other.colour and one.dye == other.dye):
                continue
            told |= {(first, second), (second, first)}
            yield one, other, band
