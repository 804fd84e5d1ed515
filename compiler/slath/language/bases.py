"""The base of a basket or a lid: round and oval slaths, boards, frames, ready-made bases."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, cast

from msgspec.structs import replace

from slath.language.bands import Part, read_bands
from slath.language.keys import Materials, read
from slath.language.outlines import read_outline, sized_by_bands
from slath.language.pattern import (
    Base,
    Board,
    CornerPosts,
    Frame,
    Material,
    Outline,
    OvalSlath,
    ReadyMade,
    RoundSlath,
    Settings,
)
from slath.language.records.bases import GREATEST_STICKS, CrossSticks, FrameSticks, Holes, LongSticks
from slath.language.view import View
from slath.messages.told import told

_BOARD_MM = 6.35  # a quarter of an inch, a common thickness of plywood for trays; common practice, no source
# A size to begin with where the bands decide it; common sizes, and only the first of several trials.
_BY_BANDS = {
    "circle": Outline("circle", 150.0, 150.0),
    "ellipse": Outline("ellipse", 220.0, 150.0),
    "stadium": Outline("stadium", 220.0, 150.0),
}


def read_base(view: View, materials: Materials, settings: Settings, part: Part = "base") -> Base:
    """The base at `view`, of whatever kind it says; `part` is what its weaving belongs to."""
    return _READERS.get(view.text("kind"), _ready_made)(view, materials, settings, part)


def _round_slath(view: View, materials: Materials, _settings: Settings, part: Part) -> RoundSlath:
    sticks = view.maybe_count("sticks", least=2, most=GREATEST_STICKS)
    if sticks is not None:
        pierced, threaded = (sticks + 1) // 2, sticks // 2
        if view.has("threaded") or view.has("pierced"):
            view.note(
                "choose-one",
                told("sticks says how many there are in all; pierced and threaded say it too."),
                told("keep one way of saying it"),
            )
    else:
        pierced = view.count("pierced", 1, most=GREATEST_STICKS)
        threaded = view.count("threaded", pierced, least=0, most=GREATEST_STICKS)
    return read(
        RoundSlath,
        view,
        materials,
        outline=_BY_BANDS["circle"] if sized_by_bands(view) else read_outline(view),
        by_bands=sized_by_bands(view),
        pierced=pierced,
        threaded=threaded,
        weaving=read_bands(view, "weaving", part, materials),
        worked_as=_worked_as(view),
        half_apart=_half_apart(view),
    )


def _oval_slath(view: View, materials: Materials, _settings: Settings, part: Part) -> OvalSlath:
    lengthwise, crosswise = view.get("lengthwise") or view, view.get("crosswise") or view
    long, cross = read(LongSticks, lengthwise, materials), read(CrossSticks, crosswise, materials)
    return read(
        OvalSlath,
        view,
        materials,
        outline=_BY_BANDS[view.choice("shape", "ellipse")] if sized_by_bands(view) else read_outline(view),
        by_bands=sized_by_bands(view),
        lengthwise=_long_sticks(lengthwise, long),
        groups=cross.groups or (1,) * cross.sticks,
        lengthwise_material=long.material or _material_of(lengthwise, view, materials),
        crosswise_material=cross.material or _material_of(crosswise, view, materials),
        pierced=_pierced(crosswise, long, cross),
        lengthwise_groups=long.groups,
        field_mm=cross.field_mm,
        lengthwise_length_mm=long.stick_length_mm,
        crosswise_length_mm=cross.stick_length_mm,
        weaving=read_bands(view, "weaving", part, materials),
        worked_as=_worked_as(view),
        half_apart=_half_apart(view, usual=view.yes("half_stick")),
    )


def _worked_as(view: View) -> int:
    """How many of the sticks' own ends are worked as one where they turn up."""
    if view.has("worked") and not view.yes("become_stakes"):
        view.reading.note(
            "key-unfit",
            (*view.path, "worked"),
            told("worked under the base says how the sticks' own ends are taken where they turn up; these do not."),
            told("write become_stakes: yes"),
            told("write worked under stakes, or in a band"),
            at_key=True,
        )
    worked = view.get("worked")
    return cast("int", worked.own_together()) if worked is not None else 1


