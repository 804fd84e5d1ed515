"""The base of a basket or a lid: round and oval slaths, boards, frames, ready-made bases."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal, cast

from slath.language.bands import Part, read_bands
from slath.language.outlines import read_outline, sized_by_bands
from slath.language.pattern import (
    Base,
    Board,
    CornerPosts,
    ExtraEnds,
    Frame,
    Material,
    Outline,
    OvalSlath,
    ReadyMade,
    RoundSlath,
    Settings,
    Tie,
)
from slath.language.view import View

_BOARD_MM = 6.35  # a quarter of an inch, a common thickness of plywood for trays; common practice, no source
GREATEST_STICKS = 200
# A size to begin with where the bands decide it; common sizes, and only the first of several trials.
_BY_BANDS = {
    "circle": Outline("circle", 150.0, 150.0),
    "ellipse": Outline("ellipse", 220.0, 150.0),
    "stadium": Outline("stadium", 220.0, 150.0),
}


def read_base(view: View, materials: Mapping[str, Material], settings: Settings, part: Part = "base") -> Base:
    """The base at `view`, of whatever kind it says; `part` is what its weaving belongs to."""
    return _READERS.get(view.text("kind"), _ready_made)(view, materials, settings, part)


def _round_slath(view: View, materials: Mapping[str, Material], _settings: Settings, part: Part) -> RoundSlath:
    sticks = view.maybe_count("sticks", least=2, most=GREATEST_STICKS)
    if sticks is not None:
        pierced, threaded = (sticks + 1) // 2, sticks // 2
        if view.has("threaded") or view.has("pierced"):
            view.note(
                "choose-one",
                "sticks says how many there are in all; pierced and threaded say it too.",
                "keep one way of saying it",
            )
    else:
        pierced = view.count("pierced", 1, most=GREATEST_STICKS)
        threaded = view.count("threaded", pierced, least=0, most=GREATEST_STICKS)
    return RoundSlath(
        path=view.path,
        outline=_BY_BANDS["circle"] if sized_by_bands(view) else read_outline(view),
        by_bands=sized_by_bands(view),
        pierced=pierced,
        threaded=threaded,
        half_stick=view.yes("half_stick"),
        material=view.material("material", materials),
        centre=view.choice("centre", "pierced"),
        laid=view.count("laid_together", 1, most=12),
        become_stakes=view.yes("become_stakes"),
        stick_length_mm=view.length("stick_length"),
        stick_trim_mm=view.length("stick_trim", nought=True),
        half_stick_length_mm=view.length("half_stick_length"),
        weaving=read_bands(view, "weaving", part, materials),
        crown_mm=view.length("crown", nought=True) or 0.0,
        extra_ends=_extra_ends(view, materials),
        tied=_tie(view, materials),
        worked_as=_worked_as(view),
        half_apart=_half_apart(view),
        as_one=view.each("as_one", lambda item: item.own_count(most=2 * GREATEST_STICKS)),
    )


def _oval_slath(view: View, materials: Mapping[str, Material], _settings: Settings, part: Part) -> OvalSlath:
    lengthwise, crosswise = view.get("lengthwise") or view, view.get("crosswise") or view
    groups = crosswise.each("groups", lambda item: item.own_count(most=GREATEST_STICKS))
    if not groups:
        groups = (1,) * crosswise.count("sticks", 1, most=GREATEST_STICKS)
    return OvalSlath(
        path=view.path,
        outline=_BY_BANDS[view.choice("shape", "ellipse")] if sized_by_bands(view) else read_outline(view),
        by_bands=sized_by_bands(view),
        lengthwise=_lengthwise_sticks(lengthwise),
        groups=groups,
        lengthwise_material=_material_of(lengthwise, view, materials),
        crosswise_material=_material_of(crosswise, view, materials),
        pierced=_pierced(lengthwise, crosswise),
        lengthwise_groups=lengthwise.each("groups", lambda item: item.own_count(most=GREATEST_STICKS)),
        half_stick=view.yes("half_stick"),
        field_mm=crosswise.length("field"),
        become_stakes=view.yes("become_stakes"),
        lengthwise_length_mm=lengthwise.length("stick_length"),
        crosswise_length_mm=crosswise.length("stick_length"),
        half_stick_length_mm=view.length("half_stick_length"),
        stick_trim_mm=view.length("stick_trim", nought=True),
        weaving=read_bands(view, "weaving", part, materials),
        crown_mm=view.length("crown", nought=True) or 0.0,
        extra_ends=_extra_ends(view, materials),
        tied=_tie(view, materials),
        worked_as=_worked_as(view),
        half_apart=_half_apart(view, usual=view.yes("half_stick")),
        as_one=view.each("as_one", lambda item: item.own_count(most=2 * GREATEST_STICKS)),
    )


def _extra_ends(view: View, materials: Mapping[str, Material]) -> ExtraEnds | None:
    inner = view.get("extra_ends")
    if inner is None:
        return None
    return ExtraEnds(inner.path, inner.count("count", 1, most=GREATEST_STICKS), inner.material("material", materials))


def _worked_as(view: View) -> int:
    """How many of the sticks' own ends are worked as one where they turn up."""
    if view.has("worked") and not view.yes("become_stakes"):
        view.reading.note(
            "key-unfit",
            (*view.path, "worked"),
            "worked under the base says how the sticks' own ends are taken where they turn up; these do not.",
            "write become_stakes: yes",
            "write worked under stakes, or in a band",
            at_key=True,
        )
    return cast("int", view.together("worked"))


