"""The basket as it must be: the weave by the model's own formula, and each border laid out on a long rim without an end.

Nothing here knows an act. A border is laid stake by stake in plain stacks, read straight off the moves of the pattern, on a
rim so long that its middle knows no beginning; the middle is then bent round to a ring.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field

from tests.plan.basketry import Cell, Made, Rim

from slath.basket.courses import keeps_step
from slath.basket.model import Basket, WorkedBorder, WovenBand
from slath.basket.weave import faces_of
from slath.language.pattern import BorderPass
from slath.plan.places import Side

SIDES: dict[str, dict[str, Side]] = {
    "flat": {"before": "above", "behind": "below"},
    "round": {"before": "outside", "behind": "inside"},
}


# --------------------------------------------------------------------------------------------------------------- weave
def passes_of_band(band: WovenBand, further: int, *, held: bool = False) -> list[list[tuple[str, str]]]:
    """For every upright, what passes it on which side, from below: rod i stands at phase g - i at the upright g further on.

    Strokes of rods that twine are whole: in the m-th stroke of all it is rod m mod k that moves, and after as many strokes as
    there are uprights in all rounds every one hangs where one began (`held`: but for colours that go on in their order). With
    a step at the end of every round the last k strokes of it are made in the other order.
    """
    weave, count, rounds = band.spec.weave, band.uprights, len(band.rounds)
    sides = SIDES["flat" if band.on_sticks else "round"]
    met: list[list[tuple[int, int, str, str]]] = [[] for _ in range(count)]
    if weave.kind == "packing" or not band.materials:
        return [[] for _ in range(count)]
    if weave.kind == "french rand":
        return _set_by_set(band, sides)
    faces = faces_of(weave.strokes)
    strokes = [index for index, stroke in enumerate(weave.strokes) for _ in range(stroke.reach)]
    for rod, materials in enumerate(band.materials):
        passed = rounds * count + further
        whole = _by_whole_strokes(band) and not (held and not further and len(set(band.materials)) > 1)
        if whole:
            passed = sum(weave.cycle for move in range(passed) if move % weave.rods == rod)
        for way in range(passed):
            round_number, _ = divmod(rod + way, count)
            phase = way - band.spec.shift * (way // count)
            face = faces[phase % len(faces)]
            upright = (band.start - 1 + rod + way) % count
            for cell in (cell for cell in band.spec.cells if cell.strokes):
                if cell.rows[0] <= round_number + 1 <= cell.rows[1] and cell.stakes[0] <= upright + 1 <= cell.stakes[1]:
                    own = faces_of(cell.strokes)
                    face = own[(upright + 1 - cell.stakes[0]) % len(own)]
            turn = phase // len(faces) * len(weave.strokes) + strokes[phase % len(faces)]
            order = (way // count, rod) if weave.kind == "chase" or weave.rods == 1 else (turn, rod)
            if whole and band.spec.step_up:
                order = (_stepped(turn * weave.rods + rod, count, weave.rods), 0)
            met[upright] += [(*order, material, sides[face]) for material in materials]
    return [[(material, side) for *_, material, side in sorted(here, key=lambda one: one[:2])] for here in met]


def _by_whole_strokes(band: WovenBand) -> bool:
    """Whether a stroke of the one furthest back brings it just past the others."""
    weave = band.spec.weave
    once = len(weave.strokes) == 1 and weave.strokes[0].before + weave.strokes[0].behind == len(band.materials)
    return weave.twined and once and not band.spec.shift and not band.spec.cells and band.uprights > len(band.materials)


def _stepped(move: int, count: int, rods: int) -> int:
    """When a stroke is made, where the last ones of every round are made last first."""
    lap, place = divmod(move, count)
    return move if place < count - rods else lap * count + 2 * count - rods - 1 - place


def _set_by_set(band: WovenBand, sides: dict[str, Side]) -> list[list[tuple[str, str]]]:
    """French randing: in every round each rod makes one stroke, and every space has one rod. English: each rod makes all its
    strokes before the next, one space to its right, is begun.
    """
    count, strokes = band.uprights, band.spec.weave.strokes
    met: list[list[tuple[str, str]]] = [[] for _ in range(count)]
    begun = [sum(strokes[turn % len(strokes)].reach for turn in range(done)) for done in range(len(band.rounds))]
    made = [(turn, rod) for turn in range(len(band.rounds)) for rod in reversed(range(count))]
    if band.spec.weave.one_by_one:
        made = [(turn, rod) for rod in range(count) for turn in range(len(band.rounds))]
    for turn, rod in made:
        stroke = strokes[turn % len(strokes)]
        for step, face in enumerate(["before"] * stroke.before + ["behind"] * stroke.behind):
            upright = (band.start - 1 + rod + begun[turn] + step) % count
            met[upright].append((band.materials[rod][0], sides[face]))
    return met


def further_of(band: WovenBand, beyond: WovenBand | None) -> int:
    """How far past its whole rounds a band goes, to where the one that goes on in its strokes begins."""
    return (beyond.start - band.start) % band.uprights if beyond is not None and keeps_step(band, beyond) else 0


def rows_cover(band: WovenBand) -> list[int]:
    """How often rows that turn back pass each upright."""
    cover = [0] * band.uprights
    short = band.spec.short_rows
    if short is not None:
        spans = [
            short.row(number, place) for place in range(len(short.over)) for number in range(1, len(band.rounds) + 1)
        ]
    elif band.spec.weave.kind != "packing":  # to and fro across a frame
        return [len(band.rounds)] * band.uprights
    else:
        spans = [cell.stakes for cell in band.spec.cells for _ in range(cell.rows[0], cell.rows[1] + 1)]
    for first, last in spans:
        for step in range((last - first) % band.uprights + 1):
            cover[(first - 1 + step) % band.uprights] += 1
    return cover


def changed_between(basket: Basket, beyond: WovenBand) -> bool:
    """Whether the stakes change before a band of the side."""
    return beyond.part == "side" and any(index == beyond.index for index, _, _ in basket.changes)


# -------------------------------------------------------------------------------------------------------------- border
def rim_of(border: WorkedBorder) -> Rim:
    """The middle of a long rim, bent round."""
    count = border.count
    passed = sum(move.count for one in border.spec.passes for move in one.moves)
    margin = 3 * passed + 9
    strip = _Strip(border.spec.passes, 2 * margin + count, from_inside=border.spec.from_inside)
    rim = Rim(count)
    for (gap, side), stack in strip.stacks.items():
        if margin <= gap < margin + count:
            rim.cells[(gap - margin) % count + 1, side] = [
                ((stake - margin) % count + 1, row, turn) for stake, row, turn in stack
            ]
    for stake in range(margin, margin + count):
        gap, side, ending = strip.ends[stake]
        rim.ends[stake - margin + 1] = ((gap - margin) % count + 1, side, ending)
    return rim


@dataclass(slots=True)
class _Strip:
    passes: tuple[BorderPass, ...]
    length: int
    from_inside: bool
    stacks: dict[Cell, list[Made]] = field(default_factory=lambda: defaultdict(list))
    ends: dict[int, tuple[int, Side, str]] = field(default_factory=dict)
    down: set[int] = field(default_factory=set)
    dives: set[tuple[Cell, Made]] = field(
        default_factory=set
    )  # what goes in at the bottom of a closed space there, or ends
    leaves: set[tuple[Cell, Made]] = field(default_factory=set)  # where something leaves a face, by whatever way
    carried: set[Made] = field(default_factory=set)  # carried over or under other ends
    low: set[tuple[Cell, Made]] = field(default_factory=set)  # what came on to a face at the bottom, and runs there

    def __post_init__(self) -> None:
        for number, row in enumerate(self.passes, start=1):
            ways = [move.way for move in row.moves for _ in range(move.count)]
            last = next((move.way for move in row.moves if not move.count), "lies")
            whole = [(float(stake), stake, 0, ways, last) for stake in range(self.length)]
            if row.laid_first:
                laid = next(place for place, way in enumerate(ways) if way != ways[0])
                opens = "out" if ways[laid] == "before" else "in"
                whole = [(float(stake), stake, 0, ways[:laid], opens) for stake in range(self.length)]
                whole += [(stake + row.laid_first - 0.5, stake, 1, ways[laid:], last) for stake in range(self.length)]
            for _, stake, turn, own, ending in sorted(whole):
                _Hand(self, (stake, number, turn), ending).work(own)

    def side(self, way: str) -> Side:
        """The side of the basket: to one who looks at the inside, behind is outside."""
        inner = way == "behind"
        return "inside" if inner != self.from_inside else "outside"


class _Hand:
    """One end on its way, space by space."""

    def __init__(self, strip: _Strip, made: Made, ending: str) -> None:
        self.strip, self.made, self.ending = strip, made, ending
        self.stake = made[0]
        gap, side, _ = strip.ends.get(self.stake, (self.stake, None, ""))
        self.gap = gap
        self.side: Side | None = side
        self.beneath: list[Made] = []
        self.over_dives = False  # what it set out from beneath goes in before it, and it passes over
        self.begun = False
        self.drawn_under = self.came_low = False

    def work(self, ways: Sequence[str]) -> None:
        strip, ending = self.strip, self.ending
        came = self.side
        rolled = came is not None and ending == "down" and bool(ways) and set(ways) == {"over"}
        past_ends = rolled or (came == strip.side("behind") and bool({"over", "under"} & set(ways)))
        if past_ends:
            strip.carried.add(self.made)
        self.drawn_under = past_ends and set(ways) == {"under"}
        if came is not None:
            self._set_out()
        for way in ways:
            side = came if rolled and came else self._wanted(way, came)
            if side != self.side:
                self._through(side)
            self.begun = True
            self.gap += 1
            self._lay()
        face = {"out": strip.side("before"), "in": strip.side("behind")}.get(ending)
        if face is not None and face != self.side:
            self._through(face)
        assert self.side is not None
        strip.down.add(self.stake)
        strip.dives.add(((self.gap, self.side), self.made))
        strip.ends[self.stake] = (self.gap, self.side, "rolled" if rolled else ending)

    def _wanted(self, way: str, came: Side | None) -> Side:
        if way in {"before", "behind"}:
            return self.strip.side(way)
        inner = self.strip.side("behind")
        if came == inner == self.side:
            return inner
        return self.strip.side("before" if way == "over" else "behind")

    def _set_out(self) -> None:
        """From beneath what was laid on it; but over what was carried over it to go down just beyond."""
        assert self.side is not None
        cell = (self.gap, self.side)
        stack = self.strip.stacks[cell]
        root = max(place for place, other in enumerate(stack) if other[0] == self.stake)
        on_it = stack[root + 1 :]
        same_row = [other for other in on_it if other[1] == self.made[1] and (cell, other) not in self.strip.low]
        self.beneath = [o for o in same_row if not (o in self.strip.carried and (cell, o) in self.strip.dives)]
        self.over_dives = True
        self._insert(stack, self.beneath)

    def _lay(self) -> None:
        assert self.side is not None
        cell = (self.gap, self.side)
        stack = self.strip.stacks[cell]
        before = (self.gap - 1, self.side)
        self.beneath = [o for o in self.beneath if o in stack and (before, o) not in self.strip.leaves]
        here = self.beneath
        if self.came_low:
            self.strip.low.add((cell, self.made))
        if self.over_dives:
            here = [other for other in here if (cell, other) not in self.strip.dives]
        if self.drawn_under:
            here = [other for other in stack if other[0] != self.stake]
        self._insert(stack, here)

    def _through(self, side: Side) -> None:
        if self.side is not None:
            self.strip.leaves.add(((self.gap, self.side), self.made))
        if self.begun and self.gap + 1 in self.strip.down and self.side is not None:
            self.strip.dives.add(((self.gap, self.side), self.made))
        beneath = []
        if self.begun and self.gap + 1 in self.strip.down:
            beneath = [other for other in self.strip.stacks[self.gap, side] if other[0] != self.stake]
            self.strip.low.add(((self.gap, side), self.made))
        self.came_low = bool(self.begun and self.gap + 1 in self.strip.down)
        self.side, self.beneath, self.over_dives = side, beneath, False
        self._insert(self.strip.stacks[self.gap, side], beneath)

    def _insert(self, stack: list[Made], beneath: list[Made]) -> None:
        stack.insert(min((stack.index(other) for other in beneath), default=len(stack)), self.made)
