"""The designer's own words: put in their place, bound to the list, and refused where they disagree with it."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from tests.wording.told_patterns import made

from slath.language.pattern import Pattern, StageWords
from slath.notes import Note, Severity
from slath.trade.words import UK, US
from slath.units import printing
from slath.wording.references import amounts_by_name
from slath.wording.speech import Voice, plain
from slath.wording.telling import check_words, tell
from slath.wording.told import SpokenStage
from slath.wording.work import Work


def worded(**words: object) -> Pattern:
    """The Weir Field basket with words of the designer's for one stage."""
    stage = StageWords(path=("steps", 0), **words)  # type: ignore[arg-type]
    return replace(made("weir-field", 1)[0], stages=(stage,))


def stages(pattern: Pattern, vocabulary: str = "UK") -> dict[str, SpokenStage]:
    """The stages of the medium size by key."""
    _, basket, quantities = made("weir-field", 1)
    words = {"UK": UK, "US": US}[vocabulary]
    return {stage.key: stage for stage in tell(pattern, basket, quantities, vocabulary=words).stages}


def notes(pattern: Pattern) -> tuple[Note, ...]:
    """What is wrong with the designer's words for the medium size."""
    _, basket, quantities = made("weir-field", 1)
    return check_words(pattern, basket, quantities)


def test_words_replace_the_steps_of_a_stage_and_keep_its_checks_and_dangers() -> None:
    """A designer who words the base anew must not lose the counts or the warning about the bodkin."""
    pattern = worded(stage="base", replace=("Make the base as you always do.", "It has {sticks} sticks."))
    (step,) = stages(pattern)["base"].steps
    assert [plain(words) for words in step.actions] == ["Make the base as you always do.", "It has 11 sticks."]
    assert any("bodkin" in plain(caution.words) for caution in step.cautions)
    assert any("22" in plain(box.words) for box in step.counts)
    assert "base-plan" in step.figures
    assert not any(
        name.startswith(("stroke-", "base-opening", "base-weaving")) for name in step.figures
    )  # of other words
    assert notes(pattern) == ()


def test_a_band_is_worded_by_its_own_name() -> None:
    """Words for one band touch that band's step alone."""
    pattern = worded(
        stage="Spiral", replace=("Weave {band.spiral.rounds} rounds, to {band.spiral.along}.",), notes=("Sing.",)
    )
    steps = {step.key: step for step in stages(pattern)["side"].steps}
    _, basket, quantities = made("weir-field", 1)
    row = next(row for row in quantities.bands if row.name == "spiral")
    expected = f"Weave {round(row.rounds.value)} rounds, to {printing.both(row.along.value)}."
    assert [plain(words) for words in steps["band 2"].actions] == [expected]
    assert plain(steps["band 2"].notes[-1]) == "Sing."
    assert steps["band 2"].stops
    assert basket.bands[1].name == "spiral"


def test_notes_cautions_pictures_and_figures_are_added() -> None:
    """What is added stands with the stage: cautions before its first step, notes after its last."""
    pattern = worded(
        stage="handle", notes=("Our own way.",), safety=("Mind the cat.",), care=("Keep it dry.",),
        pictures=(("bow.jpg", "A bow being bent"),), figures=("handle-1",),
    )  # fmt: skip
    stage = stages(pattern)["handle"]
    assert [
        (c.kind, plain(c.words)) for c in stage.steps[0].cautions if plain(c.words) in {"Mind the cat.", "Keep it dry."}
    ] == [
        ("safety", "Mind the cat."),
        ("care", "Keep it dry."),
    ]
    assert plain(stage.steps[-1].notes[-1]) == "Our own way."
    assert stage.pictures == (("bow.jpg", "A bow being bent"),)
    assert stage.chosen_figures == ("handle-1",)


def test_words_about_oil_bring_the_caution_about_rags() -> None:
    """Oily rags can catch fire by themselves (common practice, no source): said as soon as a designer speaks of oil."""
    stage = stages(worded(stage="finish", notes=("Rub it with linseed oil.",)))["finish"]
    cautions = [plain(caution.words) for step in stage.steps for caution in step.cautions]
    assert any("rags" in caution for caution in cautions)
    assert not any("rags" in plain(c.words) for s in stages(worded(stage="finish"))["finish"].steps for c in s.cautions)


