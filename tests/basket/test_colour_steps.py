"""Colours against weaving by hand: every weave, both directions, strokes over the other strands and under them."""

from __future__ import annotations

import json
from itertools import pairwise, product
from pathlib import Path

import pytest

from slath.basket.count_search import promised, try_count
from slath.basket.weave import colour_step, seen_step
from slath.drawing.options import Options
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.wall.colour_plan import draw_colour_plan
from slath.drawing.wall.side import lean_said
from slath.language.weaves import find_weave
from slath.pipeline import Compilation, compile_pattern

COLOURS = ("plain", "rust", "slate", "moss", "navy", "ochre")
WEAVES = [
    "pairing", "chasing", "three-rod wale", "four-rod wale", "five-rod wale", "six-rod wale",
    "four-rod wale before 2 behind 2", "French randing", "double pairing", "fitching",
]  # fmt: skip
COUNTS = (24, 25, 31, 32, 36, 37, 38, 40)
ROUNDS = 5


def laid_by_hand(weave: str, colours: list[str], stakes: int, *, leftwards: bool, under: bool) -> list[list[str]]:
    """The colour whose float begins at each stake in each round, by carrying strand after strand as a hand does.

    A strand stands in each of neighbouring spaces, the first begun leading the last round; the hindmost is taken, carried
    over (or under) the others, before and behind its stakes, and is then the foremost. Of French randing every stake has
    a strand, and one round, a set, is a stroke of each. Stakes are named from the left, seen from outside.
    """
    spec = find_weave(weave).weave
    french, rods = spec.kind == "french rand", spec.rods
    way = -1 if leftwards else 1
    hanging = [(place, colours[place % len(colours)]) for place in range(stakes if french else rods)]
    laid: list[list[tuple[str, bool]]] = [[] for _ in range(stakes)]
    for _ in range(ROUNDS * stakes):
        if french:
            place, colour = hanging.pop(0)
        else:
            place, colour = min(hanging)
            hanging.remove((place, colour))
        laid[way * place % stakes].append((colour, under))
        for stroke in spec.strokes:
            place += stroke.before + stroke.behind
        hanging.append((place, colour))
        if spec.cycle != rods and not french and len({place for place, _ in hanging}) < len(hanging):
            raise AssertionError("two strands stand in one space")
    return [[found[number][0] for found in laid] for number in range(ROUNDS - 1)]


def seen_by_eye(rounds: list[list[str]]) -> tuple[int | None, str]:
    """By how many stakes every colour stands to the right in the next round, the shorter way, and what that looks like."""
    stakes = len(rounds[0])
    if len({colour for row in rounds for colour in row}) == 1:
        return None, ""
    # Past the place where the round closes the spiral climbs a row: look away from it.
    inner = range(4, stakes - 4)
    steps = sorted(range(-3, 4), key=lambda step: (abs(step), step > 0))
    fits = [
        step
        for step in steps
        if all(high[stake + step] == low[stake] for low, high in pairwise(rounds) for stake in inner)
    ]
    step = fits[0]
    if step == 0:
        return 0, "upright stripes"
    if -step in fits:
        return step, "alternating"
    return step, "steps right" if step > 0 else "steps left"


def pattern(
    weave: str, strands: list[str], stakes: int, *, way: str = "left to right", under: bool = False, looks: str = ""
) -> dict[str, object]:
    """A ready-made base with so many stakes and one band of colours."""
    band = {
        "name": "field",
        "weave": weave,
        "strands": strands,
        "rounds": 6,
        "reversed": under,
        "looks": looks or "pretty",
    }
    return {
        "slath": 1, "title": "Colours", "working_direction": way,
        "materials": {
            "stakes": {"stock": "us round reed 5"},
            **{key: {"stock": "us round reed 2", "dye": key, "colour": f"#{40 * n + 20:02x}6060"} for n, key in enumerate(COLOURS)},
        },
        "base": {"kind": "ready made", "diameter": "10 in", "made_of": "a plate"},
        "stakes": {"material": "stakes", "count": stakes, "depth": 0},
        "side": {"bands": [band]},
        "border": {"passes": [["behind 1", "out"], ["before 2", "in"]]},
    }  # fmt: skip


def compiled(folder: Path, written: dict[str, object]) -> Compilation:
    """The pattern worked out."""
    file = folder / "colours.yaml"
    file.write_text(json.dumps(written), encoding="utf-8")
    return compile_pattern(file)


