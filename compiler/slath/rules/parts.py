"""Parts made by themselves: whether they meet what they are joined to."""

from __future__ import annotations

from collections.abc import Iterator

from slath.basket.made_parts import inside_of, joined_to
from slath.basket.model import Basket, ConstructedPart
from slath.messages.told import told
from slath.rules.finding import Context, Finding
from slath.rules.lids import places_remedies

_LACED_APART = 0.05  # of the edge by which two that are laced together may differ: estimated, as lacing draws them in
_STANDS_CLEAR_MM = 25.0  # a flat part pushed in stands no further from either wall than its ends can bridge: estimated
_PRESSES_MM = 10.0  # and presses either wall out no further: estimated


def part_places_exist(context: Context) -> Iterator[Finding]:
    """A part is joined beside stakes that are there."""
    for part in context.basket.parts:
        stakes = len(joined_to(context.basket, part).stakes)
        beyond = [number for number in part.spec.join.at if number > stakes]
        if beyond:
            yield Finding(
                (*part.spec.join.path, "at"),
                part.spec.name,
                told(
                    "The {name} is joined beside stake {beyond}, but there are {stakes}.",
                    name=part.spec.name,
                    beyond=beyond[0],
                    stakes=stakes,
                ),
                places_remedies(stakes),
            )


def part_has_ends(context: Context) -> Iterator[Finding]:
    """What is pushed in must have ends that stand out of it."""
    for part in context.basket.parts:
        made = part.basket
        if part.spec.join.way == "pushed in" and (made.border is not None or not (made.stakes or made.base.sticks)):
            why = (
                told("its border turns every end down")
                if made.border is not None
                else told("it has no stakes and no sticks")
            )
            yield Finding(
                (*part.spec.join.path, "way"),
                part.spec.name,
                told("The {name} is to be joined by its own ends pushed in, but {why}.", name=part.spec.name, why=why),
                (told("leave out its border"), told("tie it: way: tied")),
            )


def part_meets(context: Context) -> Iterator[Finding]:
    """Two edges that are laced together are of one length, and a flat part that is pushed in spans the inside."""
    for part in context.basket.parts:
        if part.spec.join.way == "laced":
            yield from _laced(context, part)
        if part.spec.join.way == "pushed in" and part.basket.profile is None:
            yield from _spans(context, part, joined_to(context.basket, part))


def _laced(context: Context, part: ConstructedPart) -> Iterator[Finding]:
    own, other = part.edge.perimeter, part.meets.perimeter
    if abs(own - other) <= _LACED_APART * other:
        return
    shape = context.across(part.meets.outline)
    yield Finding(
        (*part.spec.join.path, "way"),
        part.spec.name,
        told(
            "The edge of the {name} is {own} round, and what it is laced to {other}.",
            name=part.spec.name,
            own=context.measure(own),
            other=context.measure(other),
        ),
        (told("make the part {shape} there", shape=shape), told("tie it at places: way: tied")),
    )


def _spans(context: Context, part: ConstructedPart, other: Basket) -> Iterator[Finding]:
    shape, rooms = part.basket.base.edge.outline, inside_of(other)
    short = min((room - size for room in rooms for size in (shape.length_mm, shape.width_mm)), key=abs)
    if -2 * _PRESSES_MM <= short <= 2 * _STANDS_CLEAR_MM:
        return
    yield Finding(
        part.spec.path,
        part.spec.name,
        told(
            "The {name} is {shape}, and the inside at the rim {rooms} by {other}: neither of its measures spans it.",
            name=part.spec.name,
            shape=context.across(shape),
            rooms=context.measure(rooms[0]),
            other=context.measure(rooms[1]),
        ),
        (
            told("make one of its measures {room} to stand across", room=context.measure(min(rooms))),
            told("or {room} to stand along", room=context.measure(max(rooms))),
        ),
    )
