"""Bands of weaving, open bands and changes of stakes, on a base, a side or a lid."""

from __future__ import annotations

from typing import Literal

from msgspec.structs import replace

from slath.language.keys import Materials, read
from slath.language.other_work import of_other_work, other_work
from slath.language.outlines import read_outline
from slath.language.pattern import (
    Band,
    Cell,
    Extent,
    Outline,
    OutlineShape,
    ShortRows,
    StakeChange,
    WeaveSpec,
)
from slath.language.view import View
from slath.language.weaves import OPEN, NamedWeave, UnknownWeaveError, find_weave, read_strokes
from slath.messages.told import Figure, told
from slath.units import Amount, Basis, Unit

Part = str  # base, side, lid, foot, or the name of a part made by itself
_ACTIONS: dict[str, Literal["add", "drop", "part", "cross", "regroup"]] = {
    "add_stakes": "add",
    "drop_stakes": "drop",
    "part_stakes": "part",
    "cross_stakes": "cross",
    "regroup_stakes": "regroup",
}


def read_bands(view: View, key: str, part: Part, materials: Materials) -> tuple[Band, ...]:
    """The bands under `key`, each named, arrows and chains written out as the bands they are."""
    inner = view.get(key)
    if inner is None:
        return ()
    written = "base_band" if key == "weaving" else "woven_band"
    return tuple(
        band
        for number, item in enumerate(inner.items(), 1)
        for band in _bands_of(item, number, part, materials, written)
    )


def read_side_bands(
    view: View, part: Part, materials: Materials, shape: OutlineShape
) -> tuple[Band | StakeChange, ...]:
    """The bands of a side from the base up, changes of stakes among them."""
    inner = view.get("bands")
    if inner is None:
        return ()
    rows: list[Band | StakeChange] = []
    number = 0
    for item in inner.items():
        change = next((key for key in _ACTIONS if item.has(key)), None)
        if change is not None:
            rows.append(_change(item, change, materials))
            continue
        number += 1
        rows.extend(
            _open_band(item, number, part, shape)
            if item.has("open")
            else _bands_of(item, number, part, materials, "woven_band", shape)
        )
    return tuple(rows)


def read_weave(view: View, key: str) -> NamedWeave:
    """The weave named under `key`; randing stands in where the name is unknown."""
    inner = view.get(key)
    if inner is None:
        return find_weave("randing")
    try:
        return find_weave(inner.own_text())
    except UnknownWeaveError as fault:
        work = other_work(inner.own_text())
        if work:
            inner.note("other-work", *of_other_work(work))
        else:
            inner.note("unknown-weave", fault.sentence, fault.remedy)
        return find_weave("randing")


def _bands_of(
    view: View, number: int, part: Part, materials: Materials, written: str, shape: OutlineShape = "ellipse"
) -> list[Band]:
    weave, turns = read_weave(view, "weave")
    band = read(
        Band,
        view,
        materials,
        written,
        name=view.text("name") or f"band {number}",
        weave=weave,
        extent=_extent(view, "extent_on_base" if written == "base_band" else "extent"),
        part=part,
        ends_at=_ends_at(view, shape),
        take_up=_measured(view, "take_up", "take-up", "ratio"),
        pitch=_measured(view, "pitch", "height of one round", "mm"),
        cells=view.each("figure", lambda item: _cell(item, weave)),
    )
    short = view.get("short_rows")
    if short is not None:
        band = _with_short_rows(short, band)
    return _turned(view, band, turns) if turns else [band]


