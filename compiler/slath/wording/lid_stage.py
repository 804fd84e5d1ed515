"""The lid: a small basket of its own, told in short stages, and fitted to the finished rim."""

from __future__ import annotations

from msgspec.structs import replace

from slath.basket.model import ConstructedLid
from slath.messages import Length, message
from slath.quantities.measuring import quantities_of
from slath.wording.base_stage import base_check, base_stage
from slath.wording.border_stage import border_stage
from slath.wording.figure_names import lid_figure
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
    border = lid.basket.border
    stages = [
        base_stage(own),
        base_check(own),
        stakes_stage(own),
        pricking_up_stage(own),
        *side_stages(own),
        border_stage(own, border) if border and border.closes else None,
        handle_stage(own),
    ]
    told = [step for stage in stages if stage for step in stage.steps]
    steps = [
        replace(
            _before_hinge(step, work),
            key=f"lid {step.key}",
            figures=tuple(lid_figure(name, work.basket) for name in step.figures),
            shown=tuple((place, lid_figure(name, work.basket), head) for place, name, head in step.shown),
        )
        for step in told
    ]
    return work.stage("lid", message("lid.the-lid"), _LEAD, [*steps, _fit(work, lid), *fastening_steps(work)])


def _before_hinge(step: ToldStep, work: Work) -> ToldStep:
    """The trimming of the lid's border, which spares the ends its hinge is made of."""
    hinge = work.basket.lid.spec.hinge if work.basket.lid else None
    if step.key != "border trim" or hinge is None or not hinge.in_one:
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
