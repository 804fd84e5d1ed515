"""Any basket the language can say, as hypothesis draws it: a whole pattern file, compiled by the one way through the house.

The strategy draws what a maker decides (base, count, sizes, bands, border, stocks) and leaves the numbers to the tool, so
that most of what it draws can be woven; the rest is left aside by `woven`.
"""

from __future__ import annotations

import json
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import HealthCheck, assume
from hypothesis import settings as within
from hypothesis import strategies as st

from slath.notes import PatternFaultError
from slath.pipeline import Compilation, compile_pattern

Text = dict[str, Any]

quick = within(
    deadline=None, max_examples=30, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)  # fmt: skip

REED: Text = {
    "sticks": {"stock": "us round reed 8"},
    "stakes": {"stock": "us round reed 5"},
    "plain": {"stock": "us round reed 3"},
    "rust": {"stock": "us round reed 3", "dye": "rust", "colour": "#cf8a62", "marks": "rings"},
    "board": {"stock": "plywood 6 mm"},
}
WILLOW: Text = {
    "sticks": {"stock": "buff willow 180 cm"},
    "stakes": {"stock": "buff willow 150 cm"},
    "plain": {"stock": "buff willow 90 cm"},
    "rust": {"stock": "brown willow 90 cm", "colour": "#5f4a2c", "marks": "rings"},
    "board": {"stock": "plywood 9 mm"},
}
PACKS: Text = {
    f"us round reed {number}": [{"title": "1 lb coil", "mass": "1 lb", "price": 11.5, "currency": "GBP", "priced_on": "2026-02-01"}]
    for number in (3, 5, 8)
}  # fmt: skip
# Weaves by the counts they hold on.
EVEN, ANY, ODD = ("chasing",), ("pairing", "three-rod wale", "four-rod wale", "French randing"), ("randing", "slewing")


@st.composite
def patterns(draw: st.DrawFn, *, by_rounds: bool = False, straight: bool = False) -> Text:
    """A whole pattern in one size. `by_rounds`: every band says its rounds; `straight`: the side stands upright."""
    willow = draw(st.booleans())
    base, stakes, ends = draw(bases(by_rounds=by_rounds))
    across = str(base["diameter"] if "diameter" in base else base["width"])
    pattern: Text = {
        "slath": 1,
        "title": "Any basket",
        "dated": "2026-03-01",
        "materials": WILLOW if willow else REED,
        "base": base,
        **({"stakes": stakes} if stakes else {}),
        "side": draw(sides(across, base, ends, by_rounds=by_rounds, straight=straight)),
        "packs": {} if willow else PACKS,
        "settings": {"spare_strands": draw(st.sampled_from([0, 0.1]))},
    }
    if draw(st.booleans()):
        pattern["border"] = draw(borders())
    if base["kind"] == "board":
        pattern["foot"] = {"passes": [["behind 1", "before 1", "in"]]}
    elif draw(st.booleans()):
        pattern["bye_stakes"] = {"material": "stakes", "after": "band 1", "depth": "2 mm"}
    return pattern


@st.composite
def bases(draw: st.DrawFn, *, by_rounds: bool) -> tuple[Text, Text | None, int]:
    """A base of any kind, its stakes (None where its sticks turn up), and the number of uprights."""
    kind = draw(st.sampled_from(["round slath", "oval slath", "frame", "board", "ready made"]))
    wide = draw(st.integers(150, 320))
    if kind in ("board", "ready made"):
        count = draw(st.integers(18, 44))
        shape = draw(st.sampled_from(["circle", "ellipse", "stadium", "rounded rectangle"]))
        outline = _outline(shape, wide, draw(st.integers(20, 150)))
        if kind == "board":
            holes = {"count": count, "diameter": "9 mm"}
            return (
                {"kind": kind, **outline, "material": "board", "thickness": "6 mm", "holes": holes},
                {"material": "stakes"},
                count,
            )
        return {"kind": kind, **outline}, {"material": "stakes", "count": count}, count
    base, ends = draw(_stick_base(kind, wide))
    if kind != "frame":
        extent: Text = {"rounds": 8} if by_rounds else {"to": "edge"}
        base["weaving"] = [{"name": "base", "weave": "pairing", "strands": "plain", **extent}]
    if draw(st.booleans()):
        return {**base, "become_stakes": "yes"}, None, ends
    per_end = draw(st.integers(1, 2))
    extra = draw(st.integers(0, 1))
    return base, {"material": "stakes", "per_end": per_end, **({"add": 1} if extra else {})}, per_end * ends + extra