def _half_apart(view: View, *, usual: bool = False) -> bool:
    """Whether the half stick is a group of its own: on an oval slath it is, beside its long sticks, unless the file says no."""
    if view.yes("half_stick_apart") and not view.yes("half_stick"):
        view.reading.note(
            "key-unfit",
            (*view.path, "half_stick_apart"),
            told("There is no half stick to stand apart."),
            told("add half_stick: yes"),
            told("take half_stick_apart out"),
            at_key=True,
        )
    return view.yes("half_stick_apart", default=usual)


def _long_sticks(lengthwise: View, long: LongSticks) -> int:
    held = sum(long.groups)
    if long.groups and held != long.sticks:
        lengthwise.note(
            "groups-break-count",
            told(
                "The groups {groups} hold {held} long sticks; sticks says {sticks}.",
                groups=list(long.groups),
                held=held,
                sticks=long.sticks,
            ),
            told("write sticks: {held}", held=held),
        )
    return long.sticks


def _material_of(sticks: View, view: View, materials: Materials) -> str:
    """The material of all sticks, where those of one way have none of their own."""
    if not view.has("material"):
        sticks.note(
            "missing-key",
            told("{spoken:capital} has no material.", spoken=sticks.spoken),
            told("add material: here, or once for all sticks of the base"),
            at_key=True,
        )
    return view.material("material", materials)


def _pierced(crosswise: View, long: LongSticks, cross: CrossSticks) -> Literal["crosswise", "lengthwise", "none"]:
    if not long.pierced:
        return "crosswise" if cross.pierced else "none"
    if crosswise.has("pierced") and cross.pierced:
        crosswise.note(
            "choose-one",
            told("Long sticks and cross sticks cannot both be pierced."),
            told("say pierced: yes for one of them"),
        )
    return "lengthwise"


def _board(view: View, materials: Materials, settings: Settings, _part: Part) -> Board:
    line = view.get("holes")
    holes = read(Holes, line, materials) if line is not None else Holes(view.path)
    if line is not None and holes.slots and line.has("diameter"):
        line.note(
            "choose-one",
            told("a slot is as long and as wide as its stake is; diameter says how wide a round hole is."),
            told("leave the diameter out"),
            told("leave slots out"),
        )
    board = read(
        Board,
        view,
        materials,
        outline=read_outline(view, "rectangle"),
        holes=holes.count,
        hole_spacing_mm=holes.spacing_mm,
        inset_mm=settings.mm("hole_inset") if holes.inset_mm is None else holes.inset_mm,
        hole_diameter_mm=holes.diameter_mm,
        slots=holes.slots,
    )
    if view.has("thickness"):
        return board
    own = materials.get(board.material)
    return replace(board, thickness_mm=own.thickness_mm if isinstance(own, Material) else _BOARD_MM)


def _frame(view: View, materials: Materials, _settings: Settings, part: Part) -> Frame:
    lengthwise, crosswise = view.get("lengthwise") or view, view.get("crosswise")
    if view.yes("doubled_ends") and not view.has("crosswise"):
        view.reading.note(
            "key-unfit",
            (*view.path, "doubled_ends"),
            told("There are no cross sticks whose outer ones could be doubled."),
            told("give the frame crosswise sticks"),
            told("take doubled_ends out"),
            at_key=True,
        )
    long = read(FrameSticks, lengthwise, materials)
    cross = read(FrameSticks, crosswise, materials) if crosswise is not None else None
    return read(
        Frame,
        view,
        materials,
        outline=read_outline(view, "rectangle"),
        lengthwise=long.sticks,
        crosswise=cross.sticks if cross else 0,
        corner_posts=_corner_posts(view, materials),
        lengthwise_length_mm=long.stick_length_mm,
        crosswise_length_mm=cross.stick_length_mm if cross else None,
        weaving=read_bands(view, "weaving", part, materials),
        worked_as=_worked_as(view),
    )


def _corner_posts(view: View, materials: Materials) -> CornerPosts | None:
    inner = view.get("corner_posts")
    if inner is None or (not isinstance(inner.data, dict) and not view.yes("corner_posts")):
        return None
    if isinstance(inner.data, dict):
        return read(CornerPosts, inner, materials)
    return CornerPosts(inner.path, view.material("material", materials))


def _ready_made(view: View, materials: Materials, _settings: Settings, _part: Part) -> ReadyMade:
    return read(ReadyMade, view, materials, outline=read_outline(view))


_READERS: dict[str, Callable[[View, Materials, Settings, Part], Base]] = {
    "round slath": _round_slath,
    "oval slath": _oval_slath,
    "board": _board,
    "frame": _frame,
    "ready made": _ready_made,
}
