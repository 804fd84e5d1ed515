"""The steps of a booklet: the told stages of one size, or of several sizes as one course of work, with their figures."""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from slath.basket.model import Basket
from slath.booklet.blocks import Block, Caution, Figure, Heading, Paragraph, Photograph, Step, TickRow
from slath.booklet.merging import merged_stages
from slath.booklet.scene_words import CAPTION_SCALE
from slath.drawing.scene import Scene
from slath.quantities.results import Quantities
from slath.units.counting import listed
from slath.wording.glossary import linked_once
from slath.wording.speech import Voice, sentence_case
from slath.wording.told import SpokenStage, SpokenStep, ToldStage, spoken

# Figures that carry measures of one size, so that every size needs its own; all others are alike enough to serve as one:
# a lid is worked as the base was, of which every size has been seen.
OF_EACH_SIZE = re.compile(r"(base-plan|profile|(lid-)?handle-\d+(-parts)?$)")
# Figures whose numbers of stakes are worked by: needed for every size only where sizes have different counts.
_NUMBERED = re.compile(r"(lid-)?(staking-plan|(foot-)?border.*finish)|lid-(base-plan|profile)")
# Figures drawn once although some of their numbers are those of the size drawn.
_ONE_FOR_ALL = re.compile(r"(lid-)?handle-\d+-(wrap|ears|turn)|lid-(base-plan|profile)")
# Steps for which a caution is still in the reader's ear: said again word for word sooner, it only numbs.
_STILL_HEARD = 2
_RIM = re.compile(r"(lid-)?((foot-)?border|side$)")


@dataclass(frozen=True, slots=True)
class SizeContent:
    """One size ready to be printed: the list, the told stages, the figures by name and the full-size sheets."""

    basket: Basket
    quantities: Quantities
    stages: tuple[ToldStage, ...]
    figures: Mapping[str, Scene]
    sheets: Mapping[str, Scene]

    @property
    def name(self) -> str:
        """The size's name."""
        return self.basket.size