@st.composite
def _stick_base(draw: st.DrawFn, kind: str, wide: int) -> tuple[Text, int]:
    longer = wide + draw(st.integers(40, 160))
    if kind == "round slath":
        pierced, half = draw(st.integers(3, 6)), draw(st.booleans())
        base = {"kind": kind, "diameter": f"{wide} mm", "pierced": pierced, "threaded": pierced, "material": "sticks"}
        centre = draw(st.sampled_from(["pierced", "crossed"]))
        return {**base, "centre": centre, **({"half_stick": "yes"} if half else {})}, 4 * pierced + half
    size = {"kind": kind, "length": f"{longer} mm", "width": f"{wide} mm", "material": "sticks"}
    if kind == "oval slath":
        long, groups = draw(st.integers(2, 4)), draw(st.sampled_from([[2, 1, 1, 1, 2], [1, 1, 1, 1, 1], [2, 2, 2]]))
        return {**size, "lengthwise": {"sticks": long}, "crosswise": {"groups": groups}}, 2 * (long + sum(groups))
    long, cross = draw(st.integers(5, 9)), draw(st.integers(6, 11))
    return {**size, "lengthwise": {"sticks": long}, "crosswise": {"sticks": cross}}, 2 * (long + cross)


def _outline(shape: str, wide: int, longer: int) -> Text:
    if shape == "circle":
        return {"shape": shape, "diameter": f"{wide} mm"}
    corner = {"corner": f"{wide // 5} mm"} if shape == "rounded rectangle" else {}
    return {"shape": shape, "length": f"{wide + longer} mm", "width": f"{wide} mm", **corner}


@st.composite
def sides(draw: st.DrawFn, across: str, base: Text, count: int, *, by_rounds: bool, straight: bool) -> Text:
    """A side of one to four bands whose weaves suit `count` uprights, flared or not."""
    suiting = ANY + (ODD if count % 2 else EVEN)
    weaves = draw(st.lists(st.sampled_from(suiting), min_size=1, max_size=4))
    bands = [draw(_band(weave, number, by_rounds=by_rounds)) for number, weave in enumerate(weaves, start=1)]
    if not by_rounds:
        last = bands[-1]
        bands[-1] = {**{key: value for key, value in last.items() if key != "rounds"}, "to": "top"}
    side: Text = {"bands": bands}
    if not by_rounds:
        side["height"] = f"{draw(st.integers(90, 260))} mm"
    if not straight and (base.get("shape", "circle") == "circle" and "diameter" in base):
        side["rim"] = {"diameter": f"{round(int(across.split(maxsplit=1)[0]) * draw(st.floats(0.95, 1.2)))} mm"}
        side["profile"] = draw(st.sampled_from(["straight", "bowl"]))
    return side


@st.composite
def _band(draw: st.DrawFn, weave: str, number: int, *, by_rounds: bool) -> Text:
    colours = {"pairing": 2, "three-rod wale": 3, "four-rod wale": 4, "chasing": 2, "slewing": 2}.get(weave, 1)
    strands = draw(st.lists(st.sampled_from(["plain", "rust"]), min_size=colours, max_size=colours))
    rounds = draw(st.integers(1 if number > 1 else 2, 12 if by_rounds else 4))
    return {"name": f"band {number}", "weave": weave, "strands": strands, "rounds": rounds}


@st.composite
def borders(draw: st.DrawFn) -> Text:
    """An open, plain, trac or two-pass border, as it is written."""
    one, two = draw(st.integers(1, 3)), draw(st.integers(1, 3))
    return draw(
        st.sampled_from(
            [
                {"kind": "open", "past": one},
                {"kind": "plain", "rods": one + 2},
                {"kind": "trac", "moves": [f"behind {one}", f"before {two}", "behind 1", "out"]},
                {"passes": [[f"behind {one}", "out"], [f"before {two}", "in"]]},
            ]
        )
    )


def compiled(pattern: Text) -> Compilation:
    """The pattern worked out; left aside where it cannot be constructed at all."""
    with TemporaryDirectory() as folder:
        file = Path(folder) / "any.yaml"
        file.write_text(json.dumps(pattern), encoding="utf-8")
        try:
            compilation = compile_pattern(file)
        except (
            PatternFaultError
        ) as fault:  # pragma: no cover - a drawn pattern that cannot be read is the test's own fault
            raise AssertionError([note.sentence for note in fault.notes]) from fault
    assume(compilation.sizes)
    return compilation


def woven(pattern: Text) -> Compilation:
    """The same, left aside also where a rule says that it cannot be woven."""
    compilation = compiled(pattern)
    assume(not compilation.at_fault)
    return compilation
