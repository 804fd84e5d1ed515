"""Gauge, settings, accepted warnings, the designer's own words, packs and test-weave results."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import TypeVar

from msgspec.structs import replace

from slath.language.bands import read_weave
from slath.language.formula import NUMBER
from slath.language.keys import read
from slath.language.pattern import Acceptance, Gauge, Material, Settings, StageWords, WovenSize
from slath.language.pictures import read_picture
from slath.language.spelling import nearest
from slath.language.view import GREATEST_STRAND_MM, View
from slath.messages.told import told
from slath.notes.catalogue import CATALOGUE
from slath.trade import find_stock
from slath.trade.stock import Pack, Stock
from slath.units import Amount, Basis

Number = TypeVar("Number", int, float)


def read_gauge(view: View, materials: Mapping[str, Material], stocks: Mapping[str, Stock]) -> Gauge:
    """One measurement on a test piece; the weave is kept under its one trade name."""
    strand = view.get("strand")
    if (
        strand is not None
        and strand.own_text() not in materials
        and strand.own_text() not in stocks
        and find_stock(strand.own_text()) is None
    ):
        strand.own_material({**materials, **stocks})
    return read(Gauge, view, {}, weave=read_weave(view, "weave").weave.label)


def read_settings(views: list[View], defaults: Mapping[str, Amount]) -> Settings:
    """The defaults, overruled by each of `views` in turn."""
    values = dict(defaults)
    for view in views:
        for key, item in view.entries():
            if key not in defaults:
                near = nearest(key, defaults)
                item.note(
                    "unknown-setting",
                    told("There is no setting {key}.", key=key),
                    told("write {near}", near=near) if near else told("slath proof lists every setting"),
                    at_key=True,
                )
                continue
            default = defaults[key]
            value = item.own_length(nought=True) if default.unit == "mm" else item.quantity(NUMBER)
            if value is not None:
                if value < 0:
                    item.note("number-out-of-range", told("{key} is less than nothing.", key=key))
                values[key] = Amount(default.name, value, default.unit, Basis.GIVEN, path=item.path)
    return Settings(values)


def read_acceptance(view: View, sizes: tuple[str, ...]) -> Acceptance:
    """One warning overruled, its code known to the catalogue."""
    code, size = view.get("code"), view.get("size")
    if code is not None and code.own_text() not in CATALOGUE:
        near = nearest(code.own_text(), CATALOGUE)
        code.note(
            "unknown-code",
            told("There is no note with the code {text}.", text=code.own_text()),
            told("write {near}", near=near) if near else told("copy the code that slath check prints"),
        )
    if size is not None and size.own_text() not in sizes:
        near = nearest(size.own_text(), sizes)
        size.note(
            "unknown-size",
            told("There is no size “{text}”.", text=size.own_text()),
            told("write {value}", value=near or ", ".join(sizes)),
        )
    return read(Acceptance, view, {})


def read_stage(view: View) -> StageWords:
    """The designer's words for one stage."""
    return read(StageWords, view, {}, pictures=view.each("pictures", read_picture))


def read_packs(view: View | None, house: Collection[str] = ()) -> dict[str, tuple[Pack, ...]]:
    """Packs by the stock they hold, one of the catalogue or of the `house`, under the name as written."""
    packs: dict[str, tuple[Pack, ...]] = {}
    for name, item in view.entries() if view is not None else ():
        if name not in house and find_stock(name) is None:
            item.note(
                "unknown-stock",
                told("There is no stock called “{name}”.", name=name),
                told("write the stock's name as its material does"),
                at_key=True,
            )
        packs[name] = tuple(read(Pack, pack, {}) for pack in item.items())
    return packs


def read_test_weave(view: View, materials: Mapping[str, Material]) -> WovenSize:
    """What the test weave of one size found: the day alone, or the form filled in."""
    if not isinstance(view.data, dict):
        return WovenSize(view.path, view.own_day())
    base, rim = view.length("base_diameter"), view.length("rim_diameter")
    used = _named(view, "used", lambda key, item: _amount_of(key, item, materials))
    left_over = _named(view, "left_over", lambda key, item: _amount_of(key, item, materials))
    _check_left_over(view, used, left_over)
    woven = read(WovenSize, view, {}, used=used, left_over=left_over)
    if woven.mass_g is not None and woven.mass_g <= 0:
        view.note(
            "number-out-of-range", told("The basket weighs nothing."), told("write what the scales say"), at_key=True
        )
    return replace(
        woven,
        base_length_mm=woven.base_length_mm or base,
        base_width_mm=woven.base_width_mm or base,
        rim_length_mm=woven.rim_length_mm or rim,
        rim_width_mm=woven.rim_width_mm or rim,
    )


def _check_left_over(view: View, used: Mapping[str, float], left_over: Mapping[str, float]) -> None:
    """What is left over of a material is no more than what was begun with, and says nothing without it."""
    for key, left in left_over.items():
        path = (*view.path, "left_over", key)
        if key not in used:
            view.reading.note(
                "missing-key",
                path,
                told("{key} is left over, but it is not said how much of it was begun with.", key=key),
                told("add used: {{{key}: …}}", key=key),
                at_key=True,
            )
        elif left > used[key]:
            view.reading.note(
                "number-out-of-range",
                path,
                told("More of {key} is left over than was begun with.", key=key),
                told("used is what you began with, left_over what remained of that"),
            )


def _named(view: View, key: str, read: Callable[[str, View], Number]) -> dict[str, Number]:
    inner = view.get(key)
    return {name: read(name, item) for name, item in inner.entries()} if inner is not None else {}


def _amount_of(key: str, view: View, materials: Mapping[str, Material]) -> float:
    """Length of a material in mm; whole rods where it is sold by the rod."""
    if key not in materials:
        near = nearest(key, materials)
        view.note(
            "unknown-material",
            told("There is no material called “{key}”.", key=key),
            told("write {near}", near=near) if near else told("choose {join}", join=", ".join(materials)),
            at_key=True,
        )
    elif materials[key].stock.length_class_mm is not None:
        return view.own_count(least=0)
    return view.own_length(nought=True, most=GREATEST_STRAND_MM)
