"""The way of an end of a border told from its acts: for any one, for one by number, and for the last ones under the first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from msgspec import Struct

from slath.basket.border_stakes import stakes_together
from slath.basket.model import WorkedBorder
from slath.language.pattern import BorderPass
from slath.messages import Length, Listed, Message, Numbers, Own, message
from slath.plan.acts import Bend, Pass
from slath.plan.places import Loop
from slath.wording.work import Work


class Rim(Struct, frozen=True):
    """What a border is worked on: `count` uprights, one by one, in pairs or in groups, and the depth its ends need."""

    count: int
    noun: Literal["stake", "pair", "group"]
    depth_mm: float
    from_inside: bool = False  # the maker looks at the inside, and works to the right there
    down_through: tuple[str, ...] = ()  # names of what the ends go down through
    legs_mm: float | None = None  # how far they stand out below the base
    flat: bool = False  # of a mat, which has a front and a back

    @property
    def near(self) -> str:
        """The side the maker looks at."""
        return "inside" if self.from_inside else "outside"

    def number(self, number: int) -> int:
        """The number on the ring of an upright counted past the last."""
        return (number - 1) % self.count + 1

    def at(self, number: int) -> Message:
        """One by its number: stake 3."""
        return message(f"border.{self.noun}-one", number=self.number(number))

    def these(self, numbers: Sequence[int]) -> Message:
        """Several by their numbers: stakes 39, 40 and 1; many that follow one another 3 to 8."""
        ringed = tuple(self.number(number) for number in numbers)
        if len(ringed) == 1:
            return message(f"border.{self.noun}-one", number=ringed[0])
        return message(f"border.{self.noun}-these", numbers=Numbers(ringed))

    @property
    def counted(self) -> Message:
        """How many there are of what: 17 pairs of stakes."""
        return message(f"border.{self.noun}-counted", count=self.count)

    @property
    def bare(self) -> Message:
        """What one of them is called."""
        return message(f"border.{self.noun}-bare")


def general_way(bend: Bend, rim: Rim) -> Message:
    """The way of any one, told by what comes next: behind the next two and out to the front."""
    told: list[Message] = []
    for done, run in bend.runs:
        across = bend.entries.get(done, ())
        if across:
            told.append(_through(run, rim, _there(across)))
        told.append(_past_next(run, rim, further=bool(done)))
    return _joined(bend, told, _ending(bend, rim, numbered=False))


def numbered_way(bend: Bend, rim: Rim) -> Message:
    """The way of one by number: behind stakes 2 and 3, and out to the front."""
    told: list[Message] = []
    for done, run in bend.runs:
        across = bend.entries.get(done, ())
        if across:
            told.append(_through(run, rim, those(across, rim)))
        told.append(_past(run, rim))
    return _joined(bend, told, _ending(bend, rim, numbered=True))


def past_uprights(bend: Bend, rim: Rim, laid: int) -> Message:
    """A laid end's way on, told by the uprights that still stand: in front of the next upright, behind the one after."""
    told: list[Message] = []
    for _, run in bend.runs:
        standing = sum(passed.of.number > laid for passed in run)
        if standing:
            front = run[0].side == rim.near
            told.append(
                message("border.past-after", front=front, count=standing)
                if told
                else message("border.past-next-uprights", front=front, count=standing)
            )
    return _joined(bend, told, _ending(bend, rim, numbered=False))


def those(loops: Sequence[Loop], rim: Rim) -> Listed:
    """Loops, ends and rolls apart, each by number: the loops of stakes 1 and 2 and the end of stake 1."""
    told = []
    for kind in ("loop", "end", "roll"):
        numbers = sorted(loop.of.number for loop in loops if loop.kind == kind)
        if numbers:
            told.append(message(f"border.{kind}s-of", count=len(numbers), these=rim.these(numbers)))
    return Listed(tuple(told))


def _through(run: Sequence[Pass], rim: Rim, loops: Message | Listed) -> Message:
    out = run[0].side == rim.near
    return message("border.through-under", out=out, turned=rim.from_inside, loops=loops)


