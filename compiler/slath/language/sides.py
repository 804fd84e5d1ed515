"""Stakes, bye-stakes and the side."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import Literal, cast

from slath.language.bands import Part, read_side_bands
from slath.language.outlines import read_outline
from slath.language.pattern import (
    Base,
    ByeStakes,
    Frame,
    Gathered,
    Material,
    OutlineShape,
    OvalSlath,
    ProfilePoint,
    RoundSlath,
    Side,
    Stakes,
)
from slath.language.view import View

_STANDS_MM = 25.4  # an inch left over a binding; common practice, no source


def read_stakes(view: View, materials: Mapping[str, Material], base: Base) -> Stakes:
    """The stakes put into the base; where its own sticks turn up as well, how all are taken is said of the stakes."""
    if isinstance(base, RoundSlath | OvalSlath | Frame) and base.become_stakes and base.worked_as > 1:
        view.reading.note(
            "key-unfit",
            (*base.path, "worked"),
            "worked under the base says how the sticks' own ends are taken where nothing stands between them; here stakes do.",
            "write worked under stakes, or in a band",
            at_key=True,
        )
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
        gathered=_gathered(view, materials),
    )
    _check_points(view, side)
    return side


def _gathered(view: View, materials: Mapping[str, Material]) -> Gathered | None:
    inner = view.get("gathered")
    if inner is None:
        return None
    stands = inner.length("stands", nought=True)
    return Gathered(
        path=inner.path,
        tied=inner.material("tied", materials),
        above_mm=inner.must_length("above"),
        stands_mm=_STANDS_MM if stands is None else stands,
        turns=inner.count("turns", 6, most=200),
        loop_mm=inner.length("loop"),
    )


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
