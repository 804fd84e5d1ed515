"""The lid: a small basket of its own, told in short stages, and fitted to the finished rim."""

from __future__ import annotations

from msgspec.structs import replace

from slath.basket.model import ConstructedLid
from slath.messages import Length, message
from slath.quantities.measuring import quantities_of
from slath.wording.base_stage import base_check, base_stage
from slath.wording.border_stage import border_stage
from slath.wording.figure_names import apart_figure
from slath.wording.foot_stage import foot_stage
from slath.wording.gathered_stage import gathered_stage
from slath.wording.handle_stage import handle_stage
from slath.wording.lid_fastenings import fastening_steps
from slath.wording.side_stage import side_stages
from slath.wording.staking import pricking_up_stage, stakes_stage
from slath.wording.told import Clause, ToldStage, ToldStep
from slath.wording.work import Work

_LEAD = message("lid.the-lid-is-begun-like")


def lid_stage(work: Work) -> ToldStage | None:
    """The lid, begun like a base and worked on as far as it goes, then fitted; None where there is no lid."""
    lid = work.basket.lid
    if lid is None:
        return None
    own = Work(lid.basket, quantities_of(lid.basket), work.voice, of_lid=True)
    steps = [_before_hinge(step, work) for step in steps_apart(work, own, 0, "lid")]
    return work.stage("lid", message("lid.the-lid"), _LEAD, [*steps, _fit(work, lid), *fastening_steps(work)])


def steps_apart(work: Work, own: Work, place: int, called: str) -> list[ToldStep]:
    """The steps of what is made apart from a basket, the one at `place` in `Basket.apart`, from its base to its handle; their
    keys begin with what it is `called`.
    """
    border, foot = own.basket.border, own.basket.foot
    foot_told = foot_stage(own, foot) if foot is not None and foot.closes else None
    on_board = bool(own.basket.base.holes)
    stages = [
        base_stage(own),
        base_check(own),
        stakes_stage(own),
        foot_told if on_board else None,
        pricking_up_stage(own),
        *side_stages(own),
        border_stage(own, border) if border and border.closes else gathered_stage(own),
        None if on_board else foot_told,
        handle_stage(own),
    ]

    def figure(name: str) -> str:
        return apart_figure(name, work.basket, place)

    return [
        replace(
            step,
            key=f"{called} {step.key}",
            figures=tuple(figure(name) for name in step.figures),
            shown=tuple((at, figure(name), head) for at, name, head in step.shown),
        )
        for stage in stages
        if stage
        for step in stage.steps
    ]


def _before_hinge(step: ToldStep, work: Work) -> ToldStep:
    """The trimming of the lid's border, which spares the ends its hinge is made of."""
    hinge = work.basket.lid.spec.hinge if work.basket.lid else None
    if step.key != "lid border trim" or hinge is None or not hinge.in_one:
        return step
    spared = message("lid.leave-the-ends-of-of", count=hinge.count)
    return replace(step, actions=(spared, *step.actions))


def _turned_round(lid: ConstructedLid) -> Clause:
    """What to look for all round: room beside the rim, or how far a lid that rests comes past the opening."""
    if lid.gap_mm <= 0:
        return message("lid.turn-it-round-it-should")
    gap = Length(lid.gap_mm)
    if lid.spec.fit == "resting":
        return message("lid.turn-it-round-its-edge", gap=gap)
    return message("lid.turn-it-round-it-should-2", gap=gap)


def _fit(work: Work, lid: ConstructedLid) -> ToldStep:
    ways = {
        "over": message("lid.it-goes-over-the-rim"),
        "inside": message("lid.it-goes-down-inside-the"),
        "resting": message("lid.it-rests-on-the-rim"),
    }
    return work.step(
        "lid fit",
        message("lid.fit-the-lid"),
        [
            message("lid.leave-the-basket-and-the"),
            message("lid.lay-the-lid-on-the-2", ways=ways[lid.spec.fit]),
            _turned_round(lid),
            message("lid.mark-where-it-fits-best"),
        ],
        mends=[message("lid.a-lid-that-binds-is")],
        does=("check", "measure"),
    )
