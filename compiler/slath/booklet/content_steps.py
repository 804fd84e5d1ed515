"""The steps of a booklet: the told stages of one size, or of several sizes as one course of work, with their figures."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.model import Basket
from slath.booklet.blocks import (
    Block,
    Column,
    Figure,
    Heading,
    MeasureLetter,
    Photograph,
    Row,
    Step,
    Strong,
    Table,
    TickRow,
    Words,
    pieces_of,
)
from slath.booklet.merging import merged_stages
from slath.booklet.size_table import Measured, cells, shared_unit, size_columns
from slath.drawing.every import kind_of
from slath.drawing.scene import Scene
from slath.messages import Listed, Own, message
from slath.messages.language import slug
from slath.quantities.results import Quantities
from slath.trade.tools import tools_for
from slath.units.counting import listed
from slath.wording.figure_names import COLOUR_PLAN, SIDE, apart_of
from slath.wording.glossary import linked_once
from slath.wording.speech import Voice, sentence_case
from slath.wording.told import SpokenStage, SpokenStep, ToldStage, spoken

LONG = 1.3  # times as long as broad, from which on a plan wants the whole width of the page
# Parts of the work told apart for their figures that a maker does in one go, under the name of the first or the last.
_TOGETHER = {"base check": "base", "pricking up": "stakes", "side": "upsett"}
_NAMED_BY_LAST = {"upsett"}


class SizeContent(Struct, frozen=True):
    """One size ready to be printed: the list, the told stages, the figures by name and the full-size sheets. `at` draws a
    figure for a room in mm, or says that it cannot be read there.
    """

    basket: Basket
    quantities: Quantities
    stages: tuple[ToldStage, ...]
    figures: Mapping[str, Scene]
    sheets: Mapping[str, Scene]
    at: Callable[[str, float, float], Scene | None] | None = None

    @property
    def name(self) -> str:
        """The size's name."""
        return self.basket.size


class Course(Struct, frozen=True):
    """The work of one or more sizes from beginning to end; the pattern has `of` sizes."""

    sizes: tuple[SizeContent, ...]
    stages: tuple[SpokenStage, ...]
    of: int = 1
    voice: Voice = Voice({})

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
        spare = (
            {COLOUR_PLAN} if SIDE in wanted and not stage.chosen_figures else set[str]()
        )  # the side shows them woven
        for name in wanted:
            if name not in shown | spare and (stage.chosen_figures or not kind_of(name).repeats(name)):
                shown.add(name)
                figures += self._drawn(name)
        return tuple(figures)

    def _drawn(self, name: str) -> list[Figure]:
        having = [size for size in self.sizes if name in size.figures]
        if len(having) > 1 and kind_of(name).numbered(name) and self._counts_differ(name):
            return [self._figure(size, name, before=f"{sentence_case(size.name)}. ") for size in having]
        shown = [size for size in having if size is self.middle] or having[:1]
        one_for_all = bool(shown) and len(having) > 1 and kind_of(name).one_for_all
        drawn_for = self.voice.text(message("booklet.drawn-for", size=Own(shown[0].name))) if one_for_all else ""
        return [self._figure(size, name, after=drawn_for, having=having) for size in shown]

    def _figure(
        self, size: SizeContent, name: str, *, before: str = "", after: str = "", having: Sequence[SizeContent] = ()
    ) -> Figure:
        scene = size.figures[name]
        caption = scene.caption or scene.title
        at = size.at
        return Figure(
            scene,
            caption=f"{before}{caption}{after}",
            at=(lambda width, tallest: at(name, width, tallest)) if at else None,
            room="" if _round(size, name) else kind_of(name).room,
            measures=self._measures(name, having or (size,)) if scene.measures else None,
        )

    def _measures(self, name: str, having: Sequence[SizeContent]) -> Table:
        """The table of the letters that stand in a figure, a row a letter; every size is drawn for its measures."""
        lettered = [size.figures[name].measures for size in having]
        rows = {measure.letter: measure.name for measures in lettered for measure in measures}
        printed = {
            letter: [next((each.printed for each in measures if each.letter == letter), "") for measures in lettered]
            for letter in rows
        }
        sizes = [Measured(size.basket, size.quantities, self.of, self.voice) for size in having]
        unit = shared_unit(list(printed.values()))
        return Table(
            "",
            (Column("", row_header=True, weight=1.0), *size_columns(sizes, unit)),
            tuple(
                Row(((MeasureLetter(letter), f"\u00a0{told}"), *cells(printed[letter], bare=bool(unit))))
                for letter, told in rows.items()
            ),
        )

    def _counts_differ(self, name: str) -> bool:
        """Whether the sizes differ in the numbers of sticks or stakes that a figure shows, of the basket or of its lid."""
        shown = [size.basket for size in self.sizes]
        shown = [apart_of(name, basket) for basket in shown]
        return len({(len(basket.base.sticks), len(basket.stakes), basket.rim_uprights) for basket in shown}) > 1

    def ticks(self, told: SpokenStep, stage: SpokenStage) -> list[TickRow]:
        """A row of boxes to tick off the rounds of a step, as many as the size with most has; the others end on the way."""
        by_rounds: dict[int, list[str]] = {}
        for size in self.sizes:
            for rounds in _rounds_of(size, stage.key, told.key):
                by_rounds.setdefault(rounds, []).append(size.name)
        most = max(by_rounds, default=0)
        if most < 2:
            return []
        ends = sorted(by_rounds.items()) if len(by_rounds) > 1 else []
        return [TickRow("Rounds", most, ends=tuple((rounds, listed(names)) for rounds, names in ends if rounds))]


