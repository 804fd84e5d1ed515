"""The way of an end of a border told from its acts: for any one, for one by number, and for the last ones under the first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from slath.basket.border_stakes import stakes_together
from slath.units.counting import in_spans, in_words, listed
from slath.wording.speech import verbatim

if TYPE_CHECKING:
    from collections.abc import Sequence

    from slath.basket.model import WorkedBorder
    from slath.language.pattern import BorderPass
    from slath.plan.acts import Bend, Pass
    from slath.plan.places import Loop
    from slath.wording.work import Work

FACE = {"behind": "behind", "before": "in front of"}
_OTHER = {"outside": "inside", "inside": "outside"}


@dataclass(frozen=True, slots=True)
class Rim:
    """What a border is worked on: `count` uprights called `one` and `many`, and the tail and depth its ends need."""

    count: int
    one: str
    many: str
    depth: str
    from_inside: bool = False  # the maker looks at the inside, and works to the right there
    down_through: tuple[str, ...] = ()  # names of what the ends go down through
    legs: str = ""  # how far they stand out below the base

    @property
    def near(self) -> str:
        """The side the maker looks at."""
        return "inside" if self.from_inside else "outside"

    def past(self, side: str) -> str:
        """What an end does with an upright it passes on a side of the basket, as the maker sees it."""
        return "in front of" if side == self.near else "behind"

    def through(self, side: str) -> str:
        """``in`` or ``out``, to a side; to one who looks at the inside all goes through to the outside."""
        return "out" if side == self.near else "through" if self.from_inside else "in"

    def number(self, number: int) -> int:
        """The number on the ring of an upright counted past the last."""
        return (number - 1) % self.count + 1

    def at(self, number: int) -> str:
        """``[stake] 3``."""
        return f"{self.one} {self.number(number)}"

    def these(self, numbers: Sequence[int]) -> str:
        """``[stakes] 39, 40 and 1``; many that follow one another ``[stakes] 3 to 8``."""
        ringed = [self.number(number) for number in numbers]
        return f"{self.one if len(ringed) == 1 else self.many} {in_spans(ringed)}"


def general_way(bend: Bend, rim: Rim) -> str:
    """The way of any one, told by what comes next: ``behind the next two and out to the front``."""
    told: list[str] = []
    for done, run in bend.runs:
        across = bend.entries.get(done, ())
        if across:
            told.append(f"{rim.through(run[0].side)} under {_there(across)}")
        told.append(_past_next(run, rim))
    return _joined(_over_top(bend, told), _ending(bend, rim, numbered=False))


def numbered_way(bend: Bend, rim: Rim) -> str:
    """The way of one by number: ``behind [stakes] 2 and 3, and out to the front``."""
    told: list[str] = []
    for done, run in bend.runs:
        across = bend.entries.get(done, ())
        if across:
            told.append(f"{rim.through(run[0].side)} under {those(across, rim)}")
        told.append(_past(run, rim))
    return _joined(_over_top(bend, told), _ending(bend, rim, numbered=True))


def past_uprights(bend: Bend, rim: Rim, laid: int) -> str:
    """A laid end's way on, told by the uprights that still stand: ``in front of the next upright, behind the one after``."""
    told: list[str] = []
    for _, run in bend.runs:
        standing = sum(passed.of.number > laid for passed in run)
        if standing:
            many = "upright" if standing == 1 else f"{in_words(standing)} uprights"
            after = "one" if standing == 1 else in_words(standing)
            past = rim.past(run[0].side)
            told.append(f"{past} the {after} after" if told else f"{past} the next {many}")
    return _joined(told, _ending(bend, rim, numbered=False))


def threaded_way(bend: Bend, rim: Rim) -> str:
    """The way of one of the last ones, and what it is threaded under because work has come round."""
    return f"{numbered_way(bend, rim)}. On its way it passes under {those(bend.threaded, rim)}"


def those(loops: Sequence[Loop], rim: Rim) -> str:
    """Loops, ends and rolls apart, each by number: ``the loops of [stakes] 1 and 2 and the end of [stake] 1``."""
    names = {"loop": ("the loop of", "the loops of"), "end": ("the end of", "the ends of")}
    told = []
    for kind in ("loop", "end", "roll"):
        numbers = sorted(loop.of.number for loop in loops if loop.kind == kind)
        if not numbers:
            continue
        these = rim.these(numbers)
        if kind == "roll":
            told.append(f"what the {'ends' if len(numbers) > 1 else 'end'} of {these} laid in this row")
        else:
            told.append(f"{names[kind][len(numbers) > 1]} {these}")
    return listed(told)


