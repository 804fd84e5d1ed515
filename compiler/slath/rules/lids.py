"""Lids: whether they fit the rim that the basket is predicted to have."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from slath.basket.lid import best_size, fits
from slath.basket.wall import as_measured
from slath.messages.told import Spoken, told, word
from slath.rules.finding import Context, Finding

_WAYS = {"over": "go over the border", "inside": "go inside the border", "resting": "rest on the rim"}


def lid_fits(context: Context) -> Iterator[Finding]:
    """A lid needs its clearance all round, since no two baskets come out alike to the millimetre.

    It is told and not refused: the rim is a prediction, and a maker fits the lid to the basket that was woven.
    """
    lid = context.basket.lid
    if lid is None or fits(lid):
        return
    outline = lid.basket.rim.outline
    length, width = best_size(lid, outline)
    top = told("its rim") if lid.basket.profile else told("it")
    wanted = replace(outline, length_mm=length, width_mm=width)
    shown = as_measured(wanted, lid.basket.pattern) if lid.basket.profile else wanted
    size = context.across(shown, "down" if lid.spec.fit == "inside" else "up")
    room = (
        told("it has {gap} all round", gap=context.measure(lid.gap_mm))
        if lid.gap_mm >= 0
        else _out(context, lid.gap_mm)
    )
    yield Finding(
        (*lid.spec.path, "fit"),
        "lid",
        told(
            "The lid is to {ways} with {clearance} of room; {room}.",
            ways=word(_WAYS[lid.spec.fit]),
            clearance=context.measure(lid.spec.clearance_mm),
            room=room,
        ),
        (told("make {top} {size}", top=top, size=size), told("weave the basket first and fit the lid to it")),
    )


def lid_places_exist(context: Context) -> Iterator[Finding]:
    """Hinges and fastenings of a lid go beside stakes of the rim that are there."""
    lid, stakes = context.sized.lid, len(context.basket.stakes)
    for part, where in (("hinge", lid.hinge), ("fastening", lid.fastening)) if lid else ():
        beyond = [number for number in where.at if number > stakes] if where else []
        if where is not None and beyond:
            yield Finding(
                (*where.path, "at"),
                "lid",
                told(
                    "The {part} goes beside stake {beyond}, but there are {stakes}.",
                    part=word(part),
                    beyond=beyond[0],
                    stakes=stakes,
                ),
                places_remedies(stakes),
            )


def places_remedies(stakes: int) -> tuple[Spoken, ...]:
    """What helps where a place is given beyond the last of the stakes."""
    return (
        told("choose from 1 to {stakes}", stakes=stakes),
        told("leave the places out and share them out by eye"),
    )


def fitting_places_exist(context: Context) -> Iterator[Finding]:
    """A fitting goes to stakes that stand at the rim."""
    for fitting in context.sized.fittings:
        stakes = max(context.basket.rim_uprights, len(context.basket.standing))
        beyond = [number for number in fitting.at if number > stakes]
        if beyond:
            yield Finding(
                (*fitting.path, "at"),
                fitting.part,
                told(
                    "The {part} is fastened at stake {beyond}, but there are {stakes}.",
                    part=fitting.part,
                    beyond=beyond[0],
                    stakes=stakes,
                ),
                places_remedies(stakes),
            )


def lid_handles_fit(context: Context) -> Iterator[Finding]:
    """What a lid is lifted by is no wider than the lid."""
    lid = context.basket.lid
    if lid is None:
        return
    outline = lid.basket.rim.outline
    for handle in lid.basket.handles:
        along = handle.spec.family in ("bow", "side", "drop") and handle.spec.direction == "along"
        room = outline.length_mm if along else outline.width_mm
        if handle.span_mm > room:
            key = "diameter" if handle.spec.family == "ring" else "span"
            yield Finding(
                (*handle.spec.path, key),
                "lid",
                told(
                    "The {kind} handle is {span} wide, and the lid {room}.",
                    kind=handle.spec.kind,
                    span=context.measure(handle.span_mm),
                    room=context.measure(room),
                ),
                (told("make it {room} at most", room=context.at_most(room / 2)),),
            )


def _out(context: Context, gap_mm: float) -> Spoken:
    return told("it is {gap_mm} out and does not go on", gap_mm=context.measure(-2 * gap_mm))
