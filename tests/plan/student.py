"""A student who knows no basket: reads only the acts, does them as they are written, and says what cannot be done."""

from __future__ import annotations

from collections import Counter, defaultdict
from functools import singledispatchmethod
from itertools import pairwise

from tests.plan.basketry import Basketry, Made, Rim

from slath.language.pattern import Stroke
from slath.plan.acts import (
    Act,
    Bend,
    BendUp,
    Bring,
    Count,
    Damp,
    DrawOut,
    DrawTight,
    Dry,
    EndStrand,
    InTurn,
    KeepSlack,
    LayIn,
    LaySpares,
    Mark,
    Plan,
    Recount,
    SetFoot,
    SetIn,
    StepUp,
    Take,
    Tie,
    TurnOver,
    Untie,
    Weave,
    WeaveBack,
    WeaveRow,
)
from slath.plan.places import Gap, Loop, Numbering, Place, Side, Strand, Upright


class Stuck(Exception):  # noqa: N818 - what the student says
    """An act that cannot be done."""


class Student:
    """`make` does a whole plan."""

    def __init__(self) -> None:
        self.made = Basketry()
        self.counted: Numbering | None = None
        self.standing: list[Upright] = []  # all that stands, in order round the work
        self.stands: dict[Strand, tuple[Upright, Side]] = {}  # the upright to the right of each strand, and its side
        self.ended: dict[Strand, tuple[Upright, Side]] = {}
        self.used: Counter[tuple[str, str]] = Counter()
        self.tied: list[str] = []
        self.damp: set[str] = set()
        self.dried: set[str] = set()
        self.bordering: Numbering | None = None
        self.slack: list[Made] = []
        self.to_keep: set[Made] = set()
        self.spares = 0
        self.marked: Upright | None = None
        self.step: dict[Upright, list[tuple[str, str]]] = defaultdict(list)

    def make(self, plan: Plan) -> Basketry:
        """Do every act, and look that nothing is left undone."""
        for step in (step for stage in plan.stages for step in stage.steps):
            self.step = self.made.by_step.setdefault(step.key, defaultdict(list))
            for act in step.acts:
                self.do(act)
        for wrong, why in (
            (self.tied, "still tied"),
            (self.slack, "left slack"),
            (self.stands, "strands not ended"),
            (self.spares, "spare lengths left in"),
        ):
            if wrong:
                raise Stuck(f"{why}: {wrong}")
        return self.made

    # ------------------------------------------------------------------------------------------------------- places
    def _units(self, numbering: Numbering) -> tuple[tuple[Upright, ...], ...]:
        if self.marked is None:
            raise Stuck("nothing is marked to count from")
        if self.counted is None or numbering != self.counted:
            raise Stuck(f"the numbers of {numbering.key!r} do not hold here")
        return self.counted.units

    def _at(self, place: Place) -> tuple[Upright, ...]:
        if not 0 < place.number <= len(self._units(place.numbering)):
            raise Stuck(f"there is no number {place.number}")
        return place.uprights

    def _right(self, gap: Gap) -> Upright:
        units = self._units(gap.numbering)
        return units[gap.number % len(units)][0]

    def _index(self, upright: Upright, units: tuple[tuple[Upright, ...], ...]) -> int:
        for index, unit in enumerate(units):
            if unit[0] == upright:
                return index
        raise Stuck(f"no space to the left of {upright}")

    def _loop(self, loop: Loop) -> Made:
        self._at(loop.of)
        return loop.of.number, loop.row, loop.turn

    # ----------------------------------------------------------------------------------------------- setting, counting
    @singledispatchmethod
    def do(self, act: Act) -> None:
        """One act."""
        raise Stuck(f"what is {act}?")

    @do.register
    def _(self, act: Take) -> None:
        self.used[act.part, act.material] += act.count

    @do.register
    def _(self, act: SetIn) -> None:
        new = [one for unit in act.numbering.units for one in unit]
        if new and new[0] in self.standing and not _within(new, self.standing):
            raise Stuck(f"{act.numbering.key!r} counts what does not stand so")
        if not new or new[0] not in self.standing:
            self.standing = new
        self.counted = act.numbering

    @do.register
    def _(self, act: Recount) -> None:
        old = list(self.standing)
        for place, upright in zip(act.beside, act.added, strict=True):
            old.insert(old.index(self._at(place)[-1]) + 1, upright)
        gone = {one for place in act.gone for one in self._at(place)}
        old = [one for one in old if one not in gone]
        new = [one for unit in act.to.units for one in unit]
        if act.why == "beside":  # bye-stakes stand with their stakes
            if [one for one in new if one in set(old)] != old or {one.kind for one in set(new) - set(old)} != {
                "bye-stake"
            }:
                raise Stuck("the bye-stakes do not stand beside their stakes")
            old = new
        whole = act.why not in {"finished", "turned over"}
        if not _within(new, old) or (whole and len(new) != len(old)):
            raise Stuck(f"the new numbers of {act.to.key!r} do not fit what stands here")
        self.standing, self.counted = (new if whole else old), act.to

    @do.register
    def _(self, act: Count) -> None:
        if self.counted != act.numbering or len(act.numbering.units) != act.number:
            raise Stuck(f"there are not {act.number}")

    @do.register
    def _(self, act: Mark) -> None:
        if act.at.numbering != self.counted or act.at.number != 1:
            raise Stuck("what is marked is not the first that is counted")
        self.marked = act.at.uprights[0]

    @do.register
    def _(self, act: Damp) -> None:
        self.damp.add(act.what)
        self.dried.discard(act.what)

    @do.register
    def _(self, act: Dry) -> None:
        self.damp.discard(act.what)
        self.dried.add(act.what)

    @do.register
    def _(self, act: BendUp) -> None:
        self._units(act.numbering)
        if "stakes" not in self.damp:
            raise Stuck("the stakes are dry")

    @do.register
    def _(self, act: Tie) -> None:
        self.tied.append(act.what)

    @do.register
    def _(self, act: Untie) -> None:
        if act.what not in self.tied:
            raise Stuck(f"the {act.what} are not tied")
        self.tied.remove(act.what)

    @do.register
    def _(self, _act: TurnOver) -> None:
        if self.stands:
            raise Stuck("strands hang from the work")

    # ------------------------------------------------------------------------------------------------------ weaving
    @do.register
    def _(self, act: LayIn) -> None:
        self.used["strand", act.strand.material] += 1
        where = (self._right(act.at), act.side)
        if act.follows is not None and self.ended.get(act.follows) != where:
            raise Stuck("the strand it goes on for did not end there")
        self.stands[act.strand] = where

    @do.register
    def _(self, act: Bring) -> None:
        if act.strand not in self.stands:
            raise Stuck("that strand is not at work")
        self.stands[act.strand] = (self._right(act.at), act.side)

    @do.register
    def _(self, act: EndStrand) -> None:
        if self.stands.get(act.strand) != (self._right(act.at), act.side):
            raise Stuck(f"the strand is not there: {self.stands.get(act.strand)}, {act}")
        self.ended[act.strand] = self.stands.pop(act.strand)

    @do.register
    def _(self, act: Weave) -> None:
        if "stakes" in self.dried:
            raise Stuck("the stakes are dry again, and are to be woven")
        units = self._units(act.on)
        firsts = [self._together(rod) for rod in act.rods]
        begin = [self._index(first, units) for first in firsts]
        count, done, phases = len(units), [0] * len(act.rods), list(act.phases)
        ahead = [(place - begin[0]) % count for place in begin]
        while any(far < travel for far, travel in zip(done, act.travels, strict=True)):
            rod = self._next(act, done, ahead, count)
            far = min(_to_stroke_end(act.strokes, phases[rod]), act.travels[rod] - done[rod])
            if act.order == "following":
                far = min(count - done[rod] % count, act.travels[rod] - done[rod])
            for _ in range(far):
                face = _face(act.strokes, phases[rod])
                index = (begin[rod] + done[rod]) % count
                face = self._instead(act, index, (ahead[rod] + done[rod]) // count + 1, face)
                self._past(units[index], act.rods[rod], act.sides[face])
                done[rod] += 1
                phases[rod] += 1
                if act.extra and not done[rod] % count:
                    phases[rod] -= act.extra
        if self._right(act.till) not in {
            units[(place + far) % count][0] for place, far in zip(begin, done, strict=True)
        }:
            raise Stuck("no strand hangs where the band is to stop")
        for rod, strands in enumerate(act.rods):
            right = units[(begin[rod] + done[rod]) % count][0]
            side = act.sides[_face(act.strokes, phases[rod] - 1)]
            for strand in strands:
                self.stands[strand] = (right, side)
        self.damp.discard("stakes")

    def _together(self, rod: tuple[Strand, ...]) -> Upright:
        places = {self.stands[strand][0] for strand in rod if strand in self.stands}
        if len(places) != 1 or any(strand not in self.stands for strand in rod):
            raise Stuck("strands that are to move as one do not hang together")
        return places.pop()

    def _next(self, act: Weave, done: list[int], ahead: list[int], count: int) -> int:
        """The one furthest back; of two that follow one another the first goes round, and then the second."""
        left = [rod for rod in range(len(act.rods)) if done[rod] < act.travels[rod]]
        if act.order == "following":
            return min(left, key=lambda rod: (done[rod] // count, rod))
        return min(left, key=lambda rod: (done[rod] + ahead[rod], rod))

    def _instead(self, act: Weave, index: int, round_number: int, face: int) -> int:
        for other in act.instead:
            first, last = (self._index(self._at(place)[0], act.on.units) for place in (other.first, other.last))
            if first <= index <= last and other.rounds[0] <= round_number <= other.rounds[1]:
                face = _face(other.strokes, index - first)
        return face

    def _past(self, unit: tuple[Upright, ...], strands: tuple[Strand, ...], side: Side) -> None:
        for upright in unit:
            met = [(strand.material, side) for strand in strands]
            self.made.woven[upright] += met
            self.step[upright] += met

    @do.register
    def _(self, act: StepUp) -> None:
        units = self._units(act.on)
        at = [self._index(self._together(rod), units) for rod in act.rods]
        if any((one - other) % len(units) != 1 for one, other in pairwise(at)):
            raise Stuck("they do not hang side by side, the one furthest ahead first")
        if units[at[0]][0] != self._right(act.at):
            raise Stuck("the one furthest ahead hangs elsewhere")
        for rod, place in zip(act.rods, at, strict=True):
            (stroke,) = act.strokes
            for step, face in enumerate([0] * stroke.before + [1] * stroke.behind):
                self._past(units[(place + step) % len(units)], rod, act.sides[face])
            for strand in rod:
                self.stands[strand] = (units[(place + stroke.reach) % len(units)][0], act.sides[1])

    @do.register
    def _(self, act: WeaveBack) -> None:
        units = self._units(act.on)
        count = len(units)
        at = [self._index(self._together((strand,)), units) for strand in act.rods]
        turns = [(turn, rod) for turn in range(act.rounds) for rod in reversed(range(len(act.rods)))]
        if act.one_by_one:
            turns = [(turn, rod) for rod in range(len(act.rods)) for turn in range(act.rounds)]
        for turn, rod in turns:
            stroke = act.strokes[turn % len(act.strokes)]
            for face in [0] * stroke.before + [1] * stroke.behind:
                self._past(units[at[rod] % count], (act.rods[rod],), act.sides[face])
                at[rod] += 1
        last = act.sides[1] if act.strokes[(act.rounds - 1) % len(act.strokes)].behind else act.sides[0]
        for rod, strand in enumerate(act.rods):
            self.stands[strand] = (units[at[rod] % count][0], last)
        self.damp.discard("stakes")

    @do.register
    def _(self, act: WeaveRow) -> None:
        units = self._units(act.first.numbering)
        first, last = (self._index(self._at(place)[0], units) for place in (act.first, act.last))
        many = (last - first) % len(units) + 1
        row = [units[(first + step) % len(units)] for step in range(many)]
        others: dict[Side, Side] = {"outside": "inside", "inside": "outside", "above": "below", "below": "above"}
        side = act.begins
        for unit in reversed(row) if act.to_left else row:
            self._past(unit, (act.strand,), side)
            side = others[side]
        right = units[first][0] if act.to_left else units[(last + 1) % len(units)][0]
        self.stands[act.strand] = (right, others[side])

    # ------------------------------------------------------------------------------------------------------- border
    @do.register
    def _(self, act: KeepSlack) -> None:
        self.to_keep = {self._loop(loop) for loop in act.loops}

    @do.register
    def _(self, act: InTurn) -> None:
        for earlier, bend in zip(act.bends, act.bends[act.each :], strict=False):
            count = bend.loop.of.numbering.count
            ways = [
                [(step.side, (step.gap.number - one.loop.of.number) % count) for step in one.steps]
                for one in (earlier, bend)
            ]
            if ways[0] != ways[1]:
                raise Stuck("this one is not like the one before")
        for bend in act.bends:
            self.do(bend)

    @do.register
    def _(self, act: Bend) -> None:
        made = self._loop(act.loop)
        if not self.damp & {"stakes", "foot ends"} or self.tied:
            raise Stuck("the stakes are dry, or tied")
        if self.bordering != act.loop.of.numbering:
            self.bordering = act.loop.of.numbering
            self.made.borders.append(Rim(self.bordering.count))
        rim = self.made.borders[-1]
        if act.loop.kind == "loop" and made[0] in rim.ends:
            raise Stuck("that one is down")
        first = act.steps[0]
        if act.loop.kind != "loop" and rim.ends.get(made[0], (0, "", ""))[:2] != (first.gap.number, first.side):
            raise Stuck(f"the end of {made[0]} is not there")
        for step in act.steps:
            self._right(step.gap)
            self._lay(rim.cells[step.gap.number, step.side], made, step.beneath, step.threaded)
        last = act.steps[-1]
        rim.ends[made[0]] = (last.gap.number, last.side, act.ending)
        if made in self.to_keep:
            self.slack.append(made)

    def _lay(self, stack: list[Made], made: Made, beneath: tuple[Loop, ...], threaded: tuple[Loop, ...]) -> None:
        """Over all that is there, but under those named; what is there because work has come round must be slack."""
        below = [self._loop(loop) for loop in (*beneath, *threaded)]
        for other in below:
            if other not in stack:
                raise Stuck(f"{other} does not lie there")
        tight = [one for one in (self._loop(loop) for loop in threaded) if one not in self.slack and not self.spares]
        if tight:
            raise Stuck(f"{tight} are tight")
        place = min((stack.index(other) for other in below), default=len(stack))
        same = {made[0], *(other[0] for other in below)}  # an end that sets out is what came to lie there still
        barred = [other for other in stack[place:] if other[0] not in same]
        if barred and not self.spares:
            raise Stuck(f"{made} cannot go under {below} and over {barred}: {stack}")
        stack.insert(place, made)

    @do.register
    def _(self, act: DrawTight) -> None:
        if [self._loop(loop) for loop in act.loops] != self.slack:
            raise Stuck("that is not what is slack, in the order it was made")
        self.slack, self.to_keep = [], set()

    @do.register
    def _(self, act: LaySpares) -> None:
        self.spares += sum(many for _, many in act.beside)

    @do.register
    def _(self, _act: DrawOut) -> None:
        if not self.spares:
            raise Stuck("there are no spare lengths")
        self.spares = 0

    # ------------------------------------------------------------------------------------------------------- on top
    @do.register
    def _(self, act: SetFoot) -> None:
        if "handle" not in self.damp:
            raise Stuck("the handle is dry")
        self.made.feet[act.handle].append(self._at(act.at)[0])


def _face(strokes: tuple[Stroke, ...], phase: int) -> int:
    """0 before, 1 behind, at so many uprights into the strokes."""
    at = phase % sum(stroke.reach for stroke in strokes)
    for stroke in strokes:
        if at < stroke.before:
            return 0
        if at < stroke.reach:
            return 1
        at -= stroke.reach
    raise Stuck("no stroke")


def _to_stroke_end(strokes: tuple[Stroke, ...], phase: int) -> int:
    at = phase % sum(stroke.reach for stroke in strokes)
    for stroke in strokes:
        if at < stroke.reach:
            return stroke.reach - at
        at -= stroke.reach
    raise Stuck("no stroke")


def _within(new: list[Upright], ring: list[Upright]) -> bool:
    """Whether uprights stand in this order round a ring, beginning anywhere."""
    if not new:
        return True
    if new[0] not in ring:
        return False
    start = ring.index(new[0])
    order = iter(ring[start:] + ring[:start])
    return all(any(other == one for other in order) for one in new)
