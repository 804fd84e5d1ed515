"""Colourways: the same basket in other dyes. A change of dye, colour, letter or marks for each material it names.

Only what a material is coloured changes, never its stock, so that no count and no length of the basket does.
"""

from __future__ import annotations

from collections.abc import Mapping
from string import ascii_uppercase
from typing import cast

from msgspec import Struct
from msgspec.structs import replace

from slath.language.materials import NATURAL
from slath.language.pattern import Marks, Material, Pattern, SizedPattern
from slath.language.places import Path
from slath.language.spelling import nearest, or_list
from slath.language.view import View
from slath.messages.told import told
from slath.trade.dyes import drawn_colour
from slath.trade.stock_words import stock_words

NO_DYE = "none"


class Change(Struct, frozen=True):
    """How one material is coloured otherwise. None leaves what it is; an empty `dye` leaves it natural."""

    material: str
    path: Path
    dye: str | None = None
    colour: str = ""
    letter: str = ""
    marks: Marks | None = None


class Colourway(Struct, frozen=True):
    """A named set of changes; none at all is the pattern as it stands."""

    name: str
    path: Path
    changes: tuple[Change, ...] = ()


def read_colourway(view: View, name: str, materials: Mapping[str, Material]) -> Colourway:
    """One colourway; every material it names must be one of `materials`."""
    changes: list[Change] = []
    for key, item in view.entries():
        if key not in materials:
            near = nearest(key, materials)
            item.note(
                "unknown-material",
                told("There is no material called “{key}” in this pattern.", key=key),
                told("write {near}", near=near) if near else told("choose {materials}", materials=or_list(materials)),
                at_key=True,
            )
            continue
        changes.append(_change(key, item))
    return Colourway(name, view.path, tuple(changes))


def _change(key: str, view: View) -> Change:
    if not isinstance(view.data, dict):  # {rust: moss} for {rust: {dye: moss}}
        dye = view.printed_text()
        return Change(key, view.path, "" if dye == NO_DYE else dye)
    dye = view.text("dye")
    return Change(
        key,
        view.path,
        dye=None if not view.has("dye") else "" if dye == NO_DYE else dye,
        colour=view.text("colour"),
        letter=view.text("letter"),
        marks=cast("Marks", view.text("marks")) if view.has("marks") else None,
    )


def recoloured(pattern: Pattern, colourway: Colourway) -> Pattern:
    """The pattern in a colourway, in every size."""
    if not colourway.changes:
        return pattern
    return replace(pattern, sizes=tuple(_sized(sized, colourway.changes) for sized in pattern.sizes))


def _sized(sized: SizedPattern, changes: tuple[Change, ...]) -> SizedPattern:
    by_key = {change.material: change for change in changes}
    taken = {material.letter for key, material in sized.materials.items() if key not in by_key}
    materials: dict[str, Material] = {}
    for key, material in sized.materials.items():
        changed = _changed(material, by_key[key], taken) if key in by_key else material
        taken.add(changed.letter)
        materials[key] = changed
    return replace(sized, materials=materials)


def _changed(material: Material, change: Change, taken: set[str]) -> Material:
    """A material in its new dye. A letter that nobody chose is the first of the dye's own that is free."""
    dye = material.dye if change.dye is None else change.dye or None
    redyed = dye != material.dye
    colour = change.colour or (material.colour if not redyed else (drawn_colour(dye) or "" if dye else NATURAL))
    kept = stock_words(material.stock)
    return replace(
        material,
        dye=dye,
        colour=colour or NATURAL,
        letter=change.letter or (_letter(dye or "natural", material.letter, taken) if redyed else material.letter),
        marks=change.marks or material.marks,
        title=(f"{kept}, {dye}" if dye else kept) if redyed else material.title,
    )


def _letter(dye: str, before: str, taken: set[str]) -> str:
    own = [char.upper() for char in dye if char.isalpha()]
    return next((char for char in (*own, before, *ascii_uppercase) if char and char not in taken), before)
