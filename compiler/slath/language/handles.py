"""Handles: one set of like ones or a list, each with what is wound round it, its ears, bindings and liners."""

from __future__ import annotations

from msgspec.structs import replace

from slath.language.handle_kinds import EVERY_HANDLE, HANDLE_KINDS, HandleName
from slath.language.keys import Materials, read
from slath.language.records.handles import MOST_BOWS, Ears, Handle, HandleTime, Wrap
from slath.language.view import View
from slath.messages.told import told
from slath.notes import Severity


def read_handles(view: View, materials: Materials) -> tuple[Handle, ...]:
    """The handles of a basket or a lid: one set of like ones, or a list."""
    if view.has("handle") and view.has("handles"):
        view.reading.note(
            "choose-one",
            (*view.path, "handles"),
            told("handle and handles are both given."),
            told("put every handle in the list handles"),
            at_key=True,
        )
    handles = (view.each(key, lambda item: read_handle(item, materials)) for key in ("handle", "handles"))
    return tuple(handle for each in handles for handle in each)


def read_handle(view: View, materials: Materials) -> Handle:
    """A handle, or a set of like handles."""
    kind: HandleName = view.choice("kind", "bow")
    if view.get("kind") is not None:
        _check_keys(view, kind)
        view = _fitting(view, kind)
    family = HANDLE_KINDS[kind].family
    swinging = family == "swinging"
    bows = view.count("count", 1, most=MOST_BOWS if swinging else 24)
    usual: HandleTime = "before the border" if family in {"ears", "swinging"} else "after the border"
    ears = view.get("ears")
    return read(
        Handle,
        view,
        materials,
        kind=kind,
        count=bows,
        wraps=view.each("wraps", lambda item: _wrap(item, materials)),
        set_in=view.choice("set", usual),
        ears=_ears(ears, bows, materials) if ears is not None else None,
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
                told("{key} says nothing about a handle of the kind {kind}: it is not used.", key=key, kind=kind),
                told("take it out"),
                *((told("{key} belongs to kind: {join}", key=key, join=" or ".join(having)),) if having else ()),
                severity=Severity.WARNING,
                at_key=True,
            )
    if kind == "ring" and view.has("diameter") and view.has("span"):
        view.reading.note(
            "choose-one",
            (*view.path, "span"),
            told("The diameter says how wide a ring is: its span is not used."),
            told("keep one of the two"),
            severity=Severity.WARNING,
            at_key=True,
        )
    if kind == "roped" and not view.has("wraps"):
        view.reading.note(
            "missing-key",
            (*view.path, "kind"),
            told("A roped handle needs the rope that is wound round it."),
            told("add wraps: {{kind: rope, strands: …}}"),
            told("write kind: bow for one that stays bare"),
        )
    if kind == "swinging" and not view.has("ears"):
        view.reading.note(
            "missing-key",
            (*view.path, "kind"),
            told("A swinging handle needs the ears it hangs in."),
            told("add ears: {{material: …}}"),
            told("write kind: drop for one that hangs from loops"),
        )


def _fitting(view: View, kind: HandleName) -> View:
    """The handle without keys that say nothing of its kind."""
    known = EVERY_HANDLE | HANDLE_KINDS[kind].keys
    return replace(view, data={key: value for key, value in view.data.items() if key in known})


def _ears(view: View, bows: int, materials: Materials) -> Ears:
    ears = read(Ears, view, materials)
    return ears if view.has("holes") else replace(ears, holes=bows)


def _wrap(view: View, materials: Materials) -> Wrap:
    """What is wound round a handle: spaced where a gap is given, and strand by strand where they are listed."""
    strands = view.get("strands")
    listed = strands is not None and isinstance(strands.data, list)
    return read(
        Wrap, view, materials, cover=view.choice("cover", "spaced" if view.has("gap") else "full"), listed=listed
    )