def _turned(view: View, band: Band, turns: str) -> list[Band]:
    """An arrow (rounds, then as many reversed) or a chain (every second round reversed) as bands of their own."""
    rounds = band.extent.rounds
    if rounds is None or rounds % 2:
        view.note(
            "turns-need-rounds",
            told("An {turns} is worked in an even number of rounds.", turns=turns)
            if turns == "arrow"
            else told("A chain is worked in an even number of rounds."),
            told("give rounds: 4"),
        )
        return [band]
    parts = 2 if turns == "arrow" else rounds
    each = Extent(rounds=rounds // parts)
    names = [
        f"{band.name}, {'turned' if index % 2 else 'straight'}" if parts == 2 else f"{band.name}, round {index + 1}"
        for index in range(parts)
    ]
    last = parts - 1
    return [
        replace(
            band,
            name=name,
            extent=each,
            reversed=band.reversed != bool(index % 2),
            ends_at=band.ends_at if index == last else None,
            note=band.note if index == 0 else "",
            goes_on=band.goes_on if index == 0 else None,
            turn_of=band.name,
        )
        for index, name in enumerate(names)
    ]


def _open_band(view: View, number: int, part: Part, shape: OutlineShape) -> list[Band]:
    return [
        Band(
            name=view.text("name") or f"band {number}",
            path=view.path,
            weave=OPEN,
            strands=(),
            extent=Extent(height_mm=view.length("open")),
            part=part,
            ends_at=_ends_at(view, shape),
            note=view.text("note"),
        )
    ]


def _extent(view: View, written: str) -> Extent:
    extent = read(Extent, view, {}, written)
    return replace(extent, to="top") if view.has("leaves") and extent.to is None else extent


def _ends_at(view: View, shape: OutlineShape) -> Outline | None:
    inner = view.get("ends_at")
    return read_outline(inner, shape) if inner is not None else None


def _measured(view: View, key: str, name: str, unit: Unit) -> Amount | None:
    value = view.length(key) if unit == "mm" else view.ratio(key)
    if value is None:
        return None
    if unit == "ratio" and not 1 <= value <= 10:
        view.note(
            "number-out-of-range",
            told(
                "{name} is {value}; a strand is 1 to 10 times as long as what it covers.",
                name=name,
                value=Figure(f"{value:g}"),
            ),
            at_key=True,
        )
    return Amount(name, value, unit, Basis.MEASURED, path=(*view.path, key))


def _with_short_rows(view: View, band: Band) -> Band:
    """Rows that turn back, each written out as the stakes it covers."""
    short = read(ShortRows, view, {})
    if not view.has("shorter"):
        short = replace(short, shorter=0 if short.leaves_open else 1)
    rounds = band.extent.rounds
    if band.weave.kind != "packing" or rounds is None or band.cells:
        view.note(
            "key-unfit",
            told("Short rows are rows of packing, given by their number, and no figure besides."),
            told("give rows by their number (rounds): the height divided by the thickness of the strand")
            if band.weave.kind == "packing" and rounds is None and not band.cells
            else told("write weave: packing and rounds: 8"),
            at_key=True,
        )
        return band
    rows = [
        (number, *short.row(number, stretch)) for number in range(1, rounds + 1) for stretch in range(len(short.over))
    ]
    if any(left >= right for _, left, right in rows):
        fit = next(number for number, left, right in rows if left >= right) - 1
        view.note(
            "number-out-of-range",
            told(
                "Rows that turn {shorter} short each time run out of stakes after {fit}; the band has {rounds}.",
                shorter=short.shorter,
                fit=max(fit, 1),
                rounds=rounds,
            ),
            told("give it rounds: {fit}", fit=max(fit, 1)),
            told("let them turn less short"),
        )
        return band
    cells = tuple(Cell((number, number), (left, right), ()) for number, left, right in rows)
    return replace(band, cells=cells, short_rows=short)


def _cell(view: View, of: WeaveSpec) -> Cell:
    weave = view.get("weave")
    strokes = read_strokes(weave.own_text()) if weave is not None else ()
    if weave is None and of.kind != "packing" and not view.has("weave"):
        view.note(
            "missing-key", told("The figure does not say how it is worked there."), told("add weave: before 2 behind 1")
        )
    if weave is not None and not strokes:
        weave.note(
            "unknown-weave",
            told("“{text}” is not a stroke.", text=weave.own_text()),
            told("write its strokes, such as before 2 behind 1"),
        )
    return read(Cell, view, {}, strokes=strokes)


def _change(view: View, key: str, materials: Materials) -> StakeChange:
    details = view.get(key) or view
    change = read(StakeChange, details, materials, action=_ACTIONS[key])
    # Parting and crossing go one by one unless told; adding and dropping follow `beside` where no count is given.
    usual = {
        "count": 1 if key in {"part_stakes", "cross_stakes"} else len(change.stakes),
        "beside": "listed" if change.stakes else "every",
        "first": 2 if key == "regroup_stakes" else 1,
    }
    return replace(change, **{name: value for name, value in usual.items() if not details.has(name)})