def where_it_stands(bend: Bend, rim: Rim) -> str:
    """Between which two uprights an end stands when a later row begins, and on which side."""
    first = bend.steps[0]
    lies = "comes out" if first.side == rim.near else f"lies {first.side}"
    return f"{lies} between {rim.these(first.gap.between)}"


def whose(bend: Bend, rim: Rim) -> str:
    """What is taken up: ``[stake] 39`` that stands upright, ``the end of [stake] 39``."""
    own = rim.at(bend.loop.of.number)
    return own if bend.loop.kind == "loop" else f"the end of {own}"


def _over_top(bend: Bend, told: list[str]) -> list[str]:
    return ["over the top of the [border]", *told] if bend.over_top else told


def _there(across: Sequence[Loop]) -> str:
    """What every one goes under alike: ``the loop that lies across``."""
    noun = "loop" if all(loop.kind == "loop" for loop in across) else "end"
    return (
        f"the {noun} that lies across" if len(across) == 1 else f"the {in_words(len(across))} {noun}s that lie across"
    )


def _past_next(run: Sequence[Pass], rim: Rim) -> str:
    many = in_words(len(run)) if len(run) > 1 else "one"
    if run[0].end:
        ends = "end that lies" if len(run) == 1 else f"{many} ends that lie"
        return f"{run[0].end} the next {ends} {run[0].side}"
    return f"{rim.past(run[0].side)} the next {many}"


def _past(run: Sequence[Pass], rim: Rim) -> str:
    these = rim.these([passed.of.number for passed in run])
    if run[0].end:
        return f"{run[0].end} the end{'s' if len(run) > 1 else ''} of {these}"
    return f"{rim.past(run[0].side)} {these}"


def _ending(bend: Bend, rim: Rim, *, numbered: bool) -> str:
    """How the way ends, as the last words of its sentence."""
    last = bend.steps[-1]
    passed = bend.passes[-1] if bend.passes else None
    if bend.ending == "rolled":
        return f"down {last.side}, where the next to be laid will hold it"
    if bend.ending == "down":
        return _down(bend, rim, numbered=numbered)
    if bend.ending == "lies":
        return "there its end rests"
    if passed is not None and passed.side == last.side:
        return f"leave its end {last.side}"
    across = bend.entries.get(len(bend.passes), ())
    under = f", under {those(across, rim) if numbered else _there(across)}" if across else ""
    to = "out to the front" if last.side == rim.near else f"{'through' if rim.from_inside else 'in'} to the {last.side}"
    return f"{to}{under}"


def _down(bend: Bend, rim: Rim, *, numbered: bool) -> str:
    """How far down an end goes, beside what, and where it comes out."""
    last = bend.steps[-1]
    passed = bend.passes[-1] if bend.passes else None
    if passed is not None and passed.end:
        beside = "beside it" if len(bend.passes) == 1 else "beside the last of them"
    else:
        beside = f"beside {rim.at(last.gap.number) if numbered else 'the last one passed'}"  # Gill (1916)
    if rim.legs:
        return f"down {beside} through the whole side and out below the base, where {rim.legs} of it stands as a leg"
    if rim.down_through:
        return f"down {beside} through {listed([verbatim(name) for name in rim.down_through])}, {rim.depth} in all"
    through = f", and there through to the {_OTHER[last.side]}" if bend.comes_out else ""
    return f"down into the weaving {beside}, {rim.depth} deep{through}"


def _joined(told: list[str], last: str) -> str:
    if last.startswith("there"):
        return f"{', '.join(told)}; {last}"
    if not told:
        return last
    comma = "," if len(told) > 1 or "," in told[0] else ""
    return f"{', '.join(told)}{comma} and {last}"


def rim_of(work: Work, border: WorkedBorder, *, row: BorderPass | None = None) -> Rim:
    """The rim a border (or one `row` of it) is worked on; what is taken together is worked as one and numbered as one."""
    settings = work.basket.pattern.settings
    depth = work.voice.length(
        row.depth_mm if row is not None and row.depth_mm is not None else settings.mm("border_down_depth")
    )
    together = stakes_together(work.basket, border)
    one, many = {1: ("[stake]", "[stakes]"), 2: ("pair", "pairs")}.get(together, ("group", "groups"))
    legs = work.voice.length(row.legs_mm) if row is not None and row.legs_mm is not None else ""
    through = row.through if row is not None else ()
    return Rim(border.count, one, many, depth, border.spec.from_inside, through, legs)


def counted_rim(rim: Rim) -> str:
    """What a border is worked with: ``40 [stakes]``, ``17 pairs of [stakes]``."""
    return f"{rim.count} {rim.many}{'' if rim.one == '[stake]' else ' of [stakes]'}"