@dataclass(frozen=True, slots=True)
class Course:
    """The work of one or more sizes from beginning to end."""

    sizes: tuple[SizeContent, ...]
    stages: tuple[SpokenStage, ...]

    @property
    def middle(self) -> SizeContent:
        """The size whose drawing serves for all."""
        return self.sizes[(len(self.sizes) - 1) // 2]

    def figures_for(self, told: SpokenStep, stage: SpokenStage, shown: set[str], *, first: bool) -> tuple[Figure, ...]:
        """The figures to stand with a step: those it calls for, or at a stage's first step those the designer chose
        for the stage; each only once. `shown` is added to.
        """
        chosen = stage.chosen_figures if first else ()
        wanted = told.figures if stage.chosen_figures is None else chosen or ()
        figures: list[Figure] = []
        for name in wanted:
            if name not in shown:
                shown.add(name)
                figures += self._drawn(name)
        return tuple(figures)

    def _drawn(self, name: str) -> list[Figure]:
        having = [size for size in self.sizes if name in size.figures]
        if len(having) > 1 and (OF_EACH_SIZE.match(name) or (_NUMBERED.match(name) and self._counts_differ(name))):
            return _series_of([(size, size.figures[name]) for size in having])
        shown = [size for size in having if size is self.middle] or having[:1]
        return [figure_of(size.figures[name], after=self._drawn_for(size, having, name)) for size in shown]

    def _drawn_for(self, size: SizeContent, having: Sequence[SizeContent], name: str) -> str:
        """What a reader must know of a figure that stands for other sizes than the one drawn."""
        by_size = _ONE_FOR_ALL.match(name) or (_RIM.match(name) and self._counts_differ(name))
        if len(having) > 1 and by_size:
            return f" Drawn for {size.name}; the numbers of the other sizes are in the steps."
        return ""

    def _counts_differ(self, name: str) -> bool:
        """Whether the sizes differ in the numbers of sticks or stakes that a figure shows, of the basket or of its lid."""
        shown = [size.basket for size in self.sizes]
        if name.startswith("lid-"):
            shown = [basket.lid.basket for basket in shown if basket.lid]
        return len({(len(basket.base.sticks), len(basket.stakes), basket.rim_uprights) for basket in shown}) > 1

    def ticks(self, told: SpokenStep, stage: SpokenStage) -> list[TickRow]:
        """Rows of boxes to tick off the rounds of a step, one for each number of rounds there is."""
        by_rounds: dict[int, list[str]] = {}
        for size in self.sizes:
            for rounds in _rounds_of(size, stage.key, told.key):
                by_rounds.setdefault(rounds, []).append(size.name)
        labels = {
            rounds: f"Rounds, {listed(names)}" if len(by_rounds) > 1 else "Rounds"
            for rounds, names in by_rounds.items()
            if rounds > 1
        }
        return [TickRow(label, rounds, among=tuple(labels.values())) for rounds, label in labels.items()]


def _rounds_of(size: SizeContent, stage_key: str, step_key: str) -> list[int]:
    return [
        step.rounds for stage in size.stages if stage.key == stage_key for step in stage.steps if step.key == step_key
    ]


def course_of(sizes: Sequence[SizeContent], voice: Voice) -> Course:
    """The work of these sizes as a voice says it, told as one where there are several."""
    stages = sizes[0].stages
    if len(sizes) > 1:
        stages = merged_stages([(size.name, size.stages) for size in sizes], voice)
    return Course(tuple(sizes), tuple(linked_once(spoken(stage, voice)) for stage in stages))


def steps_of(course: Course, pictures: Mapping[str, bytes]) -> list[Block]:
    """The stages as numbered steps, each figure with the first step that calls for it."""
    blocks: list[Block] = []
    number, shown = 0, set[str]()
    heard: deque[tuple[Caution, ...]] = deque(maxlen=_STILL_HEARD)
    for stage in course.stages:
        blocks.append(Heading(2, stage.title, anchor=f"stage-{anchor(stage.key)}"))
        if stage.lead:
            blocks.append(Paragraph(stage.lead))
        blocks += [photograph(file, words, pictures) for file, words in stage.pictures if file in pictures]
        for place, told in enumerate(stage.steps):
            number += 1
            figures = course.figures_for(told, stage, shown, first=place == 0)
            cautions = tuple(each for each in told.cautions if not any(each in before for before in heard))
            heard.append(told.cautions)
            blocks += told.stops
            blocks.append(step_block(number, replace(told, cautions=cautions), figures))
            blocks += course.ticks(told, stage)
    return blocks


def figure_of(scene: Scene, before: str = "", after: str = "") -> Figure:
    """A drawing with its caption, at the width it was drawn for."""
    caption = scene.caption or scene.title
    return Figure(scene, caption=f"{before}{caption}{after}", width="small" if scene.width < 60 else "column")


def _series_of(drawn: Sequence[tuple[SizeContent, Scene]]) -> list[Figure]:
    """Drawings of one kind, one for each size: what they show is said of all of them, their scales of each."""
    captions = [scene.caption or scene.title for _, scene in drawn]
    shown = [CAPTION_SCALE.sub("", caption) for caption in captions]
    if len(set(shown)) > 1:
        return [figure_of(scene, f"{sentence_case(size.name)}. ") for size, scene in drawn]
    scales = [CAPTION_SCALE.search(caption) for caption in captions]
    return [
        replace(figure_of(scene), caption=sentence_case(size.name) + (scale[0] if scale else ""), series=shown[0])
        for (size, scene), scale in zip(drawn, scales, strict=True)
    ]


def photograph(file: str, words: str, pictures: Mapping[str, bytes]) -> Figure:
    """One of the designer's own pictures."""
    return Figure(Photograph(pictures[file], title=words, words=words))


def step_block(number: int, told: SpokenStep, figures: tuple[Figure, ...], *, tick: bool = False) -> Step:
    """A told step as it is set."""
    return Step(
        number=str(number),
        actions=told.actions,
        title=told.title,
        cautions=told.cautions,
        figures=figures,
        notes=told.notes,
        counts=told.counts,
        tick=tick,
    )


def anchor(name: str) -> str:
    """A name as the place of a block."""
    return "".join(letter if letter.isalnum() else "-" for letter in name.lower())
