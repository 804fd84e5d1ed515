"""Colours, letters and marks: whether every strand can be told from the next in colour, in grey and in words."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from slath.basket.model import WovenBand
from slath.language.materials import NATURAL
from slath.language.pattern import Material
from slath.messages.told import Figure, Spoken, several, told, word
from slath.rules.finding import Context, Finding, name_of
from slath.units.colour import lightness


def colours_told_apart(context: Context) -> Iterator[Finding]:
    """Colours woven side by side must differ in lightness, or a grey print and many eyes see one."""
    least = context.setting("lightness_apart")
    for first, second, band in _side_by_side(context):
        one, other = lightness(first.colour), lightness(second.colour)
        if abs(one - other) >= least or _undrawn(first) or _undrawn(second):
            continue
        lighter = max(one, other)
        yield Finding(
            (*second.path, "colour"),
            "materials",
            told(
                "“{first}” (lightness {one}) and “{second}” ({other}) lie side by side in {band}; they are {floor} apart and look alike in grey. {least} apart can be told.",
                first=first.key,
                one=Figure(f"{one:.1f}"),
                second=second.key,
                other=Figure(f"{other:.1f}"),
                band=name_of(band),
                floor=Figure(f"{math.floor(10 * abs(one - other)) / 10:.1f}"),
                least=Figure(f"{least:g}"),
            ),
            (
                told(
                    "draw one of them with a lightness of {further}", further=_further(lighter, min(one, other), least)
                ),
                told("weave a lighter or darker strand between them"),
            ),
            (((*first.path, "colour"), told("the other colour")),),
        )


def _undrawn(material: Material) -> bool:
    """Whether a dyed material is drawn as natural for want of a colour, which is told by itself."""
    return bool(material.dye) and material.colour == NATURAL


def _further(lighter: float, darker: float, least: float) -> Spoken:
    ways: list[Spoken] = []
    if lighter - least >= 5:
        ways.append(told("{floor} or less", floor=math.floor(lighter - least)))
    if darker + least <= 97:
        ways.append(told("{ceil} or more", ceil=math.ceil(darker + least)))
    return several(ways, told(", or "))


def marks_told_apart(context: Context) -> Iterator[Finding]:
    """No strand is told by colour alone: two colours in one band carry different marks."""
    for first, second, band in _side_by_side(context):
        if first.marks != second.marks:
            continue
        marks = told("no marks") if first.marks == "none" else told("the same marks ({marks})", marks=word(first.marks))
        yield Finding(
            (*second.path, "marks"),
            "materials",
            told(
                "“{first}” and “{second}” lie side by side in {band} and carry {marks} in the drawings.",
                first=first.key,
                second=second.key,
                band=name_of(band),
                marks=marks,
            ),
            (told("give one of them {other_marks}", other_marks=_other_marks(context, band)),),
        )


def _other_marks(context: Context, band: WovenBand) -> Spoken:
    taken = {context.material(key).marks for key in band.spec.strands}
    free = [marks for marks in (word("rings"), word("centre line"), word("dots")) if marks not in taken]
    return several(free, "or") if free else told("marks of its own; four colours are the most that marks can tell")


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
