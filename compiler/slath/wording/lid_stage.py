"""The lid: a small basket of its own, told in short stages, and fitted to the finished rim."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from slath.quantities.measuring import quantities_of
from slath.units.counting import in_words
from slath.wording.base_stage import base_check, base_stage
from slath.wording.border_stage import border_stage
from slath.wording.figure_names import lid_figure
from slath.wording.handle_stage import handle_stage
from slath.wording.lid_fastenings import fastening_steps
from slath.wording.side_stage import side_stages
from slath.wording.staking import pricking_up_stage, stakes_stage
from slath.wording.work import Work

if TYPE_CHECKING:
    from slath.basket.model import ConstructedLid
    from slath.wording.speech import Voice
    from slath.wording.told import ToldStage, ToldStep


_LEAD = (
    "The lid is begun like the base, and fitted to the finished rim. Work it upside down, like a second, low basket: where "
    "these steps say base or side, they mean the lid's own."
)


def lid_stage(work: Work) -> ToldStage | None:
    """The lid, begun like a base and worked on as far as it goes, then fitted; None where there is no lid."""
    lid = work.basket.lid
    if lid is None:
        return None
    own = Work(lid.basket, quantities_of(lid.basket), work.voice)
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
        )
        for step in told
    ]
    return work.stage("lid", "The lid", _LEAD, [*steps, _fit(work, lid), *fastening_steps(work)])


def _before_hinge(step: ToldStep, work: Work) -> ToldStep:
    """The trimming of the lid's border, which spares the ends its hinge is made of."""
    hinge = work.basket.lid.spec.hinge if work.basket.lid else None
    if step.key != "border trim" or hinge is None or not hinge.in_one:
        return step
    spared = f"Leave the ends of {in_words(hinge.count)} of the [stakes] uncut at the back, where the lid is to hang: they are its hinge."
    return replace(step, actions=(spared, *step.actions))


def _turned_round(lid: ConstructedLid, voice: Voice) -> str:
    """What to look for all round: room beside the rim, or how far a lid that rests comes past the opening."""
    if lid.gap_mm <= 0:
        return "Turn it round: it should lie evenly everywhere."
    gap = voice.length(lid.gap_mm)
    if lid.spec.fit == "resting":
        return f"Turn it round: its edge should come {gap} past the edge of the opening everywhere."
    return f"Turn it round: it should stand clear by {gap} everywhere."


def _fit(work: Work, lid: ConstructedLid) -> ToldStep:
    voice = work.voice
    ways = {
        "over": "It goes over the rim, and hangs down outside.",
        "inside": "It goes down inside the rim.",
        "resting": "It rests on the rim.",
    }
    return work.step(
        "lid fit",
        "Fit the lid",
        [
            "Leave the basket and the lid until both are dry.",
            f"Lay the lid on the basket. {ways[lid.spec.fit]}",
            _turned_round(lid, voice),
            "Mark where it fits best, with a thread on the lid and another on the rim.",
        ],
        notes=["A lid that binds is damped and pressed into shape on its own basket, and dries there."],
        does=("check", "measure"),
    )
