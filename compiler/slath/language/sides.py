"""Stakes, bye-stakes and the side."""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from slath.language.bands import Part, read_side_bands
from slath.language.keys import Materials, read
from slath.language.outlines import read_outline
from slath.language.pattern import (
    Base,
    ByeStakes,
    Frame,
    OutlineShape,
    OvalSlath,
    ProfilePoint,
    ReadyMade,
    RoundSlath,
    Side,
    Stakes,
)
from slath.language.view import View
from slath.messages.told import told


def read_stakes(view: View, materials: Materials, base: Base) -> Stakes:
    """The stakes put into the base; where its own sticks turn up as well, how all are taken is said of the stakes."""
    if isinstance(base, RoundSlath | OvalSlath | Frame) and base.become_stakes and base.worked_as > 1:
        view.reading.note(
            "key-unfit",
            (*base.path, "worked"),
            told(
                "worked under the base says how the sticks' own ends are taken where nothing stands between them; here stakes do."
            ),
            told("write worked under stakes, or in a band"),
            at_key=True,
        )
    ways = [key for key in ("add", "leave_out", "add_at", "leave_out_at") if view.has(key) and view.text(key) != "0"]
    if len(ways) > 1:
        view.reading.note(
            "choose-one",
            (*view.path, ways[-1]),
            told("Stakes are added or left out by {ways} already.", ways=ways[0]),
            told("keep one of the two: {ways} or {ways2}", ways=ways[0], ways2=ways[-1]),
            at_key=True,
        )
    stakes = read(Stakes, view, materials)
    if stakes.doubled:
        _check_doubled(view, base)
    return replace(
        stakes,
        depth_mm=0.0 if stakes.doubled else stakes.depth_mm,
        material=stakes.in_turn[0] if stakes.in_turn else stakes.material,
        add=len(stakes.add_at) or stakes.add,
        leave_out=len(stakes.leave_out_at) or stakes.leave_out,
    )


def _check_doubled(view: View, base: Base) -> None:
    """Stakes that hang over a ring or an edge go into nothing."""
    if not isinstance(base, ReadyMade):
        view.reading.note(
            "key-unfit",
            (*view.path, "doubled"),
            told("Stakes are doubled over a ring or an edge, not over a woven base or a board."),
            told("write kind: ready made under base, with a ring"),
            told("take doubled out"),
            at_key=True,
        )
    if view.has("depth"):
        view.reading.note(
            "key-unfit",
            (*view.path, "depth"),
            told("Stakes doubled over an edge go into nothing."),
            told("take depth out"),
            at_key=True,
        )


def read_bye_stakes(view: View, materials: Materials) -> ByeStakes:
    """One set of bye-stakes."""
    made = read(ByeStakes, view, materials)
    return replace(made, material=made.in_turn[0]) if made.in_turn else made


def read_side(view: View, part: Part, base: Base, materials: Materials) -> Side:
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
            told("A {named} profile has no swell.", named=named),
            told("write profile: belly, or profile: waist"),
            at_key=True,
        )
    if named in {"belly", "waist"} and not view.has("swell"):
        way = told("stands out") if named == "belly" else told("draws in")
        view.reading.note(
            "missing-key",
            (*view.path, "profile"),
            told("A {named} profile needs its swell.", named=named),
            told("add swell: how far it {way} half-way up, each side", way=way),
        )
    side = read(
        Side,
        view,
        materials,
        rim=read_outline(rim, shape) if rim is not None else None,
        profile=named,
        belly_mm=-swell if named == "waist" else swell,
        points=points,
        bands=read_side_bands(view, part, materials, shape),
    )
    _check_points(view, side)
    return side


def _point(view: View, shape: OutlineShape) -> ProfilePoint:
    return read(ProfilePoint, view, {}, outline=read_outline(view, shape))


def _check_points(view: View, side: Side) -> None:
    heights = [point.height_mm for point in side.points]
    profile = view.get("profile")
    if profile is not None and any(lower >= upper for lower, upper in pairwise(heights)):
        profile.note(
            "points-out-of-order",
            told("The heights of the profile do not rise from one point to the next."),
            told("give the points from the base up"),
        )