def _there(across: Sequence[Loop]) -> Message:
    """What every one goes under alike: the loop that lies across."""
    kind = "loops" if all(loop.kind == "loop" for loop in across) else "ends"
    return message(f"border.{kind}-across", count=len(across))


def _past_next(run: Sequence[Pass], rim: Rim, *, further: bool) -> Message:
    first = run[0]
    if first.end:
        return message(
            "border.past-next-ends",
            over=first.end == "over",
            count=len(run),
            inside=first.side == "inside",
            flat=rim.flat,
        )
    if further:
        return message("border.past-next-on", front=first.side == rim.near, count=len(run))
    return message("border.past-next", front=first.side == rim.near, count=len(run))


def _past(run: Sequence[Pass], rim: Rim) -> Message:
    first, these = run[0], rim.these([passed.of.number for passed in run])
    if first.end:
        return message("border.past-ends", over=first.end == "over", count=len(run), these=these)
    return message("border.past", front=first.side == rim.near, these=these)


def _ending(bend: Bend, rim: Rim, *, numbered: bool) -> Message:
    """How the way ends, as the last words of its sentence."""
    last = bend.steps[-1]
    inside = last.side == "inside"
    if bend.ending == "rolled":
        return message("border.rolled", inside=inside, flat=rim.flat)
    if bend.ending == "down":
        return _down(bend, rim, numbered=numbered)
    if bend.ending == "lies":
        return message("border.rests")
    if bend.passes and bend.passes[-1].side == last.side:
        return message("border.leave-end", inside=inside, flat=rim.flat)
    return _through_at_last(bend, rim, numbered=numbered)


def _through_at_last(bend: Bend, rim: Rim, *, numbered: bool) -> Message:
    """To the other side at the end of the way, under what lies across there."""
    side, across = bend.steps[-1].side, bend.entries.get(len(bend.passes), ())
    loops = those(across, rim) if numbered else _there(across) if across else None
    if side == rim.near:
        return message("border.to-front-under", loops=loops) if across else message("border.to-front")
    seen, inside = rim.from_inside, side == "inside"
    if across:
        return message("border.to-side-under", turned=seen, inside=inside, loops=loops, flat=rim.flat)
    return message("border.to-side", turned=seen, inside=inside, flat=rim.flat)


def _down(bend: Bend, rim: Rim, *, numbered: bool) -> Message:
    last = bend.steps[-1]
    if bend.passes and bend.passes[-1].end:
        beside = message("border.beside-it", several=len(bend.passes) > 1)
    else:  # beside the last one passed: Gill (1916)
        beside = rim.at(last.gap.number) if numbered else message("border.beside-last")
    depth = Length(rim.depth_mm)
    if rim.legs_mm is not None:
        return message("border.down-to-legs", beside=beside, legs=Length(rim.legs_mm))
    if rim.down_through:
        names = Listed(tuple(Own(name) for name in rim.down_through))
        return message("border.down-through", beside=beside, names=names, depth=depth)
    if bend.comes_out:
        return message("border.down-and-out", beside=beside, depth=depth, inside=rim.from_inside)
    return message("border.down", beside=beside, depth=depth)


def _joined(bend: Bend, told: list[Message], ending: Message) -> Message:
    ways = [message("border.over-the-top"), *told] if bend.over_top else told
    if bend.ending == "lies":
        joint = message("border.way-rests")
    elif not ways:
        joint = None
    else:
        several = len(ways) > 1 or len(bend.passes) > 2
        joint = message("border.way-comma") if several else message("border.way-and")
    return message("border.way", ways=Listed(tuple(ways)), joint=joint, ending=ending)


def rim_of(work: Work, border: WorkedBorder, *, row: BorderPass | None = None) -> Rim:
    """The rim a border (or one `row` of it) is worked on; what is taken together is worked as one and numbered as one."""
    settings = work.basket.pattern.settings
    together = stakes_together(work.basket, border)
    own = row.depth_mm if row is not None else None
    return Rim(
        border.count,
        "stake" if together == 1 else "pair" if together == 2 else "group",
        own if own is not None else settings.mm("border_down_depth"),
        border.spec.from_inside,
        row.through if row is not None else (),
        row.legs_mm if row is not None else None,
        work.basket.profile is None and not border.spec.foot,
    )
