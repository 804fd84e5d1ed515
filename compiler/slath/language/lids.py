"""The lid with its hinge, fastening and knob, and is kept shut."""

from __future__ import annotations

from msgspec.structs import replace

from slath.language.bases import read_base
from slath.language.borders import read_border
from slath.language.handles import read_handles
from slath.language.keys import Materials, read
from slath.language.pattern import Fastening, Fitting, Hinge, Lid, Settings
from slath.language.sides import read_side, read_stakes
from slath.language.view import View
from slath.messages.told import told


def read_lid(view: View, materials: Materials, settings: Settings) -> Lid:
    """The lid: a base of its own, and how it meets the rim."""
    under, side, border, stakes = view.get("base"), view.get("side"), view.get("border"), view.get("stakes")
    hinge, fastening = view.get("hinge"), view.get("fastening")
    base = read_base(under if under is not None else view, materials, settings, "lid")
    lid = read(
        Lid,
        view,
        materials,
        base=base,
        side=read_side(side, "lid", base, materials) if side is not None else None,
        border=read_border(border, materials) if border is not None else None,
        stakes=read_stakes(stakes, materials, base) if stakes is not None else None,
        handles=read_handles(view, materials),
        hinge=_hinge(hinge, materials) if hinge is not None else None,
        fastening=_fastening(fastening, materials) if fastening is not None else None,
    )
    return lid if view.has("clearance") else replace(lid, clearance_mm=settings.mm("lid_clearance"))


def _hinge(view: View, materials: Materials) -> Hinge:
    hinge = read(Hinge, view, materials)
    if hinge.in_one == view.has("material"):
        view.note(
            "choose-one" if hinge.in_one else "missing-key",
            told("The hinge is in one with the lid, and has a material of its own as well.")
            if hinge.in_one
            else told("The hinge has no material."),
            told("take material out") if hinge.in_one else told("add material:"),
            *(() if hinge.in_one else (told("or in_one: yes, where ends of the lid's own stakes make it"),)),
            at_key=True,
        )
    return hinge if view.has("count") else replace(hinge, count=len(hinge.at) or 2)


def _fastening(view: View, materials: Materials) -> Fastening:
    fastening = read(Fastening, view, materials)
    return fastening if view.has("count") else replace(fastening, count=len(fastening.at) or 1)


def read_fitting(view: View, materials: Materials) -> Fitting:
    """Pieces of one kind that the construction does not call for. Links are rings, and have a width."""
    if view.has("links") and not view.has("across"):
        view.note(
            "key-unfit",
            told("links are the rings of a chain; how wide they are is not said."),
            told("add across: 1 1/2 in"),
        )
    made = read(Fitting, view, materials)
    if made.plaited > 1 and (made.length_mm is None or made.plaited == 2):
        view.reading.note(
            "key-unfit",
            (*view.path, "plaited"),
            told("A plait is made of three lengths or more, of the length they are cut to."),
            told("write plaited: 3, and their length"),
        )
    return made
