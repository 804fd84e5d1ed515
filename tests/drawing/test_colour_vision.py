"""Materials of every shipped pattern as they are painted, seen by eyes that lack one kind of cone and by a grey printer.

The matrices are those of Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision
Deficiency", IEEE Trans. Vis. Comput. Graph. 15, 2009, severity 1.0, applied to linear sRGB; the numbers are from memory.
"""

from __future__ import annotations

from functools import cache
from itertools import combinations
from math import dist
from pathlib import Path as FilePath

import numpy as np
import pytest

from slath.basket.model import Basket
from slath.drawing.figures import draw, figure_names_of
from slath.drawing.paint.dress import Dress, dress
from slath.drawing.paint.wardrobe import wardrobe
from slath.drawing.scene import Path, Scene, Text, every_item
from slath.pipeline import compile_pattern
from slath.units.colour import grey, lab, lightness

EYES = {
    "protanopia": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deuteranopia": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritanopia": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}
SEEN_APART = (
    20.0  # CIELAB distance at which two strands beside each other are told at a glance; common practice, no source
)

PATTERNS = sorted(
    path.stem for path in (FilePath(__file__).parents[2] / "patterns").glob("*.yaml") if "." not in path.stem
)
FIGURES = ("side", "stroke", "colour-plan", "base-weaving", "step-up")


def simulated(colour: str, eye: str) -> str:
    """A colour as an eye sees it, or as a grey printer lays it down."""
    if eye in {"all cones", "grey"}:
        return grey(colour) if eye == "grey" else colour
    channels = np.array([int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)])
    linear = np.where(channels <= 0.04045, channels / 12.92, ((channels + 0.055) / 1.055) ** 2.4)
    seen = np.clip(np.array(EYES[eye]) @ linear, 0.0, 1.0)
    encoded = np.where(seen <= 0.0031308, seen * 12.92, 1.055 * seen ** (1 / 2.4) - 0.055)
    return "#" + "".join(f"{round(255 * value):02x}" for value in encoded.tolist())


def apart(one: Dress, other: Dress, eye: str) -> float:
    """CIELAB distance of two bodies as an eye sees them."""
    return dist(lab(simulated(one.tones.body, eye)), lab(simulated(other.tones.body, eye)))


def confused(looks: list[Dress]) -> list[str]:
    """Pairs of different colours that some eye cannot tell apart and that carry the same marks."""
    return [
        f"{one.name} and {other.name} in {eye}"
        for one, other in combinations(looks, 2)
        for eye in ("all cones", *EYES, "grey")
        if one.tones.body != other.tones.body and one.marks == other.marks and apart(one, other, eye) < SEEN_APART
    ]


@cache
def basket_of(pattern: str) -> Basket:
    """The middle size of a shipped pattern."""
    sizes = compile_pattern(FilePath(__file__).parents[2] / "patterns" / f"{pattern}.yaml").sizes
    return sizes[len(sizes) // 2].basket


def painted(scene: Scene) -> set[str]:
    """Every colour laid down in a figure."""
    return {
        colour
        for item in every_item(scene.items)
        if isinstance(item, Path)
        for colour in (item.fill, item.stroke)
        if colour
    }


@pytest.mark.parametrize("pattern", PATTERNS)
def test_strands_are_told_apart_by_every_eye(pattern: str) -> None:
    """In each figure, materials painted side by side differ to every eye and in grey, or in marks that are painted too."""
    basket = basket_of(pattern)
    weavers = wardrobe(basket).weavers
    compared = 0
    for name in figure_names_of(basket):
        if not name.startswith(FIGURES):
            continue
        scene = draw(name, basket)
        colours = painted(scene)
        words = {item.words for item in every_item(scene.items) if isinstance(item, Text)}
        shown = [look for look in dict.fromkeys(weavers.values()) if look.tones.body in colours]
        assert shown, name
        assert not confused(shown), name
        for one, other in combinations(shown, 2):
            compared += 1
            assert one.letter != other.letter, name
            if (
                any(apart(one, other, eye) < SEEN_APART for eye in (*EYES, "grey"))
                and one.tones.body != other.tones.body
            ):
                assert any(look.tones.mark in colours for look in (one, other) if look.marks != "none"), name
        letters = {said.rstrip("0123456789") for said in words}
        for body in {look.tones.body for look in shown}:
            assert letters & {look.letter for look in shown if look.tones.body == body}, (name, body)
    assert compared or len(weavers) == 1


@pytest.mark.parametrize("pattern", PATTERNS)
def test_uprights_are_told_from_weavers_by_every_eye(pattern: str) -> None:
    """Sticks and stakes stay 6 L* from every weaver, whichever cones are lacking: over and under is read from it."""
    clothes = wardrobe(basket_of(pattern))
    for eye in (*EYES, "grey"):
        for upright in (clothes.stakes, clothes.sticks):
            level = lightness(simulated(upright.tones.body, eye))
            for look in clothes.weavers.values():
                assert abs(level - lightness(simulated(look.tones.body, eye))) > 6, (eye, look.name)


def test_red_and_green_of_one_lightness_are_found_confused() -> None:
    """Brick red and moss green are told apart by three kinds of cone, and not by two, nor in grey; marks mend it."""
    red, green = dress("#a4512e", name="red"), dress("#5b6b3a", name="green")
    assert confused([red, green]) == [f"red and green in {eye}" for eye in ("protanopia", "deuteranopia", "grey")]
    assert confused([red, dress("#5b6b3a", "rings", name="green")]) == []


@pytest.mark.parametrize("eye", EYES)
def test_greys_look_grey_to_every_eye(eye: str) -> None:
    """A grey stays as it is (the rows of each matrix sum to 1), and blue and yellow stay apart to all but tritanopes."""
    for colour in ("#000000", "#7f7f7f", "#ffffff"):
        assert dist(lab(simulated(colour, eye)), lab(colour)) < 0.6
    blue, green = dress("#2f4a9a"), dress("#2f7a5a")
    assert (apart(blue, green, eye) < 0.5 * apart(blue, green, "all cones")) == (eye == "tritanopia")
