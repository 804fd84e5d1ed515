"""Stakes, bye-stakes, the side, handles and the lid."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, cast

from slath.language.bands import Part, read_side_bands
from slath.language.bases import read_base
from slath.language.borders import read_border
from slath.language.outlines import read_outline
from slath.language.pattern import (
    ByeStakes,
    Fastening,
    Fitting,
    Handle,
    Hinge,
    Knob,
    Lid,
    ProfilePoint,
    Side,
    Stakes,
    Wrap,
)
from slath.language.view import GREATEST_STRAND_MM

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Literal

    from slath.language.pattern import Base, Material, OutlineShape, Settings
    from slath.language.view import View


def read_stakes(view: View, materials: Mapping[str, Material]) -> Stakes:
    """The stakes put into the base."""
    exceptions = view.get("except")
    in_turn = view.each("in_turn", lambda item: item.own_material(materials))
    add_at = view.each("add_at", lambda item: item.own_count(most=400))
    leave_out_at = view.each("leave_out_at", lambda item: item.own_count(most=400))
    ways = [key for key in ("add", "leave_out", "add_at", "leave_out_at") if view.has(key) and view.text(key) != "0"]
    if len(ways) > 1:
        view.reading.note(
            "choose-one",
            (*view.path, ways[-1]),
            f"Stakes are added or left out by {ways[0]} already.",
            f"keep one of the two: {ways[0]} or {ways[-1]}",
            at_key=True,
        )
    return Stakes(
        path=view.path,
        material=in_turn[0] if in_turn else view.material("material", materials),
        per_end=view.count("per_end", 1, least=0, most=12),
        exceptions={key: item.own_count(least=0, most=12) for key, item in exceptions.entries()} if exceptions else {},
        add=len(add_at) or view.count("add", 0, least=0),
        leave_out=len(leave_out_at) or view.count("leave_out", 0, least=0),
        add_at=add_at,
        leave_out_at=leave_out_at,
        count=view.maybe_count("count", most=1000),
        depth_mm=view.length("depth", nought=True),
        worked_as=cast("int", view.together("worked")),
        length_mm=view.length("length"),
        below_mm=view.length("below", nought=True) or 0.0,
        holes_each=view.count("holes_each", 1, most=2),
        in_turn=in_turn,
    )


def read_bye_stakes(view: View, materials: Mapping[str, Material]) -> ByeStakes:
    """One set of bye-stakes."""
    in_turn = view.each("in_turn", lambda item: item.own_material(materials))
    return ByeStakes(
        path=view.path,
        material=in_turn[0] if in_turn else view.material("material", materials),
        count=view.maybe_count("count", most=1000),
        every=view.count("every", 1, most=100),
        depth_mm=view.length("depth"),
        length_mm=view.length("length"),
        after_band=view.text("after"),
        beside=view.each("beside", lambda item: item.own_count()),
        in_turn=in_turn,
    )


def read_side(view: View, part: Part, base: Base, materials: Mapping[str, Material]) -> Side:
    """The side of a basket or a lid, shapes left unsaid taken from its base."""
    shape: OutlineShape = "ellipse" if base.outline.shape == "circle" else base.outline.shape
    rim, profile = view.get("rim"), view.get("profile")
    points = (
        tuple(_point(item, shape) for item in profile.items()) if profile and isinstance(profile.data, list) else ()
    )
    named = "points" if points else view.choice("profile", "straight")
    swell = view.length("swell", nought=True) or 0.0
    if swell and named not in {"belly", "waist"}:
        view.reading.note(
            "key-unfit",
            (*view.path, "swell"),
            f"A {named} profile has no swell.",
            "write profile: belly, or profile: waist",
            at_key=True,
        )
    if named in {"belly", "waist"} and not view.has("swell"):
        way = "stands out" if named == "belly" else "draws in"
        view.reading.note(
            "missing-key",
            (*view.path, "profile"),
            f"A {named} profile needs its swell.",
            f"add swell: how far it {way} half-way up, each side",
        )
    side = Side(
        path=view.path,
        height_mm=view.length("height"),
        rim=read_outline(rim, shape) if rim is not None else None,
        profile=cast("Literal['straight', 'belly', 'waist', 'bowl', 'points']", named),
        belly_mm=-swell if named == "waist" else swell,
        points=points,
        bands=read_side_bands(view, part, materials, shape),
    )
    _check_points(view, side)
    return side


def _point(view: View, shape: OutlineShape) -> ProfilePoint:
    return ProfilePoint(view.length("height", nought=True) or 0.0, read_outline(view, shape))


def _check_points(view: View, side: Side) -> None:
    heights = [point.height_mm for point in side.points]
    profile = view.get("profile")
    if profile is not None and any(lower >= upper for lower, upper in pairwise(heights)):
        profile.note(
            "points-out-of-order",
            "The heights of the profile do not rise from one point to the next.",
            "give the points from the base up",
        )


def read_handle(view: View, materials: Mapping[str, Material]) -> Handle:
    """A handle, or a set of like handles."""
    if view.text("kind") == "roped" and not view.has("wraps"):
        view.reading.note(
            "missing-key",
            (*view.path, "kind"),
            "A roped handle needs the rope that is wound round it.",
            "add wraps: {kind: rope, strands: …}",
            "write kind: bow for one that stays bare",
        )
    return Handle(
        path=view.path,
        kind=view.choice("kind", "bow"),
        material=view.material("material", materials),
        count=view.count("count", 1, most=24),
        pieces=view.count("pieces", 1, most=60),
        rise_mm=view.length("rise"),
        span_mm=view.length("span"),
        shape=view.choice("shape", "half ellipse"),
        direction=view.choice("direction", "across"),
        at=view.each("at", lambda item: item.own_count()),
        feet_mm=view.length("feet", nought=True),
        lap_mm=view.length("lap", nought=True),
        diameter_mm=view.length("diameter"),
        length_mm=view.length("length"),
        wraps=view.each("wraps", lambda item: _wrap(item, materials)),
        lash=view.material("lash", materials),
        note=view.text("note"),
        through_base=view.yes("through_base"),
    )


def read_handles(view: View, materials: Mapping[str, Material]) -> tuple[Handle, ...]:
    """The handles of a basket or a lid: one set of like ones, or a list."""
    if view.has("handle") and view.has("handles"):
        view.reading.note(
            "choose-one",
            (*view.path, "handles"),
            "handle and handles are both given.",
            "put every handle in the list handles",
            at_key=True,
        )
    handles = (view.each(key, lambda item: read_handle(item, materials)) for key in ("handle", "handles"))
    return tuple(handle for each in handles for handle in each)


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


def _wrap(view: View, materials: Mapping[str, Material]) -> Wrap:
    strands = view.get("strands")
    return Wrap(
        path=view.path,
        kind=view.choice("kind", "rope"),
        strands=view.each("strands", lambda item: item.own_material(materials)),
        lay_mm=view.length("lay"),
        turns=view.maybe_count("turns"),
        cover=view.choice("cover", "full"),
        gap_mm=view.length("gap", nought=True),
        over_mm=view.length("over"),
        places=view.count("places", 1, most=60),
        listed=strands is not None and isinstance(strands.data, list),
    )


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
        stakes=read_stakes(stakes, materials) if stakes is not None else None,
        handles=read_handles(view, materials),
        hinge=_hinge(hinge, materials) if hinge is not None else None,
        fastening=_fastening(fastening, materials) if fastening is not None else None,
        knob=_knob(knob, materials) if knob is not None else None,
    )
