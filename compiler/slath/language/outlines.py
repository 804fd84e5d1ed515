"""Plan shapes: a diameter, or a length and a width, with the shape said or taken from what lies below."""

from __future__ import annotations

from slath.language.pattern import Outline, OutlineShape
from slath.language.view import View
from slath.messages.told import Spoken, told

_STAND_IN = Outline("circle", 1.0, 1.0)


def read_outline(view: View, usual: OutlineShape = "ellipse") -> Outline:
    """The outline given by a diameter, or by length and width in the shape said (`usual` where none is)."""
    diameter, length, width = view.length("diameter"), view.length("length"), view.length("width")
    shape: OutlineShape = view.choice("shape", "circle" if view.has("diameter") else usual)
    if view.has("diameter"):
        if view.has("length") or view.has("width"):
            _note(
                view,
                "length" if view.has("length") else "width",
                "choose-one",
                told("A diameter says it all; a length and a width are for what is not round."),
                told("keep diameter, or length and width"),
            )
        if shape != "circle":
            _note(
                view,
                "shape",
                "shape-unfit",
                told("A diameter makes a circle, not a {shape}.", shape=shape),
                told("give length and width"),
            )
        return _circle(diameter)
    if any((*view.path, key) in view.reading.faulty for key in ("diameter", "length", "width")):
        return _STAND_IN  # told already
    if not (view.has("length") and view.has("width")):
        view.note(
            "missing-key",
            told("{spoken:capital} has no size.", spoken=view.spoken),
            told("add diameter:, or length: and width:"),
            at_key=True,
        )
        return _STAND_IN
    if length is None or width is None:
        return _STAND_IN
    return _longer_way(view, shape, length, width)


def sized_by_bands(view: View) -> bool:
    """Whether a base gives no size, and every band of its weaving says how far it goes by itself."""
    weaving = view.get("weaving")
    if weaving is None or any(view.has(key) for key in ("diameter", "length", "width")):
        return False
    return all(item.has("rounds") or item.has("height") or item.has("until_used") for item in weaving.items())


def _circle(diameter: float | None) -> Outline:
    return _STAND_IN if diameter is None else Outline("circle", diameter, diameter)


def _longer_way(view: View, shape: OutlineShape, length: float, width: float) -> Outline:
    if shape == "circle":
        _note(
            view,
            "shape",
            "shape-unfit",
            told("A circle has a diameter, not a length and a width."),
            told("write diameter:, or shape: ellipse"),
        )
    if width > length:
        _note(
            view,
            "width",
            "width-over-length",
            told("The width is more than the length."),
            told("swap the two: length is the longer way"),
        )
    corner = view.length("corner", nought=True) or 0.0
    if corner and shape != "rounded rectangle":
        _note(
            view,
            "corner",
            "shape-unfit",
            told("Only a rounded rectangle has a corner; this is a {shape}.", shape=shape),
            told("write shape: rounded rectangle"),
        )
    elif corner * 2 > min(length, width):
        _note(
            view,
            "corner",
            "shape-unfit",
            told("The corner radius is more than half the width."),
            told("make the corner smaller, or write shape: stadium"),
        )
    return Outline(shape, length, width, corner)


def _note(view: View, key: str, code: str, sentence: Spoken, remedy: Spoken) -> None:
    view.reading.note(code, (*view.path, key), sentence, remedy)
