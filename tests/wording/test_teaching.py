"""What the steps teach, checked against the construction and against rules of the trade worked out here afresh."""

from __future__ import annotations

import re

import pytest
from tests.wording.told_patterns import SIZED, made, told

from slath.booklet.blocks import Term
from slath.drawing.figures import figure_names_of
from slath.plan.border_rows import border_rows
from slath.trade.cautions import cautions
from slath.trade.words import concepts
from slath.wording.cautioning import said_as, with_cautions
from slath.wording.glossary import words_of_stage
from slath.wording.speech import anchor_of, plain
from slath.wording.told import STAGES


def actions_of(name: str, size: int, key: str) -> list[str]:
    """The actions of one step as plain text."""
    for stage in told(name, size).stages:
        for step in stage.steps:
            if step.key == key:
                return [plain(words) for words in step.actions]
    raise KeyError(key)


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_stages_stand_in_working_order(name: str, size: int) -> None:
    """Nothing is used before it is made: base, stakes, side, border, handle, finishing (common practice, no source)."""
    keys = [stage.key for stage in told(name, size).stages]
    assert len(set(keys)) == len(keys)
    assert set(keys) <= set(STAGES)
    order = [key for key in STAGES if key in keys]
    if "foot" in keys and made(name, size)[1].base.holes:
        order.remove("foot")
        order.insert(order.index("stakes") + 1, "foot")
    assert keys == order
    _, basket, _ = made(name, size)
    needed = {"prepare", "base", "finish"}
    needed |= {"base check"} if basket.base.sticks else set()
    needed |= {"stakes"} if any(stake.kind == "stake" for stake in basket.stakes) else set()
    needed |= {"border"} if basket.border else set()
    needed |= {"handle"} if basket.handles else set()
    needed |= {"lid"} if basket.lid else set()
    assert needed <= set(keys)


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_every_figure_called_for_is_drawn_and_every_drawing_of_the_work_is_called_for(name: str, size: int) -> None:
    """Steps and drawings go by the same names; only the view, for the cover, and full-size sheets belong to no step.

    On a board with a stake to every hole the plan of the holes shows all that a plan of the stakes would.
    """
    _, basket, quantities = made(name, size)
    drawn = set(figure_names_of(basket, quantities))
    called = {figure for stage in told(name, size).stages for step in stage.steps for figure in step.figures}
    assert called <= drawn
    assert {figure for figure in drawn - called if not figure.startswith("sheet-")} <= {
        "view",
        *(["staking-plan"] if basket.base.holes else []),
    }


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_the_last_stakes_are_named_with_what_they_go_under(name: str, size: int) -> None:
    """Every stake that the simulated border threads is told by its number, with every loop it passes under."""
    _, basket, _ = made(name, size)
    for border, prefix in ((basket.border, "border"), (basket.foot, "foot")):
        if border is None or not border.closes or border.spec.plait:
            continue
        for row in border_rows(border):
            text = "\n".join(actions_of(name, size, f"{prefix} {row.number}"))
            for bend in row.last_ones:
                whose = "" if bend.loop.kind == "loop" else "the end of "
                line = re.search(
                    rf"^{whose}stake {bend.loop.of.number}, the .*, goes .*\. On its way it passes under (.*)\.$",
                    text,
                    re.IGNORECASE | re.MULTILINE,
                )
                assert line, bend
                assert sorted(_spelled(line[1])) == sorted(loop.of.number for loop in bend.threaded)
            for slack in re.findall(r"Leave the (.*) slack", text):
                assert sorted(_spelled(slack)) == sorted(loop.of.number for loop in row.slack)


def _spelled(words: str) -> list[int]:
    """The numbers of "the loops of stakes 1 to 4 and the end of stake 1"."""
    found: list[int] = []
    for first, last in re.findall(r"(\d+)(?: to (\d+))?", words):
        found += range(int(first), int(last or first) + 1)
    return found


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_the_colour_step_told_is_the_one_that_counting_gives(name: str, size: int) -> None:
    """Counted out here strand by strand: the rod over stake p in round r is (p + r·S) mod k. Choate, a maker's page on
    spirals: 37 stakes step left, 38 right, 39 stand upright, in three colours.
    """
    _, basket, _ = made(name, size)
    checked = 0
    for band in basket.bands:
        colours = [rod[0] for rod in band.materials]
        if band.steps is None or len(set(colours)) < 2 or band.spec.reversed:
            continue
        rods, stakes = len(colours), band.uprights
        lower = [colours[stake % rods] for stake in range(stakes)]
        upper = [colours[(stake + stakes) % rods] for stake in range(stakes)]
        inner = range(rods, stakes - rods)
        steps = [step for step in (0, 1, -1, 2, -2) if all(upper[p] == lower[p - step] for p in inner)]
        notes = "\n".join(
            plain(words)
            for stage in told(name, size).stages
            for step in stage.steps
            if step.key == f"band {band.index + 1}"
            for words in step.notes
        )
        if 0 in steps:
            assert "upright stripes" in notes
        else:
            side = "right" if steps[0] > 0 else "left"
            count = {1: "one stake", 2: "two stakes"}[abs(steps[0])]
            assert f"{count} further to the {side}" in notes
        checked += 1
    assert checked == sum(
        band.steps is not None and len({rod[0] for rod in band.materials}) > 1 and not band.spec.reversed
        for band in basket.bands
    )


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_a_count_is_made_before_every_band(name: str, size: int) -> None:
    """Counts found wrong two rows in are the commonest loss of an evening: stop and count first."""
    for stage in told(name, size).stages:
        for step in stage.steps:
            if step.key.startswith(("band ", "base ")) and step.key != "base check":
                assert step.stops
                assert step.stops[0].label == "Stop and count"


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_heights_are_told_along_the_side_and_standing(name: str, size: int) -> None:
    """On a side that leans the two differ, and a maker with a tape measures along it.

    Of the lowest band, and of a side that stands straight up, they are alike to any rule.
    """
    _, basket, _ = made(name, size)
    for band in basket.bands:
        if not band.rounds or basket.profile is None:
            continue
        text = " ".join(actions_of(name, size, f"band {band.index + 1}"))
        voice = told(name, size).voice
        assert voice.length(band.to_mm) in text
        standing = basket.profile.height_of(band.to_mm)
        told_apart = band.to_mm - standing >= 6.35  # a quarter inch, as finished sizes are printed
        assert (f"stands {voice.length(standing)}" in text) == told_apart


