"""What figures show is what the acts of the plan do: every stroke past the same uprights, every turn of a border the same
way, and every kind of figure stands in the one list of all.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from slath.basket.model import Basket, WovenBand
from slath.drawing.border.words import turn_said
from slath.drawing.every import ALL_FIGURES, kind_of
from slath.drawing.figures import draw, figure_names_of
from slath.drawing.options import IN_ENGLISH
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.plate.letters import rod_letters
from slath.messages import message
from slath.pipeline import compile_pattern
from slath.plan.acts import Act, Bend, Bring, InTurn, LayIn, PlannedStep, Weave, WeaveBack
from slath.plan.planner import plan_of
from slath.wording.figure_names import border_pass_names, stroke_bands

FOLDER = Path(__file__).resolve().parents[2] / "patterns"
PATTERNS = sorted(path.stem for path in FOLDER.glob("*.yaml") if "." not in path.stem)
MADE = re.compile(r"Stroke \d+: (\w+) goes ([^.]*?), and comes")
PASSED = re.compile(r"(?:before|behind|over|under) ((?:\d+(?:, | and | to )?)+)")


@cache
def basket_of(pattern: str) -> Basket:
    """The middle size of a shipped pattern."""
    sizes = compile_pattern(FOLDER / f"{pattern}.yaml").sizes
    return sizes[len(sizes) // 2].basket


def numbers_of(words: str) -> list[int]:
    """The numbers of a span as they are read: "1, 2 and 3", "1 to 4"."""
    found: list[int] = []
    for run in re.split(r", | and ", words.strip(", ")):
        first, _, last = run.strip().removesuffix(" and").partition(" to ")
        found += range(int(first), int(last or first) + 1)
    return found


def steps_of(basket: Basket) -> dict[tuple[str, int], PlannedStep]:
    """The planned step of every band, by its part and place."""
    found = {}
    for stage in plan_of(basket).stages:
        for step in stage.steps:
            place = re.fullmatch(r"(base band|foot band|band) (\d+)", step.key)
            if place:
                part = {"base band": "base", "foot band": "foot", "band": "side"}[place[1]]
                found[part, int(place[2]) - 1] = step
    return found


def strokes_done(step: PlannedStep, rod: int) -> Iterator[tuple[list[int], list[int]]]:
    """The uprights each stroke of a rod passes on its first face and on its second, read from the acts alone."""
    weave = next(act for act in step.acts if isinstance(act, Weave | WeaveBack))
    set_out = {act.strand: act.at.number for act in step.acts if isinstance(act, LayIn | Bring)}
    strand = weave.rods[rod][0] if isinstance(weave, Weave) else weave.rods[rod]
    place, count = set_out[strand], weave.on.count
    for turn in range(6):
        stroke = weave.strokes[turn % len(weave.strokes)]
        passed = [(place + step_on - 1) % count + 1 for step_on in range(1, stroke.before + stroke.behind + 1)]
        yield passed[: stroke.before], passed[stroke.before :]
        place += stroke.before + stroke.behind


def shown_band(bands: tuple[WovenBand, ...]) -> WovenBand:
    """The band a figure of first strokes is drawn on: where uprights are worked most nearly singly."""
    return min(bands, key=lambda band: max(band.group_sizes, default=1))


@pytest.mark.parametrize("pattern", PATTERNS)
def test_strokes_drawn_are_the_strokes_of_the_acts(pattern: str) -> None:
    """Each stroke a figure tells passes the uprights that the act passes, on the same faces, from the space the act begins in."""
    basket = basket_of(pattern)
    steps, compared = steps_of(basket), 0
    for name, bands in stroke_bands(basket).items():
        band = shown_band(bands)
        step = steps.get((band.part, band.index))
        if step is None or not any(isinstance(act, Weave | WeaveBack) for act in step.acts):
            continue
        letters, met = rod_letters(band, wardrobe(basket)), Counter[str]()
        weave = next(act for act in step.acts if isinstance(act, Weave | WeaveBack))
        begun = {act.strand for act in step.acts if isinstance(act, LayIn)}
        for letter, words in MADE.findall(draw(name, basket).words):
            rod = letters.index(letter)
            strand = weave.rods[rod][0] if isinstance(weave, Weave) else weave.rods[rod]
            if strand not in begun:  # it goes on from the band below; the figure shows it begun by itself
                continue
            strokes = list(strokes_done(step, rod))
            told = [numbers_of(run) for run in PASSED.findall(words)]
            assert told == [run for run in strokes[met[letter]] if run], (name, letter, words)
            met[letter] += 1
            compared += 1
    assert compared or not stroke_bands(basket)


def bends_of(acts: tuple[Act, ...]) -> Iterator[Bend]:
    """Every turn of a border, those worked in a run as well."""
    for act in acts:
        if isinstance(act, Bend):
            yield act
        elif isinstance(act, InTurn):
            yield from act.bends


@pytest.mark.parametrize("pattern", PATTERNS)
def test_turns_of_a_border_drawn_are_those_of_the_acts(pattern: str) -> None:
    """The start tells the way of the first one, the finish that of each last one, as the acts have it."""
    basket = basket_of(pattern)
    border, compared = basket.border, 0
    if border is None or not border.closes or border.spec.plait is not None:
        pytest.skip("no border of rows to compare")
    stage = next(stage for stage in plan_of(basket).stages if stage.key == "border")
    bends = [bend for step in stage.steps for bend in bends_of(step.acts)]
    one = message("figure-border.stake")
    near = "inside" if border.spec.from_inside else "outside"
    for worked in border.passes:
        start, _, finish = (draw(name, basket).words for name in border_pass_names(border, worked.number))
        row = [bend for bend in bends if bend.loop.row == worked.number]
        assert len({bend.loop.of.number for bend in row}) == border.count
        first = next(bend for bend in row if bend.loop.of.number == 1)
        told = IN_ENGLISH.text(message("figure-border.turn-made", turn=turn_said(first, one, near))).rstrip(".")
        assert told.casefold() in start.casefold().replace("pair ", "stake ").replace("group ", "stake ")
        compared += 1
        for bend in row:
            if bend.threaded:
                told = IN_ENGLISH.text(message("figure-border.turn-made", turn=turn_said(bend, one, near))).rstrip(".")
                assert told.casefold() in finish.casefold().replace("pair ", "stake ").replace("group ", "stake ")
    assert compared == len(border.passes)


def test_every_figure_is_of_one_kind_and_every_kind_is_drawn() -> None:
    """No figure is made beside the list of all, and no row of it is idle: over all shipped patterns."""
    drawn = Counter[tuple[str, ...]]()
    for pattern in PATTERNS:
        basket = basket_of(pattern)
        for name in figure_names_of(basket):
            drawn[kind_of(name).stems] += 1
            own = name.partition("-")[2] if name.startswith("lid-") else name
            assert sum(own.startswith(kind.stems) for kind in ALL_FIGURES) == 1, name
    idle = {kind.stems for kind in ALL_FIGURES} - set(drawn)
    assert idle <= {("step-up",)}  # no shipped pattern steps up; tests/basket draw one
    with pytest.raises(KeyError):
        kind_of("no-such-figure")
