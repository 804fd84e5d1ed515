"""One size of a pattern told from beginning to end: stages in working order, tools, glossary; and the designer's words checked."""

from __future__ import annotations

import re

from msgspec import Struct
from msgspec.structs import replace

from slath.basket.border_ends import foot_ends
from slath.basket.model import Basket
from slath.booklet.blocks import Definitions, Words
from slath.language.pattern import Pattern
from slath.messages import Language, Message, message
from slath.messages.language import slug
from slath.messages.names import named
from slath.notes import Note
from slath.quantities.results import Quantities
from slath.trade.tools import tools_for
from slath.trade.words import Vocabulary
from slath.units.printing import First
from slath.wording.base_stage import base_check, base_stage
from slath.wording.border_stage import border_stage
from slath.wording.cautioning import with_cautions
from slath.wording.choices import with_choices
from slath.wording.designer import notes_on_words, with_designers_words
from slath.wording.finish_stage import finish_stage
from slath.wording.foot_stage import foot_stage
from slath.wording.gathered_stage import gathered_stage
from slath.wording.glossary import glossary, linked_once, words_of_stage
from slath.wording.handle_stage import handle_stage, with_handles_in_time
from slath.wording.lid_stage import lid_stage
from slath.wording.parts_stage import part_stages
from slath.wording.prepare import prepare_stage
from slath.wording.side_stage import side_stages
from slath.wording.speech import Voice
from slath.wording.staking import pricking_up_stage, stakes_stage
from slath.wording.stuff import lettered
from slath.wording.told import SpokenStage, ToldStage, spoken
from slath.wording.work import Work

_WITH_USE = re.compile(r"(?P<name>.+?)(?: (?P<use>(?:for|to) .+))?", re.DOTALL)


class Told(Struct, frozen=True):
    """Everything the wording says of one size: `stages` in words, `told` before they are words.

    `tools` are (name, what it is for); `skill` is what the word promises.
    """

    voice: Voice
    stages: tuple[SpokenStage, ...]
    told: tuple[ToldStage, ...]
    tools: tuple[tuple[Words, Words], ...]
    skill: Words
    glossary: Definitions


def tell(
    pattern: Pattern,
    basket: Basket,
    quantities: Quantities,
    *,
    vocabulary: Vocabulary,
    first: First = "inches",
    left_handed: bool = False,
    language: str = "en",
) -> Told:
    """Tell one size. A left-handed booklet runs the other way from the pattern's own working direction."""
    mirrored = (pattern.working_direction == "right to left") != left_handed
    letters = lettered(basket)
    materials = {
        key: material if key in letters else replace(material, letter="")
        for key, material in basket.pattern.materials.items()
    }
    voice = Voice(materials, vocabulary, first, mirrored, Language(language))
    work = Work(basket, quantities, voice)
    worded = with_choices(with_designers_words(_stages(work), pattern, work), pattern)
    stages = with_cautions(worded)
    in_words = tuple(spoken(stage, voice) for stage in stages)
    tools = _tools(pattern, stages, voice)
    promise = named("skills", pattern.skill)
    skill = voice.say(promise) if isinstance(promise, Message) else ""
    said = [words for stage in in_words for words in words_of_stage(stage)]
    said += [words for tool in tools for words in tool]
    said.append(skill)
    return Told(
        voice=voice,
        stages=tuple(linked_once(stage) for stage in in_words),
        told=stages,
        tools=tools,
        skill=skill,
        glossary=glossary(said, voice),
    )


def check_words(pattern: Pattern, basket: Basket, quantities: Quantities) -> tuple[Note, ...]:
    """Errors in the designer's own words for one size: unknown stages and references, typed lengths that disagree."""
    if not (pattern.stages or pattern.photographs):
        return ()
    work = Work(basket, quantities, Voice(basket.pattern.materials))
    return notes_on_words(pattern, work, _stages(work))


def _stages(work: Work) -> tuple[ToldStage, ...]:
    """Every stage this basket has, in the order it is worked. The foot border of a board is worked before its side."""
    basket = work.basket
    foot = foot_stage(work, basket.foot) if basket.foot and basket.foot.closes else None
    border = border_stage(work, basket.border) if basket.border and basket.border.closes else gathered_stage(work)
    from_rim = foot_ends(basket) == "from the rim"
    on_board = bool(basket.base.holes) and not from_rim
    stages = [
        prepare_stage(work),
        base_stage(work),
        base_check(work),
        stakes_stage(work),
        foot if on_board else None,
        pricking_up_stage(work),
        *side_stages(work),
        foot if from_rim else None,
        border,
        None if on_board or from_rim else foot,
        handle_stage(work),
        lid_stage(work),
        *part_stages(work),
        finish_stage(work),
    ]
    return with_handles_in_time([stage for stage in stages if stage is not None], work)


def _tool(key: str, voice: Voice) -> tuple[Words, Words]:
    """A tool's name and what it is for."""
    name = message("tools.named", tool=message(f"tools.{key}"))
    return voice.say(name), voice.say(message(f"tools.{key}-use"))


def _tools(pattern: Pattern, stages: tuple[ToldStage, ...], voice: Voice) -> tuple[tuple[Words, Words], ...]:
    """Tools the work calls for, and then those the designer adds, with their use where the words tell it: "a scrap of
    carpet to work on".
    """
    done = frozenset(operation for stage in stages for step in stage.steps for operation in step.operations)
    called = [_tool(slug(tool.key), voice) for tool in tools_for(done)]
    added = (_WITH_USE.fullmatch(name) for name in pattern.tools)
    return (*called, *((said["name"], said["use"] or "") for said in added if said))