def strands_of(weave: str) -> list[list[str]]:
    """Colours all different, one against the rest, and in pairs where the rods share out."""
    spec = find_weave(weave).weave
    rods = 3 if spec.kind == "french rand" else spec.rods
    turns = [list(COLOURS[:rods]), [COLOURS[0]] + [COLOURS[1]] * (rods - 1)]
    if spec.kind == "french rand":
        turns += [list(COLOURS[:2]), list(COLOURS[:4])]
    if rods % 2 == 0 and rods > 2:
        turns.append([COLOURS[0], COLOURS[1]] * (rods // 2))
    return turns


@pytest.mark.parametrize("weave", WEAVES)
@pytest.mark.parametrize("way", ["left to right", "right to left"])
@pytest.mark.parametrize("under", [False, True])
def test_steps_agree_with_weaving_by_hand(weave: str, way: str, under: bool) -> None:
    """For every turn of colours and every count the model steps as the hand does; under or over makes no difference."""
    spec, leftwards = find_weave(weave).weave, way == "right to left"
    checked = 0
    for colours, stakes in product(strands_of(weave), COUNTS):
        if (spec.kind == "chase" and stakes % 2) or (spec.kind == "french rand" and stakes % len(colours)):
            continue  # such a chase falls into step; such a turn of colours breaks where the round closes
        rods = stakes if spec.kind == "french rand" else spec.rods
        materials = tuple((colours[rod % len(colours)],) * spec.as_one for rod in range(rods))
        expected, looks = seen_by_eye(laid_by_hand(weave, colours, stakes, leftwards=leftwards, under=under))
        found = seen_step(colour_step(spec, materials, stakes), leftwards=leftwards)
        assert (found if found is None else abs(found)) == (expected if expected is None else abs(expected))
        alternates = looks == "alternating"
        assert alternates or found == expected, (weave, colours, stakes)
        checked += 1
    assert checked >= 6


@pytest.mark.parametrize("weave", ["pairing", "three-rod wale", "four-rod wale", "French randing"])
@pytest.mark.parametrize("way", ["left to right", "right to left"])
@pytest.mark.parametrize("under", [False, True])
@pytest.mark.parametrize("stakes", [36, 37, 38])
def test_list_counts_check_and_figures_tell_what_the_hand_lays(
    tmp_path: Path, weave: str, way: str, under: bool, stakes: int
) -> None:
    """The list's step, the counts', the words of the side and of the colour plan, and the check of `looks` are one."""
    spec, leftwards = find_weave(weave).weave, way == "right to left"
    colours = list(COLOURS[: 3 if spec.kind == "french rand" else spec.rods])
    if spec.kind == "french rand" and stakes % 3:
        pytest.skip("three colours in turn do not close on this count")
    expected, looks = seen_by_eye(laid_by_hand(weave, colours, stakes, leftwards=leftwards, under=under))
    (size,) = compiled(tmp_path, pattern(weave, colours, stakes, way=way, under=under, looks=looks)).sizes
    (row,) = size.quantities.bands
    (told,) = try_count(size.basket, stakes).colours
    assert row.looks == told.looks == looks
    assert expected is not None
    if looks != "alternating":
        assert row.steps == told.steps == expected
    words = Options(mirrored=leftwards).say(lean_said(size.basket.bands[0]))
    side = {"steps right": "right", "steps left": "left", "upright stripes": "upright"}.get(looks)
    assert side is None or side in words
    if spec.kind != "french rand":
        plan = draw_colour_plan(size.basket, wardrobe(size.basket), Options(mirrored=leftwards))
        assert words in plan.words
    for promise in ("steps right", "steps left", "upright stripes", "alternating"):
        said = compiled(tmp_path, pattern(weave, colours, stakes, way=way, under=under, looks=promise))
        broken = [note for note in said.notes if note.code == "looks-not-kept"]
        assert bool(broken) is (looks not in (promised(promise) or ())), promise


@pytest.mark.parametrize("weave", ["three-rod arrow", "three-rod chain"])
@pytest.mark.parametrize("stakes", [36, 37, 38])
def test_arrow_and_chain_meet_only_where_the_rods_divide_the_count(tmp_path: Path, weave: str, stakes: int) -> None:
    """Strands that run on from a straight round into a turned one stand over their own colours only on a multiple of three.

    By hand: the colour over a stake in the first turned round is that of the last straight one.
    """
    written = pattern(weave, list(COLOURS[:3]), stakes)
    notes = [note for note in compiled(tmp_path, written).notes if note.code == "arrow-does-not-meet"]
    rounds = laid_by_hand("three-rod wale", list(COLOURS[:3]), stakes, leftwards=False, under=False)
    inner = slice(6, stakes - 6)
    assert (rounds[1][inner] == rounds[0][inner]) is (not notes)
    assert len(notes) <= 1, "told once for the band, not once for each of its rounds"


def test_thirty_one_stakes_in_three_colours(tmp_path: Path) -> None:
    """Thirty-one is one more than thirty: one stake left each round, reversed or not (Choate, on spirals: 37 left)."""
    for under in (False, True):
        (size,) = compiled(tmp_path, pattern("three-rod wale", list(COLOURS[:3]), 31, under=under)).sizes
        assert [(row.looks, row.steps) for row in size.quantities.bands] == [("steps left", -1)]
