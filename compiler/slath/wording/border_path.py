"""The path of a border told: for any stake, for one stake by number, and for the last ones under the first loops."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from slath.basket.border_stakes import stakes_together
from slath.units.counting import in_words, listed
from slath.wording.speech import verbatim

if TYPE_CHECKING:
    from slath.basket.model import Finish, Visit, WorkedBorder, WorkedPass
    from slath.wording.work import Work

FACE = {"behind": "behind", "before": "in front of"}


@dataclass(frozen=True, slots=True)
class Rim:
    """What a border is worked on: `count` uprights called `one` and `many`, and the tail and depth its ends need."""

    count: int
    one: str
    many: str
    depth: str
    from_inside: bool = False  # the maker looks at the inside, and works to the right there

    def side(self, place: str) -> str:
        """``outside`` or ``inside`` of a basket seen from outside, as it is for this border."""
        return {"outside": "inside", "inside": "outside"}[place] if self.from_inside else place

    def number(self, number: int) -> int:
        """The number on the ring of an upright counted past the last."""
        return (number - 1) % self.count + 1

    def at(self, number: int) -> str:
        """``[stake] 3``."""
        return f"{self.one} {self.number(number)}"

    def these(self, numbers: list[int]) -> str:
        """``[stakes] 39, 40 and 1``."""
        ringed = [str(self.number(number)) for number in numbers]
        return f"{self.one if len(ringed) == 1 else self.many} {listed(ringed)}"


def general_path(worked: WorkedPass, rim: Rim) -> str:
    """The path of any stake: ``behind the next two and out to the front``."""
    runs = runs_of(worked.visits)
    if worked.ending == "rolled":
        many = len(worked.visits)
        return f"over the next {f'{in_words(many)} ends' if many > 1 else 'end'} and {ending(worked, rim, None)}"
    told = [f"{FACE[face]} the next {in_words(len(places)) if len(places) > 1 else 'one'}" for face, places in runs]
    return _joined(told, ending(worked, rim, None))


def numbered_path(worked: WorkedPass, rim: Rim, stake: int) -> str:
    """The path of one stake by number: ``behind [stakes] 2 and 3, and out to the front``."""
    if worked.ending == "rolled":
        passed = [stake + place for place in range(1, len(worked.visits) + 1)]
        return f"over the end{'s' if len(passed) > 1 else ''} of {rim.these(passed)} and {ending(worked, rim, stake)}"
    told = [f"{FACE[face]} {rim.these([stake + place for place in places])}" for face, places in runs_of(worked.visits)]
    return _joined(told, ending(worked, rim, stake))


def finishing_path(worked: WorkedPass, rim: Rim, finish: Finish) -> str:
    """The path of one of the last stakes, and the loops (in later passes the ends) it is threaded under."""
    word = "loop" if worked.number == 1 else "end"
    word = word if len(finish.under) == 1 else f"{word}s"
    path = numbered_path(worked, rim, finish.stake)
    return f"{path}. On its way it passes under the {word} of {rim.these(list(finish.under))}"


def where_it_stands(worked: WorkedPass, rim: Rim, stake: int, *, outside: bool) -> str:
    """Between which two uprights the end of a stake stands when a later pass begins, and on which face."""
    before = stake + int(worked.begins)
    lies = f"lies {rim.side('inside')}"
    return f"{'comes out' if outside else lies} between {rim.these([before, before + 1])}"


def ending(worked: WorkedPass, rim: Rim, stake: int | None) -> str:
    """How the path ends, as the last words of its sentence."""
    if worked.ending == "down":
        beside = "the last one passed" if stake is None else rim.at(stake + int(worked.ends_at))  # Gill (1916)
        through = f", and there through to the {rim.side('outside')}" if worked.spec.comes_out else ""
        if worked.spec.through:
            return f"down beside {beside} through {listed([verbatim(name) for name in worked.spec.through])}, {rim.depth} in all"
        return f"down into the weaving beside {beside}, {rim.depth} deep{through}"
    if worked.ending == "rolled":
        where = rim.side("inside" if worked.visits[-1].face == "behind" else "outside")
        return f"down {where}, where the next to be laid will hold it"
    words = {
        "out": "out to the front",
        "in": "in to the inside" if not rim.from_inside else "through to the outside",
        "lies": "there its end rests",
    }
    return words[worked.ending]


def runs_of(visits: tuple[Visit, ...]) -> list[tuple[str, list[int]]]:
    """Group stakes passed on one face, one after another, as (face, offsets)."""
    return [(face, [visit.offset for visit in run]) for face, run in groupby(visits, key=lambda visit: visit.face)]


def _joined(told: list[str], last: str) -> str:
    if last.startswith("there"):
        return f"{', '.join(told)}; {last}"
    if not told:
        return last
    comma = "," if len(told) > 1 or "," in told[0] else ""
    return f"{', '.join(told)}{comma} and {last}"


def rim_of(work: Work, border: WorkedBorder, *, depth_mm: float | None = None) -> Rim:
    """The rim a border is worked on; what is taken together is worked as one and numbered as one."""
    settings = work.basket.pattern.settings
    depth = work.voice.length(depth_mm if depth_mm is not None else settings.mm("border_down_depth"))
    together = stakes_together(work.basket, border)
    one, many = {1: ("[stake]", "[stakes]"), 2: ("pair", "pairs")}.get(together, ("group", "groups"))
    return Rim(border.count, one, many, depth, border.spec.from_inside)


def counted_rim(rim: Rim) -> str:
    """What a border is worked with: ``40 [stakes]``, ``17 pairs of [stakes]``."""
    return f"{rim.count} {rim.many}{'' if rim.one == '[stake]' else ' of [stakes]'}"
