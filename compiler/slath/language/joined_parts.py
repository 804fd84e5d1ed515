"""Parts made by themselves and joined: a tier on a stem, a foot, a partition, the halves of a lid."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from slath.language.bases import read_base
from slath.language.borders import read_border
from slath.language.handles import read_handles
from slath.language.keys import Materials, read
from slath.language.pattern import Join, JoinWay, MadePart, Settings
from slath.language.sides import read_bye_stakes, read_side, read_stakes
from slath.language.view import View
from slath.messages.told import told

# How many pieces join a part where the designer names no number: bindings, hinges, cords, stems.
_PLACES: Mapping[JoinWay, int] = {"tied": 4, "hinged": 2, "hung": 3, "on a stem": 1}
# The keys that say something of each way of joining, besides where it is joined; any other is noted.
_BOUND = frozenset({"material", "places", "at", "turns", "length"})
_SAYS: Mapping[JoinWay, frozenset[str]] = {
    "tied": _BOUND,
    "hinged": _BOUND,
    "laced": frozenset({"material"}),
    "hung": frozenset({"material", "places", "at", "length", "rise"}),
    "on a stem": frozenset({"material", "places", "length", "rise"}),
    "pushed in": frozenset({"at", "depth"}),
    "resting": frozenset(),
}
_MUST: Mapping[JoinWay, tuple[str, ...]] = {
    "tied": ("material",),
    "hinged": ("material",),
    "laced": ("material",),
    "hung": ("material", "rise"),
    "on a stem": ("material", "rise"),
}
# Names that mean something else: places of the basket, and stages of the work, which go by the names of parts too.
_SPOKEN_FOR = frozenset({
    "basket", "prepare", "base", "base check", "stakes", "pricking up", "upsett", "side", "ears", "border", "foot", "handle",
    "lid", "parts", "finish", "cover", "back",
})  # fmt: skip
_MEASURES = ("places", "at", "turns", "length", "depth", "rise", "material")


def read_parts(top: View, materials: Materials, settings: Settings) -> tuple[MadePart, ...]:
    """Every part in the order it is made; a part may be joined only to one that is made before it."""
    made: list[MadePart] = []
    for view in inner.items() if (inner := top.get("parts")) else ():
        made.append(_part(view, materials, settings, [part.name for part in made]))
    return tuple(made)


def _part(view: View, materials: Materials, settings: Settings, before: list[str]) -> MadePart:
    name = view.text("name")
    if name.casefold() in _SPOKEN_FOR | {other.casefold() for other in before} or ":" in name:
        view.reading.note(
            "part-name-taken", (*view.path, "name"), told("“{name}” cannot be the name of a part here.", name=name),
            told("give it a name of its own, without a colon: upper tier"),
        )  # fmt: skip
    under, side, border, stakes = view.get("base"), view.get("side"), view.get("border"), view.get("stakes")
    foot, join = view.get("foot"), view.get("join")
    base = read_base(under if under is not None else view, materials, settings, name)
    if foot is not None and foot.has("bands"):
        foot.note(
            "key-unfit",
            told("The foot of a part has a border and no weaving of its own."),
            told("take bands out"),
            at_key=True,
        )
    return read(
        MadePart,
        view,
        materials,
        base=base,
        stakes=read_stakes(stakes, materials, base) if stakes is not None else None,
        bye_stakes=view.each("bye_stakes", lambda item: read_bye_stakes(item, materials)),
        side=read_side(side, name, base, materials) if side is not None else None,
        border=read_border(border, materials) if border is not None else None,
        foot=read_border(foot, materials, foot=True) if foot is not None else None,
        handles=read_handles(view, materials),
        join=_join(join if join is not None else view, materials, before),
    )


def _join(view: View, materials: Materials, before: list[str]) -> Join:
    join = read(Join, view, materials)
    to = "" if join.to.casefold() == "basket" else join.to
    if to and to not in before:
        view.reading.note(
            "unknown-part", (*view.path, "to"), told("No part made before this one is called “{to}”.", to=to),
            told("write {before}", before=before[-1]) if before else told("leave it out: it is joined to the basket"),
            *((told("or leave it out: it is joined to the basket"),) if before else ()),
        )  # fmt: skip
    if (*view.path, "way") not in view.reading.faulty:
        _fitting_keys(view, join.way)
    places = join.places if view.has("places") else len(join.at) or _PLACES.get(join.way, 1)
    return replace(join, to=to, places=places)


def _fitting_keys(view: View, way: JoinWay) -> None:
    """Notes what a way of joining lacks, and what says nothing of it."""
    for key in _MUST.get(way, ()):
        if not view.has(key):
            view.note(
                "missing-key",
                told("What is {spoken} has no {key}.", spoken=_spoken(way), key=key),
                told("add {key}:", key=key),
                at_key=True,
            )
    for key in _MEASURES:
        if view.has(key) and key not in _SAYS[way]:
            view.reading.note(
                "key-unfit", (*view.path, key), told("{key} says nothing of a part that is {spoken}.", key=key, spoken=_spoken(way)),
                told("take {key} out", key=key), *[told("or write way: {other}", other=other) for other in _SAYS if key in _SAYS[other]][:2],
            )  # fmt: skip


def _spoken(way: JoinWay) -> str:
    return {"on a stem": "set on a stem"}.get(way, way)