def _half_apart(view: View, *, usual: bool = False) -> bool:
    """Whether the half stick is a group of its own: on an oval slath it is, beside its long sticks, unless the file says no."""
    if view.yes("half_stick_apart") and not view.yes("half_stick"):
        view.reading.note(
            "key-unfit",
            (*view.path, "half_stick_apart"),
            "There is no half stick to stand apart.",
            "add half_stick: yes",
            "take half_stick_apart out",
            at_key=True,
        )
    return view.yes("half_stick_apart", default=usual)


def _tie(view: View, materials: Mapping[str, Material]) -> Tie | None:
    inner = view.get("tied")
    if inner is None:
        return None
    return Tie(
        inner.path,
        inner.material("material", materials),
        inner.choice("at", "middle"),
        inner.maybe_count("turns", most=60),
    )


def _lengthwise_sticks(lengthwise: View) -> int:
    sticks = lengthwise.count("sticks", 1, most=GREATEST_STICKS)
    groups = lengthwise.each("groups", lambda item: item.own_count(most=GREATEST_STICKS))
    if groups and sum(groups) != sticks:
        lengthwise.note(
            "groups-break-count",
            f"The groups {list(groups)} hold {sum(groups)} long sticks; sticks says {sticks}.",
            f"write sticks: {sum(groups)}",
        )
    return sticks


def _material_of(sticks: View, view: View, materials: Mapping[str, Material]) -> str:
    if sticks.has("material"):
        return sticks.material("material", materials)
    if not view.has("material"):
        sticks.note(
            "missing-key",
            f"{sticks.spoken[0].upper()}{sticks.spoken[1:]} has no material.",
            "add material: here, or once for all sticks of the base",
            at_key=True,
        )
    return view.material("material", materials)


def _pierced(lengthwise: View, crosswise: View) -> Literal["crosswise", "lengthwise", "none"]:
    if lengthwise.yes("pierced"):
        if crosswise.has("pierced") and crosswise.yes("pierced"):
            crosswise.note(
                "choose-one", "Long sticks and cross sticks cannot both be pierced.", "say pierced: yes for one of them"
            )
        return "lengthwise"
    return "crosswise" if crosswise.yes("pierced", default=True) else "none"


def _slots(holes: View) -> bool:
    if not holes.yes("slots"):
        return False
    if holes.has("diameter"):
        holes.note(
            "choose-one",
            "a slot is as long and as wide as its stake is; diameter says how wide a round hole is.",
            "leave the diameter out",
            "leave slots out",
        )
    return True


def _board(view: View, materials: Mapping[str, Material], settings: Settings, _part: Part) -> Board:
    holes = view.get("holes") or view
    inset = holes.length("inset", nought=True)
    material = view.material("material", materials)
    own = materials[material].thickness_mm if material in materials else _BOARD_MM
    return Board(
        path=view.path,
        outline=read_outline(view, "rectangle"),
        material=material,
        thickness_mm=view.length("thickness") or own,
        holes=holes.maybe_count("count", least=3),
        hole_spacing_mm=holes.length("spacing"),
        inset_mm=settings.mm("hole_inset") if inset is None else inset,
        hole_diameter_mm=None if holes is view else holes.length("diameter"),
        slots=holes is not view and _slots(holes),
    )


def _frame(view: View, materials: Mapping[str, Material], _settings: Settings, part: Part) -> Frame:
    lengthwise, crosswise = view.get("lengthwise") or view, view.get("crosswise")
    if view.yes("doubled_ends") and not view.has("crosswise"):
        view.reading.note(
            "key-unfit",
            (*view.path, "doubled_ends"),
            "There are no cross sticks whose outer ones could be doubled.",
            "give the frame crosswise sticks",
            "take doubled_ends out",
            at_key=True,
        )
    return Frame(
        path=view.path,
        outline=read_outline(view, "rectangle"),
        lengthwise=lengthwise.count("sticks", 1, most=GREATEST_STICKS),
        crosswise=crosswise.count("sticks", 1, most=GREATEST_STICKS) if crosswise is not None else 0,
        material=view.material("material", materials),
        doubled_ends=view.yes("doubled_ends"),
        corner_posts=_corner_posts(view, materials),
        become_stakes=view.yes("become_stakes"),
        lengthwise_length_mm=lengthwise.length("stick_length"),
        crosswise_length_mm=crosswise.length("stick_length") if crosswise is not None else None,
        stick_trim_mm=view.length("stick_trim", nought=True),
        weaving=read_bands(view, "weaving", part, materials),
        worked_as=_worked_as(view),
    )


def _corner_posts(view: View, materials: Mapping[str, Material]) -> CornerPosts | None:
    inner = view.get("corner_posts")
    if inner is None or (not isinstance(inner.data, dict) and not view.yes("corner_posts")):
        return None
    if isinstance(inner.data, dict):
        return CornerPosts(inner.path, inner.material("material", materials), inner.length("length"))
    return CornerPosts(inner.path, view.material("material", materials))


def _ready_made(view: View, _materials: Mapping[str, Material], _settings: Settings, _part: Part) -> ReadyMade:
    return ReadyMade(view.path, read_outline(view), view.maybe_count("ends"), view.text("made_of"))


_READERS: dict[str, Callable[[View, Mapping[str, Material], Settings, Part], Base]] = {
    "round slath": _round_slath,
    "oval slath": _oval_slath,
    "board": _board,
    "frame": _frame,
    "ready made": _ready_made,
}
