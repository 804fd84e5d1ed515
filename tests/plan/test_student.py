"""The student test: whoever only reads the acts makes the basket of the model, of what is listed and of nothing else.

Over every shipped pattern in every size, every basket of the handbooks, and any basket that can be drawn at random. In the
ordinary run a few of the last; ``SLATH_STUDENT_BASKETS=2000`` draws as many as it says.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace
from tests.plan.any_basket import any_basket
from tests.plan.proving import verdict
from tests.properties.constructions import Text, woven

from slath.basket.model import Basket
from slath.pipeline import CompiledSize, compile_pattern
from slath.plan.acts import (
    Act,
    Bend,
    Damp,
    EndStrand,
    InTurn,
    KeepSlack,
    LayIn,
    Mark,
    Plan,
    PlannedStage,
    PlannedStep,
    Recount,
    SetFoot,
    StepUp,
    Take,
    Untie,
    Weave,
)
from slath.plan.places import Place
from slath.plan.planner import plan_of

ROOT = Path(__file__).resolve().parents[2]
SHIPPED = sorted(
    path for path in (ROOT / "patterns").glob("*.yaml") if not path.name.endswith((".workshop.yaml", ".class.yaml"))
)
HANDBOOK = sorted((ROOT / "tests" / "handbook" / "baskets").glob("*.yaml"))
DRAWN = int(os.environ.get("SLATH_STUDENT_BASKETS", "8"))


@cache
def sizes(path: Path) -> tuple[CompiledSize, ...]:
    """Every size of a pattern, worked out."""
    return compile_pattern(path).sizes


@pytest.mark.parametrize("path", [*SHIPPED, *HANDBOOK], ids=lambda path: path.stem)
def test_the_student_makes_the_basket(path: Path) -> None:
    """Every stroke, every end and every crossing of the border as the model has it; every piece used as it is listed."""
    for size in sizes(path):
        plan = plan_of(size.basket, size.quantities)
        assert len(plan.acts) > 5
        assert verdict(plan, size.basket, size.quantities) == ""


@settings(
    deadline=None,
    max_examples=DRAWN,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large],
)
@given(any_basket())
def test_the_student_makes_any_basket(pattern: Text) -> None:
    """Any base, weaves, border and foot that can be woven."""
    for size in woven(pattern).sizes:
        assert verdict(plan_of(size.basket, size.quantities), size.basket, size.quantities) == ""


# ------------------------------------------------------------------------------------------------------ planted faults
Change = Callable[[Act], Iterator[Act]]


def changed(plan: Plan, change: Change, *, once: bool = True) -> Plan:
    """The plan with acts changed: the first that the change makes another of, or all."""
    done = False

    def acts(step: PlannedStep) -> Iterator[Act]:
        nonlocal done
        for act in step.acts:
            made = [act] if done and once else list(change(act))
            done = done or made != [act]
            yield from made

    return Plan(
        tuple(
            PlannedStage(stage.key, tuple(replace(step, acts=tuple(acts(step))) for step in stage.steps))
            for stage in plan.stages
        )
    )


def fault(kind: type[Any], make: Callable[[Any], list[Act]], where: Callable[[Any], bool] = lambda _: True) -> Change:
    """A change of acts of one kind."""

    def change(act: Act) -> Iterator[Act]:
        yield from make(act) if isinstance(act, kind) and where(act) else [act]

    return change


def moved(place: Place) -> Place:
    """The next place."""
    return place.numbering.at(place.number + 1)


def unthreaded(bend: Bend) -> Bend:
    """A last end laid over everything."""
    return replace(bend, steps=tuple(replace(step, threaded=()) for step in bend.steps))


FAULTS: dict[str, Change] = {
    "a stroke out of phase": fault(Weave, lambda act: [replace(act, phases=tuple(one + 1 for one in act.phases))]),
    "a rod that stops short": fault(Weave, lambda act: [replace(act, travels=(act.travels[0] - 1, *act.travels[1:]))]),
    "strokes in another order of rods": fault(
        Weave, lambda act: [replace(act, rods=act.rods[::-1])], lambda act: len(act.rods) > 1
    ),
    "a strand begun one space on": fault(
        LayIn, lambda act: [replace(act, at=act.at.numbering.after(act.at.number + 1))]
    ),
    "a strand never ended": fault(EndStrand, lambda _: []),
    "a strand ended on the other side": fault(
        EndStrand,
        lambda act: [
            replace(act, side={"inside": "outside", "outside": "inside", "above": "below", "below": "above"}[act.side])
        ],
    ),
    "a step in the usual order": fault(StepUp, lambda act: [replace(act, rods=act.rods[::-1])]),
    "a band that stops elsewhere": fault(
        Weave, lambda act: [replace(act, till=act.till.numbering.after(act.till.number - 1))], lambda act: act.on.count > 12
    ),
    "nothing marked to count from": fault(Mark, lambda _: []),
    "a string never untied": fault(Untie, lambda _: []),
    "nothing soaked": fault(Damp, lambda _: [], lambda act: act.what in {"stakes", "foot ends"}),
    "a numbering that is never begun": fault(Recount, lambda _: []),
    "a loop drawn tight": fault(KeepSlack, lambda act: [replace(act, loops=act.loops[1:])]),
    "a last end laid over all": fault(Bend, lambda act: [unthreaded(act)], lambda act: bool(act.threaded)),
    "an end taken one past": fault(
        InTurn, lambda act: [replace(act, bends=(*act.bends[:-1], replace(act.bends[-1], loop=replace(act.bends[-1].loop, of=moved(act.bends[-1].loop.of)))))]
    ),
    "a foot one place on": fault(SetFoot, lambda act: [replace(act, at=moved(act.at))]),
    "a lashing that is not listed": fault(Take, lambda act: [act, Take("lashings", act.material, 1)]),
    "a piece left over": fault(Take, lambda act: [replace(act, count=act.count - 1)]),
}  # fmt: skip
ALL_AT_ONCE = {"nothing soaked", "a string never untied", "nothing marked to count from"}
STEPPED = ROOT / "tests" / "handbook" / "baskets" / "blanchard-4.yaml"  # a wale whose rounds close with a step


@pytest.mark.parametrize("name", FAULTS)
def test_a_planted_fault_is_caught(name: str) -> None:
    """Wherever the fault changes the plan of a shipped pattern, the student cannot do it or makes another basket."""
    planted = 0
    for path in [*SHIPPED, STEPPED]:
        size = sizes(path)[0]
        plan = plan_of(size.basket, size.quantities)
        wrong = changed(plan, FAULTS[name], once=name not in ALL_AT_ONCE)
        if wrong.acts == plan.acts:
            continue
        planted += 1
        assert verdict(wrong, size.basket, size.quantities), f"{path.stem}: {name} went unseen"
    assert planted


def test_a_foot_told_in_numbers_that_have_ended_is_refused() -> None:
    """Stakes added part-way up give every stake another number: a foot told by its number at the base is no place."""
    for size in (size for path in [*SHIPPED, *HANDBOOK] for size in sizes(path)):
        if not size.basket.handles or not size.basket.changes:
            continue
        plan = plan_of(size.basket, size.quantities)
        old = next(act.to for act in plan.acts if isinstance(act, Recount))
        wrong = changed(plan, fault(SetFoot, lambda act, old=old: [replace(act, at=Place(old, act.at.number))]))  # type: ignore[misc]
        assert "do not hold" in verdict(wrong, size.basket, size.quantities)
        return
    pytest.fail("no basket has a handle and stakes that change")


def test_one_strand_never_lies_on_its_own_track() -> None:
    """Over an odd count a strand of before 1, behind 1 passes every stake by turns on one side and the other, from band to
    band as well: also where the colour changes after an odd number of rounds.
    """
    seen = 0
    for path in [*SHIPPED, *HANDBOOK]:
        for size in sizes(path):
            seen += sum(_alternates(size.basket, first) for first in range(len(size.basket.bands) - 1))
    assert seen >= 3


def _alternates(basket: Basket, first: int) -> bool:
    one, other = basket.bands[first : first + 2]
    plain = all(
        band.spec.weave.kind in {"rand", "slew"}
        and band.spec.weave.cycle == 2
        and not band.spec.shift
        and not band.spec.cells
        for band in (one, other)
    )
    if not plain or one.group_sizes != other.group_sizes or not one.uprights % 2:
        return False
    # The last of one band at an upright and the first of the next, counted stroke by stroke from the very first space.
    travelled = len(one.rounds) * one.uprights
    ahead = (other.start - one.start) % other.uprights
    assert (travelled + ahead) % 2 == 0, (basket.pattern.size, one.name, other.name)
    return True
