"""Nothing said of a handle is ever ignored: every key of every kind changes the list, the words or a figure, or is noted."""

from __future__ import annotations

from pathlib import Path

import pytest

from slath.drawing.figures import draw_figures
from slath.drawing.options import Options
from slath.language.handle_kinds import EVERY_HANDLE, HANDLE_KINDS, HandleName
from slath.output.svg import scene_svg
from slath.pipeline import compile_pattern
from slath.trade.words import UK
from slath.wording.speech import plain
from slath.wording.telling import tell

BASKET = """slath: 1
title: Ferry trial
materials:
  sticks: {stock: us round reed 8}
  stakes: {stock: us round reed 5}
  plain: {stock: us round reed 4}
  rust: {stock: us round reed 3, dye: rust, letter: R}
  bow: {stock: us round reed 10}
  thick: {stock: us round reed 12}
  wire: {stock: {kind: wire, diameter: 0.8 mm, usual_length: 20 m, source: measured}}
  ash: {stock: {kind: wood, width: 1 1/2 in, thickness: 3/8 in, usual_length: 3 ft, source: measured}}
base: {kind: round slath, diameter: 9 in, pierced: 4, threaded: 4, material: sticks, weaving: [{weave: pairing, strands: plain, to: edge}]}
stakes: {material: stakes, per_end: 2}
side: {height: 6 in, rim: {diameter: 11 in}, bands: [{name: upsett, weave: three-rod wale, strands: plain, rounds: 3}, {name: wall, weave: chasing, strands: plain, to: top}]}
border: {passes: [[behind 2, out], [before 3, in]]}
"""
NEEDED: dict[HandleName, dict[str, str]] = {
    "roped": {"wraps": "{kind: rope, strands: plain}"},
    "two-piece": {},
    "side": {"span": "4 in", "rise": "2 in"},
    "drop": {"span": "3 in", "rise": "2 in"},
    "ring": {"diameter": "2 in"},
    "ears": {"rise": "2 in", "count": "2"},
    "swinging": {"ears": "{material: ash}"},
}
OTHER = {
    "material": "thick",
    "count": "2",
    "direction": "along",
    "at": "[3, 19]",
    "length": "31 in",
    "wraps": "{kind: lapping, strands: rust}",
    "lash": "rust",
    "note": "Sing while you do it.",
    "set": "at the upsett",
    "liner": "{material: stakes}",
    "pieces": "4",
    "rise": "5 in",
    "span": "10 1/2 in",
    "shape": "square shoulders",
    "feet": "3 in",
    "through_base": "yes",
    "lap": "2 in",
    "diameter": "3 in",
    "rounds": "3",
    "scarf": "5 in",
    "ears": "{material: ash, width: 2 in}",
    "bind": "{material: wire}",
}
INNER = {
    "ears": {
        "length": "4 in", "width": "1 3/4 in", "rise": "1 1/2 in", "notch": "3/8 in", "holds": "top rows", "holes": "2",
        "hole": "1/2 in",
    },
    "bind": {"places": "3", "turns": "9", "length": "20 in"},
    "liner": {"after": "wall", "length": "11 in"},
    "wraps": {
        "lay": "3 in", "turns": "9", "count": "7", "cover": "spaced", "gap": "1 in", "over": "2 in", "places": "2",
        "from": "2 in", "group": "2",
    },
}  # fmt: skip
OF_A_PLACE = {"places": {"over": "2 in"}, "after": {}}  # what a key says something beside


def everything(folder: Path, handle: str) -> str:
    """All that is listed, told or noted of a basket with this handle."""
    file = folder / "trial.yaml"
    file.write_text(BASKET + f"handle: {handle}\n", "utf-8")
    compilation = compile_pattern(file)
    notes = " ".join(f"{note.code} {note.sentence}" for note in compilation.notes)
    if not compilation.sizes:
        return notes
    (size,) = compilation.sizes
    told = tell(compilation.pattern, size.basket, size.quantities, vocabulary=UK)
    said = " ".join(
        plain(words)
        for stage in told.stages
        for step in stage.steps
        for words in (*step.actions, *step.notes, stage.lead)
    )
    pieces = " ".join(
        f"{piece.part} {piece.count.value} {piece.cut_mm.value} {piece.material}" for piece in size.quantities.pieces
    )
    return f"{notes} {pieces} {said}"


def drawn(folder: Path, handle: str) -> str:
    """The figures of this handle, for what shows in them alone."""
    file = folder / "trial.yaml"
    file.write_text(BASKET + f"handle: {handle}\n", "utf-8")
    (size,) = compile_pattern(file).sizes
    figures = draw_figures(size.basket, size.quantities, Options())
    return " ".join(scene_svg(scene) for name, scene in figures.items() if name.startswith("handle-"))


def differ(folder: Path, one: str, other: str) -> bool:
    """Whether two handles are told or drawn otherwise."""
    if everything(folder, one) != everything(folder, other):
        return True
    return drawn(folder, one) != drawn(folder, other)


def written(keys: dict[str, str]) -> str:
    """Keys as YAML in braces."""
    return "{" + ", ".join(f"{key}: {value}" for key, value in keys.items()) + "}"


def usual(kind: HandleName) -> dict[str, str]:
    """The least a handle of this kind is written with."""
    return {"kind": kind, "material": "bow", **NEEDED.get(kind, {})}


@pytest.mark.parametrize(
    ("kind", "key"),
    [(kind, key) for kind, row in HANDLE_KINDS.items() for key in sorted((row.keys | EVERY_HANDLE) - {"kind"})],
)
def test_every_key_of_every_kind_says_something(kind: HandleName, key: str, tmp_path: Path) -> None:
    """The same handle with and without the key, or with another value, is not the same basket."""
    keys = usual(kind)
    value = "3" if (kind, key) == ("ears", "count") else OTHER[key]
    if key == "lap" and kind not in {"two-piece", "ring"}:
        keys["through_base"] = "yes"
    assert differ(tmp_path, written(keys), written({**keys, key: value}))


@pytest.mark.parametrize(("part", "key"), [(part, key) for part, keys in INNER.items() for key in keys])
def test_every_key_of_its_parts_says_something(part: str, key: str, tmp_path: Path) -> None:
    """The same of its ears, bindings, liners and wraps."""
    given = {
        "ears": {"material": "ash"},
        "bind": {"material": "wire"},
        "liner": {"material": "stakes"},
        "wraps": {"kind": "rope", "strands": "plain"},
    }
    without = {**given[part], **OF_A_PLACE.get(key, {})}
    base = usual("swinging") if part in {"ears", "bind"} else {"kind": "bow", "material": "bow", "rise": "7 in"}
    one, other = ({**base, part: written(keys)} for keys in (without, {**without, key: INNER[part][key]}))
    assert differ(tmp_path, written(one), written(other))


@pytest.mark.parametrize("kind", HANDLE_KINDS)
def test_a_key_of_another_kind_is_noted(kind: HandleName, tmp_path: Path) -> None:
    """What says nothing of a handle of this kind is not dropped without a word."""
    strange = sorted(set(OTHER) - HANDLE_KINDS[kind].keys - EVERY_HANDLE)
    for key in strange:
        said = everything(tmp_path, written({**usual(kind), key: OTHER[key]}))
        assert f"key-unfit {key} says nothing" in said, key
