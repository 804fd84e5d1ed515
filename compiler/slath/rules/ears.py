"""Swinging handles: whether their ears are wide enough, their holes take the bows, their scarfs leave an arch; and liners."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.handle_ears import bows_through_a_hole
from slath.basket.model import WorkedEar, WorkedHandle
from slath.language.pattern import Ears
from slath.messages.told import Spoken, several, told
from slath.rules.finding import Context, Finding

_PART = "ears"
_WOOD = 0.5  # wood beside a hole, of its width: less splits with the grain, from memory


def holes_take_bows(context: Context) -> Iterator[Finding]:
    """A hole is as wide as the bows that go through it: two in one hole need twice the width."""
    for handle, spec, ear in _with_ears(context):
        bows = bows_through_a_hole(handle.spec.count, spec.holes)
        needs = bows * context.material(handle.spec.material).thickness_mm
        if ear.hole.value >= needs:
            continue
        through = told("the bow is") if bows == 1 else told("the {bows:words} bows that go through it are", bows=bows)
        yield Finding(
            (*spec.path, "hole"),
            _PART,
            told(
                "The holes of the ears are {hole} wide; {through} {needs}.",
                hole=context.measure(ear.hole.value),
                through=through,
                needs=context.measure(needs),
            ),
            (
                told("bore them {needs} wide", needs=context.measure(needs + context.setting("ear_hole_play"))),
                *(
                    (told("give each bow a hole of its own: holes: {count}", count=handle.spec.count),)
                    if bows > 1
                    else ()
                ),
            ),
        )


def holes_fit_ears(context: Context) -> Iterator[Finding]:
    """The holes of an ear lie inside its head."""
    for _, spec, ear in _with_ears(context):
        if ear.wood_mm > 0:
            continue
        holes = told("{holes:words} holes of", holes=spec.holes) if spec.holes > 1 else told("a hole of")
        yield Finding(
            (*spec.path, "width") if spec.width_mm else spec.path,
            _PART,
            told(
                "There is no room for {holes} {hole} in an ear {width} wide whose top stands {rise} above the rim.",
                holes=holes,
                hole=context.measure(ear.hole.value),
                width=context.measure(ear.width.value),
                rise=context.measure(ear.rise.value),
            ),
            _larger(context, spec, ear),
        )


def ears_leave_wood(context: Context) -> Iterator[Finding]:
    """Wood thinner than half a hole beside it splits with the grain when the handle is lifted."""
    for _, spec, ear in _with_ears(context):
        if not 0 < ear.wood_mm < _WOOD * ear.hole.value:
            continue
        yield Finding(
            (*spec.path, "width") if spec.width_mm else spec.path,
            _PART,
            told(
                "Only {wood} of wood is left beside the holes of an ear; less than half a hole splits.",
                wood=context.measure(ear.wood_mm),
            ),
            _larger(context, spec, ear),
        )


def _larger(context: Context, spec: Ears, ear: WorkedEar) -> tuple[Spoken, ...]:
    least = ear.hole.value * (spec.holes + _WOOD * (spec.holes + 1))
    wide = (told("make the ears {least} wide", least=context.at_least(least)),) if ear.width.value < least else ()
    high = ear.hole.value * (1 + 2 * _WOOD) - 2 * (ear.rise.value - ear.hole_up_mm)
    return (
        *wide,
        *(
            (told("let them stand {rise} above the rim", rise=context.measure(ear.rise.value + high)),)
            if high > 0
            else ()
        ),
    )


def scarfs_leave_arch(context: Context) -> Iterator[Finding]:
    """Ends that are turned back meet where both scarfs together are longer than the arch."""
    for handle, _, _ in _with_ears(context):
        if handle.scarf is None or 2 * handle.scarf.value <= handle.bow_mm.value:
            continue
        half = handle.bow_mm.value / 2
        yield Finding(
            (*handle.spec.path, "scarf"),
            "handle",
            told(
                "Two scarfs of {scarf} are turned back over an arch of {bow}: they meet at its top.",
                scarf=context.measure(handle.scarf.value),
                bow=context.measure(handle.bow_mm.value),
            ),
            (
                told("make the scarfs {half} at most", half=context.at_most(half)),
                told("cut the bow longer, or let it rise higher"),
            ),
        )


def liners_find_band(context: Context) -> Iterator[Finding]:
    """A liner is pushed in after a band that is woven on the side."""
    names = [band.name for band in context.on_stakes]
    for handle in context.sized.handles:
        if handle.liner is not None and handle.liner.after and handle.liner.after not in names:
            yield Finding(
                (*handle.liner.path, "after"),
                "handle",
                told(
                    "Liners are to go in after “{after}”, but the side has no band of that name.",
                    after=handle.liner.after,
                ),
                (
                    told("name {names}", names=several(names, "or")),
                    told("leave it out: they go in after the first band"),
                ),
            )


def _with_ears(context: Context) -> Iterator[tuple[WorkedHandle, Ears, WorkedEar]]:
    for handle in context.basket.handles:
        if handle.spec.ears is not None and handle.ear is not None:
            yield handle, handle.spec.ears, handle.ear