def test_a_tool_of_the_designers_is_told_with_its_use() -> None:
    """What a tool is for stands in the column of uses, as with the usual tools; a tool without a use stands alone."""
    pattern, basket, quantities = made("weir-field", 1)
    added = replace(pattern, tools=("a flat iron", "a scrap of carpet to work on", "tape for the blades"))
    assert tell(added, basket, quantities, vocabulary=UK).tools[-3:] == (
        ("a flat iron", ""),
        ("a scrap of carpet", "to work on"),
        ("tape", "for the blades"),
    )


def test_the_designers_trade_words_follow_the_vocabulary() -> None:
    """A designer writes stakes; the US booklet prints spokes; brackets of the designer's own stay as typed."""
    pattern = worded(stage="border", notes=("Keep the stakes damp [always] <so>.",))
    assert plain(stages(pattern, "US")["border"].steps[-1].notes[-1]) == "Keep the spokes damp [always] <so>."
    assert plain(stages(pattern)["border"].steps[-1].notes[-1]) == "Keep the stakes damp [always] <so>."


@pytest.mark.parametrize(
    ("text", "code", "remedy"),
    [
        ("Weave {band.spirel.rounds} rounds.", "unknown-reference", "band.spiral.rounds"),
        ("Weave to 17 7/16 in.", "typed-measure-disagrees", "{"),
        ("Weave to 443 mm.", "typed-measure-disagrees", "{"),
        ("Leave 17½ in. above.", "typed-measure-disagrees", "{"),
        ("Leave 17-1/2 inches.", "typed-measure-disagrees", "{"),
        ("Leave 1 ft 5 1/2 in above.", "typed-measure-disagrees", "{"),
        ('It is 17" wide.', "typed-measure-disagrees", "{"),
        ("The base is 11 × 17 in.", "typed-measure-disagrees", "{"),
        ("Leave 17 to 18.5 in.", "typed-measure-disagrees", "{"),
        ("Leave between 17 1/2 and 4 in.", "typed-measure-disagrees", "{"),
        ("Leave nine and a half inches.", "typed-measure-disagrees", "{"),
        ("Leave an eighth of an inch.", "typed-measure-disagrees", "{"),
        ("A 44.3 cm rod.", "typed-measure-disagrees", "{"),
    ],
)
def test_wrong_words_are_refused_with_a_remedy(text: str, code: str, remedy: str) -> None:
    """A number typed by hand that disagrees with the list, or a name that means nothing, stops the booklet."""
    note, *_ = notes(worded(stage="base", notes=(text,)))
    assert note.code == code
    assert note.severity is Severity.ERROR
    assert note.size == "medium"
    assert note.part == "base"
    assert note.place.file.endswith("weir-field.yaml")
    assert any(remedy in words for words in note.remedies)


@pytest.mark.parametrize(
    "text",
    [
        "The base is 11 in long.",
        "The base is 279 mm long.",
        "The base is {base.length} long.",
        "Soak for 20 minutes.",
        "Cut the stakes to {piece.stakes.cut}, {piece.stakes.count} of them.",
        "Wait 3/0 in.",
        "The base is 11 × 7 in, that is 27.9 by 17.8 cm.",
        'It is 11" long, or 7 to 11 inches every way.',
        "It is eleven inches long, half an inch of it the upsett.",
        "Put 2 in each space, 38 in all, and 3 in the last.",
        "Soak No. 3 in warm water, 13 ft rods in cold; see page 17 in the handbook.",
        "Sit 2 m from the stove.",
    ],
)
def test_words_that_agree_pass(text: str) -> None:
    """The list's own measures, typed or bound, and numbers that measure nothing, are let through."""
    assert notes(worded(stage="base", notes=(text,))) == ()


def test_words_for_a_stage_there_is_not_are_refused() -> None:
    """They would be printed nowhere."""
    (note,) = notes(worded(stage="bordr", notes=("Hello.",)))
    assert note.code == "unknown-stage"
    assert "write stage: border" in note.remedies
    (other,) = notes(worded(stage="lid", notes=("Hello.",)))
    assert "no such stage" in other.sentence


def test_every_reference_prints_a_number_of_the_list() -> None:
    """Each name that can be written in braces stands for an amount with its own basis."""
    _, basket, quantities = made("weir-field", 1)
    work = Work(basket, quantities, Voice(basket.pattern.materials))
    names = amounts_by_name(work)
    assert names["stakes"].value == len(basket.stakes)
    assert names["base.length"].value == quantities.finished.base_length.value
    assert {"band.spiral.rounds", "piece.stakes.cut", "border.needed", "spacing.rim", "handle.foot"} <= set(names)
