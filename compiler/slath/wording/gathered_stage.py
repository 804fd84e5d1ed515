"""The top of a basket that closes to nothing: its stakes drawn together and bound, and a loop to hang it by."""

from __future__ import annotations

from slath.basket.gathering import gathered_of
from slath.messages import Length, message
from slath.messages.values import CUT
from slath.wording.stuff import next_length, strand_said
from slath.wording.told import Clause, ToldStage
from slath.wording.work import Work


def gathered_stage(work: Work) -> ToldStage | None:
    """The stage; None where the stakes are not drawn together."""
    spec = gathered_of(work.basket)
    if spec is None:
        return None
    pieces = work.pieces("top binding")
    actions: list[Clause] = [
        message("gathered.soak-the-tops"),
        message("gathered.draw-together", stakes=len(work.basket.stakes), above=Length(spec.above_mm)),
        message(
            "gathered.bind",
            strand=strand_said(work.basket.pattern.materials[spec.tied]),
            length=Length(pieces[0].cut_mm.value, CUT),
            turns=spec.turns,
        ),
        next_length(pieces),
        message("gathered.hang", loop=Length(spec.loop_mm)) if spec.loop_mm is not None else message("gathered.tuck"),
        message("gathered.cut-off", stands=Length(spec.stands_mm)),
    ]
    step = work.step(
        "top",
        message("gathered.bind-the-top"),
        actions,
        notes=[message("gathered.even")],
        counts=[message("gathered.all-bound", stakes=len(work.basket.stakes))],
        does=("damp", "bundle", "trim"),
        materials=(spec.tied,),
    )
    return work.stage("border", message("gathered.the-top"), message("gathered.lead"), [step])
