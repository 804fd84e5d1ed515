"""Every word of a figure in a German booklet is German: on the drawing, in its title and caption, and in the words for those
who do not see it; and no label of the longer language runs into another.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from msgspec.structs import replace

from slath.drawing.figures import draw, figure_names_of
from slath.drawing.plate.legibility import can_be_read
from slath.drawing.scene import Scene, Text, every_item
from slath.messages import Own
from slath.messages.language import Language
from slath.pipeline import CompiledSize, compile_pattern
from slath.trade.words import concepts
from slath.wording.band_names import band_said
from slath.wording.stuff import title_said
from slath.work import BuildOptions, Work

FOLDER = Path(__file__).resolve().parents[2] / "patterns"
PATTERNS = sorted(path.stem for path in FOLDER.glob("*.yaml") if "." not in path.stem)
# Words of English that no German sentence has; from memory. What is spelt alike in both ("in", "an", "band") says nothing.
EVERYDAY = frozenset(
    [
        "the",
        "of",
        "and",
        "with",
        "from",
        "to",
        "at",
        "is",
        "are",
        "on",
        "by",
        "for",
        "it",
        "its",
        "this",
        "that",
        "each",
        "every",
        "all",
        "round",
        "rounds",
        "row",
        "rows",
        "seen",
        "behind",
        "before",
        "over",
        "under",
        "between",
        "through",
        "beside",
        "above",
        "below",
        "outside",
        "inside",
        "start",
        "finish",
        "left",
        "right",
        "work",
        "base",
        "side",
        "board",
        "hole",
        "holes",
        "slot",
        "foot",
        "rim",
        "lid",
        "border",
        "handle",
        "deep",
        "wide",
        "long",
        "high",
        "thick",
        "across",
        "length",
        "width",
        "scale",
        "full",
        "size",
        "strand",
        "strands",
        "stick",
        "sticks",
        "stake",
        "stakes",
        "end",
        "ends",
        "loop",
        "loops",
        "loose",
        "first",
        "last",
        "next",
        "then",
        "begins",
        "goes",
        "comes",
        "stands",
        "stand",
        "cut",
        "piece",
        "pieces",
        "reed",
        "willow",
        "dyed",
        "natural",
        "ringed",
        "lined",
        "dotted",
        "slope",
        "standing",
        "girth",
        "turn",
        "turns",
        "angle",
        "print",
        "measure",
        "page",
    ]
)
SHARED = frozenset({"rand", "stand"})  # Rand, an edge; im Stand, standing


@cache
def worked(pattern: str) -> tuple[Work, CompiledSize]:
    """A shipped pattern in German with its middle size."""
    compilation = compile_pattern(FOLDER / f"{pattern}.yaml")
    return Work(compilation, BuildOptions(language="de")), compilation.sizes[len(compilation.sizes) // 2]


def english_words() -> frozenset[str]:
    """Words that give an English figure away: everyday ones, and those of the trade that German does not share."""
    german = {word.casefold() for key in concepts() for form in Language("de").forms(key) for word in form.split()}
    trade = {
        word.casefold()
        for concept in concepts().values()
        for forms in concept.forms.values()
        for form in forms
        for word in form.replace("-", " ").split()
        if len(word) > 2
    }
    return (EVERYDAY | trade) - german - SHARED


def own_words(size: CompiledSize) -> set[str]:
    """What the designer wrote and no language of ours knows: names of bands, materials, sizes and parts."""
    basket = size.basket
    titles = [title_said(material) for material in basket.pattern.materials.values()]
    names = [band_said(band.name) for band in basket.all_woven]
    written = [size.name, *(one.name for one in basket.apart if one.name != "lid")]
    written += [said.text for said in (*titles, *names) if isinstance(said, Own)]
    return {word.casefold() for text in written for word in words_of(text)}


def words_of(text: str) -> list[str]:
    """The words of a text without signs and numbers."""
    return "".join(sign if sign.isalpha() else " " for sign in text).split()


def said(scene: Scene) -> list[str]:
    """Everything a figure prints or says."""
    labels = [item.words for item in every_item(scene.items, strands=False) if isinstance(item, Text)]
    return [scene.title, scene.caption, scene.words, scene.seen_from, *(row.name for row in scene.measures), *labels]


@pytest.mark.parametrize("pattern", PATTERNS)
def test_no_figure_of_a_german_booklet_speaks_english(pattern: str) -> None:
    """Not one English word in any figure, sheet or described text; measures and the designer's own words aside."""
    work, size = worked(pattern)
    wrong, seen = [], 0
    known = english_words() - own_words(size)
    for name in figure_names_of(size.basket, size.quantities):
        for lettered in (False, True):
            scene = draw(name, size.basket, size.quantities, replace(work.drawing, lettered=lettered))
            for text in said(scene):
                seen += 1
                found = [word for word in words_of(text) if word.casefold() in known]
                if found:
                    wrong.append(f"{name}: {found} in {text!r}")
    assert seen > 100
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("pattern", PATTERNS)
def test_german_labels_stand_clear_of_one_another(pattern: str) -> None:
    """German words are longer: on a page as wide as a column and as a whole page every label can still be read."""
    work, size = worked(pattern)
    wrong = []
    for name in figure_names_of(size.basket, size.quantities):
        if not name.startswith("sheet-"):
            for width in (118.0, 180.0):
                wanted = replace(work.drawing, width_mm=width, tallest_mm=0.8 * width, text_pt=8.2)
                if not can_be_read(draw(name, size.basket, size.quantities, wanted)):
                    wrong.append(f"{name} at {width} mm")
    assert not wrong, wrong
