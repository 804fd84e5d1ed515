"""Handles: one set of like ones or a list, each with what is wound round it, its ears, bindings and liners."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from slath.language.handle_kinds import EVERY_HANDLE, HANDLE_KINDS, HandleName
from slath.language.pattern import Binding, Ears, Handle, HandleTime, Liner, Material, Wrap
from slath.language.view import View
from slath.notes import Severity

_MOST_BOWS = 2  # hang in one pair of ears


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


def read_handle(view: View, materials: Mapping[str, Material]) -> Handle:
    """A handle, or a set of like handles."""
    kind: HandleName = view.choice("kind", "bow")
    if view.get("kind") is not None:
        _check_keys(view, kind)
        view = _fitting(view, kind)
    family = HANDLE_KINDS[kind].family
    swinging = family == "swinging"
    bows = view.count("count", 1, most=_MOST_BOWS if swinging else 24)
    ears, bind, liner = view.get("ears"), view.get("bind"), view.get("liner")
    usual: HandleTime = "before the border" if family in {"ears", "swinging"} else "after the border"
    return Handle(
        path=view.path,
        kind=kind,
        material=view.material("material", materials),
        count=bows,
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
        scarf_mm=view.length("scarf"),
        ears=_ears(ears, bows, materials) if ears is not None else None,
        bind=_binding(bind, materials) if bind is not None else None,
        rounds=view.maybe_count("rounds", most=24),
        set_in=view.choice("set", usual),
        liner=_liner(liner, materials) if liner is not None else None,
    )


def _check_keys(view: View, kind: HandleName) -> None:
    """Keys that say nothing of a handle of this kind are told of, and what it cannot be without."""
    known = EVERY_HANDLE | HANDLE_KINDS[kind].keys
    for key in view.data if isinstance(view.data, dict) else ():
        if key not in known:
            having = [name for name, row in HANDLE_KINDS.items() if key in row.keys]
            view.reading.note(
                "key-unfit",
                (*view.path, key),
                f"{key} says nothing about a handle of the kind {kind}: it is not used.",
                "take it out",
                *((f"{key} belongs to kind: {' or '.join(having)}",) if having else ()),
                severity=Severity.WARNING,
                at_key=True,
            )
    if kind == "ring" and view.has("diameter") and view.has("span"):
        view.reading.note(
            "choose-one",
            (*view.path, "span"),
            "The diameter says how wide a ring is: its span is not used.",
            "keep one of the two",
            severity=Severity.WARNING,
            at_key=True,
        )
    if kind == "roped" and not view.has("wraps"):
        view.reading.note(
            "missing-key",
            (*view.path, "kind"),
            "A roped handle needs the rope that is wound round it.",
            "add wraps: {kind: rope, strands: …}",
            "write kind: bow for one that stays bare",
        )
    if kind == "swinging" and not view.has("ears"):
        view.reading.note(
            "missing-key",
            (*view.path, "kind"),
            "A swinging handle needs the ears it hangs in.",
            "add ears: {material: …}",
            "write kind: drop for one that hangs from loops",
        )


def _fitting(view: View, kind: HandleName) -> View:
    """The handle without keys that say nothing of its kind."""
    known = EVERY_HANDLE | HANDLE_KINDS[kind].keys
    return replace(view, data={key: value for key, value in view.data.items() if key in known})


def _ears(view: View, bows: int, materials: Mapping[str, Material]) -> Ears:
    return Ears(
        path=view.path,
        material=view.material("material", materials),
        holes=view.count("holes", bows, most=_MOST_BOWS),
        length_mm=view.length("length"),
        width_mm=view.length("width"),
        notch_mm=view.length("notch"),
        rise_mm=view.length("rise"),
        holds=view.choice("holds", "border"),
        hole_mm=view.length("hole"),
    )


def _binding(view: View, materials: Mapping[str, Material]) -> Binding:
    return Binding(
        path=view.path,
        material=view.material("material", materials),
        places=view.count("places", 2, most=12),
        turns=view.maybe_count("turns", most=60),
        length_mm=view.length("length"),
    )


def _liner(view: View, materials: Mapping[str, Material]) -> Liner:
    return Liner(view.path, view.material("material", materials), view.text("after"), view.length("length"))


def _wrap(view: View, materials: Mapping[str, Material]) -> Wrap:
    strands = view.get("strands")
    return Wrap(
        path=view.path,
        kind=view.choice("kind", "rope"),
        strands=view.each("strands", lambda item: item.own_material(materials)),
        lay_mm=view.length("lay"),
        turns=view.maybe_count("turns"),
        cover=view.choice("cover", "spaced" if view.has("gap") else "full"),
        gap_mm=view.length("gap", nought=True),
        over_mm=view.length("over"),
        places=view.count("places", 1, most=60),
        listed=strands is not None and isinstance(strands.data, list),
        from_mm=view.length("from", nought=True),
        group=view.count("group", 1, most=24),
        count=view.maybe_count("count", most=200),
        offcuts=view.yes("offcuts"),
    )
