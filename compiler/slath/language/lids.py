"""The lid with its hinge, fastening and knob, and the fittings."""

from __future__ import annotations

from collections.abc import Mapping

from slath.language.bases import read_base
from slath.language.borders import read_border
from slath.language.handles import read_handles
from slath.language.pattern import Fastening, Fitting, Hinge, Knob, Lid, Material, Settings
from slath.language.sides import read_side, read_stakes
from slath.language.view import GREATEST_STRAND_MM, View


def read_lid(view: View, materials: Mapping[str, Material], settings: Settings) -> Lid:
    """The lid: a base of its own, and how it meets the rim."""
    under, side, border, stakes = view.get("base"), view.get("side"), view.get("border"), view.get("stakes")
    base = read_base(under if under is not None else view, materials, settings, "lid")
    clearance = view.length("clearance", nought=True)
    hinge, fastening, knob = view.get("hinge"), view.get("fastening"), view.get("knob")
    return Lid(
        path=view.path,
        base=base,
        side=read_side(side, "lid", base, materials) if side is not None else None,
        border=read_border(border, materials) if border is not None else None,
        fit=view.choice("fit", "resting"),
        clearance_mm=settings.mm("lid_clearance") if clearance is None else clearance,
        ring=view.material("ring", materials),
        stakes=read_stakes(stakes, materials, base) if stakes is not None else None,
        handles=read_handles(view, materials),
        hinge=_hinge(hinge, materials) if hinge is not None else None,
        fastening=_fastening(fastening, materials) if fastening is not None else None,
        knob=_knob(knob, materials) if knob is not None else None,
    )


def _hinge(view: View, materials: Mapping[str, Material]) -> Hinge:
    at = view.each("at", lambda item: item.own_count())
    in_one = view.yes("in_one")
    if in_one == view.has("material"):
        view.note(
            "choose-one" if in_one else "missing-key",
            "The hinge is in one with the lid, and has a material of its own as well."
            if in_one
            else "The hinge has no material.",
            "take material out" if in_one else "add material:",
            *(() if in_one else ("or in_one: yes, where ends of the lid's own stakes make it",)),
            at_key=True,
        )
    return Hinge(
        path=view.path,
        material=view.material("material", materials),
        count=view.count("count", len(at) or 2, most=24),
        at=at,
        turns=view.maybe_count("turns", most=60),
        length_mm=view.length("length"),
        in_one=in_one,
    )


def _fastening(view: View, materials: Mapping[str, Material]) -> Fastening:
    at = view.each("at", lambda item: item.own_count())
    return Fastening(
        path=view.path,
        kind=view.choice("kind", "loop and knob"),
        material=view.material("material", materials),
        count=view.count("count", len(at) or 1, most=24),
        at=at,
        across_mm=view.length("across"),
        peg=view.material("peg", materials),
    )


def _knob(view: View, materials: Mapping[str, Material]) -> Knob:
    return Knob(view.path, view.material("material", materials), view.length("across"))


def read_fitting(view: View, materials: Mapping[str, Material]) -> Fitting:
    """Pieces of one kind that the construction does not call for."""
    return Fitting(
        path=view.path,
        part=view.text("part"),
        material=view.material("material", materials),
        count=view.count("count", 1, most=1000),
        length_mm=view.length("length", most=GREATEST_STRAND_MM),
        across_mm=view.length("across"),
        ball_mm=view.length("ball"),
    )
