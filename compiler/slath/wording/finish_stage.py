"""Finishing: what is done when the last end is tucked away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from slath.wording.figure_names import PROFILE

if TYPE_CHECKING:
    from slath.wording.told import ToldStage, ToldStep
    from slath.wording.work import Work

_HAIRY = {"round reed", "flat reed", "oval reed", "half round reed", "centre cane"}


def finish_stage(work: Work) -> ToldStage:
    """Trimming, cleaning, shaping and drying."""
    kinds = {material.stock.kind for material in work.basket.pattern.materials.values()}
    reed = bool(kinds & _HAIRY)
    profile = work.basket.profile
    steps = [
        work.step(
            "tidy",
            "Look it over",
            [
                "Turn the basket inside and outside to the light." if profile else "Turn both faces to the light.",
                "Cut off every loose end, each where it rests on a [stake].",
                "Press down a round that has lifted, and ease a gap with the [bodkin].",
            ],
            does=("trim", "open weave"),
        ),
        _shape(work),
    ]
    if reed:
        steps.append(
            work.step(
                "singe",
                "Take off the hairs",
                [
                    "Let the basket dry through and through.",
                    "Pass a small flame quickly over the loose hairs, and never stay at one place.",
                    "Brush off what is burnt.",
                ],
                notes=[
                    "Instead of the flame you may cut the hairs off; leave dyed work unsinged, because the flame dulls it."
                ],
                does=("singe",),
            )
        )
    lead = f"What is done now decides how the work {'stands' if profile else 'lies'} for years."
    return work.stage("finish", "Finishing", lead, steps)


def _shape(work: Work) -> ToldStep:
    finished, voice = work.quantities.finished, work.voice
    profile = work.basket.profile
    wide, long = finished.rim_width.value, finished.rim_length.value
    rim = f"{voice.length(long)} by {voice.length(wide)}" if abs(long - wide) > 0.5 else f"{voice.length(wide)} across"
    actions = [
        "Damp the whole basket once more, inside and outside." if profile else "Damp it once more all over.",
        f"Shape the rim with your hands until it measures {rim}."
        if profile
        else f"Press it flat under a board, and true: over the [border] it measures {rim}.",
        "Stand it on a level table, and press the edge of the base down where it rocks." if profile else "",
        "Let it dry in moving air, away from sun and stove.",
    ]
    height = f"Measure the basket: it stands {voice.length(finished.height.value)} high." if profile else ""
    notes = [
        "Measures are those of the list; a hand that packs harder makes a lower basket." if profile else "",
        "Keep it where air can reach it. Wipe it with a damp cloth; never leave it wet.",
    ]
    return work.step(
        "shape",
        "Shape and dry",
        actions,
        notes=notes,
        counts=[height] if height else [],
        figures=(PROFILE,) if profile else (),
        does=("damp", "measure"),
    )