def _round(size: SizeContent, name: str) -> bool:
    """Whether a figure is a plan about as broad as it is long, which stands beside its sentences as well as across."""
    outline = apart_of(name, size.basket).base.spec.outline
    kind = kind_of(name)
    return kind.room == "whole" and bool(kind.by_count) and outline.length_mm < LONG * outline.width_mm


def _rounds_of(size: SizeContent, stage_key: str, step_key: str) -> list[int]:
    return [
        step.rounds for stage in size.stages if stage.key == stage_key for step in stage.steps if step.key == step_key
    ]


def course_of(sizes: Sequence[SizeContent], voice: Voice, of: int = 1) -> Course:
    """The work of these sizes, of so many there are, as a voice says it, told as one where there are several."""
    stages = sizes[0].stages
    if len(sizes) > 1:
        stages = merged_stages([(size.name, size.stages) for size in sizes], voice)
    return Course(tuple(sizes), tuple(linked_once(spoken(stage, voice)) for stage in stages), of, voice)


class NumberedStep(Struct, frozen=True):
    """A step with its number, such as ``2.3``; ``lead`` opens a part of the work that is told within another stage."""

    number: str
    told: SpokenStep
    stage: SpokenStage
    first: bool
    lead: Words = ""


class NumberedStage(Struct, frozen=True):
    """What is worked under one number."""

    number: str
    stage: SpokenStage
    title: Words
    steps: tuple[NumberedStep, ...]


def numbered(course: Course) -> list[NumberedStage]:
    """The stages with their numbers; those done in one go share one."""
    groups: list[list[SpokenStage]] = []
    for stage in course.stages:
        if groups and _TOGETHER.get(stage.key) == groups[-1][0].key:
            groups[-1].append(stage)
        else:
            groups.append([stage])
    found: list[NumberedStage] = []
    for number, stages in enumerate(groups, 1):
        steps: list[NumberedStep] = []
        for stage in stages:
            for place, told in enumerate(stage.steps):
                lead = stage.lead if place == 0 and stage is not stages[0] else ""
                steps.append(NumberedStep(f"{number}.{len(steps) + 1}", told, stage, place == 0, lead))
        title = stages[-1 if stages[0].key in _NAMED_BY_LAST else 0].title
        found.append(NumberedStage(str(number), stages[0], title, tuple(steps)))
    return found


def steps_of(course: Course, pictures: Mapping[str, bytes], voice: Voice) -> list[Block]:
    """The stages as numbered steps, each figure with the first step that calls for it."""
    blocks: list[Block] = []
    shown = set[str]()
    for stage in numbered(course):
        blocks.append(stage_heading(stage, voice))
        for each in stage.steps:
            if each.first:
                blocks += [photograph(file, words, pictures) for file, words in each.stage.pictures if file in pictures]
            figures = course.figures_for(each.told, each.stage, shown, first=each.first)
            step = step_block(each, figures)
            blocks.append(replace(step, opens=each is stage.steps[0]))
            blocks += course.ticks(each.told, each.stage)
    return blocks


def stage_heading(stage: NumberedStage, voice: Voice) -> Heading:
    """What opens a stage: number, name, the tools to have by you, and how it begins."""
    done = frozenset(operation for each in stage.steps for operation in each.told.operations)
    named = [voice.text(message(f"tools.{slug(tool.key)}")) for tool in tools_for(done)]
    have = (
        (
            Strong(voice.text(message("booklet.have-by-you"))),
            voice.text(message("booklet.listed", items=Listed(tuple(Own(name) for name in named)))),
        )
        if named
        else ""
    )
    aside = tuple(words for words in (have, stage.stage.lead) if words)
    return Heading(1, stage.title, anchor=f"stage-{anchor(stage.stage.key)}", number=stage.number, aside=aside)


def photograph(file: str, words: str, pictures: Mapping[str, bytes]) -> Figure:
    """One of the designer's own pictures."""
    return Figure(Photograph(pictures[file], title=words, words=words))


def step_block(each: NumberedStep, figures: tuple[Figure, ...]) -> Step:
    """A told step as it is set."""
    told = each.told
    return Step(
        number=each.number,
        actions=told.actions,
        title=told.title,
        lead=each.lead,
        cautions=told.cautions,
        figures=figures,
        notes=told.notes,
        stops=told.stops,
        counts=told.counts,
        anchor=f"step-{each.number}",
    )


def mends_of(course: Course, voice: Voice) -> Table | None:
    """What can go wrong, by step: what is seen, and what to do. None where nothing is told of it."""
    rows = [
        Row((each.number, _sign_first(said)))
        for stage in numbered(course)
        for each in stage.steps
        for said in each.told.mends
    ]
    if not rows:
        return None
    columns = (
        Column(voice.text(message("booklet.step")), row_header=True, weight=0.12),
        Column(voice.text(message("booklet.what-you-see-and-what")), weight=1.0),
    )
    return Table("", columns, tuple(rows))


def _sign_first(said: Words) -> Words:
    """A sentence with what is to be seen, up to its first comma, standing out."""
    pieces = pieces_of(said)
    for place, piece in enumerate(pieces):
        if isinstance(piece, str) and ", " in piece:
            before, comma, after = piece.partition(", ")
            return (Strong((*pieces[:place], before)), f"{comma}{after}", *pieces[place + 1 :])
    return said


def anchor(name: str) -> str:
    """A name as the place of a block."""
    return "".join(letter if letter.isalnum() else "-" for letter in name.lower())