def test_tails_are_tucked_where_the_weave_model_sets_them_out() -> None:
    """A three-rod wale of 38 stakes begins behind stakes 38, 1 and 2, so that the first stroke passes before stake 1."""
    assert "Tuck their ends behind the last stake and stakes 1 and 2, one behind each." in actions_of(
        "weir-field", 1, "band 1"
    )


# ----------------------------------------------------------------------------------------------------------- cautions
@pytest.mark.parametrize(("name", "size"), SIZED)
def test_a_caution_stands_before_the_first_action_it_belongs_to(name: str, size: int) -> None:
    """In each stage a safety caution that is repeated stands with the first step that does its operation."""
    telling = told(name, size)
    for caution in (caution for caution in cautions() if caution.kind == "safety" and caution.again):
        wordings = {telling.voice.text(said_as(caution, again=again)) for again in (False, True)}
        for stage in telling.stages:
            doing = [step for step in stage.steps if caution.applies(step.operations, step.stocks)]
            if doing:
                assert any(plain(said.words) in wordings for said in doing[0].cautions), (caution.key, stage.key)


def test_every_caution_is_tied_to_something_that_is_done() -> None:
    """A caution no step can call for protects nobody: each is called for by an operation of some shipped pattern, by a
    kind of stock, or by the designer's words.
    """
    done = {
        operation
        for name, size in SIZED
        for stage in told(name, size).stages
        for step in stage.steps
        for operation in step.operations
    }
    conditional = {"weave crowned base", "soak hot"}  # a crowned base; a pattern that asks for hot water
    for caution in cautions():
        assert caution.operations
        assert caution.operations & (done | conditional) or caution.mentions, caution.key


def test_a_stage_without_the_operation_has_no_caution() -> None:
    """Cautions come from what hands do, so a step without operations carries none."""
    telling = told("wren-pot", 0)
    stage = telling.stages[0]
    bare = [step for step in stage.steps if not step.operations]
    assert all(not step.cautions for step in bare)
    assert with_cautions(()) == ()


# ----------------------------------------------------------------------------------------------------------- glossary
@pytest.mark.parametrize("vocabulary", ["UK", "US"])
@pytest.mark.parametrize(("name", "size"), SIZED)
def test_the_glossary_holds_the_words_used_and_no_others(name: str, size: int, vocabulary: str) -> None:
    """Every linked word is explained; every entry is used in the booklet or in another entry."""
    telling = told(name, size, vocabulary)
    said = [words for stage in telling.stages for words in words_of_stage(stage)]
    said += [words for tool in telling.tools for words in tool]
    said += [telling.skill, *(entry.meaning for entry in telling.glossary.entries)]
    used = {
        piece.anchor
        for words in said
        for piece in (words if isinstance(words, tuple) else (words,))
        if isinstance(piece, Term)
    }
    explained = [entry.anchor for entry in telling.glossary.entries]
    assert set(explained) >= used
    names = [plain(entry.name) for entry in telling.glossary.entries]
    assert names == sorted(names, key=str.casefold)
    text = " ".join(plain(words) for words in said).casefold()
    by_anchor = {anchor_of(key): concept for key, concept in concepts().items()}
    for anchor in set(explained) - used:
        verbs = [c for c in concepts().values() if anchor_of(c.explained_by) == anchor] + [by_anchor[anchor]]
        assert any(form.casefold() in text for concept in verbs for form in concept.forms[vocabulary])


@pytest.mark.parametrize(("name", "size"), SIZED)
def test_a_word_is_linked_once_in_a_stage(name: str, size: int) -> None:
    """The first use leads to the glossary; later ones stay quiet."""
    for stage in told(name, size).stages:
        anchors = [
            piece.anchor
            for words in words_of_stage(stage)
            for piece in (words if isinstance(words, tuple) else (words,))
            if isinstance(piece, Term)
        ]
        assert len(anchors) == len(set(anchors))
